package strips

import (
	"cmp"
	"errors"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A stretch is a run with the floor in it.
type stretch struct {
	patches []patch // by where they begin
	reach   []int64 // by patch: how far to the right it and those before it reach
	twice   int64   // twice its area
	full    bool    // it is the whole rectangle
}

func newStretch(p part, lost, height int64) stretch {
	s := stretch{patches: p.patches, twice: p.twice - lost, full: p.twice-lost == 2*(p.to-p.from)*height}
	if s.full {
		s.patches = nil
		return s
	}
	slices.SortFunc(s.patches, func(a, b patch) int {
		return cmp.Or(cmp.Compare(a.left(), b.left()), cmp.Compare(a.low, b.low))
	})
	s.reach = make([]int64, len(s.patches))
	for i := range s.patches {
		s.reach[i] = s.patches[i].right()
		if i > 0 {
			s.reach[i] = max(s.reach[i], s.reach[i-1])
		}
	}
	return s
}

// hidden is the width up to which slivers are dropped: what the trim covers, and in any case the tolerance of places.
func hidden(l *Layout) int64 { return max(int64(l.Cover)-1, 8) }

// rows cuts the region at the lines.
func (r *region) rows(clock *poll, lines []int64, most int) ([][]patch, error) {
	n := len(lines) - 1
	strips, first := make([][]patch, n), make([]patch, n)
	for k := range strips {
		strips[k] = first[k : k : k+1] // most rows take one
	}
	parts := 0
	for i := range r.cells {
		c := &r.cells[i]
		k, found := slices.BinarySearch(lines, c.from)
		if !found {
			k = max(k-1, 0) // cells without area may lie beyond the lines
		}
		for ; k < n && lines[k] < c.to; k++ {
			if parts++; parts > 2*most {
				return nil, ErrTooLarge
			}
			if err := clock.spend(1); err != nil {
				return nil, err
			}
			if p := r.patch(c, max(c.from, lines[k]), min(c.to, lines[k+1])); p.twice() > 0 {
				strips[k] = append(strips[k], p)
			}
		}
	}
	return strips, nil
}

// A band is a row of floor as it is laid: parts that run from wall to wall, without what the trim hides.
type band struct {
	parts   []part
	ends    []int64 // by part: twice the area beyond ends that are cut square
	slivers int     // strips left out
	lost    int64   // twice their area
}

// band makes a row of its floor.
func (s *strip) band(patches []patch) band {
	var b band
	bare, strips, lost := s.bared(patches)
	b.slivers, b.lost = strips, lost
	parts, dropped, laned := s.parts(bare)
	for _, d := range dropped {
		b.slivers++
		b.lost += d.twice
	}
	for _, p := range parts {
		end := int64(0)
		if !laned { // where a lane ends at an opening no trim hides what a square cut leaves
			p, end = s.squared(p)
		}
		b.parts, b.ends = append(b.parts, p), append(b.ends, end)
	}
	return b
}

// slice cuts the region at the lines and gathers the runs of each row. Slivers are dropped and told of.
func (f *Floor) slice(clock *poll, reg *region, lines []int64, l *Layout) error {
	most := cmp.Or(l.MaxPieces, MaxPieces)
	rows, err := reg.rows(clock, lines, most)
	if errors.Is(err, ErrTooLarge) {
		return f.large(most)
	} else if err != nil {
		return err
	}
	slivers, pieces := 0, 0
	var lost measure.Area
	for k, patches := range rows {
		if err := clock.spend(8 * (1 + len(patches))); err != nil {
			return err
		}
		s := strip{lines[k], lines[k+1], hidden(l), f.rooms, notch(l)}
		b := s.band(patches)
		slivers += b.slivers
		lost += measure.Area(b.lost / 2)
		row := Row{From: measure.Length(s.low), To: measure.Length(s.high)}
		var in []stretch
		for i, r := range b.parts {
			row.Runs = append(row.Runs, Run{measure.Length(r.from), measure.Length(r.to)})
			if pieces++; l.Length > 0 {
				pieces += int((r.to - r.from - 1) / int64(l.Length))
			}
			if pieces > most {
				return f.large(most)
			}
			in = append(in, newStretch(r, b.ends[i], s.high-s.low))
		}
		f.Rows, f.stretches = append(f.Rows, row), append(f.stretches, in)
		slivers += f.dropEmpty(len(f.Rows) - 1)
	}
	for len(f.Rows) > 0 && len(f.Rows[0].Runs) == 0 {
		f.Rows, f.stretches = f.Rows[1:], f.stretches[1:]
	}
	for m := len(f.Rows); m > 0 && len(f.Rows[m-1].Runs) == 0; m-- {
		f.Rows, f.stretches = f.Rows[:m-1], f.stretches[:m-1]
	}
	if slivers > 0 {
		f.tell(cutopt.Fact{Kind: cutopt.FactSlivers, Count: slivers, Most: measure.Length(hidden(l) + 1), Area: lost})
	}
	return nil
}

// A part is floor of a strip that hangs together.
type part struct {
	from, to, low, high, twice int64
	patches                    []patch
}

// gather joins the patches of a strip that hang together, drops parts that are at most as wide as hidden in either
// direction, and joins parts whose extents overlap.
func gather(patches []patch, hidden int64) (parts, dropped []part) {
	for _, p := range connected(patches) {
		if p.to-p.from <= hidden || p.high-p.low <= hidden {
			dropped = append(dropped, p)
		} else {
			parts = append(parts, p)
		}
	}
	slices.SortFunc(parts, func(a, b part) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to), cmp.Compare(a.low, b.low))
	})
	out := parts[:0]
	for _, p := range parts {
		if n := len(out); n > 0 && p.from < out[n-1].to {
			q := &out[n-1]
			q.to, q.low, q.high = max(q.to, p.to), min(q.low, p.low), max(q.high, p.high)
			q.twice += p.twice
			q.patches = append(q.patches, p.patches...)
			continue
		}
		out = append(out, p)
	}
	return out, dropped
}

// connected returns the parts of a strip: patches hang together where they share a stretch of a level boundary.
func connected(patches []patch) []part {
	slices.SortFunc(patches, func(a, b patch) int {
		return cmp.Or(cmp.Compare(a.low, b.low), cmp.Compare(a.left0, b.left0), cmp.Compare(a.left1, b.left1))
	})
	root := make([]int, len(patches))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for i := range patches {
		p := &patches[i]
		// Patches that begin at one height lie beside each other there.
		from, _ := slices.BinarySearchFunc(patches, p, func(q patch, p *patch) int {
			return cmp.Or(cmp.Compare(q.low, p.high), cmp.Compare(q.right0, p.left1+1))
		})
		for j := from; j < len(patches) && patches[j].low == p.high && patches[j].left0 < p.right1; j++ {
			if q := &patches[j]; min(p.right1, q.right0) > max(p.left1, q.left0) {
				a, b := find(i), find(j)
				root[max(a, b)] = min(a, b)
			}
		}
	}
	index := make(map[int]int)
	var parts []part
	for i := range patches {
		p := &patches[i]
		r := find(i)
		k, ok := index[r]
		if !ok {
			k = len(parts)
			index[r] = k
			parts = append(parts, part{from: p.left0, to: p.right0, low: p.low, high: p.high})
		}
		q := &parts[k]
		q.from, q.to = min(q.from, p.left0, p.left1), max(q.to, p.right0, p.right1)
		q.low, q.high = min(q.low, p.low), max(q.high, p.high)
		q.twice += p.twice()
		q.patches = append(q.patches, *p)
	}
	return parts
}

// solid reports whether a stretch holds so much floor that no rounding of its corners takes it away.
func (s *stretch) solid() bool {
	round := int64(0) // a tick along all edges of its patches
	for i := range s.patches {
		p := &s.patches[i]
		round += 4 * (p.right() - p.left() + p.high - p.low)
	}
	return s.twice > round
}

// dropEmpty removes the runs of a row that hold less than half a square tick of floor, and returns how many.
func (f *Floor) dropEmpty(row int) int {
	runs, in := f.Rows[row].Runs, f.stretches[row]
	n := 0
	for k, run := range runs {
		if in[k].full || in[k].solid() {
			runs[n], in[n] = runs[k], in[k]
			n++
			continue
		}
		if _, area := f.Clip(row, k, run.From, run.To); area > 0 {
			runs[n], in[n] = runs[k], in[k]
			n++
		}
	}
	f.Rows[row].Runs, f.stretches[row] = runs[:n], in[:n]
	return len(runs) - n
}
