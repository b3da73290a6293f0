package solve_test

import (
	"context"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// holdsFirst holds a plan without aims against the first floor found: each run lies as it lay there, but for those of
// which fewer pieces have a strip that nobody could hold or take a slit, and those that made way for such a one beside
// them. Where all runs lie as they lay, planks are cut as they were. It returns how many runs lie otherwise.
func holdsFirst(t *testing.T, name string, job *cutopt.Job, result *solve.Result, opt *solve.Options) (moved int) {
	t.Helper()
	first, err := solve.FirstPlan(context.Background(), job, opt)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	plan := result.Plan
	if first.Quality != result.Before || first.Order.Boxes != plan.Order.Boxes || len(check.Plan(job, first)) > 0 {
		t.Fatalf("%s: the first floor has %+v in %d boxes, want %+v in %d", name, first.Quality, first.Order.Boxes,
			result.Before, plan.Order.Boxes)
	}
	for f := range plan.Floors {
		was, is := &first.Floors[f], &plan.Floors[f]
		mended := func(row, run int) bool { return faults(is, row, run) < faults(was, row, run) }
		for i := range is.Rows {
			for k := range is.Rows[i].Runs {
				if slices.EqualFunc(was.Rows[i].Runs[k].Pieces, is.Rows[i].Runs[k].Pieces, sameEnds) {
					continue
				}
				moved++
				may := mended(i, k)
				for _, beside := range []int{i - 1, i + 1} {
					for m := 0; beside >= 0 && beside < len(is.Rows) && m < len(is.Rows[beside].Runs); m++ {
						may = may || slits(is, beside, m) < slits(was, beside, m)
					}
				}
				if !may {
					t.Errorf("%s: run %d of row %d of floor %d lies otherwise for no reason", name, k+1, i+1, f+1)
				}
			}
		}
	}
	if diff := cmp.Diff(first.Planks, plan.Planks); moved == 0 && diff != "" {
		t.Errorf("%s: all runs lie as they lay, but planks are cut otherwise: %s", name, diff)
	}
	return moved
}

func sameEnds(a, b cutopt.Piece) bool { return a.From == b.From && a.To == b.To }

// faults counts the strips that a plan states of a run, and its slits.
func faults(floor *cutopt.PlanFloor, row, run int) int {
	n := slits(floor, row, run)
	for _, f := range floor.Facts {
		if f.Kind == cutopt.FactStrip && f.Row == row+1 && f.Run == run+1 {
			n++
		}
	}
	return n
}

// slits counts the pieces of a run that are slit.
func slits(floor *cutopt.PlanFloor, row, run int) (n int) {
	for _, p := range floor.Rows[row].Runs[run].Pieces {
		if slices.ContainsFunc(p.Shaping, func(f cutopt.Fact) bool { return f.Kind == cutopt.FactSlit }) {
			n++
		}
	}
	return n
}

// cornered is an oblong room with a chimney breast on its far wall, whose corners lie within a row.
func cornered(at, deep measure.Length) *cutopt.Job {
	const in = measure.Inch
	w, h := 190*in, 131*in
	return &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 10},
		Rules: oracle.Rules(measure.UnitInch), Rooms: []cutopt.Room{{Name: "Wren room", Outline: []cutopt.Point{
			{},
			{X: w},
			{X: w, Y: h},
			{X: at + 50*in, Y: h},
			{X: at + 50*in, Y: h - deep},
			{X: at, Y: h - deep},
			{X: at, Y: h},
			{Y: h},
		}}},
	}
}

// TestNoAims plans without aims: the first floor stays, but for joints beside a corner or a pipe. Of the places where
// these may go, that is taken which costs nothing, if there is one: nearer ones make H-joints in the rooms here.
func TestNoAims(t *testing.T) {
	const in = measure.Inch
	piped := cornered(54*in, 17*in)
	piped.Rooms[0].Outline = piped.Rooms[0].Outline[:4]
	piped.Rooms[0].Outline[3] = cutopt.Point{Y: 131 * in}
	plain := *piped
	plain.Rooms = slices.Clone(piped.Rooms)
	piped.Rooms[0].Pipes = []cutopt.Pipe{{At: cutopt.Point{X: 60 * in, Y: 38 * in}, Diameter: in}}
	for _, row := range []struct {
		reason        string
		job           *cutopt.Job
		strips, slits int // that go
		moved         int
	}{
		{"no corner is near a joint", &plain, 0, 0, 0},
		{"a joint beside the left corner of a chimney breast", cornered(54*in, 17*in), 1, 0, 1},
		{"beside the right corner", cornered(91*in, 23*in), 1, 0, 1},
		{"a pipe, for which a row beside makes way", piped, 0, 1, 2},
	} {
		opt := &solve.Options{Effort: solve.EffortQuick}
		row.job.Aims, row.job.Rules.AsItComes = []cutopt.Aim{}, 0
		result, err := solve.Job(context.Background(), row.job, opt)
		if err != nil {
			t.Fatalf("%s: %v", row.reason, err)
		}
		if moved := holdsFirst(t, row.reason, row.job, result, opt); moved != row.moved {
			t.Errorf("%s: %d runs have moved, want %d", row.reason, moved, row.moved)
		}
		first, err := solve.FirstPlan(context.Background(), row.job, opt)
		if err != nil {
			t.Fatalf("%s: %v", row.reason, err)
		}
		strips := count(first, cutopt.FactStrip) - count(result.Plan, cutopt.FactStrip)
		slits := allSlits(first) - allSlits(result.Plan)
		if strips != row.strips || slits != row.slits {
			t.Errorf("%s: %d strips and %d slits have gone, want %d and %d", row.reason, strips, slits, row.strips, row.slits)
		}
		if was, is := first.Quality.HJoints, result.Plan.Quality.HJoints; is > was {
			t.Errorf("%s: H-joints went from %d to %d", row.reason, was, is)
		}
		if was, is := first.Order.Planks, result.Plan.Order.Planks; is > was {
			t.Errorf("%s: planks went from %d to %d", row.reason, was, is)
		}
	}
}

func allSlits(plan *cutopt.Plan) (n int) {
	for f := range plan.Floors {
		for i := range plan.Floors[f].Rows {
			for k := range plan.Floors[f].Rows[i].Runs {
				n += slits(&plan.Floors[f], i, k)
			}
		}
	}
	return n
}
