package proof

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sort"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// ErrUnproven is what every error of Verify unwraps to.
var ErrUnproven = errors.New("the certificate does not prove its claim")

func unproven(format string, args ...any) error {
	return fmt.Errorf("proof: %w: %s", ErrUnproven, fmt.Sprintf(format, args...))
}

// MaxGraduations is the most grid lines a plank may have for Verify, whose time and memory are proportional to them.
const MaxGraduations = 1_000_000

// maxDepth bounds the depth of a proof tree.
const maxDepth = 1000

// Verify checks that the certificate proves its claim for the instance, as the package documentation says. It trusts
// nothing in the certificate: prices are checked to be a step function that starts at 0, never falls and ends with
// {plank, Denominator}; multipliers to be at least 0; the pairs left out to be touching pairs whose absence leaves a
// forest; and at every leaf the cheapest layout is computed anew, by dynamic programming over every starter of every
// run, and must cost more than Planks-1 planks. It uses no code of the solver and no floating point.
//
// Errors are those of Instance.Validate, one that wraps rows.ErrTooLarge beyond MaxGraduations, and errors that unwrap
// to ErrUnproven, as that of no certificate at all. It takes O(leaves * runs * P) for P grid lines in a plank, times
// the number of steps in the worst case.
func (c *Certificate) Verify(in *rows.Instance) error {
	return c.VerifyContext(context.Background(), in)
}

// VerifyContext does what [Certificate.Verify] does, and ends with the error of a context that is done: a certificate
// of a few megabytes can take seconds, so whoever verifies those of strangers gives a deadline.
func (c *Certificate) VerifyContext(ctx context.Context, in *rows.Instance) error {
	if c == nil {
		return unproven("there is none")
	}
	if err := in.Validate(); err != nil {
		return err
	}
	if n := in.Plank / in.Grid; n > MaxGraduations {
		return fmt.Errorf("proof: the grid has %d lines a plank, at most %d are recounted; use a coarser grid: %w",
			n, MaxGraduations, rows.ErrTooLarge)
	}
	if c.Planks <= 0 {
		return nil // every layout needs at least 0 planks
	}
	v, err := newVerifier(ctx, in, c)
	if err != nil {
		return err
	}
	return v.node(&c.Tree, nil, 0)
}

// verifier holds what all leaves share.
type verifier struct {
	ctx    context.Context
	in     *rows.Instance
	claim  int64
	order  []int // runs, children before parents
	parent []int // -1 at a root
	size   int64 // an upper bound on the planks of any layout
	left   [][2]int
	hands  []hand
	limits map[int]limits // of the case in hand, by run
	price  []Step
	// of the leaf in hand
	freeStarter, freeEnder measure.Length

	counted  bool  // a leaf of counts was recounted
	byCounts error // what it came to
}

func newVerifier(ctx context.Context, in *rows.Instance, c *Certificate) (*verifier, error) {
	v := &verifier{
		ctx: ctx, in: in, claim: int64(c.Planks), parent: make([]int, len(in.Runs)), left: c.Dropped,
		limits: make(map[int]limits),
	}
	for _, r := range in.Runs {
		v.size += int64(r.Length/in.Plank) + 2
	}
	if v.claim > v.size {
		return nil, unproven("it claims %d planks, more than any layout uses", c.Planks)
	}
	left := make(map[[2]int]bool, len(c.Dropped))
	for _, t := range c.Dropped {
		left[t] = true
	}
	next := make([][]int, len(in.Runs))
	kept := 0
	for _, t := range in.Touch {
		if left[t] {
			delete(left, t)
			continue
		}
		kept++
		next[t[0]] = append(next[t[0]], t[1])
		next[t[1]] = append(next[t[1]], t[0])
	}
	for t := range left {
		return nil, unproven("it leaves out the pair %v, which does not touch", t)
	}
	if err := v.forest(next, kept); err != nil {
		return nil, err
	}
	v.hands = usable(in)
	return v, nil
}

// forest orders the runs from the leaves of the trees to their roots.
func (v *verifier) forest(next [][]int, kept int) error {
	seen := make([]bool, len(next))
	trees := 0
	for r := range next {
		if seen[r] {
			continue
		}
		trees++
		seen[r], v.parent[r] = true, -1
		v.order = append(v.order, r)
		for k := len(v.order) - 1; k < len(v.order); k++ {
			for _, j := range next[v.order[k]] {
				if !seen[j] {
					seen[j], v.parent[j] = true, v.order[k]
					v.order = append(v.order, j)
				}
			}
		}
	}
	if kept != len(next)-trees {
		return unproven("the pairs it keeps are no forest: %d pairs, %d runs in %d trees", kept, len(next), trees)
	}
	slices.Reverse(v.order)
	return nil
}

// node checks a case of the proof under the constraints on the way to it.
func (v *verifier) node(n *Node, on []Constraint, depth int) error {
	switch {
	case n.Split == nil && (n.Low != nil || n.High != nil):
		return unproven("a node without a split has sides")
	case n.Split == nil:
		return v.leaf(n, on)
	case depth >= maxDepth:
		return unproven("its tree is deeper than %d", maxDepth)
	case n.Low == nil || n.High == nil || n.Counts || len(n.Prices) > 0 || len(n.Multipliers) > 0,
		n.FreeStarter != 0 || n.FreeEnder != 0:
		return unproven("a branch has two sides and no prices")
	}
	if n.Split.Of.OfOneRun() {
		return v.runSplit(n, on, depth)
	}
	if !n.Split.Of.IsSum() {
		return unproven("%q is no figure of a layout", n.Split.Of)
	}
	if n.Split.Run != 0 || n.Split.Of == OfStarted && n.Split.Below != 0 {
		return unproven("a branch on %q names a run, or a length it does not have", n.Split.Of)
	}
	if limit := int(2*v.size) + 1; n.Split.Value < -limit || n.Split.Value > limit {
		return unproven("a branch at %d, beyond any layout", n.Split.Value)
	}
	above := *n.Split
	above.Value++
	on = slices.Clip(on)
	if err := v.node(n.Low, append(on, Constraint{Split: *n.Split, AtMost: true}), depth+1); err != nil {
		return err
	}
	return v.node(n.High, append(on, Constraint{Split: above}), depth+1)
}

// leaf checks prices and multipliers and computes the cheapest layout under them.
func (v *verifier) leaf(n *Node, on []Constraint) error {
	if err := v.ctx.Err(); err != nil {
		return err
	}
	if n.Counts {
		if len(n.Prices) > 0 || len(n.Multipliers) > 0 || n.FreeStarter != 0 || n.FreeEnder != 0 {
			return unproven("a leaf of counts has no prices, no multipliers and nothing free")
		}
		return v.counts()
	}
	if len(n.Multipliers) != len(on) {
		return unproven("a leaf has %d multipliers for %d constraints", len(n.Multipliers), len(on))
	}
	sum := int64(Denominator)
	for _, m := range n.Multipliers {
		if m < 0 || m > 1000*Denominator {
			return unproven("multiplier %d is not in 0 … 1000 planks", m)
		}
		sum += m
	}
	if v.size > (1<<60)/sum {
		return unproven("the instance is too large for its multipliers")
	}
	if err := stepped(n.Prices, v.in.Plank); err != nil {
		return err
	}
	if n.FreeStarter < 0 || n.FreeEnder < 0 || n.FreeStarter >= v.in.Plank || n.FreeEnder >= v.in.Plank {
		return unproven("whole planks cannot be free, nor what is shorter than nothing")
	}
	v.price, v.freeStarter, v.freeEnder = n.Prices, n.FreeStarter, n.FreeEnder
	cost := v.cheapest(on, n.Multipliers)
	if err := v.ctx.Err(); err != nil {
		return err
	}
	if cost <= (v.claim-1)*Denominator {
		return unproven("a layout may cost as little as %.6f planks, and the claim is %d", float64(cost)/Denominator, v.claim)
	}
	return nil
}

// stepped checks that prices are a step function that starts at 0, never falls and ends with {plank, Denominator}.
func stepped(prices []Step, plank measure.Length) error {
	last := Step{At: 0, Price: 0}
	for i, s := range prices {
		if s.At < last.At || i > 0 && s.At == last.At || s.Price < last.Price || s.Price > Denominator {
			return unproven("prices must rise from step to step, from 0 to %d: step %d is %v", Denominator, i, s)
		}
		last = s
	}
	if len(prices) == 0 || (last != Step{plank, Denominator}) {
		return unproven("prices must end with a step to %d at the plank's length", Denominator)
	}
	return nil
}

// c is the price function.
func (v *verifier) c(x measure.Length) int64 {
	i := sort.Search(len(v.price), func(i int) bool { return v.price[i].At > x })
	if i == 0 {
		return 0
	}
	return v.price[i-1].Price
}

// single prices a piece x shorter than a plank that may lie at the places from lo to hi: the least C(u+x+kerf) - C(u)
// over all u with lo <= u+kerf <= hi and u+x+kerf within the plank, or none. C(u) is constant between steps and
// C(u+x+kerf) never falls, so the least is at the first u or at a step.
func (v *verifier) single(x, lo, hi measure.Length) int64 {
	least := none
	try := func(u measure.Length) {
		if end := u + x + v.in.Kerf; lo <= u+v.in.Kerf && u+v.in.Kerf <= hi && end <= v.in.Plank {
			least = min(least, v.c(end)-v.c(u))
		}
	}
	try(lo - v.in.Kerf)
	for _, s := range v.price {
		try(s.At)
	}
	return least
}

// cost prices run i laid with starter s, constraints included.
func (v *verifier) cost(p rows.Pieces, s measure.Length, on []Constraint, multipliers []int64) int64 {
	in := v.in
	room := in.Plank - in.Kerf - p.Ender
	cost := int64(p.Field) * Denominator
	if s > v.freeStarter {
		cost += v.c(s)
	}
	if p.Ender > v.freeEnder {
		cost += Denominator - v.c(room)
	}
	for k, c := range on {
		n := int64(0)
		if c.Of == OfStarted {
			n = int64(p.Field) + 1
		}
		if (c.Of == OfEnders || c.Of == OfDeficit) && room < c.Below {
			n++
		}
		if c.Of == OfStarters && s < c.Below {
			n++
		}
		if c.Of == OfDeficit && s < c.Below {
			n--
		}
		if c.AtMost {
			cost += multipliers[k] * n
		} else {
			cost -= multipliers[k] * n
		}
	}
	return cost
}
