package cut

import (
	"math/big"
	"math/rand/v2"
	"testing"
)

// TestWide holds sums of products against math/big.
func TestWide(t *testing.T) {
	const seed = 5
	rng := rand.New(rand.NewPCG(seed, 1))
	exact := func(x wide) *big.Int {
		b := new(big.Int).Lsh(big.NewInt(x.high), 64)
		return b.Add(b, new(big.Int).SetUint64(x.low))
	}
	draw := func() int64 {
		size := rng.Int64() >> rng.IntN(63)
		if rng.IntN(2) == 0 {
			return -size
		}
		return size
	}
	for n := range 20_000 {
		a, b, c, d := draw()>>2, draw()>>2, draw()>>2, draw()>>2
		x, y := times(a, b), times(c, d)
		bx, by := new(big.Int).Mul(big.NewInt(a), big.NewInt(b)), new(big.Int).Mul(big.NewInt(c), big.NewInt(d))
		sum, difference := new(big.Int).Add(bx, by), new(big.Int).Sub(bx, by)
		if exact(x).Cmp(bx) != 0 || exact(x.plus(y)).Cmp(sum) != 0 || exact(x.minus(y)).Cmp(difference) != 0 ||
			x.less(y) != (bx.Cmp(by) < 0) {
			t.Fatalf("seed %d, case %d: %d x %d and %d x %d", seed, n, a, b, c, d)
		}
		near, _ := new(big.Float).SetInt(difference).Float64()
		if got := x.minus(y).float(); difference.IsInt64() && got != near || got < near-abs(near)/1e15 ||
			got > near+abs(near)/1e15 {
			t.Fatalf("seed %d, case %d: %v as a float is %v, not %v", seed, n, difference, got, near)
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }
