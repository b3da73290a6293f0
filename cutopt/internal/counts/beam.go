package counts

import (
	"math/rand/v2"
	"slices"
)

// a node is a walk read backwards: the point that the runs before it must lead to.
type node struct {
	need   point
	vector uint64 // a hash of how many runs of each kind it lays
	score  float64
	full   float64 // how crowded its starters lie
	bin    int8    // of its first run's starter, or -1
	parent int32   // at the level before
	kind   int16   // of its first run
	start  int16
}

// beam lays runs backwards from the end of a walk that takes at most left planks, until the core can begin it. At each
// level it keeps the given number of walks with the least waste, of one vector only the best, with a little noise and a
// liking for laying all kinds in step. It returns the start and the legs, what the core must lead to and the core's
// vector, with its runs by kind; or -1.
func (c *Table) beam(left int64, width int, rng *rand.Rand) (j int, legs []leg, need point, v int, digits []int) {
	b := newBeam(c, left, width, rng)
	for range b.runs {
		b.grow()
		last := len(b.levels) - 1
		for i := range b.levels[last] {
			if v, digits = b.begun(last, i); v < 0 {
				continue
			}
			j, need = int(b.levels[last][i].start), b.levels[last][i].need
			for level := last; level > 0; level-- {
				n := b.levels[level][i]
				i = int(n.parent)
				legs = append(legs, leg{int(n.kind), b.levels[level-1][i].need})
			}
			slices.Reverse(legs)
			return j, legs, need, v, digits
		}
	}
	return -1, nil, 0, 0, nil
}

// begun returns the vector that the core must lay before a node of a level, and its digits, or -1 where it cannot.
func (b *beam) begun(level, i int) (int, []int) {
	v := 0
	have := b.have[level][i*len(b.Kinds) : (i+1)*len(b.Kinds)]
	for k, n := range b.total {
		before := int(n - have[k])
		if before > b.core[k] {
			return -1, nil
		}
		v += before * b.stride[k]
	}
	n := &b.levels[level][i]
	if b.points[v*len(b.starts)+int(n.start)] > n.need {
		return -1, nil
	}
	digits := make([]int, len(b.Kinds))
	for k, n := range b.total {
		digits[k] = int(n - have[k])
	}
	return v, digits
}

type beam struct {
	*Table
	width    int
	rng      *rand.Rand
	total    []int16   // by kind: runs
	runs     int       // their sum
	code     []uint64  // by kind, for hashes of vectors
	material []int64   // by kind: what a run takes
	levels   [][]node  // by runs laid
	have     [][]int16 // by runs laid: of each node, by kind
	crowds   [][]int16 // by runs laid: of each node, by kind and bin
	number   int       // of bins
	next     []node
	order    []int64
	// noise and what walking out of step and crowding cost, in lengths
	noise, step, crowd float64
}

func newBeam(c *Table, left int64, width int, rng *rand.Rand) *beam {
	b := &beam{Table: c, width: width, rng: rng}
	for k := range c.Kinds {
		n := len(c.Kinds[k].Runs)
		b.total, b.runs = append(b.total, int16(n)), b.runs+n
		b.code = append(b.code, rng.Uint64())
		b.material = append(b.material, int64(c.Kinds[k].Length+c.in.Kerf))
	}
	l := float64(c.in.Plank)
	b.noise, b.step, b.crowd = l*0.02*rng.Float64(), l*0.5*rng.Float64(), l*0.2*rng.Float64()
	b.number = c.newCrowd().number
	var first []node
	for j, s := range c.starts {
		first = append(first, node{need: at(left, s.starter), start: int16(j)})
	}
	b.levels = append(b.levels, first)
	b.have = append(b.have, make([]int16, len(first)*len(c.Kinds)))
	b.crowds = append(b.crowds, make([]int16, len(first)*len(c.Kinds)*bins))
	return b
}

// grow lays one more run before every walk of the last level.
func (b *beam) grow() {
	kinds, level := len(b.Kinds), len(b.levels)-1
	b.next = b.next[:0]
	for i := range b.levels[level] {
		n := &b.levels[level][i]
		have := b.have[level][i*kinds : (i+1)*kinds]
		crowds := b.crowds[level][i*kinds*bins : (i+1)*kinds*bins]
		for k := range b.Kinds {
			if have[k] == b.total[k] {
				continue
			}
			need := b.latest(k, n.need)
			bin := b.bin(k, b.number, need)
			full := n.full + excess(crowds[k*bins:(k+1)*bins], b.number, bin)
			b.next = append(b.next, node{
				need: need, vector: n.vector + b.code[k], full: full, bin: int8(bin),
				parent: int32(i), kind: int16(k), start: n.start,
				score: b.score(need-b.levels[0][n.start].need, have, k) + float64(b.crowd*full),
			})
		}
	}
	// Sorted are whole scores, each with the index of its node below it.
	unit := float64(b.in.Plank) / (1 << 20)
	b.order = b.order[:0]
	for i := range b.next {
		b.order = append(b.order, int64(max(min(b.next[i].score/unit, 1<<30), -1<<30))<<32|int64(i))
	}
	slices.Sort(b.order)
	seen := make(map[uint64]bool, b.width)
	kept, have, crowds := make([]node, 0, b.width), make([]int16, 0, b.width*kinds), make([]int16, 0, b.width*kinds*bins)
	for _, o := range b.order {
		n := b.next[o&(1<<32-1)]
		key := n.vector*31 + uint64(n.start)
		if seen[key] {
			continue
		}
		seen[key] = true
		kept = append(kept, n)
		have = append(have, b.have[level][int(n.parent)*kinds:(int(n.parent)+1)*kinds]...)
		have[len(have)-kinds+int(n.kind)]++
		crowds = append(crowds, b.crowds[level][int(n.parent)*kinds*bins:(int(n.parent)+1)*kinds*bins]...)
		if n.bin >= 0 {
			crowds[len(crowds)-kinds*bins+int(n.kind)*bins+int(n.bin)]++
		}
		if len(kept) == b.width {
			break
		}
	}
	b.levels, b.have, b.crowds = append(b.levels, kept), append(b.have, have), append(b.crowds, crowds)
}

// score is the waste of a walk that lays one more run of kind k than have and so moves what is needed by so much, with
// noise and what being out of step costs.
func (b *beam) score(moved point, have []int16, k int) float64 {
	laid, total, worst := int64(0), 1, 0.0
	for _, n := range have {
		total += int(n)
	}
	share := float64(total) / float64(b.runs)
	for i, n := range have {
		if i == k {
			n++
		}
		laid += int64(n) * b.material[i]
		d := float64(n)/float64(b.total[i]) - share
		worst += float64(d * d)
	}
	used := moved.planks()*int64(b.in.Plank) - int64(moved.left())
	return -float64(used+laid) + float64(b.noise*b.rng.Float64()) + float64(b.step*worst)
}
