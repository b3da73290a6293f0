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
// What an ender serves is nested: heads and left-ended offcuts each fit all enders from some room on. So of the heads
// that go to offcuts as many as possible should, and the longest ones: the sets of heads that fit offcuts are
// independent in a matroid, where the greedy choice is at least as long, head by head, as any other. The rest is
// matched smallest first. That is exact without singles. It takes O(n log n) for n heads, enders and offcuts.
func (c *cutter) matchOffcuts(heads, byRoom []int) {
	hosted := c.hostOnOffcuts(heads)
	type guest struct {
		room measure.Length // that it asks of an ender
		head int            // or -1
		hand int            // left-ended offcut, or -1
	}
	var guests []guest
	for _, h := range heads {
		if !hosted[h] {
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
	c.useLeftOver(heads, hosted)
}

// useLeftOver puts boards of one-piece runs only that share a plank with no ender on offcuts that nothing is cut from,
// longest first where they leave the least. heads are in ascending order.
func (c *cutter) useLeftOver(heads []int, hosted []bool) {
	for _, h := range slices.Backward(heads) {
		b := &c.heads[h]
		if b.starter >= 0 || b.ender >= 0 || hosted[h] {
			continue
		}
		best := -1
		for o := range c.in.Offcuts {
			length := c.in.Offcuts[o].Length
			free := c.hand[o] < 0 && c.handE[o] < 0
			if free && b.used <= length && (best < 0 || length < c.in.Offcuts[best].Length) {
				best = o
			}
		}
		if best >= 0 {
			c.hand[best] = h
		}
	}
}

// hostOnOffcuts gives offcuts without a factory end, then right-ended ones, the longest head that fits each, the
// longest offcut first, and returns which heads have one. heads are in ascending order.
func (c *cutter) hostOnOffcuts(heads []int) (hosted []bool) {
	hosted = make([]bool, len(c.heads))
	hands := order(len(c.hand), func(o int) measure.Length { return -c.in.Offcuts[o].Length })
	for _, end := range []End{EndNone, EndRight} {
		next := len(heads) - 1 // a head that is too long for one offcut is too long for those that follow
		for _, o := range hands {
			for ; c.in.Offcuts[o].End == end && c.hand[o] < 0 && next >= 0; next-- {
				h := heads[next]
				if c.heads[h].used <= c.in.Offcuts[o].Length && !hosted[h] && (end == EndRight || c.heads[h].starter < 0) {
					c.hand[o], hosted[h] = h, true
				}
			}
		}
	}
	return hosted
}

// exchange swaps partners between planks, keeping their number, so that an offcut is used soon after it arises: the
// cost of a pair is how many runs lie between its pieces, and more where the starter comes before the ender. Passes go
// on while they gain, at most eight, over partners at most reach planks apart.
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
