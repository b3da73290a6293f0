package takeoff

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A room is its walls and the edges of its fixed things, as trim sees them.
type room struct {
	number int // of the job, from 1
	sides  []side
	// openings are those of doorways, in the walls of this room.
	openings []opening
	walls    edges // what an island may stand against
	islands  edges // what walls and other islands may
	smooth   measure.Length
	gaps     measure.Length // the two widest together: between things no farther apart lies no floor
}

// edges are sorted by their least x, from which none reaches farther than reach.
type edges struct {
	list  []edge
	reach measure.Length
}

// A side is a wall, or an edge of an island: straight, or bent by less than trim is.
type side struct {
	island int // 0: a wall
	legs   []leg
	length measure.Length
	// before and after are the turns from the side before and to the side after, in radians, above 0 at an outside
	// corner. Next is the place of the side after among those of the room.
	before, after float64
	next          int
	toLeft        bool       // seen facing it, it runs from the right to the left
	against       []interval // what stands against it
}

// A leg is one wall or edge of a side, as the job numbers it from 0.
type leg struct {
	wall   int
	a, b   measure.Point
	length measure.Length
	from   measure.Length // where it begins along the side
	gap    measure.Length
}

// An edge is a straight stretch of walls or islands.
type edge struct {
	island int // 0: a wall
	a, b   measure.Point
	gap    measure.Length
}

// An opening is that of a doorway, along a wall.
type opening struct {
	wall     int
	from, to measure.Length
}

// An interval is a stretch along a side.
type interval struct{ from, to measure.Length }

// A body is what takes an interval of a side: an opening, or something that stands out from it.
type body struct {
	interval
	open bool
}

// bend is the sine of the turn up to which trim is bent round a corner: just under 3 degrees.
const bend = 0.05

// newRoom reads a room of the job. More are the openings that doorways of other rooms make in its walls.
func newRoom(job *cutopt.Job, i int) room {
	src := &job.Rooms[i]
	r := room{number: i + 1, smooth: job.Rules.Smooth}
	gapAt := func(wall int) measure.Length { return job.Rules.WallGap(src, wall) }
	for _, d := range src.Doorways {
		r.openings = append(r.openings, opening{d.Wall, d.At, d.At + d.Width})
	}
	r.append(sidesOf(src.Outline, 0, gapAt))
	r.walls.add(src.Outline, 0, gapAt)
	for k := range src.Islands {
		fixed := func(int) measure.Length { return job.Rules.FixedGap(src.Islands[k].Gap) }
		r.append(sidesOf(src.Islands[k].Outline, k+1, fixed))
		r.islands.add(src.Islands[k].Outline, k+1, fixed)
	}
	r.gaps = r.smooth
	for _, list := range [][]edge{r.walls.list, r.islands.list} {
		for _, e := range list {
			r.gaps = max(r.gaps, 2*e.gap)
		}
	}
	r.walls.sort()
	r.islands.sort()
	for i := range r.sides {
		r.sides[i].against = r.against(&r.sides[i])
	}
	r.coverCorners()
	return r
}

// append adds the sides of a ring.
func (r *room) append(sides []side) {
	first := len(r.sides)
	for k := range sides {
		sides[k].next = first + (k+1)%len(sides)
	}
	r.sides = append(r.sides, sides...)
}

// coverCorners makes no corner of those that stand against something: trim ends there.
func (r *room) coverCorners() {
	for i := range r.sides {
		s := &r.sides[i]
		next := &r.sides[s.next]
		if s.covers(s.length) || next.covers(0) {
			s.after, next.before = 0, 0
		}
	}
}

// covers reports whether something stands against a side at a place.
func (s *side) covers(at measure.Length) bool {
	return slices.ContainsFunc(s.against, func(v interval) bool { return v.from <= at && at <= v.to })
}

func (e edge) least() measure.Length { return min(e.a.X, e.b.X) }

// add adds the edges of a ring.
func (l *edges) add(ring []measure.Point, island int, gap func(int) measure.Length) {
	for i, a := range ring {
		if b := ring[(i+1)%len(ring)]; a != b {
			l.list = append(l.list, edge{island, a, b, gap(i)})
		}
	}
}

func (l *edges) sort() {
	slices.SortStableFunc(l.list, func(a, b edge) int { return cmp.Compare(a.least(), b.least()) })
	for _, e := range l.list {
		l.reach = max(l.reach, max(e.a.X, e.b.X)-e.least())
	}
}

// between returns the edges that may reach between two abscissas.
func (l *edges) between(low, high measure.Length) []edge {
	at := func(x measure.Length) int {
		i, _ := slices.BinarySearchFunc(l.list, x, func(e edge, x measure.Length) int {
			return cmp.Compare(e.least(),
				x)
		})
		return i
	}
	first, end := at(low-l.reach), at(high+1)
	return l.list[first:end]
}

// sidesOf joins the edges of a ring to sides where they turn by less than trim is bent.
func sidesOf(ring []measure.Point, island int, gap func(int) measure.Length) []side {
	var legs []leg
	for i, a := range ring {
		if b := ring[(i+1)%len(ring)]; a != b {
			legs = append(legs, leg{wall: i, a: a, b: b, length: distance(a, b), gap: gap(i)})
		}
	}
	outside := -1.0 // the sign of a turn that is an outside corner
	if (doubleArea(ring) < 0) != (island > 0) {
		outside = 1
	}
	n := len(legs)
	turns := make([]float64, n) // from each leg to the next
	first := 0                  // the first that begins at a corner; where all are bent, any
	for i := n - 1; i >= 0; i-- {
		turns[i] = outside * turn(legs[i], legs[(i+1)%n])
		if !bent(turns[i]) && i+1 < n {
			first = i + 1
		}
	}
	if n > 0 && !bent(turns[n-1]) {
		first = 0
	}
	var sides []side
	for k := range n {
		i := (first + k) % n
		before := turns[(i+n-1)%n]
		if k == 0 || !bent(before) {
			sides = append(sides, side{island: island, before: before, toLeft: outside < 0})
		}
		s := &sides[len(sides)-1]
		l := legs[i]
		l.from = s.length
		s.legs, s.length, s.after = append(s.legs, l), s.length+l.length, turns[i]
	}
	return sides
}

// bent reports whether trim is bent round a corner, rather than cut.
func bent(turn float64) bool { return math.Abs(turn) < math.Pi/2 && math.Abs(math.Sin(turn)) < bend }

// turn returns the angle from one leg to the next, counter-clockwise above 0.
func turn(l, next leg) float64 {
	ux, uy := float64(l.b.X-l.a.X), float64(l.b.Y-l.a.Y)
	vx, vy := float64(next.b.X-next.a.X), float64(next.b.Y-next.a.Y)
	return math.Atan2(float64(ux*vy)-float64(uy*vx), float64(ux*vx)+float64(uy*vy))
}

// doubleArea is twice the signed area of a ring, above 0 where it runs counter-clockwise.
func doubleArea(ring []measure.Point) float64 {
	sum := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		ax, ay := float64(a.X-ring[0].X), float64(a.Y-ring[0].Y)
		bx, by := float64(b.X-ring[0].X), float64(b.Y-ring[0].Y)
		sum += float64(ax*by) - float64(bx*ay)
	}
	return sum
}

// distance is exact along the axes, else rounded to the nearest tick.
func distance(a, b measure.Point) measure.Length {
	switch {
	case a.X == b.X:
		return max(a.Y-b.Y, b.Y-a.Y)
	case a.Y == b.Y:
		return max(a.X-b.X, b.X-a.X)
	}
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	return measure.Length(math.Round(math.Sqrt(float64(x*x) + float64(y*y))))
}

// A span is a stretch of a side that nothing interrupts.
type span struct {
	side         *side
	from, length measure.Length
}

// starts and ends report whether a span reaches the corner at its beginning, at its end.
func (s span) starts() bool { return s.from == 0 }
func (s span) ends() bool   { return s.from+s.length == s.side.length }

// place returns the wall on which a span begins, from 1, and where.
func (s span) place() (wall int, at measure.Length) {
	l := s.side.legs[0]
	for _, next := range s.side.legs[1:] {
		if next.from <= s.from {
			l = next
		}
	}
	return l.wall + 1, s.from - l.from
}

// spans lists the stretches of all walls, and of fixed things if asked, between openings with their casings and what
// stands against them. Those no longer than drawing noise are none, and those between two things whose gaps leave no
// floor between.
func (r *room) spans(casing measure.Length, islands bool) []span {
	var list []span
	for i := range r.sides {
		s := &r.sides[i]
		if s.island > 0 && !islands {
			continue
		}
		var taken []body
		for _, v := range s.against {
			taken = append(taken, body{interval: v})
		}
		if s.island == 0 {
			taken = append(taken, r.openingsOf(s, casing)...)
		}
		slices.SortStableFunc(taken, func(a, b body) int { return cmp.Compare(a.from, b.from) })
		taken = append(taken, body{interval: interval{s.length, s.length}, open: s.after > 0})
		from, open := measure.Length(0), s.before > 0
		for _, t := range taken {
			least := r.smooth
			if !open && !t.open {
				least = r.gaps
			}
			if t.from-from > least {
				list = append(list, span{s, from, t.from - from})
			}
			if t.to >= from {
				from, open = t.to, t.open
			}
		}
	}
	return list
}

// openingsOf lists the openings in a wall, each with the face of its casings.
func (r *room) openingsOf(s *side, casing measure.Length) []body {
	var taken []body
	for _, l := range s.legs {
		for _, o := range r.openings {
			if o.wall == l.wall {
				taken = append(taken, body{open: true, interval: interval{
					max(l.from+o.from-casing, 0), min(l.from+o.to+casing, s.length),
				}})
			}
		}
	}
	return taken
}

// against lists what stands against a side: edges of other things that lie along it, no farther than drawing noise or
// than the gaps of both, which leave no floor between.
func (r *room) against(s *side) []interval {
	var taken []interval
	for _, l := range s.legs {
		low, high := min(l.a.X, l.b.X)-r.gaps, max(l.a.X, l.b.X)+r.gaps
		near := [2][]edge{r.islands.between(low, high)}
		if s.island > 0 {
			near[1] = r.walls.between(low, high)
		}
		for _, list := range near {
			for _, e := range list {
				within := max(r.smooth, l.gap+e.gap)
				if from, to, ok := l.along(e, within); ok && e.island != s.island {
					taken = append(taken, interval{l.from + from, l.from + to})
				}
			}
		}
	}
	return taken
}

// along reports whether an edge lies along a leg, within so much, and from where to where.
func (l *leg) along(e edge, within measure.Length) (from, to measure.Length, ok bool) {
	size := float64(l.length)
	ux, uy := float64(l.b.X-l.a.X)/size, float64(l.b.Y-l.a.Y)/size
	place := func(p measure.Point) (along, off float64) {
		x, y := float64(p.X-l.a.X), float64(p.Y-l.a.Y)
		return float64(x*ux) + float64(y*uy), math.Abs(float64(x*uy) - float64(y*ux))
	}
	s0, d0 := place(e.a)
	s1, d1 := place(e.b)
	if max(d0, d1) > float64(within) {
		return 0, 0, false
	}
	from = max(measure.Length(math.Round(min(s0, s1))), 0)
	to = min(measure.Length(math.Round(max(s0, s1))), l.length)
	return from, to, to > from
}

// survey reads all rooms, and cuts the openings of floors that run through into the walls behind.
func (r *reckoner) survey() error {
	byName := make(map[string]int, len(r.job.Rooms))
	for i := range r.job.Rooms {
		if err := r.ctx.Err(); err != nil {
			return err
		}
		r.rooms = append(r.rooms, newRoom(r.job, i))
		byName[r.job.Rooms[i].Name] = i
	}
	for i := range r.job.Rooms {
		for _, d := range r.job.Rooms[i].Doorways {
			if to, ok := byName[d.To]; ok && d.Through {
				r.rooms[to].openTo(&r.job.Rooms[i], &d)
			}
		}
	}
	return nil
}

// openTo adds the opening that a doorway of another room of the same drawing makes in the wall of this one: in the legs
// that lie along it no farther behind than the doorway is deep.
func (r *room) openTo(other *cutopt.Room, d *cutopt.Doorway) {
	a, b := other.Outline[d.Wall], other.Outline[(d.Wall+1)%len(other.Outline)]
	size := float64(distance(a, b))
	at := func(l measure.Length) measure.Point {
		return measure.Point{
			X: a.X + measure.Length(math.Round(float64(l)*float64(b.X-a.X)/size)),
			Y: a.Y + measure.Length(math.Round(float64(l)*float64(b.Y-a.Y)/size)),
		}
	}
	through := edge{a: at(d.At), b: at(d.At + d.Width)}
	for i := range r.sides {
		for _, l := range r.sides[i].legs {
			if r.sides[i].island > 0 {
				continue
			}
			if from, to, ok := l.along(through, d.Depth+max(r.smooth, measure.Inch/2)); ok {
				r.openings = append(r.openings, opening{l.wall, from, to})
			}
		}
	}
}
