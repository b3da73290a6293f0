package solve_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestCompare compares random rooms: every line is what solve.Job gives for its job, passes Check, and is the same for
// any number of workers; the best keeps the rules, and no line that does needs fewer boxes.
func TestCompare(t *testing.T) {
	ctx := context.Background()
	for seed := range uint64(3) {
		job := oracle.SmallRoom(rand.New(rand.NewPCG(seed, 29)))
		job.Products = []cutopt.Product{
			{Plank: cutopt.Plank{Length: 40 * measure.Inch, Width: 5 * measure.Inch}, Box: cutopt.Box{Planks: 12}},
		}
		all, err := solve.Compare(ctx, job, nil)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		again, err := solve.Compare(ctx, job, &solve.Options{Effort: solve.EffortQuick, Workers: 8})
		if err != nil {
			t.Fatal(err)
		}
		best, aspects := 0, map[solve.Aspect]int{}
		for i, v := range all {
			aspects[v.Aspect]++
			if v.Result == nil {
				if !errors.Is(v.Err, solve.ErrNoPlan) {
					t.Errorf("seed %d, %s: %v", seed, v.Aspect, v.Err)
				}
				continue
			}
			plan := v.Result.Plan
			if diff := cmp.Diff(plan, again[i].Result.Plan); diff != "" {
				t.Errorf("seed %d, %s: 8 workers differ: %s", seed, v.Aspect, diff)
			}
			alone, err := solve.Job(ctx, v.Job, &solve.Options{Fewest: solve.FewestPlanks, Effort: solve.EffortQuick})
			if err != nil || !cmp.Equal(alone.Plan, plan) {
				t.Errorf("seed %d, %s: Solve gives another plan, or %v", seed, v.Aspect, err)
			}
			if broken := check.Plan(v.Job, plan); broken != nil {
				t.Errorf("seed %d, %s: %v", seed, v.Aspect, broken)
			}
			if v.Best {
				best++
				if v.Job.Rules.Stagger < job.Rules.Stagger || v.Job.Rules.MinPiece < job.Rules.MinPiece {
					t.Errorf("seed %d: the best, %s, breaks the job's rules", seed, v.Aspect)
				}
				for _, w := range all {
					narrow := w.Result != nil &&
						slices.ContainsFunc(
							w.Result.Plan.Floors[0].Facts,
							func(f cutopt.Fact) bool { return f.Kind == cutopt.FactEdgeAsked },
						)
					strict := !narrow && w.Job.Rules.Stagger >= job.Rules.Stagger &&
						w.Job.Rules.MinPiece >= job.Rules.MinPiece
					if strict && w.Result != nil && w.Result.Plan.Order.Boxes < plan.Order.Boxes {
						t.Errorf("seed %d: %s needs fewer boxes than the best, %s", seed, w.Aspect, v.Aspect)
					}
				}
			}
		}
		if best != 1 {
			t.Errorf("seed %d: %d are marked best", seed, best)
		}
		want := map[solve.Aspect]int{
			solve.AspectNone: 1, solve.AspectDirection: 2, solve.AspectStart: 2,
			solve.AspectFirstRow: aspects[solve.AspectFirstRow],
			solve.AspectStagger:  2, solve.AspectMinPiece: 2, solve.AspectProduct: 1,
		}
		if n := aspects[solve.AspectFirstRow]; n < 2 || n > 9 {
			t.Errorf("seed %d: %d widths of a first row, want the whole plank and up to eight others", seed, n)
		}
		if diff := cmp.Diff(want, aspects); diff != "" {
			t.Errorf("seed %d: lines by aspect (-want +got): %s", seed, diff)
		}
	}
}

// TestCompareRules: a looser rule never needs more planks where both are proven, and a variant that cannot be laid says
// why.
func TestCompareRules(t *testing.T) {
	all, err := solve.Compare(context.Background(), clashing(), nil)
	if err != nil {
		t.Fatal(err)
	}
	var refused *solve.InfeasibleError
	if all[0].Result != nil || !errors.As(all[0].Err, &refused) || refused.Rule == "" {
		t.Errorf("the job as it is: %v", all[0].Err)
	}
	for seed := range uint64(3) {
		job := oracle.SmallRoom(rand.New(rand.NewPCG(seed, 30)))
		all, err := solve.Compare(context.Background(), job, nil)
		if err != nil {
			t.Fatal(err)
		}
		base := all[0].Result
		for _, v := range all {
			if v.Result == nil || base == nil || !v.Result.Plan.Bound.PlanksProven || !base.Plan.Bound.PlanksProven {
				continue
			}
			more := v.Result.Plan.Order.Planks - base.Plan.Order.Planks
			looser := v.Job.Rules.Stagger < job.Rules.Stagger || v.Job.Rules.MinPiece < job.Rules.MinPiece
			tighter := v.Job.Rules.Stagger > job.Rules.Stagger || v.Job.Rules.MinPiece > job.Rules.MinPiece
			if looser && more > 0 || tighter && more < 0 {
				t.Errorf("seed %d: %s changes the planks by %d", seed, v.Aspect, more)
			}
		}
	}
}

// A comparison that is interrupted returns what was planned so far, each variant whole or with the error of the
// context.
func TestCompareInterrupted(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	job := oracle.SmallRoom(rand.New(rand.NewPCG(1, 29)))
	stop()
	all, err := solve.Compare(ctx, job, nil)
	if !errors.Is(err, context.Canceled) || len(all) < 10 {
		t.Fatalf("%d variants, error %v", len(all), err)
	}
	for _, v := range all {
		if v.Result == nil && v.Err == nil || v.Result != nil && v.Result.Status == solve.StatusCancelled ||
			v.Best && v.Result == nil {
			t.Errorf("%q: result %v, error %v, best %v", v.Aspect, v.Result != nil, v.Err, v.Best)
		}
	}
}

func TestProductsAreChecked(t *testing.T) {
	job := clashing()
	job.Products = []cutopt.Product{{Plank: cutopt.Plank{Length: 40 * measure.Inch}, Box: cutopt.Box{Planks: -1}}}
	_, err := solve.Compare(context.Background(), job, nil)
	for _, want := range []string{"products[1].plank.width", "products[1].box.planks"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not in %v", want, err)
		}
	}
}
