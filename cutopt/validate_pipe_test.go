package cutopt_test

import (
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

func TestValidateRefusesPipes(t *testing.T) {
	at := func(x, y, diameter measure.Length) cutopt.Pipe {
		return cutopt.Pipe{At: cutopt.Point{X: x * inch, Y: y * inch}, Diameter: diameter * inch}
	}
	tight := at(40, 40, 2)
	tight.Gap = -2
	for _, row := range []struct {
		name        string
		pipes       []cutopt.Pipe
		island      bool // one stands from 10 to 30 in both ways
		field, says string
	}{
		{"in a wall", []cutopt.Pipe{at(100, 40, 2)}, false, "rooms[1].pipes[1].at", "outside near"},
		{"beyond the room", []cutopt.Pipe{at(140, 40, 2)}, false, "rooms[1].pipes[1].at", "outside near"},
		{"of no width", []cutopt.Pipe{at(40, 40, 0)}, false, "rooms[1].pipes[1].diameter", "at least 1 mm"},
		{"far away", []cutopt.Pipe{at(10_000_000, 40, 2)}, false, "rooms[1].pipes[1].at[1]", "within 1 km"},
		{"of negative gap", []cutopt.Pipe{tight}, false, "rooms[1].pipes[1].gap", "at least 0"},
		{
			"two in one place",
			[]cutopt.Pipe{at(40, 40, 2), at(41, 40, 2)},
			false, "rooms[1].pipes[2].at",
			"over pipes[1]",
		},
		{"through an island", []cutopt.Pipe{at(30, 15, 2)}, true, "rooms[1].pipes[1].at", "over islands[1]"},
		{"at a wall and an island", []cutopt.Pipe{at(99, 40, 2), at(31, 15, 2)}, true, "", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			job := den()
			job.Rooms[0].Pipes = row.pipes
			if row.island {
				job.Rooms[0].Islands = []cutopt.Island{{Outline: rect(10, 10, 20, 20)}}
			}
			err := job.Validate()
			if row.field == "" {
				if err != nil {
					t.Error(err)
				}
				return
			}
			if got := fields(t, job); len(got) != 1 || got[0] != row.field || !strings.Contains(err.Error(), row.says) {
				t.Errorf("fields %v, error %v, want %s and %q", got, err, row.field, row.says)
			}
		})
	}
}
