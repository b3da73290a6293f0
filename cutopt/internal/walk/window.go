package walk

import "plank.example/cutopt/measure"

// mostMoved is the most runs of a window.
const mostMoved = 12

// A window is a stretch of few runs that an annealing lays anew. Those that move are followed by the runs in one piece
// behind them, which keep their places: only a starter stays as it is whatever is left for it.
type window struct {
	entry, exit int            // the run before the first, the run after the last
	shorter     measure.Length // the first starter than it could be; a piece takes no less for it
	fresh       bool           // the exit opens a plank
	moves       int            // runs that move
	n           int            // all runs
	runs        [mostMoved]int32
	joints      [mostMoved]int32
	starter     [mostMoved]measure.Length
	left        [mostMoved]measure.Length
}

// take reads the window in which n runs from the first on move; false where it has a run that must not, or too many.
func (a *annealing) take(w *window, first, n int) bool {
	w.entry, w.moves = a.before[first], n
	i, k := first, 0
	for ; k < n || a.layout[i] == 0; k++ {
		if i == a.spare || i == w.entry || k == mostMoved {
			return false
		}
		w.runs[k] = int32(i)
		i = a.after[i]
	}
	w.exit, w.n = i, k
	return i != w.entry
}

// exchange exchanges the runs of two windows that move, and reports false where one would have too many.
func (w *window) exchange(v *window) bool {
	n, m := w.moves, v.moves
	if w.n-n+m > mostMoved || v.n-m+n > mostMoved {
		return false
	}
	was, other := w.runs, v.runs
	copy(w.runs[copy(w.runs[:], other[:m]):], was[n:w.n])
	copy(v.runs[copy(v.runs[:], was[:n]):], other[m:v.n])
	w.moves, w.n, v.moves, v.n = m, w.n-n+m, n, v.n-m+n
	return true
}

// meet reports whether two windows have a run or a link in common.
func meet(w, v *window) bool {
	for _, i := range w.runs[:w.n] {
		for _, j := range v.runs[:v.n] {
			if i == j {
				return true
			}
		}
	}
	return w.exit == int(v.runs[0]) || v.exit == int(w.runs[0])
}

// wasted is what the links of a window waste, and the one to its exit unless that is the spare one.
func (a *annealing) wasted(w *window) measure.Length {
	sum := measure.Length(0)
	for _, i := range w.runs[:w.n] {
		sum += a.links.waste(int(i)) + a.over[i]
	}
	if w.exit != a.spare {
		sum += a.links.waste(w.exit)
	}
	return sum
}

// lay lays the runs of a window in their order, each with the longest starter or in one piece where there is room for
// it, and returns what they waste, or false once that is more than most.
func (a *annealing) lay(w *window, most measure.Length) (measure.Length, bool) {
	in := a.in
	room, sum, shorter := a.room[w.entry], measure.Length(0), w.shorter
	for k, i := range w.runs[:w.n] {
		sum += room
		longest := a.longest
		if a.price == 0 && k == w.n-1 && w.exit == a.spare {
			longest = a.longestAny
		}
		s, joints, ok := longest(int(i), room-shorter)
		if !ok {
			if s, joints, ok = longest(int(i), in.Plank); !ok {
				return 0, false
			}
			room = in.Plank
			sum += in.Plank
		}
		takes := s
		if joints == 0 {
			takes = room
		} else {
			shorter = 0
		}
		if sum -= takes; sum > most {
			return 0, false
		}
		left := takes + measure.Length(joints)*in.Plank - in.Runs[i].Length - in.Kerf
		w.starter[k], w.joints[k], w.left[k] = s, int32(joints), left
		sum += min(left, 0)
		room = max(left, 0)
	}
	if w.fresh = true; w.exit != a.spare {
		need := a.layout[w.exit]
		if w.fresh = room < need; w.fresh {
			sum += in.Plank
		}
		sum += room - need
	}
	return sum, sum <= most
}

// longest is the longest starter of run i up to r and its joints; 0 and none where it fits in one piece; false where
// there is none.
func (a *annealing) longest(i int, r measure.Length) (measure.Length, int, bool) {
	if r >= a.whole[i] {
		return 0, 0, true
	}
	segments := a.table.Of(i).Segments
	for k := len(segments) - 1; k >= 0; k-- {
		seg := &segments[k]
		if r >= seg.Hi {
			return seg.Hi, seg.Joints(), true
		}
		if r >= seg.Lo {
			return r - r%a.in.Grid, seg.Joints(), true
		}
	}
	return 0, 0, false
}

// mark begins a move of the runs of some windows.
func (a *annealing) mark(windows []*window) {
	a.moves++
	for _, w := range windows {
		for _, i := range w.runs[:w.n] {
			a.moved[i] = a.moves
		}
	}
}

// clashesOf counts the staggers that runs of marked windows break, and what those cost.
func (a *annealing) clashesOf(windows []*window) (n int, energy int64) {
	for _, w := range windows {
		for _, i := range w.runs[:w.n] {
			for _, t := range a.ties[i] {
				if a.moved[t.Run] == a.moves && t.Run < int(i) {
					continue // counted from the other run
				}
				if a.in.Clash(a.layout[i], a.joints[i], t.Delta+a.layout[t.Run], a.joints[t.Run]) {
					n++
					energy += a.price + a.stress[i] + a.stress[t.Run]
				}
			}
		}
	}
	return n, energy
}

// swap exchanges the starters of the runs of windows with those that the windows hold.
func (a *annealing) swap(windows []*window) {
	for _, w := range windows {
		for k, i := range w.runs[:w.n] {
			s, j := a.layout[i], a.joints[i]
			a.layout[i], a.joints[i] = w.starter[k], int(w.joints[k])
			w.starter[k], w.joints[k] = s, int32(j)
		}
	}
}

// join links the runs of a window.
func (a *annealing) join(w *window) {
	at, room := w.entry, a.room[w.entry]
	for k, run := range w.runs[:w.n] {
		i := int(run)
		a.fresh[i] = a.need(i) > room
		a.end(i, w.left[k])
		a.before[i], a.after[at] = at, i
		at, room = i, a.room[i]
		a.suspect(i)
		for _, t := range a.ties[i] {
			a.suspect(t.Run)
		}
	}
	a.before[w.exit], a.after[at] = at, w.exit
	a.fresh[w.exit] = w.fresh
	a.turns.changed(w)
}
