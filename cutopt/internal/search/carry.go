package search

import (
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Carry lays the runs the way the trade does, each starting with the offcut of the run before: at full length where the
// rules allow, else sawn back to the longest starter that keeps them, else with a new plank. It reports false when it
// comes to a run that has no starter left. It takes O(runs * grid lines of a plank).
func Carry(t *starters.Table) (rows.Layout, bool) {
	in := t.Instance
	layout := make(rows.Layout, len(in.Runs))
	joints := make([]int, len(in.Runs))
	offcut := measure.Length(0)
	for i := range in.Runs {
		s, ok := longest(t, i, offcut, layout, joints)
		if !ok || s > offcut {
			if s, ok = longest(t, i, in.Plank, layout, joints); !ok {
				return nil, false
			}
		}
		p, _ := in.Lay(i, s)
		layout[i], joints[i] = s, p.Joints()
		last := p.Ender
		if s == 0 {
			last = p.Single
		}
		offcut = max(in.Plank-last-in.Kerf, 0)
	}
	return layout, true
}

// longest returns the longest starter of run i up to most that clashes with no neighbour laid before it.
func longest(t *starters.Table, i int, most measure.Length, layout rows.Layout, joints []int) (measure.Length, bool) {
	in, cl := t.Instance, t.Of(i)
	if cl.Single {
		return 0, true
	}
	for k := len(cl.Segments) - 1; k >= 0; k-- {
		seg := cl.Segments[k]
		for s := min(seg.Hi, most/in.Grid*in.Grid); s >= seg.Lo; s -= in.Grid {
			clash := false
			for _, tie := range t.Ties[i] {
				if tie.Run < i && in.Clash(s, seg.Joints(), tie.Delta+layout[tie.Run], joints[tie.Run]) {
					clash = true
					break
				}
			}
			if !clash {
				return s, true
			}
		}
	}
	return 0, false
}
