package search

import (
	"cmp"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// crossed is what is known where there are offcuts of either end on hand, and memory for counting with them.
type crossed struct {
	hands []hand // by length
	asked []int  // of hands the left-ended ones, the longest first: the least room that they ask beside an ender
	heads []head
	rooms []measure.Length // beside enders
}

// A hand is an offcut on hand; taken while something is cut from it.
type hand struct {
	length measure.Length
	end    rows.End
	taken  bool
}

// A head is a board without its ender: what is used of it.
type head struct {
	used   measure.Length
	alone  bool // one-piece runs only
	placed bool // it is had from an offcut or beside an ender
}

// newCrossed returns nil where the offcuts on hand have no end, or all the same one.
func newCrossed(in *rows.Instance) *crossed {
	c := new(crossed)
	for _, o := range in.Offcuts {
		c.hands = append(c.hands, hand{length: o.Length, end: o.End})
	}
	slices.SortStableFunc(c.hands, func(a, b hand) int { return cmp.Compare(a.length, b.length) })
	right := false
	for k, o := range slices.Backward(c.hands) {
		right = right || o.end == rows.EndRight
		if o.end == rows.EndLeft {
			c.asked = append(c.asked, k)
		}
	}
	if !right || len(c.asked) == 0 {
		return nil
	}
	return c
}

// counted counts the planks, and reports whether they fit the target.
func (st *state) counted() bool { return st.planks() <= st.target }

// planks counts the planks as rows.Instance.Count does with the packing: heads go to offcuts, the longest that fit, and
// of the others and the left-ended offcuts as many as possible to enders, the smallest first. It takes a fifth of the
// time of Count, O(n log n) for n runs and offcuts, as walks ask again and again.
func (st *state) planks() int {
	c, in := st.crossed, st.in
	n := st.pieces() + len(c.heads) + len(c.rooms)
	for k := range c.hands {
		c.hands[k].taken = false
	}
	n -= c.host(rows.EndNone) + c.host(rows.EndRight)
	h, l := 0, 0
	for _, room := range c.rooms {
		for h < len(c.heads) && c.heads[h].placed {
			h++
		}
		asks := in.Plank + 1
		if l < len(c.asked) {
			asks = in.Plank - in.Kerf - c.hands[c.asked[l]].length
		}
		switch {
		case h < len(c.heads) && c.heads[h].used <= min(room, asks):
			c.heads[h].placed = true
			n--
		case asks <= room:
			c.hands[c.asked[l]].taken = true
			l++
			n--
		}
	}
	return n - c.leftOver()
}

// pieces sorts the boards without their enders and the rooms beside enders, and counts the whole planks.
func (st *state) pieces() (whole int) {
	c, in := st.crossed, st.in
	c.heads, c.rooms = c.heads[:0], c.rooms[:0]
	for i := range st.options {
		p, _ := in.Lay(i, st.option(i).starter)
		whole += p.Field
		switch {
		case st.host[i] >= 0:
		case p.Single == in.Plank:
			whole++
		case p.Single > 0:
			c.heads = append(c.heads, head{used: p.Single + st.load[i], alone: true})
		case p.Starter == in.Plank:
			whole++
		default:
			c.heads = append(c.heads, head{used: p.Starter + st.load[i]})
		}
		switch {
		case p.Single > 0:
		case p.Ender == in.Plank:
			whole++
		default:
			c.rooms = append(c.rooms, in.Plank-in.Kerf-p.Ender)
		}
	}
	slices.SortFunc(c.heads, func(a, b head) int {
		if a.used != b.used {
			return cmp.Compare(a.used, b.used)
		}
		return int(b2i(a.alone) - b2i(b.alone))
	})
	slices.Sort(c.rooms)
	return whole
}

// host puts heads on the offcuts of an end, and returns how many. One without a factory end serves one-piece runs only.
func (c *crossed) host(end rows.End) (n int) {
	next := len(c.heads) - 1
	for k := range slices.Backward(c.hands) {
		o := &c.hands[k]
		if o.end != end {
			continue
		}
		for ; next >= 0 && !o.taken; next-- {
			if h := &c.heads[next]; h.used <= o.length && !h.placed && (end == rows.EndRight || h.alone) {
				h.placed, o.taken = true, true
				n++
			}
		}
	}
	return n
}

// leftOver puts boards of one-piece runs that share a plank with no ender on offcuts that nothing is cut from, the
// longest first where they leave the least, and returns how many.
func (c *crossed) leftOver() (n int) {
	for _, h := range slices.Backward(c.heads) {
		if !h.alone || h.placed {
			continue
		}
		for k := range c.hands {
			if o := &c.hands[k]; !o.taken && h.used <= o.length {
				o.taken = true
				n++
				break
			}
		}
	}
	return n
}
