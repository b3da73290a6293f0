package quality

// long is how many steps the same way, one row after the other, make a chain that an eye sees.
const long = 5

// ways are the most steps to the right and to the left, one row after the other, that end at a run: a step goes from a
// joint of a run to the nearest one of a run of the row after that touches it, modulo the plank. It goes neither way
// where the two are in line or half a plank apart, and a run without joints ends every chain.
type ways struct{ right, left int32 }

// ends counts the long chains that end at a run.
func (w ways) ends() int {
	n := 0
	if w.right >= long {
		n++
	}
	if w.left >= long {
		n++
	}
	return n
}

// way returns 1 for a step to the right from a joint of one run to one of another, -1 for one to the left, 0 for
// neither.
func (w *web) way(from, to int32) int {
	switch by, _ := w.apart(&w.at[from], &w.at[to]); {
	case by == 0 || 2*by == w.plank:
		return 0
	case by > 0:
		return 1
	}
	return -1
}

// arriving returns the ways that end at run i.
func (w *web) arriving(i int32) ways {
	var out ways
	for _, r := range w.before[i] {
		switch from := &w.ways[r]; w.way(r, i) {
		case 1:
			out.right = max(out.right, from.right+1)
		case -1:
			out.left = max(out.left, from.left+1)
		}
	}
	return out
}

// follow brings the ways up to date from run i on, after its starter has changed, row by row as far as they change, and
// returns by how many the long chains have grown.
func (w *web) follow(i int32) int {
	change := 0
	w.front = append(w.front[:0], i)
	for first := true; len(w.front) > 0; first = false {
		w.next = w.next[:0]
		for _, r := range w.front {
			was, is := w.ways[r], w.arriving(r)
			if w.ways[r] = is; is == was && !first {
				continue
			}
			change += is.ends() - was.ends()
			for _, next := range w.after[r] {
				if n := len(w.next); n == 0 || w.next[n-1] != next {
					w.next = append(w.next, next)
				}
			}
		}
		w.front, w.next = w.next, w.front
	}
	return change
}

// survey finds the ways of all runs, whose ties lead to later runs only, and returns how many long chains end at them.
func (w *web) survey() int {
	n := 0
	for i := range w.ways {
		w.ways[i] = w.arriving(int32(i))
		n += w.ways[i].ends()
	}
	return n
}

// longest returns the steps of the longest chain.
func (w *web) longest() int {
	most := int32(0)
	for _, x := range w.ways {
		most = max(most, x.right, x.left)
	}
	return int(most)
}

// inChains marks the runs that long chains go through.
func (w *web) inChains() []bool {
	in := make([]bool, len(w.ways))
	right, left := make([]bool, len(w.ways)), make([]bool, len(w.ways))
	for i := len(w.ways) - 1; i >= 0; i-- {
		right[i] = right[i] || w.ways[i].right >= long
		left[i] = left[i] || w.ways[i].left >= long
		in[i] = right[i] || left[i]
		for _, r := range w.before[i] {
			switch w.way(r, int32(i)) {
			case 1:
				right[r] = right[r] || right[i] && w.ways[r].right+1 == w.ways[i].right
			case -1:
				left[r] = left[r] || left[i] && w.ways[r].left+1 == w.ways[i].left
			}
		}
	}
	return in
}
