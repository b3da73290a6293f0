package proof

import (
	"context"
	"fmt"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Family is bare problems with one plank and one set of rules: floors, of each of which the rows may lie in several
// ways. A layout of the family lays one placement of each floor, and all floors share planks.
type Family struct {
	Plank    measure.Length `json:"plank"`
	Kerf     measure.Length `json:"kerf"`
	MinPiece measure.Length `json:"min_piece"`
	MinEnder measure.Length `json:"min_ender,omitempty"`
	Stagger  measure.Length `json:"stagger"`
	Grid     measure.Length `json:"grid"`
	Floors   [][]Placement  `json:"floors"` // by floor, at least one each
}

// A Placement is one way for the rows of a floor to lie: its runs and those that touch, as an instance has them.
type Placement struct {
	Runs  []rows.Run `json:"runs"`
	Touch [][2]int   `json:"touch"` // pairs of runs; nil for none
}

// Instance returns the bare problem of one placement of each floor: the runs of all floors, floor by floor. The choice
// has an index for each floor.
func (f *Family) Instance(choice []int) *rows.Instance {
	in := &rows.Instance{
		Plank: f.Plank, Kerf: f.Kerf, MinPiece: f.MinPiece, MinEnder: f.MinEnder, Stagger: f.Stagger, Grid: f.Grid,
	}
	for i, k := range choice {
		p, n := &f.Floors[i][k], len(in.Runs)
		in.Runs = append(in.Runs, p.Runs...)
		for _, t := range p.Touch {
			in.Touch = append(in.Touch, [2]int{n + t[0], n + t[1]})
		}
	}
	return in
}

// alone returns the bare problem of one placement of one floor.
func (f *Family) alone(floor, placement int) *rows.Instance {
	one := *f
	one.Floors = [][]Placement{f.Floors[floor]}
	return one.Instance([]int{placement})
}

// A FamilyCertificate proves a lower bound on the planks that any layout of a family needs.
type FamilyCertificate struct {
	Planks int        `json:"planks"` // the claim: no layout of any placements needs fewer planks
	Tree   FamilyNode `json:"tree"`
}

// A FamilyNode is a case of the proof: a leaf, or a branch by the placements of one floor.
type FamilyNode struct {
	// Prices make a leaf for any placements: C, as in [Node].
	Prices []Step `json:"prices,omitempty"`
	// Certificate makes a leaf where one placement of each floor is left: one of that bare problem.
	Certificate *Certificate `json:"certificate,omitempty"`

	// In and Out make a branch: In is the case that floor Floor lies in one of the placements Of, Out that in another.
	Floor int         `json:"floor,omitempty"`
	Of    []int       `json:"of,omitempty"` // ascending, from 0
	In    *FamilyNode `json:"in,omitempty"`
	Out   *FamilyNode `json:"out,omitempty"`
}

// Forest returns the pairs that are left out of a proof over a family, so that the others form a forest: in the order
// listed, each pair whose runs already hang together by pairs before it.
func Forest(in *rows.Instance) (dropped [][2]int) {
	root := make([]int, len(in.Runs))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for _, t := range in.Touch {
		if a, b := find(t[0]), find(t[1]); a != b {
			root[a] = b
		} else {
			dropped = append(dropped, t)
		}
	}
	return dropped
}

// MaxPlacements is the most placements of all floors of a family that Verify takes.
const MaxPlacements = 20_000

// Verify checks that the certificate proves its claim for the family, as the package documentation says. Like
// [Certificate.Verify] it trusts nothing in the certificate and uses no code of the solver; errors are of the same
// kinds. It takes the time of that for each leaf and each placement that is left there.
func (c *FamilyCertificate) Verify(f *Family) error { return c.VerifyContext(context.Background(), f) }

// VerifyContext does what [FamilyCertificate.Verify] does, and ends with the error of a context that is done.
func (c *FamilyCertificate) VerifyContext(ctx context.Context, f *Family) error {
	if c == nil {
		return unproven("there is none")
	}
	v := &familyVerifier{ctx: ctx, family: f, claim: int64(c.Planks)}
	left := make([][]int, len(f.Floors))
	total, size := 0, int64(0)
	for i := range f.Floors {
		if total += len(f.Floors[i]); total > MaxPlacements {
			return fmt.Errorf("proof: a family of more than %d placements: %w", MaxPlacements, rows.ErrTooLarge)
		}
		if len(f.Floors[i]) == 0 {
			return fmt.Errorf("proof: floors[%d] has no placement; list at least one for each floor", i)
		}
		own, largest := make([]*verifier, len(f.Floors[i])), int64(0)
		for k := range own {
			in := f.alone(i, k)
			if err := in.Validate(); err != nil {
				return fmt.Errorf("proof: placement %d of floor %d: %w", k, i, err)
			}
			if n := in.Plank / in.Grid; n > MaxGraduations {
				return fmt.Errorf("proof: the grid has %d lines a plank, at most %d are recounted; use a coarser grid: %w",
					n, MaxGraduations, rows.ErrTooLarge)
			}
			one, err := newVerifier(ctx, in, &Certificate{Planks: 1, Dropped: Forest(in)})
			if err != nil {
				return err
			}
			own[k], largest = one, max(largest, one.size)
			left[i] = append(left[i], k)
		}
		if size += largest; size > (1<<60)/Denominator {
			return fmt.Errorf("proof: the floors take too many planks together: %w", rows.ErrTooLarge)
		}
		v.floors = append(v.floors, own)
	}
	if c.Planks <= 0 {
		return nil
	}
	if v.claim > size { // so that the claim in billionths cannot overflow either
		return unproven("it claims %d planks, more than any layout uses", c.Planks)
	}
	return v.node(&c.Tree, left, 0)
}

// A familyVerifier holds a verifier for each placement of each floor.
type familyVerifier struct {
	ctx    context.Context
	family *Family
	claim  int64
	floors [][]*verifier
}

// node checks a case in which the placements listed are left of each floor.
func (v *familyVerifier) node(n *FamilyNode, left [][]int, depth int) error {
	switch {
	case n.In == nil && n.Out == nil && (n.Floor != 0 || len(n.Of) > 0):
		return unproven("a leaf names a floor or placements")
	case n.In == nil && n.Out == nil:
		return v.leaf(n, left)
	case n.In == nil || n.Out == nil || len(n.Prices) > 0 || n.Certificate != nil:
		return unproven("a branch on placements has two sides and nothing else")
	case depth >= maxDepth:
		return unproven("its tree is deeper than %d", maxDepth)
	case n.Floor < 0 || n.Floor >= len(left):
		return unproven("a branch on floor %d of %d", n.Floor, len(left))
	}
	for i, k := range n.Of {
		if k < 0 || k >= len(v.floors[n.Floor]) || i > 0 && k <= n.Of[i-1] {
			return unproven("a branch on placements %v of %d, which must ascend", n.Of, len(v.floors[n.Floor]))
		}
	}
	in, out := slices.Clone(left), slices.Clone(left)
	in[n.Floor], out[n.Floor] = nil, nil
	for _, k := range left[n.Floor] {
		if slices.Contains(n.Of, k) {
			in[n.Floor] = append(in[n.Floor], k)
		} else {
			out[n.Floor] = append(out[n.Floor], k)
		}
	}
	if err := v.node(n.In, in, depth+1); err != nil {
		return err
	}
	return v.node(n.Out, out, depth+1)
}

// untied returns what cheapest does without splits, with the costs of runs that are tied to none by their length.
func (v *verifier) untied(lone map[measure.Length]int64) int64 {
	if len(v.in.Touch) > 0 || slices.ContainsFunc(v.in.Runs, func(r rows.Run) bool { return !r.Plain() }) {
		return v.cheapest(nil, nil)
	}
	total := int64(0)
	for i := range v.in.Runs {
		if v.ctx.Err() != nil {
			return none
		}
		l := v.in.Runs[i].Length
		cost, ok := lone[l]
		if !ok {
			t := v.table(i, nil, nil, nil)
			cost = t.single
			for _, c := range t.costs {
				cost = min(cost, c)
			}
			lone[l] = cost
		}
		if cost >= none {
			return none
		}
		total += cost
	}
	return total
}

// leaf checks a case by its prices, or by the certificate of the one problem that is left.
func (v *familyVerifier) leaf(n *FamilyNode, left [][]int) error {
	for i := range left {
		if len(left[i]) == 0 {
			return nil // nothing is left to lay
		}
	}
	if n.Certificate != nil {
		choice := make([]int, len(left))
		for i := range left {
			if choice[i] = left[i][0]; len(left[i]) > 1 || len(n.Prices) > 0 {
				return unproven("a leaf by a certificate has one placement of each floor and no prices")
			}
		}
		if int64(n.Certificate.Planks) < v.claim {
			return unproven("a leaf proves %d planks, and the claim is %d", n.Certificate.Planks, v.claim)
		}
		return n.Certificate.VerifyContext(v.ctx, v.family.Instance(choice))
	}
	if err := stepped(n.Prices, v.family.Plank); err != nil {
		return err
	}
	cost, lone := int64(0), make(map[measure.Length]int64)
	for i := range left {
		least := none
		for _, k := range left[i] {
			one := v.floors[i][k]
			one.price = n.Prices
			least = min(least, one.untied(lone))
		}
		if err := v.ctx.Err(); err != nil {
			return err
		}
		if least >= none {
			return nil // no placement of this floor can be laid
		}
		cost += least
	}
	if cost <= (v.claim-1)*Denominator {
		return unproven("placements may cost as little as %.6f planks, and the claim is %d", float64(cost)/Denominator,
			v.claim)
	}
	return nil
}
