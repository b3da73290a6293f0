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
	return mean, quantileT(n-1) * math.Sqrt(max(variance, 0)/n)
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
func Milliseconds(step float64) float64 { return math.Exp2(step/stepsPerDoubling) / 1000 }

// quantileT is the quantile of Student's t for a two-sided interval with so many degrees of freedom.
func quantileT(degrees float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degrees}.Quantile((1 + Confidence) / 2)
}

// MeanInterval returns the mean and the half width of its 95 % interval, as Pair.Mean does; both are NaN below two
// values.
func (h Histogram) MeanInterval() (mean, half float64) {
	x, w := h.values()
	n := 0.0
	for _, k := range w {
		n += k
	}
	if n < 2 {
		return math.NaN(), math.NaN()
	}
	mean, variance := stat.MeanVariance(x, w)
	return mean, quantileT(n-1) * math.Sqrt(variance/n)
}

// QuantileInterval returns the quantile of Quantile and the ends of its 95 % interval by order statistics: those whose
// ranks are 1.96 standard deviations of a binomial count away (Conover, Practical Nonparametric Statistics, sec. 3.2,
// from memory), cut off at the least and the largest value.
func (h Histogram) QuantileInterval(p float64) (at, low, high float64) {
	n := float64(h.N())
	z := distuv.UnitNormal.Quantile((1 + Confidence) / 2)
	half := z * math.Sqrt(p*(1-p)/n)
	return h.Quantile(p), h.Quantile(max(p-half, 0)), h.Quantile(min(p+half, 1))
}
