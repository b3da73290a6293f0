package rows

import (
	"fmt"
	"io"

	"plank.example/cutopt/measure"
)

// WriteLP writes the compact mixed-integer model in CPLEX-LP form, so that any solver can attack the instance: one
// binary x_i_k for each run i and admissible starter k (in grid lines; L for a whole plank), one clique row for each
// window of one stagger between two touching runs, and one row for each threshold t of Hall's condition,
//
//	planks >= sum of planks started + #{enders with L-kerf-e < t} - #{starters < t}.
//
// The model has O(runs * P) columns and O(ties * P + P) rows for P grid lines in a plank. With a run that one piece may
// lay, one that no starter may, or offcuts on hand, the error wraps [ErrModel]: [Instance.WriteStepLP] covers these. A
// model beyond 200 million terms is refused with [ErrTooLarge] before anything is written; the other errors are those
// of w.
func (in *Instance) WriteLP(w io.Writer) error {
	if len(in.Offcuts) > 0 {
		return &Error{
			Field: "number of offcuts", Value: fmt.Sprint(len(in.Offcuts)), Rule: "the compact model has no offcuts on hand",
			Mend: "write the step model", sentinel: ErrModel,
		}
	}
	m, err := newModel(in, w)
	if err != nil {
		return err
	}
	for i, c := range m.runs {
		if len(c) == 0 || in.MayBeSingle(i) {
			return &Error{
				Field: fieldOf(i, "length"), Value: fmt.Sprint(int64(in.Runs[i].Length)),
				Rule: "the compact model lays every run with a starter and an ender", Mend: "write the step model",
				sentinel: ErrModel,
			}
		}
	}
	m.title("compact model")
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

func (m *model) name(i int, p Pieces) string { return fmt.Sprintf("x_%d_%s", i, m.line(p)) }

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

// staggers writes a row for every clique of a tie.
func (m *model) staggers() {
	for k, t := range m.in.Touch {
		a, b, n := t[0], t[1], 0
		m.cliques(a, b, func(lo, hi int, bs []int) {
			m.printf(" tie_%d_%d:", k, n)
			n++
			for _, p := range m.runs[a][lo:hi] {
				m.printf(" + %s\n", m.name(a, p))
			}
			for _, q := range bs {
				m.printf(" + %s\n", m.name(b, m.runs[b][q]))
			}
			m.printf(" <= 1\n")
		})
	}
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
