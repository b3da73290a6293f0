package tally

import (
	"math"

	"plank.example/bench/trial"
	"plank.example/cutopt"
)

// Losses are the chances that a plank is culled or miscut that breakage is reckoned with.
var Losses = []float64{0, 0.02, 0.05}

// riskLimit is the chance of running short that what is recommended keeps to.
const riskLimit = 0.02

// A Breakage says what one loss means for what is bought, over rooms. Chances are those of cutopt.Terms.Risk, in
// millionths, rounded to the nearest.
type Breakage struct {
	Thumb   Pair `json:"thumb"`   // chance that the boxes of the rule of thumb run short
	Advised Pair `json:"advised"` // chance that those recommended do
	More    Pair `json:"more"`    // boxes recommended less those of the rule of thumb
}

// chance is the Breakage of one room.
type chance struct{ thumb, advised, more int64 }

// chancesOf reckons what breakage means for the planks of a record; nil where it has none.
func chancesOf(r *trial.Record) []chance {
	if r.Planks == 0 || r.PerBox == 0 {
		return nil
	}
	out := make([]chance, len(Losses))
	for i, loss := range Losses {
		t := cutopt.Terms{PerBox: r.PerBox, Loss: loss, Limit: riskLimit}
		n := t.Boxes(r.Planks)
		out[i] = chance{millionths(t.Risk(r.Planks, r.Thumb)), millionths(t.Risk(r.Planks, n)), int64(n - r.Thumb)}
	}
	return out
}

func millionths(p float64) int64 { return int64(math.Round(1e6 * p)) }

func (c *Cell) breakage(chances []chance) {
	if c.Breakage == nil && chances != nil {
		c.Breakage = make([]Breakage, len(chances))
	}
	for i, x := range chances {
		b := &c.Breakage[i]
		b.Thumb.add(x.thumb)
		b.Advised.add(x.advised)
		b.More.add(x.more)
	}
}

func (c *Cell) mergeBreakage(o []Breakage) {
	if c.Breakage == nil && o != nil {
		c.Breakage = make([]Breakage, len(o))
	}
	for i := range o {
		c.Breakage[i].Thumb.merge(o[i].Thumb)
		c.Breakage[i].Advised.merge(o[i].Advised)
		c.Breakage[i].More.merge(o[i].More)
	}
}

// A Breaking sums trial.Breaking over rooms: how often boxes ran short, and the binomial chances in millionths.
type Breaking struct {
	Thumb        Pair `json:"thumb"`
	Advised      Pair `json:"advised"`
	PlainThumb   Pair `json:"plain_thumb"`
	PlainAdvised Pair `json:"plain_advised"`
}

func (c *Cell) breakings(of []trial.Breaking) {
	if c.Breakings == nil && of != nil {
		c.Breakings = make([]Breaking, len(of))
	}
	for i, x := range of {
		b := &c.Breakings[i]
		b.Thumb.add(int64(x.Thumb))
		b.Advised.add(int64(x.Advised))
		b.PlainThumb.add(x.PlainThumb)
		b.PlainAdvised.add(x.PlainAdvised)
	}
}

func (c *Cell) mergeBreakings(o []Breaking) {
	if c.Breakings == nil && o != nil {
		c.Breakings = make([]Breaking, len(o))
	}
	for i := range o {
		b := &c.Breakings[i]
		b.Thumb.merge(o[i].Thumb)
		b.Advised.merge(o[i].Advised)
		b.PlainThumb.merge(o[i].PlainThumb)
		b.PlainAdvised.merge(o[i].PlainAdvised)
	}
}
