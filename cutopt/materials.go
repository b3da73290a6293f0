package cutopt

import (
	"cmp"

	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/measure"
)

// Materials are the products that a floor takes besides its planks. All are optional: what is not named is reckoned by
// quantity alone.
type Materials struct {
	Trim        []Trim    // each runs along all walls, between doorways and fixed things
	Transitions []Profile // one for each kind of transition
	Underlay    Underlay
	Film        Film
	Tape        Tape
	Spacers     Spacers
	Appliances  []Appliance // that stand on or before the floor, to be checked for height
}

// A Stick is a length on sale of a trim or a profile, or lies on hand.
type Stick struct {
	Length measure.Length
	Price  Money // of one; 0 when unknown. In a list either every stick to buy has a price or none
	OnHand int   // so many lie about and cost nothing; 0 for sticks to buy, of which there are any number
}

// A Trim is a moulding along the walls.
type Trim struct {
	Kind      TrimKind
	Name      string         // as on the label; may be empty
	Thickness measure.Length // out from the wall: what a mitre at an outside corner adds
	Casing    measure.Length // face of the casings that it stops at, on each side of a doorway
	Islands   bool           // it runs round islands too
	Sticks    []Stick        // lengths on sale; none leaves the number of sticks open
}

// A TrimKind is a kind of moulding.
type TrimKind uint8

// The kinds of trim.
const (
	TrimBase         TrimKind = iota // "base": baseboard
	TrimShoe                         // "shoe": shoe moulding in front of the base
	TrimQuarterRound                 // "quarter-round"
)

// A Transition is what covers the edge of the floor in a doorway or at a break.
type Transition uint8

// The transitions. The zero value leaves it to the heights, see [Job.DoorTransitions].
const (
	TransitionOpen   Transition = iota // "open": not known
	TransitionLevel                    // "level": between two floors of equal height
	TransitionLower                    // "lower": down to a lower floor
	TransitionEdge                     // "edge": a floor that ends at a threshold, a track or a higher floor
	TransitionNosing                   // "nosing": the edge of a stair
)

// A Profile is the product for one kind of transition.
type Profile struct {
	Kind   Transition // any but TransitionOpen
	Name   string     // as on the label; may be empty
	Sticks []Stick    // lengths on sale; none leaves the number of sticks open
}

// A Roll is a size on sale of underlay or film, or lies on hand.
type Roll struct {
	Width, Length measure.Length
	Price         Money // of one; 0 when unknown. In a list either every roll to buy has a price or none
	OnHand        int   // so many lie about and cost nothing; 0 for rolls to buy
}

// An Underlay lies under the planks, from wall to wall.
type Underlay struct {
	Name      string         // as on the label; may be empty
	Thickness measure.Length // 0 when unknown; with the plank's it is how much the floor rises
	Attached  bool           // it is part of the plank, and of its thickness: nothing to lay
	Strips    StripsRun      // which way its strips run
	Overlap   measure.Length // of neighbouring strips; 0: butted
	SelfTaped bool           // its seams have a tape of their own
	Rolls     []Roll
}

// A Film is laid under the underlay where the subfloor may be damp.
type Film struct {
	Name   string         // as on the label; may be empty
	Lap    measure.Length // overlap of neighbouring strips
	TurnUp measure.Length // how far it is turned up at the walls
	Rolls  []Roll
}

// A StripsRun says which way strips of underlay run.
type StripsRun uint8

// The ways. The zero value takes whichever needs less.
const (
	StripsEither StripsRun = iota // "either"
	StripsAlong                   // "along" the rows of planks
	StripsAcross                  // "across" them
)

// A Tape closes the seams of underlay and film.
type Tape struct {
	Name   string
	Length measure.Length // on one roll; 0 leaves the number of rolls open
	Price  Money          // of one roll; 0 when unknown
}

// Spacers keep the gap while the floor is laid.
type Spacers struct {
	Every measure.Length // distance along the walls; 0 is 24 in, or 600 mm in metric jobs: common practice
	Pack  int            // spacers in a pack; 0 leaves the number of packs open
	Price Money          // of one pack; 0 when unknown
}

// Spacing returns the distance of spacers along the walls.
func (j *Job) Spacing() measure.Length {
	usual := 24 * measure.Inch
	if j.Unit.Metric() {
		usual = 600 * measure.Millimetre
	}
	return cmp.Or(j.Materials.Spacers.Every, usual)
}

// An Appliance stands under a counter, before or on the new floor, and must still come out.
type Appliance struct {
	Name    string
	Opening measure.Length // from what the floor is laid on up to the counter
	Height  measure.Length // of the appliance, its feet turned in
}

// Rise returns how far the floor stands above what it is laid on: plank and underlay. It is 0 when the thickness of the
// plank is unknown.
func (j *Job) Rise() measure.Length {
	rise := j.Plank.Thickness
	if u := &j.Materials.Underlay; rise > 0 && !u.Attached {
		rise += u.Thickness
	}
	return rise
}

// levelWithin is how far two floors may differ in height and still be level: common practice, well below the 1/4 in
// that may stay vertical at a threshold (ADA standards 303, from memory).
const levelWithin = measure.Inch / 8

// DoorTransitions returns the transition of every doorway, by room and by its place in Room.Doorways: the one it asks
// for; else the one that the height of the floor behind calls for, which is level within 1/8 in (3.2 mm), lower, or an
// edge against a higher one; else level, where the room behind is one of the job. TransitionOpen stands for a doorway
// whose floor runs through, or of which too little is known. It takes O(rooms + doorways).
func (j *Job) DoorTransitions() [][]Transition {
	known := make(map[string]bool, len(j.Rooms))
	for i := range j.Rooms {
		known[j.Rooms[i].Name] = true
	}
	all, rise := make([][]Transition, len(j.Rooms)), j.Rise()
	for i := range j.Rooms {
		for k := range j.Rooms[i].Doorways {
			d := &j.Rooms[i].Doorways[k]
			all[i] = append(all[i], d.transition(rise, d.To != "" && known[d.To]))
		}
	}
	return all
}

// transition is that of one doorway of a floor that rises so far; known says that the room behind is one of the job.
func (d *Doorway) transition(rise measure.Length, known bool) Transition {
	switch {
	case d.Through:
		return TransitionOpen
	case d.Transition != TransitionOpen:
		return d.Transition
	case d.Height > 0 && rise > 0 && d.Height < rise-levelWithin:
		return TransitionLower
	case d.Height > 0 && rise > 0 && d.Height > rise+levelWithin:
		return TransitionEdge
	case d.Height > 0 && rise > 0, d.Height == 0 && known:
		return TransitionLevel
	}
	return TransitionOpen
}

var (
	trimKindNames   = []string{"base", "shoe", "quarter-round"}
	transitionNames = []string{"open", "level", "lower", "edge", "nosing"}
	stripsRunNames  = []string{"either", "along", "across"}
)

// String returns "base", "shoe" or "quarter-round".
func (k TrimKind) String() string { return enum.String("TrimKind", trimKindNames, int(k)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (k TrimKind) MarshalText() ([]byte, error) {
	return enum.MarshalText("TrimKind", trimKindNames, int(k))
}

// UnmarshalText reads what MarshalText writes.
func (k *TrimKind) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("TrimKind", trimKindNames, text, k)
}

// String returns "open", "level", "lower", "edge" or "nosing".
func (t Transition) String() string { return enum.String("Transition", transitionNames, int(t)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (t Transition) MarshalText() ([]byte, error) {
	return enum.MarshalText("Transition", transitionNames, int(t))
}

// UnmarshalText reads what MarshalText writes.
func (t *Transition) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Transition", transitionNames, text, t)
}

// String returns "either", "along" or "across".
func (s StripsRun) String() string { return enum.String("StripsRun", stripsRunNames, int(s)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (s StripsRun) MarshalText() ([]byte, error) {
	return enum.MarshalText("StripsRun", stripsRunNames, int(s))
}

// UnmarshalText reads what MarshalText writes.
func (s *StripsRun) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("StripsRun", stripsRunNames, text, s)
}
