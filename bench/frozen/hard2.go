package frozen

import (
	"math/rand/v2"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// hard2 draws the instances that came with version 2 of the set. It depends on nothing but whole-number draws of
// PCG-DXSM, whose stream is fixed by its documentation. Never edit it: a test holds the hash of what it draws. For
// other instances, write a generator of another name.
type hard2 struct {
	r    *rand.Rand
	in   *rows.Instance
	last []int // runs of the row before
}

const (
	sixteenth2 = measure.Inch / 16
	inch2      = measure.Inch
)

// newHard2 begins an instance: planks of 36 to 72 in, shortest piece and stagger 6 to 12 in, kerf 1/8 in, grid 1/16 in.
func newHard2(part, seed uint64) *hard2 {
	r := rand.New(rand.NewPCG(seed, part))
	return &hard2{r: r, in: &rows.Instance{
		Plank: measure.Length(36+12*r.IntN(4)) * inch2, Kerf: inch2 / 8, Grid: sixteenth2,
		MinPiece: measure.Length(6+2*r.IntN(4)) * inch2, Stagger: measure.Length(6+2*r.IntN(4)) * inch2,
	}}
}

// between draws a length in whole sixteenths from lo to hi inches.
func (h *hard2) between(lo, hi int) measure.Length {
	return measure.Length(16*lo+h.r.IntN(16*(hi-lo)+1)) * sixteenth2
}

// row adds a row of runs from and to the given places; runs that overlap one of the row before touch it.
func (h *hard2) row(spans ...[2]measure.Length) {
	var here []int
	for _, s := range spans {
		i := len(h.in.Runs)
		h.in.Runs = append(h.in.Runs, rows.Run{From: s[0], Length: s[1] - s[0]})
		for _, j := range h.last {
			if a := h.in.Runs[j]; a.From < s[1] && s[0] < a.From+a.Length {
				h.in.Touch = append(h.in.Touch, [2]int{j, i})
			}
		}
		here = append(here, i)
	}
	h.last = here
}

// wall moves a wall that slants or is crooked: up to half an inch a row.
func (h *hard2) wall(slant measure.Length, row int) measure.Length {
	return slant*measure.Length(row) + measure.Length(h.r.IntN(3))*sixteenth2
}

// gap2 is a plain or angled room of 8 to 30 rows.
func gap2(seed uint64) *rows.Instance {
	h := newHard2(21, seed)
	wide, slant := h.between(90, 300), measure.Length(h.r.IntN(8))*sixteenth2
	for row := range 8 + h.r.IntN(23) {
		h.row([2]measure.Length{0, wide + h.wall(slant, row)})
	}
	return h.in
}

// cycle2 is a room of 10 to 26 rows with two to four things in the way, each two to five rows deep.
func cycle2(seed uint64) *rows.Instance {
	h := newHard2(22, seed)
	wide, n := h.between(180, 420), 10+h.r.IntN(17)
	type thing struct {
		from, to    measure.Length
		first, last int
	}
	var things []thing
	for k := range 2 + h.r.IntN(3) {
		at := h.between(30, 60) + measure.Length(k)*h.between(60, 110)
		first := 1 + h.r.IntN(n-6)
		things = append(things, thing{at, at + h.between(12, 36), first, first + 1 + h.r.IntN(4)})
	}
	for row := range n {
		end := wide + h.wall(0, row)
		spans := [][2]measure.Length{{0, end}}
		for _, t := range things {
			if row < t.first || row > t.last {
				continue
			}
			last := &spans[len(spans)-1]
			if t.from > last[0]+12*inch2 && t.to < end-12*inch2 {
				spans = append(spans, [2]measure.Length{t.to, last[1]})
				last = &spans[len(spans)-2]
				last[1] = t.from
			}
		}
		h.row(spans...)
	}
	return h.in
}

// closet2 is a dwelling in one: two to four fields of 3 to 8 rows, most no wider than a plank, besides a room.
func closet2(seed uint64) *rows.Instance {
	h := newHard2(23, seed)
	wide := h.between(100, 220)
	for row := range 8 + h.r.IntN(8) {
		h.row([2]measure.Length{0, wide + h.wall(0, row)})
	}
	for range 2 + h.r.IntN(3) {
		h.last = nil
		narrow := h.between(14, int(h.in.Plank/inch2)+20)
		slant := measure.Length(h.r.IntN(4)) * sixteenth2
		for row := range 3 + h.r.IntN(6) {
			h.row([2]measure.Length{0, narrow + h.wall(slant, row)})
		}
	}
	return h.in
}

// hand2 is a room that some of lies already: the first row has joints beside it, two to six offcuts are on hand.
func hand2(seed uint64) *rows.Instance {
	h := newHard2(24, seed)
	wide := h.between(80, 220)
	for row := range 5 + h.r.IntN(12) {
		h.row([2]measure.Length{0, wide + h.wall(0, row)})
	}
	first := &h.in.Runs[0]
	for x := h.between(int(h.in.MinPiece/inch2), int(h.in.Plank/inch2)); x < first.Length; x += h.in.Plank {
		first.Beside = append(first.Beside, x)
	}
	for range 2 + h.r.IntN(5) {
		end := []rows.End{rows.EndLeft, rows.EndRight, rows.EndNone}[h.r.IntN(3)]
		h.in.Offcuts = append(h.in.Offcuts, rows.Offcut{Length: h.between(8, int(h.in.Plank/inch2)-4), End: end})
	}
	if h.r.IntN(2) == 0 { // a closet besides
		h.last = nil
		narrow := h.between(14, int(h.in.Plank/inch2))
		for row := range 3 + h.r.IntN(4) {
			h.row([2]measure.Length{0, narrow + h.wall(0, row)})
		}
	}
	return h.in
}

// block2 is a wide floor of 20 to 60 rows with columns, and closets besides.
func block2(seed uint64) *rows.Instance {
	h := newHard2(25, seed)
	wide, every := h.between(300, 700), 4+h.r.IntN(4)
	column, apart := h.between(10, 24), h.between(70, 130)
	slant := measure.Length(h.r.IntN(3)) * sixteenth2
	for row := range 20 + h.r.IntN(41) {
		end := wide + h.wall(slant, row)
		var spans [][2]measure.Length
		from := measure.Length(0)
		if row%every >= every-2 {
			for at := apart; at+column < end-apart/2; at += apart {
				spans = append(spans, [2]measure.Length{from, at})
				from = at + column
			}
		}
		h.row(append(spans, [2]measure.Length{from, end})...)
	}
	for range 1 + h.r.IntN(3) {
		h.last = nil
		narrow := h.between(14, int(h.in.Plank/inch2))
		for row := range 4 + h.r.IntN(8) {
			h.row([2]measure.Length{0, narrow + h.wall(0, row)})
		}
	}
	return h.in
}

// big2 is a hall of 1,000 to 2,000 rows, every other one with a slanted wall.
func big2(seed uint64) *rows.Instance {
	h := newHard2(26, seed)
	wide := h.between(400, 1200)
	slant := measure.Length(seed%2) * sixteenth2
	for row := range 1000 + 250*h.r.IntN(5) {
		h.row([2]measure.Length{0, wide + slant*measure.Length(row)})
	}
	return h.in
}
