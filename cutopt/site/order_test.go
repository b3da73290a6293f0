package site_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// TestApplyAbsurdOrder: an order of more planks than any job is refused, not listed plank by plank.
func TestApplyAbsurdOrder(t *testing.T) {
	job := oracle.SmallRoom(rand.New(rand.NewPCG(1, 96)))
	r, err := solve.Job(t.Context(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	state := &site.State{Events: []site.Event{{Kind: site.KindBoxes, Count: 3, Text: "boxes 3"}}}
	for _, c := range [][2]int{{r.Plan.Order.Boxes, math.MaxInt}, {math.MaxInt, 8}, {-1, 8}, {1 << 20, 1 << 20}} {
		plan := r.Plan.Clone()
		plan.Order.Boxes, plan.Order.PlanksPerBox = c[0], c[1]
		if _, _, _, err := site.Apply(job, plan, state); err == nil || !strings.Contains(err.Error(), "the plan buys") {
			t.Errorf("%d boxes of %d planks: %v", c[0], c[1], err)
		}
	}
}
