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

// Lay returns the pieces of run i laid with the given starter, and whether the rules that concern no other run allow it:
// the starter on the grid or whole, starter and ender at least MinPiece, the ender at least MinEnder, both at most a
// plank, every joint at least Stagger from those Beside.
func (in *Instance) Lay(i int, starter measure.Length) (Pieces, bool) {
	w, l := in.Runs[i].Length, in.Plank
	if starter == 0 {
		return Pieces{Single: w}, w <= l
	}
	rest := w - starter
	if starter < in.MinPiece || starter > l || rest <= 0 || (starter != l && starter%in.Grid != 0) {
		return Pieces{}, false
	}
	n := (rest - 1) / l
	p := Pieces{Starter: starter, Field: int(n), Ender: rest - n*l}
	return p, p.Ender >= max(in.MinPiece, in.MinEnder) && in.clear(i, starter, p.Joints())
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
// length the given number of times, have two joints nearer than Stagger.
func (in *Instance) Clash(firstA measure.Length, jointsA int, firstB measure.Length, jointsB int) bool {
	if jointsA == 0 || jointsB == 0 {
		return false
	}
	// The joints are firstA + kL and firstB + jL; the nearest pair has k - j nearest to (firstB - firstA)/L.
	l := in.Plank
	diff := firstA - firstB
	m := min(max(-floorDiv(diff+l/2, l), measure.Length(-(jointsB-1))), measure.Length(jointsA-1))
	diff += m * l
	return diff > -in.Stagger && diff < in.Stagger
}

func floorDiv(a, b measure.Length) measure.Length {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// Check reports the first rule on runs and joints that the layout breaks, or nil.
func (in *Instance) Check(layout Layout) error {
	if len(layout) != len(in.Runs) {
		return fmt.Errorf("rows: %d starters for %d runs", len(layout), len(in.Runs))
	}
	joints := make([]int, len(layout))
	for i, s := range layout {
		p, ok := in.Lay(i, s)
		if !ok {
			return fmt.Errorf("rows: run %d cannot be laid with starter %d: ender %d, shortest piece %d, shortest ender %d, stagger %d from the joints %v beside it",
				i, s, p.Ender, in.MinPiece, max(in.MinPiece, in.MinEnder), in.Stagger, in.Runs[i].Beside)
		}
		joints[i] = p.Joints()
	}
	for _, t := range in.Touch {
		a, b := t[0], t[1]
		if in.Clash(in.Runs[a].From+layout[a], joints[a], in.Runs[b].From+layout[b], joints[b]) {
			return fmt.Errorf("rows: joints of runs %d and %d are nearer than the stagger %d", a, b, in.Stagger)
		}
	}
	return nil
}
