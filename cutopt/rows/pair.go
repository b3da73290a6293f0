package rows

import (
	"cmp"
	"slices"

	"plank.example/cutopt/measure"
)

// matchOffcuts finds a largest matching when offcuts are on hand: a head goes to the room beside an ender or to a
// right-ended offcut, one of singles also to an offcut without a factory end, and an ender may be had from a left-ended
// offcut instead of hosting a head.
//
// What an ender serves is nested: heads and left-ended offcuts each fit all enders from some room on. So of the heads that
// go to offcuts as many as possible should, and the longest ones: the sets of heads that fit offcuts are independent in a
// matroid, where the greedy choice is at least as long, head by head, as any other. The rest is matched smallest first.
// It takes O(n log n) for n heads, enders and offcuts, and O(heads * offcuts) for the first step at worst.
func (c *cutter) matchOffcuts(heads, byRoom []int) {
	c.hostOnOffcuts(heads)
	type guest struct {
		room measure.Length // that it asks of an ender
		head int            // or -1
		hand int            // left-ended offcut, or -1
	}
	var guests []guest
	taken := make([]bool, len(c.heads))
	for _, h := range c.hand {
		if h >= 0 {
			taken[h] = true
		}
	}
	for _, h := range heads {
		if !taken[h] {
			guests = append(guests, guest{c.heads[h].used, h, -1})
		}
	}
	for o := range c.in.Offcuts {
		if off := &c.in.Offcuts[o]; off.End == EndLeft {
			guests = append(guests, guest{c.in.Plank - c.in.Kerf - off.Length, -1, o})
		}
	}
	slices.SortStableFunc(guests, func(a, b guest) int { return cmp.Compare(a.room, b.room) })
	k := 0
	for _, e := range byRoom {
		c.mate[e] = -1
		if k == len(guests) || guests[k].room > c.roomOf(e) {
			continue
		}
		if g := guests[k]; g.head >= 0 {
			c.mate[e] = g.head
			c.heads[g.head].ender = c.enders[e]
		} else {
			c.handE[g.hand] = e
		}
		k++
	}
}

// hostOnOffcuts gives right-ended offcuts, and those without an end, as many heads as possible and the longest ones. heads
// are in ascending order.
func (c *cutter) hostOnOffcuts(heads []int) {
	fits := func(h, o int) bool {
		off := &c.in.Offcuts[o]
		return c.heads[h].used <= off.Length && (off.End == EndRight || off.End == EndNone && c.heads[h].starter < 0)
	}
	dead := make([]bool, len(c.in.Offcuts)) // reached by a search that failed: no later one gets past it
	var seen []int
	var augment func(h int) bool
	augment = func(h int) bool {
		for o, other := range c.hand {
			if dead[o] || !fits(h, o) {
				continue
			}
			dead[o], seen = true, append(seen, o)
			if other < 0 || augment(other) {
				c.hand[o] = h
				return true
			}
		}
		return false
	}
	for k := len(heads) - 1; k >= 0; k-- {
		seen = seen[:0]
		if augment(heads[k]) {
			for _, o := range seen {
				dead[o] = false
			}
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
