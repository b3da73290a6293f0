package jobfile

import (
	"errors"

	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

const patternHint = "write irregular, halves, thirds, quarters, or a list of starters such as [16 in, 1/3 plank, plank]"

// A starter is an item of a pattern, to be read when plank and grid are known.
type starter struct {
	node *yaml.Node
	path string
	text string
}

// pattern notes the pattern.
func (d *decoder) pattern(n *yaml.Node, path string) {
	target := n
	if n.Kind == yaml.AliasNode {
		target = n.Alias
	}
	if target.Kind == yaml.SequenceNode {
		d.items(n, path, patternHint, func(n *yaml.Node, path string) {
			if n, s, ok := d.text(n, path, lengthHint+", or a part such as 1/3 plank"); ok {
				d.starters = append(d.starters, starter{n, path, s})
			}
		})
		if len(target.Content) == 0 {
			d.fail(n, path, "a pattern has at least one starter", patternHint)
		}
		return
	}
	d.word([]string{"irregular", "halves", "thirds", "quarters"}, func(word string) { d.named = word })(n, path)
}

// setPattern reads what pattern has noted. Where the plank or the grid could not be read it does nothing.
func (d *decoder) setPattern() {
	job := d.file.Job
	plank, grid := job.Plank.Length, job.Rules.Grid
	if plank <= 0 || plank > cutopt.MaxLength || grid <= 0 {
		return
	}
	if d.named != "" {
		job.Pattern, _ = cutopt.ParsePattern(d.named, job.Unit, plank, grid)
	}
	for _, s := range d.starters {
		x, err := cutopt.ParseStarter(s.text, job.Unit, plank, grid)
		var wrong *cutopt.FieldError
		var pe *measure.ParseError
		switch {
		case errors.As(err, &pe):
			d.parseError(s.node, s.path, 0, err)
			x = plank // the others keep their places
		case errors.As(err, &wrong):
			d.fail(s.node, s.path, wrong.Rule, wrong.Hint)
			x = plank
		}
		job.Pattern = append(job.Pattern, x)
	}
}
