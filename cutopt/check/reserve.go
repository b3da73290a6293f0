package check

import (
	"math"
	"sort"

	"plank.example/cutopt"
)

// A purchase recounts what is bought for a number of planks, from the job alone.
type purchase struct {
	job *cutopt.Job
	per int
}

// tie is the share by which chances that are equal may differ once they are reckoned.
const tie = 1e-9

// boxes recounts the boxes that hold so many planks to lay, those kept for repairs and the reserve.
func (p *purchase) boxes(planks int) int {
	return p.filled(planks + keptFor(&p.job.Spare, planks, p.per) + p.reserve(planks))
}

// holding recounts the boxes that hold so many planks to lay and those kept for repairs.
func (p *purchase) holding(planks int) int {
	return p.filled(planks + keptFor(&p.job.Spare, planks, p.per))
}

func (p *purchase) filled(planks int) int {
	boxes := planks / p.per
	if planks%p.per > 0 {
		boxes++
	}
	return boxes
}

// reserve recounts the fewest planks beyond those to lay of which more are lost with no more than the chance accepted.
func (p *purchase) reserve(planks int) int {
	if p.job.Rules.Loss <= 0 {
		return 0
	}
	limit := p.job.Rules.RiskLimit / 100 * (1 + tie)
	most := 1
	for p.short(planks, most) > limit {
		most *= 2
	}
	return sort.Search(most, func(r int) bool { return p.short(planks, r) <= limit })
}

// short is the chance that of planks + r planks more than r are lost: the sum of binomial probabilities C(n, k) p^k
// q^(n-k), the largest of them by the logarithm of the gamma function, the others from it.
func (p *purchase) short(planks, r int) float64 {
	loss := p.job.Rules.Loss / 100
	if loss <= 0 || planks <= 0 {
		return 0
	}
	n := planks + r
	odds := loss / (1 - loss)
	top := min(max(r+1, int(float64(n+1)*loss)), n)
	all := func(k int) float64 { v, _ := math.Lgamma(float64(k) + 1); return v }
	first := math.Exp(all(n) - all(top) - all(n-top) + float64(top)*math.Log(loss) + float64(n-top)*math.Log1p(-loss))
	sum := 0.0
	for k, term := top, first; k <= n && term > first*1e-20; k++ {
		sum += term
		term *= odds * float64(n-k) / float64(k+1)
	}
	for k, term := top, first; k > r+1 && term > first*1e-20; k-- {
		term *= float64(k) / (odds * float64(n-k+1))
		sum += term
	}
	return min(sum, 1)
}
