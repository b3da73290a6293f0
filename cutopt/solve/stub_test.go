package solve_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// Walls a few ticks long keep their gap the way they run, however the corners are rounded in rows that are turned, and
// a jog that keeps a wider gap than the walls beside it is none: Job holds each plan against Check.
func TestStubs(t *testing.T) {
	const in = measure.Inch
	plan := func(
		name string, outline []cutopt.Point, gaps map[int]measure.Length, angle float64, start cutopt.Start,
		smooth measure.Length,
	) {
		job := metric(48*in, 56743, cutopt.Room{Name: "Room", Outline: outline, WallGaps: gaps})
		job.Rules = cutopt.DefaultRules(measure.UnitInch)
		job.Rules.Smooth, job.Aims = smooth, []cutopt.Aim{}
		job.Rooms[0].Rows.Direction, job.Rooms[0].Rows.Angle = cutopt.DirectionAngle, angle
		job.Rooms[0].Rows.Start = start
		if job.Validate() != nil {
			return // its walls cross
		}
		_, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
		if none := (*solve.InfeasibleError)(nil); err != nil && !errors.As(err, &none) {
			t.Errorf("%s: %v", name, err)
		}
	}
	at := func(places ...measure.Length) (outline []cutopt.Point) {
		for i := 0; i < len(places); i += 2 {
			outline = append(outline, cutopt.Point{X: places[i], Y: places[i+1]})
		}
		return outline
	}
	for _, c := range []struct {
		name    string
		outline []cutopt.Point // in ticks
		gaps    map[int]measure.Length
		angle   float64
		start   cutopt.Start
		smooth  measure.Length
	}{
		{
			"a step a tick beside a corner, which a row that is longer left there",
			at(0, 0, 634000, 0, 634000, 789444, -5647, 789444, -5646, -5845, 0, 1),
			map[int]measure.Length{4: 1466},
			46, cutopt.StartFar, in / 8,
		},
		{
			"a stub whose rounded corners run back along the wall before it",
			at(0, 0, 260096, 0, 260102, -2, 260698, -24, 520192, 0, 520192, 463296, 0, 463296),
			map[int]measure.Length{2: 1218, 3: 2188, 5: 164, 6: 888},
			47, cutopt.StartNear, in / 8,
		},
		{
			"a stub of nine ticks",
			at(0, 0, 284480, 0, 284478, 9, 285081, -2679, 568960, 0, 568960, 325120, 0, 325120),
			map[int]measure.Length{1: 1189, 2: 1151, 3: 3009, 5: 393, 6: 1081},
			80, cutopt.StartNear, 0,
		},
		{
			"a jog with a gap of its own",
			at(0, 0, 251968, 0, 252007, 0, 252568, 1, 503936, 0, 503936, 520192, 0, 520192),
			map[int]measure.Length{2: 3884},
			36, cutopt.StartNear, in / 8,
		},
		{
			"a strip whose edges are parallel only in doubt, at ten degrees",
			at(0, 0, 239776, 0, 239696, 7, 245739, 6, 479552, 0, 479552, 357632, 0, 357632),
			map[int]measure.Length{0: 272, 1: 635, 3: 547, 5: 2061},
			10, cutopt.StartNear, 0,
		},
	} {
		plan(c.name, c.outline, c.gaps, c.angle, c.start, c.smooth)
	}
	const seed = 80
	sizes := []int{1, 2, 5, 20, 100, 400, 2000, 5000}
	for n := range oracle.Samples(15) {
		rng := rand.New(rand.NewPCG(seed, uint64(n)))
		some := func() measure.Length {
			most := sizes[rng.IntN(len(sizes))]
			return measure.Length(rng.IntN(2*most+1) - most)
		}
		w, h := in*measure.Length(40+rng.IntN(30)), in*measure.Length(40+rng.IntN(30))
		outline := []cutopt.Point{
			{}, {X: w / 2}, {X: w/2 + some(), Y: some()}, {X: w/2 + 6000 + some(), Y: some()}, {X: w}, {X: w, Y: h}, {Y: h},
		}
		gaps := make(map[int]measure.Length)
		for i := range outline {
			if rng.IntN(2) == 0 {
				gaps[i] = measure.Length(rng.IntN(4000))
			}
		}
		smooth := measure.Length(rng.IntN(2)) * in / 8
		plan("a random room", outline, gaps, float64(1+rng.IntN(88)), cutopt.Start(rng.IntN(2)), smooth)
		if t.Failed() {
			t.Fatalf("seed %d, room %d: %v, gaps %v", seed, n, outline, gaps)
		}
	}
}
