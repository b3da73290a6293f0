package oracle

import (
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Fewest returns the fewest new planks of a tiny instance over all layouts that keep the rules, each cut up in every
// way, or -1 where none does. It takes as many steps as there are layouts, times those of packing each.
func Fewest(in *rows.Instance) int {
	best := -1
	layout := make(rows.Layout, len(in.Runs))
	var lay func(i int)
	lay = func(i int) {
		if i == len(layout) {
			if in.Check(layout) == nil {
				if n := packed(in, layout, best); best < 0 || n < best {
					best = n
				}
			}
			return
		}
		for s := range in.Plank + 1 {
			if _, ok := in.Lay(i, s); ok {
				layout[i] = s
				lay(i + 1)
			}
		}
	}
	lay(0)
	return best
}

// A board is a plank, or an offcut on hand, being filled.
type board struct {
	left           measure.Length // for one more piece and its kerf; a kerf more than is there at first
	starter, ender bool           // it has one, or is an offcut without that end
}

// packed returns the fewest new planks for the pieces of a layout, or most where they are no fewer, by trying every
// piece on every board: at most one starter and one ender on each, singles anywhere, a kerf between pieces.
func packed(in *rows.Instance, layout rows.Layout, most int) int {
	type part struct {
		role rows.Role
		size measure.Length
	}
	var parts []part
	whole := 0
	for i, s := range layout {
		p, _ := in.Lay(i, s)
		whole += p.Field
		for _, q := range []part{{rows.RoleStarter, p.Starter}, {rows.RoleEnder, p.Ender}, {
			rows.RoleSingle,
			p.Single,
		}} {
			if q.size > 0 {
				parts = append(parts, q)
			}
		}
	}
	var boards []board
	for _, o := range in.Offcuts {
		boards = append(boards, board{o.Length + in.Kerf, o.End != rows.EndRight, o.End != rows.EndLeft})
	}
	best, used := len(parts), 0
	if most >= 0 {
		best = min(best, most-whole)
	}
	var place func(k int)
	place = func(k int) {
		if used >= best {
			return
		}
		if k == len(parts) {
			best = used
			return
		}
		q := parts[k]
		starter, ender := q.role == rows.RoleStarter, q.role == rows.RoleEnder
		for i, b := range boards {
			if b.left < q.size+in.Kerf || starter && b.starter || ender && b.ender {
				continue
			}
			boards[i] = board{b.left - q.size - in.Kerf, b.starter || starter, b.ender || ender}
			place(k + 1)
			boards[i] = b
		}
		boards = append(boards, board{in.Plank - q.size, starter, ender})
		used++
		place(k + 1)
		used--
		boards = boards[:len(boards)-1]
	}
	place(0)
	return whole + best
}
