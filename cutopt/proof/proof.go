package proof

import "plank.example/cutopt/measure"

// Denominator is the common denominator of the prices and multipliers in certificates.
const Denominator = 1_000_000_000

// A Certificate proves a lower bound on the planks that any layout of an instance needs.
type Certificate struct {
	Planks int `json:"planks"` // the claim: no layout needs fewer new planks
	// Dropped are touching pairs of runs whose stagger is left out, so that the rest is a forest.
	Dropped [][2]int `json:"dropped,omitempty"`
	Tree    Node     `json:"tree"`
}

// A Node is a case of the proof: a leaf that proves the claim for all layouts on its side of every split on the way to
// it, or a branch into two cases that cover everything.
type Node struct {
	// Prices and Multipliers make a leaf. Prices are C: 0 before the first step, then each step's price; they end with
	// {plank, Denominator}. Multipliers are one for each split on a sum on the way from the root, 0 or more.
	Prices      []Step  `json:"prices,omitempty"`
	Multipliers []int64 `json:"multipliers,omitempty"`
	// FreeStarter and FreeEnder go with prices: starters and enders up to so long cost nothing, and offcuts on hand that
	// are no longer and serve as nothing else are worth nothing.
	FreeStarter measure.Length `json:"free_starter,omitempty"`
	FreeEnder   measure.Length `json:"free_ender,omitempty"`
	// Counts makes a leaf without prices: the claim holds for how many runs of each length there are, whatever the
	// stagger.
	Counts bool `json:"counts,omitempty"`

	// Split makes a branch: Low is the case that the figure is at most Value, High that it is at least Value + 1.
	Split *Split `json:"split,omitempty"`
	Low   *Node  `json:"low,omitempty"`
	High  *Node  `json:"high,omitempty"`
}

// A Step is a step of a price function: from At on it is Price/Denominator.
type Step struct {
	At    measure.Length `json:"at"`
	Price int64          `json:"price"`
}

// A Split names a whole-number figure of a layout and a value.
type Split struct {
	Of    Figure         `json:"of"`
	Below measure.Length `json:"below,omitempty"` // t of the sums that have one
	Run   int            `json:"run,omitempty"`   // of the figures of one run, from 0
	Value int            `json:"value"`
}

// A Figure is a whole number that every layout has.
type Figure string

// The sums, over runs that are not laid in one piece. With r = plank - kerf - ender, what an ender leaves for a starter
// on its plank:
const (
	OfStarted  Figure = "started"  // whole planks between starter and ender, plus one a run
	OfStarters Figure = "starters" // starters s < t
	OfEnders   Figure = "enders"   // enders with r < t
	OfDeficit  Figure = "deficit"  // enders with r < t less starters s < t
)

// The figures of one run.
const (
	OfStarter Figure = "starter" // its starter, 0 where it is laid in one piece
	// OfPlace is what lies before its one piece on the plank, kerfs included; 0 where it is laid in two or more.
	OfPlace Figure = "place"
)

// IsSum reports whether the figure is a sum over runs, whose splits bear multipliers.
func (f Figure) IsSum() bool {
	return f == OfStarted || f == OfStarters || f == OfEnders || f == OfDeficit
}

// OfOneRun reports whether it is a figure of one run, whose splits limit how that run is laid.
func (f Figure) OfOneRun() bool { return f == OfStarter || f == OfPlace }

// A Constraint is one side of a split on a sum.
type Constraint struct {
	Split
	AtMost bool // at most Value; else at least Value
}
