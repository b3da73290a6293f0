package change

import (
	"cmp"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Group is pieces that the plan before cuts from one plank, or from one offcut on hand.
type Group struct {
	Hand  int         // index of Instance.Offcuts; -1 for a plank
	Parts []rows.Part // as long as in the instance
}

// Cut cuts up a layout so that as many pieces as possible come from where they came before, with no more planks than
// cap, which Instance.Count keeps to for the layout and the packing. First all pieces that are laid as before stay
// together, and the others take what is left; where that needs too many planks, the cutting of Instance.Cut is paired
// anew: offcuts on hand first, then planks in their order, each pair of before is kept if the largest matching of the
// rest still spares enough. Runs that are begun take no plank for their starters in what it returns.
//
// It takes O(n^2) for n runs and offcuts, and the time of Instance.Cut.
func Cut(in *rows.Instance, layout rows.Layout, packing rows.Packing, before []Group, most int) *rows.Cutting {
	if cut := staying(in, layout, before, most); cut != nil {
		return cut
	}
	most -= begun(in)
	d := newCutter(in, layout)
	d.take(in.Cut(layout, packing))
	d.join(&keeping{before: before, most: most}, false)
	if d.planks() > most { // pieces of one-piece runs beside enders: as Instance.Cut has them
		d = newCutter(in, layout)
		d.asIs(in.Cut(layout, packing))
	}
	return d.cutting()
}

// staying cuts up a layout with all pieces that are laid as before together as they were; nil where that takes more
// planks.
func staying(in *rows.Instance, layout rows.Layout, before []Group, most int) *rows.Cutting {
	c := newCutter(in, layout)
	c.stay(before)
	for _, gently := range []bool{true, false} {
		if c.join(nil, gently); c.planks() <= most-begun(in) {
			return c.cutting()
		}
	}
	return nil
}

// begun counts the runs of which the starter lies.
func begun(in *rows.Instance) (n int) {
	for i := range in.Runs {
		if in.Runs[i].Starter == in.Plank {
			n++
		}
	}
	return n
}

// A board is a plank or an offcut with what is cut from it.
type board struct {
	hand           int // of the offcut, or -1
	starter, ender int // runs, or -1
	singles        []int
	used           measure.Length // with a kerf between pieces
	stays          bool           // it is cut as before
}

// A cutter fills boards.
type cutter struct {
	in     *rows.Instance
	pieces []rows.Pieces
	boards []*board
	whole  [][]rows.Part
	free   []bool // by offcut: nothing is cut from it
}

func newCutter(in *rows.Instance, layout rows.Layout) *cutter {
	c := &cutter{in: in, free: slices.Repeat([]bool{true}, len(in.Offcuts))}
	for i, s := range layout {
		p, _ := in.Lay(i, s)
		c.pieces = append(c.pieces, p)
		whole := func(role rows.Role) { c.whole = append(c.whole, []rows.Part{{Run: i, Role: role, Length: in.Plank}}) }
		switch {
		case p.Single == in.Plank:
			whole(rows.RoleSingle)
		case p.Starter == in.Plank && in.Runs[i].Starter == 0:
			whole(rows.RoleStarter)
		}
		for range p.Field {
			whole(rows.RoleField)
		}
		if p.Ender == in.Plank {
			whole(rows.RoleEnder)
		}
	}
	return c
}

// length returns how long the piece of a role is in a run, 0 where there is none that is sawn.
func (c *cutter) length(run int, role rows.Role) measure.Length {
	p := &c.pieces[run]
	x := measure.Length(0)
	switch role {
	case rows.RoleStarter:
		x = p.Starter
	case rows.RoleEnder:
		x = p.Ender
	case rows.RoleSingle:
		x = p.Single
	}
	if x == c.in.Plank {
		return 0
	}
	return x
}

// put adds a piece to a board.
func (c *cutter) put(b *board, run int, role rows.Role) {
	if b.starter >= 0 || b.ender >= 0 || len(b.singles) > 0 {
		b.used += c.in.Kerf
	}
	b.used += c.length(run, role)
	switch role {
	case rows.RoleStarter:
		b.starter = run
	case rows.RoleEnder:
		b.ender = run
	case rows.RoleSingle:
		b.singles = append(b.singles, run)
	}
}

func empty(hand int) *board { return &board{hand: hand, starter: -1, ender: -1} }

// room is how long a board is.
func (c *cutter) room(b *board) measure.Length {
	if b.hand >= 0 {
		return c.in.Offcuts[b.hand].Length
	}
	return c.in.Plank
}

// cutParts calls yield for every sawn piece of the layout.
func (c *cutter) cutParts(yield func(run int, role rows.Role)) {
	for i := range c.pieces {
		for _, role := range []rows.Role{rows.RoleStarter, rows.RoleSingle, rows.RoleEnder} {
			if c.length(i, role) > 0 {
				yield(i, role)
			}
		}
	}
}

type key struct {
	run  int
	role rows.Role
}

// stay puts the pieces that are as before on boards as before, and each of the others on one of its own.
func (c *cutter) stay(before []Group) {
	placed := make(map[key]bool)
	for _, g := range before {
		b := empty(g.Hand)
		for _, p := range g.Parts {
			k := key{p.Run, p.Role}
			if x := c.length(p.Run, p.Role); x == 0 || x != p.Length || placed[k] {
				continue
			}
			if more := b.used + c.length(p.Run, p.Role); more+c.in.Kerf*min(1, b.used) <= c.room(b) {
				c.put(b, p.Run, p.Role)
				placed[k] = true
			}
		}
		if b.stays = b.used > 0; b.stays {
			c.boards = append(c.boards, b)
			if b.hand >= 0 {
				c.free[b.hand] = false
			}
		}
	}
	c.cutParts(func(run int, role rows.Role) {
		if !placed[key{run, role}] {
			b := empty(-1)
			c.put(b, run, role)
			c.boards = append(c.boards, b)
		}
	})
}

// take puts pieces on boards as a cutting has them, but takes enders off those of other pieces, and all off offcuts.
func (c *cutter) take(cut *rows.Cutting) {
	for _, parts := range slices.Concat(cut.Planks, cut.Offcuts) {
		head, tail := empty(-1), empty(-1)
		for _, p := range parts {
			switch {
			case c.length(p.Run, p.Role) == 0:
			case p.Role == rows.RoleEnder:
				c.put(tail, p.Run, p.Role)
			default:
				c.put(head, p.Run, p.Role)
			}
		}
		for _, b := range []*board{head, tail} {
			if b.used > 0 {
				c.boards = append(c.boards, b)
			}
		}
	}
}

// asIs puts pieces on boards just as a cutting has them.
func (c *cutter) asIs(cut *rows.Cutting) {
	lists := [][][]rows.Part{cut.Planks, cut.Offcuts}
	for k, list := range lists {
		for o, parts := range list {
			b := empty(-1)
			if k == 1 {
				b.hand = o
			}
			for _, p := range parts {
				if c.length(p.Run, p.Role) > 0 {
					c.put(b, p.Run, p.Role)
				}
			}
			if b.used > 0 {
				c.boards = append(c.boards, b)
			}
		}
	}
}

// planks counts the planks of the boards.
func (c *cutter) planks() int {
	n := len(c.whole)
	for _, b := range c.boards {
		if b.hand < 0 {
			n++
		}
	}
	return n
}

// cutting lists the boards, the pieces of each from its left end.
func (c *cutter) cutting() *rows.Cutting {
	out := &rows.Cutting{Planks: slices.Clone(c.whole), Offcuts: make([][]rows.Part, len(c.in.Offcuts))}
	for _, b := range c.boards {
		var parts []rows.Part
		add := func(run int, role rows.Role) {
			parts = append(parts, rows.Part{Run: run, Role: role, Length: c.length(run, role)})
		}
		if b.ender >= 0 {
			add(b.ender, rows.RoleEnder)
		}
		for _, i := range b.singles {
			add(i, rows.RoleSingle)
		}
		if b.starter >= 0 {
			add(b.starter, rows.RoleStarter)
		}
		if b.hand >= 0 {
			out.Offcuts[b.hand] = parts
		} else {
			out.Planks = append(out.Planks, parts)
		}
	}
	rows.Sort(out.Planks)
	return out
}

// A side is what is to be matched: boards without an ender and left-ended offcuts as guests, by the room beside an
// ender that they ask for; boards with an ender and no starter as hosts, by the room that they have; and right-ended
// offcuts, which host boards only. All is in ascending order.
type side struct {
	heads []*board // ask used
	left  []int    // offcuts; ask Plank - Kerf - Length
	tails []*board // have Plank - Kerf - used
	right []int    // offcuts; have Length
}

// sides sorts the boards and the offcuts that are free.
func (c *cutter) sides() *side {
	s := new(side)
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

// match finds a largest matching and calls pair for each of its pairs: of a head, or a left-ended offcut, with a tail,
// and of a head with a right-ended offcut. As in package rows as many heads as possible go to offcuts, the longest that
// fit, and the rest is matched smallest first.
func (c *cutter) match(s *side, pair func(head, tail *board, hand int)) (n int) {
	used := make(map[*board]bool)
	next := len(s.heads) - 1
	for _, o := range slices.Backward(s.right) {
		for ; next >= 0; next-- {
			if h := s.heads[next]; h.used <= c.in.Offcuts[o].Length {
				used[h] = true
				n++
				pair(h, nil, o)
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
			n++
			pair(s.heads[h], t, -1)
			h++
		case l < len(s.left) && asks <= room:
			n++
			pair(nil, t, s.left[l])
			l++
		}
	}
	return n
}

// keeping asks join to keep pairs of before, as long as no more planks are needed than most.
type keeping struct {
	before []Group
	most   int
}

// join puts boards together and on offcuts until no more planks can be saved that way; gently, it leaves alone those
// that are cut as before, unless others come onto them.
func (c *cutter) join(k *keeping, gently bool) {
	c.ontoNone(gently)
	s := c.sides()
	if k != nil {
		c.keep(s, k)
	}
	type joint struct {
		head, tail *board
		hand       int
	}
	var joints []joint
	c.match(s, func(h, t *board, o int) { joints = append(joints, joint{h, t, o}) })
	for _, j := range joints {
		if gently && (j.head == nil || j.head.stays) && (j.tail == nil || j.tail.stays) {
			continue
		}
		c.unite(j.head, j.tail, j.hand)
	}
	c.squeeze(gently)
}

// unite puts a head on the board of a tail, or either on an offcut.
func (c *cutter) unite(head, tail *board, hand int) {
	switch {
	case hand >= 0:
		c.free[hand] = false
		if head != nil {
			head.hand = hand
		} else {
			tail.hand = hand
		}
	default:
		tail.starter = head.starter
		tail.singles = append(tail.singles, head.singles...)
		tail.used += c.in.Kerf + head.used
		c.boards = slices.DeleteFunc(c.boards, func(b *board) bool { return b == head })
	}
}

// keep unites what was cut from one plank or offcut before, where the largest matching of the rest still spares enough.
func (c *cutter) keep(s *side, k *keeping) {
	of := make(map[key]*board)
	for _, b := range c.boards {
		if b.starter >= 0 {
			of[key{b.starter, rows.RoleStarter}] = b
		}
		if b.ender >= 0 {
			of[key{b.ender, rows.RoleEnder}] = b
		}
	}
	spare := c.planks() - k.most // pairs that are to be found
	groups := slices.Clone(k.before)
	slices.SortStableFunc(groups, func(a, b Group) int { return cmp.Compare(min(b.Hand, 0), min(a.Hand, 0)) })
	none := func(*board, *board, int) {}
	drop := func(list []*board, b *board) []*board {
		return slices.DeleteFunc(slices.Clone(list), func(x *board) bool { return x == b })
	}
	without := func(list []int, o int) []int {
		return slices.DeleteFunc(slices.Clone(list), func(x int) bool { return x == o })
	}
	for _, g := range groups {
		var head, tail *board
		for _, p := range g.Parts {
			if x := c.length(p.Run, p.Role); x == 0 || x != p.Length {
				continue
			}
			switch b := of[key{p.Run, p.Role}]; p.Role {
			case rows.RoleStarter:
				head = b
			case rows.RoleEnder:
				tail = b
			}
		}
		left := *s
		switch hand := g.Hand; {
		case hand >= 0 && !c.free[hand]:
			continue
		case hand >= 0 && head != nil && slices.Contains(s.right, hand) && head.used <= c.in.Offcuts[hand].Length:
			left.heads, left.right, tail = drop(s.heads, head), without(s.right, hand), nil
		case hand >= 0 && tail != nil && slices.Contains(s.left, hand) && tail.used <= c.in.Offcuts[hand].Length:
			left.tails, left.left, head = drop(s.tails, tail), without(s.left, hand), nil
		case hand < 0 && head != nil && tail != nil && head.used+c.in.Kerf+tail.used <= c.in.Plank:
			left.heads, left.tails = drop(s.heads, head), drop(s.tails, tail)
		default:
			continue
		}
		if len(left.heads) == len(s.heads) && len(left.tails) == len(s.tails) {
			continue // taken already
		}
		if 1+c.match(&left, none) >= spare {
			c.unite(head, tail, g.Hand)
			*s = left
			spare--
		}
	}
}

// ontoNone puts boards of one-piece runs on offcuts without a factory end, the longest that fits each.
func (c *cutter) ontoNone(gently bool) {
	for o, free := range c.free {
		if !free || c.in.Offcuts[o].End != rows.EndNone {
			continue
		}
		var best *board
		for _, b := range c.boards {
			fits := b.hand < 0 && b.starter < 0 && b.ender < 0 && !(gently && b.stays) && b.used <= c.in.Offcuts[o].Length
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
func (c *cutter) squeeze(gently bool) {
	var alone []*board
	for _, b := range c.boards {
		if b.hand < 0 && b.starter < 0 && b.ender < 0 && !(gently && b.stays) {
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
