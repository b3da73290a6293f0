package rows

import (
	"bufio"
	"errors"
	"fmt"
	"io"

	"plank.example/cutopt/measure"
)

// ErrModel is returned by WriteLP for instances that the compact model does not cover.
var ErrModel = errors.New("rows: the compact model covers no runs as short as a plank or without a starter, and no offcuts on hand")

// WriteLP writes the compact mixed-integer model in CPLEX-LP form, so that any solver can attack the instance: one binary
// x_i_k for each run i and admissible starter k (in grid lines; L for a whole plank), one clique row for each window of
// one stagger between two touching runs, and one row for each threshold t of Hall's condition,
//
//	planks >= sum of planks started + #{enders with L-kerf-e < t} - #{starters < t}.
//
// The model has O(runs * P) columns and O(ties * P + P) rows for P grid lines in a plank. With a run that one piece may
// lay, one that no starter may, or offcuts on hand, the error is ErrModel.
func (in *Instance) WriteLP(w io.Writer) error {
	m := &model{in: in, w: bufio.NewWriter(w)}
	for i := range in.Runs {
		c := m.choices(i)
		if len(c) == 0 || in.Runs[i].Length <= in.Plank {
			return ErrModel
		}
		m.runs = append(m.runs, c)
	}
	if len(in.Offcuts) > 0 {
		return ErrModel
	}
	m.printf("\\ %s: %d runs, plank %d, kerf %d, shortest piece %d, stagger %d, grid %d\n", "plank rows", len(in.Runs),
		in.Plank, in.Kerf, in.MinPiece, in.Stagger, in.Grid)
	m.printf("Minimize\n planks\nSubject To\n")
	m.one()
	m.staggers()
	m.thresholds()
	m.printf("Binaries\n")
	for i, c := range m.runs {
		for _, p := range c {
			m.printf(" %s\n", m.name(i, p))
		}
	}
	m.printf("Generals\n planks\nEnd\n")
	return m.w.Flush()
}

type model struct {
	in   *Instance
	w    *bufio.Writer
	runs [][]Pieces
}

func (m *model) printf(format string, args ...any) { fmt.Fprintf(m.w, format, args...) }

// choices lists the ways to lay run i in two pieces or more.
func (m *model) choices(i int) []Pieces {
	var out []Pieces
	for s := m.in.Grid; s < m.in.Plank; s += m.in.Grid {
		if p, ok := m.in.Lay(i, s); ok {
			out = append(out, p)
		}
	}
	if p, ok := m.in.Lay(i, m.in.Plank); ok {
		out = append(out, p)
	}
	return out
}

func (m *model) name(i int, p Pieces) string {
	if p.Starter == m.in.Plank {
		return fmt.Sprintf("x_%d_L", i)
	}
	return fmt.Sprintf("x_%d_%d", i, p.Starter/m.in.Grid)
}

// one makes every run take one starter.
func (m *model) one() {
	for i, c := range m.runs {
		m.printf(" run_%d:", i)
		for _, p := range c {
			m.printf(" + %s\n", m.name(i, p))
		}
		m.printf(" = 1\n")
	}
}

// staggers writes, for every tie and every starter p of its first run, the row that p and the starters up to one stagger
// after it, and all starters of the other run that clash with each of these, sum to at most 1. Pairs that no such row
// covers get a row of their own.
func (m *model) staggers() {
	for k, t := range m.in.Touch {
		a, b := t[0], t[1]
		n := 0
		covered := make(map[[2]int]bool)
		row := func(as, bs []int) {
			m.printf(" tie_%d_%d:", k, n)
			n++
			for _, p := range as {
				m.printf(" + %s\n", m.name(a, m.runs[a][p]))
			}
			for _, q := range bs {
				m.printf(" + %s\n", m.name(b, m.runs[b][q]))
				for _, p := range as {
					covered[[2]int{p, q}] = true
				}
			}
			m.printf(" <= 1\n")
		}
		for p := range m.runs[a] {
			as := []int{p}
			for r := p + 1; r < len(m.runs[a]) && m.runs[a][r].Starter < m.runs[a][p].Starter+m.in.Stagger; r++ {
				as = append(as, r)
			}
			if bs := m.clashing(a, b, as); len(bs) > 0 {
				row(as, bs)
			}
		}
		for p := range m.runs[a] {
			var rest []int
			for q := range m.runs[b] {
				if m.clash(a, b, p, q) && !covered[[2]int{p, q}] {
					rest = append(rest, q)
				}
			}
			if len(rest) > 0 {
				row([]int{p}, rest)
			}
		}
	}
}

func (m *model) clashing(a, b int, as []int) []int {
	var bs []int
	for q := range m.runs[b] {
		all := true
		for _, p := range as {
			if !m.clash(a, b, p, q) {
				all = false
				break
			}
		}
		if all {
			bs = append(bs, q)
		}
	}
	return bs
}

func (m *model) clash(a, b, p, q int) bool {
	x, y := m.runs[a][p], m.runs[b][q]
	return m.in.Clash(m.in.Runs[a].From+x.Starter, x.Joints(), m.in.Runs[b].From+y.Starter, y.Joints())
}

// thresholds writes Hall's condition for every t that a starter can pass, and for no t.
func (m *model) thresholds() {
	row := func(name string, t measure.Length) {
		m.printf(" %s: planks\n", name)
		for i, c := range m.runs {
			for _, p := range c {
				n := p.Field + 1
				if p.Starter < t {
					n--
				}
				if p.Ender == m.in.Plank || m.in.Plank-m.in.Kerf-p.Ender < t {
					n++
				}
				if n > 0 {
					m.printf(" - %d %s\n", n, m.name(i, p))
				}
			}
		}
		m.printf(" >= 0\n")
	}
	row("hall_0", 0)
	for t := m.in.Grid; t <= m.in.Plank; t += m.in.Grid {
		row(fmt.Sprintf("hall_%d", t/m.in.Grid), t)
	}
}
