package counts

import (
	"math/rand/v2"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Lot is one run of a walk, not yet a certain one of its kind.
type Lot struct {
	Kind    int            // index of Table.Kinds
	Starter measure.Length // 0 in one piece
	Host    int            // of a one-piece run: the lot whose starter or piece it lies beside; -1 for none
}

// a leg is a run of a walk read backwards: the point it leads to must be as good as need.
type leg struct {
	kind int
	need point
}

// latest is the worst point from which a run or an offcut of kind k still leads to one as good as x.
func (f *Floor) latest(k int, x point) point {
	in, kind := f.in, &f.Kinds[k]
	if kind.hand != "" {
		return f.latestHand(kind, x)
	}
	p, r := x.planks(), x.left()
	l, w := in.Plank, kind.Length
	opened := kind.opened
	from := at(p-1-opened.planks(), 0)
	if opened.left() < r {
		from = at(p-2-opened.planks(), 0)
	}
	if kind.Single {
		need := w
		if r > 0 {
			need = r + w + in.Kerf
		}
		if need <= l {
			from = max(from, at(p, need))
		} else {
			from = max(from, at(p-1, w))
		}
	}
	for _, seg := range kind.Segments {
		n := int64(seg.Field) + 1
		if s, ok := f.least(k, seg, r); ok {
			from = max(from, at(p-n, s))
		} else {
			from = max(from, at(p-n-1, seg.Lo))
		}
	}
	return from
}

// least is the shortest starter of the stretch that leaves r.
func (f *Floor) least(k int, seg starters.Segment, r measure.Length) (measure.Length, bool) {
	in := f.in
	s := r - (measure.Length(seg.Field+1)*in.Plank - f.Kinds[k].Length - in.Kerf)
	if r <= 0 || s <= seg.Lo {
		return seg.Lo, true
	}
	if seg.Lo < seg.Hi {
		s = (s + in.Grid - 1) / in.Grid * in.Grid
	} else {
		s = max(s, seg.Hi)
	}
	return s, s <= seg.Hi
}

// latestHand is latest for an offcut on hand.
func (f *Floor) latestHand(kind *Kind, need point) point {
	p, r := need.planks(), need.left()
	from := need
	if r <= kind.Length {
		from = max(from, at(p, 0))
	}
	if kind.hand == rows.EndLeft {
		lost := f.in.Plank - kind.Length
		from = max(from, at(p, lost-f.in.Kerf)) // one plank less is better, whatever it leaves
		switch {
		case r == 0:
			from = max(from, at(p+1, lost-f.in.Kerf))
		case r <= kind.Length:
			from = max(from, at(p+1, r+lost))
		}
	}
	return from
}

// lay makes a walk of its legs, which are in backward order, after the given number of planks, and appends its lots. A
// starter is the longest there is half the time, else any that leaves what the legs after it need.
func (f *Floor) lay(j int, before int64, legs []leg, lots []Lot, rng *rand.Rand) []Lot {
	first, x := len(lots), at(before, 0)
	ring := f.starts[j].kind >= 0
	if ring {
		x = f.starts[j].next + point(before<<32)
		lots = append(lots, Lot{f.starts[j].kind, f.starts[j].starter, -1})
		legs = legs[:len(legs)-1]
	}
	var beside []int // one-piece runs on the plank that the next starter may come from
	share := func(host int) {
		for _, i := range beside {
			if i != host {
				lots[i].Host = host
			}
		}
		beside = beside[:0]
	}
	flush := func() {
		if len(beside) > 0 {
			share(beside[0])
		}
	}
	for n := len(legs) - 1; n >= 0; n-- {
		k, need := legs[n].kind, legs[n].need
		kind := &f.Kinds[k]
		if kind.hand != "" {
			flush()
			x = f.step(k, x)
			continue
		}
		seg := kind.segment(x.left())
		if seg == nil && (!kind.Single || kind.Length > x.left()) {
			flush()
			x = at(x.planks()+1, f.in.Plank)
			seg = kind.segment(x.left())
		}
		if kind.Single && kind.Length <= x.left() {
			beside = append(beside, len(lots))
			lots = append(lots, Lot{k, 0, -1})
			x = f.step(k, x)
			continue
		}
		share(len(lots))
		most := longest(f.in, *seg, x.left())
		next := kind.after(f.in, *seg, at(x.planks(), most))
		if least, ok := f.least(k, *seg, need.left()); rng.IntN(2) == 0 && (ok || next.planks() < need.planks()) {
			if next.planks() < need.planks() {
				least = seg.Lo
			}
			if least < most {
				most = least + measure.Length(rng.IntN(int((most-least)/f.in.Grid)+1))*f.in.Grid
				next = kind.after(f.in, *seg, at(x.planks(), most))
			}
		}
		lots = append(lots, Lot{k, most, -1})
		x = next
	}
	if ring && x.left() >= f.starts[j].starter {
		share(first)
	}
	flush()
	return lots
}
