package proof

import (
	"fmt"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// maxPoints bounds the work of a leaf of counts: count vectors times ways to begin.
const maxPoints = 12_000_000

// maxKinds bounds the memory for kinds before vectors are counted: with one run of each there are more than maxPoints.
const maxKinds = 23

// a lay is one way to lay a run in two pieces or more.
type lay struct {
	starter measure.Length
	planks  int64          // opened after the starter's
	leaves  measure.Length // by the ender's plank for a starter
}

// runKind is the runs of one length and with the same starters, or the offcuts on hand of one length and end.
type runKind struct {
	length  measure.Length
	begun   bool     // may not be one piece
	end     rows.End // of offcuts, else empty
	number  int
	ways    []lay   // by starter, ascending
	longest []int32 // by grid lines in a stretch: index of the longest way up to it, or -1
}

// counter recounts a leaf of counts. Points (p, r) are kept as the material p*plank - r.
type counter struct {
	in    *rows.Instance
	kinds []*runKind
	begin []beginning
}

// a beginning is how a ring starts: with a run of a kind laid in a way that is at the end of a stretch.
type beginning struct {
	kind int
	lay
}

// counts checks that the runs, by their numbers alone, need at least as many planks as are claimed. Splits do not
// matter, so all leaves of counts have one answer.
func (v *verifier) counts() error {
	if !v.counted {
		v.counted, v.byCounts = true, v.recount()
	}
	return v.byCounts
}

func (v *verifier) recount() error {
	c := &counter{in: v.in}
	apart, err := c.group()
	if err != nil {
		return err
	}
	size := 1
	for _, k := range c.kinds {
		size *= k.number + 1
		if size*(len(c.begin)+1) > maxPoints {
			return unproven("too many counts of runs to go through: more than %d", maxPoints)
		}
	}
	if n := c.fewest(size) + apart; n < v.claim {
		return unproven("by counts %d planks may do, and the claim is %d", n, v.claim)
	}
	return nil
}

// group sorts runs and offcuts into kinds, lists the beginnings, and returns the number of runs counted apart: those as
// long as a plank.
func (c *counter) group() (apart int64, err error) {
	byKey := make(map[string]*runKind)
	join := func(key string, build func() *runKind) error {
		if byKey[key] == nil {
			if len(c.kinds) == maxKinds {
				return unproven("too many kinds of runs to go through counts: more than %d", maxKinds)
			}
			byKey[key] = build()
			c.kinds = append(c.kinds, byKey[key])
		}
		byKey[key].number++
		return nil
	}
	if slices.ContainsFunc(c.in.Offcuts, func(o rows.Offcut) bool { return o.Length == c.in.Plank }) {
		return 0, unproven("counts are of offcuts shorter than a plank")
	}
	type laid struct {
		ways  []lay
		apart int64
		key   string
	}
	plain := make(map[measure.Length]laid) // of runs that are plain
	bySteps := c.bySteps()
	for i, run := range c.in.Runs {
		if run.Length == c.in.Plank && c.in.MayBeSingle(i) {
			apart++
			continue
		}
		own, ok := plain[run.Length]
		if !ok || !run.Plain() {
			own.ways = c.waysOf(i)
			if own.key = fmt.Sprint(run.Length, run.Starter > 0, own.ways); bySteps && len(own.ways) > 0 {
				own.apart = c.inSteps(own.ways)
				own.key = fmt.Sprint(own.ways)
			}
		}
		if run.Plain() {
			plain[run.Length] = own
		}
		apart += own.apart
		if len(own.ways) == 0 && !c.in.MayBeSingle(i) {
			return 0, unproven("run %d cannot be laid", i)
		}
		if err := join(own.key, func() *runKind { return c.kindOf(&run, own.ways) }); err != nil {
			return 0, err
		}
	}
	for _, o := range c.in.Offcuts {
		key := fmt.Sprint(o.End, o.Length)
		if err := join(key, func() *runKind { return &runKind{length: o.Length, end: o.End} }); err != nil {
			return 0, err
		}
	}
	for k, kind := range c.kinds {
		for n, w := range kind.ways {
			last := n+1 == len(kind.ways) || kind.ways[n+1].starter != w.starter+c.in.Grid || kind.ways[n+1].planks != w.planks
			if last && w.starter < c.in.Plank-c.in.Kerf {
				c.begin = append(c.begin, beginning{k, w})
			}
		}
	}
	return apart, nil
}

// bySteps reports whether only whole steps of the grid in what runs leave are of use: nothing is on hand, no run is
// begun and none may be one piece.
func (c *counter) bySteps() bool {
	return len(c.in.Offcuts) == 0 && !slices.ContainsFunc(c.in.Runs, func(r rows.Run) bool {
		return r.Length <= c.in.Plank || r.Starter > 0
	})
}

// inSteps rounds what ways leave down to the grid, and takes off each as many planks as leave one for the longest
// starter, the last. It returns how many.
func (c *counter) inSteps(ways []lay) (apart int64) {
	apart = ways[len(ways)-1].planks - 1
	for k := range ways {
		ways[k].planks -= apart
		ways[k].leaves -= ways[k].leaves % c.in.Grid
	}
	return apart
}

// waysOf lists how run i can be laid in two pieces or more.
func (c *counter) waysOf(i int) (out []lay) {
	in := c.in
	try := func(s measure.Length) {
		if p, ok := in.Lay(i, s); ok {
			out = append(out, lay{s, int64(p.Field) + 1, max(0, in.Plank-in.Kerf-p.Ender)})
		}
	}
	for s := in.Grid; s < in.Plank; s += in.Grid {
		try(s)
	}
	try(in.Plank)
	return out
}

func (c *counter) kindOf(run *rows.Run, ways []lay) *runKind {
	in := c.in
	kind := &runKind{
		length: run.Length, begun: run.Starter > 0, ways: ways, longest: make([]int32, in.Plank/in.Grid+1),
	}
	n := 0
	for line := range kind.longest {
		for n < len(ways) && ways[n].starter <= measure.Length(line)*in.Grid {
			n++
		}
		kind.longest[line] = int32(n - 1)
	}
	return kind
}

// fewest goes through all count vectors and returns the fewest planks for all runs.
func (c *counter) fewest(size int) int64 {
	const never = int64(1) << 62
	l, width := int64(c.in.Plank), len(c.begin)+1
	planks := make([]int64, size)
	points := make([]int64, size*width) // the chain last
	have := make([]int, len(c.kinds))   // the vector in hand
	for v := range planks {
		row := points[v*width : (v+1)*width]
		for w := range row {
			row[w] = never
		}
		planks[v] = never
		if v == 0 {
			planks[v], row[width-1] = 0, 0
			continue
		}
		for k := 0; ; k++ {
			if have[k]++; have[k] <= c.kinds[k].number {
				break
			}
			have[k] = 0
		}
		fewer := 1 // how far before v the vector lies that has one run less of the kind
		for k, kind := range c.kinds {
			if have[k] > 0 {
				for w, m := range points[(v-fewer)*width : (v-fewer+1)*width] {
					if m < never {
						row[w] = min(row[w], c.lay(kind, m))
					}
				}
				for w, b := range c.begin {
					if b.kind == k {
						row[w] = min(row[w], (planks[v-fewer]+b.planks)*l-int64(b.leaves))
					}
				}
			}
			fewer *= kind.number + 1
		}
		for w, m := range row {
			if m == never {
				continue
			}
			p := ceil(m, l)
			if w < len(c.begin) && p*l-m < int64(c.begin[w].starter) {
				p++
			}
			planks[v] = min(planks[v], p)
		}
		row[width-1] = min(row[width-1], planks[v]*l)
	}
	return planks[size-1]
}

// lay returns the least material after a run or offcut of a kind is laid from m.
func (c *counter) lay(kind *runKind, m int64) int64 {
	in := c.in
	l := int64(in.Plank)
	p := ceil(m, l)
	r := measure.Length(p*l - m)
	if kind.end != "" {
		if kind.end == rows.EndLeft && r >= in.Plank-in.Kerf-kind.length {
			return (p-1)*l - int64(max(0, r-(in.Plank-kind.length)))
		}
		return p*l - int64(max(r, kind.length))
	}
	for {
		if kind.length <= r && !kind.begun {
			return p*l - int64(max(0, r-kind.length-in.Kerf))
		}
		n := kind.longest[r/in.Grid]
		if r == in.Plank {
			n = int32(len(kind.ways) - 1)
		}
		if n >= 0 {
			w := &kind.ways[n]
			return (p+w.planks)*l - int64(w.leaves)
		}
		p, r = p+1, in.Plank
	}
}

// ceil returns a/b rounded up, for any a and b > 0.
func ceil(a, b int64) int64 {
	q := a / b
	if a%b > 0 {
		q++
	}
	return q
}
