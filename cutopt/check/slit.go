package check

import (
	"math"

	"plank.example/cutopt"
)

// A pipe is a round thing in the floor's own axes: where it stands, half its diameter, and that of the hole for it.
type pipe struct {
	middle     spot
	bare, hole float64
}

// pipes lists the round things of the floor, in its own axes.
func (c *roomChecker) pipes() []pipe {
	if c.placed == nil {
		c.placed = []pipe{}
		for _, room := range c.rooms {
			for k := range room.Pipes {
				p := &room.Pipes[k]
				at, bare := c.spot(p.At), float64(p.Diameter)/2
				c.placed = append(c.placed, pipe{spot{at.X, at.Y}, bare, bare + float64(c.job.Rules.FixedGap(p.Gap))})
			}
		}
	}
	return c.placed
}

// A box is a rectangle along the axes.
type box struct{ x0, y0, x1, y1 float64 }

func boxOf(ring []spot) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range ring {
		b = box{min(b.x0, p.x), min(b.y0, p.y), max(b.x1, p.x), max(b.y1, p.y)}
	}
	return b
}

// off returns how far the farthest side of b lies from that of o.
func (b box) off(o box) float64 {
	return max(math.Abs(b.x0-o.x0), math.Abs(b.y0-o.y0), math.Abs(b.x1-o.x1), math.Abs(b.y1-o.y1))
}

// A holding is a cut-out by which a fixed thing holds a piece: it cannot be laid round that without a slit.
type holding struct {
	box   box  // of the cut-out, also where that reaches beyond the piece
	round bool // a pipe stands in it
	sure  bool // by more than what rounding may be off
}

// slits holds that each fixed thing which the piece cannot be laid round has a slit, to the nearest end or edge, and
// that no other slit is told of. Round cut-outs are told of pipes of the job alone.
func (c *roomChecker) slits(at Violation, s *sawn, p *cutopt.Piece, row *cutopt.PlanRow) {
	var here []pipe
	for _, q := range c.pipes() {
		q.middle = spot{q.middle.x - float64(p.From), q.middle.y - float64(row.From)}
		if b := q.box(); b.x0 < s.long && b.x1 > 0 && b.y0 < s.wide && b.y1 > 0 {
			here = append(here, q)
		}
	}
	slack := sawSlack
	if math.Mod(c.room.Axes.Turn, 90) == 0 {
		slack = 1 // places of pipes are exact, but for half a tick of odd diameters
	}
	holdings := s.holdings(here, slack)
	met := make([]bool, len(holdings))
	for i := range p.Shaping {
		f := &p.Shaping[i]
		switch f.Kind {
		case cutopt.FactHole, cutopt.FactRound:
			if !s.ofPipe(f, here) {
				c.report(at, "sawn-no-pipe", "fact", *f)
			}
		case cutopt.FactSlit:
			found := false
			for k := range holdings {
				if !met[k] && holdings[k].slit(f, s) {
					found, met[k] = true, true
					break
				}
			}
			if !found {
				c.report(at, "sawn-no-slit", "fact", *f)
			}
		}
	}
	for k, h := range holdings {
		if h.sure && !met[k] {
			c.report(at, "sawn-held", "from", about(h.box.x0), "to", about(h.box.x1))
		}
	}
}

func (q *pipe) box() box {
	return box{q.middle.x - q.hole, q.middle.y - q.hole, q.middle.x + q.hole, q.middle.y + q.hole}
}

// holdings lists the cut-outs that hold the piece, pipes placed to within some slack: those closed all round, and those
// for pipes that the openings on all sides are too narrow for.
func (s *sawn) holdings(pipes []pipe, slack float64) []holding {
	var out []holding
	for i := range pipes {
		q := &pipes[i]
		reach := math.Sqrt(max(0, q.hole*q.hole-q.bare*q.bare)) // a line no farther from the middle lets the pipe in
		least := min(q.middle.x, s.long-q.middle.x, q.middle.y, s.wide-q.middle.y)
		if least > max(0, reach-slack) && least > -slack {
			sure := least > max(slack, reach+slack) && s.around(q)
			out = append(out, holding{box: q.box(), round: true, sure: sure})
		}
	}
	for _, ring := range holes(s.shape) {
		b := boxOf(ring)
		inside := min(b.x0, b.y0, s.long-b.x1, s.wide-b.y1)
		known := false
		for i := range pipes {
			q := pipes[i].box()
			known = known || b.off(q) <= 2*sawSlack
		}
		if !known && inside > 3 {
			out = append(out, holding{box: b, sure: inside > 2*sawSlack})
		}
	}
	return out
}

// around reports whether the piece surrounds the hole for a pipe, as far as that lies within its rectangle: then
// nothing else opens it.
func (s *sawn) around(q *pipe) bool {
	const steps = 90
	radius := q.hole*1.012 + 4*sawSlack
	for i := range steps {
		sin, cos := math.Sincos(float64(i) * 2 * math.Pi / steps)
		p := spot{q.middle.x + radius*cos, q.middle.y + radius*sin}
		inside := p.x > sawSlack && p.x < s.long-sawSlack && p.y > sawSlack && p.y < s.wide-sawSlack
		if inside && !encloses(s.shape, p) {
			return false
		}
	}
	return true
}

// encloses reports whether a place lies within a ring, by the edges that a line from it to the right crosses.
func encloses(ring []spot, p spot) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(b.x-a.x)*(p.y-a.y)/(b.y-a.y) {
			in = !in
		}
	}
	return in
}

// holes returns the rings of a shape that run the other way round than the shape does, once the ways there and back
// that join them to the outline are left out.
func holes(shape []spot) [][]spot {
	type way struct{ a, b spot }
	ways := make(map[way]int, len(shape))
	turned := 0.0
	for i, p := range shape {
		q := shape[(i+1)%len(shape)]
		ways[way{p, q}]++
		turned += p.x*q.y - p.y*q.x
	}
	next := make(map[spot][]spot, len(shape))
	for i, p := range shape {
		q := shape[(i+1)%len(shape)]
		if p != q && ways[way{q, p}] == 0 {
			next[p] = append(next[p], q)
		}
	}
	var out [][]spot
	for _, first := range shape {
		var ring []spot
		twice := 0.0
		for at := first; len(next[at]) > 0; {
			to := next[at][0]
			next[at] = next[at][1:]
			ring = append(ring, at)
			twice += at.x*to.y - at.y*to.x
			at = to
		}
		if len(ring) > 2 && twice*turned < 0 {
			out = append(out, ring)
		}
	}
	return out
}

// slit reports whether a fact tells of the slit that a cut-out needs: as wide as that is, to an end or edge of the
// piece that no other is nearer than.
func (h *holding) slit(f *cutopt.Fact, s *sawn) bool {
	b := h.box
	told := box{float64(f.At), float64(f.Across), float64(f.At + f.Length), float64(f.Across + f.Width)}
	x0, x1, y0, y1 := b.x1, b.x0, b.y1, b.y0 // where slits begin
	if h.round {
		x0, y0 = (b.x0+b.x1)/2, (b.y0+b.y1)/2
		x1, y1 = x0, y0
	}
	nearest := min(b.x0, s.long-b.x1, b.y0, s.wide-b.y1)
	clipped := box{max(b.x0, 0), max(b.y0, 0), min(b.x1, s.long), min(b.y1, s.wide)}
	for _, side := range []struct {
		distance float64
		slit     box
	}{
		{b.x0, box{0, clipped.y0, x1, clipped.y1}},
		{s.long - b.x1, box{x0, clipped.y0, s.long, clipped.y1}},
		{b.y0, box{clipped.x0, 0, clipped.x1, y1}},
		{s.wide - b.y1, box{clipped.x0, y0, clipped.x1, s.wide}},
	} {
		if side.distance <= nearest+sawSlack && told.off(side.slit) <= sawSlack {
			return true
		}
	}
	return false
}

// ofPipe reports whether a fact tells of the hole for one of the pipes, or of what of it lies on the piece.
func (s *sawn) ofPipe(f *cutopt.Fact, pipes []pipe) bool {
	for i := range pipes {
		q := &pipes[i]
		if math.Abs(float64(f.Diameter)-2*q.hole) > sawSlack {
			continue
		}
		if f.Kind == cutopt.FactHole {
			if max(math.Abs(float64(f.At)-q.middle.x), math.Abs(float64(f.Across)-q.middle.y)) <= sawSlack {
				return true
			}
			continue
		}
		b := q.box()
		if float64(f.At) >= b.x0-sawSlack && float64(f.At+f.Length) <= b.x1+sawSlack &&
			float64(f.Across) >= b.y0-sawSlack && float64(f.Across+f.Width) <= b.y1+sawSlack {
			return true
		}
	}
	return false
}

// hole returns the circle of a fact, as far as a saw is sure to take it; nil where it reaches beyond the piece.
func (s *sawn) hole(f *cutopt.Fact) []spot {
	const corners = 48
	radius := float64(f.Diameter) / 2
	x, y := float64(f.At), float64(f.Across)
	if radius <= 0 || min(x, y) < radius || x+radius > s.long || y+radius > s.wide {
		return nil
	}
	ring := make([]spot, corners)
	for i := range ring {
		sin, cos := math.Sincos(float64(i) * 2 * math.Pi / corners)
		ring[i] = spot{x + radius*cos, y + radius*sin}
	}
	return ring
}
