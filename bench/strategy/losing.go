package strategy

import (
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Luck is what befalls a layer, whatever he does: the same for all ways of laying a floor.
type Luck interface {
	Culled(n int) bool // whether the n-th plank opened, from 0, is of no use
	// Miscut is where the n-th plank sawn, from 0, is sawn in the wrong place, from its left end; 0 for nowhere.
	Miscut(n int) measure.Length
	Gone(n int) bool // whether the n-th offcut taken, from 0, is mixed up or broken
}

// OpenedWithLosses counts the planks that a layer opens by the trade's habit, some of which are lost: run by run the
// next offcut that fits starts it, the latest first, at the longest starter that the rules allow; else a new plank
// does. The last piece of a run is cut from a new plank, and its offcut kept; with careful also from the next offcut
// that has the left factory end and is long enough. It returns ErrNone when a run has no starter left, and takes
// O(runs * (offcuts + grid lines of a plank)).
func OpenedWithLosses(in *rows.Instance, luck Luck, careful bool) (int, error) {
	h := &habit{in: in, luck: luck, careful: careful}
	l := newLaying(in)
	for i := range in.Runs {
		var may []measure.Length // longest first; 0 for one piece
		l.each(i, func(s measure.Length) bool { may = append(may, s); return true })
		if len(may) == 0 {
			return 0, ErrNone
		}
		if may[0] == 0 {
			h.single(l.lay(i, 0).Single)
			continue
		}
		starter, offcut := may[0], false
		for k := len(h.right) - 1; k >= 0; k-- {
			if s := fits(may, h.right[k]); s > 0 {
				h.right = slices.Delete(h.right, k, k+1)
				if offcut = !h.gone(); offcut {
					starter = s
					break
				}
			}
		}
		if !offcut {
			h.open(starter < in.Plank)
			h.put(&h.left, in.Plank-in.Kerf-starter)
		}
		p := l.lay(i, starter)
		for range p.Field {
			h.open(false)
		}
		h.ender(p.Ender)
	}
	return h.planks, nil
}

// fits returns the longest of the starters, which fall, that an offcut holds; 0 for none.
func fits(may []measure.Length, offcut measure.Length) measure.Length {
	for _, s := range may {
		if s <= offcut {
			return s
		}
	}
	return 0
}

// A habit is a layer's planks and offcuts, the latest last.
type habit struct {
	in          *rows.Instance
	luck        Luck
	careful     bool
	planks      int
	sawn        int              // planks
	turns       int              // of offcuts
	right, left []measure.Length // by the factory end they have
}

func (h *habit) put(pile *[]measure.Length, x measure.Length) {
	if x > 0 {
		*pile = append(*pile, x)
	}
}

// open opens planks until one is sound.
func (h *habit) open(sawn bool) {
	for {
		h.planks++
		if h.luck.Culled(h.planks - 1) {
			continue
		}
		if !sawn {
			return
		}
		h.sawn++
		at := h.luck.Miscut(h.sawn - 1)
		if at == 0 {
			return
		}
		h.put(&h.left, at)
		h.put(&h.right, h.in.Plank-h.in.Kerf-at)
	}
}

// gone reports whether the offcut that is to be taken next is not there.
func (h *habit) gone() bool {
	h.turns++
	return h.luck.Gone(h.turns - 1)
}

// take takes the latest offcut of at least x off a pile.
func (h *habit) take(pile *[]measure.Length, x measure.Length) (measure.Length, bool) {
	for k := len(*pile) - 1; k >= 0; k-- {
		if o := (*pile)[k]; o >= x {
			*pile = slices.Delete(*pile, k, k+1)
			if !h.gone() {
				return o, true
			}
		}
	}
	return 0, false
}

func (h *habit) ender(x measure.Length) {
	if x < h.in.Plank && h.careful {
		if _, ok := h.take(&h.left, x); ok {
			return
		}
	}
	h.open(x < h.in.Plank)
	h.put(&h.right, h.in.Plank-h.in.Kerf-x)
}

func (h *habit) single(x measure.Length) {
	for _, pile := range []*[]measure.Length{&h.right, &h.left} {
		if o, ok := h.take(pile, x); ok {
			h.put(pile, o-h.in.Kerf-x)
			return
		}
	}
	h.open(x < h.in.Plank)
	h.put(&h.right, h.in.Plank-h.in.Kerf-x)
}
