// Package starters lists which starters every run of an instance admits and which runs they can clash with: the finite
// domains that bound and search work on.
package starters

import (
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Segment is a stretch of admissible starters Lo, Lo+Grid, … Hi that lay a run with the same number of whole planks.
// A whole-plank starter off the grid is a segment of its own.
type Segment struct {
	Lo, Hi measure.Length
	Field  int // whole planks between starter and ender
}

// Joints returns the number of end joints of a run laid with a starter of the segment.
func (s Segment) Joints() int { return s.Field + 1 }

// A Class holds what runs of one length have in common. A run that is begun or has joints laid beside it is a class of
// its own.
type Class struct {
	Length   measure.Length
	Segments []Segment // ascending, disjoint
	Single   bool      // may be laid in one piece
	Cleared  bool      // the joints beside the run forbid starters that it would admit without them
}

// A Tie binds two touching runs, seen from one of them.
type Tie struct {
	Run   int            // the other run
	Delta measure.Length // From of the other run less From of this one
}

// A Table holds the domains of all runs of an instance.
type Table struct {
	Instance *rows.Instance
	Classes  []Class
	ClassOf  []int   // by run
	Ties     [][]Tie // by run
	Hands    []Hand  // offcuts on hand that some run can use
}

// A Hand is the part of a plank that the pieces cut from an offcut on hand can take up: a starter, or pieces of
// one-piece runs, from From = 0 on, an ender, or such pieces, up to the plank's end.
type Hand struct{ From, To measure.Length }

// New builds the table. Time and memory are linear in runs, ties and, where joints lie beside a run, those joints.
func New(in *rows.Instance) *Table {
	t := &Table{Instance: in, ClassOf: make([]int, len(in.Runs)), Ties: make([][]Tie, len(in.Runs))}
	byLength := make(map[measure.Length]int)
	for i, r := range in.Runs {
		c, ok := byLength[r.Length]
		switch {
		case r.Starter > 0:
			c = len(t.Classes)
			t.Classes = append(t.Classes, begunClass(in, i))
		case len(r.Beside) > 0:
			c = len(t.Classes)
			t.Classes = append(t.Classes, newClass(in, r.Length))
			t.Classes[c].keepClear(in, &r)
		case !ok:
			c = len(t.Classes)
			t.Classes = append(t.Classes, newClass(in, r.Length))
			byLength[r.Length] = c
		}
		t.ClassOf[i] = c
	}
	t.Hands = hands(t)
	degree := make([]int, len(in.Runs))
	for _, p := range in.Touch {
		degree[p[0]]++
		degree[p[1]]++
	}
	flat := make([]Tie, 2*len(in.Touch))
	for i, d := range degree {
		t.Ties[i], flat = flat[:0:d], flat[d:]
	}
	for _, p := range in.Touch {
		delta := in.Runs[p[1]].From - in.Runs[p[0]].From
		t.Ties[p[0]] = append(t.Ties[p[0]], Tie{Run: p[1], Delta: delta})
		t.Ties[p[1]] = append(t.Ties[p[1]], Tie{Run: p[0], Delta: -delta})
	}
	return t
}

// Of returns the class of run i.
func (t *Table) Of(i int) *Class { return &t.Classes[t.ClassOf[i]] }

// newClass finds the admissible starters of a run of length w: with q whole planks in w-1 and r = w - qL, starters
// below r leave q whole planks and the ender r - s, starters from r on leave one fewer and the ender L + r - s.
func newClass(in *rows.Instance, w measure.Length) Class {
	l, m, g := in.Plank, max(in.MinPiece, 1), in.Grid
	e := max(m, in.MinEnder)
	c := Class{Length: w, Single: w <= l}
	q := (w - 1) / l
	r := w - q*l
	add := func(lo, hi measure.Length, field int) {
		lo, hi = (lo+g-1)/g*g, hi/g*g
		if lo <= hi {
			c.Segments = append(c.Segments, Segment{Lo: lo, Hi: hi, Field: field})
		}
	}
	add(m, min(r-e, l), int(q))
	if q == 0 {
		return c
	}
	add(max(m, r), min(l, l+r-e), int(q)-1)
	if l%g != 0 && r >= e { // a whole starter leaves the ender r
		c.Segments = append(c.Segments, Segment{Lo: l, Hi: l, Field: int(q) - 1})
	}
	return c
}

// begunClass is the class of a run whose starter is given.
func begunClass(in *rows.Instance, i int) Class {
	run := &in.Runs[i]
	p, _ := in.Lay(i, run.Starter)
	return Class{Length: run.Length, Segments: []Segment{{Lo: run.Starter, Hi: run.Starter, Field: p.Field}}}
}

// keepClear takes from the segments every starter with a joint nearer than the stagger to one beside the run: for a
// joint at x, those within the stagger of x - From - kL for some of the run's joints k.
func (c *Class) keepClear(in *rows.Instance, run *rows.Run) {
	if in.Stagger == 0 {
		return
	}
	for _, x := range run.Beside {
		var left []Segment
		for _, seg := range c.Segments {
			// Only joints k with at - Stagger < Hi and Lo < at + Stagger forbid any. Starters fall as k grows, so the stretches
			// that are forbidden are met from the last such joint on.
			lo, x := seg.Lo, x-run.From
			most := min(measure.Length(seg.Field), (x+in.Stagger-seg.Lo)/in.Plank)
			for k := most; k >= max((x-in.Stagger-seg.Hi)/in.Plank, 0) && lo <= seg.Hi; k-- {
				at := x - k*in.Plank
				if hi := min(seg.Hi, at-in.Stagger); lo <= hi {
					left = seg.appendPart(left, in, lo, hi)
				}
				lo = max(lo, at+in.Stagger)
			}
			if lo <= seg.Hi {
				left = seg.appendPart(left, in, lo, seg.Hi)
			}
		}
		c.Cleared = c.Cleared || !slices.Equal(c.Segments, left)
		c.Segments = left
	}
}

// appendPart appends the starters of the segment within lo … hi, if there are any.
func (s Segment) appendPart(to []Segment, in *rows.Instance, lo, hi measure.Length) []Segment {
	if s.Lo == s.Hi {
		if lo <= s.Lo && s.Lo <= hi {
			to = append(to, s)
		}
		return to
	}
	g := in.Grid
	lo, hi = (lo+g-1)/g*g, hi/g*g
	if lo <= hi {
		to = append(to, Segment{Lo: lo, Hi: hi, Field: s.Field})
	}
	return to
}
