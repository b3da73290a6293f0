package quality

import (
	"math"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// pairUp begins to keep a pairing: that of the planks the state was made from, or where starters have moved since, the
// best by number, which uses offcuts soon as far as exchanges reach.
func (st *state) pairUp() {
	if st.paired {
		return
	}
	cutting := st.initial
	if st.moved {
		cutting = st.in.Cut(st.start, st.packing())
	}
	boardOf := make(map[int]int)
	for b := range st.boards {
		for _, i := range st.boards[b].runs {
			boardOf[i] = len(st.pieces) + b
		}
	}
	for _, parts := range cutting.Planks {
		if e := parts[0]; e.Role == rows.RoleEnder && len(parts) > 1 {
			h := parts[len(parts)-1].Run
			if b, ok := boardOf[h]; ok {
				h = b
			}
			st.headOf[e.Run], st.enderOf[h] = h, e.Run
			st.pairs++
		}
	}
	st.paired = true
	last := 0
	if n := len(st.p.Row); n > 0 {
		last = st.p.Row[n-1]
	}
	st.piles = newPiles(last + 1)
	for i, p := range st.pieces {
		st.values[cutopt.AimCrosscuts] += st.trim(p.Single) + st.trim(p.Ender)
		if st.isEnder(i) && st.headOf[i] < 0 {
			st.plank(-1, i, 1)
		}
	}
	for h := range st.enderOf {
		if st.isHead(h) {
			st.plank(h, st.enderOf[h], 1)
		}
	}
}

// packing names the planks that one-piece runs are cut from.
func (st *state) packing() rows.Packing {
	p := make(rows.Packing, len(st.pieces))
	for i := range p {
		p[i] = -1
	}
	for h, guests := range st.guests {
		for _, g := range guests {
			p[g] = h
		}
	}
	for _, b := range st.boards {
		for _, g := range b.runs[1:] {
			p[g] = b.runs[0]
		}
	}
	return p
}

// trim returns 1 where a piece that takes a whole plank, should its run come out long, is cut all the same.
func (st *state) trim(x measure.Length) int {
	if x == st.in.Plank && st.p.Fit > 0 {
		return 1
	}
	return 0
}

// show counts (by 1) or takes away (by -1) the figures of the planks that the starter and the ender of run i are cut
// from.
func (st *state) show(i, by int) {
	st.values[cutopt.AimCrosscuts] += by * st.trim(st.pieces[i].Ender)
	if st.isHead(i) {
		st.plank(i, st.enderOf[i], by)
	}
	if st.isEnder(i) && (st.headOf[i] != i || !st.isHead(i)) {
		st.plank(st.headOf[i], i, by)
	}
}

// plank counts or takes away the cuts of a plank with head h and the ender of run e, either of which may be -1, and the
// rows over which a part of it is kept.
func (st *state) plank(h, e, by int) {
	st.values[cutopt.AimCrosscuts] += by * st.cuts(h, e)
	first, last := math.MaxInt, -1
	row := func(run int) { first, last = min(first, st.p.Row[run]), max(last, st.p.Row[run]) }
	if e >= 0 {
		row(e)
	}
	if h >= 0 {
		for _, g := range st.guestsOf(h) {
			row(g)
		}
		if h < len(st.pieces) {
			row(h)
		}
	}
	if first >= last {
		return
	}
	st.values[cutopt.AimWaiting] += by * (last - first - 1)
	st.piles.add(first, last, int32(by))
	st.values[cutopt.AimOffcuts] = int(st.piles.most)
}

func (st *state) guestsOf(h int) []int {
	if h < len(st.pieces) {
		return st.guests[h]
	}
	return st.boards[h-len(st.pieces)].runs
}

// cuts counts the saw cuts of a plank, its pieces as long as they are planned.
func (st *state) cuts(h, e int) int {
	at, n := measure.Length(0), 0
	saw := func(length measure.Length) {
		if at += length - st.p.Fit; at < st.in.Plank {
			n++
		}
		at += st.in.Kerf
	}
	if e >= 0 {
		saw(st.pieces[e].Ender)
	}
	if h < 0 {
		return n
	}
	for _, g := range st.guestsOf(h) {
		saw(st.in.Runs[g].Length)
	}
	if h < len(st.pieces) {
		if longer := st.in.Plank - st.pieces[h].Starter - at; longer > 0 && !st.asItComes(h, e, longer) {
			n++
		}
	}
	return n
}

// nearby is how many rows after its ender a starter lies for whose sake an offcut is kept as it comes. With one more,
// floors take 8 % fewer cuts, and half as many rows more for which offcuts lie about.
const nearby = 1

// asItComes reports whether the starter of run h, the last piece on the plank of the ender of run e, is laid as its
// offcut comes, which is so much longer: as far as this plank alone goes. What a chain of offcuts adds, and which
// joints may come too near for it, is seen when the floor is planned.
func (st *state) asItComes(h, e int, longer measure.Length) bool {
	if longer > st.p.AsItComes || e < 0 || e >= h || st.p.Row[h]-st.p.Row[e] > nearby ||
		st.p.Sawn != nil && st.p.Sawn[h] {
		return false
	}
	for _, g := range st.guests[h] {
		if g > h {
			return false
		}
	}
	return st.pieces[h].Ender-longer-st.p.Fit >= max(st.in.MinPiece, st.in.MinEnder)
}

// pair lets the ender of run e share its plank with head h, which has no other, or with none (-1).
func (st *state) pair(e, h int) {
	if old := st.headOf[e]; old != h {
		st.log = append(st.log, change{run: e, head: old})
		st.link(e, h)
	}
}

func (st *state) link(e, h int) {
	old := st.headOf[e]
	st.plank(old, e, -1)
	if h >= 0 {
		st.plank(h, -1, -1)
		st.enderOf[h] = e
		st.pairs++
	}
	st.headOf[e] = h
	st.plank(h, e, 1)
	if old >= 0 {
		st.enderOf[old] = -1
		st.pairs--
		st.plank(old, -1, 1)
	}
}

// part takes apart the pairs that do not go with run i when it is laid as now.
func (st *state) part(i int, now rows.Pieces) {
	plank := st.in.Plank
	room := plank - st.in.Kerf - now.Ender
	if e := st.enderOf[i]; e >= 0 && e != i && (cut(now.Starter, plank) == 0 || now.Starter > st.room(e)) {
		st.pair(e, -1)
	}
	h := st.headOf[i]
	if h < 0 {
		return
	}
	used := now.Starter
	if h != i {
		used = st.used(h)
	}
	if cut(now.Ender, plank) == 0 || used > room || h == i && cut(now.Starter, plank) == 0 {
		st.pair(i, -1)
	}
}

// cutting lists the planks as they are cut.
func (st *state) cutting() *rows.Cutting {
	var planks [][]rows.Part
	add := func(i int, k rows.Role, x measure.Length) {
		if x == st.in.Plank {
			planks = append(planks, []rows.Part{{Run: i, Role: k, Length: x}})
		}
	}
	ender := func(i int) rows.Part { return rows.Part{Run: i, Role: rows.RoleEnder, Length: st.pieces[i].Ender} }
	for i, p := range st.pieces {
		add(i, rows.RoleSingle, p.Single)
		add(i, rows.RoleStarter, p.Starter)
		for range p.Field {
			add(i, rows.RoleField, st.in.Plank)
		}
		add(i, rows.RoleEnder, p.Ender)
		if st.isEnder(i) && st.headOf[i] < 0 {
			planks = append(planks, []rows.Part{ender(i)})
		}
	}
	for h, e := range st.enderOf {
		if !st.isHead(h) {
			continue
		}
		var parts []rows.Part
		if e >= 0 {
			parts = append(parts, ender(e))
		}
		for _, g := range st.guestsOf(h) {
			parts = append(parts, rows.Part{Run: g, Role: rows.RoleSingle, Length: st.in.Runs[g].Length})
		}
		if h < len(st.pieces) {
			parts = append(parts, rows.Part{Run: h, Role: rows.RoleStarter, Length: st.pieces[h].Starter})
		}
		planks = append(planks, parts)
	}
	rows.Sort(planks)
	return &rows.Cutting{Planks: planks, Offcuts: make([][]rows.Part, len(st.in.Offcuts))}
}
