package measure

import "math"

// Floor returns the largest multiple of grid that is not above l: lengths cut to fit are rounded so. A grid of 0 or
// less stands for one tick.
func (l Length) Floor(grid Length) Length {
	if grid <= 0 {
		return l
	}
	r := l % grid
	if r < 0 {
		r += grid
	}
	if l < math.MinInt64+r {
		return l - l%grid // the multiple below does not fit in a Length
	}
	return l - r
}

// Div returns l/by rounded down, below 0 too, so that l - l.Div(by)*by lies from 0 to by: where in its plank a joint
// lies. It panics where by is 0 and expects it above 0.
func (l Length) Div(by Length) Length {
	q := l / by
	if l%by < 0 {
		q--
	}
	return q
}

// Ceil returns the smallest multiple of grid that is not below l: what is ordered is rounded so. A grid of 0 or less
// stands for one tick.
func (l Length) Ceil(grid Length) Length {
	floor := l.Floor(grid)
	if floor >= l || floor > math.MaxInt64-grid {
		return floor
	}
	return floor + grid
}

// Nearest returns the multiple of grid closest to l, and midway between two the even multiple: the rule for reading a
// graduated scale in NIST Handbook 44, section 10.3. A grid of 0 or less stands for one tick.
func (l Length) Nearest(grid Length) Length {
	floor := l.Floor(grid)
	if floor >= l || floor > math.MaxInt64-grid {
		return floor
	}
	below, above := l-floor, floor+grid-l
	if below < above || below == above && floor/grid%2 == 0 {
		return floor
	}
	return floor + grid
}
