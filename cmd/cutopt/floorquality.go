package main

import (
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// quality says how the floor looks and how easy it is to lay.
func (r *report) quality() {
	q, s := &r.plan.Quality, r.speech
	r.heading(s.Say("report.looks"))
	r.para(looks(s, q) + ".")
	asTheyCome := 0
	for i := range r.plan.Floors {
		asTheyCome += loose(&r.plan.Floors[i])
	}
	switch stagger := r.length(q.LeastStagger); {
	case q.LeastStagger >= r.job.Plank.Length:
	case asTheyCome > 0 && q.LeastStagger > r.job.Rules.Stagger:
		r.para(s.Say("report.apart-planned", "stagger", stagger, "least", r.length(r.job.Rules.Stagger)))
	default:
		r.para(s.Say("report.apart", "stagger", stagger))
	}
	text := lays(s, q)
	if asTheyCome > 0 {
		text += "; " + s.Count("report.loose", asTheyCome)
	}
	r.para(text + ".")
	if than := r.irregular; than != nil {
		r.para(s.Say("report.pattern", "planks", some(s, "plank", than.More),
			"boxes", some(s, "box", r.plan.Order.Boxes-than.Boxes), "than", s.Count("things.plank", than.Planks)))
	}
}

// against compares the plan's pattern with what the job needs without one.
func (r *report) against(than *solve.Irregular) *report {
	r.irregular = than
	return r
}

// some says a number of boxes or planks, and that there are none.
func some(s *words.Speech, thing string, n int) string {
	if n == 0 {
		return s.Say("things." + thing + ".none")
	}
	return s.Count("things."+thing, n)
}

// looks names the faults of the pattern of joints, or says that there are none.
func looks(s *words.Speech, q *cutopt.Quality) string {
	var have, none []string
	for _, f := range []struct {
		n    int
		name string
	}{
		{q.HJoints, "in-line"}, {q.Chains, "chain"}, {q.Staircases, "staircase"}, {q.Clusters, "cluster"},
	} {
		if f.n > 0 {
			have = append(have, s.Count("looks."+f.name, f.n))
		} else {
			none = append(none, s.Say("looks."+f.name+".none"))
		}
	}
	text := strings.Join(append(have, none...), ", ")
	return strings.ToUpper(text[:1]) + text[1:] // a number or "no" comes first, in any language an ASCII letter
}

// lays says how much is sawn and carried.
func lays(s *words.Speech, q *cutopt.Quality) string {
	parts := []string{s.Count("report.crosscuts", q.Crosscuts)}
	if q.OffcutsAtOnce == 0 {
		parts = append(parts, s.Say("report.no-offcut"))
	} else {
		kept := s.Count("report.at-once", q.OffcutsAtOnce)
		if q.RowsWaited > 0 {
			kept += ", " + s.Count("report.waited", q.RowsWaited)
		}
		parts = append(parts, kept)
	}
	if q.OddStarters > 0 {
		parts = append(parts, s.Count("report.odd", q.OddStarters))
	} else {
		parts = append(parts, s.Say("report.round"))
	}
	return strings.Join(parts, "; ")
}
