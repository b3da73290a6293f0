package stock

import (
	"context"
	"fmt"
	"math"
	"math/big"
	"slices"

	"plank.example/cutopt/measure"
)

// Proven is what a certificate shows about the plans of a job.
type Proven struct {
	Cost   int64 // every plan costs at least this, which is what some sticks cost that hold all pieces by their lengths
	Sticks int   // every plan that costs at most Within has at least so many sticks; 1 where nothing is shown
	Within int64
	// Offcut is, where OffcutShown, a length that no offcut reaches in a plan that costs at most OffcutWithin and cuts at
	// most OffcutSticks sticks.
	Offcut       measure.Length
	OffcutSticks int
	OffcutWithin int64
	OffcutShown  bool
}

// A CertificateError says which node of which refutation fails, and how.
type CertificateError struct {
	Refutation int    // from 0
	Path       string // "y" and "n" from the root
	Text       string
}

// Error names the node.
func (e *CertificateError) Error() string {
	return fmt.Sprintf("stock: refutation %d, node %q: %s", e.Refutation+1, e.Path, e.Text)
}

const (
	maxDepth = 500
	// maxSteps bounds the work of a verification: about 10 s.
	maxSteps = 1 << 32
	// maxWorth is what all pieces of a node may be worth together.
	maxWorth = 1 << 61
)

// Verify recomputes every refutation of a certificate and returns what they show together. It shares no code with any
// solver, and the job must be valid. A refutation that does not hold is a *[CertificateError]; a certificate that would
// take too much work to verify is [ErrTooLarge]; a context that is cancelled gives its error. A leaf costs a knapsack,
// at most O(kinds * capacity in the greatest common measure) where that is small, else a search by branch and bound.
func Verify(ctx context.Context, job *Job, c *Certificate) (*Proven, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	out := &Proven{Sticks: 1}
	if c == nil {
		return out, nil
	}

	counted := false
	v := &verifier{ctx: ctx, job: job, left: maxSteps}
	for i, r := range c.Refutations {
		if r == nil || r.Root == nil {
			return nil, &CertificateError{Refutation: i, Text: "there is none"}
		}
		v.index = i
		if err := v.refutation(r); err != nil {
			return nil, err
		}
		k := r.Claim
		switch {
		case k.Offcut > 0:
			out.Offcut, out.OffcutSticks, out.OffcutWithin, out.OffcutShown = k.Offcut, k.Sticks, k.Cost, true
		case k.Sticks > 0:
			out.Sticks, out.Within, counted = k.Sticks+1, k.Cost, true
		default:
			out.Cost = max(out.Cost, leastCost(job, k.Cost+1))
		}
	}
	if dearest := slices.Max(job.Costs()); dearest > 0 {
		if n := int((out.Cost + dearest - 1) / dearest); !counted || n >= out.Sticks {
			out.Sticks, out.Within = max(1, n), math.MaxInt64
		}
	}
	return out, nil
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// A verifier walks a refutation. Its kinds are those of the node it stands at; a step into a child changes them and the
// step back undoes it.
type verifier struct {
	ctx    context.Context
	job    *Job
	index  int
	left   int64 // steps
	claim  Claim
	path   []byte
	sizes  []int64
	demand []int
	apart  [][]int // by kind: the kinds it keeps apart from
	sticks []stickState
	pieces *big.Int // what all pieces count
}

// A stickState is a kind of stick within a refutation.
type stickState struct {
	capacity int64 // usable length and a kerf
	cost     int64
	least    int // of them are cut
	most     int // or -1
	spare    int64
}

func (v *verifier) fail(format string, args ...any) error {
	return &CertificateError{Refutation: v.index, Path: string(v.path), Text: fmt.Sprintf(format, args...)}
}

// spend counts steps of work.
func (v *verifier) spend(steps int64) error {
	before := v.left >> 20
	if v.left -= steps; v.left < 0 {
		return fmt.Errorf("%w: the certificate takes more than %d steps to verify", ErrTooLarge, int64(maxSteps))
	}
	if v.left>>20 != before {
		return v.ctx.Err()
	}
	return nil
}

func (v *verifier) refutation(r *Refutation) error {
	k := r.Claim
	v.claim, v.path = k, v.path[:0]
	if k.Cost < -1 || k.Cost > MaxPieces*MaxPrice || k.Sticks < 0 || k.Sticks > MaxPieces ||
		k.Offcut < 0 || k.Offcut > MaxLength {
		return v.fail("the claim is out of range")
	}
	v.kinds()
	v.stock()
	return v.node(r.Root)
}

// kinds lists the kinds of the root.
func (v *verifier) kinds() {
	counts := map[measure.Length]int{}
	for _, p := range v.job.Pieces {
		counts[p.Length] += p.Count
	}
	var lengths []measure.Length
	for l := range counts {
		lengths = append(lengths, l)
	}
	slices.SortFunc(lengths, func(a, b measure.Length) int { return int(b - a) })
	v.sizes, v.demand = nil, nil
	for _, l := range lengths {
		v.sizes, v.demand = append(v.sizes, int64(l+v.job.Kerf)), append(v.demand, counts[l])
	}
	if v.claim.Offcut > 0 {
		v.sizes, v.demand = append(v.sizes, int64(v.claim.Offcut+v.job.Kerf)), append(v.demand, 1)
	}
	v.apart = make([][]int, len(v.sizes))
}

// stock lists the sticks and what each may waste within the claim.
func (v *verifier) stock() {
	costs := v.job.Costs()
	v.sticks = make([]stickState, len(costs))
	all := new(big.Int) // A of the documentation of Node
	v.pieces = all
	for i, w := range v.sizes {
		all.Add(all, new(big.Int).Mul(big.NewInt(w), big.NewInt(int64(v.demand[i]))))
	}
	free := new(big.Int) // F
	best := -1           // b
	largest := int64(0)  // a
	for k, s := range v.job.Sticks {
		most := s.Supply
		if most == 0 {
			most = -1
		}
		v.sticks[k] = stickState{capacity: int64(s.Usable() + v.job.Kerf), cost: costs[k], most: most}
		a := v.sticks[k].capacity
		largest = max(largest, a)
		switch {
		case costs[k] == 0:
			free.Add(free, new(big.Int).Mul(big.NewInt(a), big.NewInt(int64(s.Supply))))
		case best < 0 || less(v.sticks[best].capacity, costs[k], a, v.sticks[best].cost):
			best = k
		}
	}
	for k := range v.sticks {
		s := &v.sticks[k]
		s.spare = s.capacity
		if v.claim.Sticks > 0 {
			n := new(big.Int).Mul(big.NewInt(int64(v.claim.Sticks)), big.NewInt(largest))
			s.limitSpare(n.Sub(n, all).Sub(n, big.NewInt(largest-s.capacity)), 1)
		}
		if best >= 0 {
			b := v.sticks[best]
			n := new(big.Int).Sub(free, all)
			n.Mul(n, big.NewInt(b.cost)).Add(n, new(big.Int).Mul(big.NewInt(b.capacity), big.NewInt(v.claim.Cost)))
			if s.cost > 0 {
				n.Sub(n, new(big.Int).Mul(big.NewInt(b.capacity), big.NewInt(s.cost)))
				n.Add(n, new(big.Int).Mul(big.NewInt(b.cost), big.NewInt(s.capacity)))
			}
			s.limitSpare(n, b.cost)
		}
	}
}

// less reports whether a stick of capacity a and cost d has less capacity for its cost than one of capacity b and cost
// c.
func less(a, c, b, d int64) bool { return compareProducts(a, c, b, d) < 0 }

// limitSpare lowers what a stick may waste to n/d, rounded down; -1 where no pattern is in any plan.
func (s *stickState) limitSpare(n *big.Int, d int64) {
	switch {
	case n.Sign() < 0:
		s.spare = -1
	default:
		if n.Div(n, big.NewInt(d)); n.IsInt64() {
			s.spare = min(s.spare, n.Int64())
		}
	}
}

func (v *verifier) node(n *Node) error {
	if n == nil {
		return v.fail("the node is missing")
	}
	if len(v.path) > maxDepth {
		return fmt.Errorf("%w: the tree is deeper than %d", ErrTooLarge, maxDepth)
	}
	if err := v.spend(int64(len(v.sizes) + len(v.sticks))); err != nil {
		return err
	}
	switch {
	case n.Split == nil:
		return v.leaf(n)
	case n.Split.Kind != 0:
		return v.splitStick(n)
	}
	return v.splitPair(n)
}

// child walks into a child.
func (v *verifier) child(answer byte, n *Node) error {
	v.path = append(v.path, answer)
	err := v.node(n)
	v.path = v.path[:len(v.path)-1]
	return err
}

func (v *verifier) splitStick(n *Node) error {
	k := n.Split.Kind - 1
	if k < 0 || k >= len(v.sticks) {
		return v.fail("there is no stick of kind %d", n.Split.Kind)
	}
	s := &v.sticks[k]
	before := *s
	m := n.Split.Most
	if m < s.least || s.most >= 0 && m >= s.most || m > MaxPieces {
		return v.fail("%d sticks of kind %d are no question: they are %d to %d", m, k+1, s.least, s.most)
	}
	s.most = m
	err := v.child('y', n.Yes)
	*s = before
	if err != nil {
		return err
	}
	s.least = m + 1
	err = v.child('n', n.No)
	*s = before
	return err
}

func (v *verifier) splitPair(n *Node) error {
	a, b := n.Split.Pair[0], n.Split.Pair[1]
	if a < 0 || b < 0 || a >= len(v.sizes) || b >= len(v.sizes) {
		return v.fail("there are no kinds %d and %d", a, b)
	}
	if slices.Contains(v.apart[a], b) {
		return v.fail("kinds %d and %d keep apart already", a, b)
	}
	if v.demand[a] < 1 || v.demand[b] < 1 || a == b && v.demand[a] < 2 {
		return v.fail("there are no two pieces of kinds %d and %d", a, b)
	}
	v.glue(a, b)
	err := v.child('y', n.Yes)
	v.unglue(a, b)
	if err != nil {
		return err
	}
	v.keepApart(a, b)
	err = v.child('n', n.No)
	v.apart[a] = v.apart[a][:len(v.apart[a])-1]
	if a != b {
		v.apart[b] = v.apart[b][:len(v.apart[b])-1]
	}
	return err
}

func (v *verifier) keepApart(a, b int) {
	v.apart[a] = append(v.apart[a], b)
	if a != b {
		v.apart[b] = append(v.apart[b], a)
	}
}

// glue adds the kind of a and b on one stick, which keeps apart from what either keeps apart from, and so from itself
// where either keeps apart from itself or from the other kind's like.
func (v *verifier) glue(a, b int) {
	v.demand[a]--
	v.demand[b]--
	g := len(v.sizes)
	v.sizes, v.demand, v.apart = append(v.sizes, v.sizes[a]+v.sizes[b]), append(v.demand, 1), append(v.apart, nil)
	from := append(slices.Clone(v.apart[a]), v.apart[b]...)
	slices.Sort(from)
	for _, x := range slices.Compact(from) {
		v.keepApart(g, x)
	}
}

func (v *verifier) unglue(a, b int) {
	g := len(v.sizes) - 1
	for _, x := range v.apart[g] {
		v.apart[x] = v.apart[x][:len(v.apart[x])-1]
	}
	v.sizes, v.demand, v.apart = v.sizes[:g], v.demand[:g], v.apart[:g]
	v.demand[a]++
	v.demand[b]++
}
