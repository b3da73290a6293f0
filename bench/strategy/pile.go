package strategy

import (
	"context"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Pile is the habit of a layer who keeps every offcut that may still start a run: each run starts with the offcut of
// the pile from which least is sawn off, at the longest starter the rules allow; of two as good with the shorter one.
// Where none serves it opens a plank. It takes O(runs * (offcuts + grid lines of a plank)).
type Pile struct{}

// Name returns "pile".
func (Pile) Name() string { return "pile" }

// Lay returns ErrNone when it comes to a run that has no starter left.
func (Pile) Lay(_ context.Context, floor *Floor) (*Answer, error) {
	in := floor.Rows
	l := newLaying(in)
	var pile []measure.Length // right-ended offcuts, rising
	for i := range in.Runs {
		var may []measure.Length // longest first; 0 for one piece
		l.each(i, func(s measure.Length) bool { may = append(may, s); return true })
		if len(may) == 0 {
			return nil, ErrNone
		}
		starter, from := may[0], -1 // from a new plank
		if starter == 0 {
			from, _ = slices.BinarySearch(pile, in.Runs[i].Length)
		} else {
			least := in.Plank
			k := 0
			for o := len(pile) - 1; o >= 0; o-- { // both fall
				for k < len(may) && may[k] > pile[o] {
					k++
				}
				if k < len(may) && pile[o]-may[k] <= least {
					least, starter, from = pile[o]-may[k], may[k], o
				}
			}
		}
		p := l.lay(i, starter)
		left := in.Plank - in.Kerf - max(p.Ender, p.Single)
		if from >= 0 && from < len(pile) {
			if p.Single > 0 {
				left = pile[from] - in.Kerf - p.Single
			}
			pile = slices.Delete(pile, from, from+1)
		}
		if left > 0 {
			at, _ := slices.BinarySearch(pile, left)
			pile = slices.Insert(pile, at, left)
		}
	}
	return &Answer{Layout: l.layout}, nil
}

// Opened counts the planks that a layer opens who lays the runs one after the other and has only what lies about then:
// with a pile of every offcut, the shortest that serves taken first, or with the last offcut of each factory end only.
// What comes off a new plank's other end lies about too: an ender's rest starts a run, a starter's rest ends one. Count
// pairs in hindsight; this does not, so it is never less. The layout must pass Check. It takes O(runs * log) and the
// moves of the pile.
func Opened(in *rows.Instance, layout rows.Layout, pile bool) int {
	o := &opener{in: in, keep: pile}
	for i, s := range layout {
		p, _ := in.Lay(i, s)
		if p.Single > 0 {
			o.single(p.Single)
			continue
		}
		o.starter(p.Starter)
		o.planks += p.Field
		o.ender(p.Ender)
	}
	return o.planks
}

type opener struct {
	in          *rows.Instance
	keep        bool // a pile; else the last offcut of each end
	planks      int
	right, left []measure.Length // offcuts by the factory end they have, rising
}

// take takes the shortest offcut of at least x off the pile and returns its length.
func take(pile *[]measure.Length, x measure.Length) (measure.Length, bool) {
	at, _ := slices.BinarySearch(*pile, x)
	if at == len(*pile) {
		return 0, false
	}
	o := (*pile)[at]
	*pile = slices.Delete(*pile, at, at+1)
	return o, true
}

// put lays down an offcut; one who keeps no pile drops the one before.
func (o *opener) put(pile *[]measure.Length, x measure.Length) {
	if !o.keep {
		*pile = (*pile)[:0]
	}
	if x > 0 {
		at, _ := slices.BinarySearch(*pile, x)
		*pile = slices.Insert(*pile, at, x)
	}
}

func (o *opener) starter(s measure.Length) {
	if s == o.in.Plank {
		o.planks++
		return
	}
	if _, ok := take(&o.right, s); !ok {
		o.planks++
		o.put(&o.left, o.in.Plank-o.in.Kerf-s)
	}
}

func (o *opener) ender(e measure.Length) {
	if e == o.in.Plank {
		o.planks++
		return
	}
	if _, ok := take(&o.left, e); !ok {
		o.planks++
		o.put(&o.right, o.in.Plank-o.in.Kerf-e)
	}
}

// single cuts a one-piece run off an offcut, whose end stays with what is left, or off a new plank's left end.
func (o *opener) single(x measure.Length) {
	if x < o.in.Plank {
		for _, pile := range []*[]measure.Length{&o.right, &o.left} {
			if from, ok := take(pile, x); ok {
				o.put(pile, from-o.in.Kerf-x)
				return
			}
		}
	}
	o.planks++
	o.put(&o.right, o.in.Plank-o.in.Kerf-x)
}
