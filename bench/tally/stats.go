package tally

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// values returns the values of a histogram in ascending order and how often each occurs.
func (h Histogram) values() (x, weight []float64) {
	keys := make([]int64, 0, len(h))
	for k := range h {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	for _, k := range keys {
		x, weight = append(x, float64(k)), append(weight, float64(h[k]))
	}
	return x, weight
}

// N returns how many values are counted.
func (h Histogram) N() int64 {
	n := int64(0)
	for _, k := range h {
		n += k
	}
	return n
}

// Mean returns the mean, NaN of nothing.
func (h Histogram) Mean() float64 { return stat.Mean(h.values()) }

// Quantile returns the least value that at least a share p of all does not exceed, 0 <= p <= 1; NaN of nothing.
func (h Histogram) Quantile(p float64) float64 {
	x, w := h.values()
	if len(x) == 0 {
		return math.NaN()
	}
	return stat.Quantile(p, stat.Empirical, x, w)
}

// Share returns the share of values from low to high, in percent.
func (h Histogram) Share(low, high int64) float64 {
	n := int64(0)
	for k, v := range h {
		if low <= k && k <= high {
			n += v
		}
	}
	return 100 * float64(n) / float64(h.N())
}

// Confidence is the level of the intervals.
const Confidence = 0.95

// Mean returns the mean difference and the half width of its 95 % confidence interval by Student's t distribution with
// N-1 degrees of freedom. Rooms are drawn independently, so the means are nearly normal from some dozens of rooms on.
// Both are NaN below two rooms.
func (p Pair) Mean() (mean, half float64) {
	if p.N < 2 {
		return math.NaN(), math.NaN()
	}
	n := float64(p.N)
	mean = float64(p.Sum) / n
	// n * sum of squares - sum^2 is a whole number; in floats it loses nothing that matters below 2^53.
	variance := (float64(p.Squares) - float64(p.Sum)*mean) / (n - 1)
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: n - 1}.Quantile((1 + Confidence) / 2)
	return mean, t * math.Sqrt(max(variance, 0)/n)
}

// ShareOf returns a count's share of n in percent and the half width of its 95 % interval, Agresti and Coull's: a Wald
// interval after two successes and two failures are added (The American Statistician 52 (1998), 119-126).
func ShareOf(count, n int64) (percent, half float64) {
	if n == 0 {
		return math.NaN(), math.NaN()
	}
	z := distuv.UnitNormal.Quantile((1 + Confidence) / 2)
	m := float64(n) + z*z
	p := (float64(count) + z*z/2) / m
	return 100 * float64(count) / float64(n), 100 * z * math.Sqrt(p*(1-p)/m)
}

// Milliseconds turns a time step of Cell.Time back.
func Milliseconds(step float64) float64 { return math.Exp2(step/4) / 1000 }
