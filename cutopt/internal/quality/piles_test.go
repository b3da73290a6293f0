package quality_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/quality"
)

// TestPiles keeps parts over rows drawn at random, and takes some away, and counts all rows each time.
func TestPiles(t *testing.T) {
	for _, rows := range []int{1, 2, 63, 64, 65, 128, 200, 1000} {
		r := rand.New(rand.NewPCG(uint64(rows), 1))
		p, size := quality.NewPiles(rows), make([]int, rows)
		var kept [][2]int
		for step := range 300 {
			by := 1
			var part [2]int
			if len(kept) > 0 && r.IntN(5) < 2 {
				k := r.IntN(len(kept))
				part, by = kept[k], -1
				kept = append(kept[:k], kept[k+1:]...)
			} else {
				part[0] = r.IntN(rows)
				part[1] = part[0] + 1 + r.IntN(rows-part[0])
				if r.IntN(2) == 0 { // few rows
					part[1] = min(part[1], part[0]+1+r.IntN(3))
				}
				kept = append(kept, part)
			}
			for k := part[0]; k < part[1]; k++ {
				size[k] += by
			}
			p.Add(part[0], part[1], int32(by))
			most, n := 0, 0
			for _, x := range size {
				if x > most {
					most, n = x, 0
				}
				if x == most {
					n++
				}
			}
			if got, of := p.Most(); got != most || of != n {
				t.Fatalf("%d rows, step %d: %d at %d rows, want %d at %d", rows, step, got, of, most, n)
			}
		}
	}
}
