package strips_test

import (
	"encoding/binary"
	"errors"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// Whatever the numbers, Lay returns a floor whose rows follow each other and whose runs lie apart, or an *Error.
func FuzzLay(f *testing.F) {
	f.Add([]byte("0000111122223333"), uint16(7), uint8(3), uint8(0))
	f.Add([]byte("\x00\x00\x00\x00\xff\x00\x00\x00\xff\x00\xff\x00\x00\x00\xff\x00"), uint16(50), uint8(9), uint8(2))
	f.Add([]byte("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQ"), uint16(999), uint8(40), uint8(255))
	f.Fuzz(func(t *testing.T, data []byte, width uint16, gap, flags uint8) {
		if len(data) > 200 {
			return
		}
		var points []measure.Point
		scale := []measure.Length{1, 3, 100, 8128}[flags&3]
		for ; len(data) >= 4; data = data[4:] {
			points = append(points, measure.Point{
				X: measure.Length(int16(binary.LittleEndian.Uint16(data))) * scale,
				Y: measure.Length(int16(binary.LittleEndian.Uint16(data[2:]))) * scale,
			})
		}
		n := len(points) * 2 / 3
		r := room(
			measure.Length(gap)*scale*10,
			points[:n],
			strips.Island{Outline: points[n:], Gap: measure.Length(gap)},
		)
		if flags&4 != 0 && n > 0 {
			r.Doorways = []strips.Doorway{
				{
					Wall:  int(width) % n,
					At:    5 * scale,
					Width: 100 * scale,
					Depth: measure.Length(gap) * scale,
					Into:  -1,
				},
			}
		}
		l := strips.Layout{
			Width: measure.Length(
				width,
			)*scale + 1, Grid: measure.Length(flags), Smooth: measure.Length(gap), Cover: measure.Length(flags) * 3,
			Direction: cutopt.Direction(
				flags >> 3 % 3,
			), Angle: float64(width), Start: cutopt.Start(flags >> 6 & 1),
		}
		l.Width = max(l.Width, 65536*2*scale/3000) // a few thousand rows at most
		floor, err := strips.Lay([]strips.Room{r}, &l)
		var bad *strips.Error
		if err != nil {
			if !errors.As(err, &bad) {
				t.Fatalf("error %T", err)
			}
			return
		}
		for i, row := range floor.Rows {
			if row.To <= row.From || row.To-row.From > l.Width || i > 0 && row.From != floor.Rows[i-1].To {
				t.Fatalf("row %d: %v", i, row)
			}
			for k, run := range row.Runs {
				if run.To <= run.From || k > 0 && run.From < row.Runs[k-1].To {
					t.Fatalf("row %d run %d: %v", i, k, run)
				}
				middle := (run.From + run.To) / 2
				_, whole := floor.Clip(i, k, run.From, run.To)
				corners, area := floor.Clip(i, k, run.From, middle)
				if area < 0 || whole <= 0 || whole > measure.Area(run.To-run.From)*measure.Area(row.To-row.From) {
					t.Fatalf("row %d run %d: area %d of %d", i, k, area, whole)
				}
				for _, p := range corners {
					if p.X < run.From || p.X > middle || p.Y < row.From || p.Y > row.To {
						t.Fatalf("row %d run %d: corner %v", i, k, p)
					}
				}
				floor.Shaping(i, k, run.From, middle)
			}
		}
	})
}
