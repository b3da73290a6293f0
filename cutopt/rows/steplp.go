package rows

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"

	"plank.example/cutopt/measure"
)

// WriteStepLP writes the step model in CPLEX-LP form. It covers every instance that passes Validate: one-piece runs,
// offcuts on hand, runs that are begun and joints laid beside runs too, and general solvers close it faster than the
// compact model.
//
// A binary y_i_k says that run i is laid in two pieces or more and its starter is at most the k-th grid line; it rises
// with k. u_i says that the run is one piece. What a run contributes anywhere is then a difference of two y, so each
// tie row has four terms or a few more where the compact model has hundreds. Planks are counted as flow along a plank
// from its left end: an ender opens a plank and leaves it at e + Kerf, z opens one at 0, one-piece runs lead from a
// place to the next (a_w_v: how many pieces of length w begin at v), a starter takes a plank that has come no farther
// than L - s, and what is left over stays behind (f_v). Offcuts on hand are flows of their own or join that of planks
// for nothing.
//
//	planks = whole pieces + cut enders + z - enders cut from offcuts (g)
//
// The model has O(runs * P + places) columns and O(ties * P + runs * P + places) rows for P grid lines in a plank;
// places are O(P) without one-piece runs, and all sums of an ender and one-piece runs with them. Beyond 200 million
// terms or 200,000 places it is refused with [ErrTooLarge] before anything is written; so is, without a sentinel, an
// instance with a run that no starter and not one piece can lay. The other errors are those of w.
func (in *Instance) WriteStepLP(w io.Writer) error {
	base, err := newModel(in, w)
	if err != nil {
		return err
	}
	m := &steps{model: base, ids: make(map[string]int), objective: newSum()}
	for i, c := range m.runs {
		if len(c) == 0 && !in.MayBeSingle(i) {
			return &Error{
				Field: fmt.Sprintf("runs[%d]", i), Rule: "no starter keeps the rules, and it is longer than a plank",
				Mend: "loosen a rule, or leave out the joints beside it",
			}
		}
	}
	if err := m.flows(); err != nil {
		return err
	}
	m.order()
	for k, t := range in.Touch {
		n := 0
		m.cliques(t[0], t[1], func(lo, hi int, bs []int) {
			s := newSum()
			m.between(s, t[0], lo, hi, 1)
			for len(bs) > 0 {
				end := 1
				for end < len(bs) && bs[end] == bs[0]+end {
					end++
				}
				m.between(s, t[1], bs[0], bs[0]+end, 1)
				bs = bs[end:]
			}
			m.row(fmt.Sprintf("tie_%d_%d", k, n), s, "<=", 1)
			n++
		})
	}
	return m.write()
}

// A sum is a linear expression over columns.
type sum struct {
	of       map[int]int // factor by column
	constant int
}

func newSum() *sum { return &sum{of: make(map[int]int)} }

func (s *sum) add(column, factor int) { s.of[column] += factor }

func (s *sum) join(other *sum, factor int) {
	s.constant += factor * other.constant
	for column, f := range other.of {
		s.of[column] += factor * f
	}
}

// steps is the step model on its way.
type steps struct {
	*model
	ids       map[string]int
	names     []string
	kinds     []kind
	bounds    []string
	objective *sum // planks
	rows      []line
}

type kind uint8

const (
	continuous kind = iota
	integer
	binary
)

type line struct {
	name, sign string
	sum        *sum
	right      int
}

func (m *steps) column(name string, k kind) int {
	id, ok := m.ids[name]
	if !ok {
		id = len(m.names)
		m.ids[name], m.names, m.kinds = id, append(m.names, name), append(m.kinds, k)
	}
	return id
}

func (m *steps) row(name string, s *sum, sign string, right int) {
	m.rows = append(m.rows, line{name, sign, s, right})
}

// short adds factor times "run i is one piece".
func (m *steps) short(s *sum, i, factor int) {
	switch {
	case !m.in.MayBeSingle(i):
	case len(m.runs[i]) == 0:
		s.constant += factor
	default:
		s.add(m.column(fmt.Sprintf("u_%d", i), binary), factor)
	}
}

// upTo adds factor times "run i has one of its first n starters".
func (m *steps) upTo(s *sum, i, n, factor int) {
	switch {
	case n == 0:
	case n == len(m.runs[i]):
		s.constant += factor
		m.short(s, i, -factor)
	default:
		s.add(m.column(fmt.Sprintf("y_%d_%s", i, m.line(m.runs[i][n-1])), binary), factor)
	}
}

// between adds factor times "run i has one of its starters lo to hi-1".
func (m *steps) between(s *sum, i, lo, hi, factor int) {
	m.upTo(s, i, hi, factor)
	m.upTo(s, i, lo, -factor)
}

// order makes the steps of each run rise.
func (m *steps) order() {
	for i, c := range m.runs {
		for n := 1; n < len(c); n++ {
			s := newSum()
			m.upTo(s, i, n, 1)
			m.upTo(s, i, n+1, -1)
			if len(s.of) > 1 {
				m.row(fmt.Sprintf("rise_%d_%d", i, n), s, "<=", 0)
			}
		}
	}
}

// A strip is what one-piece runs, enders and starters are placed on: all planks, or the offcuts on hand of one kind.
type strip struct {
	name   string
	length measure.Length
	open   map[measure.Length]*sum // what enters at each place
	take   map[measure.Length]*sum // starters that leave at each place
}

func newStrip(name string, length measure.Length) *strip {
	return &strip{name, length, make(map[measure.Length]*sum), make(map[measure.Length]*sum)}
}

func at(m map[measure.Length]*sum, place measure.Length) *sum {
	s := m[place]
	if s == nil {
		s = newSum()
		m[place] = s
	}
	return s
}

// raise moves what enters to the next place where a starter may leave, since nothing else can happen before.
func (s *strip) raise() {
	places := slices.Sorted(maps.Keys(s.take))
	raised := make(map[measure.Length]*sum)
	for _, v := range slices.Sorted(maps.Keys(s.open)) {
		if k, _ := slices.BinarySearch(places, v); k < len(places) {
			at(raised, places[k]).join(s.open[v], 1)
		}
	}
	s.open = raised
}

// maxPlaces bounds the places of all strips.
const maxPlaces = 200_000

// flows writes the rows that count planks.
func (m *steps) flows() error {
	l := m.in.Plank
	planks := newStrip("", l)
	enders := make(map[measure.Length]*sum) // cut enders of each length
	for i, c := range m.runs {
		for n, p := range c {
			m.between(m.objective, i, n, n+1, m.whole(p))
			if p.Starter < l {
				m.between(at(planks.take, l-p.Starter), i, n, n+1, 1)
			}
			if p.Ender < l {
				m.between(m.objective, i, n, n+1, 1)
				m.between(at(enders, p.Ender), i, n, n+1, 1)
				m.between(at(planks.open, m.room(p.Ender)), i, n, n+1, 1)
			}
		}
	}
	pieces := make(map[measure.Length]*sum) // of one-piece runs, by length
	for i := range m.in.Runs {
		switch w := m.in.Runs[i].Length; {
		case !m.in.MayBeSingle(i):
		case w == l:
			m.short(m.objective, i, 1)
		case w < l:
			m.short(at(pieces, w), i, -1)
		}
	}
	z := m.column("z", integer)
	m.objective.add(z, 1)
	at(planks.open, 0).add(z, 1)
	strips := append([]*strip{planks}, m.onHand(planks, enders)...)
	if len(pieces) == 0 {
		planks.raise()
	}
	places := 0
	for _, s := range strips {
		list := m.places(s, pieces, maxPlaces-places)
		if places += len(list); places >= maxPlaces {
			return &Error{
				Field: "runs", Rule: fmt.Sprintf("the one-piece runs begin at more than %d places of a plank", maxPlaces),
				Mend: "write fewer short runs, or a coarser grid", sentinel: ErrTooLarge,
			}
		}
		m.flow(s, list, pieces)
	}
	for _, w := range slices.Sorted(maps.Keys(pieces)) {
		m.row(fmt.Sprintf("pieces_%d", w), pieces[w], "=", 0)
	}
	return nil
}

// onHand adds the offcuts: those with a right end join the planks, the others are strips of their own, on which an
// ender may open one that has a left end.
func (m *steps) onHand(planks *strip, enders map[measure.Length]*sum) []*strip {
	counts := make(map[Offcut]int)
	for _, o := range m.in.Offcuts {
		counts[o]++
	}
	kinds := slices.SortedFunc(maps.Keys(counts), func(a, b Offcut) int {
		return cmp.Or(cmp.Compare(a.End, b.End), cmp.Compare(a.Length, b.Length))
	})
	var strips []*strip
	taken := make(map[measure.Length]*sum) // enders of each length cut from offcuts
	for _, o := range kinds {
		name := fmt.Sprintf("%s_%d", o.End, o.Length)
		z := m.column("z_"+name, integer)
		if o.End == EndRight {
			m.bounds = append(m.bounds, fmt.Sprintf(" 0 <= z_%s <= %d", name, counts[o]))
			at(planks.open, m.in.Plank-o.Length).add(z, 1)
			continue
		}
		s := newStrip("_"+name, o.Length)
		at(s.open, 0).add(z, 1)
		used := newSum()
		used.add(z, 1)
		if o.End == EndLeft {
			for _, e := range slices.Sorted(maps.Keys(enders)) {
				if e > o.Length {
					break
				}
				g := m.column(fmt.Sprintf("g_%s_%d", name, e), integer)
				used.add(g, 1)
				m.objective.add(g, -1)
				at(s.open, m.room(e)).add(g, 1)
				at(planks.open, m.room(e)).add(g, -1)
				at(taken, e).add(g, 1)
			}
		}
		m.row("hand_"+name, used, "<=", counts[o])
		strips = append(strips, s)
	}
	for _, e := range slices.Sorted(maps.Keys(taken)) { // no more enders than there are
		taken[e].join(enders[e], -1)
		m.row(fmt.Sprintf("enders_%d", e), taken[e], "<=", 0)
	}
	return strips
}

// places lists where pieces may begin on a strip, rising: where it is opened or taken, and after sums of one-piece
// runs.
func (m *steps) places(s *strip, pieces map[measure.Length]*sum, most int) []measure.Length {
	seen := make(map[measure.Length]bool)
	var queue []measure.Length
	reach := func(v measure.Length) {
		if v < s.length && !seen[v] && len(seen) < most {
			seen[v] = true
			queue = append(queue, v)
		}
	}
	for v := range s.open {
		reach(v)
	}
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		for w := range pieces {
			if v+w <= s.length {
				reach(m.room(v + w))
			}
		}
	}
	for v := range s.take {
		reach(v)
	}
	return slices.Sorted(maps.Keys(seen))
}

// flow writes, for each place of a strip, that what comes from the place before, what is opened and the one-piece runs
// that end there are as many as what goes on to the next place, the one-piece runs that begin and the starters.
func (m *steps) flow(s *strip, places []measure.Length, pieces map[measure.Length]*sum) {
	lengths := slices.Sorted(maps.Keys(pieces))
	arrive := make(map[measure.Length]*sum)
	before := -1
	for _, v := range places {
		balance := at(arrive, v)
		if in := s.open[v]; in != nil {
			balance.join(in, 1)
		}
		if out := s.take[v]; out != nil {
			balance.join(out, -1)
		}
		for _, w := range lengths {
			if v+w <= s.length {
				a := m.column(fmt.Sprintf("a_%d_%d%s", w, v, s.name), integer)
				balance.add(a, -1)
				pieces[w].add(a, 1)
				at(arrive, m.room(v+w)).add(a, 1)
			}
		}
		if before >= 0 {
			balance.add(before, 1)
		}
		before = m.column(fmt.Sprintf("f_%d%s", v, s.name), continuous)
		balance.add(before, -1)
		m.row(fmt.Sprintf("place_%d%s", v, s.name), balance, "=", 0)
	}
}

// write writes the model. Terms stand eight to a line, since readers limit its length.
func (m *steps) write() error {
	m.title("step model")
	planks := m.column("planks", integer)
	m.objective.add(planks, -1)
	m.row("count", m.objective, "=", 0)
	m.printf("Minimize\n planks\nSubject To\n")
	for _, l := range m.rows {
		n := 0
		for _, c := range slices.Sorted(maps.Keys(l.sum.of)) {
			factor := l.sum.of[c]
			if factor == 0 {
				continue
			}
			switch {
			case n == 0:
				m.printf(" %s:", l.name)
			case n%8 == 0:
				m.printf("\n ")
			}
			n++
			sign := '+'
			if factor < 0 {
				sign, factor = '-', -factor
			}
			if m.printf(" %c", sign); factor != 1 {
				m.printf(" %d", factor)
			}
			m.printf(" %s", m.names[c])
		}
		right := l.right - l.sum.constant
		switch {
		case n > 0:
			m.printf(" %s %d\n", l.sign, right)
		case l.sign == "<=" && right < 0 || l.sign == "=" && right != 0: // no layout keeps the rules
			m.printf(" %s: planks <= -1\n", l.name)
		}
	}
	if len(m.bounds) > 0 {
		m.printf("Bounds\n")
		for _, b := range m.bounds {
			m.printf("%s\n", b)
		}
	}
	for _, section := range []struct {
		title string
		kind  kind
	}{{"Binaries", binary}, {"Generals", integer}} {
		m.printf("%s\n", section.title)
		for c, name := range m.names {
			if m.kinds[c] == section.kind {
				m.printf(" %s\n", name)
			}
		}
	}
	m.printf("End\n")
	return m.w.Flush()
}
