package walk

import (
	"math/rand/v2"
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// choices is how many of the runs not laid yet a walk may go on with, drawn at random where there are more.
const choices = 64

// A trail is a walk under way: some runs are laid, each starting with what the one before left.
type trail struct {
	planks   int
	left     measure.Length // what the last plank leaves for a starter
	laid     measure.Length // material of the runs laid, each with a kerf
	starters rows.Layout    // by run, -1 for one not laid
	rest     []int          // runs not laid
	mark     uint64         // a hash of the runs laid
}

// a move lays one more run of a trail.
type move struct {
	of      int // index of the trail
	at      int // index in its rest
	starter measure.Length
	planks  int
	left    measure.Length
	score   measure.Length
	key     uint64
}

// Lay makes a layout run by run, by a beam over walks that keeps the given number of them with the least waste, with a
// little noise: the next run may be any, and takes the longest starter that keeps the stagger to the runs laid, as if
// joints went on beyond the ends of runs; runs that touch it must still have one. It is for floors whose runs are of
// too many lengths to count. It reports false when some run cannot be laid in the end, or when stop says so. It takes
// O(runs * width * (runs + 64 log width)).
func Lay(t *starters.Table, width int, rng *rand.Rand, stop func() bool) (rows.Layout, bool) {
	in := t.Instance
	b := &layer{
		table: t,
		rng:   rng,
		codes: make([]uint64, len(in.Runs)),
		noise: 1 + in.Plank*measure.Length(rng.IntN(20))/1000,
	}
	first := &trail{starters: make(rows.Layout, len(in.Runs))}
	for i := range b.codes {
		b.codes[i] = rng.Uint64()
		first.starters[i] = -1
		first.rest = append(first.rest, i)
	}
	b.trails = []*trail{first}
	for range in.Runs {
		if b.grow(width); len(b.trails) == 0 || stop() {
			return nil, false
		}
	}
	best, fewest := -1, 0
	for k, tr := range b.trails {
		if n := in.CountBestFit(tr.starters); best < 0 || n < fewest {
			best, fewest = k, n
		}
	}
	return b.trails[best].starters, true
}

type layer struct {
	table  *starters.Table
	rng    *rand.Rand
	codes  []uint64 // by run
	noise  measure.Length
	trails []*trail
	moves  []move
}

// grow lays one more run of every trail in every way and keeps the best.
func (b *layer) grow(width int) {
	b.moves = b.moves[:0]
	for k, tr := range b.trails {
		n := len(tr.rest)
		if n > choices {
			for c := range choices {
				j := c + b.rng.IntN(n-c)
				tr.rest[c], tr.rest[j] = tr.rest[j], tr.rest[c]
			}
			n = choices
		}
		for at := range n {
			if m, ok := b.next(tr, tr.rest[at]); ok {
				m.of, m.at = k, at
				b.moves = append(b.moves, m)
			}
		}
	}
	slices.SortStableFunc(b.moves, func(p, q move) int { return int(p.score - q.score) })
	seen := make(map[uint64]bool, width)
	var kept []*trail
	for _, m := range b.moves {
		if seen[m.key] {
			continue
		}
		seen[m.key] = true
		run := b.trails[m.of].rest[m.at]
		if tr := b.trails[m.of].with(b.table.Instance, m, b.codes); b.open(tr, run) {
			kept = append(kept, tr)
		}
		if len(kept) == width {
			break
		}
	}
	b.trails = kept
}

// open reports whether the runs that touch one just laid can still be.
func (b *layer) open(tr *trail, run int) bool {
	for _, tie := range b.table.Ties[run] {
		if tr.starters[tie.Run] >= 0 || b.table.Of(tie.Run).Single {
			continue
		}
		if _, ok := b.longest(tr, tie.Run, b.table.Instance.Plank); !ok {
			return false
		}
	}
	return true
}

// with is the trail after a move.
func (tr *trail) with(in *rows.Instance, m move, codes []uint64) *trail {
	run := tr.rest[m.at]
	out := &trail{
		planks: m.planks, left: m.left, laid: tr.laid + in.Runs[run].Length + in.Kerf,
		starters: slices.Clone(tr.starters), rest: slices.Clone(tr.rest), mark: tr.mark + codes[run],
	}
	out.starters[run] = m.starter
	out.rest[m.at] = out.rest[len(out.rest)-1]
	out.rest = out.rest[:len(out.rest)-1]
	return out
}

// next lays run i after a trail, from what is left or from a plank of its own.
func (b *layer) next(tr *trail, i int) (move, bool) {
	in, cl := b.table.Instance, b.table.Of(i)
	m := move{planks: tr.planks, left: tr.left}
	switch s, ok := b.longest(tr, i, tr.left); {
	case cl.Single && cl.Length <= tr.left:
		m.left = tr.left - cl.Length - in.Kerf
	case ok:
		m.starter = s
	case cl.Single:
		m.planks, m.left = tr.planks+1, in.Plank-cl.Length-in.Kerf
	default:
		m.planks++
		if m.starter, ok = b.longest(tr, i, in.Plank); !ok {
			return m, false
		}
	}
	if m.starter > 0 {
		p, _ := in.Lay(i, m.starter)
		m.planks += p.Field + 1
		m.left = in.Plank - in.Kerf - p.Ender
	}
	m.left = max(m.left, 0)
	used := measure.Length(m.planks)*in.Plank - m.left
	m.score = used - tr.laid - in.Runs[i].Length - in.Kerf + measure.Length(b.rng.Int64N(int64(b.noise)))
	m.key = (tr.mark+b.codes[i])*31 + uint64(used)
	return m, true
}

// longest is the longest starter of run i up to r that keeps the stagger to the runs laid.
func (b *layer) longest(tr *trail, i int, r measure.Length) (measure.Length, bool) {
	in, cl := b.table.Instance, b.table.Of(i)
	for k := len(cl.Segments) - 1; k >= 0; k-- {
		seg := cl.Segments[k]
		s := seg.Hi
		if r < s {
			s = r - r%in.Grid
		}
		for s >= seg.Lo {
			clear := b.clear(tr, i, s)
			if clear == s {
				return s, true
			}
			s = clear - clear%in.Grid
		}
	}
	return 0, false
}

// clear is s where its joints keep the stagger to the runs laid, else a lower starter to try.
func (b *layer) clear(tr *trail, i int, s measure.Length) measure.Length {
	l, d := b.table.Instance.Plank, b.table.Instance.Stagger
	for _, tie := range b.table.Ties[i] {
		other := tr.starters[tie.Run]
		if other <= 0 {
			continue // not laid, or in one piece
		}
		over := (s - tie.Delta - other) % l
		if over < 0 {
			over += l
		}
		switch {
		case over < d:
			return max(s-over-d, 0)
		case over > l-d:
			return max(s-over+l-d, 0)
		}
	}
	return s
}
