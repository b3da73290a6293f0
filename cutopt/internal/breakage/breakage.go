// Package breakage lays a planned floor again and again with planks that are lost on the way, and plans the rest anew from
// what is left where that saves a box.
//
// A plank is lost when it is opened, with one chance for all. One that is to be laid whole is culled. One that is to be
// sawn is, with even odds, culled or miscut: its first piece is spoilt and the rest of it stays for use. The floor is laid
// run by run. A run whose starter is lost has not begun, so everything from it on may still change; field planks and
// enders are replaced at once, an ender by an offcut that no later piece needs, or from another plank. The rest is
// planned anew only when the plan in hand would take one more box: offcuts on hand need no plank, and joints keep the
// stagger from those that lie.
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
	Loss     float64              // the chance that a plank is lost, 0 … 1, below 1
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

// A board is a plank or an offcut and the pieces planned on it, those with a left factory end first.
type board struct {
	length measure.Length
	left   bool // it has its left factory end
	right  bool
	opened bool
	parts  []rows.Part
	sawn   []bool // by part: it is laid or spoilt; nil for none
}

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
	stale  bool    // a piece has lost its board: the pieces must be placed anew
}

// A use is a piece of a run on a board.
type use struct{ board, part int }

func newSite(f *Floor, rng *rand.Rand, boxes int) *site {
	s := &site{Floor: f, rng: rng, layout: slices.Clone(f.Layout)}
	s.adopt(0, nil, &rows.Cutting{Planks: f.Planks})
	s.out.Boxes = max(boxes, f.Boxes(len(f.Planks)))
	return s
}

func (s *site) lay() {
	for i := 0; i < len(s.layout); {
		if s.stale || s.Boxes(s.needed()) > s.out.Boxes {
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
func (s *site) adopt(base int, hand []rows.Offcut, c *rows.Cutting) {
	s.base, s.stale, s.shut = base, false, len(c.Planks)
	s.boards = s.boards[:0]
	for _, parts := range c.Planks {
		s.boards = append(s.boards, board{length: s.Instance.Plank, left: true, right: true, parts: parts})
	}
	for o, h := range hand {
		s.boards = append(s.boards, board{
			length: h.Length, left: h.End == rows.EndLeft, right: h.End == rows.EndRight, opened: true, parts: c.Offcuts[o],
		})
	}
	s.of = make([][]use, len(s.layout)-base)
	for b := range s.boards {
		for p, part := range s.boards[b].parts {
			s.of[part.Run] = append(s.of[part.Run], use{b, p})
		}
	}
	for _, uses := range s.of {
		slices.SortStableFunc(uses, func(x, y use) int { return rank(s.part(x).Kind) - rank(s.part(y).Kind) })
	}
}

// rank orders the pieces of a run as they are laid.
func rank(k rows.Kind) int {
	return [...]int{rows.KindStarter: 0, rows.KindSingle: 0, rows.KindField: 1, rows.KindEnder: 2}[k]
}

func (s *site) part(u use) *rows.Part { return &s.boards[u.board].parts[u.part] }

// saw marks a part of a board as laid or spoilt.
func (b *board) saw(part int) {
	if b.sawn == nil {
		b.sawn = make([]bool, len(b.parts))
	}
	b.sawn[part] = true
}

// take has a piece from its board, which is opened for it if need be. It reports false when the plank is lost; a culled one
// leaves its pieces to be had from the next, a miscut one its other pieces only.
func (s *site) take(u use) bool {
	b := &s.boards[u.board]
	if !b.opened {
		s.out.Opened++
		if s.lost() {
			if b.parts[u.part].Length < b.length && s.rng.IntN(2) == 0 {
				b.opened, s.stale = true, true
				b.saw(u.part)
				s.shut--
			}
			return false
		}
		b.opened = true
		s.shut--
	}
	b.saw(u.part)
	return true
}

func (s *site) lost() bool {
	if s.rng.Float64() >= s.Loss {
		return false
	}
	s.out.Lost++
	return true
}

// begin lays the first piece of run i, and reports false if its plank is lost.
func (s *site) begin(i int) bool { return s.take(s.of[i-s.base][0]) }

// finish lays the other pieces of run i, each until one is good.
func (s *site) finish(i int) {
	for _, u := range s.of[i-s.base][1:] {
		for !s.take(u) {
			if s.boards[u.board].opened { // miscut
				s.another(*s.part(u))
				break
			}
		}
	}
}

// another has an ender from the shortest offcut that serves and that no later ender needs, else from another plank. The
// boards are then other than the plan has them, so that it must be cut anew before the next run.
func (s *site) another(ender rows.Part) {
	s.stale = true
	var found *board
	least := s.Instance.Plank
	for b := range s.boards {
		if free := s.boards[b].leftEnd(s.Instance.Kerf); free >= ender.Length && free < least {
			found, least = &s.boards[b], free
		}
	}
	if found != nil {
		if found.sawn == nil {
			found.sawn = make([]bool, len(found.parts))
		}
		found.parts = slices.Concat([]rows.Part{ender}, found.parts)
		found.sawn = slices.Concat([]bool{true}, found.sawn)
		return
	}
	for {
		s.out.Opened++
		good := !s.lost()
		if !good && s.rng.IntN(2) == 0 {
			continue // culled: nothing of it is left
		}
		s.boards = append(s.boards, board{
			length: s.Instance.Plank, left: true, right: true, opened: true, parts: []rows.Part{ender}, sawn: []bool{true},
		})
		if good {
			return
		}
	}
}

// leftEnd returns how long the stretch at the left factory end of an opened board is that no piece is sawn from and no
// starter or ender is planned on; 0 for none.
func (b *board) leftEnd(kerf measure.Length) measure.Length {
	if !b.opened || !b.left {
		return 0
	}
	free := b.length
	for k, p := range b.parts {
		switch {
		case p.Kind == rows.KindStarter:
			free -= p.Length + kerf
		case p.Kind == rows.KindEnder || b.sawn != nil && b.sawn[k]: // it has the left end, or may
			return 0
		}
	}
	return free
}

// onHand lists the stretches of opened boards that no piece is sawn from, as offcuts.
func (s *site) onHand() []rows.Offcut {
	var out []rows.Offcut
	kerf := s.Instance.Kerf
	for k := range s.boards {
		b := &s.boards[k]
		if !b.opened {
			continue
		}
		from, at := measure.Length(0), measure.Length(0) // of the free stretch, and of the next part
		add := func(to measure.Length) {
			end := rows.EndNone
			switch {
			case from == 0 && b.left:
				end = rows.EndLeft
			case to == b.length && b.right:
				end = rows.EndRight
			}
			if to > from {
				out = append(out, rows.Offcut{Length: to - from, End: end})
			}
		}
		for p, part := range b.parts {
			if part.Kind == rows.KindStarter || part.Length == b.length {
				at = b.length - part.Length
			}
			if b.sawn != nil && b.sawn[p] {
				add(at - kerf)
				from = at + part.Length + kerf
			}
			at += part.Length + kerf
		}
		add(b.length)
	}
	return out
}

// rest returns the bare problem of the runs from i on, with the useful offcuts on hand and the joints that lie beside.
func (s *site) rest(i int) *rows.Instance {
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
	for _, o := range s.onHand() {
		if o.Length >= shortest || o.End != rows.EndNone && o.Length >= in.MinPiece {
			in.Offcuts = append(in.Offcuts, o)
		}
	}
	return &in
}

// replan places the pieces of the runs from i on anew on what is left. Where that takes one more box it looks for other
// starters, and where none help it buys one.
func (s *site) replan(i int) {
	in := s.rest(i)
	c := in.Cut(s.layout[i:], nil)
	boxes := func(planks int) int { return s.Boxes(s.out.Opened + planks) }
	if boxes(len(c.Planks)) > s.out.Boxes && !s.Fixed {
		s.out.Replanned++
		out, err := fewest.Solve(in, &fewest.Settings{
			Enough: func(planks, bound int) bool { return boxes(planks) <= max(boxes(bound), s.out.Boxes) },
			Effort: -2, Stop: s.Stop,
		})
		if err == nil && out.Planks < len(c.Planks) {
			copy(s.layout[i:], out.Layout)
			c = in.Cut(out.Layout, out.Packing)
		}
	}
	if s.stale || len(c.Planks) < s.shut {
		s.adopt(i, in.Offcuts, c)
	}
	s.out.Boxes = max(s.out.Boxes, s.Boxes(s.needed()))
}
