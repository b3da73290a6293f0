package cutopt

import (
	"plank.example/cutopt/measure"
)

// Quality is how good a floor looks and how easy it is to lay: figures that no product's instruction fixes, each by the
// tolerances of Rules. All but LeastStagger are the better the lower. What counts as a staircase and as a cluster is
// common practice put into figures here; there is no published number.
type Quality struct {
	// HJoints counts pairs of end joints two rows apart that lie at most Rules.InLine from each other, in runs that a run
	// of the row between touches both.
	HJoints int
	// Staircases counts sets of four joints in four successive rows, each in a run that touches the next, with three equal
	// steps the same way: each more than Rules.InLine and less than half a plank, no two more than Rules.InLine apart. A
	// longer staircase counts once for each four joints of it.
	Staircases int
	// LongestChain is the most steps the same way, one row after the other. A step goes from a joint of a run to the
	// nearest one of a run of the next row that touches it, modulo the plank, whatever its size; it goes neither way where
	// the two are exactly in line or half a plank apart. Chains counts the runs at which a chain of five or more steps to
	// the left, or one to the right, arrives: 0 where LongestChain is at most four.
	LongestChain, Chains int
	// Clusters counts sets of four joints in four successive rows, each in a run that touches the next, that lie within a
	// third of a plank.
	Clusters int
	// LeastStagger is the least distance between end joints of touching runs in neighbouring rows, as planned; a plank's
	// length where none are nearer.
	LeastStagger measure.Length
	// Crosscuts counts the saw cuts across planks: none for a starter that is laid as its offcut comes.
	Crosscuts int
	// OffcutsAtOnce is the most offcuts that are kept for a later row at the end of any row.
	OffcutsAtOnce int
	// RowsWaited adds up, over all planks and rooms, the rows that are laid between that of a plank's first piece and that
	// of its last: 0 where every offcut is used in its own row or the next.
	RowsWaited int
	// OddStarters counts starters that are sawn to no multiple of Rules.Round.
	OddStarters int
}

// An Aim is a figure of a floor to improve.
type Aim uint8

// The aims, in the order of DefaultAims.
const (
	AimHJoints    Aim = iota // "h-joints": fewest Quality.HJoints
	AimChains                // "chains": fewest Quality.Chains
	AimStaircases            // "staircases": fewest Quality.Staircases
	AimClusters              // "clusters": fewest Quality.Clusters
	AimStagger               // "stagger": largest Quality.LeastStagger, up to Rules.PreferStagger
	AimCrosscuts             // "crosscuts": fewest Quality.Crosscuts
	AimOffcuts               // "offcuts": fewest Quality.OffcutsAtOnce, down to the one in hand
	AimWaiting               // "waiting": fewest Quality.RowsWaited
	AimFigures               // "figures": fewest Quality.OddStarters
	AimPlanks                // "planks": fewest Order.Planks
)

// DefaultAims returns all aims: first what is seen for years, then what is sawn and carried once, then planks.
func DefaultAims() []Aim {
	return []Aim{
		AimHJoints, AimChains, AimStaircases, AimClusters, AimStagger, AimCrosscuts, AimOffcuts, AimWaiting, AimFigures,
		AimPlanks,
	}
}
