package stock

import "plank.example/cutopt/measure"

// A Certificate holds the figures from which [Verify] recomputes what is proven about the plans of a job. Its
// refutations stand each on its own. It encodes as JSON with lengths in ticks.
type Certificate struct {
	Refutations []*Refutation `json:"refutations"`
}

// A Claim is that some plan costs at most Cost, with at most Sticks sticks, leaving an offcut of at least Offcut.
type Claim struct {
	Cost   int64          `json:"cost"`             // as Job.Costs has it
	Sticks int            `json:"sticks,omitempty"` // 0: any number
	Offcut measure.Length `json:"offcut,omitempty"` // 0: any
}

// A Refutation shows that no plan keeps the claim.
type Refutation struct {
	Claim Claim `json:"claim"`
	Root  *Node `json:"root"`
}

// A Node of a refutation is either split in two or a leaf, which may go on with a [Shortlist].
//
// At the root there is a kind of piece for each different length of the job, the longest first, and behind them one for
// the offcut that the claim asks for. Each counts as long as it is and a kerf. Values are by kind. A leaf holds when
//
//   - no pattern, that is pieces which may be cut from one stick of kind k, is worth more than
//     limit(k) = Cost c(k) + Count + Sticks[k], and
//   - all pieces together are worth more than Cost C + Count N + sum over k of Sticks[k] u(k),
//
// where c(k) is what the stick costs, C and N are those of the claim, and u(k) is the largest number of sticks of kind
// k where Sticks[k] is above 0, the least where it is below. Patterns that waste more than any plan within the claim
// can are left out: a stick of capacity a(k) = usable + kerf that leaves w is in no such plan when w + a - a(k) > N a -
// A, with a the largest capacity and A what all pieces count; nor, for any stick b that costs something, when c(b) w +
// a(b) c(k) - c(b) a(k) > a(b) C + c(b) (F - A), where F is what all the sticks that cost nothing have and, for k one
// of them, the second term is 0, and where a(b)/c(b) is the largest; nor, at a node where every kind of stick has a
// largest number, when w > sum over k of a(k) u(k) - A.
type Node struct {
	Values []int64 `json:"values,omitempty"` // by kind; those left out at the end are 0
	Cost   int64   `json:"cost,omitempty"`   // 0 or more
	Count  int64   `json:"count,omitempty"`  // 0 or more
	Sticks []int64 `json:"sticks,omitempty"` // by kind of stick; those left out at the end are 0

	Shortlist *Shortlist `json:"shortlist,omitempty"` // of a leaf whose pieces are not worth enough

	Split *Split `json:"split,omitempty"` // nil for a leaf
	Yes   *Node  `json:"yes,omitempty"`
	No    *Node  `json:"no,omitempty"`
}

// A Shortlist goes on from a leaf that holds but for its second condition: all pieces together are worth no more than
// the sticks allow, and miss it by some slack. The patterns of a plan within the claim, each worth no more than its
// limit, miss their limits by no more than the slack together. So a pattern that misses its limit by more is in no such
// plan, and those that are left make the list. Each step shortens it in the same way, by values that need only hold on
// the list. In the end all pieces are worth more than the sticks allow.
type Shortlist struct {
	Roundings []Rounding `json:"roundings,omitempty"`
	Steps     []Step     `json:"steps"`
}

// A Rounding counts pieces in fractions: a pattern counts the sum over its pieces, and over what it counts by earlier
// roundings, of Of/By, rounded down. The patterns of a plan count no more together than all pieces do, in which earlier
// roundings count what they count of all pieces. (R. E. Gomory, Bull. Am. Math. Soc. 64, 1958; V. Chvátal, Discrete
// Math. 4, 1973.)
type Rounding struct {
	Of []Multiple `json:"of"`
	By int64      `json:"by"` // 1 or more
}

// A Multiple takes what a pattern has of a kind of piece, or of an earlier rounding, so many times.
type Multiple struct {
	Kind  int   `json:"kind"` // of the leaf; those behind the kinds are the roundings, in their order
	Times int64 `json:"times"`
}

// A Step of a shortlist gives values as a leaf does, which may be below 0 too, less what a pattern counts by each
// rounding, so many times.
type Step struct {
	Values    []int64 `json:"values,omitempty"`
	Cost      int64   `json:"cost,omitempty"`      // 0 or more
	Count     int64   `json:"count,omitempty"`     // 0 or more
	Sticks    []int64 `json:"sticks,omitempty"`    // as in a leaf
	Roundings []int64 `json:"roundings,omitempty"` // 0 or more
}

// A Split is a question about a plan. With Kind 0 it is whether some stick holds both a piece of kind Pair[0] and
// another of kind Pair[1] (which may be the same kind). If yes, one of each is glued: they count less in their kinds,
// and one piece more, as long as both with their kerfs, has a kind of its own behind the others, which keeps apart from
// whatever either keeps apart from. If no, the two kinds keep apart: no pattern holds one of each. With Kind k > 0 the
// question is whether at most Most sticks of kind k, counted from 1, are cut. If no, it is more.
type Split struct {
	Pair [2]int `json:"pair"`
	Kind int    `json:"kind,omitempty"`
	Most int    `json:"most,omitempty"`
}
