package cut

import "sync"

// A workspace is memory that the programs of a job use one after the other, and jobs after it. What it hands out is
// written anew before it is read, so that no result depends on it.
type workspace struct {
	price   pricer
	masters []*master // idle
	chunk   []take    // the rest of it is free
}

// workspaces keeps those of jobs that are done.
var workspaces = sync.Pool{New: func() any { return new(workspace) }}

// chunkTakes is how many takes are made at once.
const chunkTakes = 1 << 12

// keep copies takes to memory that is the job's until it is done.
func (w *workspace) keep(takes []take) []take {
	n := len(takes)
	if cap(w.chunk)-len(w.chunk) < n {
		w.chunk = make([]take, 0, max(chunkTakes, n))
	}
	at := len(w.chunk)
	w.chunk = append(w.chunk, takes...)
	return w.chunk[at : at+n : at+n]
}

// master returns one that is idle.
func (w *workspace) master() *master {
	if n := len(w.masters); n > 0 {
		m := w.masters[n-1]
		w.masters = w.masters[:n-1]
		return m
	}
	return &master{frame: new(frame)}
}

// release gives the workspace back.
func (w *workspace) release() {
	w.chunk = w.chunk[:0]
	workspaces.Put(w)
}

// A patternSet finds patterns in a list, by open addressing.
type patternSet struct {
	slots []int32 // places in the list, from 1; their number is a power of two
}

// reset empties the set.
func (s *patternSet) reset() { clear(s.slots) }

func (p *pattern) hash() uint64 {
	h := uint64(p.stick)
	for _, t := range p.takes {
		h = (h^uint64(t.kind)<<20^uint64(t.count))*0x9e3779b97f4a7c15 + 1
	}
	return h ^ h>>29
}

// find returns the slot of an equal pattern, or the empty one where it would go.
func (s *patternSet) find(list []pattern, p *pattern) (slot int, found bool) {
	mask := len(s.slots) - 1
	for at := int(p.hash()) & mask; ; at = (at + 1) & mask {
		i := s.slots[at]
		if i == 0 {
			return at, false
		}
		if q := &list[i-1]; q.stick == p.stick && equalTakes(q.takes, p.takes) {
			return at, true
		}
	}
}

func equalTakes(a, b []take) bool {
	if len(a) != len(b) {
		return false
	}
	for i, t := range a {
		if t != b[i] {
			return false
		}
	}
	return true
}

// has reports whether the list has an equal pattern.
func (s *patternSet) has(list []pattern, p *pattern) bool {
	if len(s.slots) == 0 {
		return false
	}
	_, found := s.find(list, p)
	return found
}

// add notes that a pattern goes to the end of the list, unless the list has it.
func (s *patternSet) add(list []pattern, p *pattern) bool {
	if 2*(len(list)+1) > len(s.slots) {
		s.slots = make([]int32, max(64, 4*len(s.slots)))
		for i := range list {
			at, _ := s.find(list, &list[i])
			s.slots[at] = int32(i + 1)
		}
	}
	at, found := s.find(list, p)
	if !found {
		s.slots[at] = int32(len(list) + 1)
	}
	return !found
}
