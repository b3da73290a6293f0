package solve_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// A run so short that walls may be out by more than it is long leaves offcuts that would be longer than a plank, were
// both reckoned alike: no starter is laid as such an offcut comes.
func TestStarterBehindAShortPiece(t *testing.T) {
	const mm = measure.Millimetre
	job := metric(1220*mm, 131*mm, cutopt.Room{
		Name: "Kitchen",
		Outline: []cutopt.Point{
			{Y: 35 * mm}, {X: 2736 * mm, Y: -25 * mm}, {X: 2702 * mm, Y: 1521 * mm}, {X: -6 * mm, Y: 1536 * mm},
		},
		Islands: []cutopt.Island{{Outline: []cutopt.Point{
			{X: 2059 * mm}, {X: 2517 * mm}, {X: 2517 * mm, Y: 99 * mm / 2}, {X: 2059 * mm, Y: 53 * mm},
		}}},
		Rows: cutopt.RowRules{Direction: cutopt.DirectionAcross},
	})
	job.Rules = cutopt.DefaultRules(measure.UnitMillimetre)
	if _, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick}); err != nil {
		t.Error(err)
	}
}
