package rows

import (
	"bufio"
	"errors"
	"fmt"
	"io"

	"plank.example/cutopt/measure"
)

// ErrModel is wrapped by the errors of WriteLP for instances that the compact model does not cover.
var ErrModel = errors.New("not covered by the model")

// maxTerms bounds the terms of a model: about 3 GB of text.
const maxTerms = 200_000_000

// A model is an instance on its way to a solver: what both forms share.
type model struct {
	in   *Instance
	w    *bufio.Writer
	runs [][]Pieces // the ways to lay each run in two pieces or more, by rising starter
}

// newModel lists the choices of every run, unless the terms of a model may pass the limit.
func newModel(in *Instance, w io.Writer) (*model, error) {
	lines := int64(in.Plank/in.Grid) + 1
	if n := int64(len(in.Runs) + len(in.Touch)); lines > maxTerms/n/lines {
		return nil, &Error{
			Field: "grid", Value: fmt.Sprint(int64(in.Grid)),
			Rule: fmt.Sprintf(
				"%d runs and ties with %d grid lines a plank make a model of more than %d terms",
				n,
				lines,
				maxTerms,
			),
			Mend: "write fewer runs, or a coarser grid", sentinel: ErrTooLarge,
		}
	}
	m := &model{in: in, w: bufio.NewWriter(w)}
	for i := range in.Runs {
		m.runs = append(m.runs, m.choices(i))
	}
	return m, nil
}

func (m *model) printf(format string, args ...any) { fmt.Fprintf(m.w, format, args...) }

// title writes the comment that says what is modelled.
func (m *model) title(what string) {
	in := m.in
	m.printf("\\ plank rows, %s: %d runs, plank %d, kerf %d, shortest piece %d, stagger %d, grid %d\n",
		what, len(in.Runs), in.Plank, in.Kerf, in.MinPiece, in.Stagger, in.Grid)
}

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

// line names a starter by its grid line, L for a whole plank.
func (m *model) line(p Pieces) string {
	if p.Starter == m.in.Plank {
		return "L"
	}
	return fmt.Sprint(int64(p.Starter / m.in.Grid))
}

// cliques yields, for every starter of run a, the starters from it up to one stagger after it, lo to hi-1, with all
// starters of run b that clash with each of these: no two of them go together. Pairs that no such set covers are
// yielded on their own, each starter of a with its rest.
func (m *model) cliques(a, b int, yield func(lo, hi int, bs []int)) {
	all := len(m.runs[b])
	covered := make([]bool, len(m.runs[a])*all) // by starter of a, then of b
	for p := range m.runs[a] {
		hi := p + 1
		for hi < len(m.runs[a]) && m.runs[a][hi].Starter < m.runs[a][p].Starter+m.in.Stagger {
			hi++
		}
		bs := m.clashing(a, b, p, hi)
		if len(bs) == 0 {
			continue
		}
		yield(p, hi, bs)
		for r := p; r < hi; r++ {
			for _, q := range bs {
				covered[r*all+q] = true
			}
		}
	}
	for p := range m.runs[a] {
		var rest []int
		for q := range m.runs[b] {
			if m.clash(a, b, p, q) && !covered[p*all+q] {
				rest = append(rest, q)
			}
		}
		if len(rest) > 0 {
			yield(p, p+1, rest)
		}
	}
}

// clashing lists the starters of run b that clash with each of lo to hi-1 of run a.
func (m *model) clashing(a, b, lo, hi int) []int {
	var bs []int
	for q := range m.runs[b] {
		all := true
		for p := lo; p < hi && all; p++ {
			all = m.clash(a, b, p, q)
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

// whole counts the whole planks of a choice.
func (m *model) whole(p Pieces) int {
	n := p.Field
	if p.Starter == m.in.Plank {
		n++
	}
	if p.Ender == m.in.Plank {
		n++
	}
	return n
}

// room is where the next piece may begin on the plank of an ender.
func (m *model) room(ender measure.Length) measure.Length { return ender + m.in.Kerf }
