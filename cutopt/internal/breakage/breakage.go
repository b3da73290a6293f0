// Package breakage lays a planned floor again and again with planks that are lost on the way, and plans the rest anew
// from what is left where that saves a box.
//
// A plank is lost when it is opened, with one chance for all. One that is to be laid whole is culled. One that is to be
// sawn is, with even odds, culled or miscut: its first piece is spoilt and the rest of it stays for use. The floor is
// laid run by run. What is lost is replaced: a starter, a field plank and a one-piece run from another plank, an ender
// from an offcut that no later piece needs or from another plank. Only when the plan in hand would take one more box
// are the runs not begun planned anew: offcuts on hand need no plank, and joints keep the stagger from those that lie.
package breakage

import (
	"math/rand/v2"
	"slices"

	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Floor is a planned floor. It is only read, so several goroutines may lay it at once.
type Floor struct {
	Instance *rows.Instance
	Layout   rows.Layout
	Planks   [][]rows.Part        // as in rows.Cutting
	Boxes    func(planks int) int // boxes to buy for so many planks opened; never falls
	Loss     float64              // the chance that a plank is lost, 0 or more and below 1
	Fixed    bool                 // keep to the layout: lost pieces are replaced, joints stay
	Stop     func() bool          // polled while planning anew; nil for never
}

// An Outcome is a floor laid once.
type Outcome struct {
	Boxes     int // that sufficed
	Opened    int // planks, with those lost
	Lost      int // planks culled or miscut
	Replanned int // times the rest was planned anew
}

// Lay lays the floor once, from so many boxes at least. Equal draws give equal outcomes.
func (f *Floor) Lay(rng *rand.Rand, boxes int) Outcome {
	s := newSite(f, rng, boxes)
	s.lay()
	return s.out
}

// A board is a plank or an offcut on hand, and the pieces planned on it, those with a left factory end first.
type board struct {
	length measure.Length
	left   bool // it has its left factory end
	right  bool
	opened bool
	parts  []rows.Part
	sawn   []bool         // by part: it is laid or spoilt; nil for none
	gone   measure.Length // sawn off its left end by a piece that was not planned on it, with the kerf

	plank int            // the board's, from 0 in the order of opening
	at    measure.Length // where its left end lies on that plank
}

// A use is a piece of a run on a board.
type use struct{ board, part int }

// A site is a floor being laid.
type site struct {
	*Floor
	rng    *rand.Rand
	out    Outcome
	layout rows.Layout
	base   int // run 0 of the boards' parts is this run
	boards []board
	of     [][]use // by run from base: where its pieces come from, starter first
	shut   int     // planks of the plan not opened yet
	// sees, if not nil, is told of every piece sawn, at its place on its plank, and whether it is laid or spoilt; run
	// -1 is a whole plank culled. Tests follow the floor by it.
	sees func(run int, part rows.Part, plank int, at measure.Length, laid bool)
}

func newSite(f *Floor, rng *rand.Rand, boxes int) *site {
	s := &site{Floor: f, rng: rng, layout: slices.Clone(f.Layout)}
	s.adopt(0, nil, &rows.Cutting{Planks: f.Planks})
	s.out.Boxes = max(boxes, f.Boxes(len(f.Planks)))
	return s
}

func (s *site) lay() {
	for i := 0; i < len(s.layout); {
		if s.Boxes(s.needed()) > s.out.Boxes {
			s.replan(i)
		}
		if s.begin(i) {
			s.finish(i)
			i++
		}
	}
	s.out.Boxes = max(s.out.Boxes, s.Boxes(s.out.Opened))
}

// needed is the planks opened and those the plan still opens.
func (s *site) needed() int { return s.out.Opened + s.shut }

// adopt takes over a cutting of the runs from base on, with the offcuts on hand it was made for.
func (s *site) adopt(base int, hand []board, c *rows.Cutting) {
	s.base, s.shut = base, len(c.Planks)
	s.boards = make([]board, 0, len(c.Planks)+len(hand))
	for _, parts := range c.Planks {
		s.boards = append(s.boards, board{length: s.Instance.Plank, left: true, right: true, parts: parts})
	}
	for o, b := range hand {
		b.parts = c.Offcuts[o]
		s.boards = append(s.boards, b)
	}
	s.of = make([][]use, len(s.layout)-base)
	for b := range s.boards {
		for p, part := range s.boards[b].parts {
			s.of[part.Run] = append(s.of[part.Run], use{b, p})
		}
	}
	for _, uses := range s.of {
		slices.SortStableFunc(uses, func(x, y use) int { return rank(s.part(x).Role) - rank(s.part(y).Role) })
	}
}

// rank orders the pieces of a run as they are laid.
func rank(k rows.Role) int {
	return [...]int{rows.RoleStarter: 0, rows.RoleSingle: 0, rows.RoleField: 1, rows.RoleEnder: 2}[k]
}

func (s *site) part(u use) *rows.Part { return &s.boards[u.board].parts[u.part] }

// open opens a board that is a plank, and reports whether it is good; a lost one that is to be sawn may be miscut,
// which leaves the rest of it.
func (s *site) open(b *board, sawn bool) (good, miscut bool) {
	b.plank = s.out.Opened
	s.out.Opened++
	if s.rng.Float64() >= s.Loss {
		return true, false
	}
	s.out.Lost++
	miscut = sawn && s.rng.IntN(2) == 0
	if !miscut && s.sees != nil {
		s.sees(-1, rows.Part{}, b.plank, 0, false)
	}
	return false, miscut
}

// take has a piece from its board, which is opened for it if need be, and reports false when the plank is lost. A
// culled one leaves its pieces to be had from the next; a miscut one its other pieces, and the spoilt one is then had
// from a plank of its own.
func (s *site) take(u *use) bool {
	b := &s.boards[u.board]
	if !b.opened {
		good, miscut := s.open(b, b.parts[u.part].Length < b.length)
		if !good && !miscut {
			return false
		}
		b.opened = true
		s.shut--
		s.saw(b, u.part, good)
		if miscut {
			s.boards = append(
				s.boards,
				board{length: s.Instance.Plank, left: true, right: true, parts: []rows.Part{b.parts[u.part]}},
			)
			*u = use{len(s.boards) - 1, 0}
			s.shut++
		}
		return good
	}
	s.saw(b, u.part, true)
	return true
}

// saw saws a part off an opened board, to be laid or spoilt.
func (s *site) saw(b *board, part int, laid bool) {
	if b.sawn == nil {
		b.sawn = make([]bool, len(b.parts))
	}
	b.sawn[part] = true
	if s.sees != nil {
		s.sees(s.base+b.parts[part].Run, b.parts[part], b.plank, b.at+b.place(part, s.Instance.Kerf), laid)
	}
}

// place returns where a part lies on its board: a starter at its right end, others from the left, a kerf apart.
func (b *board) place(part int, kerf measure.Length) measure.Length {
	at := b.gone
	for _, p := range b.parts[:part] {
		at += p.Length + kerf
	}
	if p := b.parts[part]; p.Role == rows.RoleStarter {
		at = b.length - p.Length
	}
	return at
}

// begin lays the first piece of run i, and reports false if its plank is lost.
func (s *site) begin(i int) bool { return s.take(&s.of[i-s.base][0]) }

// finish lays the other pieces of run i, each until one is good.
func (s *site) finish(i int) {
	uses := s.of[i-s.base]
	for k := 1; k < len(uses); k++ {
		for !s.take(&uses[k]) && !(s.part(uses[k]).Role == rows.RoleEnder && s.fromOffcut(uses[k])) {
		}
	}
}

// fromOffcut has an ender whose plank is lost from the shortest offcut that serves and that no later ender needs,
// unless another plank is opened anyway for what else was planned on the lost one.
func (s *site) fromOffcut(u use) bool {
	if len(s.boards[u.board].parts) > 1 {
		return false
	}
	ender := *s.part(u)
	kerf := s.Instance.Kerf
	var found *board
	least := s.Instance.Plank
	for k := range s.boards {
		if free := s.boards[k].leftEnd(kerf); free >= ender.Length && free < least {
			found, least = &s.boards[k], free
		}
	}
	if found == nil {
		return false
	}
	s.boards[u.board].parts = nil // it is never opened
	s.shut--
	found.left, found.gone = false, ender.Length+kerf
	if s.sees != nil {
		s.sees(s.base+ender.Run, ender, found.plank, found.at, true)
	}
	return true
}

// leftEnd returns how long the stretch at the left factory end of an opened board is that no piece is sawn from and no
// starter or ender is planned on; 0 for none.
func (b *board) leftEnd(kerf measure.Length) measure.Length {
	if !b.opened || !b.left {
		return 0
	}
	free := b.length
	for _, p := range b.parts {
		if p.Role != rows.RoleStarter { // an ender has the left end, or a single
			return 0
		}
		free -= p.Length + kerf
	}
	return free
}

// onHand lists the stretches of opened boards that no piece is sawn from, as boards without parts.
func (s *site) onHand() []board {
	var out []board
	kerf := s.Instance.Kerf
	for k := range s.boards {
		b := &s.boards[k]
		if !b.opened {
			continue
		}
		from := b.gone // of the free stretch
		add := func(to measure.Length) {
			if to > from {
				out = append(out, board{
					length: to - from, left: from == 0 && b.left, right: to == b.length && b.right, opened: true,
					plank: b.plank,
					at:    b.at + from,
				})
			}
		}
		for p, part := range b.parts {
			if b.sawn != nil && b.sawn[p] {
				at := b.place(p, kerf)
				add(at - kerf)
				from = at + part.Length + kerf
			}
		}
		add(b.length)
	}
	return out
}

// rest returns the bare problem of the runs from i on, with the joints that lie beside them and the offcuts on hand
// that may be of use.
func (s *site) rest(i int) (*rows.Instance, []board) {
	all := s.Instance
	in := *all
	in.Runs = slices.Clone(all.Runs[i:])
	in.Touch, in.Offcuts = nil, nil
	for _, t := range all.Touch {
		a, b := t[0], t[1]
		switch {
		case a >= i:
			in.Touch = append(in.Touch, [2]int{a - i, b - i})
		case b >= i:
			p, _ := all.Lay(a, s.layout[a])
			run := &in.Runs[b-i]
			run.Beside = slices.Clip(run.Beside)
			for k := range p.Joints() {
				run.Beside = append(run.Beside, all.Runs[a].From+s.layout[a]+measure.Length(k)*all.Plank)
			}
		}
	}
	shortest := all.Plank + 1 // run that an offcut without a factory end could be
	for _, r := range in.Runs {
		shortest = min(shortest, r.Length)
	}
	var hand []board
	for _, b := range s.onHand() {
		end := rows.EndNone
		switch {
		case b.left:
			end = rows.EndLeft
		case b.right:
			end = rows.EndRight
		}
		if b.length >= shortest || end != rows.EndNone && b.length >= in.MinPiece {
			in.Offcuts, hand = append(in.Offcuts, rows.Offcut{Length: b.length, End: end}), append(hand, b)
		}
	}
	return &in, hand
}

// most is how often at most the rest of a floor is planned anew; where more is lost it is only repaired.
const most = 8

// replan places the pieces of the runs from i on anew on what is left. Where that still takes one more box it looks for
// other starters, and where none help it buys one.
func (s *site) replan(i int) {
	in, hand := s.rest(i)
	layout := s.layout[i:]
	c := in.Cut(layout, nil)
	boxes := func(planks int) int { return s.Boxes(s.out.Opened + planks) }
	if boxes(min(len(c.Planks), s.shut)) > s.out.Boxes && !s.Fixed && s.out.Replanned < most {
		s.out.Replanned++
		out, err := fewest.Solve(in, &fewest.Settings{
			Enough: func(planks, bound int) bool { return boxes(planks) <= max(boxes(bound), s.out.Boxes) },
			Budget: &fewest.Glance, Stop: s.Stop,
		})
		if err == nil && out.Planks < len(c.Planks) {
			layout, c = out.Layout, in.Cut(out.Layout, out.Packing)
		}
	}
	if len(c.Planks) < s.shut {
		copy(s.layout[i:], layout)
		s.adopt(i, hand, c)
	}
	s.out.Boxes = max(s.out.Boxes, s.Boxes(s.needed()))
}
