// Package quality makes a floor easier to lay and better to look at without another box: it takes a layout and the
// planks that may be used, and improves one figure of the floor after the other, none at the cost of one before it.
package quality

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// values are the figures of a floor by aim, each the better the lower; that of the stagger is the ties that are short
// of what is aimed at.
type values [cutopt.AimPlanks + 1]int

// A Problem is a floor: runs in the order of their rows, and what its figures are measured by.
type Problem struct {
	Instance *rows.Instance // without offcuts on hand
	Row      []int          // by run: number of its row, over all rooms, never falling
	Fit      measure.Length // by which runs of the instance are longer than measured
	InLine   measure.Length // joints at most so far apart are in line, steps that differ by no more are equal
	Prefer   measure.Length // a stagger of so much is as good as any more
	Round    measure.Length // starters that are a multiple are round figures; 0 if all are
	Fixed    bool           // starters stay as they are
	Held     [][]Span       // by run: where a joint lets a piece round a fixed thing; nil for none
	// Thin counts the pieces of run i, laid with a starter, that have a strip which nobody could hold; nil for none.
	Thin func(i int, starter measure.Length) int
	// AsItComes is how much longer than planned an offcut may be that is laid as it comes, where Sawn does not say of its
	// run that it is not: improving counts no cut there. 0 counts every cut, as Measure does.
	AsItComes measure.Length
	Sawn      []bool // by run; nil for none
}

// Settings steer Improve.
type Settings struct {
	Order  []cutopt.Aim // most important first; others are not heeded
	Cap    int          // planks that may be used, no fewer than the floor has
	Budget Budget       // the zero value leaves the aims alone
	Seed   uint64
	Stop   func() bool // polled every 1,024 steps and at each place of a joint that is to move; nil never stops
}

// A Budget is how many steps are spent on each aim.
type Budget struct {
	PerRun int // for each run
	AtMost int // for all runs together
}

// An Outcome is the floor that Improve ends with.
type Outcome struct {
	Layout  rows.Layout
	Cutting *rows.Cutting
	Steps   int64
	Stopped bool // Stop ended the work
}

// Improve improves the floor by local search, aim by aim in the given order: a step that makes the figure of an aim
// worse is taken only if it betters that of an aim before it. The search ends when its steps are spent, at most some
// hundreds for each run and aim and some ten thousands for each aim, or earlier when nothing more is gained. Each step
// takes time in the order of the ties of a run and of the grid lines of a plank.
//
// In the end, whatever the aims, joints go where fewer pieces have a strip that nobody could hold, to the nearest place
// that costs nothing, or where all do to the one that costs least; and where they spare slits, if that makes none of
// H-joints, chains, staircases and clusters worse that is an aim: gluing a block back costs more than another cut. Runs
// that need neither stay, and so do their planks as far as planks allow; where cutting all anew takes fewer and no aim
// is about what is left over, all are cut anew.
//
// The same arguments give the same floor, unless stopped.
func Improve(p *Problem, layout rows.Layout, cutting *rows.Cutting, set *Settings) *Outcome {
	s := newSearch(p, layout, cutting, set)
	for k := range set.Order {
		if s.halt() {
			break
		}
		s.stage(k)
	}
	asked := s.paired // what planks are left over may be wanted for an aim
	s.tidy()
	s.thicken()
	s.spare()
	for s.begin(); !asked && s.passOn(); {
	}
	out := &Outcome{Layout: s.start, Cutting: s.cutting(), Steps: s.steps, Stopped: s.halted}
	if !asked && !slices.Equal(layout, out.Layout) {
		// Partners passed on leave runs in one piece where they are; a plank less is worth cutting all anew.
		if anew := p.Instance.Cut(out.Layout, nil); len(anew.Planks) < len(out.Cutting.Planks) {
			out.Cutting = anew
		}
	}
	return out
}

// Looks returns the figures of a floor that an eye sees on it: those of its joints. It takes time linear in runs and
// ties.
func Looks(p *Problem, layout rows.Layout) cutopt.Quality {
	pieces := make([]rows.Pieces, len(layout))
	for i, s := range layout {
		pieces[i], _ = p.Instance.Lay(i, s)
	}
	st := &state{p: p, in: p.Instance, web: newWeb(p, pieces), start: layout, pieces: pieces}
	st.look()
	v := &st.values
	return cutopt.Quality{
		HJoints: v[cutopt.AimHJoints], Staircases: v[cutopt.AimStaircases], Clusters: v[cutopt.AimClusters],
		Chains: v[cutopt.AimChains], LongestChain: st.web.longest(), LeastStagger: st.leastStagger(),
	}
}

// Measure returns the figures of a floor. It takes time linear in runs, ties and planks.
func Measure(p *Problem, layout rows.Layout, cutting *rows.Cutting) cutopt.Quality {
	sawn := *p
	sawn.AsItComes = 0
	s := newState(&sawn, layout, cutting, len(cutting.Planks))
	s.pairUp()
	v := &s.values
	return cutopt.Quality{
		HJoints: v[cutopt.AimHJoints], Staircases: v[cutopt.AimStaircases], Clusters: v[cutopt.AimClusters],
		Chains: v[cutopt.AimChains], LongestChain: s.web.longest(),
		LeastStagger: s.leastStagger(), Crosscuts: v[cutopt.AimCrosscuts], OffcutsAtOnce: v[cutopt.AimOffcuts],
		RowsWaited: v[cutopt.AimWaiting], OddStarters: v[cutopt.AimFigures],
	}
}
