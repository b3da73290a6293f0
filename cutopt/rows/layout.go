package rows

import (
	"fmt"

	"plank.example/cutopt/measure"
)

// A Layout gives the starter of each run: its length, Plank for a whole plank, or 0 for a run laid in one piece.
type Layout []measure.Length

// Pieces is how one run is laid.
type Pieces struct {
	Starter, Ender measure.Length // both 0 in a one-piece run
	Field          int            // whole planks between them
	Single         measure.Length // the piece of a one-piece run, else 0
}

// Lay returns the pieces of run i laid with the given starter, and whether the rules that concern no other run allow
// it: the starter on the grid or whole, starter and ender at least MinPiece, the ender at least MinEnder, both at most
// a plank, every joint at least Stagger from those Beside. A run that is begun is laid with its own starter only, and
// with that always. It takes O(joints Beside).
func (in *Instance) Lay(i int, starter measure.Length) (Pieces, bool) {
	p, ok := in.pieces(i, starter)
	if run := &in.Runs[i]; !ok || len(run.Beside) == 0 || run.Starter > 0 || p.Single > 0 {
		return p, ok
	}
	return p, in.clear(i, starter, p.Joints())
}

// pieces is Lay but for the joints beside the run.
func (in *Instance) pieces(i int, starter measure.Length) (Pieces, bool) {
	w, l, begun := in.Runs[i].Length, in.Plank, in.Runs[i].Starter
	if starter == 0 {
		return Pieces{Single: w}, in.MayBeSingle(i)
	}
	rest := w - starter
	if begun > 0 && starter != begun {
		return Pieces{}, false
	}
	if starter < max(in.MinPiece, 0) && begun == 0 ||
		starter < 0 || starter > l || rest <= 0 || (starter != l && starter%in.Grid != 0) {
		return Pieces{}, false
	}
	n := (rest - 1) / l
	p := Pieces{Starter: starter, Field: int(n), Ender: rest - n*l}
	return p, begun > 0 || p.Ender >= max(in.MinPiece, in.MinEnder)
}

// clear reports whether the joints of run i keep Stagger from those Beside it.
func (in *Instance) clear(i int, starter measure.Length, joints int) bool {
	run := &in.Runs[i]
	for _, x := range run.Beside {
		if in.Clash(run.From+starter, joints, x, 1) {
			return false
		}
	}
	return true
}

// Joints returns how many end joints the run has.
func (p Pieces) Joints() int {
	if p.Single > 0 {
		return 0
	}
	return p.Field + 1
}

// Clash reports whether two touching runs laid with joints at the given first positions, each repeating every plank
// length the given number of times, have two joints nearer than Stagger. It takes constant time.
func (in *Instance) Clash(firstA measure.Length, jointsA int, firstB measure.Length, jointsB int) bool {
	if jointsA == 0 || jointsB == 0 {
		return false
	}
	// The joints are firstA + kL and firstB + jL; the nearest pair has k - j nearest to (firstB - firstA)/L.
	l := in.Plank
	diff := firstA - firstB
	m := min(max(-(diff+l/2).Div(l), measure.Length(-(jointsB-1))), measure.Length(jointsA-1))
	diff += m * l
	return diff > -in.Stagger && diff < in.Stagger
}

// Check reports the first rule on runs and joints that the layout breaks, as an [*Error], or nil. It takes O(runs +
// ties + joints beside runs).
func (in *Instance) Check(layout Layout) error {
	if len(layout) != len(in.Runs) {
		return &Error{
			Field: "number of starters", Value: fmt.Sprint(len(layout)),
			Rule: fmt.Sprintf("a layout has one for each of the %d runs", len(in.Runs)),
			Mend: "write 0 for a run in one piece",
		}
	}
	joints := make([]int, len(layout))
	for i, s := range layout {
		p, ok := in.Lay(i, s)
		if !ok {
			return in.refuse(i, s)
		}
		joints[i] = p.Joints()
	}
	for _, t := range in.Touch {
		a, b := t[0], t[1]
		if in.Clash(in.Runs[a].From+layout[a], joints[a], in.Runs[b].From+layout[b], joints[b]) {
			return &Error{
				Field: fmt.Sprintf("layout[%d]", b), Value: fmt.Sprint(int64(layout[b])),
				Rule: fmt.Sprintf(
					"a joint of run %d lies nearer than the stagger %d to one of run %d, which it touches",
					b,
					in.Stagger,
					a,
				),
				Mend: fmt.Sprintf("choose another starter for one of the two; run %d has %d", a, layout[a]),
			}
		}
	}
	return nil
}

// refuse says why a run cannot be laid with a starter.
func (in *Instance) refuse(i int, s measure.Length) error {
	w, l := in.Runs[i].Length, in.Plank
	e := &Error{
		Field: fmt.Sprintf("layout[%d]", i),
		Value: fmt.Sprint(int64(s)),
		Mend:  "choose another starter for this run",
	}
	switch p, ok := in.pieces(i, s); {
	case in.Runs[i].Starter > 0:
		e.Rule = fmt.Sprintf("the run is begun with a starter of %d", in.Runs[i].Starter)
		e.Mend = "give the starter that lies"
	case s == 0:
		e.Rule = fmt.Sprintf("the run is %d long, more than a plank of %d, and takes a starter", w, l)
	case s < 0 || s > l || s < in.MinPiece:
		e.Rule = fmt.Sprintf("a starter has at least %d and at most a plank, %d", in.MinPiece, l)
	case s >= w:
		e.Rule = fmt.Sprintf("the run is %d long and a starter leaves room for an ender", w)
		e.Mend = "write 0 for a run in one piece"
	case s != l && s%in.Grid != 0:
		e.Rule = fmt.Sprintf("a starter is a multiple of the grid %d, or a plank", in.Grid)
	case !ok:
		e.Rule = fmt.Sprintf("the ender would be %d, shorter than %d", p.Ender, max(in.MinPiece, in.MinEnder))
	default:
		e.Rule = fmt.Sprintf("a joint lies nearer than the stagger %d to one that is laid already beside the run", in.Stagger)
	}
	return e
}
