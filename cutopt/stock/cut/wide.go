package cut

import (
	"math"
	"math/bits"
)

// A wide is a whole number of 128 bits, in two's complement: sums of products of values and numbers of sticks. Values
// stay below 2^58, costs and numbers below 2^57, and there are at most some thousand of them, so no sum overflows.
type wide struct {
	high int64
	low  uint64
}

// times returns a b.
func times(a, b int64) wide {
	high, low := bits.Mul64(uint64(a), uint64(b))
	if a < 0 {
		high -= uint64(b)
	}
	if b < 0 {
		high -= uint64(a)
	}
	return wide{int64(high), low}
}

func (x wide) plus(y wide) wide {
	low, carry := bits.Add64(x.low, y.low, 0)
	return wide{x.high + y.high + int64(carry), low}
}

func (x wide) minus(y wide) wide {
	low, borrow := bits.Sub64(x.low, y.low, 0)
	return wide{x.high - y.high - int64(borrow), low}
}

func (x wide) less(y wide) bool { return x.high < y.high || x.high == y.high && x.low < y.low }

// over returns x/d, rounded down, for x of 0 or more and d above 0.
func (x wide) over(d int64) wide {
	high, rest := uint64(x.high)/uint64(d), uint64(x.high)%uint64(d)
	low, _ := bits.Div64(rest, x.low, uint64(d))
	return wide{int64(high), low}
}

func (x wide) negative() bool { return x.high < 0 }

// small returns x as an int64, or false where it does not fit.
func (x wide) small() (int64, bool) {
	v := int64(x.low)
	return v, v>>63 == x.high
}

// float returns the nearest float64 where x fits in 64 bits, else one near it.
func (x wide) float() float64 {
	if small := int64(x.low); small>>63 == x.high {
		return float64(small)
	}
	return float64(math.Ldexp(float64(x.high), 64)) + float64(x.low)
}
