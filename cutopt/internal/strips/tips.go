package strips

import "slices"

// A tip is an end of a part that tapers off along a wall: floor so low that the trim hides it.
type tip struct {
	part
	trim int64 // height up to which it is hidden
}

// trimmed takes from the two ends of a part what is at most trim high over at least ten times that length, and returns the
// part with its new ends and twice the area taken off. It takes O(k^2) steps for k patches, none for rectangles.
func (p part) trimmed(trim int64) (part, int64) {
	t := tip{p, trim}
	if slices.ContainsFunc(p.patches, patch.slanted) {
		xs := t.corners()
		from := t.end(xs)
		slices.Reverse(xs)
		to := t.end(xs)
		if from < to {
			t.from, t.to = from, to
		}
	}
	if t.from == p.from && t.to == p.to {
		return p, 0
	}
	lost := p.twice
	for i := range p.patches {
		if in := p.patches[i].between(t.from, t.to); len(in) > 2 {
			lost -= twiceArea(in)
		}
	}
	return t.part, lost
}

func (p patch) slanted() bool { return p.left0 != p.left1 || p.right0 != p.right1 }

// corners returns the abscissas of all corners, from the left.
func (t *tip) corners() []int64 {
	xs := make([]int64, 0, 4*len(t.patches))
	for i := range t.patches {
		p := &t.patches[i]
		xs = append(xs, p.left0, p.left1, p.right0, p.right1)
	}
	slices.Sort(xs)
	return slices.Compact(xs)
}

// end walks along the abscissas from one end of the part and returns where the part becomes higher than the trim, or the
// end itself where that is near.
func (t *tip) end(xs []int64) int64 {
	for i := 1; i < len(xs); i++ {
		a, b := xs[i-1], xs[i]
		low, high := t.height(a, b)
		if max(low, high) <= float64(t.trim) {
			continue
		}
		x := a
		if low < float64(t.trim) {
			x += int64(float64(b-a) * (float64(t.trim) - low) / (high - low))
		}
		if max(x-xs[0], xs[0]-x) < 10*t.trim {
			return xs[0]
		}
		return x
	}
	return xs[0]
}

// height returns how high the part is at both ends of a stretch without corners.
func (t *tip) height(a, b int64) (low, high float64) {
	for i := range t.patches {
		p := &t.patches[i]
		if min(p.left0, p.left1) <= min(a, b) && max(p.right0, p.right1) >= max(a, b) {
			low += p.heightAt(a)
			high += p.heightAt(b)
		}
	}
	return low, high
}

// heightAt returns how high a patch is at an abscissa.
func (p *patch) heightAt(x int64) float64 {
	from, to := 0.0, 1.0 // of the way up
	narrow := func(at0, at1 int64) {
		// What lies on the right of the line from at0 to at1.
		d0, d1 := float64(x-at0), float64(x-at1)
		switch {
		case d0 < 0 && d1 < 0:
			to = from
		case d0 < 0:
			from = max(from, d0/(d0-d1))
		case d1 < 0:
			to = min(to, d0/(d0-d1))
		}
	}
	narrow(p.left0, p.left1)
	p, x = &patch{p.low, p.high, -p.right0, -p.left0, -p.right1, -p.left1}, -x
	narrow(p.left0, p.left1)
	return max(0, to-from) * float64(p.high-p.low)
}
