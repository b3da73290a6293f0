// Package slack finds which starters can be laid as their offcuts come, without a saw cut, and how long they may then
// turn out.
//
// An offcut is mostly a little longer than the starter that is planned from it. Laid as it comes it moves the joints of
// its run away from where the run begins, makes the ender shorter and that ender's offcut longer, and so the next
// starter: the slack runs along the chain of offcuts, with what the walls are out, until one saw cut ends it. A starter
// gets an interval, from the length planned to the longest that the chain before it can make it. It is laid as it comes
// where every rule holds for every length in its interval and in those of the runs beside it, whatever each of them
// comes out at. All joints of a run move the same way, so what a run may move rests on where the runs beside it are
// planned, not on how far they move; and where a chain has to be cut, the last place before the rule that would break
// is the best, as it leaves the least for what follows. So one pass in the order of laying finds the fewest cuts.
package slack

import (
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Problem is a floor that is planned.
type Problem struct {
	Instance *rows.Instance // its runs as long as they may come out
	Layout   rows.Layout
	Planks   [][]rows.Part // from the left end of each plank
	Order    []int         // the runs in the order of laying
	// a run is measured so much shorter than it is in the instance, and may come out shorter by it
	Fit  measure.Length
	Most measure.Length // an offcut that is longer than its starter by more is sawn
	Sawn []bool         // by run: its starter is sawn anyway
	// Given says, of each run that is begun, how much longer than planned its starter has come out at most; nil for none.
	Given []measure.Length
}

// Find returns for each run how much longer than planned its starter may turn out when it is laid as it comes; 0 where
// it is sawn, whole, or no offcut. It takes O(runs + ties + pieces).
func Find(p *Problem) []measure.Length {
	f := &finder{Problem: p, longer: make([]measure.Length, len(p.Layout))}
	f.links()
	f.limits()
	copy(f.longer, p.Given)
	for _, i := range p.Order {
		l := &f.link[i]
		if !l.offcut || f.begun(i) {
			continue
		}
		longer := l.gap + 2*l.fits
		if l.from >= 0 {
			longer += f.longer[l.from]
		}
		switch {
		case l.loose && longer <= f.limit[i]:
			f.longer[i] = longer
		case l.gap+l.fits == 0 && longer > 0: // no cut is planned here: the offcut must come as planned
			f.sawBefore(l.from)
		}
	}
	return f.longer
}

// begun reports whether run i has come out as it is given.
func (f *finder) begun(i int) bool { return f.Instance.Runs[i].Starter > 0 }

// A link is what a starter that is cut last from its plank is cut from.
type link struct {
	offcut bool           // there is one: the starter is no whole plank, and all else on its plank is laid before
	loose  bool           // it may be laid as it comes, as far as it alone goes
	from   int            // the run whose ender leaves it, or -1
	gap    measure.Length // how much longer than planned it is at least
	fits   measure.Length // what the pieces before it on its plank may come out shorter or longer than measured
}

// A finder holds what Find works on.
type finder struct {
	*Problem
	link   []link
	limit  []measure.Length // by run: how far its joints may move
	longer []measure.Length // by run, so far
}

// links follows every sawn starter to the plank it is cut from.
func (f *finder) links() {
	f.link = make([]link, len(f.Layout))
	rank := make([]int, len(f.Layout))
	for k, i := range f.Order {
		rank[i] = k
	}
	for _, parts := range f.Planks {
		n := len(parts) - 1
		if n < 1 || parts[n].Role != rows.RoleStarter {
			continue
		}
		i := parts[n].Run
		l := link{offcut: true, from: -1, gap: f.Instance.Plank - f.Layout[i]}
		for _, part := range parts[:n] {
			l.offcut = l.offcut && rank[part.Run] < rank[i]
			l.gap -= part.Length + f.Instance.Kerf
			l.fits += f.Fit
			if part.Role == rows.RoleEnder {
				l.from = part.Run
			}
		}
		l.loose = l.gap+l.fits <= f.Most && !f.Sawn[i]
		f.link[i] = l
	}
}

// limits finds how far the joints of each run may move from where it begins: until its ender is too short, its
// starter longer than a plank, or a joint comes too near to one beside it.
func (f *finder) limits() {
	in := f.Instance
	f.limit = make([]measure.Length, len(f.Layout))
	joints := make([]int, len(f.Layout))
	for i, s := range f.Layout {
		p, _ := in.Lay(i, s)
		joints[i] = p.Joints()
		f.limit[i] = min(p.Ender-max(in.MinPiece, in.MinEnder, 1), in.Plank-s) // no offcut is longer than a plank
		if f.Fit == 0 && p.Ender == in.Plank {
			f.limit[i] = 0 // what is laid whole would have to be sawn
		}
	}
	for _, t := range in.Touch {
		for _, t := range [][2]int{t, {t[1], t[0]}} {
			a, b := t[0], t[1]
			f.beside(a, joints[a], in.Runs[b].From+f.Layout[b], joints[b])
		}
	}
	for i := range in.Runs {
		for _, x := range in.Runs[i].Beside {
			f.beside(i, joints[i], x, 1)
		}
	}
	f.exact()
}

// beside limits run i by so many joints of a row beside it, each a plank from the next, the first of them at x.
func (f *finder) beside(i, joints int, x measure.Length, others int) {
	if joints == 0 || others == 0 || f.Instance.Stagger == 0 {
		return
	}
	l := f.Instance.Plank
	apart := x - f.Instance.Runs[i].From - f.Layout[i] // from the first joint of the run
	// The nearest joint to the right of one of the run is apart + kl away for the least k that makes this positive.
	k := -apart/l + 1
	if apart > 0 {
		k = 1 - (apart+l-1)/l
	}
	if k = max(k, -measure.Length(joints-1)); k > measure.Length(others-1) {
		return // all lie to the left
	}
	f.limit[i] = min(f.limit[i], apart+k*l-f.Instance.Stagger)
}

// exact holds the runs whose enders leave on a plank just what a last piece takes, or take it themselves: an ender that
// is shorter would ask for a saw cut that is not planned. It is so only where nothing is allowed for walls; starters
// that are cut last are seen to by Find.
func (f *finder) exact() {
	if f.Fit > 0 {
		return
	}
	for _, parts := range f.Planks {
		n := len(parts) - 1
		if n < 1 || parts[n].Role == rows.RoleStarter && f.link[parts[n].Run].offcut {
			continue
		}
		left := f.Instance.Plank - f.Instance.Kerf*measure.Length(n)
		for _, part := range parts {
			left -= part.Length
		}
		for _, part := range parts {
			if left == 0 && part.Role == rows.RoleEnder {
				f.limit[part.Run] = 0
			}
		}
	}
}

// sawBefore ends the slack that reaches run i by a saw cut at the last starter that one is planned for.
func (f *finder) sawBefore(i int) {
	for ; i >= 0 && f.longer[i] > 0 && !f.begun(i); i = f.link[i].from {
		f.longer[i] = 0
		if l := &f.link[i]; l.gap+l.fits > 0 {
			return
		}
	}
}
