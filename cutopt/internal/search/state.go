package search

import (
	"sort"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// state is a layout with the incremental figures of the target search. With thresholds t_1 < t_2 < … at every starter
// value and t_0 = 0,
//
//	G(k) = planks started + #{enders that leave less than t_k} - #{starters shorter than t_k} - target,
//
// where planks started counts whole planks, cut starters and boards of singles. The layout fits the target exactly when
// no G(k) is above 0 (Hall's theorem), so energy, the sum of the positive parts, measures how far it is from fitting.
// Each threshold counts by the stretch of lengths it stands for, up to it from the one before: the first stands for all
// offcuts shorter than the shortest starter, often a sixth of a plank, and walks that take it for one of hundreds end
// with too many of those.
type state struct {
	Domain
	at       []int32          // by run: index in options
	starters []measure.Length // by run: of its option, flat for scans
	lists    *lists           // the runs by their starters, where they are too many to scan; else nil
	joints   []measure.Length // by run: where its joints lie, modulo the plank
	from     []measure.Length // by run: From modulo the plank
	g        []int32
	energy   int64
	clashes  int // ties whose stagger is broken
	target   int
	crossed  *crossed // where there are offcuts of either end on hand: G may be too low

	// Runs laid in one piece share planks: host is the run whose starter or single they lie beside, -1 for none; load is
	// what lies beside a run's piece, each with a kerf.
	host   []int32
	load   []measure.Length
	guests []int32
}

// newState places every run at the option nearest to layout and counts the figures for the target.
func newState(d *Domain, layout rows.Layout, packing rows.Packing, target int) *state {
	in := d.in
	n := len(in.Runs)
	st := &state{
		Domain: *d, target: target, crossed: newCrossed(in), at: make([]int32, n), g: make([]int32, len(d.widths)),
		starters: make([]measure.Length, n), joints: make([]measure.Length, n), from: make([]measure.Length, n),
		host: make([]int32, n), load: make([]measure.Length, n), guests: make([]int32, n),
	}
	if n >= fewestListed {
		st.lists = newLists(in.Plank, n)
	}
	for i := range n {
		st.host[i] = -1
		st.from[i] = (in.Runs[i].From%in.Plank + in.Plank) % in.Plank
		st.lay(i, int32(nearest(st.options[i], layout[i])))
	}
	for i := range n {
		if !st.isSingle(i) || packing == nil || packing[i] < 0 || in.Runs[i].Length == in.Plank {
			continue
		}
		h := packing[i]
		if add := in.Runs[i].Length + in.Kerf; st.canHost(h) && st.length(h)+st.load[h]+add <= in.Plank {
			st.host[i] = int32(h)
			st.load[h] += add
			st.guests[h]++
		}
	}
	st.recount(target)
	return st
}

func nearest(options []option, s measure.Length) int {
	best, at := measure.Length(-1), 0
	for k := range options {
		d := options[k].starter - s
		if d < 0 {
			d = -d
		}
		if best < 0 || d < best {
			best, at = d, k
		}
	}
	return at
}

// lay lays run i by option k.
func (st *state) lay(i int, k int32) {
	st.at[i] = k
	starter := st.options[i][k].starter
	if st.lists != nil {
		st.lists.move(i, st.starters[i], starter)
	}
	st.starters[i] = starter
	st.joints[i] = st.jointsOf(i, st.starters[i])
}

// jointsOf is where the joints of run i lie with the given starter, modulo the plank.
func (st *state) jointsOf(i int, starter measure.Length) measure.Length {
	x := st.from[i] + starter
	if x >= st.in.Plank {
		x -= st.in.Plank
	}
	return x
}

// apart reports whether joints at x and y, modulo the plank, keep the stagger wherever their runs end. What does not is
// for Clash to decide.
func (st *state) apart(x, y measure.Length) bool {
	d := x - y
	if d < 0 {
		d = -d
	}
	return d >= st.in.Stagger && d <= st.in.Plank-st.in.Stagger
}

func (st *state) option(i int) *option { return &st.options[i][st.at[i]] }
func (st *state) isSingle(i int) bool  { return st.option(i).starter == 0 }
func (st *state) length(i int) measure.Length {
	if o := st.option(i); o.starter > 0 {
		return o.starter
	}
	return st.in.Runs[i].Length
}

// canHost reports whether singles may lie beside the piece of run i.
func (st *state) canHost(i int) bool { return st.host[i] < 0 && st.length(i) < st.in.Plank }

// effectOf is the effect of run i laid as o, with what lies beside it.
func (st *state) effectOf(i int, o *option) effect {
	e := o.effect
	if st.host[i] >= 0 {
		none := int32(len(st.g))
		return effect{none, none, 0}
	}
	if st.load[i] > 0 {
		x := o.starter
		if x == 0 {
			x = st.in.Runs[i].Length
		}
		e.s = st.fromStarter(x + st.load[i])
	}
	return e
}

// recount computes g, energy and clashes from scratch.
func (st *state) recount(target int) {
	for k := range st.g {
		st.g[k] = int32(-target)
	}
	st.energy = 0
	for i := range st.options {
		st.shift(effect{int32(len(st.g)), int32(len(st.g)), 0}, st.effectOf(i, st.option(i)))
	}
	for _, o := range st.in.Offcuts {
		none := int32(len(st.g))
		e := effect{none, none, 0}
		switch o.End {
		case rows.EndLeft:
			e.s = st.fromStarter(max(st.in.Plank-st.in.Kerf-o.Length, 1))
		case rows.EndRight:
			e.r, e.planks = st.fromRoom(o.Length), -1
		}
		st.shift(effect{none, none, 0}, e)
	}
	st.energy = 0
	for k, g := range st.g {
		st.energy += int64(max(g, 0)) * int64(st.widths[k])
	}
	st.clashes = 0
	for i := range st.options {
		st.clashes += st.clashesOf(i, st.option(i))
	}
	st.clashes /= 2
}

func (st *state) clashesOf(i int, o *option) int {
	n := 0
	x := st.jointsOf(i, o.starter)
	for _, tie := range st.table.Ties[i] {
		if st.apart(x, st.joints[tie.Run]) {
			continue
		}
		other := st.option(tie.Run)
		if st.in.Clash(o.starter, int(o.joints), tie.Delta+other.starter, int(other.joints)) {
			n++
		}
	}
	return n
}

// clashesOfBoth counts the broken ties of two runs, one between them once.
func (st *state) clashesOfBoth(i, j int) int {
	a, b := st.option(i), st.option(j)
	n := st.clashesOf(i, a) + st.clashesOf(j, b)
	for _, tie := range st.table.Ties[i] {
		if tie.Run == j && st.in.Clash(a.starter, int(a.joints), tie.Delta+b.starter, int(b.joints)) {
			n--
		}
	}
	return n
}

// gain returns by how much the energy would change if effect a became b: the four thresholds at which an effect begins
// cut G into at most five stretches, each moved by a constant.
func (st *state) gain(a, b effect) int64 {
	d := int64(0)
	base := b.planks - a.planks
	c0, c1 := min(a.s, b.s), max(a.s, b.s)
	c2, c3 := min(a.r, b.r), max(a.r, b.r)
	if c1 > c2 { // merge the two sorted pairs
		c1, c2 = c2, c1
		if c0 > c1 {
			c0, c1 = c1, c0
		}
		if c2 > c3 {
			c2, c3 = c3, c2
		}
		if c1 > c2 {
			c1, c2 = c2, c1
		}
	}
	from := int32(0)
	for _, to := range [5]int32{c0, c1, c2, c3, int32(len(st.g))} {
		if from == to {
			continue
		}
		if c := base + b2i(from >= a.s) - b2i(from >= b.s) - b2i(from >= a.r) + b2i(from >= b.r); c != 0 {
			widths := st.widths[from:to]
			for k, g := range st.g[from:to] {
				d += int64(max(g+c, 0)-max(g, 0)) * int64(widths[k])
			}
		}
		from = to
	}
	return d
}

func b2i(b bool) int32 {
	if b {
		return 1
	}
	return 0
}

// shift changes effect a into b in G.
func (st *state) shift(a, b effect) {
	if base := b.planks - a.planks; base != 0 {
		for k := range st.g {
			st.g[k] += base
		}
	}
	st.addRange(a.s, b.s, 1)
	st.addRange(a.r, b.r, -1)
}

func (st *state) addRange(from, to, by int32) {
	if from > to {
		from, to, by = to, from, -by
	}
	for k := from; k < to; k++ {
		st.g[k] += by
	}
}

// short returns the first and the last of a stretch of thresholds whose G is above 0, found from threshold k on, or 0,
// 0 where there is none but threshold 0.
func (st *state) short(k int) (first, last int) {
	for n := len(st.g); ; n-- {
		if n == 0 {
			return 0, 0
		}
		if k++; k >= len(st.g) {
			k = 0
		}
		if k > 0 && st.g[k] > 0 {
			break
		}
	}
	first, last = k, k
	for first > 1 && st.g[first-1] > 0 {
		first--
	}
	for last+1 < len(st.g) && st.g[last+1] > 0 {
		last++
	}
	return first, last
}

// layout and packing read the state out.
func (st *state) layout() (rows.Layout, rows.Packing) {
	l := make(rows.Layout, len(st.options))
	p := make(rows.Packing, len(st.options))
	for i := range l {
		l[i] = st.option(i).starter
		p[i] = int(st.host[i])
	}
	return l, p
}

// last returns the option of run i with the longest starter up to x.
func (st *state) last(i int, x measure.Length) int {
	k := sort.Search(len(st.options[i]), func(k int) bool { return st.options[i][k].starter > x })
	return max(k-1, 0)
}

// first returns the option of run i with the least room of at least x. Rooms ascend with the starter while the number
// of whole planks is the same; the other stretch wraps round.
func (st *state) first(i int, x measure.Length) int {
	in := st.in
	// room = plank - kerf - (W - s - nL), so s = x - plank + kerf + W - nL, brought into (0, plank].
	s := x + in.Kerf + in.Runs[i].Length - in.Plank
	s = (s-1)%in.Plank + 1
	if s <= 0 {
		s += in.Plank
	}
	k := sort.Search(len(st.options[i]), func(k int) bool { return st.options[i][k].starter >= s })
	return min(k, len(st.options[i])-1)
}
