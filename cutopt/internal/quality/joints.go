package quality

import (
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A comb is the joints of a run: at first + kL for k from 0 to n-1.
type comb struct {
	first measure.Length
	n     int
}

// A link is a run beside another, and where it begins, seen from the beginning of that other.
type link struct {
	run   int32
	delta measure.Length
}

// A web says which runs lie beside which.
type web struct {
	plank, stagger, inLine measure.Length
	window                 measure.Length // of a cluster
	beside                 [][]link       // runs that touch, of the rows before and after
	across                 [][]link       // runs two rows away with a run between that touches both
	quartets               []quartet      // runs of four successive rows, each touching the next
	quartetsOf             [][]int32      // by run: the quartets it is part of
	before, after          [][]link       // runs with joints that touch, of the row before and of the row after
	ways                   []ways         // by run
	front, next            []int32        // of follow
	first                  rows.Layout    // by run: starter
	joints                 []int          // by run
}

// A quartet is four runs, and where they begin, seen from the first.
type quartet struct {
	run [4]int32
	at  [4]measure.Length
}

// newWeb finds the neighbours. Runs without joints are none, but others lie across them: none are ever given any.
func newWeb(p *Problem, layout rows.Layout) *web {
	in := p.Instance
	n := len(in.Runs)
	w := &web{
		plank: in.Plank, inLine: p.InLine, window: in.Plank / 3, stagger: in.Stagger,
		before: make(
			[][]link,
			n,
		), after: make([][]link, n), ways: make([]ways, n), beside: make([][]link, n), across: make([][]link, n),
		quartetsOf: make([][]int32, n),
		first:      layout, joints: make([]int, n),
	}
	after := make([][]link, n)
	for i, s := range layout {
		pieces, _ := in.Lay(i, s)
		w.joints[i] = pieces.Joints()
	}
	for _, t := range in.Touch {
		a, b := t[0], t[1]
		delta := in.Runs[b].From - in.Runs[a].From
		after[a] = append(after[a], link{int32(b), delta}) // of one piece too: joints are in line across such a run
		if w.joints[a] == 0 || w.joints[b] == 0 {
			continue
		}
		w.beside[a] = append(w.beside[a], link{int32(b), delta})
		w.beside[b] = append(w.beside[b], link{int32(a), -delta})
		w.after[a], w.before[b] = append(w.after[a], link{int32(b), delta}), append(w.before[b], link{int32(a), -delta})
	}
	for a := range n {
		w.reach(in, after, a)
	}
	return w
}

// reach lists what lies across from run a and the quartets that begin with it. Runs so far to the side that no joint of
// theirs counts with one of a are passed over.
func (w *web) reach(in *rows.Instance, after [][]link, a int) {
	near := func(l link, by measure.Length) bool {
		return l.delta-by < in.Runs[a].Length && l.delta+in.Runs[l.run].Length+by > 0
	}
	if w.joints[a] == 0 {
		return
	}
	for _, b := range after[a] {
		for _, c := range after[b.run] {
			c.delta += b.delta
			if w.joints[c.run] == 0 || !near(c, max(w.plank, w.inLine)) {
				continue
			}
			w.cross(a, c)
			if w.joints[b.run] == 0 {
				continue
			}
			for _, d := range after[c.run] {
				d.delta += c.delta
				if w.joints[d.run] == 0 || !near(d, 2*w.plank) {
					continue
				}
				ch := quartet{[4]int32{int32(a), b.run, c.run, d.run}, [4]measure.Length{0, b.delta, c.delta, d.delta}}
				for _, r := range ch.run {
					w.quartetsOf[r] = append(w.quartetsOf[r], int32(len(w.quartets)))
				}
				w.quartets = append(w.quartets, ch)
			}
		}
	}
}

// cross notes that a and c lie across from each other, once.
func (w *web) cross(a int, c link) {
	for _, l := range w.across[a] {
		if l.run == c.run {
			return
		}
	}
	w.across[a] = append(w.across[a], c)
	w.across[c.run] = append(w.across[c.run], link{int32(a), -c.delta})
}

func (w *web) comb(l link) comb { return comb{l.delta + w.first[l.run], w.joints[l.run]} }

// pairs counts the pairs of joints of two combs that are at most within apart. Joint k of a and joint k-q of b are
// a.first - b.first + qL apart, so only a few q count, each for as many k as both combs have.
func (w *web) pairs(a, b comb, within measure.Length) int {
	diff := a.first - b.first
	n := 0
	low := max((-within - diff + w.plank - 1).Div(w.plank), measure.Length(1-b.n))
	high := min((within - diff).Div(w.plank), measure.Length(a.n-1))
	for q := low; q <= high; q++ {
		n += min(a.n-1, b.n-1+int(q)) - max(0, int(q)) + 1
	}
	return n
}

// distance returns the least distance of joints of two combs, at most a plank.
func (w *web) distance(a, b comb) measure.Length {
	l, diff := w.plank, a.first-b.first
	q := min(max(-(diff+l/2).Div(l), measure.Length(-(b.n-1))), measure.Length(a.n-1))
	d := diff + q*l
	return min(max(d, -d), l)
}

// step returns the offset q of the joints of b after those of a, so that joint k of a and joint k+q of b are more than
// low and less than high apart, b to the right, and by how much. There is at most one, as high - low is at most a
// plank.
func (w *web) step(a, b, low, high measure.Length) (q int, by measure.Length, ok bool) {
	turns := (b - a - low - 1).Div(w.plank)
	by = b - a - turns*w.plank
	return -int(turns), by, by < high
}

// counts returns how many staircases and clusters a quartet has. Both are found by the joint of the first run: the
// others follow from it, whichever joint it is, until a run ends.
func (w *web) counts(c *quartet) (stairs, clusters int) {
	var at [4]measure.Length
	for k, r := range c.run {
		at[k] = c.at[k] + w.first[r]
	}
	if w.inLine < w.plank/2 {
		stairs = w.stairs(c, &at, 1) + w.stairs(c, &at, -1)
	}
	q := [4]int{}
	low, high := measure.Length(0), measure.Length(0) // of the joints, seen from the first
	for k := 1; k < 4; k++ {
		n, by, ok := w.step(at[0], at[k], -w.window-1, w.window+1)
		if !ok {
			return stairs, 0
		}
		q[k] = n
		low, high = min(low, by), max(high, by)
	}
	if high-low > w.window {
		return stairs, 0
	}
	return stairs, w.common(c, &q)
}

// stairs counts the staircases to the right (way 1) or to the left (-1): three steps more than in line and less than
// half a plank, no two of which differ by more than in line.
func (w *web) stairs(c *quartet, at *[4]measure.Length, way measure.Length) int {
	q := [4]int{}
	low, high := w.plank, measure.Length(0)
	for k := 1; k < 4; k++ {
		n, by, ok := w.step(way*at[k-1], way*at[k], w.inLine, (w.plank+1)/2)
		if !ok {
			return 0
		}
		q[k] = q[k-1] + n*int(way)
		low, high = min(low, by), max(high, by)
	}
	if high-low > w.inLine {
		return 0
	}
	return w.common(c, &q)
}

// common counts the k for which every run of the quartet has a joint k + q.
func (w *web) common(c *quartet, q *[4]int) int {
	low, high := 0, 1<<30
	for k, r := range c.run {
		low, high = max(low, -q[k]), min(high, w.joints[r]-1-q[k])
	}
	return max(0, high-low+1)
}

// local holds the figures that run i is part of.
type local struct{ h, stairs, clusters, short int }

// around counts the figures of joints that run i is part of; ties nearer than the threshold are short.
func (w *web) around(i int, threshold measure.Length) (v local) {
	own := comb{w.first[i], w.joints[i]}
	for _, l := range w.beside[i] {
		if threshold > 0 && w.distance(own, w.comb(l)) < threshold {
			v.short++
		}
	}
	for _, l := range w.across[i] {
		v.h += w.pairs(own, w.comb(l), w.inLine)
	}
	for _, k := range w.quartetsOf[i] {
		stairs, clusters := w.counts(&w.quartets[k])
		v.stairs += stairs
		v.clusters += clusters
	}
	return v
}

// clashes reports whether run i, laid with the joints given, has one nearer than the stagger to one of a run that
// touches it.
func (w *web) clashes(i int, own comb) bool {
	for _, l := range w.beside[i] {
		if w.distance(own, w.comb(l)) < w.stagger {
			return true
		}
	}
	return false
}
