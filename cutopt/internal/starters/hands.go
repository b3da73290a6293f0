package starters

import (
	"cmp"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// hands lists the offcuts that some run can use, as far as it can: where no run can be one piece of an offcut, only a
// starter or an ender is cut from it, and what is longer than the longest of these serves nothing. Of each end only so
// many count, the longest, as there are runs that one piece each could be cut for. It takes O(offcuts * segments).
func hands(t *Table) []Hand {
	in := t.Instance
	most := make(map[rows.End]int)
	for i := range in.Runs {
		most[rows.EndLeft]++
		if in.Runs[i].Starter < in.Plank {
			most[rows.EndRight]++
		}
		if in.MayBeSingle(i) {
			most[rows.EndNone]++
		}
	}
	offcuts := slices.Clone(in.Offcuts)
	slices.SortStableFunc(offcuts, func(a, b rows.Offcut) int { return cmp.Compare(b.Length, a.Length) })
	var out []Hand
	for _, o := range offcuts {
		if most[o.End]--; most[o.End] < 0 {
			continue
		}
		x := t.usable(o)
		switch {
		case x == 0:
		case o.End == rows.EndLeft:
			out = append(out, Hand{in.Plank - in.Kerf - x, in.Plank})
		default:
			out = append(out, Hand{0, x})
		}
	}
	return out
}

// usable returns how much of an offcut some run can use.
func (t *Table) usable(o rows.Offcut) measure.Length {
	in := t.Instance
	best := measure.Length(0)
	for c := range t.Classes {
		cl := &t.Classes[c]
		if cl.Single && cl.Length <= o.Length {
			return o.Length
		}
		for _, seg := range cl.Segments {
			switch o.End {
			case rows.EndRight:
				if seg.Lo <= o.Length {
					best = max(best, seg.last(o.Length, in.Grid))
				}
			case rows.EndLeft:
				ends := cl.Length - measure.Length(seg.Field)*in.Plank // where the ender ends, from the starter's left end
				if s := seg.first(ends-o.Length, in.Grid); s <= seg.Hi {
					best = max(best, ends-s)
				}
			}
		}
	}
	return best
}

// last returns the longest starter of the segment that is at most x, which is not below Lo.
func (s Segment) last(x, grid measure.Length) measure.Length {
	if s.Lo == s.Hi || x >= s.Hi {
		return s.Hi
	}
	return x / grid * grid
}

// first returns the shortest starter of the segment that is at least x, or something longer than Hi.
func (s Segment) first(x, grid measure.Length) measure.Length {
	if x <= s.Lo {
		return s.Lo
	}
	return (x + grid - 1) / grid * grid
}
