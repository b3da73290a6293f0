package quality

import (
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A comb is the joints of a run, seen from the origin of all runs: joint k, from 0 to n-1, lies turn + k planks and
// phase from it. A phase is less than a plank, so how far two combs are apart takes no division.
type comb struct {
	phase   measure.Length
	turn, n int
}

// A link is a run of the next row, and where it begins, seen from the beginning of the run it touches.
type link struct {
	run   int32
	delta measure.Length
}

// A web says which runs lie beside which.
type web struct {
	plank, stagger, inLine measure.Length
	window                 measure.Length // of a cluster
	from                   []comb         // by run: where it begins
	at                     []comb         // by run
	beside                 [][]int32      // runs that touch, of the rows before and after
	across                 [][]int32      // runs two rows away with a run between that touches both
	quartets               [][4]int32     // runs of four successive rows, each touching the next
	quartetsOf             [][]int32      // by run: the quartets it is part of
	before, after          [][]int32      // runs with joints that touch, of the row before and of the row after
	ways                   []ways         // by run
	front, next            []int32        // of follow
}

// newWeb finds the neighbours. Runs without joints are none, but others lie across them: none are ever given any.
func newWeb(p *Problem, pieces []rows.Pieces) *web {
	in := p.Instance
	n := len(in.Runs)
	w := &web{
		plank: in.Plank, inLine: p.InLine, window: in.Plank / 3, stagger: in.Stagger,
		from: make([]comb, n), at: make([]comb, n), ways: make([]ways, n),
		beside: make([][]int32, n), across: make([][]int32, n), before: make([][]int32, n), after: make([][]int32, n),
		quartetsOf: make([][]int32, n),
	}
	after := make([][]link, n)
	for i := range pieces {
		turn := in.Runs[i].From.Div(in.Plank)
		w.from[i] = comb{phase: in.Runs[i].From - turn*in.Plank, turn: int(turn)}
		w.at[i] = w.comb(i, &pieces[i])
	}
	for _, t := range in.Touch {
		a, b := t[0], t[1]
		delta := in.Runs[b].From - in.Runs[a].From
		after[a] = append(after[a], link{int32(b), delta}) // of one piece too: joints are in line across such a run
		if w.at[a].n == 0 || w.at[b].n == 0 {
			continue
		}
		w.beside[a] = append(w.beside[a], int32(b))
		w.beside[b] = append(w.beside[b], int32(a))
		w.after[a], w.before[b] = append(w.after[a], int32(b)), append(w.before[b], int32(a))
	}
	for a := range n {
		w.reach(in, after, a)
	}
	return w
}

// comb returns the joints of run i laid in pieces.
func (w *web) comb(i int, pieces *rows.Pieces) comb {
	c := w.from[i]
	if c.phase += pieces.Starter; c.phase >= w.plank {
		c.phase -= w.plank
		c.turn++
	}
	c.n = pieces.Joints()
	return c
}

// reach lists what lies across from run a and the quartets that begin with it. Runs so far to the side that no joint of
// theirs counts with one of a are passed over.
func (w *web) reach(in *rows.Instance, after [][]link, a int) {
	near := func(l link, by measure.Length) bool {
		return l.delta-by < in.Runs[a].Length && l.delta+in.Runs[l.run].Length+by > 0
	}
	if w.at[a].n == 0 {
		return
	}
	for _, b := range after[a] {
		for _, c := range after[b.run] {
			c.delta += b.delta
			if w.at[c.run].n == 0 || !near(c, max(w.plank, w.inLine)) {
				continue
			}
			w.cross(int32(a), c.run)
			if w.at[b.run].n == 0 {
				continue
			}
			for _, d := range after[c.run] {
				d.delta += c.delta
				if w.at[d.run].n == 0 || !near(d, 2*w.plank) {
					continue
				}
				four := [4]int32{int32(a), b.run, c.run, d.run}
				for _, r := range four {
					w.quartetsOf[r] = append(w.quartetsOf[r], int32(len(w.quartets)))
				}
				w.quartets = append(w.quartets, four)
			}
		}
	}
}

// cross notes that a and c lie across from each other, once.
func (w *web) cross(a, c int32) {
	if !slices.Contains(w.across[a], c) {
		w.across[a] = append(w.across[a], c)
		w.across[c] = append(w.across[c], a)
	}
}

// apart returns how far the joints of b lie to the right of the nearest ones of a, had neither an end: more than half a
// plank to the left at least, half a plank at most. Joint k of a and joint k+q of b are so far apart.
func (w *web) apart(a, b *comb) (by measure.Length, q int) {
	by, q = b.phase-a.phase, a.turn-b.turn
	if 2*by > w.plank {
		return by - w.plank, q - 1
	}
	if 2*by <= -w.plank {
		return by + w.plank, q + 1
	}
	return by, q
}

// shared counts the k for which a has a joint k and b a joint k+q.
func shared(a, b *comb, q int) int { return max(0, min(a.n, b.n-q)-max(0, -q)) }

// pairs counts the pairs of joints of two combs that are at most within apart.
func (w *web) pairs(a, b *comb, within measure.Length) int {
	by, q := w.apart(a, b)
	if 2*within < w.plank {
		if by > within || by < -within {
			return 0
		}
		return shared(a, b, q)
	}
	n := 0
	low := max((-within - by + w.plank - 1).Div(w.plank), measure.Length(1-a.n-q))
	high := min((within - by).Div(w.plank), measure.Length(b.n-1-q))
	for m := low; m <= high; m++ {
		n += shared(a, b, q+int(m))
	}
	return n
}

// distance returns the least distance of joints of two combs, at most a plank.
func (w *web) distance(a, b *comb) measure.Length {
	by, q := w.apart(a, b)
	by += measure.Length(min(max(q, 1-a.n), b.n-1)-q) * w.plank
	return min(max(by, -by), w.plank)
}

// counts returns how many staircases and clusters a quartet has. Both are found by the joint of the first run: the
// others follow from it, whichever joint it is, until a run ends.
func (w *web) counts(four *[4]int32) (stairs, clusters int) {
	runs := [4]*comb{&w.at[four[0]], &w.at[four[1]], &w.at[four[2]], &w.at[four[3]]}
	return w.stairs(&runs), w.clusters(&runs)
}

// stairs counts the staircases: three steps the same way, more than in line and less than half a plank, no two of which
// differ by more than in line.
func (w *web) stairs(runs *[4]*comb) int {
	q := [4]int{}
	low, high := w.plank, -w.plank
	for k := 1; k < 4; k++ {
		by, n := w.apart(runs[k-1], runs[k])
		if max(by, -by) <= w.inLine || 2*by == w.plank {
			return 0
		}
		q[k] = q[k-1] + n
		low, high = min(low, by), max(high, by)
		if high-low > w.inLine {
			return 0
		}
	}
	return common(runs, &q)
}

// clusters counts the clusters: joints of all four runs in a window.
func (w *web) clusters(runs *[4]*comb) int {
	q := [4]int{}
	low, high := measure.Length(0), measure.Length(0) // of the joints, seen from the first
	for k := 1; k < 4; k++ {
		by, n := w.apart(runs[0], runs[k])
		q[k] = n
		low, high = min(low, by), max(high, by)
		if high-low > w.window {
			return 0
		}
	}
	return common(runs, &q)
}

// common counts the k for which every run of the quartet has a joint k + q.
func common(runs *[4]*comb, q *[4]int) int {
	low, high := -q[0], runs[0].n-q[0]
	for k := 1; k < 4; k++ {
		low, high = max(low, -q[k]), min(high, runs[k].n-q[k])
	}
	return max(0, high-low)
}

// inLines counts the pairs of joints in line that run i is part of when it is laid with the joints given.
func (w *web) inLines(i int, own *comb) (n int) {
	for _, r := range w.across[i] {
		n += w.pairs(own, &w.at[r], w.inLine)
	}
	return n
}

// fours counts the staircases and clusters that run i is part of.
func (w *web) fours(i int) (stairs, clusters int) {
	for _, k := range w.quartetsOf[i] {
		s, c := w.counts(&w.quartets[k])
		stairs += s
		clusters += c
	}
	return stairs, clusters
}

// short counts the ties of run i that are nearer than a distance when it is laid with the joints given.
func (w *web) short(i int, own *comb, than measure.Length) (n int) {
	if than <= 0 {
		return 0
	}
	for _, r := range w.beside[i] {
		if w.distance(own, &w.at[r]) < than {
			n++
		}
	}
	return n
}

// clashes reports whether run i, laid with the joints given, has one nearer than the stagger to one of a run that
// touches it.
func (w *web) clashes(i int, own *comb) bool {
	for _, r := range w.beside[i] {
		if w.distance(own, &w.at[r]) < w.stagger {
			return true
		}
	}
	return false
}
