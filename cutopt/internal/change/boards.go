package change

import (
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

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

// newCutter lays the runs and sets their whole planks apart; nothing is on a board yet.
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

// empty returns a plank, or the offcut of a number, from which nothing is cut.
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

// A sawn piece is known by its run and its role.
type sawn struct {
	run  int
	role rows.Role
}

// stay puts the pieces that are as before on boards as before, and each of the others on one of its own.
func (c *cutter) stay(before []Group) {
	placed := make(map[sawn]bool)
	for _, g := range before {
		b := empty(g.Hand)
		for _, p := range g.Parts {
			k := sawn{p.Run, p.Role}
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
		if !placed[sawn{run, role}] {
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
