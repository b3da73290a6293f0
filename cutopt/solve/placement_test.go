package solve_test

import (
	"errors"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestOtherFirstRow plans two published rooms, an office and a corridor of the honeybee schema's lab building, whose
// rows cannot be laid with the first row that suits the walls best: the office has another, the corridor only another
// direction, which the error names, and the job then has a plan. With planks of 36 x 6 in, no piece below 14 in and a
// stagger of 8 in a row of 57 in has few joints.
func TestOtherFirstRow(t *testing.T) {
	office := realRoom{Outer: [][2]float64{
		{-62.7807, 110.9685}, {-59.404, 112.2444}, {-60.3941, 115.6335}, {-63.8388, 114.5464}, {-62.7807, 110.9685},
	}}
	corridor := realRoom{Outer: [][2]float64{
		{
			-66.1827,
			-1.6796,
		}, {-66.6126, -3.9694}, {-62.7549, -5.2107}, {-58.8491, -6.5646}, {-58.2655, -4.2272}, {-66.1827, -1.6796},
	}}
	of := func(room realRoom, lie cutopt.RowRules) *cutopt.Job {
		job := realJob(room, [2]measure.Length{36 * measure.Inch, 6 * measure.Inch})
		job.Rules.MinPiece, job.Rules.Fit, job.Rules.Loss = 14*measure.Inch, measure.Inch/8, 0
		job.Rooms[0].Rows = lie
		return job
	}
	for _, c := range []struct {
		reason string
		job    *cutopt.Job
		hint   string // kind of what would do, "" where it is planned
	}{
		{"another first row, which the job leaves open", of(office, cutopt.RowRules{}), ""},
		{
			"the first row that was asked for cannot be laid", of(office,
				cutopt.RowRules{FirstRow: 75 * measure.Sixteenth}),
			"lies-with",
		},
		{"no first row along, but one across", of(corridor, cutopt.RowRules{}), "lies-turned"},
	} {
		job := c.job
		result, err := solve.Job(t.Context(), job, nil)
		if c.hint != "" {
			var no *solve.InfeasibleError
			if !errors.As(err, &no) || no.Instead == nil || len(no.Mend) != 1 || no.Mend[0].Kind != c.hint ||
				!strings.Contains(err.Error(), no.Hint()) {
				t.Errorf("%s: %v", c.reason, err)
				continue
			}
			job.Rooms[0].Rows = *no.Instead
			result, err = solve.Job(t.Context(), job, nil)
		}
		if err != nil {
			t.Errorf("%s: %v", c.reason, err)
			continue
		}
		if broken := check.Plan(job, result.Plan); broken != nil {
			t.Errorf("%s: %v", c.reason, broken)
		}
	}
}

// TestFiguresOfRules prints what a rule says as it is, on the grid or not: 914.4 mm are 36 in, and a grid of 1 mm
// leaves them so.
func TestFiguresOfRules(t *testing.T) {
	job := metric(36*measure.Inch, 6*measure.Inch, oblong("Hall", 3000*measure.Millimetre, 2000*measure.Millimetre))
	job.Unit, job.Rules.Grid = measure.UnitInch, measure.Millimetre
	job.Rules.Stagger, job.Rules.MinPiece = 20*measure.Inch, 12*measure.Inch
	_, err := solve.Job(t.Context(), job, nil)
	if err == nil || !strings.Contains(err.Error(), "plank 36 in") || !strings.Contains(err.Error(), "stagger 20 in") {
		t.Errorf("error %v", err)
	}
}
