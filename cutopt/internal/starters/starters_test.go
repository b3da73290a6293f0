package starters_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// admits tells by listing every joint whether a run may be laid with starter s in two pieces or more.
func admits(in *rows.Instance, run *rows.Run, s measure.Length) bool {
	if run.Starter > 0 {
		return s == run.Starter
	}
	if s < max(in.MinPiece, 1) || s > in.Plank || s < in.Plank && s%in.Grid != 0 {
		return false
	}
	joints := []measure.Length{s}
	for joints[len(joints)-1]+in.Plank < run.Length {
		joints = append(joints, joints[len(joints)-1]+in.Plank)
	}
	if ender := run.Length - joints[len(joints)-1]; ender <= 0 || ender < max(in.MinPiece, in.MinEnder) {
		return false
	}
	for _, j := range joints {
		for _, x := range run.Beside {
			if d := run.From + j - x; max(d, -d) < in.Stagger {
				return false
			}
		}
	}
	return true
}

// TestSegments holds the segments of every run, and Lay, against a list of its joints for each starter there is.
func TestSegments(t *testing.T) {
	admitted := 0
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 7))
		in := &rows.Instance{
			Plank: measure.Length(10 + r.IntN(30)), MinPiece: measure.Length(r.IntN(6)), Stagger: measure.Length(r.IntN(9)),
			Grid: measure.Length(1 + r.IntN(3)), MinEnder: measure.Length(r.IntN(8)),
		}
		for range 1 + r.IntN(4) {
			run := rows.Run{From: measure.Length(r.IntN(9) - 4), Length: measure.Length(1 + r.IntN(4*int(in.Plank)))}
			for range r.IntN(4) {
				run.Beside = append(run.Beside, measure.Length(r.IntN(5*int(in.Plank))-4))
			}
			in.Runs = append(in.Runs, run)
		}
		if seed%2 == 1 {
			oracle.Begin(r, in)
		}
		if err := in.Validate(); err != nil {
			t.Fatal(err)
		}
		table := starters.New(in)
		for i := range in.Runs {
			for s := measure.Length(1); s <= in.Plank; s++ {
				want := admits(in, &in.Runs[i], s)
				inside := 0
				for _, seg := range table.Of(i).Segments {
					if seg.Lo <= s && s <= seg.Hi && (s-seg.Lo)%in.Grid == 0 {
						inside++
					}
				}
				if _, lay := in.Lay(i, s); inside > 1 || (inside == 1) != want || lay != want {
					t.Fatalf("seed %d, run %d %+v, starter %d: in %d segments, Lay says %v, its joints say %v",
						seed, i, in.Runs[i], s, inside, lay, want)
				}
				if want {
					admitted++
				}
			}
		}
	}
	if admitted < 10_000 {
		t.Errorf("only %d starters were admitted", admitted)
	}
}
