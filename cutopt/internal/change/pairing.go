package change

import (
	"cmp"
	"slices"

	"plank.example/cutopt/rows"
)

// Mates are what is to be matched: boards without an ender and left-ended offcuts as guests, by the room beside an
// ender that they ask for; boards with an ender and no starter as hosts, by the room that they have; and right-ended
// offcuts, which host boards only. All is in ascending order.
type mates struct {
	heads []*board // ask used
	left  []int    // offcuts; ask Plank - Kerf - Length
	tails []*board // have Plank - Kerf - used
	right []int    // offcuts; have Length
}

// mates sorts the boards and the offcuts that are free.
func (c *cutter) mates() *mates {
	s := new(mates)
	for _, b := range c.boards {
		switch {
		case b.hand >= 0 || b.ender >= 0 && b.starter >= 0:
		case b.ender >= 0:
			s.tails = append(s.tails, b)
		default:
			s.heads = append(s.heads, b)
		}
	}
	for o, free := range c.free {
		switch {
		case !free:
		case c.in.Offcuts[o].End == rows.EndLeft:
			s.left = append(s.left, o)
		case c.in.Offcuts[o].End == rows.EndRight:
			s.right = append(s.right, o)
		}
	}
	byUse := func(a, b *board) int { return cmp.Compare(a.used, b.used) }
	byLength := func(a, b int) int { return cmp.Compare(c.in.Offcuts[a].Length, c.in.Offcuts[b].Length) }
	slices.SortStableFunc(s.heads, byUse)
	slices.SortStableFunc(s.tails, func(a, b *board) int { return byUse(b, a) })
	slices.SortStableFunc(s.right, byLength)
	slices.SortStableFunc(s.left, func(a, b int) int { return byLength(b, a) })
	return s
}

// A joint is two that come together: a head with a tail, or either with an offcut, which hand then is the number of.
type joint struct {
	head, tail *board
	hand       int // -1 for none
}

// match lists the joints of a largest matching: of a head, or a left-ended offcut, with a tail, and of a head with a
// right-ended offcut. As in package rows as many heads as possible go to offcuts, the longest that
// fit, and the rest is matched smallest first.
func (c *cutter) match(s *mates) (joints []joint) {
	used := make(map[*board]bool)
	next := len(s.heads) - 1
	for _, o := range slices.Backward(s.right) {
		for ; next >= 0; next-- {
			if h := s.heads[next]; h.used <= c.in.Offcuts[o].Length {
				used[h] = true
				joints = append(joints, joint{h, nil, o})
				next--
				break
			}
		}
	}
	h, l := 0, 0
	for _, t := range s.tails {
		room := c.in.Plank - c.in.Kerf - t.used
		for h < len(s.heads) && used[s.heads[h]] {
			h++
		}
		asks := c.in.Plank + 1
		if l < len(s.left) {
			asks = c.in.Plank - c.in.Kerf - c.in.Offcuts[s.left[l]].Length
		}
		switch {
		case h < len(s.heads) && s.heads[h].used <= room && s.heads[h].used <= asks:
			joints = append(joints, joint{s.heads[h], t, -1})
			h++
		case l < len(s.left) && asks <= room:
			joints = append(joints, joint{nil, t, s.left[l]})
			l++
		}
	}
	return joints
}

// A manner says what join may do with boards that are cut as before.
type manner uint8

const (
	freely manner = iota
	gently        // leave them alone, unless others come onto them
)

// keeping asks join to keep pairs of before, as long as no more planks are needed than most.
type keeping struct {
	before []Group
	most   int
}

// join puts boards together and on offcuts until no more planks can be saved that way.
func (c *cutter) join(k *keeping, how manner) {
	c.ontoNone(how)
	s := c.mates()
	if k != nil {
		c.keep(s, k)
	}
	for _, j := range c.match(s) {
		if how == gently && (j.head == nil || j.head.stays) && (j.tail == nil || j.tail.stays) {
			continue
		}
		c.unite(j)
	}
	c.squeeze(how)
}

// unite puts a head on the board of a tail, or either on an offcut.
func (c *cutter) unite(j joint) {
	head, tail := j.head, j.tail
	switch {
	case j.hand < 0:
		tail.starter = head.starter
		tail.singles = append(tail.singles, head.singles...)
		tail.used += c.in.Kerf + head.used
		c.boards = slices.DeleteFunc(c.boards, func(b *board) bool { return b == head })
		return
	case head != nil:
		head.hand = j.hand
	default:
		tail.hand = j.hand
	}
	c.free[j.hand] = false
}

// keep unites what was cut from one plank or offcut before, where the largest matching of the rest still spares enough.
func (c *cutter) keep(s *mates, k *keeping) {
	spare := c.planks() - k.most // pairs that are to be found
	groups := slices.Clone(k.before)
	slices.SortStableFunc(groups, func(a, b Group) int { return cmp.Compare(min(b.Hand, 0), min(a.Hand, 0)) })
	of := c.boardsOf()
	for _, g := range groups {
		head, tail := c.halves(g, of)
		j, rest, ok := c.apart(s, joint{head, tail, g.Hand})
		if ok && 1+len(c.match(rest)) >= spare {
			c.unite(j)
			*s = *rest
			spare--
		}
	}
}

// boardsOf tells which board each starter and each ender is cut from.
func (c *cutter) boardsOf() map[sawn]*board {
	of := make(map[sawn]*board)
	for _, b := range c.boards {
		if b.starter >= 0 {
			of[sawn{b.starter, rows.RoleStarter}] = b
		}
		if b.ender >= 0 {
			of[sawn{b.ender, rows.RoleEnder}] = b
		}
	}
	return of
}

// halves returns the boards of the starter and of the ender of a group, nil for one that is not laid as before.
func (c *cutter) halves(g Group, of map[sawn]*board) (head, tail *board) {
	for _, p := range g.Parts {
		if x := c.length(p.Run, p.Role); x == 0 || x != p.Length {
			continue
		}
		switch b := of[sawn{p.Run, p.Role}]; p.Role {
		case rows.RoleStarter:
			head = b
		case rows.RoleEnder:
			tail = b
		}
	}
	return head, tail
}

// apart returns a joint and the mates without it. Where it has an offcut, that holds the head or the tail, and the
// joint returned is without the other. It is false where they do not fit, or are not among the mates.
func (c *cutter) apart(s *mates, j joint) (joint, *mates, bool) {
	head, tail := slices.Contains(s.heads, j.head), slices.Contains(s.tails, j.tail)
	rest := *s
	switch {
	case j.hand < 0:
		if !head || !tail || j.head.used+c.in.Kerf+j.tail.used > c.in.Plank {
			return j, nil, false
		}
		rest.heads, rest.tails = without(s.heads, j.head), without(s.tails, j.tail)
	case head && slices.Contains(s.right, j.hand) && j.head.used <= c.in.Offcuts[j.hand].Length:
		rest.heads, rest.right, j.tail = without(s.heads, j.head), without(s.right, j.hand), nil
	case tail && slices.Contains(s.left, j.hand) && j.tail.used <= c.in.Offcuts[j.hand].Length:
		rest.tails, rest.left, j.head = without(s.tails, j.tail), without(s.left, j.hand), nil
	default:
		return j, nil, false
	}
	return j, &rest, true
}

// without returns a copy of a list that lacks one element.
func without[T comparable](list []T, lacks T) []T {
	return slices.DeleteFunc(slices.Clone(list), func(x T) bool { return x == lacks })
}

// ontoNone puts boards of one-piece runs on offcuts without a factory end, the longest that fits each.
func (c *cutter) ontoNone(how manner) {
	for o, free := range c.free {
		if !free || c.in.Offcuts[o].End != rows.EndNone {
			continue
		}
		var best *board
		for _, b := range c.boards {
			fits := b.hand < 0 && b.starter < 0 && b.ender < 0 && (how == freely || !b.stays) && b.used <= c.in.Offcuts[o].Length
			if fits && (best == nil || b.used > best.used) {
				best = b
			}
		}
		if best != nil {
			best.hand, c.free[o] = o, false
		}
	}
}

// squeeze puts boards of one-piece runs that are alone on a plank where they leave the least, longest first.
func (c *cutter) squeeze(how manner) {
	var alone []*board
	for _, b := range c.boards {
		if b.hand < 0 && b.starter < 0 && b.ender < 0 && (how == freely || !b.stays) {
			alone = append(alone, b)
		}
	}
	slices.SortStableFunc(alone, func(a, b *board) int { return cmp.Compare(b.used, a.used) })
	for _, b := range alone {
		hand := -1
		for o, free := range c.free {
			length := c.in.Offcuts[o].Length
			if free && b.used <= length && (hand < 0 || length < c.in.Offcuts[hand].Length) {
				hand = o
			}
		}
		if hand >= 0 {
			b.hand, c.free[hand] = hand, false
			continue
		}
		var best *board
		for _, to := range c.boards {
			left := c.room(to) - to.used - c.in.Kerf - b.used
			if to != b && left >= 0 && (best == nil || left < c.room(best)-best.used-c.in.Kerf-b.used) {
				best = to
			}
		}
		if best != nil {
			best.singles = append(best.singles, b.singles...)
			best.used += c.in.Kerf + b.used
			c.boards = slices.DeleteFunc(c.boards, func(x *board) bool { return x == b })
		}
	}
}
