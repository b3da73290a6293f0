package walk

// mostAlike is the most runs of stretches that are found by how far they turn.
const mostAlike = 3

// turns finds stretches of one to mostAlike runs that turn a walk as far: the starters of runs that follow are as many
// steps of the grid longer, but for whole planks.
type turns struct {
	*links
	circle int32                // steps of a plank
	of     []int32              // by run: how far it turns
	lists  [mostAlike][]turning // by length less one, and by run
	heads  [mostAlike][]int32   // by length less one, and by how far: a run that begins such a stretch, or -1
}

// A turning is how far the stretch from a run on turns, and its neighbours in the list of those that turn as far, or
// -1.
type turning struct{ far, next, before int32 }

// newTurns sorts the stretches of a walk. Time and memory are linear in runs and steps of a plank.
func newTurns(w *links) turns {
	in, n := w.in, len(w.layout)
	t := turns{links: w, circle: int32(in.Plank / in.Grid), of: make([]int32, n)}
	for i, r := range in.Runs {
		x := in.Plank - in.Kerf - r.Length
		t.of[i] = int32((x-x.Div(in.Plank)*in.Plank)/in.Grid) % t.circle
	}
	for k := range mostAlike {
		t.lists[k], t.heads[k] = make([]turning, n), make([]int32, t.circle)
		for far := range t.heads[k] {
			t.heads[k][far] = -1
		}
		for i := range n {
			t.insert(k, int32(i))
		}
	}
	return t
}

// insert lists the stretch of k + 1 runs from run i on.
func (t *turns) insert(k int, i int32) {
	far, j := t.of[i], int(i)
	for range k {
		j = t.after[j]
		far += t.of[j]
	}
	far %= t.circle
	head := t.heads[k][far]
	t.lists[k][i] = turning{far, head, -1}
	if head >= 0 {
		t.lists[k][head].before = i
	}
	t.heads[k][far] = i
}

// remove takes run i from its list.
func (t *turns) remove(k int, i int32) {
	e := t.lists[k][i]
	if e.before >= 0 {
		t.lists[k][e.before].next = e.next
	} else {
		t.heads[k][e.far] = e.next
	}
	if e.next >= 0 {
		t.lists[k][e.next].before = e.before
	}
}

// changed lists anew the stretches that reach into a window.
func (t *turns) changed(w *window) {
	first := w.entry
	for k := 1; k < mostAlike; k++ {
		i := first
		for range w.n + k {
			t.remove(k, int32(i))
			t.insert(k, int32(i))
			i = t.after[i]
		}
		first = t.before[first]
	}
}

// alike draws a stretch that turns as far as the n runs from one on, or a step less or more: its first run and how many
// they are, or -1 where there is none but itself.
func (t *turns) alike(first, n int, draw uint64) (run, m int) {
	far := t.lists[n-1][first].far
	for c := range uint64(3 * mostAlike) {
		c = (c + draw>>8) % (3 * mostAlike)
		k := int(c % mostAlike)
		head := t.heads[k][(far+int32(c/mostAlike)-1+t.circle)%t.circle]
		if head < 0 {
			continue
		}
		i := head
		next := func() {
			if i = t.lists[k][i].next; i < 0 {
				i = head
			}
		}
		for range draw & 3 {
			next()
		}
		if int(i) == first {
			next()
		}
		if int(i) != first {
			return int(i), k + 1
		}
	}
	return -1, 0
}

// less is by how many steps the runs of one window that move turn less than those of another, but for whole planks.
func (t *turns) less(w, v *window) int32 {
	far := int32(0)
	for _, i := range v.runs[:v.moves] {
		far += t.of[i]
	}
	for _, i := range w.runs[:w.moves] {
		far += t.circle - t.of[i]
	}
	return far % t.circle
}
