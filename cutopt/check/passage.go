package check

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A front is the opening of a doorway in the drawing.
type front struct {
	a, b   [2]float64 // its sides on the wall
	ox, oy float64    // the way out of the room
}

// opening places a doorway of a part.
func (p *part) opening(d *cutopt.Doorway) front {
	from, to := p.edges[d.Wall].from, p.edges[(d.Wall+1)%len(p.edges)].from
	size := math.Hypot(float64(to.X-from.X), float64(to.Y-from.Y))
	ux, uy := float64(to.X-from.X)/size, float64(to.Y-from.Y)/size
	at := func(l measure.Length) [2]float64 {
		return [2]float64{float64(from.X) + ux*float64(l), float64(from.Y) + uy*float64(l)}
	}
	f := front{a: at(d.At), b: at(d.At + d.Width), ox: uy, oy: -ux}
	if twiceArea(p.Outline) < 0 {
		f.ox, f.oy = -uy, ux
	}
	return f
}

// met returns the first edge of a part that both sides of an opening meet from outside, within a metre, and how far
// ahead and where along it the two do; -1 for none.
func (p *part) met(f front) (wall int, ahead, along [2]float64) {
	sign := 1.0
	if twiceArea(p.Outline) < 0 {
		sign = -1
	}
	walls := [2]int{-1, -1}
	for i, s := range [2][2]float64{f.a, f.b} {
		ahead[i] = float64(cutopt.MaxWall) + 2
		for w, e := range p.edges {
			to := p.edges[(w+1)%len(p.edges)].from
			dx, dy := float64(to.X-e.from.X), float64(to.Y-e.from.Y)
			size := math.Hypot(dx, dy)
			if size == 0 || sign*(f.oy*dx-f.ox*dy)/size < math.Sqrt2/2 {
				continue // it is seen from within, or runs on nearly straight
			}
			cross := f.ox*dy - f.oy*dx
			t := ((float64(e.from.X)-s[0])*dy - (float64(e.from.Y)-s[1])*dx) / cross
			u := ((float64(e.from.X)-s[0])*f.oy - (float64(e.from.Y)-s[1])*f.ox) / cross * size
			if t >= -2 && t < ahead[i] && u >= -2 && u <= size+2 {
				ahead[i], along[i], walls[i] = t, u, w
			}
		}
	}
	if walls[0] != walls[1] {
		return -1, ahead, along
	}
	return walls[0], ahead, along
}

// behind returns the part of the room behind a doorway that it opens on, and where.
func (c *checker) behind(parts []*part, d *cutopt.Doorway, f front) (to *part, wall int, ahead, along [2]float64) {
	for _, p := range parts {
		if c.job.Rooms[p.number].Name != d.To {
			continue
		}
		if wall, ahead, along := p.met(f); wall >= 0 {
			return p, wall, ahead, along
		}
	}
	return nil, -1, ahead, along
}

// shut ends the floors of two rooms at the break in a doorway between them: midway between their walls, where the plan
// has it.
func (c *checker) shut(parts [][]*part, n int) {
	b := &c.plan.Breaks[n]
	astray := func() { c.report(Violation{Rule: RuleBreak}, "break-astray", "n", n+1) }
	var own *part
	k := -1
	for _, p := range parts[b.Room] {
		if i := slices.Index(p.doorways, b.Doorway); i >= 0 {
			own, k = p, i
		}
	}
	if own == nil || !own.Doorways[k].Through {
		astray()
		return
	}
	own.detach()
	d := &own.Doorways[k]
	f := own.opening(d)
	behind, wall, ahead, along := c.behind(slices.Concat(parts...), d, f)
	half := min(ahead[0], ahead[1]) / 2
	at := func(s [2]float64, p cutopt.Point) bool {
		return math.Hypot(s[0]+f.ox*half-float64(p.X), s[1]+f.oy*half-float64(p.Y)) < 3
	}
	if behind == nil || b.Wall != own.edges[d.Wall].wall || !at(f.a, b.From) || !at(f.b, b.To) {
		astray()
		return
	}
	deep := max(0, (measure.Length(2*half)-b.Width)/2)
	near := measure.Length(math.Round(min(along[0], along[1])))
	d.Through, d.Depth = false, deep
	own.ends, behind.ends = append(own.ends, n), append(behind.ends, n)
	behind.detach()
	for i := range behind.Doorways {
		if o := &behind.Doorways[i]; o.Through && o.Wall == wall && o.At < near+d.Width && near < o.At+o.Width {
			o.Through, o.Depth = false, deep
			return
		}
	}
	other := *d
	other.Wall, other.At, other.To = wall, near, own.Name
	other.Width = measure.Length(math.Round(math.Abs(along[1] - along[0])))
	behind.Doorways = append(behind.Doorways, other)
	behind.doorways, behind.into = append(behind.doorways, -1), append(behind.into, -1)
}

// detach gives a part a room and doorways of its own, which may be changed.
func (p *part) detach() {
	room := *p.Room
	room.Doorways = slices.Clone(room.Doorways)
	p.Room = &room
}

// joined groups the parts of a floor that doorways join, in their order, and notes what each doorway runs through to.
func joined(parts []*part) [][]*part {
	group := make([]int, len(parts))
	for i := range group {
		group[i] = i
	}
	type link struct{ part, doorway, to int }
	var links []link
	for i, p := range parts {
		for k := range p.Doorways {
			d := &p.Doorways[k]
			if !d.Through {
				continue
			}
			f := p.opening(d)
			j := slices.IndexFunc(parts, func(q *part) bool {
				if q.Name != d.To {
					return false
				}
				wall, _, _ := q.met(f)
				return wall >= 0
			})
			if j < 0 {
				continue
			}
			links = append(links, link{i, k, j})
			a, b := min(group[i], group[j]), max(group[i], group[j])
			for m := range group {
				if group[m] == b {
					group[m] = a
				}
			}
		}
	}
	var out [][]*part
	place := make([]int, len(parts)) // in its field
	index := make(map[int]int)
	for i, p := range parts {
		n, ok := index[group[i]]
		if !ok {
			n = len(out)
			index[group[i]] = n
			out = append(out, nil)
		}
		place[i] = len(out[n])
		out[n] = append(out[n], p)
	}
	for _, l := range links {
		parts[l.part].into[l.doorway] = place[l.to]
	}
	return out
}
