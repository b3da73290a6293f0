package jobfile

import "math/big"

// fineness is the number of bits after the binary point in the fixed-point sines below.
const fineness = 128

// pi to 60 decimals, from memory; a test compares it with Machin's formula.
const pi = "3.141592653589793238462643383279502884197169399375105820974944"

// direction returns the cosine and the sine of an angle in degrees, counter-clockwise from the x axis, each to within
// 2^-120 and exact for multiples of 90 degrees. It uses whole numbers only, so that every machine gets the same.
func direction(degrees *big.Rat) (cos, sin *big.Rat) {
	quadrant := new(big.Int)
	ninety := big.NewInt(90)
	quadrant.Div(degrees.Num(), new(big.Int).Mul(degrees.Denom(), ninety)) // rounds down
	rest := new(big.Rat).Sub(degrees, new(big.Rat).SetInt(new(big.Int).Mul(quadrant, ninety)))
	cos, sin = firstQuadrant(rest)
	for range new(big.Int).Mod(quadrant, big.NewInt(4)).Int64() {
		cos, sin = new(big.Rat).Neg(sin), cos
	}
	return cos, sin
}

// firstQuadrant returns the cosine and the sine of an angle from 0 up to 90 degrees by their power series.
func firstQuadrant(degrees *big.Rat) (cos, sin *big.Rat) {
	if degrees.Sign() == 0 {
		return big.NewRat(1, 1), new(big.Rat)
	}
	p, _ := new(big.Rat).SetString(pi)
	x := new(big.Rat).Mul(degrees, p)
	x.Quo(x, big.NewRat(180, 1))
	one := new(big.Int).Lsh(big.NewInt(1), fineness)
	fixed := new(big.Int).Mul(x.Num(), one)
	fixed.Quo(fixed, x.Denom())
	sums := [2]*big.Int{new(big.Int), new(big.Int)} // of even and odd powers
	term := new(big.Int).Set(one)
	for k := int64(0); term.Sign() != 0; k++ {
		if sum := sums[k%2]; k%4 < 2 {
			sum.Add(sum, term)
		} else {
			sum.Sub(sum, term)
		}
		term.Mul(term, fixed).Rsh(term, fineness).Quo(term, big.NewInt(k+1))
	}
	return new(big.Rat).SetFrac(sums[0], one), new(big.Rat).SetFrac(sums[1], one)
}

// roundDiv returns a/b rounded to the nearest whole number, midway to the even one; b is above 0.
func roundDiv(a, b *big.Int) *big.Int {
	q, r := new(big.Int).DivMod(a, b, new(big.Int))
	if c := r.Lsh(r, 1).Cmp(b); c > 0 || c == 0 && q.Bit(0) == 1 {
		q.Add(q, big.NewInt(1))
	}
	return q
}
