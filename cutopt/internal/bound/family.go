package bound

import (
	"math"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
)

// A FamilyTree is a proof by cases, under way, that no placements of a family do with Target planks. For every price
// function C, planks >= sum over floors of min over placements of cost(floor, placement, C): the floors are independent
// once C is fixed. So the cutting plane is that of a [Bound] with an oracle that takes the cheapest placement of each
// floor, and its cuts are layouts of any placements. A mixture of placements leaves a gap that one C cannot close; then
// the tree splits by the placements of a floor, each side with its own C. Where one placement of each floor is left and
// its prices fall short, the case waits for a certificate from elsewhere. It is not safe for concurrent use.
type FamilyTree struct {
	Target     int
	Nodes      int // looked at so far
	family     *proof.Family
	members    [][]familyMember // by floor and placement
	bounds     []*Bound         // that these stand on
	lengths    *Bound           // of all lengths of runs that are tied to none
	lone       []loneRun        // by length
	pieces     []piece          // scratch
	thresholds []measure.Length
	top        *familyVertex
	open       []*familyVertex
	work       int64 // of masters
	choice     []int // scratch, by floor
}

// A familyVertex is a node of the tree: open, split, or closed by a leaf.
type familyVertex struct {
	tree      *FamilyTree
	left      [][]int // placements, by floor
	first     *prices // tried before any others; nil for C(x) = x/L
	leaf      *proof.FamilyNode
	floor     int // of the split
	of        int
	in, out   *familyVertex
	inherited []*familyCut

	cuts                           []*familyCut // of the master, by the address of its own
	master                         *master
	best                           *prices
	value                          int64
	center, trial, optimum, toward []float64
	stay, theta                    float64
	done                           bool
}

// A familyCut is a cut and the placements that it is a layout of, by floor.
type familyCut struct {
	*cut
	choice []int
}

// RefuteFamily begins a proof that no placements of a family need target planks or fewer. The prices, if not nil, are
// tried first: those that prove the bound of the placements in hand mostly prove that of all. It takes time and memory
// to list the starters of every placement.
func RefuteFamily(f *proof.Family, target int, prices []proof.Step) *FamilyTree {
	t := &FamilyTree{Target: target, family: f, choice: make([]int, len(f.Floors))}
	for x := f.Grid; x < f.Plank; x += f.Grid {
		t.thresholds = append(t.thresholds, x)
	}
	t.thresholds = append(t.thresholds, f.Plank)
	left := make([][]int, len(f.Floors))
	t.list()
	for i := range f.Floors {
		for k := range f.Floors[i] {
			left[i] = append(left[i], k)
		}
	}
	t.top = &familyVertex{tree: t, left: left}
	if prices != nil {
		t.top.first = stepPrices(prices)
	}
	t.open = []*familyVertex{t.top}
	return t
}

// Costs returns what the placements of each floor of a family cost at least under prices, in parts of a plank of
// 1/[Den]; -1 for those that cannot be laid.
func Costs(f *proof.Family, steps []proof.Step) [][]int64 {
	t := RefuteFamily(f, 0, nil)
	p := stepPrices(steps)
	out := make([][]int64, len(t.members))
	for i := range t.members {
		for k := range t.members[i] {
			cost, ok := t.evaluate(&t.members[i][k], p)
			if !ok {
				cost = -1
			}
			out[i] = append(out[i], cost)
		}
	}
	return out
}

func stepPrices(steps []proof.Step) *prices {
	p := &prices{c: curve{steps: steps}}
	p.derive(nil, 0)
	return p
}

// Work returns the steps done, as [Bound.Work] counts them.
func (t *FamilyTree) Work() int64 {
	n := t.work
	for _, b := range t.bounds {
		n += b.eval.work
	}
	return n
}

// Grow looks at open cases until all are closed, about so much work is done, or one is left that no prices prove: then
// it returns the placements of that case, by floor, for which a certificate is wanted.
func (t *FamilyTree) Grow(work int64) (alone []int, complete bool) {
	const paths = 100 // at each node
	for end := t.Work() + work; len(t.open) > 0 && t.Work() < end; {
		v := t.open[len(t.open)-1]
		t.open = t.open[:len(t.open)-1]
		t.Nodes++
		if v.raise(paths, end); v.leaf != nil {
			continue
		}
		if t.Work() >= end && !v.done {
			t.open = append(t.open, v)
			return nil, false
		}
		if !v.split() {
			t.open = append(t.open, v)
			return v.alone(), false
		}
		t.open = append(t.open, v.out, v.in)
	}
	return nil, len(t.open) == 0
}

// Close closes the case that Grow returned last by a certificate of its placements that proves more than Target planks.
func (t *FamilyTree) Close(c *proof.Certificate) {
	v := t.open[len(t.open)-1]
	t.open = t.open[:len(t.open)-1]
	v.leaf = &proof.FamilyNode{Certificate: c}
}

// Proof returns the finished proof.
func (t *FamilyTree) Proof() *proof.FamilyCertificate {
	return &proof.FamilyCertificate{Planks: t.Target + 1, Tree: *t.top.proof()}
}

func (v *familyVertex) proof() *proof.FamilyNode {
	if v.leaf != nil {
		return v.leaf
	}
	return &proof.FamilyNode{Floor: v.floor, Of: []int{v.of}, In: v.in.proof(), Out: v.out.proof()}
}

// evaluate returns what the cheapest placements cost under the prices, and which they are; false where a floor has none
// that can be laid.
func (v *familyVertex) evaluate(p *prices) (cost int64, ok bool) {
	for i, left := range v.left {
		least := infinite
		for _, k := range left {
			if c, ok := v.tree.evaluate(&v.tree.members[i][k], p); ok && c < least {
				least, v.tree.choice[i] = c, k
			}
		}
		if least == infinite {
			return 0, false
		}
		cost += least
	}
	return cost, true
}

// raise improves the prices of the node, with so many paths at most and up to so much work of the tree, until they
// prove more than the target.
func (v *familyVertex) raise(paths int, end int64) {
	t := v.tree
	if v.first != nil {
		if cost, ok := v.evaluate(v.first); ok && v.proves(cost, v.first) {
			return
		}
	}
	if v.master == nil && !v.begin() {
		v.leaf = &proof.FamilyNode{Prices: []proof.Step{{At: t.family.Plank, Price: Den}}}
		return
	}
	for range paths {
		if v.leaf != nil || v.done || t.Work() >= end || !v.next() {
			return
		}
	}
}

// proves closes the node where a cost is above the target.
func (v *familyVertex) proves(cost int64, by *prices) bool {
	if cost <= int64(v.tree.Target)*Den {
		return false
	}
	v.leaf = &proof.FamilyNode{Prices: by.c.steps}
	return true
}

// begin makes the master of the cuts inherited and tries the first prices.
func (v *familyVertex) begin() bool {
	n := len(v.tree.thresholds)
	v.center, v.trial = make([]float64, n), make([]float64, n)
	v.optimum, v.toward = make([]float64, n), make([]float64, n)
	v.value, v.stay, v.theta = -infinite, stay, math.MaxInt32
	for i := 1; i <= startSteps; i++ {
		v.trial[(n-1)*i/startSteps] += 1.0 / startSteps
	}
	for _, c := range v.inherited {
		v.add(c)
	}
	v.inherited = nil
	return v.try()
}

func (v *familyVertex) add(c *familyCut) {
	if v.master == nil {
		n := len(v.tree.thresholds)
		stride := 1
		for ; n/(2*stride) >= 2*coarsest; stride *= 2 {
		}
		v.master = newMaster(n, 0, stride, false, []*cut{c.cut})
	} else {
		v.master.add(c.cut)
	}
	v.cuts = append(v.cuts, c)
}

// try evaluates the trial prices, keeps them if they are the best, and adds the cut of the cheapest layout.
func (v *familyVertex) try() bool {
	t := v.tree
	p := newPrices(t.thresholds, v.trial, 0, t.family.Plank, t.family.Kerf, nil, nil, Relief{})
	cost, ok := v.evaluate(p)
	if !ok {
		return false
	}
	if cost > v.value {
		v.value, v.best = cost, p
		copy(v.center, v.trial)
	}
	v.proves(cost, p)
	v.add(t.joined(p))
	return true
}

// joined is the cut of the cheapest layouts of the placements chosen.
func (t *FamilyTree) joined(p *prices) *familyCut {
	out := &familyCut{cut: &cut{}, choice: slices.Clone(t.choice)}
	jumps := make(map[int]float64)
	for i, k := range t.choice {
		t.cuts(&t.members[i][k], p, func(c *cut) {
			out.a += c.a
			for _, j := range c.jumps {
				jumps[j.index] += j.by
			}
		})
	}
	for index, by := range jumps {
		if by != 0 {
			out.jumps = append(out.jumps, jump{index, by})
		}
	}
	slices.SortFunc(out.jumps, func(a, b jump) int { return a.index - b.index })
	return out
}

// next tries the next prices, as [Bound.next] does. It reports false where no prices in use lift the node above the
// target.
func (v *familyVertex) next() bool {
	solved := v.master.solve()
	v.tree.work += v.master.work / masterStep
	v.master.work = 0
	if !solved {
		v.done = true
		return false
	}
	v.drop()
	_, v.theta = v.master.read(v.optimum)
	if v.theta-1e-7 <= float64(v.tree.Target) {
		v.done = true
		return false
	}
	for i := range v.trial {
		v.trial[i] = float64(v.stay*v.center[i]) + float64((1-v.stay)*v.optimum[i])
		v.toward[i] = v.optimum[i] - v.center[i]
	}
	carried := 0.0
	for i, w := range v.trial {
		w += carried
		if carried = 0; w < least && i < len(v.trial)-1 {
			w, carried = 0, w
		}
		v.trial[i] = w
	}
	if !v.try() {
		return false
	}
	if v.cuts[len(v.cuts)-1].slope(v.toward) > 0 {
		v.stay = max(v.stay-0.1, leastStay)
	} else {
		v.stay = min(v.stay+float64((1-v.stay)*0.1), mostStay)
	}
	return true
}

// drop drops cuts from the master, and here too.
func (v *familyVertex) drop() {
	v.master.drop()
	kept := make(map[*cut]bool, len(v.master.cuts))
	for _, c := range v.master.cuts {
		kept[c] = true
	}
	v.cuts = slices.DeleteFunc(v.cuts, func(c *familyCut) bool { return !kept[c.cut] })
}

// split parts the placements of a floor: that placement from the others whose share in the mixture of cheap layouts is
// nearest to a half. It reports false where each floor has one placement left.
func (v *familyVertex) split() bool {
	v.master.solve()
	share := make([]map[int]float64, len(v.left))
	for i := range share {
		share[i] = make(map[int]float64)
	}
	for k, c := range v.cuts {
		if w := v.master.weight(k); w > 1e-9 {
			for i, p := range c.choice {
				share[i][p] += w
			}
		}
	}
	best := math.Inf(1)
	for i, left := range v.left {
		if len(left) < 2 {
			continue
		}
		for _, k := range left {
			if far := math.Abs(share[i][k] - 0.5); share[i][k] > 1e-9 && far < best {
				best, v.floor, v.of = far, i, k
			}
		}
	}
	if math.IsInf(best, 1) {
		return false
	}
	side := func(in bool) *familyVertex {
		n := &familyVertex{tree: v.tree, left: slices.Clone(v.left), first: v.best}
		n.left[v.floor] = nil
		for _, k := range v.left[v.floor] {
			if (k == v.of) == in {
				n.left[v.floor] = append(n.left[v.floor], k)
			}
		}
		for _, c := range v.cuts {
			if (c.choice[v.floor] == v.of) == in {
				n.inherited = append(n.inherited, c)
			}
		}
		return n
	}
	v.in, v.out = side(true), side(false)
	return true
}

// alone returns the one placement that is left of each floor.
func (v *familyVertex) alone() []int {
	out := make([]int, len(v.left))
	for i := range out {
		out[i] = v.left[i][0]
	}
	return out
}
