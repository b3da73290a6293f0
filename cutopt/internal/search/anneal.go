package search

import (
	"math/rand/v2"

	"plank.example/cutopt/measure"
)

// annealer walks a state towards energy 0 by single-run moves, accepting losses with a probability that falls with the
// temperature (Kirkpatrick, Gelatt and Vecchi, Science 220, 1983).
type annealer struct {
	*state
	rng  *rand.PCG
	temp float64
	log  []change // of the move being made
}

// accept decides on a move that costs d.
func (a *annealer) accept(d float64) bool {
	return d <= 0 || float64(a.rng.Uint64()>>11)/(1<<53) < decay(d/a.temp)
}

func (a *annealer) pick(n int) int { return int((a.rng.Uint64() >> 32) * uint64(n) >> 32) }

// run makes up to the given number of moves and returns how many it made; it stops early when the target is reached or
// stop says so. The temperature falls geometrically from hot by e^fall, in units of energy.
func (a *annealer) run(steps int, hot, fall float64, stop func() bool) int {
	const batch = 64
	a.temp = hot
	cool := decay(float64(fall*batch) / float64(steps))
	for step := range steps {
		if a.energy == 0 && a.clashes == 0 && a.fits(step) {
			return step
		}
		if step%batch == batch-1 {
			a.temp *= cool
			if step%(batch*64) == batch-1 && stop() {
				return step
			}
		}
		a.move(a.pick(len(a.options)))
	}
	return steps
}

// fits reports whether a layout of no energy fits the target. Where there are offcuts of either end on hand G takes a
// left-ended one for a starter of a right-ended one, which saves nothing: it may be too low, and the planks are
// counted, after every eighth move. The walk goes on where G is too low, as all moves within such layouts are free.
func (a *annealer) fits(step int) bool {
	const each = 8
	return a.crossed == nil || step%each == 0 && a.counted()
}

// move makes one random move from run i.
func (a *annealer) move(i int) {
	st := a.state
	if st.singles && st.isSingle(i) && (len(st.options[i]) == 1 || a.pick(2) == 0) {
		a.rehost(i)
		return
	}
	if len(st.options) > 1 && a.pick(8) == 0 {
		a.swap(i, a.pick(len(st.options)))
		return
	}
	if a.pick(8) == 0 {
		a.slide(i)
		return
	}
	k := a.propose(i)
	if k == int(st.at[i]) || !a.mayTake(i, k) {
		return
	}
	o := &st.options[i][k]
	from, to := st.effectOf(i, st.option(i)), st.effectOf(i, o)
	clashes := st.clashesOf(i, o) - st.clashesOf(i, st.option(i))
	d := float64(float64(clashes) * weight)
	if d > 20*a.temp {
		return
	}
	g := st.gain(from, to)
	if a.accept(d + float64(g)) {
		st.shift(from, to)
		st.lay(i, int32(k))
		st.energy += g
		st.clashes += clashes
	}
}

// propose draws an option for run i: where starters or room are short, one that mends a stretch of it, by a starter
// just below it or room just at its end; a whole starter or a whole ender; a starter cut from the offcut of another
// run, or an ender cut from the offcut of another run's starter, with as little left as the domain allows; one near the
// present; or any.
func (a *annealer) propose(i int) int {
	st := a.state
	options := st.options[i]
	n := len(options)
	if st.energy > 0 && a.pick(8) < 3 {
		if first, last := st.short(a.pick(len(st.g))); first > 0 {
			if a.pick(2) == 0 {
				return st.first(i, st.values[last-1])
			}
			return st.last(i, st.values[first-1]-1)
		}
	}
	draw := a.pick(16)
	switch {
	case draw < 1:
		return n - 1
	case draw < 2:
		return int(st.wholeEnder[i])
	case draw < 11:
		j := a.pick(len(st.options))
		other := st.option(j)
		if draw < 6 {
			if other.room > 0 {
				return st.last(i, other.room)
			}
			break
		}
		// the first option whose room is at least the other's starter: room = starter + shift within a segment
		if other.starter > 0 {
			return st.first(i, other.starter)
		}
	case draw < 14:
		k := int(st.at[i]) + a.pick(17) - 8
		return min(max(k, 0), n-1)
	}
	return a.pick(n)
}

// weight is what a broken stagger costs, in units of energy: so much that a walk never breaks one to mend another
// thing. Walks that may pass through broken staggers succeed less often, measured on floors of 30 to 180 runs.
const weight = 100

// mayTake reports whether run i can be laid by option k with what lies beside it.
func (a *annealer) mayTake(i, k int) bool {
	st := a.state
	return !st.singles || st.host[i] < 0 && (st.guests[i] == 0 || a.holds(i, &st.options[i][k]))
}

// a change is an entry of the log: run and the option it had.
type change struct{ run, at int32 }

// set lays run i by option k and logs it.
func (a *annealer) set(i, k int) {
	st := a.state
	a.log = append(a.log, change{int32(i), st.at[i]})
	from, old := st.effectOf(i, st.option(i)), st.clashesOf(i, st.option(i))
	st.lay(i, int32(k))
	to := st.effectOf(i, st.option(i))
	st.clashes += st.clashesOf(i, st.option(i)) - old
	st.energy += st.gain(from, to)
	st.shift(from, to)
}

// slide moves a chain of runs, each starting with the offcut of the one before it, by the same few options, so that all
// of them still fit.
func (a *annealer) slide(i int) {
	st := a.state
	by := a.pick(16) - 8
	if by >= 0 {
		by++
	}
	energy, clashes := st.energy, st.clashes
	for range 8 {
		k := int(st.at[i]) + by
		if k < 0 || k >= len(st.options[i]) || !a.mayTake(i, k) {
			break
		}
		room := st.option(i).room
		a.set(i, k)
		if i = st.fitting(i, room); i < 0 {
			break
		}
	}
	if a.accept(float64(st.energy-energy) + float64(float64(st.clashes-clashes)*weight)) {
		a.log = a.log[:0]
		return
	}
	a.undo()
}

// undo takes back what the log holds.
func (a *annealer) undo() {
	for n := len(a.log) - 1; n >= 0; n-- {
		c := a.log[n]
		a.set(int(c.run), int(c.at))
	}
	a.log = a.log[:0]
}

// swap exchanges the options of two runs of one length, which leaves G as it is.
func (a *annealer) swap(i, j int) {
	st := a.state
	if &st.options[i][0] != &st.options[j][0] || st.at[i] == st.at[j] ||
		st.singles && (st.load[i] > 0 || st.load[j] > 0 || st.host[i] >= 0 || st.host[j] >= 0) {
		return
	}
	before := st.clashesOfBoth(i, j)
	p, q := st.at[i], st.at[j]
	st.lay(i, q)
	st.lay(j, p)
	d := st.clashesOfBoth(i, j) - before
	if !a.accept(float64(d) * weight) {
		st.lay(i, p)
		st.lay(j, q)
		return
	}
	st.clashes += d
}

// holds reports whether the guests of run i can stay when it is laid as o.
func (a *annealer) holds(i int, o *option) bool {
	x := o.starter
	if x == 0 {
		x = a.in.Runs[i].Length
	}
	return x+a.load[i] <= a.in.Plank && x < a.in.Plank
}

// rehost moves the single of run i beside another piece, or to a plank of its own.
func (a *annealer) rehost(i int) {
	st := a.state
	add := st.in.Runs[i].Length + st.in.Kerf
	if st.guests[i] > 0 || st.in.Runs[i].Length == st.in.Plank {
		return
	}
	h := a.pick(len(st.options)+1) - 1
	if h == i || h == int(st.host[i]) {
		return
	}
	if h >= 0 && (!st.canHost(h) || st.length(h)+st.load[h]+add > st.in.Plank) {
		return
	}
	before := st.energy
	old := int(st.host[i])
	st.seat(i, h, add)
	if !a.accept(float64(st.energy - before)) {
		st.seat(i, old, add)
	}
}

// seat moves the single of run i to host h, keeping G and the energy.
func (st *state) seat(i, h int, add measure.Length) {
	change := func(j int, do func()) {
		from := st.effectOf(j, st.option(j))
		do()
		to := st.effectOf(j, st.option(j))
		st.energy += st.gain(from, to)
		st.shift(from, to)
	}
	if old := int(st.host[i]); old >= 0 {
		change(old, func() { st.load[old] -= add; st.guests[old]-- })
	}
	change(i, func() { st.host[i] = int32(h) })
	if h >= 0 {
		change(h, func() { st.load[h] += add; st.guests[h]++ })
	}
}
