package search

import (
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Domain is the starters that each run may take, with what walks need to know of each. Any number of walks may share
// it, at the same time too.
type Domain struct {
	in         *rows.Instance
	table      *starters.Table
	values     []measure.Length // thresholds t_1, t_2, …
	begin      []int32          // by part of a plank, as many as values: the first value in it or after
	widths     []int32          // by threshold: its stretch over the mean one, rounded, at least 1
	options    [][]option       // by run; runs may share a list
	wholeEnder []int32          // by run: the option whose ender is whole, or the first
	singles    bool             // some run may be laid in one piece
}

// An option is one way to lay a run, as the search sees it.
type option struct {
	starter measure.Length // 0 in one piece
	room    measure.Length // what the ender leaves for a starter on its plank; 0 for none
	joints  int32
	effect
}

// An effect is what a piece of the layout does to G: every threshold gains planks, those from s on lose one (a starter
// takes a place beside an ender), those from r on gain one (an ender needs one).
type effect struct{ s, r, planks int32 }

// NewDomain makes a domain of lists of the starters that each run may take, ascending and not empty, 0 for one piece.
// Runs may share a list; those of one length that do are worked out once.
func NewDomain(t *starters.Table, lists [][]measure.Length) *Domain {
	in := t.Instance
	n := len(in.Runs)
	d := &Domain{in: in, table: t, options: make([][]option, n), wholeEnder: make([]int32, n)}
	d.findValues(lists)
	type key struct {
		class int
		list  *measure.Length
	}
	type built struct {
		options    []option
		wholeEnder int32
	}
	known := make(map[key]built)
	for i, list := range lists {
		k := key{t.ClassOf[i], &list[0]}
		b, ok := known[k]
		if !ok {
			b.options = make([]option, len(list))
			for x, s := range list {
				o := d.optionOf(i, s)
				if b.options[x] = o; s > 0 && s < in.Plank && o.room == 0 {
					b.wholeEnder = int32(x)
				}
			}
			known[k] = b
		}
		d.options[i], d.wholeEnder[i] = b.options, b.wholeEnder
	}
	return d
}

// Lattice lists all admissible starters that are multiples of step, which is a multiple of the grid,
// with the ends of each segment and whole planks added. Runs of one length share a list. A step that divides a plank
// into more than finest parts is made wider, so that lists stay short whatever the grid.
func Lattice(t *starters.Table, step measure.Length) [][]measure.Length {
	const finest = 8192
	step *= max(1, t.Instance.Plank/step/finest)
	lists := make([][]measure.Length, len(t.Classes))
	for c := range t.Classes {
		cl := &t.Classes[c]
		var list []measure.Length
		if cl.Single {
			list = append(list, 0)
		}
		for _, seg := range cl.Segments {
			list = append(list, seg.Lo)
			for s := seg.Lo/step*step + step; s < seg.Hi; s += step {
				list = append(list, s)
			}
			if seg.Lo < seg.Hi {
				list = append(list, seg.Hi)
			}
		}
		lists[c] = list
	}
	domain := make([][]measure.Length, len(t.ClassOf))
	for i, c := range t.ClassOf {
		domain[i] = lists[c]
	}
	return domain
}

// findValues collects the thresholds. Where singles lie beside starters their sums fall between starter values, so
// singles and a lattice of plank/256 are added; sums are rounded up to the next threshold, which never flatters.
func (d *Domain) findValues(lists [][]measure.Length) {
	in := d.in
	listed := make(map[*measure.Length]bool)
	seen := make([]bool, in.Plank/in.Grid+1) // by grid line: runs of many lengths have most of their starters in common
	add := func(x measure.Length) {
		if x <= 0 || x >= in.Plank {
			return
		}
		if line := x / in.Grid; line*in.Grid == x {
			if seen[line] {
				return
			}
			seen[line] = true
		}
		d.values = append(d.values, x)
	}
	for i, list := range lists {
		if list[0] == 0 {
			d.singles = true
			add(in.Runs[i].Length)
			add(2*in.Runs[i].Length + in.Kerf)
		}
		if listed[&list[0]] {
			continue
		}
		listed[&list[0]] = true
		for _, s := range list {
			add(s)
		}
	}
	if d.singles {
		for k := range measure.Length(256) {
			add(k * in.Plank / 256)
		}
	}
	for _, o := range in.Offcuts {
		if o.End == rows.EndLeft {
			add(in.Plank - in.Kerf - o.Length)
		}
	}
	slices.Sort(d.values)
	d.values = slices.Compact(d.values)
	d.begin = make([]int32, len(d.values)+1)
	for b, k := 1, 0; b < len(d.begin); b++ {
		for k < len(d.values) && d.bucket(d.values[k]) < b {
			k++
		}
		d.begin[b] = int32(k)
	}
	d.widths = make([]int32, len(d.values)+1)
	d.widths[0] = 1
	before := measure.Length(0)
	for k, v := range d.values {
		d.widths[k+1] = int32(max((2*(v-before)*measure.Length(len(d.values))/in.Plank+1)/2, 1))
		before = v
	}
}

// bucket returns which of as many equal parts of a plank as there are values a length is in.
func (d *Domain) bucket(x measure.Length) int {
	return int(x * measure.Length(len(d.values)) / d.in.Plank)
}

// atLeast returns the index of the first value that is no less than x: in the bucket of x, or the first after it.
func (d *Domain) atLeast(x measure.Length) int {
	b := d.bucket(x)
	if b+1 >= len(d.begin) {
		return len(d.values)
	}
	from, to := int(d.begin[b]), int(d.begin[b+1])
	k, _ := slices.BinarySearch(d.values[from:to], x)
	return from + k
}

// fromStarter returns the first threshold that a head of the given length lies below.
func (d *Domain) fromStarter(used measure.Length) int32 {
	return int32(min(d.atLeast(used)+2, len(d.widths)))
}

// fromRoom returns the first threshold that a room of the given length lies below.
func (d *Domain) fromRoom(room measure.Length) int32 {
	if room < 0 {
		return 0
	}
	return int32(d.atLeast(room+1) + 1)
}

func (d *Domain) optionOf(i int, starter measure.Length) option {
	in := d.in
	none := int32(len(d.widths))
	p, _ := in.Lay(i, starter)
	o := option{starter: starter, joints: int32(p.Joints()), effect: effect{none, none, int32(p.Field) + 1}}
	switch {
	case p.Single == in.Plank:
	case p.Single > 0:
		o.s = d.fromStarter(p.Single)
	default:
		if p.Starter < in.Plank {
			o.s = d.fromStarter(p.Starter)
		}
		if p.Ender < in.Plank {
			o.room = max(in.Plank-in.Kerf-p.Ender, 0)
			o.r = d.fromRoom(in.Plank - in.Kerf - p.Ender)
		} else {
			o.planks++
		}
	}
	return o
}
