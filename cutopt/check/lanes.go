package check

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
)

// A spell is what a straight line across the rows meets of a piece.
type spell struct{ from, to float64 }

// lanes holds rows against the walls between the rooms of a floor: no piece lies on both sides of one, and two runs of
// a row lie beside each other only where one parts them somewhere: at the tip of a jamb it runs out.
func (c *roomChecker) lanes(floor *recount.Floor) {
	if len(floor.Rooms) < 2 {
		return
	}
	for i := range c.room.Rows {
		row := &c.room.Rows[i]
		for k := range row.Runs {
			for m := range row.Runs[k].Pieces {
				c.oneRoom(floor, row, c.at(RuleRun, i+1, k+1, m+1), &row.Runs[k].Pieces[m])
			}
			for other := range k {
				c.apart(floor, row, c.at(RuleRun, i+1, k+1, 0), &row.Runs[other], &row.Runs[k], other)
			}
		}
	}
}

// oneRoom reports a piece that has a wall between two rooms in it.
func (c *roomChecker) oneRoom(floor *recount.Floor, row *cutopt.PlanRow, at Violation, p *cutopt.Piece) {
	ring := corners(nil, row, p)
	places := between(ring)
	notch := float64(min(c.job.Plank.Width, c.job.Rules.MinPiece)) + 2*recount.Slack
	from, whole := math.Inf(1), true
	for i, x := range places {
		a, b, parted := partedAt(floor, ring, x)
		if !parted {
			from, whole = math.Inf(1), false
			continue
		}
		from = min(from, x)
		if x-from > notch || whole && i == len(places)-1 {
			c.report(at, "piece-two-rooms", "at", about(x), "room", c.roomName(a), "other", c.roomName(b))
			return
		}
	}
}

// partedAt reports whether a wall between two rooms stands in a ring at an abscissa.
func partedAt(floor *recount.Floor, ring []recount.Spot, x float64) (a, b int, parted bool) {
	met := spells(ring, x)
	for i := 1; i < len(met); i++ {
		if a, b, parted = wallBetween(floor, x, met[i-1].to, met[i].from); parted {
			return a, b, true
		}
	}
	return 0, 0, false
}

// apart reports two runs of a row that lie beside each other across the row with no wall between them.
func (c *roomChecker) apart(
	floor *recount.Floor, row *cutopt.PlanRow, at Violation, a, b *cutopt.PlanRun, other int,
) {
	if min(a.To, b.To) <= max(a.From, b.From) {
		return
	}
	met := math.Inf(1)
	for i := range a.Pieces {
		for k := range b.Pieces {
			p, q := &a.Pieces[i], &b.Pieces[k]
			if min(p.To, q.To) <= max(p.From, q.From) {
				continue
			}
			one, two := corners(nil, row, p), corners(nil, row, q)
			for _, x := range between(slices.Concat(one, two)) {
				s, t := spells(one, x), spells(two, x)
				if len(s) == 0 || len(t) == 0 {
					continue
				}
				if s[0].from > t[0].from {
					s, t = t, s
				}
				if _, _, parted := wallBetween(floor, x, s[len(s)-1].to, t[0].from); parted {
					return
				}
				met = min(met, x)
			}
		}
	}
	if !math.IsInf(met, 1) {
		c.report(at, "runs-beside", "at", about(met), "run", other+1)
	}
}

// beside reports whether two runs of a row lie beside each other across the row somewhere.
func (c *roomChecker) beside(p, q recount.Ref) bool {
	a, b := &c.room.Rows[p.Row].Runs[p.Run], &c.room.Rows[q.Row].Runs[q.Run]
	return min(a.To, b.To) > max(a.From, b.From)
}

// roomName names a room of the floor; -1 is none, as within an opening.
func (c *roomChecker) roomName(i int) string {
	if i < 0 {
		return "-"
	}
	return c.rooms[i].Name
}

// between returns abscissas between the corners of a ring.
func between(ring []recount.Spot) []float64 {
	xs := make([]float64, len(ring))
	for i, p := range ring {
		xs[i] = p.X
	}
	slices.Sort(xs)
	var out []float64
	for i := 1; i < len(xs); i++ {
		if xs[i]-xs[i-1] > 2*recount.Slack { // nearer ones may be rounding
			out = append(out, (xs[i-1]+xs[i])/2)
		}
	}
	return out
}

// spells returns what a line across the rows meets of a ring, in order. Ways there and back, which join parts of a
// shape, part nothing.
func spells(ring []recount.Spot, x float64) []spell {
	var ys []float64
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if (p.X > x) != (q.X > x) {
			ys = append(ys, p.Y+(q.Y-p.Y)*(x-p.X)/(q.X-p.X))
		}
	}
	slices.Sort(ys)
	var out []spell
	for i := 0; i+1 < len(ys); i += 2 {
		if n := len(out); n > 0 && ys[i]-out[n-1].to <= 1 {
			out[n-1].to = ys[i+1]
		} else if ys[i+1]-ys[i] > 1 {
			out = append(out, spell{ys[i], ys[i+1]})
		}
	}
	return out
}

// wallBetween reports whether a wall between two rooms lies between two places above each other where pieces end, and
// the rooms that these lie in.
func wallBetween(floor *recount.Floor, x, low, high float64) (a, b int, parted bool) {
	const inside = 16 // ticks into the pieces
	a, b = roomAt(floor, x, low-inside), roomAt(floor, x, high+inside)
	if a >= 0 && b >= 0 {
		return a, b, a != b
	}
	return a, b, roomAt(floor, x, (low+high)/2) < 0
}

// roomAt returns the room that a place lies in, by whether a ray from it crosses the outline an odd number of times; -1
// for none.
func roomAt(floor *recount.Floor, x, y float64) int {
	for i := range floor.Rooms {
		ring := floor.Rooms[i].Outline.Corners
		odd := false
		for k, p := range ring {
			q := ring[(k+1)%len(ring)]
			if (p.X > x) != (q.X > x) && p.Y+(q.Y-p.Y)*(x-p.X)/(q.X-p.X) > y {
				odd = !odd
			}
		}
		if odd {
			return i
		}
	}
	return -1
}
