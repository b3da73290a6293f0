package change

import (
	"plank.example/cutopt/rows"
)

// A Group is pieces that the plan before cuts from one plank, or from one offcut on hand.
type Group struct {
	Hand  int         // index of Instance.Offcuts; -1 for a plank
	Parts []rows.Part // as long as in the instance
}

// Cut cuts up a layout so that as many pieces as possible come from where they came before, with no more planks than
// most, which Instance.Count keeps to for the layout and the packing. First all pieces that are laid as before stay
// together, and the others take what is left; where that needs too many planks, the cutting of Instance.Cut is paired
// anew: offcuts on hand first, then planks in their order, each pair of before is kept if the largest matching of the
// rest still spares enough. Runs that are begun take no plank for their starters in what it returns.
//
// It takes O(n^2) for n runs and offcuts, and the time of Instance.Cut.
func Cut(in *rows.Instance, layout rows.Layout, packing rows.Packing, before []Group, most int) *rows.Cutting {
	if cut := staying(in, layout, before, most); cut != nil {
		return cut
	}
	most -= begun(in)
	d := newCutter(in, layout)
	d.take(in.Cut(layout, packing))
	d.join(&keeping{before: before, most: most}, freely)
	if d.planks() > most { // pieces of one-piece runs beside enders: as Instance.Cut has them
		d = newCutter(in, layout)
		d.asIs(in.Cut(layout, packing))
	}
	return d.cutting()
}

// staying cuts up a layout with all pieces that are laid as before together as they were; nil where that takes more
// planks.
func staying(in *rows.Instance, layout rows.Layout, before []Group, most int) *rows.Cutting {
	c := newCutter(in, layout)
	c.stay(before)
	for _, how := range []manner{gently, freely} {
		if c.join(nil, how); c.planks() <= most-begun(in) {
			return c.cutting()
		}
	}
	return nil
}

// begun counts the runs of which the starter lies.
func begun(in *rows.Instance) (n int) {
	for i := range in.Runs {
		if in.Runs[i].Starter == in.Plank {
			n++
		}
	}
	return n
}
