package solve_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// metric is a job of rooms in millimetres with planks of the given size, eight to a box.
func metric(length, width measure.Length, rooms ...cutopt.Room) *cutopt.Job {
	return &cutopt.Job{
		Unit: measure.UnitMillimetre, Plank: cutopt.Plank{Length: length, Width: width}, Box: cutopt.Box{Planks: 8},
		Rules: oracle.Rules(measure.UnitMillimetre), Rooms: rooms,
	}
}

func oblong(name string, long, wide measure.Length) cutopt.Room {
	return cutopt.Room{Name: name, Outline: []cutopt.Point{{}, {X: long}, {X: long, Y: wide}, {Y: wide}}}
}

func graded(job *cutopt.Job, grid measure.Length) *cutopt.Job {
	job.Rules.Grid = grid
	return job
}

// anyStrip lets strips be as narrow as they are.
func anyStrip(job *cutopt.Job) *cutopt.Job {
	job.Rules.MinStrip = 0
	return job
}

// Jobs that would take more than MaxPieces are refused before any of it is stored, by the number and where to look.
func TestTooLarge(t *testing.T) {
	const mm, m = measure.Millimetre, measure.Metre
	var many []cutopt.Room
	for i := range 60_000 {
		many = append(many, oblong(fmt.Sprint(i+1), 3*m, 3*m))
	}
	var long []cutopt.Room // 30 planks and a little: the area alone is not too much, and few rows are laid
	for i := range 323 {
		long = append(long, oblong(fmt.Sprint(i+1), 36_060*mm, 36*m))
	}
	for _, row := range []struct {
		name  string
		job   *cutopt.Job
		field string
	}{
		{"54 million planks of 300 x 50 mm", metric(300*mm, 50*mm, oblong("Hall", 900*m, 900*m)), "rooms"},
		{"rows of 1/10 mm", anyStrip(metric(1200*mm, mm/10, oblong("Hall", 900*m, 900*m))), "rooms"},
		{"a hundred million graduations", graded(metric(1000*m, 180*mm, oblong("Hall", 900*m, 900*m)), mm/100), "rules.grid"},
		{"60,000 rooms of 3 x 3 m", metric(1220*mm, 180*mm, many...), "rooms"},
		{"323 rooms of 200 rows with 31 pieces each", metric(1200*mm, 180*mm, long...), "rooms[323]"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := solve.Job(t.Context(), row.job, nil)
			var field *cutopt.FieldError
			if !errors.Is(err, cutopt.ErrTooLarge) || !errors.As(err, &field) || field.Field != row.field {
				t.Errorf("error %v", err)
			}
		})
	}
}

// A limit that passes while the rows are laid out ends that.
func TestLimitDuringLayout(t *testing.T) {
	var round cutopt.Room
	for i := range 40_000 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 40_000)
		round.Outline = append(
			round.Outline,
			cutopt.Point{X: measure.Length(1_600_000 * cos), Y: measure.Length(1_600_000 * sin)},
		)
	}
	job := metric(1200*measure.Millimetre, 180*measure.Millimetre, round)
	if _, err := solve.Job(t.Context(), job, &solve.Options{Limit: 1}); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("error %v", err)
	}
}

// A floor that takes longer to write down than the limit is not begun: 508 m square makes 1.2 million pieces.
func TestLimitTooShort(t *testing.T) {
	const mm, m = measure.Millimetre, measure.Metre
	job := metric(1220*mm, 180*mm, oblong("Hall", 508*m, 508*m))
	e, err := solve.EstimateOf(job)
	if err != nil || e.Planks < 1_170_000 || e.Planks > 1_180_000 || e.Rows != 2823 || e.Pieces < e.Planks+e.Rows {
		t.Errorf("estimated %+v, %v", e, err)
	}
	last := solve.PhaseFloor
	_, err = solve.Job(
		t.Context(),
		job,
		&solve.Options{Limit: time.Second, Progress: func(p solve.Progress) { last = p.Phase }},
	)
	var stopped *solve.StoppedError
	if !errors.As(err, &stopped) || last != solve.PhaseFloor {
		t.Errorf("in phase %v: %v", last, err)
	}
}
