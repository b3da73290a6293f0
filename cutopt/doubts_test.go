package cutopt_test

import (
	"fmt"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

func TestDoubts(t *testing.T) {
	const in, ft = measure.Inch, measure.Foot
	room := func(x, y measure.Length) []cutopt.Room {
		return []cutopt.Room{{Outline: []cutopt.Point{{}, {X: x}, {X: x, Y: y}, {Y: y}}}}
	}
	for _, tt := range []struct {
		job  cutopt.Job
		want []string // fields
	}{
		{cutopt.Job{Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Rooms: room(174*in, 131*in)}, nil},
		{cutopt.Job{Plank: cutopt.Plank{Length: 12 * in, Width: 12 * in}, Rooms: room(ft, ft)}, nil}, // as far as it goes
		// 14 x 11, in inches where feet were meant.
		{
			cutopt.Job{Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Rooms: room(14*in, 11*in)},
			[]string{"rooms[1].corners"},
		},
		// 48 x 7, in feet where inches were meant.
		{
			cutopt.Job{Plank: cutopt.Plank{Length: 48 * ft, Width: 7 * ft}, Rooms: room(14*ft, 11*ft)},
			[]string{"plank.length"},
		},
		{cutopt.Job{Plank: cutopt.Plank{Length: 7 * in, Width: 48 * in}, Rooms: room(14*ft, 11*ft)}, []string{"plank.width"}},
		// 8 and 3, in inches where millimetres were meant; and both as far as they go.
		{
			cutopt.Job{
				Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Rooms: room(14*ft, 11*ft),
				Rules: cutopt.Rules{Gap: 8 * in, Kerf: 3 * in},
			},
			[]string{"rules.gap", "rules.kerf"},
		},
		{
			cutopt.Job{
				Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Rooms: room(14*ft, 11*ft),
				Rules: cutopt.Rules{Gap: 2 * in, Kerf: in / 2},
			},
			nil,
		},
		{
			cutopt.Job{
				Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Rooms: room(14*ft, 11*ft),
				Products: []cutopt.Product{{Plank: cutopt.Plank{Length: 7 * in, Width: 48 * in}}},
			},
			[]string{"products[1].plank.width"},
		},
	} {
		var got []string
		for _, d := range tt.job.Doubts() {
			got = append(got, d.Field)
			if d.Value == "" || d.Rule == "" || d.Hint() == "" {
				t.Errorf("%v says too little", d)
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(tt.want) {
			t.Errorf("%+v: doubts about %v, want %v", tt.job, got, tt.want)
		}
	}
}
