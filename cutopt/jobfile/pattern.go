package jobfile

import (
	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
)

const patternHint = "write irregular, halves, thirds, quarters, or a list of starters such as [16 in, 1/3 plank, plank]"

// A starter is an item of a pattern, to be read when plank and grid are known.
type starter struct {
	node *yaml.Node
	path string
	text string
}

// pattern notes the pattern: a word or starters in one text, or a list of starters.
func (d *decoder) pattern(n *yaml.Node, path string) {
	target := n
	if n.Kind == yaml.AliasNode {
		target = n.Alias
	}
	if target.Kind != yaml.SequenceNode {
		if n, s, ok := d.text(n, path, patternHint); ok {
			d.named = &starter{n, path, s}
		}
		return
	}
	d.items(n, path, patternHint, func(n *yaml.Node, path string) {
		if n, s, ok := d.text(n, path, lengthHint+", or a part such as 1/3 plank"); ok {
			d.starters = append(d.starters, starter{n, path, s})
		}
	})
	if len(target.Content) == 0 {
		d.fail(n, path, "a pattern has at least one starter", patternHint)
	}
}

// setPattern reads what pattern has noted. Where the plank or the grid could not be read it does nothing.
func (d *decoder) setPattern() {
	job := d.file.Job
	plank, grid := job.Plank.Length, job.Rules.Grid
	if plank <= 0 || plank > cutopt.MaxLength || grid <= 0 {
		return
	}
	if s := d.named; s != nil {
		var err error
		job.Pattern, err = cutopt.ParsePattern(s.text, job.Unit, plank, grid)
		d.refused(s.node, s.path, err)
	}
	for _, s := range d.starters {
		x, err := cutopt.ParseStarter(s.text, job.Unit, plank, grid)
		if d.refused(s.node, s.path, err) {
			x = plank // the others keep their places
		}
		job.Pattern = append(job.Pattern, x)
	}
}
