package search

import (
	"math"
	"testing"
)

// TestDecay holds decay against math.Exp.
func TestDecay(t *testing.T) {
	for x := 0.0; x < 720; x += 0.0137 {
		got, want := decay(x), math.Exp(-x)
		if math.Abs(got-want) > 1e-14*want && want > 1e-300 {
			t.Fatalf("decay(%v) = %v, want %v", x, got, want)
		}
	}
	if decay(0) != 1 || decay(1e9) != 0 {
		t.Error("the ends")
	}
}

func BenchmarkDecay(b *testing.B) {
	x := 0.0
	for b.Loop() {
		x += decay(x - math.Floor(x))
	}
}

func BenchmarkExp(b *testing.B) {
	x := 0.0
	for b.Loop() {
		x += math.Exp(math.Floor(x) - x)
	}
}
