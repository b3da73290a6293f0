package cutopt_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// One box kept for every 50 or fraction thereof (section 09 65 19 of a county's project specification): of 24, 50, 51
// and 101 boxes laid 1, 1, 2 and 3, whatever part of them lies, and whatever of the rest is here.
func TestAtticStockOnTop(t *testing.T) {
	for _, c := range []struct{ laid, kept int }{{24, 1}, {50, 1}, {51, 2}, {101, 3}} {
		for _, per := range []int{1, 6, 10} {
			terms := cutopt.Terms{PerBox: per, Spare: cutopt.Spare{BoxPer: 50}}
			for _, lies := range []int{0, 1, c.laid / 2, c.laid} { // boxes
				needed := (c.laid - lies) * per
				for here := range c.laid - lies + c.kept + 2 {
					want := max(0, c.laid-lies+c.kept-here)
					if got := terms.OnTop(needed, c.laid*per, max(0, needed-here*per), here*per); got != want {
						t.Errorf("%d boxes of %d laid, %d lie, %d here: buy %d, want %d", c.laid, per, lies, here, got, want)
					}
				}
			}
		}
	}
}

func TestOnTop(t *testing.T) {
	for _, c := range []struct {
		reason                     string
		terms                      cutopt.Terms
		needed, inUse, short, here int
		want                       int
	}{
		{"what is here will do", cutopt.Terms{PerBox: 8}, 10, 30, 0, 10, 0},
		{"one plank short is a box", cutopt.Terms{PerBox: 8}, 11, 30, 1, 10, 1},
		{"spares are bought again", cutopt.Terms{PerBox: 8, Spare: cutopt.Spare{Planks: 4}}, 10, 30, 0, 13, 1},
		{"and are of all planks laid", cutopt.Terms{PerBox: 8, Spare: cutopt.Spare{Percent: 10}}, 10, 30, 0, 12, 1},
		{"short of one lot, though the other has them", cutopt.Terms{PerBox: 8}, 10, 30, 9, 20, 2},
		// Of 10 + 1 planks that are each lost with a chance of 1 in 100 more than 1 are with 0.5 %, by hand:
		// 1 - 0.99^11 - 11 * 0.01 * 0.99^10 = 0.0052; of 10 + 0 any with 9.6 %.
		{"the reserve is for what is still to be cut", cutopt.Terms{PerBox: 1, Loss: 0.01, Limit: 0.01}, 10, 90, 0, 10, 1},
	} {
		if got := c.terms.OnTop(c.needed, c.inUse, c.short, c.here); got != c.want {
			t.Errorf("%s: buy %d, want %d", c.reason, got, c.want)
		}
	}
}

func TestReturns(t *testing.T) {
	ab := []cutopt.Lot{{Name: "A", Planks: 20, Boxes: 2}, {Name: "B", Planks: 17, Boxes: 2}}
	attic := cutopt.Spare{BoxPer: 50}
	for _, c := range []struct {
		reason string
		spare  cutopt.Spare
		here   []cutopt.Lot
		taken  []int
		over   int
		want   []cutopt.Lot
	}{
		{"nothing over", cutopt.Spare{}, ab, []int{20, 17}, 0, nil},
		{"less than a box over", cutopt.Spare{}, ab, []int{20, 10}, 7, nil},
		{
			"opened boxes are used first",
			cutopt.Spare{},
			ab,
			[]int{4, 17},
			16,
			[]cutopt.Lot{{Name: "A", Planks: 16, Boxes: 2}},
		},
		{"a box begun stays", cutopt.Spare{}, ab, []int{5, 17}, 15, []cutopt.Lot{{Name: "A", Planks: 8, Boxes: 1}}},
		{
			"of both lots",
			cutopt.Spare{},
			ab,
			[]int{12, 9},
			16,
			[]cutopt.Lot{{Name: "A", Planks: 8, Boxes: 1}, {Name: "B", Planks: 8, Boxes: 1}},
		},
		{"spares stay", cutopt.Spare{Planks: 9}, ab, []int{12, 9}, 7, nil},
		{
			// 25 over are 8 to keep and 17 to spare, but 9 of them are loose.
			"attic stock stays unopened", attic,
			[]cutopt.Lot{{Planks: 25, Boxes: 2}},
			[]int{0},
			17,
			[]cutopt.Lot{{Planks: 8, Boxes: 1}},
		},
	} {
		terms := cutopt.Terms{PerBox: 8, Spare: c.spare}
		if diff := cmp.Diff(c.want, terms.Returns(c.here, c.taken, c.over, 30)); diff != "" {
			t.Errorf("%s: %s", c.reason, diff)
		}
	}
}

func TestInUse(t *testing.T) {
	whole := []cutopt.Leftover{{To: 48 * measure.Inch, Ends: cutopt.EndsBoth}}
	piece := []cutopt.PieceRef{{}}
	plan := cutopt.Plan{Planks: []cutopt.PlankUse{
		{Pieces: piece}, {Pieces: piece, Opened: true}, {Left: whole[:1], Opened: true}, // three in use
		{Gone: whole, Opened: true}, {Pieces: piece, Opened: true, Brought: true}, // culled; brought along
	}}
	if got := plan.InUse(); got != 3 {
		t.Errorf("%d planks are in use, want 3", got)
	}
}
