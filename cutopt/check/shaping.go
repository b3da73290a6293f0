package check

import (
	"math"
	"slices"

	"plank.example/cutopt"
)

// sawSlack is how far a sawn line may lie from what a fact says, in ticks: places off the axes are rounded, and corners
// that are as good as in line are left out.
const sawSlack = 5.0

// mostSawn bounds the work of recounting one piece: facts times corners of its shape, and pairs of facts.
const mostSawn = 1_000_000

// shaping saws the piece from the full rectangle of its row as its facts say: what they take off lies outside its
// shape, no two take off the same but where straight cuts meet, and what is left is the shape but for trifles.
func (c *roomChecker) shaping(at Violation, row *cutopt.PlanRow, p *cutopt.Piece) {
	at.Rule = RuleFact
	if len(p.Shape) < 3 || p.To <= p.From || row.To <= row.From {
		if len(p.Shaping) > 0 {
			c.report(at, "sawn-rectangle", "n", len(p.Shaping))
		}
		return
	}
	s := &sawn{
		long: float64(p.To - p.From), wide: float64(row.To - row.From), hidden: float64(c.job.Rules.Cover) + sawSlack,
	}
	for _, q := range p.Shape {
		s.shape = append(s.shape, spot{float64(q.X - p.From), float64(q.Y - row.From)})
	}
	if len(p.Shaping)*len(s.shape) > mostSawn || len(p.Shaping)*len(p.Shaping) > mostSawn {
		c.report(at, "sawn-too-much", "n", len(p.Shaping), "corners", len(s.shape))
		return
	}
	for i := range p.Shaping {
		if kind := s.takeOff(&p.Shaping[i]); kind != "" {
			c.report(at, kind, "fact", p.Shaping[i])
			return
		}
	}
	if kind := s.rest(); kind != "" {
		c.report(at, kind, "n", len(p.Shaping))
	}
	c.slits(at, s, p, row)
}

// A spot is a place on a piece, from its left end and its front edge.
type spot struct{ x, y float64 }

// A sawn is the full rectangle of a piece, of which parts are taken off.
type sawn struct {
	long, wide float64
	hidden     float64 // by how much a side of the shape may slant that is sawn square: the trim hides it
	shape      []spot
	parts      [][]spot // taken off exactly: convex
	straight   []bool   // of these, by a straight cut right across the piece
	told       [][]spot // these, and what encloses something that is taken off
	off        float64  // area taken off
	loose      bool     // some part is only enclosed
	slack      float64  // area by which off may be wrong
}

// takeOff takes off what a fact says; it returns the kind of finding where it cannot be.
func (s *sawn) takeOff(f *cutopt.Fact) string {
	if !f.Kind.OfShape() || *f != f.Own() {
		return "sawn-alien"
	}
	part := s.part(f)
	if part == nil {
		return "sawn-sizes"
	}
	area, left := areaOf(part), areaOf(clipped(s.shape, part))
	slack := sawSlack * around(part)
	enclosing := false
	switch f.Kind {
	case cutopt.FactSlit:
		return "" // nothing comes off for good
	case cutopt.FactScribe, cutopt.FactOutline, cutopt.FactRound:
		if area-left <= slack/8 || left <= slack/8 {
			return "sawn-scribed"
		}
		if !s.tight(f) {
			return "sawn-loose"
		}
		enclosing = true
	case cutopt.FactNotch, cutopt.FactCutOut:
		enclosing = left > slack && s.tight(f) && s.square(f)
	}
	if enclosing {
		s.loose = true
		s.told = append(s.told, part)
		s.off += area - left
		return ""
	}
	if left > slack {
		return "sawn-own"
	}
	straight := crosses(f.Kind)
	for i, other := range s.parts {
		twice := areaOf(clipped(other, part))
		if twice <= slack {
			continue
		}
		if !straight || !s.straight[i] || min(areaOf(other), area)-twice <= slack {
			return "sawn-again"
		}
		s.off -= twice
	}
	s.parts, s.straight = append(s.parts, part), append(s.straight, straight)
	s.told = append(s.told, part)
	s.off += area
	s.slack += slack
	return ""
}

// crosses reports whether facts of a kind tell of a straight cut right across the piece: two of these may meet, so that
// both take off what lies beyond the two, if each takes off something of its own.
func crosses(kind cutopt.FactKind) bool {
	return kind == cutopt.FactRip || kind == cutopt.FactEndCut || kind == cutopt.FactEdgeCut ||
		kind == cutopt.FactCornerCut
}

// part returns what a fact takes off, or encloses, as a convex polygon; nil where its figures do not agree.
func (s *sawn) part(f *cutopt.Fact) []spot {
	front, back := float64(f.Front), float64(f.Back)
	left, right := float64(f.Left), float64(f.Right)
	switch f.Kind {
	case cutopt.FactRip:
		if f.Edge == cutopt.EdgesFront {
			return s.box(0, 0, s.long, float64(f.Width))
		}
		if f.Edge == cutopt.EdgesBack {
			return s.box(0, s.wide-float64(f.Width), s.long, s.wide)
		}
	case cutopt.FactNotch, cutopt.FactCutOut, cutopt.FactScribe, cutopt.FactRound, cutopt.FactSlit:
		return s.enclosed(f)
	case cutopt.FactHole:
		return s.hole(f)
	case cutopt.FactOutline:
		return s.box(0, 0, float64(f.Length), float64(f.Width))
	case cutopt.FactEndCut:
		if min(front, back) < 0 || max(front, back) > s.long || front == back {
			return nil
		}
		if f.End == cutopt.EndsLeft {
			return []spot{{0, 0}, {s.long - front, 0}, {s.long - back, s.wide}, {0, s.wide}}
		}
		if f.End == cutopt.EndsRight {
			return []spot{{front, 0}, {s.long, 0}, {s.long, s.wide}, {back, s.wide}}
		}
	case cutopt.FactEdgeCut:
		if min(left, right) < 0 || max(left, right) > s.wide || left == right {
			return nil
		}
		if f.Edge == cutopt.EdgesFront {
			return []spot{{0, 0}, {s.long, 0}, {s.long, s.wide - right}, {0, s.wide - left}}
		}
		if f.Edge == cutopt.EdgesBack {
			return []spot{{0, left}, {s.long, right}, {s.long, s.wide}, {0, s.wide}}
		}
	case cutopt.FactCornerCut:
		return s.corner(f)
	}
	return nil
}

// corner returns the triangle that a corner cut takes off.
func (s *sawn) corner(f *cutopt.Fact) []spot {
	l, w := float64(f.Length), float64(f.Width)
	if l <= 0 || w <= 0 || l > s.long || w > s.wide {
		return nil
	}
	switch {
	case f.End == cutopt.EndsLeft && f.Edge == cutopt.EdgesFront:
		return []spot{{0, 0}, {l, 0}, {0, w}}
	case f.End == cutopt.EndsRight && f.Edge == cutopt.EdgesFront:
		return []spot{{s.long - l, 0}, {s.long, 0}, {s.long, w}}
	case f.End == cutopt.EndsRight && f.Edge == cutopt.EdgesBack:
		return []spot{{s.long, s.wide - w}, {s.long, s.wide}, {s.long - l, s.wide}}
	case f.End == cutopt.EndsLeft && f.Edge == cutopt.EdgesBack:
		return []spot{{0, s.wide - w}, {l, s.wide}, {0, s.wide}}
	}
	return nil
}

// enclosed returns the rectangle of a fact that gives its place, where it reaches the ends and edges that the fact
// names.
func (s *sawn) enclosed(f *cutopt.Fact) []spot {
	x, y := float64(f.At), float64(f.Across)
	box := s.box(x, y, x+float64(f.Length), y+float64(f.Width))
	if box == nil {
		return nil
	}
	at := func(a, b float64) bool { return max(a-b, b-a) < sawSlack }
	var end cutopt.Ends
	var edge cutopt.Edges
	if at(box[0].x, 0) {
		end |= cutopt.EndsLeft
	}
	if at(box[2].x, s.long) {
		end |= cutopt.EndsRight
	}
	if at(box[0].y, 0) {
		edge |= cutopt.EdgesFront
	}
	if at(box[2].y, s.wide) {
		edge |= cutopt.EdgesBack
	}
	if end != f.End || edge != f.Edge || f.Kind == cutopt.FactNotch && end == 0 && edge == 0 {
		return nil
	}
	return box
}

// box returns a rectangle that has an area and lies within the piece, else nil.
func (s *sawn) box(x0, y0, x1, y1 float64) []spot {
	if x0 < 0 || y0 < 0 || x1 > s.long || y1 > s.wide || x1 <= x0 || y1 <= y0 {
		return nil
	}
	return []spot{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// tight reports whether something comes off along each side of the rectangle of a fact.
func (s *sawn) tight(f *cutopt.Fact) bool {
	box := s.part(f)
	x0, y0, x1, y1 := box[0].x, box[0].y, box[2].x, box[2].y
	const strip = 4 * sawSlack
	for _, side := range [][4]float64{
		{x0, y0, min(x1, x0+strip), y1},
		{max(x0, x1-strip), y0, x1, y1},
		{x0, y0, x1, min(y1, y0+strip)},
		{x0, max(y0, y1-strip), x1, y1},
	} {
		part := s.box(side[0], side[1], side[2], side[3])
		if part == nil || areaOf(part)-areaOf(clipped(s.shape, part)) < 1e-3 {
			return false
		}
	}
	return true
}

// square reports whether what the piece keeps of the rectangle of a fact lies no farther from its sawn sides than the
// trim hides, so that sawing them square takes nothing that is seen.
func (s *sawn) square(f *cutopt.Fact) bool {
	box := s.part(f)
	x0, y0, x1, y1 := box[0].x, box[0].y, box[2].x, box[2].y
	if f.End&cutopt.EndsLeft == 0 {
		x0 += s.hidden
	}
	if f.End&cutopt.EndsRight == 0 {
		x1 -= s.hidden
	}
	if f.Edge&cutopt.EdgesFront == 0 {
		y0 += s.hidden
	}
	if f.Edge&cutopt.EdgesBack == 0 {
		y1 -= s.hidden
	}
	within := s.box(x0, y0, x1, y1)
	// nil where all of the rectangle lies so near to them
	return within == nil || areaOf(clipped(s.shape, within)) <= sawSlack*around(within)
}

// rest holds what the facts leave against the shape; it returns the kind of finding where it is not that.
func (s *sawn) rest() string {
	whole := s.long*s.wide - areaOf(s.shape)
	trifles := (float64(cutopt.Trifle) + sawSlack) * 2 * (s.long + s.wide)
	if s.off > whole+s.slack+trifles && !s.loose {
		return "sawn-more"
	}
	if s.off < whole-s.slack-trifles {
		return "sawn-less"
	}
	if s.untold() {
		return "sawn-short"
	}
	return ""
}

// mostEdged is the most corners of a shape whose edges are held one by one.
const mostEdged = 1000

// untold reports whether more than a trifle is off beyond an edge of the shape, all along it, that no fact tells of: of
// a strip two trifles wide outside the edge three quarters. Edges no longer than that may be the ends of trifles.
func (s *sawn) untold() bool {
	const wide, most = 2 * float64(cutopt.Trifle), 1.5 * float64(cutopt.Trifle)
	if len(s.shape) > mostEdged {
		return false
	}
	turned := 0.0 // twice the area, above 0 where the shape is drawn counter-clockwise
	for i, p := range s.shape {
		q := s.shape[(i+1)%len(s.shape)]
		turned += p.x*q.y - p.y*q.x
	}
	piece := s.box(0, 0, s.long, s.wide)
	for i, a := range s.shape {
		b := s.shape[(i+1)%len(s.shape)]
		along := math.Hypot(b.x-a.x, b.y-a.y)
		if along <= wide {
			continue
		}
		if turned < 0 {
			a, b = b, a
		}
		x, y := (b.y-a.y)/along*wide, (a.x-b.x)/along*wide
		strip := clipped(piece, []spot{a, {a.x + x, a.y + y}, {b.x + x, b.y + y}, b})
		if len(strip) < 3 {
			continue
		}
		open := areaOf(strip) - areaOf(clipped(s.shape, strip))
		for _, part := range s.told {
			open -= areaOf(clipped(part, strip))
		}
		if open > most*along+sawSlack*around(strip) {
			return true
		}
	}
	return false
}

// areaOf returns the area of a polygon, whichever way round.
func areaOf(ring []spot) float64 {
	sum := 0.0
	for i, p := range ring {
		q, o := ring[(i+1)%len(ring)], ring[0]
		sum += (p.x-o.x)*(q.y-o.y) - (p.y-o.y)*(q.x-o.x)
	}
	return max(sum, -sum) / 2
}

// around returns the length of the rectangle around a polygon, all round.
func around(ring []spot) float64 {
	low, high := ring[0], ring[0]
	for _, p := range ring {
		low, high = spot{min(low.x, p.x), min(low.y, p.y)}, spot{max(high.x, p.x), max(high.y, p.y)}
	}
	return 2 * (high.x - low.x + high.y - low.y)
}

// clipped returns what of a polygon lies within a convex one that is drawn counter-clockwise, edge by edge (I.
// Sutherland and G. Hodgman, "Reentrant polygon clipping", 1974). Where it falls apart, its parts hang together by
// edges without area.
func clipped(ring, convex []spot) []spot {
	out := ring
	for i, a := range convex {
		b := convex[(i+1)%len(convex)]
		side := func(p spot) float64 { return (b.x-a.x)*(p.y-a.y) - (b.y-a.y)*(p.x-a.x) }
		in := out
		out = make([]spot, 0, len(in)+4)
		for k, q := range in {
			p := in[(k+len(in)-1)%len(in)]
			d, e := side(p), side(q)
			if (d < 0) != (e < 0) {
				t := d / (d - e)
				out = append(out, spot{p.x + t*(q.x-p.x), p.y + t*(q.y-p.y)})
			}
			if e >= 0 {
				out = append(out, q)
			}
		}
		if len(out) == 0 {
			return nil
		}
	}
	return slices.Clip(out)
}
