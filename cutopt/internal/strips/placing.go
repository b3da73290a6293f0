package strips

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A placing chooses where the rows lie.
type placing struct {
	region                               *region
	low, high                            int64 // extent of the floor across the rows, doorways and all
	from, to                             int64 // extent of the rooms' floor, without doorways
	width, minRip, minStrip, grid, cover int64
	length                               int64 // of a plank; 0 when unknown
	fixed                                int64 // width asked for the first row; 0 for none
	edges                                cutopt.EdgeRows
	ledges                               []ledge
	discs                                []disc
	most                                 int
	rooms                                [][]point
	notch                                int64
}

// A ledge is a stretch of the floor's boundary parallel to the rows.
type ledge struct {
	y, long int64
	begins  bool // the floor lies above it; else below
}

// newPlacing measures a region; closed is the same without doorways.
func newPlacing(reg, closed *region, l *Layout) *placing {
	p := &placing{
		region:   reg,
		width:    int64(l.Width),
		minRip:   int64(l.MinRip),
		minStrip: int64(l.MinStrip),
		grid:     max(1, int64(l.Grid)),
		cover: hidden(
			l,
		),
		length: int64(l.Length),
		fixed:  int64(l.FirstRow),
		edges:  l.Edges,
		notch:  notch(l),
		most:   cmp.Or(l.MaxPieces, MaxPieces),
	}
	if p.minRip == 0 {
		p.minRip = p.width / 2
	}
	p.low, p.high = reg.extent()
	p.from, p.to = closed.extent()
	return p
}

// extent returns how far a region reaches across the rows.
func (r *region) extent() (low, high int64) {
	for i, p := range r.patches() {
		if i == 0 {
			low, high = p.low, p.high
		}
		low, high = min(low, p.low), max(high, p.high)
	}
	return low, high
}

// pieces returns the fewest rows or pieces that a floor of an area takes, whichever are more. The length of the planks
// may be 0 when it is unknown.
func (p *placing) pieces(area measure.Area, length measure.Length) int64 {
	n := (p.high-p.low)/p.width + 1
	if length > 0 {
		n = max(n, int64(float64(area)/float64(length)/float64(p.width)))
	}
	return n
}

// lines returns the lines between the rows, with the two ends: a first row of the given width at the starting side of
// the rooms, rows of full width from there on both ways, into the doorways too.
func (p *placing) lines(first int64) []int64 {
	line := p.from + first
	for line-p.width > p.low {
		line -= p.width
	}
	lines := []int64{p.low}
	for ; line < p.high; line += p.width {
		if line > p.low {
			lines = append(lines, line)
		}
	}
	return append(lines, p.high)
}

// A score ranks a width of the first row.
type score struct {
	thin      int64    // length of strips that nobody could hold
	shortfall int64    // by which the narrower edge row is narrower than asked
	laid      int64    // length of all runs
	held      int      // pipes that no line between the rows lets into their piece
	narrowest int64    // width of the narrowest strip, at most a plank's
	edge      [2]int64 // width of the first and the last row where they are narrowest, at most a plank's
	first     int64
}

// score lays the rows and looks for narrow strips in them. A rough score takes the floor as it is, with slants that are
// cut straight in the end.
func (p *placing) score(clock *poll, first int64, exact bool) (score, error) {
	return p.cut(clock, first, exact, nil, func(int, []part) {})
}

// cut scores a width of the first row, and tells of the parts of each row: exactly as they are laid, or none of some.
// Where it is not as fair as a score it must be, if that is not nil, it ends with the row that shows it.
func (p *placing) cut(
	clock *poll, first int64, exact bool, must *score, tell func(row int, parts []part),
) (score, error) {
	s := score{first: first, narrowest: p.width, edge: [2]int64{p.width, p.width}}
	lines := p.lines(first)
	for i := range p.discs {
		d := &p.discs[i]
		if k, _ := slices.BinarySearch(lines, d.at.y); 0 < k && k < len(lines) && d.held(lines[k-1], lines[k]) {
			s.held++
		}
	}
	rows, err := p.region.rows(clock, lines, p.most)
	if err != nil {
		return s, err
	}
	for k, patches := range rows {
		if err := clock.spend(1 + len(patches)); err != nil {
			return s, err
		}
		row := strip{lines[k], lines[k+1], p.cover, p.rooms, p.notch}
		if len(patches) == 1 && !patches[0].slanted() && patches[0].high-patches[0].low == p.width {
			s.laid += patches[0].right0 - patches[0].left0
			tell(k, []part{{from: patches[0].left0, to: patches[0].right0}})
			continue
		}
		if !exact {
			if p.plain(&s, &row, patches) {
				continue
			}
			for _, part := range connected(patches) {
				p.rough(&s, &row, &part)
			}
			continue
		}
		parts := row.band(patches).parts
		tell(k, parts)
		for _, part := range parts {
			s.laid += part.to - part.from
			s.thin += p.crumb(&part)
			for _, chain := range chains(columns(part.patches)) {
				p.judge(&s, &row, chain)
			}
		}
		if must != nil {
			if s.shortfall = p.shortfall(&s); !s.fair(must) {
				return s, nil
			}
		}
	}
	s.shortfall = p.shortfall(&s)
	return s, nil
}

// shortfall is by how much the narrower edge row is narrower than asked, of those that are cut.
func (p *placing) shortfall(s *score) int64 { return max(0, p.minRip-min(s.edge[0], s.edge[1])) }

// fair reports whether a score breaks no rule worse than another: as for strips that nobody could hold, and edge rows
// narrower than asked.
func (s *score) fair(than *score) bool { return s.thin <= than.thin && s.shortfall <= than.shortfall }

// plain does what rough does for the parts of a row of full width within the floor that go all across it and end at
// walls that are not nearly along it: of these only what is short is narrow. It reports false for other rows.
func (p *placing) plain(s *score, row *strip, patches []patch) bool {
	if row.high-row.low != p.width || p.width < p.minStrip || row.low-p.cover <= p.from || p.to <= row.high+p.cover {
		return false
	}
	steep := func(x0, x1 int64) bool { return parallel*float64(max(x0-x1, x1-x0)) < float64(p.width) }
	for i := range patches {
		a := &patches[i]
		if a.high-a.low != p.width || max(a.left0, a.left1) >= min(a.right0, a.right1) || !steep(a.left0, a.left1) ||
			!steep(a.right0, a.right1) {
			return false
		}
	}
	for i := range patches {
		part := part{from: patches[i].left(), to: patches[i].right(), low: row.low, high: row.high}
		if part.to-part.from > row.hidden && p.width > row.hidden {
			s.laid += part.to - part.from
			s.thin += p.crumb(&part)
		}
	}
	return true
}

// rough looks for narrow strips in a part of a row as it is.
func (p *placing) rough(s *score, row *strip, part *part) {
	if part.to-part.from <= row.hidden || part.high-part.low <= row.hidden {
		return
	}
	from, to := int64(math.MaxInt64), int64(math.MinInt64)
	for _, chain := range chains(columns(part.patches)) {
		p.judge(s, row, chain)
		for i := range chain {
			if c := &chain[i]; max(c.height0(), c.height1()) > float64(row.hidden) {
				from, to = min(from, c.from), max(to, c.to)
			}
		}
	}
	s.laid += max(0, to-from)
	s.thin += p.crumb(part)
}

// crumb returns the length of a part that is too small to hold; 0 for others.
func (p *placing) crumb(part *part) int64 {
	long := part.to - part.from
	small := long < p.minStrip || part.high-part.low < p.minStrip
	if !small && long <= crumbReach*p.minStrip && slices.ContainsFunc(part.patches, patch.slanted) {
		rings := make([][]point, len(part.patches))
		for i := range part.patches {
			rings[i] = part.patches[i].corners()
		}
		_, small = crumbled(rings, float64(p.minStrip))
	}
	if small {
		return max(1, long)
	}
	return 0
}

// judge looks for narrow strips in a chain of columns of a row.
func (p *placing) judge(s *score, row *strip, chain []column) {
	for _, n := range narrows(chain, float64(p.width), short) {
		if n.tallest() < float64(row.hidden)+1 {
			continue // left out
		}
		w := int64(n.width)
		s.narrowest = min(s.narrowest, w)
	}
	// Where the trim hides what the outermost row would be, it is the one before.
	if row.low-p.cover <= p.from && p.from < row.high {
		p.edge(&s.edge[0], chain, float64(p.from))
	}
	if row.low < p.to && p.to <= row.high+p.cover {
		for i := range chain {
			chain[i] = chain[i].mirrored()
		}
		p.edge(&s.edge[1], chain, -float64(p.to))
		for i := range chain {
			chain[i] = chain[i].mirrored()
		}
	}
	for _, n := range narrows(chain, float64(p.minStrip), short) {
		if n.tallest() >= float64(row.hidden)+1 {
			s.thin += n.to() - n.from()
		}
	}
}

// edge narrows the width of an edge row to what a chain leaves along the wall at its lower side, at the end of the
// floor: all of that wall that runs within 10 degrees of the rows.
func (p *placing) edge(width *int64, chain []column, end float64) {
	for i := 0; i < len(chain); {
		if !chain[i].level() {
			i++
			continue
		}
		low, least, j := math.Inf(1), math.Inf(1), i
		for ; j < len(chain) && chain[j].level() && (j == i || math.Abs(chain[j].low0-chain[j-1].low1) <= rough); j++ {
			c := &chain[j]
			low = min(low, c.low0, c.low1)
			if up := c.mirrored(); up.level() { // else it ends there
				least = min(least, c.height0(), c.height1())
			}
		}
		if math.Abs(low-end) <= float64(p.cover)+rough && chain[j-1].to-chain[i].from > short &&
			least >= float64(p.cover)+1 {
			*width = min(*width, int64(min(least, float64(p.width))))
		}
		i = j
	}
}

// better orders scores: strips that can be held, edge rows as wide as asked, and then among those that take next to the
// least material the widest narrowest strip. In a plain room that is (rest+width)/2, the half-module rule of NAVEDTRA
// 14044, p. 7-23.
func (p *placing) better(a, b *score, least int64) int {
	spare := p.length / 2
	wasteful := func(s *score) int64 { return max(0, s.laid-least-spare) }
	order := cmp.Or(
		cmp.Compare(a.thin, b.thin),
		cmp.Compare(a.shortfall, b.shortfall),
		cmp.Compare(wasteful(a), wasteful(b)),
	)
	if p.edges == cutopt.EdgeRowsWholeFirst {
		order = cmp.Or(order, cmp.Compare(b.first/p.width, a.first/p.width))
	}
	return cmp.Or(
		order,
		cmp.Compare(b.narrowest, a.narrowest),
		cmp.Compare(min(b.edge[0], b.edge[1]), min(a.edge[0], a.edge[1])),
		cmp.Compare(a.held, b.held),
		cmp.Compare(a.laid, b.laid),
		cmp.Compare(b.first, a.first),
	)
}

// choose returns the score of the width of the first row that was asked for, or of the best on the grid.
func (p *placing) choose(clock *poll) (best score, err error) {
	if p.fixed > 0 {
		return p.score(clock, min(p.fixed, p.to-p.from), true)
	}
	var all []score
	for _, first := range p.candidates(p.cover, effort) {
		s, err := p.score(clock, first, false)
		if err != nil {
			return best, err
		}
		all = append(all, s)
	}
	p.sort(all)
	exact := slices.Clone(all[:min(len(all), looked, 1+len(all)/8)])
	for i := range exact {
		if exact[i], err = p.score(clock, exact[i].first, true); err != nil {
			return best, err
		}
	}
	p.sort(exact)
	return exact[0], nil
}

// looked is how many of the best places are looked at exactly.
const looked = 4

// sort sorts scores, the best first. Material is compared with the least that any place takes among those that keep the
// rules as well as any.
func (p *placing) sort(all []score) {
	rules := func(a, b *score) int {
		return cmp.Or(cmp.Compare(a.thin, b.thin), cmp.Compare(a.shortfall, b.shortfall))
	}
	best := &all[0]
	for i := range all {
		if c := rules(&all[i], best); c < 0 || c == 0 && all[i].laid < best.laid {
			best = &all[i]
		}
	}
	least := best.laid
	slices.SortStableFunc(all, func(a, b score) int { return p.better(&a, &b, least) })
}

// effort bounds what the places of the first row that are tried take together, in cells and rows.
const effort = 60_000

// candidates returns the widths of the first row that are tried: a whole plank, the half-module rule, and those on the
// grid above a width, if need be the most promising ones, so that they take no more than the given work.
func (p *placing) candidates(above, work int64) []int64 {
	whole := p.to - p.from
	widest := min(p.width, whole)
	out := []int64{widest}
	balanced := (whole%p.width + p.width) / 2
	balanced -= balanced % p.grid
	if balanced > above && balanced < widest {
		out = append(out, balanced)
	}
	const most = 4096
	step := p.grid * max(1, (p.width/p.grid+most-1)/most)
	for first := step; first < widest; first += step {
		if first > above && first != balanced {
			out = append(out, first)
		}
	}
	rows := (p.high-p.low)/p.width + 1
	if n := max(3, int(work/(int64(len(p.region.cells))+rows))); n < len(out) {
		p.promising(out)
		out = out[:n]
	}
	return out
}

// promising sorts widths of the first row by what they leave at the ledges parallel to the rows.
func (p *placing) promising(firsts []int64) {
	patches := p.region.patches()
	polygons := make([][]point, len(patches))
	for i := range patches {
		polygons[i] = patches[i].corners()
	}
	for _, e := range levels(polygons) {
		if long := e.to.x - e.from.x; long > short || -long > short {
			p.ledges = append(p.ledges, ledge{e.from.y, max(long, -long), long > 0})
		}
	}
	type promise struct{ thin, short int64 }
	promises := make(map[int64]promise, len(firsts))
	for _, f := range firsts {
		var made promise
		for i := range p.ledges {
			l := &p.ledges[i]
			past := ((l.y-p.from-f)%p.width + p.width) % p.width // past the line before the ledge
			rip := p.width - past
			if !l.begins && past > 0 {
				rip = past
			}
			if rip > p.cover && rip < p.minStrip {
				made.thin += l.long
			}
			if rip > p.cover && rip < p.minRip {
				made.short += l.long
			}
		}
		promises[f] = made
	}
	slices.SortStableFunc(firsts, func(a, b int64) int {
		p, q := promises[a], promises[b]
		return cmp.Or(cmp.Compare(p.thin, q.thin), cmp.Compare(p.short, q.short))
	})
}
