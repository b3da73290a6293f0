// Package fewest finds a layout of an instance with the fewest planks and proves that fewer cannot do: it plays the
// bound and the search against each other until they meet or the effort is spent.
package fewest

import (
	"errors"
	"fmt"
	"sync/atomic"

	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Settings steer Solve.
type Settings struct {
	// Enough reports whether a layout of so many planks is as good as one of bound planks, such as when both fill the
	// same boxes. Enough(n, n) is true.
	Enough  func(planks, bound int) bool // nil for planks <= bound
	Budget  *Budget                      // nil for Normal
	Start   rows.Layout                  // one that may do, as that of before; not heeded if it breaks a rule
	Seed    uint64
	Workers int
	Stop    func() bool // polled, from several goroutines; true ends the work with what there is
	Report  func(phase string, planks, bound int, steps int64)
}

// An Outcome is the best layout and bound found.
type Outcome struct {
	Layout      rows.Layout
	Packing     rows.Packing
	Planks      int
	Bound       int
	Certificate *proof.Certificate
	Prices      []proof.Step // the best price function of the whole floor, without splits
	End         End
	Steps       int64 // as in Budget
	Paths       int
	Leaves      int
}

// Stopped reports whether Settings.Stop ended the work.
func (o *Outcome) Stopped() bool { return o.End == EndStopped }

// MaxGraduations is the most starters on the grid that a plank may have: time and memory are proportional to them.
const MaxGraduations = 1_000_000

// ErrNoLayout is returned when no layout was found that keeps the rules although none is proven impossible.
var ErrNoLayout = errors.New("fewest: no layout found that keeps every stagger")

// solver is the state of one Solve.
type solver struct {
	*Settings
	budget   Budget
	progress int64 // work when layout or bound last became better
	table    *starters.Table
	out      Outcome
	root     *bound.Bound
	tree     *proof.Node // proof of proven planks, where branching went beyond the root
	cheap    rows.Layout // the last layout of the bound that keeps the rules
	proven   int
	growing  *bound.Tree // the proof by branching under way
	// searches is how many layouts no better than the best by best fit may still be searched for a better packing.
	searches int
	floor    *counts.Floor // nil where it has too many kinds of runs
	cycles   *counts.Cycles
	cycled   bool // cycles are settled, to draw from
	counts   *counts.Table
	counted  int // points that the table might have
	renewed  [2]renewal
	halted   atomic.Bool
	domains
}

// Solve works in these steps: lay the rows the trade's way; raise the bound, trying each layout it passes; then bring
// layout and bound together, round by round, until they meet or the budget is spent. The instance must pass Validate.
// It returns a *bound.Infeasible when no layout keeps the rules, and an error that wraps rows.ErrTooLarge where the
// grid has more than MaxGraduations lines a plank. An instance without runs needs no planks.
func Solve(in *rows.Instance, set *Settings) (*Outcome, error) {
	if len(in.Runs) == 0 {
		leaf := proof.Node{Prices: []proof.Step{{At: in.Plank, Price: proof.Denominator}}}
		return &Outcome{Layout: rows.Layout{}, Certificate: &proof.Certificate{Tree: leaf}, Leaves: 1}, nil
	}
	if in.Plank/in.Grid > MaxGraduations {
		return nil, fmt.Errorf(
			"fewest: %d starters to a plank, at most %d: %w",
			in.Plank/in.Grid,
			MaxGraduations,
			rows.ErrTooLarge,
		)
	}
	s := &solver{Settings: set, budget: Normal, table: starters.New(in), searches: 16}
	s.domains = s.newDomains()
	if set.Budget != nil {
		s.budget = *set.Budget
	}
	s.out.Planks = -1
	if set.Start != nil && in.Check(set.Start) == nil {
		s.consider(set.Start, nil)
	}
	if layout, ok := search.Carry(s.table); ok {
		s.consider(layout, nil)
	}
	root, err := bound.New(s.table)
	if err != nil {
		return nil, err
	}
	s.root, s.floor = root, counts.Sort(s.table)
	if s.raise(s.budget.Paths, s.budget.bounding()); s.budget.Paths > Glance.Paths {
		s.price()
	}
	if s.out.Planks < 0 {
		s.untangle()
	}
	if s.out.Planks < 0 {
		return nil, ErrNoLayout
	}
	s.relieve()
	s.close()
	if s.tree == nil || s.root.Planks() >= s.proven {
		s.tree = s.root.Leaf()
	}
	s.out.Leaves = leaves(s.tree)
	s.out.Bound = s.bound()
	s.out.End = s.end()
	s.out.Steps = s.work()
	s.out.Prices = s.root.Leaf().Prices
	s.out.Certificate = &proof.Certificate{Planks: s.out.Bound, Dropped: s.root.Dropped(), Tree: *s.tree}
	return &s.out, nil
}

// bound is the best bound proven so far.
func (s *solver) bound() int { return max(s.root.Planks(), s.proven) }

// consider keeps a layout if it needs fewer planks than the best so far. packing may be nil.
func (s *solver) consider(layout rows.Layout, packing rows.Packing) {
	in := s.table.Instance
	if packing == nil && s.out.Planks >= 0 {
		// A search for the packing is worth its time where best fit is better already, and now and then where it is as good.
		n := in.CountBestFit(layout)
		if n == s.out.Planks && s.searches > 0 {
			s.searches--
		} else if n >= s.out.Planks {
			return
		}
	}
	if n := in.Count(layout, packing); s.out.Planks < 0 || n < s.out.Planks {
		s.progressed()
		s.out.Planks = n
		s.out.Layout = append(rows.Layout(nil), layout...)
		s.out.Packing = append(rows.Packing(nil), packing...)
		if packing == nil {
			s.out.Packing = nil
		}
	}
}

// settled reports whether the best layout is as good as the bound allows.
func (s *solver) settled() bool {
	return s.out.Planks >= 0 && s.enough(s.out.Planks)
}

// enough reports whether so many planks are as good as the bound.
func (s *solver) enough(planks int) bool {
	return planks <= s.bound() || s.Enough != nil && s.Enough(planks, s.bound())
}

// halt asks Stop, and remembers its answer; it may be called from several goroutines.
func (s *solver) halt() bool {
	if s.Stop == nil || s.halted.Load() {
		return s.halted.Load()
	}
	if s.Stop() {
		s.halted.Store(true)
	}
	return s.halted.Load()
}

func (s *solver) report(phase string) {
	if s.Report != nil {
		s.Report(phase, max(s.out.Planks, 0), s.bound(), s.out.Steps)
	}
}

// raise maximises the bound at the root with up to so many paths, fewer the more runs there are, until the work in
// steps comes to end.
func (s *solver) raise(paths int, end int64) {
	in := s.table.Instance
	const all = 1 << 30
	before := s.bound()
	n, _ := s.root.Raise(all, min(max(2_000_000/len(in.Runs), 30), paths), func(l rows.Layout, p rows.Packing) bool {
		s.try(l, p)
		s.report("bound")
		return s.over() || s.work() >= end
	})
	s.out.Paths += n
	if s.bound() > before {
		s.progressed()
	}
}

// untangle looks for any layout that keeps every stagger, where ties that close cycles let the bound's layouts break
// some.
func (s *solver) untangle() {
	in := s.table.Instance
	start := s.root.Layout()
	for round := range uint64(20) {
		a := search.Attempt{
			Domain: s.coarse(), Start: start, Target: 1 << 28,
			Steps: 20_000 + 200*len(in.Runs)<<(round/4), Seed: s.Seed + round, Stop: s.halt,
		}
		layout, packing, steps, ok := a.Run()
		s.out.Steps += int64(steps)
		if ok {
			s.consider(layout, packing)
			return
		}
		start = layout
	}
}

// leaves counts the leaves of a proof.
func leaves(n *proof.Node) int {
	if n.Split == nil {
		return 1
	}
	return leaves(n.Low) + leaves(n.High)
}
