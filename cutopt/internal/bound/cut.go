package bound

import (
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// A cut is what one layout of a part of the floor pays under every dual solution: a, plus for each threshold the weight
// of its step times H, plus for each constraint of the branch its multiplier times the excess.
type cut struct {
	part   int
	a      float64
	jumps  []jump           // H(t) is the sum of the jumps at t or later; ascending in index
	excess []float64        // by constraint, positive where the layout breaks it
	layout rows.Layout      // of the whole floor; the cut is of the runs of its part
	places []measure.Length // by run, of pieces of one-piece runs on their planks; nil where there are none
}

// A jump adds by to H at thresholds 0 … index.
type jump struct {
	index int
	by    float64
}

// h returns H at threshold t.
func (c *cut) h(t int) float64 {
	sum := 0.0
	for k := len(c.jumps) - 1; k >= 0 && c.jumps[k].index >= t; k-- {
		sum += c.jumps[k].by
	}
	return sum
}

// mean is the mean of H over so many thresholds.
func (c *cut) mean(thresholds int) float64 {
	sum := 0.0
	for _, j := range c.jumps {
		sum += float64(j.by * float64(j.index+1))
	}
	return sum / float64(thresholds)
}

// same reports whether two cuts are the same row of the master.
func (c *cut) same(d *cut) bool {
	return c.part == d.part && c.a == d.a && slices.Equal(c.jumps, d.jumps) && slices.Equal(c.excess, d.excess)
}

// slope is how the cost of the cut's layout changes along a direction of weights and multipliers.
func (c *cut) slope(direction []float64) float64 {
	n := len(direction) - len(c.excess)
	sum, h := 0.0, 0.0
	k := len(c.jumps) - 1
	for t := n - 1; t >= 0; t-- {
		for ; k >= 0 && c.jumps[k].index >= t; k-- {
			h += c.jumps[k].by
		}
		sum += float64(h * direction[t])
	}
	for i, x := range c.excess {
		sum += float64(x * direction[n+i])
	}
	return sum
}

// divide makes a master with a cut of each part for each cut of the whole floor that there is.
func (b *Bound) divide() {
	whole := b.master.cuts
	b.parts, b.master = b.eval.parts, nil
	for _, c := range whole {
		b.add(b.cuts(c.layout, c.places))
	}
}

// add adds cuts to the master, one of each part.
func (b *Bound) add(cuts []*cut) {
	if b.master == nil {
		b.master = newMaster(len(b.thresholds), len(b.constraints), b.stride, b.even, cuts)
		return
	}
	for _, c := range cuts {
		b.master.add(c)
	}
}

// part is the part of the floor, of those that have cuts of their own, that a run is of.
func (b *Bound) part(run int) int {
	if b.parts == 1 {
		return 0
	}
	return b.eval.part[run]
}

// placesAt returns the places at which prices are least for the pieces of one-piece runs of the layout last found, by
// run, or nil where it has none.
func (b *Bound) placesAt(p *prices) (places []measure.Length) {
	in := b.table.Instance
	for i, s := range b.layout {
		if s > 0 || in.Runs[i].Length >= in.Plank {
			continue
		}
		if places == nil {
			places = make([]measure.Length, len(b.layout))
		}
		_, u := b.eval.singleOf(i, p)
		places[i] = u + in.Kerf
	}
	return places
}

// cuts says what a layout pays under any dual solution, part by part, with pieces of one-piece runs at the given
// places. What is of no run is paid by the first part.
func (b *Bound) cuts(layout rows.Layout, places []measure.Length) []*cut {
	in := b.table.Instance
	n := len(b.thresholds)
	all := make([]*cut, b.parts)
	steps := make([][]float64, len(all))
	layout = append(rows.Layout(nil), layout...)
	for k := range all {
		all[k], steps[k] = &cut{part: k, layout: layout, places: places}, make([]float64, n)
	}
	h := steps[0]
	add := func(x measure.Length, by float64) {
		switch {
		case x >= in.Plank:
			h[n-1] += by
		case x >= in.Grid:
			h[int(x/in.Grid)-1] += by
		}
	}
	for i, s := range layout {
		out := all[b.part(i)]
		h = steps[out.part]
		q, _ := in.Lay(i, s)
		out.a += float64(q.Field)
		switch {
		case q.Single == in.Plank:
			out.a++
		case q.Single > 0:
			add(places[i]+q.Single, 1)
			add(places[i]-in.Kerf, -1)
		default:
			if q.Starter > b.relief.Starter {
				add(q.Starter, 1)
			}
			if q.Ender > b.relief.Ender {
				out.a++
				add(in.Plank-in.Kerf-q.Ender, -1)
			}
		}
	}
	h = steps[0]
	for _, hand := range b.table.Hands {
		if b.relief.frees(hand, b.eval.shortest, in.Plank, in.Kerf) {
			continue
		}
		add(hand.To, -1)
		add(hand.From, 1)
	}
	for k, c := range all {
		for i, by := range steps[k] {
			if by != 0 {
				c.jumps = append(c.jumps, jump{i, by})
			}
		}
		c.excess = b.excess(c, b.constraints)
	}
	return all
}

// excess is what the layout of a cut adds to by how much the floor breaks each of the constraints.
func (b *Bound) excess(of *cut, on []proof.Constraint) []float64 {
	var out []float64
	for _, c := range on {
		x := float64(b.figure(of, c.Split))
		if of.part == 0 {
			x -= float64(c.Value)
		}
		if !c.AtMost {
			x = -x
		}
		out = append(out, x)
	}
	return out
}

// figure computes a figure of the part of a cut.
func (b *Bound) figure(c *cut, f proof.Split) int {
	in := b.table.Instance
	n := 0
	for i, s := range c.layout {
		if b.part(i) != c.part {
			continue
		}
		p, _ := in.Lay(i, s)
		if p.Single > 0 {
			continue
		}
		room := in.Plank - in.Kerf - p.Ender
		switch f.Of {
		case proof.OfStarted:
			n += p.Field + 1
		case proof.OfStarters:
			n += one(s < f.Below)
		case proof.OfEnders:
			n += one(room < f.Below)
		case proof.OfDeficit:
			n += one(room < f.Below) - one(s < f.Below)
		}
	}
	return n
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}
