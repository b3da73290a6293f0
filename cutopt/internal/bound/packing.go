package bound

import (
	"cmp"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// packing puts the pieces of one-piece runs on planks that they fit on by their places: a piece goes where the least is
// left before it. As places never overlap on one plank, a mixture of one layout with whole flows is cut up so exactly.
func packing(in *rows.Instance, layout rows.Layout, places []measure.Length) rows.Packing {
	if places == nil {
		return nil
	}
	type board struct {
		used measure.Length
		host int
	}
	var boards []board // ascending in used
	insert := func(b board) {
		k, _ := slices.BinarySearchFunc(boards, b, func(x, y board) int { return cmp.Compare(x.used, y.used) })
		boards = slices.Insert(boards, k, b)
	}
	out := make(rows.Packing, len(layout))
	var pieces []int
	for i, s := range layout {
		out[i] = -1
		switch {
		case s == 0 && in.Runs[i].Length < in.Plank:
			pieces = append(pieces, i)
		case s > 0 && s < in.Plank:
			boards = append(boards, board{s, i})
		}
	}
	slices.SortFunc(
		boards,
		func(x, y board) int { return cmp.Or(cmp.Compare(x.used, y.used), cmp.Compare(x.host, y.host)) },
	)
	slices.SortFunc(pieces, func(x, y int) int { return cmp.Or(cmp.Compare(places[x], places[y]), cmp.Compare(x, y)) })
	for _, i := range pieces {
		room := board{used: places[i] - in.Kerf + 1}
		k, _ := slices.BinarySearchFunc(boards, room, func(x, y board) int { return cmp.Compare(x.used, y.used) })
		if k == 0 {
			insert(board{in.Runs[i].Length, i})
			continue
		}
		b := boards[k-1]
		boards = slices.Delete(boards, k-1, k)
		out[i] = b.host
		insert(board{b.used + in.Kerf + in.Runs[i].Length, b.host})
	}
	return out
}
