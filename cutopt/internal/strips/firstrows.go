package strips

import (
	"context"
	"slices"

	"plank.example/cutopt/measure"
)

// A FirstRow is a width of the first row and the rows that it gives.
type FirstRow struct {
	Width measure.Length
	Rows  []Row
}

// FirstRows lists the first rows on the grid that leave no strip that nobody could hold and no edge row narrower than
// asked, each way for the rows to lie once: by the least width that gives it. Where all leave the one or the other,
// those without strips are listed, and else all; fair is 2, 1 or 0 then. A width that is asked for is the only one.
// Where all walls run along the rows or square to them, rows change only as a line between them passes a corner, or
// comes so near to one that the trim hides what lies between: only widths beside such places are tried, whatever the
// grid.
//
// ok is false where the rows may change otherwise, so that the list is not known to be whole: where a wall slants or a
// round thing stands, where jogs were straightened, where the floor is one of several rooms, and where it would take
// more than so many ways or pieces together.
func (f *Floor) FirstRows(ctx context.Context, asked measure.Length, most int) (list []FirstRow, fair int, ok bool) {
	if !f.level || len(f.Rows) == 0 {
		return nil, 0, false
	}
	p := f.placing
	widths := []int64{int64(asked)}
	if asked == 0 {
		widths = p.turning()
	}
	if work := int64(len(widths)) * int64(len(f.Rows)+len(p.region.cells)); work > effort {
		return nil, 0, false
	}
	all, fair, err := p.ways(&poll{ctx: ctx}, widths)
	if err != nil {
		return nil, 0, false
	}
	for i := range all {
		rows := all[i].rows
		if slices.ContainsFunc(list, func(r FirstRow) bool { return r.Alike(rows) }) {
			continue
		}
		if list = append(list, FirstRow{measure.Length(all[i].first), rows}); len(list) > most {
			return nil, 0, false
		}
	}
	return list, fair, true
}

// Thin reports whether the rows leave a strip that nobody could hold.
func (f *Floor) Thin() bool { return f.chosen.thin > 0 }

// Alike reports whether rows are the same problem as those that the first row gives: the same runs, and rows that lie
// beside each other.
func (r *FirstRow) Alike(rows []Row) bool { return alikeRows(r.Rows, rows) }

// alikeRows reports whether rows are the same problem: the same runs, and rows that lie beside each other.
func alikeRows(a, b []Row) bool {
	return slices.EqualFunc(a, b, func(p, q Row) bool { return slices.Equal(p.Runs, q.Runs) }) &&
		slices.Equal(gaps(a), gaps(b))
}

// gaps lists the rows that do not begin where the one before ends.
func gaps(rows []Row) (out []int) {
	for i := 1; i < len(rows); i++ {
		if rows[i].From != rows[i-1].To {
			out = append(out, i)
		}
	}
	return out
}

// turning lists widths of the first row on the grid, ascending: those at which rows change, if they lie on it, one
// between them each, and the whole plank.
func (p *placing) turning() []int64 {
	hide := p.cover
	var places []int64
	at := func(y int64) {
		m := ((y-p.from)%p.width + p.width) % p.width
		for _, d := range []int64{-hide - 1, -hide, 0, hide, hide + 1, -p.minStrip, p.minStrip} {
			places = append(places, ((m+d)%p.width+p.width)%p.width)
		}
	}
	for i := range p.region.cells {
		at(p.region.cells[i].from)
		at(p.region.cells[i].to)
	}
	at(p.from + p.minRip)
	at(p.to - p.minRip)
	at(p.from)
	at(p.to)
	slices.Sort(places)
	places = slices.Compact(places)
	last := (p.width - 1) / p.grid * p.grid
	widths := []int64{p.width, last, min(p.grid, p.width)}
	add := func(w int64) {
		if 0 < w && w < p.width {
			widths = append(widths, w)
		}
	}
	if lines := last / p.grid; int64(len(places)) >= lines {
		for w := p.grid; w < p.width; w += p.grid {
			add(w)
		}
	} else {
		for _, m := range places { // at it, and beyond it up to the next
			on := (m + p.grid - 1) / p.grid * p.grid
			if add(on); on == m {
				add(on + p.grid)
			}
		}
	}
	slices.Sort(widths)
	return slices.Compact(widths)
}

// A levelFloor is a width of the first row, the rows that it gives, and whether they leave a strip that nobody could
// hold.
type levelFloor struct {
	first int64
	rows  []Row
	thin  bool
}

// ways lays the rows by each width and returns those that leave no strip that nobody could hold, and of these the ones
// that keep the width of edge rows; those that are left where all are dropped otherwise. Fair is as in FirstRows.
func (p *placing) ways(clock *poll, widths []int64) (list []levelFloor, fair int, err error) {
	l := newLeveller(p, clock)
	var all, whole []levelFloor
	for _, keep := range []bool{true, false} {
		for _, first := range widths {
			if p.keepsRip(first) != keep {
				continue
			}
			w, err := l.lay(first)
			if err != nil {
				return nil, 0, err
			}
			if all = append(all, w); !w.thin {
				whole = append(whole, w)
			}
		}
		if keep && len(whole) > 0 {
			return whole, 2, nil
		}
	}
	if len(whole) > 0 {
		return whole, 1, nil
	}
	return all, 0, nil
}

// keepsRip reports whether a first row leaves both edge rows of a floor whose edge walls run along them as wide as
// asked, where the floor is more than a row. A row that the trim hides is none.
func (p *placing) keepsRip(first int64) bool {
	whole := p.to - p.from
	keeps := func(w int64) bool { return w >= p.minRip || w <= p.cover }
	if whole <= first {
		return keeps(whole)
	}
	last := (whole-first-1)%p.width + 1
	return keeps(first) && keeps(last)
}

// A leveller cuts a floor whose walls run along the rows or square to them into rows again and again. Rows of full
// width between the same two walls along them are alike and cut once.
type leveller struct {
	*placing
	clock   *poll
	heights []int64 // of walls along the rows, ascending
	full    map[int]levelRow
}

// A levelRow is the runs of a row, and whether it has a strip that nobody could hold.
type levelRow struct {
	runs []Run
	thin bool
}

func newLeveller(p *placing, clock *poll) *leveller {
	l := &leveller{placing: p, clock: clock, full: make(map[int]levelRow)}
	for i := range p.region.cells {
		l.heights = append(l.heights, p.region.cells[i].from, p.region.cells[i].to)
	}
	slices.Sort(l.heights)
	l.heights = slices.Compact(l.heights)
	return l
}

// lay cuts the floor into rows with a first row. Rows without floor at the two ends are left out.
func (l *leveller) lay(first int64) (levelFloor, error) {
	w := levelFloor{first: first}
	lines := l.lines(min(first, l.to-l.from))
	for k := range len(lines) - 1 {
		row, err := l.row(lines[k], lines[k+1])
		if err != nil {
			return w, err
		}
		w.thin = w.thin || row.thin
		w.rows = append(w.rows, Row{measure.Length(lines[k]), measure.Length(lines[k+1]), row.runs})
	}
	w.rows = trimmed(w.rows)
	return w, nil
}

// trimmed leaves out rows without floor at the two ends.
func trimmed(rows []Row) []Row {
	for len(rows) > 0 && len(rows[0].Runs) == 0 {
		rows = rows[1:]
	}
	for len(rows) > 0 && len(rows[len(rows)-1].Runs) == 0 {
		rows = rows[:len(rows)-1]
	}
	return rows
}

// row cuts one row.
func (l *leveller) row(low, high int64) (levelRow, error) {
	slab, found := slices.BinarySearch(l.heights, low)
	if !found {
		slab--
	}
	alike := high-low == l.width && slab >= 0 && (slab+1 == len(l.heights) || high <= l.heights[slab+1])
	if row, ok := l.full[slab]; ok && alike {
		return row, nil
	}
	strips, err := l.region.rows(l.clock, []int64{low, high}, l.most)
	if err != nil {
		return levelRow{}, err
	}
	if err := l.clock.spend(len(l.region.cells) + 8*(1+len(strips[0]))); err != nil {
		return levelRow{}, err
	}
	s, row, sum := strip{low, high, l.cover, l.rooms, l.notch}, levelRow{}, score{}
	for _, part := range s.band(strips[0]).parts {
		row.runs = append(row.runs, Run{measure.Length(part.from), measure.Length(part.to)})
		sum.thin += l.crumb(&part)
		for _, chain := range chains(columns(part.patches)) {
			l.judge(&sum, &s, chain)
		}
	}
	if row.thin = sum.thin > 0; alike {
		l.full[slab] = row
	}
	return row, nil
}

// level reports whether all walls run along the rows or square to them, once those that turning has rounded are put
// back on the axes.
func (d *drawing) level() bool {
	if len(d.rooms) != 1 || len(d.discs) > 0 {
		return false
	}
	for _, r := range slices.Concat(d.outlines, d.islands) {
		for i := range r {
			if a, b := r[i].at, r[(i+1)%len(r)].at; a.x != b.x && a.y != b.y {
				return false
			}
		}
	}
	return true
}

// Nicest returns the width of the first row, of all on the grid that give the same rows as the one listed, that the
// planner would choose, and whether it breaks no rule worse than another floor does: as for strips that nobody could
// hold, and edge rows narrower than asked.
func (f *Floor) Nicest(
	ctx context.Context, as *FirstRow, asked measure.Length, than *Floor,
) (width measure.Length, fair bool) {
	p, clock := f.placing, &poll{ctx: ctx}
	l := newLeveller(p, clock)
	const most = 4096
	step := p.grid * max(1, (p.width/p.grid+most-1)/most)
	widths := []int64{int64(as.Width), p.width}
	for w := step; w < p.width; w += step {
		widths = append(widths, w)
	}
	if asked > 0 {
		widths = []int64{int64(asked)}
	}
	var all []score
	for _, w := range widths {
		laid, err := l.lay(w)
		if err != nil {
			return 0, false
		}
		if !alikeRows(laid.rows, as.Rows) {
			continue
		}
		s, err := p.score(clock, min(w, p.to-p.from), true)
		if err != nil {
			return 0, false
		}
		all = append(all, s)
	}
	if len(all) == 0 {
		return 0, false
	}
	p.sort(all)
	best := &all[0]
	return measure.Length(best.first), best.fair(&than.chosen)
}

// exactTimes is how many fewer first rows of a large floor are laid with all that ends and slivers ask for than are
// scored, which is several times less work.
const exactTimes = 3

// Fairer lists first rows on the grid, whatever the shape of the floor, that break no rule worse than another floor
// does, as Nicest has it: each way for the rows to lie once, what looks best first. The rows are those that Lay cuts,
// but for runs with next to no floor in them. Of a large floor only the most promising widths are looked at; work is
// bounded as that of choosing one is.
func (f *Floor) Fairer(ctx context.Context, than *Floor) ([]FirstRow, error) {
	p, clock := f.placing, &poll{ctx: ctx}
	widths := []int64{p.fixed}
	if p.fixed == 0 {
		widths = p.candidates(0, effort/exactTimes) // a first row that the trim hides is none, and counts
	}
	var all []score
	laid := make(map[int64][]Row)
	for _, w := range widths {
		w = min(w, p.to-p.from)
		lines := p.lines(w)
		rows := make([]Row, len(lines)-1)
		for k := range rows {
			rows[k].From, rows[k].To = measure.Length(lines[k]), measure.Length(lines[k+1])
		}
		s, err := p.cut(clock, w, true, &than.chosen, func(k int, parts []part) {
			for i := range parts {
				rows[k].Runs = append(rows[k].Runs, Run{measure.Length(parts[i].from), measure.Length(parts[i].to)})
			}
		})
		if err != nil {
			return nil, err
		}
		if s.fair(&than.chosen) {
			all, laid[w] = append(all, s), trimmed(rows)
		}
	}
	if len(all) == 0 {
		return nil, nil
	}
	p.sort(all)
	var out []FirstRow
	for i := range all {
		rows := laid[all[i].first]
		if !slices.ContainsFunc(out, func(r FirstRow) bool { return r.Alike(rows) }) {
			out = append(out, FirstRow{measure.Length(all[i].first), rows})
		}
	}
	return out, nil
}
