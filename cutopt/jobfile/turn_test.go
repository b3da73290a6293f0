package jobfile

import (
	"math"
	"math/big"
	"testing"
)

// Machin's formula: pi/4 = 4 arctan(1/5) - arctan(1/239).
func TestPi(t *testing.T) {
	const digits = 60
	one := new(big.Int).Exp(big.NewInt(10), big.NewInt(digits+10), nil)
	arctan := func(x int64) *big.Int {
		sum, power := new(big.Int), new(big.Int).Div(one, big.NewInt(x))
		for k := int64(0); power.Sign() != 0; k++ {
			term := new(big.Int).Div(power, big.NewInt(2*k+1))
			if k%2 == 1 {
				term.Neg(term)
			}
			sum.Add(sum, term)
			power.Div(power, big.NewInt(x*x))
		}
		return sum
	}
	want := arctan(5)
	want.Mul(want, big.NewInt(4)).Sub(want, arctan(239)).Mul(want, big.NewInt(4))
	text := want.String()
	if got := pi[:1] + pi[2:]; got != text[:len(got)] {
		t.Errorf("pi is %s, Machin's formula gives %s", got, text)
	}
}

func TestDirection(t *testing.T) {
	for _, row := range []struct {
		degrees  int64
		cos, sin int64
	}{{0, 1, 0}, {90, 0, 1}, {180, -1, 0}, {270, 0, -1}, {-90, 0, -1}, {-180, -1, 0}, {360, 1, 0}, {-360, 1, 0}, {
		810, 0,
		1,
	}} {
		cos, sin := direction(big.NewRat(row.degrees, 1))
		if cos.Cmp(big.NewRat(row.cos, 1)) != 0 || sin.Cmp(big.NewRat(row.sin, 1)) != 0 {
			t.Errorf("%d degrees: %v, %v; want exactly %d, %d", row.degrees, cos, sin, row.cos, row.sin)
		}
	}
	fine := new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Lsh(big.NewInt(1), 120))
	for tenths := int64(-7200); tenths <= 7200; tenths += 7 {
		cos, sin := direction(big.NewRat(tenths, 10))
		c, _ := cos.Float64()
		s, _ := sin.Float64()
		wantS, wantC := math.Sincos(float64(tenths) / 10 * math.Pi / 180)
		if math.Abs(c-wantC) > 1e-14 || math.Abs(s-wantS) > 1e-14 {
			t.Errorf("%d tenths of a degree: %v, %v; want %v, %v", tenths, c, s, wantC, wantS)
		}
		one := new(big.Rat).Mul(cos, cos)
		one.Add(one, new(big.Rat).Mul(sin, sin)).Sub(one, big.NewRat(1, 1))
		if one.Abs(one).Cmp(fine) > 0 {
			t.Errorf("%d tenths of a degree: the squares add up to 1 but for %v", tenths, one.FloatString(40))
		}
	}
}
