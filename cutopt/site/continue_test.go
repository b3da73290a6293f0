package site_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// happen draws what happens on one day: rows are laid on, and some of what goes wrong on sites does.
func happen(r *rand.Rand, p planned) *site.State {
	s := new(site.State)
	f := r.IntN(len(p.plan.Floors))
	floor := &p.plan.Floors[f]
	row := 1 + r.IntN(len(floor.Rows))
	s.Events = append(s.Events, site.Event{Kind: site.KindLaid, Floor: f, Row: row})
	runs := len(floor.Rows[row-1].Runs)
	if runs == 1 && r.IntN(3) == 0 {
		s.Events[0].Pieces = 1 + r.IntN(len(floor.Rows[row-1].Runs[0].Pieces))
	}
	long, plank := p.job.Plank.Length, func() int { return 1 + r.IntN(len(p.plan.Planks)) }
	step := long / 32
	for range r.IntN(4) {
		e := site.Event{}
		switch r.IntN(8) {
		case 0:
			e = site.Event{Kind: site.KindLost, Planks: []int{plank()}}
		case 1:
			e = site.Event{Kind: site.KindCulled, Count: 1 + r.IntN(2)}
		case 2:
			e = site.Event{
				Kind: site.KindMiscut, Planks: []int{plank()}, Length: step * measure.Length(1+r.IntN(30)),
				Ends: cutopt.Ends(1 + r.IntN(2)),
			}
		case 3:
			e = site.Event{
				Kind: site.KindOffcut, Length: step * measure.Length(1+r.IntN(31)), Ends: cutopt.Ends(r.IntN(3)),
			}
		case 4:
			e = site.Event{
				Kind: site.KindStarter, Floor: f, Row: 1 + r.IntN(row), Length: step * measure.Length(4+r.IntN(28)),
			}
			e.Run = 1 + r.IntN(max(1, len(floor.Rows[e.Row-1].Runs)))
		case 5:
			e = site.Event{
				Kind: site.KindLonger, Floor: f, Row: min(len(floor.Rows), row+1+r.IntN(3)),
				Length: measure.Length(r.IntN(65)-32) * in / 16,
			}
		case 6:
			e = site.Event{Kind: site.KindPlanks, Count: r.IntN(20)}
		case 7:
			e = site.Event{Kind: site.KindLast, Floor: f, Length: floor.Rows[len(floor.Rows)-1].Width - in/4}
		}
		s.Events = append(s.Events, e)
	}
	return s
}

// TestWhatHappensIsPlannedOn lets random things happen to the examples, day after day, and holds that every plan that
// goes on from there passes Check against the job as it is then.
func TestWhatHappensIsPlannedOn(t *testing.T) {
	all, err := examples()
	if err != nil {
		t.Fatal(err)
	}
	const seed = 5
	r := rand.New(rand.NewPCG(seed, 11))
	refused, days := 0, 0
	for n := range samples(4) {
		p := all[n%len(all)]
		for day := range 3 {
			s := happen(r, p)
			about := fmt.Sprintf("seed %d, sample %d: %s, day %d: %s", seed, n, p.name, day+1, lines(p, s))
			job, marked, _, err := site.Apply(p.job, p.plan, s)
			days++
			if err != nil {
				var wrong site.Errors
				if !errors.As(err, &wrong) {
					t.Fatalf("%s: %v", about, err)
				}
				refused++
				continue
			}
			sound(t, about, marked)
			result, err := solve.Continue(context.Background(), job, marked, &solve.Options{Effort: solve.EffortQuick})
			if err != nil {
				if errors.Is(err, solve.ErrNoPlan) {
					break // what lies leaves no starter that keeps the stagger
				}
				t.Fatalf("%s: %v", about, err)
			}
			if v := check.Plan(job, result.Plan); len(v) > 0 {
				t.Fatalf("%s: %v", about, v)
			}
			p = planned{p.name, job, result.Plan}
		}
	}
	if refused*2 > days {
		t.Errorf("%d of %d days are refused", refused, days)
	}
}

// lines writes a state, for a failure.
func lines(p planned, s *site.State) string {
	g, out := site.NewGrammar(p.job, p.plan), ""
	for _, e := range s.Events {
		out += g.Format(e) + "; "
	}
	return out
}
