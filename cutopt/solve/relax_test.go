package solve_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// clashing is a room whose runs of 119 1/2 in leave starters of 23 to 24 1/2 in alone: no two rows keep a stagger.
func clashing() *cutopt.Job {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 36 * in, Width: 6 * in}, Box: cutopt.Box{Planks: 10},
		Rules: oracle.Rules(measure.UnitInch),
		Rooms: []cutopt.Room{
			{Name: "Kiln passage", Outline: []cutopt.Point{{}, {X: 120 * in}, {X: 120 * in, Y: 42 * in}, {Y: 42 * in}}},
		},
	}
	job.Rules.MinPiece, job.Rules.Fit = 23*in, 0
	return job
}

// TestRelaxByHand relaxes the room above. With shortest piece m, starters run from m to 47 1/2 - m (47 1/2 = 119 1/2 -
// 2*36) and neighbouring rows need two of them 8 in apart: 47 1/2 - 2m >= 8, so m <= 19 3/4. A smaller stagger d needs
// 1 1/2 >= d. 19 3/4 of 23 is the greater share.
func TestRelaxByHand(t *testing.T) {
	job := clashing()
	if _, err := solve.Job(context.Background(), job, nil); !errors.Is(err, solve.ErrNoPlan) {
		t.Fatalf("the clashing room: %v", err)
	}
	looser, how, err := solve.Relax(context.Background(), job)
	if err != nil {
		t.Fatal(err)
	}
	want := solve.Relaxation{Rule: "min-piece", From: 23 * measure.Inch, To: 19*measure.Inch + measure.Inch*3/4}
	if how != want || looser.Rules.MinPiece != want.To {
		t.Errorf("relaxed %+v, want %+v", how, want)
	}
	if job.Rules.MinPiece != 23*measure.Inch {
		t.Error("the job itself was changed")
	}
}

// TestRelax relaxes random rooms whose rules clash: the plan passes Check under the rule relaxed, and a graduation less
// cannot be laid. A room that can be laid is left as it is.
func TestRelax(t *testing.T) {
	relaxed := 0
	rooms := oracle.Samples(15)
	for seed := range uint64(rooms) {
		r := rand.New(rand.NewPCG(seed, 23))
		job := oracle.PlainRoom(r)
		job.Rules.MinPiece = job.Plank.Length * measure.Length(30+r.IntN(30)) / 100
		job.Rules.Stagger = job.Plank.Length * measure.Length(20+r.IntN(25)) / 100
		if job.Validate() != nil {
			continue
		}
		_, refusal := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		looser, how, err := solve.Relax(context.Background(), job)
		if refusal == nil {
			if err != nil || looser != job || how != (solve.Relaxation{}) {
				t.Errorf("seed %d: a room that can be laid was relaxed: %+v, %v", seed, how, err)
			}
			continue
		}
		if err != nil {
			if !errors.Is(err, solve.ErrNoPlan) {
				t.Errorf("seed %d: %v", seed, err)
			}
			continue
		}
		relaxed++
		result, err := solve.Job(context.Background(), looser, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Errorf("seed %d: %+v cannot be laid: %v", seed, how, err)
			continue
		}
		if v := check.Plan(looser, result.Plan); v != nil {
			t.Errorf("seed %d: %v", seed, v)
		}
		tighter := *looser
		switch step := job.Rules.Grid; how.Rule {
		case "min-piece":
			tighter.Rules.MinPiece = min(tighter.Rules.MinPiece+step, how.From)
		case "stagger":
			tighter.Rules.Stagger = min(tighter.Rules.Stagger+step, how.From)
		case "fit":
			tighter.Rules.Fit = min(tighter.Rules.Fit+step, how.From)
		}
		if _, err := solve.Job(context.Background(), &tighter, &solve.Options{Effort: solve.EffortQuick}); !errors.Is(
			err,
			solve.ErrNoPlan,
		) {
			t.Errorf("seed %d: %+v is not the least: a graduation more gives %v", seed, how, err)
		}
	}
	t.Logf("%d rooms relaxed", relaxed)
	if relaxed < rooms/3 {
		t.Errorf("only %d of %d rooms were relaxed", relaxed, rooms)
	}
}
