package walk

import (
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/rows"
)

// leastBand is the fewest runs of a band.
const leastBand = 8

// A band is runs of which each touches the next and no other but at the ends, and that all turn a walk as far: they may
// exchange their starters, so it only matters which starters the band has.
//
// m starters can be dealt to the runs of a band with none nearer than the stagger to that of a neighbour only where, of
// the starters in their order around the circle, m/2 + 1 that follow each other never lie within less than the
// stagger, or do so once where m is odd: no two of them may be neighbours, and of a path of m no more can be chosen.
// Where the largest gap of the circle is a stagger or more that is also enough, as deal shows.
type band struct {
	runs   []int32            // along the floor
	in     [mostSectors]int32 // by sector: starters
	spare  int32              // so many may come to any place until a stretch may be narrow
	places []int32            // where their joints lie on the circle, in order; out of date unless ready
	ready  bool
	narrow int   // how many stretches lie within less than the stagger, more than may
	short  int64 // by how many steps in all, those of one at most barelyShort
	stress int64 // what a narrow stretch costs more
}

// mostSectors is the most sectors of a circle: starters counted by sector show at once that a band of many runs, as
// most do, has no narrow stretch.
const mostSectors = 64

// roomy is how many starters more a band has room for, at the least, where it is left out of order.
const roomy = 8

// barelyShort is how many steps a narrow stretch may be short of a stagger until it costs as much as a broken stagger.
const barelyShort = 16

// bands are those of a floor.
type bands struct {
	of      []int32 // by run: its band, or -1
	at      []int32 // by run of a band: where its joints lie on the circle, in steps
	all     []band
	circle  int32
	stagger int32 // in steps
	sector  int32 // in steps; the last one may be shorter
	sectors int32 // of the circle
	touched int32 // the most sectors that a stretch within less than the stagger touches
	narrow  int   // of all bands
}

// newBands are none yet, of n runs, the circle and the stagger in steps.
func newBands(n int, circle, stagger int32) *bands {
	b := &bands{of: make([]int32, n), at: make([]int32, n), circle: circle, stagger: stagger}
	b.sector = (circle + mostSectors - 1) / mostSectors
	b.sectors = (circle + b.sector - 1) / b.sector
	b.touched = min((stagger+b.sector-2)/b.sector+2, b.sectors)
	return b
}

// findBands finds the bands of a walk whose runs turn as far as given.
func findBands(w *links, t *turns) *bands {
	in, n := w.in, len(w.layout)
	b := newBands(n, t.circle, int32((in.Stagger+in.Grid-1)/in.Grid))
	for i := range b.of {
		b.of[i] = -1
	}
	if in.Plank%in.Grid != 0 || b.stagger == 0 || 3*b.stagger >= b.circle {
		return b
	}
	seen := make([]bool, n)
	for i := range n {
		if seen[i] || !mayBand(w, i) {
			continue
		}
		chain := w.chain(t, i)
		if len(chain) < n { // begun in its midst perhaps: again from an end
			chain = w.chain(t, int(chain[len(chain)-1]))
		}
		for _, j := range chain {
			seen[j] = true
		}
		if len(chain) < leastBand {
			continue
		}
		for _, j := range chain {
			b.of[j] = int32(len(b.all))
		}
		b.all = append(b.all, band{runs: chain, places: make([]int32, len(chain))})
	}
	return b
}

// Banded counts the runs of a layout that are in bands, as Anneal heeds them.
func Banded(t *starters.Table, layout rows.Layout) (n int) {
	if t.Instance.Plank/t.Instance.Grid > MostTurns {
		return 0
	}
	w := link(t, layout, nil)
	turns := newTurns(w)
	for _, x := range findBands(w, &turns).all {
		n += len(x.runs)
	}
	return n
}

// mayBand reports whether a run may be of a band: no joints beside it, none of its own given, and so long that all its
// joints lie beside joints of a neighbour as long.
func mayBand(w *links, i int) bool {
	r := &w.in.Runs[i]
	return len(r.Beside) == 0 && r.Starter == 0 && w.joints[i] > 2 && len(w.table.Ties[i]) <= 2
}

// chain returns runs from one on, each of which touches the one before, turns as far and begins within a step of it.
func (w *links) chain(t *turns, i int) (chain []int32) {
	last := -1
	for {
		chain = append(chain, int32(i))
		next := -1
		for _, tie := range w.table.Ties[i] {
			j := tie.Run
			if j != last && t.of[j] == t.of[i] && max(tie.Delta, -tie.Delta) <= w.in.Grid && mayBand(w, j) {
				next = j
			}
		}
		if next < 0 || next == int(chain[0]) {
			return chain
		}
		last, i = i, next
	}
}

// outer are the ties of every run but those within a band.
func (b *bands) outer(ties [][]starters.Tie) [][]starters.Tie {
	out := make([][]starters.Tie, len(ties))
	for i := range ties {
		if b.of[i] < 0 {
			out[i] = ties[i]
			continue
		}
		for _, t := range ties[i] {
			if b.of[t.Run] != b.of[i] {
				out[i] = append(out[i], t)
			}
		}
	}
	return out
}

// read takes the starters of all bands from a walk.
func (b *bands) read(w *links) {
	b.narrow = 0
	for k := range b.all {
		x := &b.all[k]
		x.in, x.spare, x.ready = [mostSectors]int32{}, -1, false
		for _, i := range x.runs {
			b.at[i] = int32(w.layout[i] / w.in.Grid)
			x.in[b.sectorOf(b.at[i])]++
		}
		b.weigh(x)
		b.narrow += x.narrow
	}
}

// sectorOf returns the sector of a place; a whole plank lies where none does.
func (b *bands) sectorOf(at int32) int32 { return at % b.circle / b.sector }

// most is the most starters in as many sectors that follow each other as a stretch within the stagger may touch.
func (b *bands) most(x *band) int32 {
	within := int32(0)
	for k := range b.touched {
		within += x.in[k]
	}
	most, last := within, b.touched%b.sectors
	for k := range b.sectors - 1 {
		within += x.in[last] - x.in[k]
		most = max(most, within)
		if last++; last == b.sectors {
			last = 0
		}
	}
	return most
}

// order returns the places of a band in order.
func (b *bands) order(x *band) []int32 {
	if !x.ready {
		for k, i := range x.runs {
			x.places[k] = b.at[i]
		}
		slices.Sort(x.places)
		x.ready = true
	}
	return x.places
}

// far is how far it is, around the circle, over the stretch of m/2 + 1 starters from the j-th in order on.
func (b *bands) far(x *band, j int) int32 {
	m := len(x.places)
	last, around := j+m/2, int32(0)
	if last >= m {
		last, around = last-m, b.circle
	}
	return x.places[last] + around - x.places[j]
}

// weigh counts the narrow stretches of a band: in constant time where there can be none, else in time proportional to
// its runs, which are in order from then on until there can be none.
func (b *bands) weigh(x *band) {
	x.narrow, x.short = 0, 0
	if x.spare >= 0 {
		return
	}
	if x.spare = int32(len(x.runs)/2) - b.most(x); x.spare >= 0 {
		x.ready = x.ready && x.spare < roomy
		return
	}
	places := b.order(x)
	half := len(places) / 2
	first, later := places[:len(places)-half], places[len(places)-half:]
	most := int32(0)
	add := func(short int32) {
		short = min(short, barelyShort)
		x.narrow++
		x.short += int64(short)
		most = max(most, short)
	}
	for j, to := range places[half:] { // as far does, for all
		if short := b.stagger - to + first[j]; short > 0 {
			add(short)
		}
	}
	for j, from := range later {
		if short := b.stagger - places[j] - b.circle + from; short > 0 {
			add(short)
		}
	}
	if len(places)%2 == 1 && x.narrow > 0 {
		x.narrow--
		x.short -= int64(most)
	}
}

// energy is what the narrow stretches of a band cost.
func (x *band) energy(price int64) int64 { return x.short * (price + x.stress) / barelyShort }

// move takes run i of a band to another place on the circle.
func (b *bands) move(i, to int32) {
	x := &b.all[b.of[i]]
	from := b.at[i]
	b.at[i] = to
	x.in[b.sectorOf(from)]--
	x.in[b.sectorOf(to)]++
	if x.spare--; !x.ready {
		return
	}
	j, _ := slices.BinarySearch(x.places, from)
	k, _ := slices.BinarySearch(x.places, to)
	if j < k {
		k--
		copy(x.places[j:k], x.places[j+1:])
	} else {
		copy(x.places[k+1:j+1], x.places[k:])
	}
	x.places[k] = to
}

// crowded returns a run of a narrow stretch of some band, or -1.
func (b *bands) crowded(draw uint64) int32 {
	if b.narrow == 0 {
		return -1
	}
	begin := int(draw & 0xffff)
	for k := range b.all {
		x := &b.all[(begin+k)%len(b.all)]
		if x.narrow == 0 {
			continue
		}
		places := b.order(x)
		m := len(places)
		for j := range m {
			if j = (j + begin) % m; b.far(x, j) < b.stagger {
				return b.lying(x, places[(j+int(draw>>16&0xffff)%(m/2+1))%m], begin)
			}
		}
	}
	return -1
}

// lying returns the first run of a band, from one on, whose joints lie at a place.
func (b *bands) lying(x *band, place int32, begin int) int32 {
	m := len(x.runs)
	k := begin % m
	for b.at[x.runs[k]] != place {
		k = (k + 1) % m
	}
	return x.runs[k]
}

// rearrange moves the starters that windows have changed within their bands, and takes that back where it costs more
// than the limit.
func (a *annealing) rearrange(windows []*window, limit int64) bool {
	b := a.bands
	type was struct {
		x       *band
		spare   int32
		narrow  int
		short   int64
		changed uint64 // 0 where the band has the same starters, dealt otherwise
	}
	var touched [2 * mostMoved]was
	n := 0
	for _, w := range windows {
		for k, i := range w.runs[:w.n] {
			if b.of[i] < 0 || w.starter[k] == a.layout[i] {
				continue
			}
			x := &b.all[b.of[i]]
			t := 0
			for t < n && touched[t].x != x {
				t++
			}
			if t == n {
				touched[n] = was{x, x.spare, x.narrow, x.short, 0}
				n++
			}
			to := int32(a.layout[i] / a.in.Grid)
			touched[t].changed += scatter(to) - scatter(b.at[i])
			b.move(i, to)
		}
	}
	more := 0
	for t := range n {
		if x := touched[t].x; touched[t].changed != 0 {
			limit += x.energy(a.price)
			b.weigh(x)
			limit -= x.energy(a.price)
			more += x.narrow - touched[t].narrow
		}
	}
	if limit >= 0 {
		b.narrow += more
		return true
	}
	for _, w := range windows {
		for k, i := range w.runs[:w.n] {
			if b.of[i] >= 0 {
				b.move(i, int32(w.starter[k]/a.in.Grid))
			}
		}
	}
	for t := range n {
		x, was := touched[t].x, &touched[t]
		x.spare, x.narrow, x.short = was.spare, was.narrow, was.short
	}
	return false
}

// scatter is a number of a step whose sums tell sets of steps apart.
func scatter(step int32) uint64 {
	x := (uint64(step) + 1) * 0x9e3779b97f4a7c15
	return (x ^ x>>29) * 0xbf58476d1ce4e5b9
}
