package solve_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// A chimney breast a little out of square: the piece at its corner is told as the notch that is sawn. Check admits the
// smallest rectangle round what comes off, and only as far as the trim covers what the piece loses by it.
func TestNotchAslant(t *testing.T) {
	const mm = measure.Millimetre
	breast := func(slant measure.Length) *cutopt.Job {
		job := metric(1220*mm, 180*mm, cutopt.Room{Name: "Room"})
		job.Rooms[0].Outline = []cutopt.Point{
			{},
			{X: 3000 * mm},
			{X: 3000 * mm, Y: 2000 * mm},
			{X: 700*mm + slant, Y: 2000 * mm},
			{X: 700 * mm, Y: 1500 * mm},
			{Y: 1500 * mm},
		}
		return job
	}
	notch := func(plan *cutopt.Plan) *cutopt.Fact {
		for _, row := range plan.Floors[0].Rows {
			for i := range row.Runs {
				for k := range row.Runs[i].Pieces {
					for n := range row.Runs[i].Pieces[k].Shaping {
						f := &row.Runs[i].Pieces[k].Shaping[n]
						if f.Kind == cutopt.FactNotch || f.Kind == cutopt.FactScribe {
							return f
						}
					}
				}
			}
		}
		return nil
	}
	told := func(slant measure.Length) (*cutopt.Job, *cutopt.Plan, *cutopt.Fact) {
		t.Helper()
		job := breast(slant)
		result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatal(err)
		}
		f := notch(result.Plan)
		if f == nil {
			t.Fatalf("slant %v: nothing is told of the corner", slant)
		}
		return job, result.Plan, f
	}
	facts := func(job *cutopt.Job, plan *cutopt.Plan) (n int) {
		for _, v := range check.Plan(job, plan) {
			if v.Rule == check.RuleFact {
				n++
			}
		}
		return n
	}
	job, plan, f := told(5 * mm)
	if f.Kind != cutopt.FactNotch {
		t.Errorf("5 mm over 500 is told as %v", f.Kind)
	}
	kept := *f
	f.Length += mm
	if facts(job, plan) == 0 {
		t.Error("a notch that is told 1 mm too long passes")
	}
	*f = kept
	job.Rules.Cover = 0
	if facts(job, plan) == 0 {
		t.Error("a notch passes that the trim does not cover")
	}
	if _, _, f := told(100 * mm); f.Kind != cutopt.FactScribe {
		t.Errorf("100 mm over 500 is told as %v", f.Kind)
	}
}

// A corner of a doorway whose side slants ends in a notch just as wide as what the trim hides: Check has nothing left
// to look at within it. Room 63 of seed 14 of TestAwkwardRandom.
func TestNotchAsNarrowAsTheTrimHides(t *testing.T) {
	job := awkward(rand.New(rand.NewPCG(14, 63)))
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	if broken := check.Plan(job, result.Plan); broken != nil {
		t.Error(broken)
	}
}

// A pipe grazes a piece, whose front edge is out by a tick beside the notch: what comes off is told as the round notch
// alone, not as a strip from the far end to it.
func TestRoundNotchBesideATick(t *testing.T) {
	const mm = measure.Millimetre
	job := metric(1220*mm, 98*mm, cutopt.Room{
		Name: "Room",
		Outline: []cutopt.Point{
			{X: -32 * mm, Y: -11 * mm}, {X: 3100 * mm, Y: 9 * mm}, {X: 3127 * mm, Y: 1630 * mm}, {X: -38 * mm, Y: 1632 * mm},
		},
		Islands: []cutopt.Island{
			{Outline: cutopt.RectangleAt(cutopt.Point{X: 1244 * mm, Y: 1055 * mm}, 541*mm, 400*mm)},
			{Outline: cutopt.RectangleAt(cutopt.Point{X: 2307 * mm, Y: 1328 * mm}, 652*mm, 118*mm)},
		},
		Pipes: []cutopt.Pipe{{At: cutopt.Point{X: 1533 * mm, Y: 498 * mm}, Diameter: 53 * mm}},
	})
	job.Rules = cutopt.DefaultRules(measure.UnitMillimetre)
	result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	rounds := 0
	for i := range result.Plan.Floors[0].Rows {
		for _, run := range result.Plan.Floors[0].Rows[i].Runs {
			for _, p := range run.Pieces {
				for _, f := range p.Shaping {
					if f.Kind == cutopt.FactRound && f.Diameter == 65*mm {
						rounds++
					}
				}
			}
		}
	}
	if rounds < 2 {
		t.Errorf("%d pieces are cut round the pipe, want 2 or more", rounds)
	}
}

// A pipe stands 12 mm off a wall that leans, so that the hole for it opens in the end of its piece, less wide than the
// pipe, and a sliver beside it comes off too: the piece is told to be slit all the same.
func TestSlitBesideALeaningWall(t *testing.T) {
	const mm = measure.Millimetre
	job := metric(1220*mm, 123*mm, cutopt.Room{
		Name: "Room",
		Outline: []cutopt.Point{
			{X: 32 * mm, Y: -22 * mm},
			{X: 5178 * mm, Y: -9 * mm},
			{X: 5204 * mm, Y: 15266 * mm / 10},
			{X: 15927 * mm / 10, Y: 15396 * mm / 10},
			{X: 15467 * mm / 10, Y: 3760 * mm},
			{Y: 3798 * mm},
		},
		Pipes: []cutopt.Pipe{{At: cutopt.Point{X: 83 * mm, Y: 657 * mm}, Diameter: 108 * mm}},
	})
	job.Rules = cutopt.DefaultRules(measure.UnitMillimetre)
	job.Rooms[0].Rows.Start = cutopt.StartFar
	result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	slits := 0
	for i := range result.Plan.Floors[0].Rows {
		for _, run := range result.Plan.Floors[0].Rows[i].Runs {
			for _, p := range run.Pieces {
				for _, f := range p.Shaping {
					if f.Kind == cutopt.FactSlit {
						slits++
					}
				}
			}
		}
	}
	if slits != 1 {
		t.Errorf("%d slits, want 1", slits)
	}
}
