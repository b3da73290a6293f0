//go:build unix

package solve_test

import (
	"fmt"
	"syscall"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// BenchmarkHall plans the largest floors, improved and recounted, or solves them as bare problems: planks above the
// bound, boxes that are not settled, CPU time, and the most memory that the process ever had. Run one at a time:
//
//	go test -run '^$' -bench Hall/rectangular -benchtime 1x ./cutopt/solve
func BenchmarkHall(b *testing.B) {
	const mm, m = measure.Millimetre, measure.Metre
	rectangular := metric(1220*mm, 90*mm, oblong("Hall", 60*m, 900*m))
	rectangular.Rooms[0].Rows.Direction = cutopt.DirectionAcross // 10,000 rows of 60 m
	slanted := metric(1220*mm, 180*mm, oblong("Hall", 60*m, 360*m))
	slanted.Rooms[0].Rows.Direction = cutopt.DirectionAcross // 2,000 rows
	slanted.Rooms[0].Outline[2].X += 9 * m
	columned := metric(1220*mm, 180*mm, oblong("Hall", 60*m, 90*m))
	columned.Rooms[0].Rows.Direction = cutopt.DirectionAcross // 500 rows, past 150 columns
	for x := 3 * m; x < 60*m; x += 6 * m {
		for y := 3 * m; y < 90*m; y += 6 * m {
			const side = 400 * mm
			columned.Rooms[0].Islands = append(columned.Rooms[0].Islands, cutopt.Island{
				Name:    fmt.Sprintf("Column %d, %d", x/m, y/m),
				Outline: []cutopt.Point{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}},
			})
		}
	}
	for _, hall := range []struct {
		name string
		plan func() (*cutopt.Bound, int, error)
	}{
		{"rectangular", func() (*cutopt.Bound, int, error) { return planned(b, rectangular) }},
		{"slanted", func() (*cutopt.Bound, int, error) { return planned(b, slanted) }},
		{"columned", func() (*cutopt.Bound, int, error) { return planned(b, columned) }},
		{"bare", func() (*cutopt.Bound, int, error) { return solved(b, oblongRows(100_000, 60*m)) }},
	} {
		b.Run(hall.name, func(b *testing.B) {
			var use syscall.Rusage
			unsettled := 0
			for b.Loop() {
				bound, planks, err := hall.plan()
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(planks-bound.Planks), "planks-open")
				if !bound.Settled {
					unsettled++
				}
			}
			if err := syscall.Getrusage(syscall.RUSAGE_SELF, &use); err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(float64(use.Maxrss)/1024, "MiB-most") // of kB, as Linux has it
			b.ReportMetric(float64(use.Utime.Nano()+use.Stime.Nano())/1e9/float64(b.N), "cpu-s/op")
			b.ReportMetric(float64(unsettled)/float64(b.N), "boxes-unsettled")
		})
	}
}

func planned(b *testing.B, job *cutopt.Job) (*cutopt.Bound, int, error) {
	result, err := solve.Job(b.Context(), job, nil)
	if err != nil {
		return nil, 0, err
	}
	return &result.Plan.Bound, result.Plan.Order.Fewest, nil
}

func solved(b *testing.B, in *rows.Instance) (*cutopt.Bound, int, error) {
	result, err := solve.Rows(b.Context(), in, nil)
	if err != nil {
		return nil, 0, err
	}
	return &result.Bound, len(result.Cutting.Planks), nil
}

// oblongRows is so many equal rows, one beside the other.
func oblongRows(n int, long measure.Length) *rows.Instance {
	const mm = measure.Millimetre
	in := &rows.Instance{
		Plank: 1220 * mm, Kerf: 3 * mm, MinPiece: 200 * mm, Stagger: 200 * mm, Grid: mm, Runs: make([]rows.Run, n),
	}
	for i := range in.Runs {
		in.Runs[i].Length = long
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	return in
}
