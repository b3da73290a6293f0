package risk_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/risk"
	"plank.example/cutopt/solve"
)

// closet is a room of 120 x 56 in, 46.67 sq ft, whose floor after gaps of 1/4 in is 119.5 x 55.5 in: 46.06 sq ft. A
// plank of 48 x 7 in has 2.333 sq ft, a box eight.
func closet(t *testing.T) (*cutopt.Job, *cutopt.Plan) {
	t.Helper()
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: oracle.Rules(measure.UnitInch), Rooms: []cutopt.Room{{Outline: cutopt.Rectangle(120*in, 56*in)}},
	}
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	return job, result.Plan
}

// TestAccountOf: of four boxes, 32 planks of 74.67 sq ft, 8 are left and 24 opened, 56 sq ft, of which 3 were lost. By
// hand 74.67/46.67 = 1.6, 28/74.67 = 37.5 %, (56 - 46.056)/56 = 17.76 %, 3/24 = 12.5 %. The interval of 3 of 24, 2.7 to
// 32.4 %, is the one of tables of exact binomial limits.
func TestAccountOf(t *testing.T) {
	job, plan := closet(t)
	a, err := risk.AccountOf(job, plan, risk.Used{Boxes: 4, Lost: 3, Left: 8})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"opened", float64(a.Opened), 24},
		{"added to the floor", a.AddedToFloor, 60},
		{"share of the purchase", a.ShareOfPurchase, 37.5},
		{"afterwards", a.Afterwards, 17.76},
		{"loss", a.Loss, 12.5},
		{"loss at least", a.LossLow, 2.66},
		{"loss at most", a.LossHigh, 32.36},
	} {
		if math.Abs(c.got-c.want) > 0.01 {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	// What was lost is what the next job may assume.
	job.Rules.Loss = a.Loss
	if err := job.Validate(); err != nil {
		t.Errorf("the loss is none for the next job: %v", err)
	}
}

func TestAccountOfRefuses(t *testing.T) {
	job, plan := closet(t)
	for _, c := range []struct {
		used  risk.Used
		field string
	}{
		{risk.Used{Lost: 1}, "bought"},
		{risk.Used{Boxes: -1}, "bought"},
		{risk.Used{Boxes: math.MaxInt}, "bought"},
		{risk.Used{Boxes: 4, Left: 33}, "left"},
		{risk.Used{Boxes: 4, Left: -1}, "left"},
		{risk.Used{Boxes: 4, Left: 13}, "left"}, // 19 planks are 44.33 sq ft
		{risk.Used{Boxes: 4, Lost: 25, Left: 8}, "lost"},
		{risk.Used{Boxes: 4, Lost: 13, Left: 8}, "lost"}, // more than half
		{risk.Used{Boxes: 4, Lost: -1, Left: 8}, "lost"},
	} {
		_, err := risk.AccountOf(job, plan, c.used)
		var field *cutopt.FieldError
		if !errors.As(err, &field) || field.Field != c.field || field.Rule == "" || field.Value == "" {
			t.Errorf("%+v: %v, want the field %s", c.used, err, c.field)
		}
	}
	if _, err := risk.AccountOf(job, nil, risk.Used{Boxes: 4}); err == nil {
		t.Error("no plan is taken")
	}
	job.Plank.Length = 0
	if _, err := risk.AccountOf(job, plan, risk.Used{Boxes: 4}); err == nil {
		t.Error("a job out of order is taken")
	}
}
