package cutopt

import "slices"

// A lottery is how many planks are lost before so many good ones are laid, when each plank opened is lost with one
// chance: the negative binomial distribution. To run short of planks + r is to lose more than r of them, which is the
// tail of the binomial distribution of so many: both say that fewer than planks of them are good.
type lottery struct {
	from int       // losses below are as good as impossible
	tail []float64 // chance of from + k losses or more
}

// newLottery takes the chance of each number of losses from the one before it, p(k) = p(k-1) loss (planks + k - 1) / k,
// up and down from the likeliest, until they are of no account. Products are rounded before they are added, so that the
// sums are the same on every machine.
func newLottery(planks int, loss float64) *lottery {
	if planks <= 0 || loss <= 0 {
		return &lottery{tail: []float64{1}}
	}
	const none = 1e-30
	ratio := func(k int) float64 { return float64(loss * float64(float64(planks+k-1)/float64(k))) }
	mode := int(float64(float64(planks-1)*loss) / (1 - loss))
	var up, down []float64
	for k, p := mode, 1.0; p > none; {
		up = append(up, p)
		k++
		p = float64(p * ratio(k))
	}
	for k, p := mode, 1.0; k > 0; k-- {
		if p = float64(p / ratio(k)); p <= none {
			break
		}
		down = append(down, p)
	}
	slices.Reverse(down)
	l := &lottery{from: mode - len(down), tail: append(down, up...)}
	sum := 0.0
	for k := len(l.tail) - 1; k >= 0; k-- {
		sum += l.tail[k]
		l.tail[k] = sum
	}
	for k := range l.tail {
		l.tail[k] /= sum
	}
	return l
}

// above returns the chance of more than k losses.
func (l *lottery) above(k int) float64 {
	switch k -= l.from - 1; {
	case k <= 0:
		return 1
	case k >= len(l.tail):
		return 0
	}
	return l.tail[k]
}

// tie is the share by which chances that are equal may differ once they are reckoned.
const tie = 1e-9

// reserve returns the fewest losses that are exceeded with at most the chance given.
func (l *lottery) reserve(limit float64) int {
	limit *= 1 + tie
	k, _ := slices.BinarySearchFunc(l.tail, limit, func(p, limit float64) int {
		if p > limit {
			return -1
		}
		return 1
	})
	return max(l.from+k-1, 0)
}
