package strips

import "math"

// A smoother straightens jogs of a ring: a wall shorter than the tolerance between two walls that go the same way. Of
// the two the outer one, all of which must lie outside the line of the other, is moved inwards to that line, so that
// floor is only ever lost, and no wall moves further than the tolerance in all.
type smoother struct {
	walls      []wall
	prev, next []int
	tolerance  float64
	done       int // jogs straightened
}

// smoothed returns the ring without jogs and how many there were. It takes O(n) steps.
func (r ring) smoothed(tolerance int64) (ring, int) {
	if tolerance <= 0 || len(r) < 6 {
		return r, 0
	}
	n := len(r)
	s := &smoother{
		walls:     append([]wall(nil), r...),
		prev:      make([]int, n),
		next:      make([]int, n),
		tolerance: float64(tolerance),
	}
	for i := range n {
		s.prev[i], s.next[i] = (i+n-1)%n, (i+1)%n
	}
	at, left := 0, n
	for quiet := 0; quiet < left && left > 5; {
		if s.jog(at) {
			left -= 2
			quiet = 0
			at = s.prev[at]
			continue
		}
		quiet++
		at = s.next[at]
	}
	if s.done == 0 {
		return r, 0
	}
	out := ring{s.walls[at]}
	for i := s.next[at]; i != at; i = s.next[i] {
		out = append(out, s.walls[i])
	}
	return out.straightened(), s.done
}

func (s *smoother) direction(i int) point { return s.walls[s.next[i]].at.minus(s.walls[i].at) }

// jog straightens wall i if it is a jog: the wall before it, it and the wall after it become one, whose corner is the
// first one's. The two must keep the same gap, and the jog no wider one.
func (s *smoother) jog(i int) bool {
	a, c := s.prev[i], s.next[i]
	d, j, e := s.direction(a), s.direction(i), s.direction(c)
	if j.size() >= s.tolerance || d.size() < s.tolerance || e.size() < s.tolerance || s.walls[a].gap != s.walls[c].gap ||
		s.walls[i].gap > s.walls[a].gap {
		return false
	}
	if d.dot(e) <= 0 || abs(float64(d.cross(e))) > 0.01*d.size()*e.size() {
		return false
	}
	before, after := s.prev[a], s.next[c]
	first, last := s.walls[a].at, s.walls[after].at
	var ok bool
	moved := s.outside(first, s.walls[i].at, s.walls[c].at, e)
	if moved <= s.tolerance {
		moved = max(s.walls[a].moved+moved, s.walls[c].moved)
		first, ok = s.shift(before, first, s.walls[c].at, e)
	} else if moved = s.outside(s.walls[c].at, last, s.walls[i].at, d); moved <= s.tolerance {
		moved = max(s.walls[c].moved+moved, s.walls[a].moved)
		last, ok = s.shift(after, last, s.walls[i].at, d)
	}
	if !ok || moved > s.tolerance {
		return false
	}
	s.walls[a].at, s.walls[after].at = first, last
	s.walls[a].moved = moved
	s.walls[a].index = append(append(append([]int(nil), s.walls[a].index...), s.walls[i].index...), s.walls[c].index...)
	s.next[a], s.prev[after] = after, a
	s.done++
	return true
}

// outside returns how far a wall from p to q lies outside the line through o along d, where it is farthest: infinite
// where one of its ends lies inside.
func (s *smoother) outside(p, q, o, d point) float64 {
	far := max(float64(d.cross(o.minus(p))), float64(d.cross(o.minus(q))))
	if d.cross(o.minus(p)) < 0 || d.cross(o.minus(q)) < 0 {
		return math.Inf(1)
	}
	return far / d.size()
}

// shift returns where wall w, one of whose ends is the corner, meets the line through p along d.
func (s *smoother) shift(w int, corner, p, d point) (point, bool) {
	e := s.direction(w)
	if abs(float64(e.cross(d))) < 0.5*e.size()*d.size() {
		return point{}, false // too slanted to move along
	}
	m, ok := meet(p, d, s.walls[w].at, e)
	if !ok || m.minus(corner).size() > 2*s.tolerance || m.minus(corner).size() >= e.size() {
		return point{}, false
	}
	return m, true
}

func abs(v float64) float64 { return max(v, -v) }
