package strips

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt/measure"
)

// A Strip is a stretch of a piece that is narrower than can be held: two of its edges, within 10 degrees of parallel,
// face each other over more than 2 in; or all of a piece that is nowhere wider.
type Strip struct {
	At, Across measure.Length // the middle of the stretch: from the left end of the piece and from the front of its row
	Length     measure.Length // along the edges
	Width      measure.Length // where it is narrowest, rounded down
}

// Strips returns the stretches of a piece of a run between x = from and x = to that are narrower than least, the
// narrowest first. It takes O(k^2) steps for the k corners of the piece.
func (f *Floor) Strips(row, run int, from, to, least measure.Length) []Strip {
	r := &f.Rows[row]
	corners := f.corners(row, run, from, to)
	if least <= 0 || len(corners) == 0 || f.stretches[row][run].full && r.To-r.From >= least && to-from >= least {
		return nil
	}
	var out []Strip
	if s, ok := crumb(corners, from, r.From, least); ok {
		out = append(out, s)
	}
	for i, a := range corners {
		for _, s := range faced(corners, a, corners[(i+1)%len(corners)], float64(least)) {
			middle := s.middle()
			out = append(out, Strip{
				At: measure.Length(
					middle.x,
				) - from, Across: measure.Length(middle.y) - r.From, Length: measure.Length(s.to - s.from),
				Width: measure.Length(s.width),
			})
		}
	}
	slices.SortFunc(out, func(a, b Strip) int {
		return cmp.Or(
			cmp.Compare(a.Width, b.Width),
			cmp.Compare(b.Length, a.Length),
			cmp.Compare(a.At, b.At),
			cmp.Compare(a.Across, b.Across),
		)
	})
	return out
}

// corners returns the corners of a piece, all four of a full rectangle too.
func (f *Floor) corners(row, run int, from, to measure.Length) []point {
	corners, twice := f.clip(row, run, from, to)
	if low, high := int64(f.Rows[row].From), int64(f.Rows[row].To); len(corners) == 0 && twice > 0 {
		return []point{{int64(from), low}, {int64(to), low}, {int64(to), high}, {int64(from), high}}
	}
	return corners
}

// An edgeWall is a wall along the rows, within 10 degrees, that reaches farthest to the starting side (0) or away from
// it (1), or nearly so where it slants.
type edgeWall struct {
	a, b point
	side int
}

// alike is how far apart across the rows corners may lie, in ticks, that turning has rounded and that were drawn in
// line.
const alike = 16

// parted is how far short of the farthest corner a slanted wall may stop: a chimney breast parts it from the rest.
const parted = int64(2 * measure.Inch)

// edgeWalls lists the walls of the rooms that edge rows lie along. Corners are in the floor's own axes.
func edgeWalls(outlines [][]point) []edgeWall {
	low, high := int64(math.MaxInt64), int64(math.MinInt64)
	for _, ring := range outlines {
		for _, p := range ring {
			low, high = min(low, p.y), max(high, p.y)
		}
	}
	var out []edgeWall
	for _, ring := range outlines {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			d := b.minus(a)
			if d == (point{}) || abs(float64(d.y)) > parallel*abs(float64(d.x)) {
				continue
			}
			near := int64(alike)
			if max(a.y-b.y, b.y-a.y) > alike {
				near = parted
			}
			if min(a.y, b.y) <= low+near {
				out = append(out, edgeWall{a, b, 0})
			}
			if max(a.y, b.y) >= high-near {
				out = append(out, edgeWall{a, b, 1})
			}
		}
	}
	return out
}

// near reports whether a place lies within some distance of the wall.
func (w *edgeWall) near(p point, distance float64) bool {
	d, e := w.b.minus(w.a), p.minus(w.a)
	t := min(1, max(0, float64(d.dot(e))/float64(d.dot(d))))
	return math.Hypot(float64(e.x)-float64(t*float64(d.x)), float64(e.y)-float64(t*float64(d.y))) <= distance
}

// Tapers reports whether a wall that an edge row lies along slants against the rows.
func (f *Floor) Tapers() bool {
	return slices.ContainsFunc(f.edgeWalls, func(w edgeWall) bool { return max(w.a.y-w.b.y, w.b.y-w.a.y) > alike })
}

// InDoorways reports whether all of a row lies in doorways of the starting wall, or of the wall opposite.
func (f *Floor) InDoorways(row int) bool {
	r := &f.Rows[row]
	return int64(r.To) <= f.walls[0]+f.hidden || int64(r.From) >= f.walls[1]-f.hidden
}

// EdgeWidths returns how wide a piece of a run between x = from and x = to is where it is narrowest along the starting
// wall and along the wall opposite, at most a plank's width.
func (f *Floor) EdgeWidths(row, run int, from, to measure.Length) (first, last measure.Length) {
	first, last = f.width, f.width
	r := &f.Rows[row]
	low, high := float64(r.From)-f.reach, float64(r.To)+f.reach
	var walls []edgeWall
	for _, w := range f.edgeWalls {
		if float64(min(w.a.y, w.b.y)) <= high && float64(max(w.a.y, w.b.y)) >= low {
			walls = append(walls, w)
		}
	}
	if len(walls) == 0 {
		return first, last
	}
	corners := f.corners(row, run, from, to)
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		for _, s := range faced(corners, a, b, float64(f.width)) {
			for k := range walls {
				w := &walls[k]
				v, d := w.b.minus(w.a), b.minus(a)
				if (d.x > 0) != (w.side == 0) {
					continue // it lies beyond the wall, in a doorway
				}
				if abs(float64(v.cross(d))) > parallel*abs(float64(v.dot(d))) || !w.near(s.middle(), f.reach) {
					continue
				}
				if w.side == 0 {
					first = min(first, measure.Length(s.width))
				} else {
					last = min(last, measure.Length(s.width))
				}
			}
		}
	}
	return first, last
}

// A facing is a stretch of an edge that others face.
type facing struct {
	a        point
	along    vector
	from, to float64 // along the edge
	width    float64 // how near they come
}

func (s *facing) middle() point { return s.a.plus(s.along, (s.from+s.to)/2) }

// faced returns the stretches of the edge from a to b, longer than a short one, that other edges of a ring face nearer
// than least.
func faced(ring []point, a, b point, least float64) []facing {
	d := b.minus(a)
	size := d.size()
	if size <= short || there(ring, b, a) {
		return nil
	}
	along := vector{float64(d.x) / size, float64(d.y) / size}
	var near []facing
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		e := q.minus(p)
		// The edge runs the other way within 10 degrees, and its nearer parts lie on the left of this one.
		if dot := float64(d.dot(e)); dot >= 0 || math.Abs(float64(d.cross(e))) > -dot*parallel {
			continue
		}
		s, t := float64(d.dot(q.minus(a)))/size, float64(d.dot(p.minus(a)))/size
		g, h := float64(d.cross(q.minus(a)))/size, float64(d.cross(p.minus(a)))/size
		if s >= t || t <= 0 || s >= size || max(g, h) <= 1 || there(ring, q, p) {
			continue
		}
		slope := (h - g) / (t - s)
		from, to := max(s, 0), min(t, size)
		if slope != 0 { // keep what lies between 0 and least
			x0, x1 := s-g/slope, s+(least-g)/slope
			from, to = max(from, min(x0, x1)), min(to, max(x0, x1))
		} else if g < 0 || g >= least {
			continue
		}
		if from < to {
			near = append(near, facing{a, along, from, to, max(0, min(g+float64(slope*(from-s)), g+float64(slope*(to-s))))})
		}
	}
	slices.SortFunc(near, func(p, q facing) int { return cmp.Or(cmp.Compare(p.from, q.from), cmp.Compare(p.to, q.to)) })
	var out []facing
	for i := 0; i < len(near); {
		r := near[i]
		for i++; i < len(near) && near[i].from <= r.to+2; i++ {
			r.to, r.width = max(r.to, near[i].to), min(r.width, near[i].width)
		}
		if r.to-r.from > short {
			out = append(out, r)
		}
	}
	return out
}

// there reports whether a ring has an edge from a to b: then one from b to a is a way there and back to a hole.
func there(ring []point, a, b point) bool {
	for i, p := range ring {
		if p == a && ring[(i+1)%len(ring)] == b {
			return true
		}
	}
	return false
}
