package solve_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"
	"time"

	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/solve"
)

// TestContinueStopped: a call that is stopped gives a plan that passes Check, or says that it was stopped; never half a
// plan.
func TestContinueStopped(t *testing.T) {
	job, marked := afloat(t, rand.New(rand.NewPCG(3, 97)), oracle.AnyRooms)
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	var stopped *solve.StoppedError
	if _, err := solve.Continue(gone, job, marked, nil); !errors.As(err, &stopped) || !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled before it begins: %v", err)
	}
	for limit := time.Microsecond; limit < time.Second/4; limit *= 8 {
		got, err := solve.Continue(t.Context(), job, marked, &solve.Options{Limit: limit, Fewest: solve.FewestPlanks})
		switch {
		case err != nil && !errors.As(err, &stopped):
			t.Errorf("%v: %v", limit, err)
		case err == nil:
			if broken := check.Plan(job, got.Plan); len(broken) > 0 {
				t.Errorf("%v: %v", limit, broken)
			}
		}
	}
}
