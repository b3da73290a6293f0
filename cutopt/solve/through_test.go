package solve_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// joinedRooms returns two or three rooms that doorways join into one floor, drawn in one drawing: beside each other,
// behind each other or askew, walls of every thickness, doorways anywhere and at corners, also where they meet no wall.
func joinedRooms(r *rand.Rand) *cutopt.Job {
	const in = measure.Inch
	job := clashing()
	job.Rules = oracle.Rules(measure.UnitInch)
	job.Rules.MaxAlong, job.Rules.MaxAcross = 0, 0
	long := func(low, high int) measure.Length { return measure.Length(low+r.IntN(high-low+1)) * in / 4 }
	point := func(x, y measure.Length) cutopt.Point { return cutopt.Point{X: x, Y: y} }
	w, h, thick := long(160, 520), long(160, 520), long(0, 40)
	skew := measure.Length(0)
	if r.IntN(3) == 0 {
		skew = long(0, 60)
	}
	a := cutopt.Room{Name: "A", Outline: []cutopt.Point{{}, point(w, 0), point(w, h), point(0, h+skew)}}
	b := cutopt.Room{Name: "B", Outline: []cutopt.Point{
		point(long(0, 80), h+thick+skew), point(w, h+thick), point(w, h+thick+long(200, 400)),
		point(0, h+thick+long(300, 400)),
	}}
	door := long(100, 160)
	wide := int(max(0, (w-door)*4/in-160))
	at := long(0, 1+wide)
	casing := cutopt.Casing(r.IntN(2))
	a.Doorways = []cutopt.Doorway{{Wall: 2, At: at, Width: door, Depth: thick, Casing: casing, To: "B", Through: true}}
	job.Rooms = []cutopt.Room{a, b}
	if r.IntN(2) == 0 {
		c := cutopt.Room{Name: "C", Outline: []cutopt.Point{
			point(w+thick, 0), point(w+thick+long(160, 400), 0), point(w+thick+long(160, 400), h), point(w+thick, h),
		}}
		job.Rooms[0].Doorways = append(job.Rooms[0].Doorways, cutopt.Doorway{
			Wall: 1, At: long(0, 1+int(max(0, (h-door)*4/in))), Width: door, Depth: thick, To: "C", Through: true,
		})
		job.Rooms = append(job.Rooms, c)
	}
	if r.IntN(4) == 0 { // the whole drawing turned
		sin, cos := math.Sincos(r.Float64() * 2 * math.Pi)
		for i := range job.Rooms {
			for k, p := range job.Rooms[i].Outline {
				x, y := float64(p.X), float64(p.Y)
				job.Rooms[i].Outline[k] = point(measure.Length(x*cos-y*sin), measure.Length(x*sin+y*cos))
			}
		}
	}
	rows := &job.Rooms[0].Rows
	switch r.IntN(4) {
	case 0:
		rows.Direction = cutopt.DirectionAcross
	case 1:
		rows.Direction, rows.Angle = cutopt.DirectionAngle, []float64{45, 30, 200}[r.IntN(3)]
	}
	rows.Start = cutopt.Start(r.IntN(2))
	if r.IntN(2) == 0 {
		rows.FirstRow = long(4, int(job.Plank.Width*4/in))
	}
	return job
}

// TestThroughRooms: one floor through random rooms is refused with a field, or planned so that Check finds nothing, and
// no piece lies on both sides of a wall.
func TestThroughRooms(t *testing.T) {
	planned, lanes := 0, 0
	n := uint64(oracle.Samples(12))
	for seed := range n {
		r := rand.New(rand.NewPCG(seed, 77))
		job := joinedRooms(r)
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		var field *cutopt.FieldError
		switch {
		case errors.As(err, &field), errors.Is(err, solve.ErrNoPlan):
			continue
		case err != nil:
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		planned++
		if v := check.Plan(job, result.Plan); v != nil {
			t.Errorf("seed %d: %v", seed, v)
		}
		for _, kind := range []cutopt.FactKind{cutopt.FactThrough, cutopt.FactRoomRows} {
			q := oracle.Clone(t, result.Plan)
			f := &q.Floors[0]
			f.Facts = slices.DeleteFunc(f.Facts, func(f cutopt.Fact) bool { return f.Kind == kind })
			if check.Plan(job, q) == nil {
				t.Errorf("seed %d: nothing is told of %v, and nothing was found", seed, kind)
			}
		}
		if beside(result.Plan) {
			lanes++
		}
	}
	t.Logf("%d of %d planned, %d with a row on both sides of a wall", planned, n, lanes)
	if uint64(planned) < n/2 || lanes == 0 && n >= 12 {
		t.Errorf("%d of %d were planned, %d with a wall in a row", planned, n, lanes)
	}
}

// beside reports whether runs of a row lie beside each other across the row: on both sides of a wall.
func beside(plan *cutopt.Plan) bool {
	for i := range plan.Floors[0].Rows {
		runs := plan.Floors[0].Rows[i].Runs
		for k := 1; k < len(runs); k++ {
			if runs[k].From < runs[k-1].To {
				return true
			}
		}
	}
	return false
}
