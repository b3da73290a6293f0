package search

import "plank.example/cutopt/measure"

// fittingShare is the share of a plank that the longest starter fitting an offcut may be shorter than it.
const fittingShare = 64

// fitting returns the run other than i with the longest starter up to room, if it is within 1/fittingShare plank of it,
// else -1; of several the first.
func (st *state) fitting(i int, room measure.Length) int {
	best, least := -1, st.in.Plank/fittingShare
	if st.lists != nil {
		return st.lists.fitting(i, st.starters, room, least)
	}
	for j, s := range st.starters {
		if d := room - s; uint64(d) < uint64(least) && s > 0 && j != i {
			best, least = j, d
		}
	}
	return best
}

// fewestListed is the fewest runs that are listed by their starters: to keep lists takes longer than to scan fewer.
const fewestListed = 200

// lists are the runs by the part of a plank that their starters end in.
type lists struct {
	plank   measure.Length
	heads   []int32 // by part: a run, or -1
	members []member
}

// A member is the runs before and after a run in its list, or -1.
type member struct{ before, after int32 }

// newLists has all of n runs in one piece.
func newLists(plank measure.Length, n int) *lists {
	const parts = 4 * fittingShare
	l := &lists{plank: plank, heads: make([]int32, parts+1), members: make([]member, n)}
	for k := range l.heads {
		l.heads[k] = -1
	}
	for i := range n {
		l.insert(int32(i), 0)
	}
	return l
}

// part is the list of a starter.
func (l *lists) part(s measure.Length) int { return int(s * measure.Length(len(l.heads)-1) / l.plank) }

// move lists a run by another starter.
func (l *lists) move(i int, from, to measure.Length) {
	a, b := l.part(from), l.part(to)
	if a == b {
		return
	}
	m := l.members[i]
	if m.before >= 0 {
		l.members[m.before].after = m.after
	} else {
		l.heads[a] = m.after
	}
	if m.after >= 0 {
		l.members[m.after].before = m.before
	}
	l.insert(int32(i), b)
}

func (l *lists) insert(i int32, part int) {
	head := l.heads[part]
	l.members[i] = member{-1, head}
	if head >= 0 {
		l.members[head].before = i
	}
	l.heads[part] = i
}

// fitting is as that of the state, with least the first length that is too much to spare.
func (l *lists) fitting(i int, starters []measure.Length, room, least measure.Length) int {
	best := int32(-1)
	for part, last := l.part(room), l.part(max(room-least, 0)); part >= last && best < 0; part-- {
		for j := l.heads[part]; j >= 0; j = l.members[j].after {
			s := starters[j]
			if d := room - s; d < 0 || d > least || s <= 0 || int(j) == i {
				continue
			} else if d < least || best >= 0 && j < best {
				best, least = j, d
			}
		}
	}
	return int(best)
}
