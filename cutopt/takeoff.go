package cutopt

import (
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// A Takeoff lists everything to order with a floor, and how each figure was reckoned: package takeoff makes it. Like a
// Plan it says nothing in words. It is plain data and shares nothing with the Job and the Plan it came from.
type Takeoff struct {
	Job     string // Job.Name
	Unit    measure.Unit
	Items   []Item
	Rise    measure.Length // of the floor above what it is laid on; 0 when unknown
	Heights []HeightCheck
}

// An ItemKind says what an item of a take-off is.
type ItemKind uint8

// The kinds of items, in the order of the list. Each names the quantities that it has; all others are zero. Thickness
// is 0 where it is unknown.
const (
	// ItemPlanks: Count planks are cut or laid, Spare replace those that are lost, Over are left beyond; Thickness.
	ItemPlanks ItemKind = iota // "planks"
	// ItemKept: Count planks are kept whole for repairs.
	ItemKept // "kept"
	// ItemUnderlay: Area and Thickness of it, in Count strips of Length in all; Attached where it comes with the
	// planks.
	ItemUnderlay // "underlay"
	// ItemFilm: Area of it, in Count strips of Length in all.
	ItemFilm // "film"
	// ItemTape: Length of seams.
	ItemTape // "tape"
	// ItemSpacers: Count of them, Thickness as wide as the gap, one at each end of a stretch of wall and Every so far;
	// Length of wall in all.
	ItemSpacers // "spacers"
	// ItemTrim: Count pieces of Length in all, of a trim of that Thickness.
	ItemTrim // "trim"
	// ItemTransition: Count pieces of Length in all.
	ItemTransition // "transition"
	// ItemDisposal: Area of offcuts, strips and sawdust, of that Thickness.
	ItemDisposal // "disposal"
)

var itemKindNames = []string{
	"planks", "kept", "underlay", "film", "tape", "spacers", "trim", "transition", "disposal",
}

// String returns the name of the kind.
func (k ItemKind) String() string { return enum.String("ItemKind", itemKindNames, int(k)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (k ItemKind) MarshalText() ([]byte, error) {
	return enum.MarshalText("ItemKind", itemKindNames, int(k))
}

// UnmarshalText reads what MarshalText writes.
func (k *ItemKind) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("ItemKind", itemKindNames, text, k)
}

// An Item is one line of a take-off.
type Item struct {
	Kind       ItemKind
	Trim       TrimKind   // of ItemTrim
	Transition Transition // of ItemTransition
	Name       string     // of the product; may be empty
	Named      bool       // the job names a product for it

	Count       int
	Spare, Over int
	Length      measure.Length
	Area        measure.Area
	Thickness   measure.Length
	Every       measure.Length
	Attached    bool
	Bare        measure.Length // of trim: what all trims together hide too little of the widest gap and Rules.Cover
	Unseen      int            // of trim: doorways into rooms of the job that do not show them: walls count whole there

	Stretches []Stretch // of trim and transitions: what each piece covers
	Strips    []Strips  // of underlay and film, by room
	Goods     []Goods   // what to buy; nil where the job names no size on sale
	Cutting   *Cutting  // how it is cut; nil where nothing is
}

// A Stretch is what is covered by one piece of trim, or of a transition: a wall between doorways and fixed things, or
// an opening. Numbers are the job's, from 1.
type Stretch struct {
	Room    int
	Island  int            // along its edge; 0: along a wall
	Wall    int            // the wall, or the edge of the island, at which it begins
	At      measure.Length // from that wall's first corner
	Doorway int            // of a transition
	Length  measure.Length // of the wall or the opening
	// Outside is what the mitres at an outside corner add, at its left and its right end seen from the room: the
	// thickness of the trim times the tangent of half the turn, up to the long point.
	Outside [2]measure.Length
	// Pieces are the lengths to cut from the left, to the long point and on the graduation: one, but where no stick is
	// as long; then they are spliced on a mitre of 45 degrees.
	Pieces []measure.Length
}

// Strips are those of underlay or film in one room: Count = (Extent - Overlap)/(Width - Overlap), rounded up, side by
// side, and those that doorways take beyond them.
type Strips struct {
	Room           int
	Along          bool           // they run along the rows, else across
	Extent         measure.Length // of the room across the strips, with what is turned up
	Width, Overlap measure.Length // of a strip; of neighbours
	Count          int
	// Lengths are to be cut, strip by strip: more than Count where a strip is interrupted or made of several.
	Lengths []measure.Length
	Seams   measure.Length // in all, side by side and end to end
}

// A GoodsUnit is what something is sold in.
type GoodsUnit uint8

// The units.
const (
	GoodsBox   GoodsUnit = iota // "box"
	GoodsStick                  // "stick"
	GoodsRoll                   // "roll"
	GoodsPack                   // "pack"
)

var goodsUnitNames = []string{"box", "stick", "roll", "pack"}

// String returns "box", "stick", "roll" or "pack".
func (u GoodsUnit) String() string { return enum.String("GoodsUnit", goodsUnitNames, int(u)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (u GoodsUnit) MarshalText() ([]byte, error) {
	return enum.MarshalText("GoodsUnit", goodsUnitNames, int(u))
}

// UnmarshalText reads what MarshalText writes.
func (u *GoodsUnit) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("GoodsUnit", goodsUnitNames, text, u)
}

// Goods are so many of one thing that is sold.
type Goods struct {
	Unit          GoodsUnit
	Count         int
	Each          Money          // price of one; 0 when unknown
	Length, Width measure.Length // of a stick or a roll, or of a plank in a box
	Holds         int            // planks in a box, spacers in a pack
}

// Price is that of all of them, 0 when unknown.
func (g *Goods) Price() Money { return Money(g.Count) * g.Each }

// A Cutting says how sticks or rolls are cut, and what is proven of it: stock.Check and stock.Verify judge it.
type Cutting struct {
	Job         *stock.Job // its pieces are those of the item's Stretches or Strips, in their order
	Plan        *stock.Plan
	Cost        bool // no plan costs less: proven
	Sticks      bool // none of that cost has fewer sticks: proven
	Certificate *stock.Certificate
}

// LittleClearance is what a door or an appliance clears the floor by where little is left: common practice.
const LittleClearance = measure.Inch / 8

// A HeightCheck holds the rise of the floor against a door or an appliance.
type HeightCheck struct {
	Room, Doorway int            // of a door, numbers of the job from 1
	Appliance     int            // or of an appliance
	Under         measure.Length // the clearance of the door, or the opening of the appliance
	Height        measure.Length // of the appliance
	Left          measure.Length // Under less Height and the rise of the floor: below 0 it does not fit
}

// Total adds up the prices of all goods, and counts the items to buy whose price is not known, or not of all.
func (t *Takeoff) Total() (sum Money, open int) {
	for i := range t.Items {
		item := &t.Items[i]
		known := item.Goods != nil || item.Cutting != nil // else all sticks lie on hand
		for k := range item.Goods {
			sum += item.Goods[k].Price()
			known = known && item.Goods[k].Each > 0
		}
		if item.Bought() && !known {
			open++
		}
	}
	return sum, open
}

// Bought reports whether an item is something to buy. A film that the job does not name is not: only a subfloor that
// may be damp takes one.
func (i *Item) Bought() bool {
	switch i.Kind {
	case ItemKept, ItemDisposal:
		return false
	case ItemFilm:
		return i.Named
	}
	return !i.Attached && (i.Count > 0 || i.Length > 0 || i.Area > 0)
}
