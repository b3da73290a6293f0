package solve_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// metric is a job of rooms in millimetres with planks of the given size, eight to a box.
func metric(length, width measure.Length, rooms ...cutopt.Room) *cutopt.Job {
	return &cutopt.Job{
		Unit: measure.UnitMillimetre, Plank: cutopt.Plank{Length: length, Width: width}, Box: cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitMillimetre), Rooms: rooms,
	}
}

func oblong(name string, long, wide measure.Length) cutopt.Room {
	return cutopt.Room{Name: name, Outline: []cutopt.Point{{}, {X: long}, {X: long, Y: wide}, {Y: wide}}}
}

// Jobs that would take more than MaxPieces are refused before any of it is stored, by the number and where to look.
func TestTooLarge(t *testing.T) {
	const mm, m = measure.Millimetre, measure.Metre
	var many []cutopt.Room
	for i := range 45_000 {
		many = append(many, oblong(fmt.Sprint(i+1), 3*m, 3*m))
	}
	for _, row := range []struct {
		name  string
		job   *cutopt.Job
		field string
	}{
		{"54 million planks of 300 x 50 mm", metric(300*mm, 50*mm, oblong("Hall", 900*m, 900*m)), "rooms[1]"},
		{"rows of 1/10 mm", metric(1200*mm, mm/10, oblong("Hall", 900*m, 900*m)), "rooms[1]"},
		{"45,000 rooms of 17 rows with three pieces each", metric(1200*mm, 180*mm, many...), "rooms[39216]"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := solve.Instance(row.job)
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
		round.Outline = append(round.Outline, cutopt.Point{X: measure.Length(1_600_000 * cos), Y: measure.Length(1_600_000 * sin)})
	}
	job := metric(1200*measure.Millimetre, 180*measure.Millimetre, round)
	if _, err := solve.Job(t.Context(), job, &solve.Options{Limit: 1}); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("error %v", err)
	}
}
