package walk_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// slanted draws a floor whose rows grow and shift from one to the next.
func slanted(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(
			100 + r.IntN(100),
		), Kerf: measure.Length(r.IntN(3)), MinPiece: 16, Stagger: measure.Length(10 + r.IntN(12)),
		Grid: 1,
	}
	w, from, grow := measure.Length(250+r.IntN(300)), measure.Length(0), measure.Length(r.IntN(9)-3)
	for i := range 10 + r.IntN(20) {
		in.Runs = append(in.Runs, rows.Run{From: from, Length: w})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
		w, from = w+grow, from-measure.Length(r.IntN(4))
	}
	return in
}

// TestLay lays slanted floors: every layout keeps the rules, and nearly all take no more planks than their material and
// one, which a narrow beam needs.
func TestLay(t *testing.T) {
	laid, near := 0, 0
	for seed := range uint64(100) {
		r := rand.New(rand.NewPCG(seed, 48))
		in := slanted(r)
		layout, ok := walk.Lay(starters.New(in), 20, r, func() bool { return false })
		if !ok {
			continue
		}
		laid++
		if err := in.Check(layout); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		material := measure.Length(0)
		for _, run := range in.Runs {
			material += run.Length + in.Kerf
		}
		if in.Count(layout, nil) <= int((material+in.Plank-1)/in.Plank)+1 {
			near++
		}
	}
	t.Logf("%d of 100 floors are laid, %d of them with at most one plank more than material", laid, near)
	if laid < 95 || near < 90 {
		t.Errorf("only %d of 100 floors are laid, %d of them with at most one plank more than material", laid, near)
	}
}

// TestLayStops holds that a walk that is told to stop lays nothing.
func TestLayStops(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 48))
	if _, ok := walk.Lay(starters.New(slanted(r)), 20, r, func() bool { return true }); ok {
		t.Error("a layout after stop")
	}
}

func BenchmarkLay(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 48))
	t := starters.New(slanted(r))
	for b.Loop() {
		walk.Lay(t, 40, r, func() bool { return false })
	}
}
