package search

import "math"

// decay returns e^-x for x of 0 or more, the same on every machine, which math.Exp is not: x is split into a multiple
// of the logarithm of two and a rest of at most half of it, whose series is summed to the 13th power. Products are
// rounded before they are added. The relative error is below 1e-14.
func decay(x float64) float64 {
	const most = 700 // beyond which the value is as good as none
	if x > most {
		return 0
	}
	turns := math.Floor(float64(x*math.Log2E) + 0.5)
	rest := float64(turns*ln2High) - x // -x + turns ln 2, in two steps so that nothing is lost
	rest += float64(turns * ln2Low)
	sum := 1.0
	for k := 13.0; k > 0; k-- {
		sum = 1 + float64(float64(sum*rest)/k)
	}
	return math.Ldexp(sum, -int(turns))
}

// ln2High and ln2Low add up to the logarithm of two; the first has few enough bits that multiples of it are exact.
const (
	ln2High = 6.93147180369123816490e-01
	ln2Low  = 1.90821492927058770002e-10
)
