package strips

import (
	"cmp"

	"plank.example/cutopt/measure"
)

// A ledge is a stretch of the floor's boundary parallel to the rows.
type ledge struct {
	y, long int64
	begins  bool // the floor lies above it; else below
}

// A placing chooses where the rows lie.
type placing struct {
	from, to                   int64 // extent of the floor across the rows
	width, minRip, grid, cover int64
	fixed                      int64 // width asked for the first row; 0 for none
	ledges                     []ledge
}

func newPlacing(reg *region, l *Layout) *placing {
	p := &placing{width: int64(l.Width), minRip: int64(l.MinRip), grid: max(1, int64(l.Grid)), cover: hidden(l), fixed: int64(l.FirstRow)}
	if p.minRip == 0 {
		p.minRip = p.width / 2
	}
	patches := reg.patches()
	p.from, p.to = patches[0].low, patches[0].high
	polygons := make([][]point, len(patches))
	for i := range patches {
		p.from, p.to = min(p.from, patches[i].low), max(p.to, patches[i].high)
		polygons[i] = patches[i].corners()
	}
	short := max(int64(l.Smooth), p.cover, 320)
	for _, e := range levels(polygons) {
		long := e.to.x - e.from.x
		if begins := long > 0; begins && long >= short || -long >= short {
			p.ledges = append(p.ledges, ledge{e.from.y, max(long, -long), begins})
		}
	}
	return p
}

// pieces returns the fewest rows or pieces that a floor of an area takes, whichever are more. The length of the planks may
// be 0 when it is unknown.
func (p *placing) pieces(area measure.Area, length measure.Length) int64 {
	n := (p.to-p.from)/p.width + 1
	if length > 0 {
		n = max(n, int64(float64(area)/float64(length)/float64(p.width)))
	}
	return n
}

// A score ranks a width of the first row.
type score struct {
	walls     int   // ledges met by a strip that is too narrow
	violated  int64 // their length
	rows      int
	laid      int64 // length of all runs times the width of a plank, less the floor's area
	edge      int64 // width of the narrower edge row
	first     int64
	narrow    int64 // width of the narrowest strip that is too narrow
	where     int64 // the ledge it lies at
	shortfall int64 // by which the narrower edge row is too narrow
}

func (s *score) compare(t *score) int {
	return cmp.Or(cmp.Compare(s.shortfall, t.shortfall), cmp.Compare(s.violated, t.violated),
		cmp.Compare(s.rows, t.rows), cmp.Compare(s.laid, t.laid), cmp.Compare(t.edge, s.edge), cmp.Compare(t.first, s.first))
}

// score ranks a first row of the given width: it counts what each ledge leaves of the row that meets it. For floors with
// walls in two directions the sum of the ledges' lengths times what the row lies beyond them, with the floor's area, is
// the length of all runs times the width of a plank.
func (p *placing) score(first int64) score {
	s := score{first: first, edge: first, rows: 1}
	rest := p.to - p.from - first
	last := first
	if rest > 0 {
		s.rows += int((rest + p.width - 1) / p.width)
		last = rest - int64(s.rows-2)*p.width
		if last <= p.cover { // hidden by the trim
			s.rows--
			last = p.width
			if s.rows == 1 {
				last = first
			}
		}
	}
	s.edge = min(first, last)
	for _, w := range [2]int64{first, last} {
		if w < p.minRip {
			s.shortfall = max(s.shortfall, p.minRip-w)
		}
	}
	for i := range p.ledges {
		l := &p.ledges[i]
		past := (l.y - p.from - first) % p.width // past the line before the ledge
		if past < 0 {
			past += p.width
		}
		rip := p.width - past
		if !l.begins {
			if rip = past; rip == 0 {
				rip = p.width
			}
		}
		if rip <= p.cover {
			s.laid -= l.long * rip
			continue
		}
		s.laid += l.long * (p.width - rip)
		if rip < p.minRip && l.long >= 2*p.width && (l.y != p.from || !l.begins) {
			s.walls++
			s.violated += l.long
			if s.narrow == 0 || rip < s.narrow {
				s.narrow, s.where = rip, l.y
			}
		}
	}
	return s
}

// first returns the width of the first row: what was asked for, or the best on the grid. Rows that keep the least width at
// every wall parallel to them, if it is at least two planks wide so that pieces are ripped along it and not only notched,
// come first, then fewest rows, then least length of runs, then the widest of the narrower
// edge row: in a plain room that is (rest+width)/2, the half-module rule of NAVEDTRA 14044, p. 7-23.
func (p *placing) first(clock *poll) (int64, error) {
	whole := p.to - p.from
	if p.fixed > 0 {
		return min(p.fixed, whole), nil
	}
	const most = 4096 // places tried
	step := p.grid * max(1, (p.width/p.grid+most-1)/most)
	best := p.score(min(p.width, whole))
	try := func(first int64) {
		if first <= 0 || first > min(p.width, whole) {
			return
		}
		if s := p.score(first); s.compare(&best) < 0 {
			best = s
		}
	}
	for first := step; first < p.width; first += step {
		try(first)
		if err := clock.spend(1 + len(p.ledges)); err != nil {
			return 0, err
		}
	}
	balanced := (whole%p.width + p.width) / 2
	try(balanced - balanced%p.grid)
	return best.first, nil
}

// lines returns the lines between the rows, with the two ends.
func (p *placing) lines(first int64) []int64 {
	lines := []int64{p.from}
	for y := p.from + first; y < p.to; y += p.width {
		lines = append(lines, y)
	}
	return append(lines, p.to)
}
