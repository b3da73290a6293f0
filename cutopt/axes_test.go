package cutopt_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// TestAxesFinite: axes that turn or begin beyond all rooms place a point nowhere, and no number is in their place.
func TestAxesFinite(t *testing.T) {
	const far = 4 * cutopt.MaxLength
	for _, c := range []struct {
		axes cutopt.Axes
		want bool
	}{
		{cutopt.Axes{}, true},
		{cutopt.Axes{Turn: -360, Origin: cutopt.Point{X: far, Y: -far}}, true},
		{cutopt.Axes{Turn: 360.1}, false},
		{cutopt.Axes{Turn: math.NaN()}, false},
		{cutopt.Axes{Turn: math.Inf(-1)}, false},
		{cutopt.Axes{Origin: cutopt.Point{X: far + 1}}, false},
		{cutopt.Axes{Origin: cutopt.Point{Y: -far - 1}}, false},
	} {
		if got := c.axes.Finite(); got != c.want {
			t.Errorf("%+v: finite is %v, want %v", c.axes, got, c.want)
		}
	}
}

func TestAxes(t *testing.T) {
	p := cutopt.Point{X: 7, Y: 3}
	for _, c := range []struct {
		axes cutopt.Axes
		x, y float64
	}{
		{cutopt.Axes{}, 7, 3},
		{cutopt.Axes{Mirrored: true}, 7, -3},
		{cutopt.Axes{Turn: 90}, 3, -7}, // turned back by 90 degrees: y becomes x
		{cutopt.Axes{Turn: 180}, -7, -3},
		{cutopt.Axes{Turn: -90}, -3, 7},
		{cutopt.Axes{Turn: 450}, 3, -7},
		{cutopt.Axes{Turn: 270, Origin: cutopt.Point{X: 1, Y: 1}, Mirrored: true}, -2, -6},
	} {
		x, y := c.axes.FromDrawing(p)
		if x != c.x || y != c.y {
			t.Errorf("%+v places %v at %v, %v, want %v, %v exactly", c.axes, p, x, y, c.x, c.y)
		}
		if back := c.axes.ToDrawing(cutopt.Point{X: measure.Length(x), Y: measure.Length(y)}); back != p || !c.axes.Square() {
			t.Errorf("%+v places it back at %v", c.axes, back)
		}
	}
	x, y := cutopt.Axes{Turn: 45}.FromDrawing(cutopt.Point{X: 1000 * measure.Metre, Y: -1000 * measure.Metre})
	if want := math.Sqrt2 * float64(1000*measure.Metre); math.Abs(x) > 1e-6 || math.Abs(y+want) > 1e-6 {
		t.Errorf("a kilometre away, turned by 45 degrees: %v, %v, want 0, %v", x, y, -want)
	}
	const seed = 1
	r := rand.New(rand.NewPCG(seed, 0))
	for range 1000 {
		length := func() measure.Length { return measure.Length(r.Int64N(1e9) - 5e8) }
		a := cutopt.Axes{Origin: cutopt.Point{X: length(), Y: length()}, Turn: r.Float64() * 360, Mirrored: r.IntN(2) == 0}
		p := cutopt.Point{X: length(), Y: length()}
		x, y := a.FromDrawing(p)
		back := a.ToDrawing(cutopt.Point{X: measure.Length(math.Round(x)), Y: measure.Length(math.Round(y))})
		if d := max(back.X-p.X, p.X-back.X, back.Y-p.Y, p.Y-back.Y); d > 1 || a.Square() {
			t.Errorf("seed %d: %+v places %v and back at %v", seed, a, p, back)
		}
	}
}

func TestPlanPiece(t *testing.T) {
	plan := &cutopt.Plan{
		Floors: []cutopt.PlanFloor{
			{},
			{Rows: []cutopt.PlanRow{{}, {Runs: []cutopt.PlanRun{{}, {Pieces: make([]cutopt.Piece, 2)}}}}},
		},
	}
	if p := plan.Piece(cutopt.PieceRef{
		Floor: 1, Row: 1, Run: 1,
		Piece: 1,
	}); p != &plan.Floors[1].Rows[1].Runs[1].Pieces[1] {
		t.Error("another piece is found")
	}
	for _, ref := range []cutopt.PieceRef{
		{},
		{Floor: 2},
		{Floor: -1},
		{Floor: 1, Row: 2},
		{Floor: 1, Row: -1},
		{Floor: 1, Row: 1, Run: 2},
		{Floor: 1, Row: 1, Run: -1},
		{Floor: 1, Row: 1, Run: 1, Piece: 2},
		{Floor: 1, Row: 1, Run: 1, Piece: -1},
	} {
		if plan.Piece(ref) != nil {
			t.Errorf("%+v is a piece", ref)
		}
	}
}
