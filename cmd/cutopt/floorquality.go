package main

import (
	"fmt"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/solve"
)

// quality says how the floor looks and how easy it is to lay.
func (r *report) quality() {
	q := &r.plan.Quality
	r.heading("How it looks and lays")
	r.para(looks(q) + ".")
	if q.LeastStagger < r.job.Plank.Length {
		r.para(
			fmt.Sprintf("End joints of neighbouring rows are at least %s apart.", q.LeastStagger.Format(r.plan.Unit, r.grid)),
		)
	}
	r.para(lays(q) + ".")
	if r.irregular != nil {
		r.para(r.patternCost() + ". What is proven too few is so for any joints, with or without the pattern.")
	}
}

// against compares the plan's pattern with what the job needs without one.
func (r *report) against(than *solve.Irregular) *report {
	r.irregular = than
	return r
}

// patternCost says what the pattern costs.
func (r *report) patternCost() string {
	o, than := r.plan.Order, r.irregular
	s := fmt.Sprintf("The pattern costs %s and %s against the best irregular layout found, of %s",
		count(than.More, "plank", "planks"), count(o.Boxes-than.Boxes, "box", "boxes"), count(than.Planks, "plank", "planks"))
	return strings.NewReplacer(" 0 planks and", " no plank and", " 0 boxes ", " no box ").Replace(s)
}

// looks names the faults of the pattern of joints, or says that there are none.
func looks(q *cutopt.Quality) string {
	var have, none []string
	for _, f := range []struct {
		n             int
		one, many, no string
	}{
		{q.HJoints, "pair of joints in line two rows apart", "pairs of joints in line two rows apart", "joints in line two " +
			"rows apart"},
		{q.Chains, "chain of five or more steps the same way", "chains of five or more steps the same way", "five steps " +
			"the same way"},
		{q.Staircases, "staircase of four joints", "staircases of four joints", "staircases"},
		{q.Clusters, "cluster of four joints", "clusters of four joints", "clusters of joints"},
	} {
		if f.n > 0 {
			have = append(have, count(f.n, f.one, f.many))
		} else {
			none = append(none, "no "+f.no)
		}
	}
	s := strings.Join(append(have, none...), ", ")
	return strings.ToUpper(s[:1]) + s[1:]
}

// lays says how much is sawn and carried.
func lays(q *cutopt.Quality) string {
	s := count(q.Crosscuts, "crosscut", "crosscuts")
	switch q.OffcutsAtOnce {
	case 0:
		s += "; no offcut is kept for a later row"
	default:
		s += fmt.Sprintf("; at most %s kept for later rows at once", count(q.OffcutsAtOnce, "offcut is", "offcuts are"))
		if q.RowsWaited > 0 {
			s += fmt.Sprintf(", past %s in all", count(q.RowsWaited, "row", "rows"))
		}
	}
	if q.OddStarters > 0 {
		s += fmt.Sprintf("; %s cut to no round figure", count(q.OddStarters, "starter is", "starters are"))
	} else {
		s += "; all starters are whole or round figures"
	}
	return s
}
