package fewest

import "math"

// A Budget is what Solve may spend. Work is counted in steps, which do not depend on the machine: a step is a move of a
// walk, or as much work of the bound as takes about as long, some 0.2 microseconds.
type Budget struct {
	Paths  int // for the first bound
	Walk   int // moves of each walk of the first round, where the floor has no more than Walk/PerRun runs
	PerRun int // moves of such a walk for each run of a larger floor
	// Rounds is how many rounds there may be, each with twice the steps of the one before. With 0 there are only walks: to
	// the target, and with Between to the numbers of planks above it too.
	Rounds  int
	Between bool
	Branch  int // steps of branching in the first round
	Dives   int // a measure of how many dives a round may have, on floors of many runs
	Dive    int // most steps of the bound in a dive; 0 for no dives
	// Patience is how many steps may pass without a better layout or bound before the work ends; PatiencePerRun adds to it
	// for each run. Both 0 for any number.
	Patience, PatiencePerRun int64
	Steps                    int64 // most in all; 0 for any number
}

// The budgets in use. Normal is the one of a Settings without a budget.
var (
	Glance = Budget{Paths: 40, Walk: 10_000, PerRun: 20}
	Brief  = Budget{Paths: 300, Walk: 30_000, PerRun: 60, Between: true}
	Quick  = Budget{
		Paths:          300,
		Walk:           30_000,
		PerRun:         60,
		Rounds:         1,
		Branch:         250_000,
		Dives:          1,
		Dive:           1_500_000,
		Patience:       1_500_000,
		PatiencePerRun: 1_000,
	}
	Normal = Budget{
		Paths:          300,
		Walk:           30_000,
		PerRun:         60,
		Rounds:         6,
		Branch:         250_000,
		Dives:          2,
		Dive:           1_500_000,
		Patience:       10_000_000,
		PatiencePerRun: 1_000,
		Steps:          16_000_000,
	}
	// Boxes is for floors whose boxes are wanted: nearly all that is proven of these is proven early.
	Boxes = Normal.patient(2_500_000, 500).within(5_000_000)
	// Site is for what is left of a floor, of which nearly all that is proven is proven early.
	Site     = Normal.patient(1_000_000, 10_000)
	Thorough = Budget{
		Paths:          300,
		Walk:           30_000,
		PerRun:         60,
		Rounds:         9,
		Branch:         250_000,
		Dives:          4,
		Dive:           1_500_000,
		Patience:       200_000_000,
		PatiencePerRun: 20_000,
	}
)

// patient returns the budget with another patience.
func (b Budget) patient(steps, perRun int64) Budget {
	b.Patience, b.PatiencePerRun = steps, perRun
	return b
}

// within returns the budget with so many steps at most.
func (b Budget) within(steps int64) Budget {
	b.Steps = steps
	return b
}

// bounding is the most steps of the first bound: half of all, so that floors of thousands of runs have walks too.
func (b *Budget) bounding() int64 {
	if b.Steps > 0 {
		return b.Steps / 2
	}
	return math.MaxInt64
}

// An End says why Solve stopped.
type End uint8

// The ends.
const (
	EndSettled End = iota // the layout is as good as the bound
	EndSpent              // all rounds of the budget
	EndStalled            // nothing better was found for as long as the budget's patience, or its steps are done
	EndStopped            // Settings.Stop
)

// end says why the work ends, once it has.
func (s *solver) end() End {
	switch {
	case s.settled():
		return EndSettled
	case s.halted.Load():
		return EndStopped
	case s.stalled():
		return EndStalled
	}
	return EndSpent
}

// stalled reports whether the budget's patience is at an end, or its steps are.
func (s *solver) stalled() bool { return s.left() <= 0 }

// left is how many more steps there may be, without progress.
func (s *solver) left() int64 {
	patience := s.budget.Patience + s.budget.PatiencePerRun*int64(len(s.table.Instance.Runs))
	left := int64(math.MaxInt64)
	if patience > 0 {
		left = patience - (s.work() - s.progress)
	}
	if s.budget.Steps > 0 {
		left = min(left, s.budget.Steps-s.work())
	}
	return left
}

// share is a part of the steps left, 1<<30 at most.
func (s *solver) share(part int64) int { return int(min(s.left()/part, 1<<30)) }

// work is the steps spent so far.
func (s *solver) work() int64 {
	if s.root == nil {
		return s.out.Steps
	}
	return s.out.Steps + s.root.Work()
}

// progressed notes that layout or bound have become better.
func (s *solver) progressed() { s.progress = s.work() }
