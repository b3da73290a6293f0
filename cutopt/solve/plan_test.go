package solve_test

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"plank.example/cutopt/check"
	"plank.example/cutopt/solve"
)

// TestSolvedPlans plans random rooms. Each plan passes Check, comes back from its file the same, and matches the
// schema; with any one thing changed it does not pass.
func TestSolvedPlans(t *testing.T) {
	jobs := oracle.Samples(12)
	schema := oracle.PlanSchema(t)
	planned := 0
	for seed := range uint64(jobs) {
		r := rand.New(rand.NewPCG(seed, 4))
		job := oracle.AnyRooms(r)
		if r.IntN(3) == 0 {
			oracle.AddPost(job, r)
		}
		if err := job.Validate(); err != nil {
			t.Fatalf("seed %d: the test's own job is out of order: %v", seed, err)
		}
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if errors.Is(err, solve.ErrNoPlan) {
			continue
		}
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		planned++
		if v := check.Plan(job, result.Plan); v != nil {
			t.Errorf("seed %d: Solve returned a plan that breaks %v", seed, v)
			continue
		}
		data := oracle.Encode(t, result.Plan)
		q := oracle.Clone(t, result.Plan)
		if diff := cmp.Diff(result.Plan, q, cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("seed %d: the plan comes back changed: %s", seed, diff)
		}
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(v); err != nil {
			t.Errorf("seed %d: the file does not match the schema: %v", seed, err)
		}
		for range 4 {
			q := oracle.Clone(t, result.Plan)
			if what := oracle.Spoil(q, r); check.Plan(job, q) == nil {
				t.Errorf("seed %d: %s, and nothing was found", seed, what)
			}
		}
	}
	if planned < jobs/2 {
		t.Errorf("only %d of %d jobs were planned", planned, jobs)
	}
}
