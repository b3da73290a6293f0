package frozen

import (
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// home3 draws an instance of version 3: a home laid from the same boxes, two to four rooms, the first of which may have
// a wing or a chimney, two to five closets, and a hall: many short runs. Like hard2 it is never edited.
func home3(seed uint64) *rows.Instance {
	h := newHard2(31, seed)
	wide, n := h.between(120, 300), 10+h.r.IntN(23)
	wing, from := h.between(40, 110), 2+h.r.IntN(n-4)
	kind, deep := h.r.IntN(3), 2+h.r.IntN(6)
	for row := range n {
		switch {
		case kind == 0 && row >= from: // the wing of an L
			h.row([2]measure.Length{0, wing})
		case kind == 1 && row >= from && row < min(from+deep, n-1): // a chimney
			h.row([2]measure.Length{0, wing}, [2]measure.Length{wing + 24*inch2, wide + 30*inch2})
		case kind == 1:
			h.row([2]measure.Length{0, wide + 30*inch2})
		default:
			h.row([2]measure.Length{0, wide})
		}
	}
	field := func(n int, wide measure.Length) {
		h.last = nil
		for range n {
			h.row([2]measure.Length{0, wide})
		}
	}
	for range 1 + h.r.IntN(3) {
		field(8+h.r.IntN(14), h.between(90, 180))
	}
	for range 2 + h.r.IntN(4) {
		field(3+h.r.IntN(4), h.between(22, 60))
	}
	field(4+h.r.IntN(20), h.between(36, 46))
	return h.in
}
