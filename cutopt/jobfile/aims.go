package jobfile

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
)

// aims reads the list of aims, or none.
func (d *decoder) aims(n *yaml.Node, path string) {
	var names []string
	for _, a := range cutopt.DefaultAims() {
		names = append(names, a.String())
	}
	hint := "write a list with any of " + strings.Join(names, ", ") + ", the most important first, or none"
	target := n
	if n.Kind == yaml.AliasNode {
		target = n.Alias
	}
	job := d.file.Job
	if target.Kind == yaml.ScalarNode {
		if n, s, ok := d.text(n, path, hint); ok && s != "none" {
			d.fail(n, path, "this is no list of aims", hint)
		}
		job.Aims = []cutopt.Aim{}
		return
	}
	job.Aims = []cutopt.Aim{}
	d.items(n, path, hint, func(n *yaml.Node, path string) {
		d.word(names, func(word string) {
			var a cutopt.Aim
			if a.UnmarshalText([]byte(word)) != nil || slices.Contains(job.Aims, a) {
				d.fail(n, path, "each aim comes once", "drop the second")
				return
			}
			job.Aims = append(job.Aims, a)
		})(n, path)
	})
}

// aims writes the list of aims.
func (e *encoder) aims(aims []cutopt.Aim) *yaml.Node {
	if len(aims) == 0 {
		return plain("none")
	}
	out := list(yaml.FlowStyle)
	for _, a := range aims {
		out.Content = append(out.Content, plain(a.String()))
	}
	return out
}
