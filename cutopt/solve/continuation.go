package solve

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A continuation builds the plan of a job that has been begun: what lies as it lies, and the rest.
type continuation struct {
	*assembler
	s       *standing
	r       *restplan
	starter rows.Layout         // by run of the problem
	number  []int               // by plank of the plan before that is opened: its number; else 0
	planks  [][]rows.Part       // by number less 1, of those that are not opened: runs by problem
	hands   map[int][]rows.Part // by part on hand: what is cut from it, runs by problem
}

// assembleRest makes the plan. Loose lets starters of before be laid as their offcuts come where that still holds.
func (s *standing) assembleRest(r *restplan, loose bool) *cutopt.Plan {
	a := &continuation{s: s, r: r, assembler: &assembler{problem: s.problem, plan: &cutopt.Plan{
		Version: cutopt.PlanVersion, Job: s.job.Name, Unit: s.job.Unit,
	}}}
	a.starter = s.starters(r.rest, r.layout)
	a.numbers()
	a.rooms()
	for f, lot := range r.lots {
		a.plan.Floors[f].Lot = lot
	}
	a.pieces()
	a.ends()
	a.strips()
	if a.cut(); loose && a.asTheyCame() {
		a.slack = 0
		a.cut()
	}
	a.figures()
	a.account()
	return a.plan
}

// numbers gives planks their numbers: those opened keep theirs, the others take what is left in the order in which they
// are first needed. Where fewer are left than the last one opened, the last ones opened take the numbers over.
func (a *continuation) numbers() {
	of := func(parts []rows.Part) []rows.Part {
		out := slices.Clone(parts)
		for k := range out {
			out[k].Run = a.r.full[out[k].Run]
		}
		return out
	}
	var fresh [][]rows.Part
	for _, parts := range a.r.cutting.Planks {
		fresh = append(fresh, of(parts))
	}
	rows.Sort(fresh)
	a.hands = make(map[int][]rows.Part)
	for o, parts := range a.r.cutting.Offcuts {
		if len(parts) > 0 {
			a.hands[a.r.hand[o]] = of(parts)
		}
	}
	all := len(fresh)
	for k := range a.s.uses {
		if a.s.uses[k].Opened {
			all++
		}
	}
	a.number, a.planks = make([]int, len(a.s.uses)), make([][]rows.Part, all)
	used := make([]bool, all)
	var late []int
	for k := range a.s.uses {
		switch {
		case !a.s.uses[k].Opened:
		case k < all:
			a.number[k], used[k] = k+1, true
		default:
			late = append(late, k)
		}
	}
	for n := range used {
		if used[n] {
			continue
		}
		switch {
		case len(fresh) > 0:
			a.planks[n], fresh = fresh[0], fresh[1:]
		default:
			a.number[late[0]], late = n+1, late[1:]
		}
	}
}

// pieces lays every run: what lies as it lies, and on from there.
func (a *continuation) pieces() {
	from := make(sources)
	for n, parts := range a.planks {
		from.note(n+1, parts)
	}
	for k, parts := range a.hands {
		from.note(a.number[a.s.hand[k].plank], parts)
	}
	for i, at := range a.places {
		run, lies := &a.plan.Floors[at.room].Rows[at.row].Runs[at.run], &a.s.runs[i]
		for _, p := range lies.pieces {
			p.Plank = a.number[p.Plank-1]
			p.Shape, p.Shaping = nil, nil // as the room has it where it lies
			a.shape(&p, at)
			run.Pieces = append(run.Pieces, p)
		}
		switch {
		case lies.all:
		case lies.inHand():
			a.layRun(i, lies.joints[len(lies.joints)-1]-a.instance.Runs[i].From, 0, from)
		default:
			a.layRun(i, 0, a.starter[i], from)
		}
		if at.mirrored {
			slices.Reverse(run.Pieces)
		}
	}
}

// cut records how every plank is cut.
func (a *continuation) cut() {
	type key struct {
		run  int
		role rows.Role
	}
	refs := make([][]cutopt.PieceRef, len(a.planks))
	place := make(map[cutopt.PieceRef]int) // of pieces that lie: where on its plank one begins
	for k := range a.s.uses {
		for n, ref := range a.s.uses[k].Pieces {
			if a.s.before.Piece(ref).Lies {
				place[a.moved(ref)] = int(a.s.spans[k][n].from)
			}
		}
	}
	from := make(map[key]int) // of a planned piece: the part on hand that it is cut from
	for k, parts := range a.hands {
		for _, p := range parts {
			from[key{p.Run, p.Role}] = k
		}
	}
	for i, at := range a.places {
		pieces := a.plan.Floors[at.room].Rows[at.row].Runs[at.run].Pieces
		for m := range pieces {
			ref := cutopt.PieceRef{Floor: at.room, Row: at.row, Run: at.run, Piece: m}
			p := &pieces[m]
			refs[p.Plank-1] = append(refs[p.Plank-1], ref)
			if p.Lies {
				continue
			}
			nth := m
			if at.mirrored {
				nth = len(pieces) - 1 - m
			}
			role := rows.RoleField
			switch {
			case len(pieces) == 1:
				role = rows.RoleSingle
			case nth == 0:
				role = rows.RoleStarter
			case nth == len(pieces)-1:
				role = rows.RoleEnder
			}
			if k, ok := from[key{i, role}]; ok {
				place[ref] = int(a.s.hand[k].from)
			}
		}
	}
	a.plan.Planks = make([]cutopt.PlankUse, len(a.planks))
	for n := range a.planks {
		if len(a.planks[n]) > 0 {
			a.plan.Planks[n] = a.plank(n+1, refs[n], a.planks[n])
			a.plan.Planks[n].Lot = a.plan.Floors[refs[n][0].Floor].Lot
		}
	}
	for k := range a.s.uses {
		if n := a.number[k]; n > 0 {
			a.plan.Planks[n-1] = a.opened(k, refs[n-1], place)
		}
	}
}

// moved returns where a piece that lies is in the plan: a run in hand may have more pieces, or fewer, than before, and
// those that lie come first from where it begins.
func (a *continuation) moved(ref cutopt.PieceRef) cutopt.PieceRef {
	i := a.s.at[runKey{ref.Floor, ref.Row, ref.Run}]
	if a.places[i].mirrored {
		was := len(a.s.runs[i].was)
		is := len(a.plan.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run].Pieces)
		ref.Piece += is - was
	}
	return ref
}

// opened lays out an opened plank: its pieces and what is left over by where they begin on it, stretch by stretch
// between what is gone.
func (a *continuation) opened(k int, refs []cutopt.PieceRef, place map[cutopt.PieceRef]int) cutopt.PlankUse {
	was := &a.s.uses[k]
	use := cutopt.PlankUse{
		Number: a.number[k], Opened: true, Brought: was.Brought, Gone: slices.Clone(was.Gone), Lot: was.Lot,
	}
	slices.SortStableFunc(refs, func(x, y cutopt.PieceRef) int {
		if d := place[x] - place[y]; d != 0 {
			return d
		}
		return side(a.piece(x).Ends) - side(a.piece(y).Ends)
	})
	use.Pieces = refs
	w := &walker{continuation: a, use: &use}
	for _, part := range w.parts(k, place) {
		w.fill(part.from, part.to, part.refs)
	}
	w.cuts()
	return use
}

// A walker goes along an opened plank from its left end.
type walker struct {
	*continuation
	use *cutopt.PlankUse
}

// A filled part is one on hand and the pieces cut from it.
type filledPart struct {
	from, to measure.Length
	refs     []cutopt.PieceRef
}

// parts lists the parts on hand of a plank.
func (w *walker) parts(k int, place map[cutopt.PieceRef]int) (out []filledPart) {
	for _, p := range w.s.hand {
		if p.plank != k {
			continue
		}
		part := filledPart{from: p.from, to: p.to}
		for _, ref := range w.use.Pieces {
			if !w.piece(ref).Lies && place[ref] == int(p.from) {
				part.refs = append(part.refs, ref)
			}
		}
		out = append(out, part)
	}
	return out
}

// fill notes what is left over of a part when its pieces are cut from its left end, with a kerf after each, and one
// that keeps the right end of the plank from there.
func (w *walker) fill(from, to measure.Length, refs []cutopt.PieceRef) {
	l, kerf := w.job.Plank.Length, w.job.Rules.Kerf
	left := func(to measure.Length) {
		if to <= from {
			return
		}
		o := cutopt.Leftover{From: from, To: to}
		if o.From == 0 {
			o.Ends |= cutopt.EndsLeft
		}
		if o.To == l {
			o.Ends |= cutopt.EndsRight
		}
		w.use.Left = append(w.use.Left, o)
	}
	for _, ref := range refs {
		p := w.piece(ref)
		switch {
		case p.AsItComes > 0: // all there is of it
			return
		case p.Ends == cutopt.EndsRight:
			left(l - p.Length - kerf)
			return
		}
		if p.Ends == cutopt.EndsNone && from == 0 { // a one-piece run
			p.Ends = cutopt.EndsLeft
		}
		if from += p.Length; from == l {
			p.Ends |= cutopt.EndsRight
		}
		from += kerf
	}
	left(to)
}

// cuts goes over pieces and leftovers and notes every cut: at the right end of each that does not end its stretch, and
// before a piece that keeps the plank's right end. What comes as it comes is not sawn.
func (w *walker) cuts() {
	l, kerf := w.job.Plank.Length, w.job.Rules.Kerf
	pos, piece, over := measure.Length(0), 0, 0
	saw := func(at measure.Length) { w.use.Cuts = append(w.use.Cuts, cutopt.Cut{At: at}) }
	stretch := func(end measure.Length) {
		for pos < end {
			to := end
			switch {
			case over < len(w.use.Left) && w.use.Left[over].From == pos:
				to = w.use.Left[over].To
				over++
			case piece < len(w.use.Pieces):
				p := w.piece(w.use.Pieces[piece])
				piece++
				at := pos
				if p.Ends&cutopt.EndsRight != 0 {
					at = l - p.Length
				}
				switch {
				case p.AsItComes > 0:
					w.uncut(at - pos)
				case at > pos:
					saw(at - kerf)
				}
				to = at + p.Length
				if p.AsItComes > 0 && p.Ends == cutopt.EndsLeft && piece < len(w.use.Pieces) {
					next := w.piece(w.use.Pieces[piece])
					longer := l - next.Length - kerf - to
					w.uncut(longer)
					to += max(0, longer)
				}
			}
			if to >= end {
				break
			}
			saw(to)
			pos = min(to+kerf, end)
		}
		pos = end
	}
	for _, g := range w.use.Gone {
		stretch(g.From)
		pos = g.To
	}
	stretch(l)
}
