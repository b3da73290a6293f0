package strategy

import (
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// laying is a layout in the making, run after run.
type laying struct {
	in     *rows.Instance
	layout rows.Layout
	joints []int
	before [][]int // by run: touching runs with a lower index
}

func newLaying(in *rows.Instance) *laying {
	l := &laying{
		in: in, layout: make(rows.Layout, len(in.Runs)), joints: make([]int, len(in.Runs)),
		before: make([][]int, len(in.Runs)),
	}
	for _, t := range in.Touch {
		l.before[t[1]] = append(l.before[t[1]], t[0])
	}
	return l
}

// may reports whether run i can be laid with a starter beside the runs laid before it.
func (l *laying) may(i int, s measure.Length) bool {
	p, ok := l.in.Lay(i, s)
	if !ok {
		return false
	}
	for _, j := range l.before[i] {
		if l.in.Clash(l.in.Runs[i].From+s, p.Joints(), l.in.Runs[j].From+l.layout[j], l.joints[j]) {
			return false
		}
	}
	return true
}

func (l *laying) lay(i int, s measure.Length) rows.Pieces {
	p, _ := l.in.Lay(i, s)
	l.layout[i], l.joints[i] = s, p.Joints()
	return p
}

// each offers the starters that run i may have, longest first, until told to stop; a run that one piece covers is laid
// in one piece.
func (l *laying) each(i int, offer func(measure.Length) bool) {
	in := l.in
	if l.may(i, 0) {
		offer(0)
		return
	}
	if l.may(i, in.Plank) && !offer(in.Plank) {
		return
	}
	for s := (in.Plank - 1).Floor(in.Grid); s > 0 && s >= in.MinPiece; s -= in.Grid {
		if l.may(i, s) && !offer(s) {
			return
		}
	}
}

// longest returns the longest starter of run i up to most.
func (l *laying) longest(i int, most measure.Length) (found measure.Length, ok bool) {
	l.each(i, func(s measure.Length) bool {
		if s <= most {
			found, ok = s, true
		}
		return !ok
	})
	return found, ok
}

// nearest returns the starter of run i nearest to the one wanted, the longer of two as near.
func (l *laying) nearest(i int, want measure.Length) (found measure.Length, ok bool) {
	off := measure.Length(0)
	l.each(i, func(s measure.Length) bool {
		if d := max(s-want, want-s); !ok || d < off {
			found, off, ok = s, d, true
		}
		return true
	})
	return found, ok
}

// Fits reports whether run i of a layout in the making keeps the rules of its own and its joints the stagger from those
// of the runs with a lower number, which are laid already. It takes O(ties).
func Fits(in *rows.Instance, layout rows.Layout, i int) bool {
	p, ok := in.Lay(i, layout[i])
	for _, t := range in.Touch {
		if j := t[0]; ok && t[1] == i {
			q, _ := in.Lay(j, layout[j])
			ok = !in.Clash(in.Runs[i].From+layout[i], p.Joints(), in.Runs[j].From+layout[j], q.Joints())
		}
	}
	return ok
}
