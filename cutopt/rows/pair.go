package rows

import "plank.example/cutopt/measure"

// matchOffcuts finds a largest matching when offcuts are on hand: heads go to the room beside an ender or to a
// right-ended offcut, enders also to a left-ended one. An offcut never joins another offcut, so the matching is found by
// augmenting paths; it takes O((heads + offcuts) * pairs).
func (c *cutter) matchOffcuts(heads, byRoom []int) {
	in := c.in
	// Left side: heads, then left-ended offcuts. Right side: enders, then right-ended offcuts and, for heads of singles
	// only, offcuts without an end.
	var left []measure.Length
	for _, h := range heads {
		left = append(left, c.heads[h].used)
	}
	right := make([]int, 0, len(byRoom))
	right = append(right, byRoom...)
	fits := func(l, r int) bool {
		if l < len(heads) {
			if r < len(byRoom) {
				return left[l] <= c.roomOf(right[r])
			}
			o := &in.Offcuts[r-len(byRoom)]
			return left[l] <= o.Length && (o.End == EndRight || o.End == EndNone && c.heads[heads[l]].starter < 0)
		}
		o := &in.Offcuts[l-len(heads)]
		return o.End == EndLeft && r < len(byRoom) && c.pieces[c.enders[right[r]]].Ender <= o.Length
	}
	nl, nr := len(heads)+len(in.Offcuts), len(byRoom)+len(in.Offcuts)
	of := make([]int, nr) // left partner of each right
	for r := range of {
		of[r] = -1
	}
	var augment func(l int, seen []bool) bool
	augment = func(l int, seen []bool) bool {
		for r := range nr {
			if seen[r] || !fits(l, r) {
				continue
			}
			seen[r] = true
			if of[r] < 0 || augment(of[r], seen) {
				of[r] = l
				return true
			}
		}
		return false
	}
	for l := range nl {
		augment(l, make([]bool, nr))
	}
	for e := range c.mate {
		c.mate[e] = -1
	}
	for r, l := range of {
		switch {
		case l < 0:
		case r >= len(byRoom):
			c.hand[r-len(byRoom)] = heads[l]
		case l >= len(heads):
			c.handE[l-len(heads)] = right[r]
		default:
			c.mate[right[r]] = heads[l]
			c.heads[heads[l]].ender = c.enders[right[r]]
		}
	}
}

// exchange swaps partners between planks, keeping their number, so that an offcut is used soon after it arises: the cost
// of a pair is how many runs lie between its pieces, and more where the starter comes before the ender. Passes go on
// while they gain, at most eight, over partners at most reach planks apart.
func (c *cutter) exchange() {
	const passes, reach = 8, 256
	if len(c.in.Offcuts) > 0 {
		return
	}
	cost := func(e, h int) int {
		if h < 0 {
			return 0
		}
		b := &c.heads[h]
		run := b.starter
		if run < 0 {
			run = b.singles[0]
		}
		d := run - c.enders[e]
		if d <= 0 {
			return 4 - 2*d
		}
		return d
	}
	fits := func(e, h int) bool { return h < 0 || c.heads[h].used <= c.roomOf(e) }
	free := make([]int, 0, len(c.heads)) // heads without an ender
	for h := range c.heads {
		if c.heads[h].ender < 0 {
			free = append(free, h)
		}
	}
	for range passes {
		gained := false
		for a := range c.enders {
			for b := a + 1; b < min(len(c.enders), a+reach); b++ {
				x, y := c.mate[a], c.mate[b]
				if x != y && fits(a, y) && fits(b, x) && cost(a, y)+cost(b, x) < cost(a, x)+cost(b, y) {
					c.mate[a], c.mate[b] = y, x
					gained = true
				}
			}
			if c.mate[a] < 0 {
				continue
			}
			for k, h := range free {
				if x := c.mate[a]; fits(a, h) && cost(a, h) < cost(a, x) {
					c.mate[a], free[k] = h, x
					gained = true
				}
			}
		}
		if !gained {
			break
		}
	}
	for h := range c.heads {
		c.heads[h].ender = -1
	}
	for e, h := range c.mate {
		if h >= 0 {
			c.heads[h].ender = c.enders[e]
		}
	}
}
