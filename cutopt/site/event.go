package site

import (
	"plank.example/cutopt"
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/measure"
)

// A State is what happened to a job since its plan was made, a line an event. A later line of the same thing replaces
// an earlier one where it only tells of progress: a row further on, another count of what is here.
type State struct{ Events []Event }

// An Event is one line of a state. Which fields it has depends on its kind; the others are zero.
type Event struct {
	Kind   Kind
	Floor  int            // index in Plan.Floors
	Room   int            // index in Job.Rooms
	Row    int            // number of the row, from 1
	Run    int            // number of its run, from 1 at the left; 0 for the whole row
	Pieces int            // of the run that lie; 0 for all
	Count  int            // planks or boxes
	Wall   int            // number of the wall of the room, from 1
	Planks []int          // their numbers in the plan
	Length measure.Length // below 0: shorter, or into the room
	Ends   cutopt.Ends    // factory ends
	At     cutopt.Point   // in the drawing of the job, as in its file
	Size   cutopt.Point   // along x and along y
	Lot    string

	Line, Column int    // where it is written, from 1; 0 when it is not of a file
	Text         string // as written
}

// A Kind says what an event tells.
type Kind uint8

// The kinds of events, with a line of each.
const (
	KindLaid     Kind = iota // "laid": Kitchen 8; Kitchen 9 3 pieces. All rows to there lie, or so much of the last
	KindStarter              // "starter": Kitchen 5 starter 14 1/2. That run lies, and begins with another starter
	KindLost                 // "lost": lost 31. What does not lie of these planks is gone
	KindOffcuts              // "offcuts": offcut of 12 lost. What is left over of opened planks is gone
	KindCulled               // "culled": culled 2. So many whole planks are of no use
	KindMiscut               // "miscut": miscut 12 left 22. The part that has that end came out so long
	KindOffcut               // "offcut": offcut 14 1/2 left. One is here that the plan does not know
	KindPlanks               // "planks": planks 14 lot B. So many whole planks are here out of their boxes
	KindBoxes                // "boxes": boxes 3 lot B. So many unopened boxes are here
	KindLot                  // "lot": Kitchen lot B. What lies there is of that lot
	KindMix                  // "mix": mix. A floor may be laid of several lots
	KindLonger               // "longer": Kitchen 9 longer 1/2. From that row on, runs end so much farther
	KindMeasured             // "measured": Kitchen 9 is 143 1/2. From wall to wall, from that row on
	KindWall                 // "wall": Kitchen wall 3 out 1/2. The wall stands so much farther out
	KindLast                 // "last-row": Kitchen last row 4 1/4. The last row is so wide
	KindFirst                // "first-row": Kitchen first row 3 3/4. The first row is so wide
	KindIsland               // "island": Kitchen island at 40, 12 size 24 x 12
	KindPipe                 // "pipe": Kitchen pipe at 40, 12 diameter 2. Length is the diameter
)

var kindNames = []string{
	"laid", "starter", "lost", "offcuts", "culled", "miscut", "offcut", "planks", "boxes", "lot", "mix", "longer",
	"measured", "wall", "last-row", "first-row", "island", "pipe",
}

// String returns the name of the kind.
func (k Kind) String() string { return enum.String("Kind", kindNames, int(k)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (k Kind) MarshalText() ([]byte, error) { return enum.MarshalText("Kind", kindNames, int(k)) }

// UnmarshalText reads what MarshalText writes.
func (k *Kind) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Kind", kindNames, text, k)
}

// Remeasures reports whether events of the kind change the measures of the job.
func (k Kind) Remeasures() bool { return k >= KindLonger && k <= KindPipe }

// ofFloor reports whether events of the kind are about a floor of the plan.
func (k Kind) ofFloor() bool {
	switch k {
	case KindLaid, KindStarter, KindLot, KindLonger, KindMeasured, KindLast, KindFirst:
		return true
	}
	return false
}

// ofRoom reports whether events of the kind are about a room of the job.
func (k Kind) ofRoom() bool { return k == KindWall || k == KindIsland || k == KindPipe }
