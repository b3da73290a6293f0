// Package proof holds certificates of how few planks can do, and verifies them without solver code.
//
// A certificate belongs to one instance of package rows, whose documentation states the problem. Certificate.Verify is
// the first thing to call. What follows is all that a verifier of one's own needs; it shares nothing with how the
// certificate was found.
//
// # The file
//
// A certificate is a JSON object. Lengths are those of the instance (ticks of 1/320 mm in this module: 1 in = 8128),
// runs are numbered from 0 in the order of the instance, and prices and multipliers are whole numbers of billionths of
// a plank.
//
//	planks   the claim: no layout of the instance needs fewer planks than this, offcuts on hand not counted
//	dropped  pairs [a, b] of "touch", as they stand there, whose stagger is left out, so that the other pairs form a
//	         forest; a pair listed twice is left out once
//	tree     the proof, a node
//
// A node is a leaf or a branch. A leaf has
//
//	prices       a list of {"at": x, "price": p}, each x above the one before and no p below the one before: the step
//	             function C, which is 0 before the first x and p from each x on. The last step lies at the plank's
//	             length and has price 1000000000, also when the one before it has that price. No x and no p is below 0
//	multipliers  a list of whole numbers from 0 to 1000 planks, one for each split on a sum above the leaf, the
//	             root's first; left out when there are none
//
//	free_starter a length below the plank's: see Free pieces below; 0 (left out) for none
//	free_ender   likewise
//
// or, instead of all these,
//
//	counts       true: see Counts below
//
// A branch has
//
//	split  {"of": figure, "below": t, "run": i, "value": v}; below and run only for the figures that have one
//	       (0 is left out)
//	low    the node for the layouts whose figure is at most v
//	high   the node for the layouts whose figure is at least v + 1
//
// Every figure is a whole number that any layout has, so the two cases cover all layouts. A branch has nothing of a
// leaf, and a leaf no sides.
//
//	started   sum  whole planks between starter and ender, plus one a run
//	starters  sum  starters s < t
//	enders    sum  enders e with L - kerf - e < t
//	deficit   sum  the sum enders less the sum starters
//	starter   run  the starter of run i; 0 where the run is laid in one piece
//	place     run  what lies before the piece of run i on its plank, where the run is laid in one piece: 0 where
//	               nothing does, else the starter, the pieces of one-piece runs before it and a kerf after each; 0
//	               where the run is laid in two pieces or more
//
// Sums go over all runs that are laid in two pieces or more. On a plank the pieces are thought to lie in the order
// starter, pieces of one-piece runs by their number, ender; any other order does as well. What is cut from an offcut on
// hand lies where it lay on its plank: a right-ended one and one without factory ends begin at place 0, a left-ended
// one of length x at place L - x.
//
// # The bound
//
// Let L be the plank. Price a starter s at C(s), an ender e at 1 - C(L-kerf-e), and every whole plank between them at
// 1. A run may be laid in one piece when it is not longer than a plank, or in two (starter and ender) where the rules
// of pieces admit it; all of these count. Its one piece x costs 1 when x = L, otherwise the least C(u+x+kerf) - C(u)
// over every u >= -kerf with u+x+kerf <= L, where u+kerf is the place of the piece. C(u) is constant between steps, so
// only u = -kerf and the steps of C need to be tried. As C never falls, what is cut from one plank costs at most 1
// together: from the starter to the ender the differences telescope. So every layout needs at least as many planks as
// it costs.
//
// An offcut on hand takes the place of what can be cut from it: subtract C(x) for a right-ended offcut of length x, or
// one without factory ends, and 1 - C(L-kerf-x) for a left-ended one. Leave out those that are too many, the shortest
// first, since a longer one serves wherever a shorter one does and a run gives one piece to each end at most: more
// right-ended ones than runs that are not begun with a whole plank, more left-ended ones than runs, more without
// factory ends than runs that may be one piece. Then shorten each to what some run can use: when no run that is not
// begun has a length of at most x (and at most L), a right-ended offcut is as long as the longest starter of at most x
// that the rules admit for some run, a left-ended one as the longest ender, and where there is none, or neither end is
// a factory end, the offcut is left out. The rules meant here are those that concern no other run; splits do not
// matter.
//
// A run that is begun has one starter, the given one, and may not be one piece; the rules on its ender and on joints
// beside it are not asked.
//
// # Free pieces
//
// Offcuts on hand that a layout leaves over would still be subtracted. Where a leaf says so, starters of at most
// free_starter cost 0 in place of C(s), and enders of at most free_ender 0 in place of 1 - C(L-kerf-e); then
// right-ended offcuts of at most free_starter and left-ended ones of at most free_ender are not subtracted, as far as
// no run of at most their length, not begun, could be laid in one piece of them: those keep their worth. Offcuts are
// first shortened as above. No piece costs more than before, so what is cut from one plank, or from an offcut that
// keeps its worth, still costs at most that together, and from an offcut without worth only free pieces are cut.
//
// # A leaf
//
// Keep the limits that the splits on runs above the leaf set: starters at most v on a low side and at least v+1 on a
// high side, where 0 stands for one piece; places at most v on a low side, and on a high side one piece only, at places
// from v+1 on. Where the lowest place p allowed is above 0, u = p-kerf is to be tried as well as the steps of C at
// places allowed, and a piece of a whole plank, which has place 0, is ruled out.
//
// If there is any limit, and only then, the pairs in dropped take out starters: one of run a goes when no starter left
// to run b has all its joints at least "stagger" from all its own and b may not be one piece, and the same the other
// way round, again and again until nothing changes.
//
// Add to the cost of a layout, for each split on a sum above the leaf with multiplier m, m times (figure - v) on a low
// side and m times (v + 1 - figure) on a high side. For layouts of the case this adds nothing above 0, so the cost
// stays below the planks. Multipliers split into a share for each run, since sums do, and a constant.
//
// The leaf holds when the cheapest layout of the forest costs more than planks - 1, or there is none. That is found by
// dynamic programming from the leaves of each tree to its root: for each starter of a run (a multiple of "grid" below
// L, or L; starter and ender as long as the rules say, every joint as far from "beside" as the stagger) its price, plus
// for every child the least cost among the child's starters whose joints all keep the stagger, and its one piece. The
// cheapest choices of all roots, the constants of the multipliers and minus the worth of the offcuts on hand make the
// cost. The certificate holds when every leaf does.
//
// # Counts
//
// A leaf of counts leaves out every stagger between runs, and whatever the splits say: it recounts the fewest planks
// that so many runs of each kind need, and holds when these are at least the claim. Runs are of one kind when they have
// one length and the rules that concern no other run leave them the same starters, and all or none of them may be one
// piece. A run as long as a plank and not begun takes a plank of its own and is counted apart. Offcuts on hand of one
// length and end are a kind too: all of them and as long as they are, since none is left out or shortened here.
//
// Where nothing is on hand, no run is begun and every run is longer than a plank, all starters but whole planks are on
// the grid, so only whole steps of it in what a run leaves are of use. Then lengths that differ by less are of one
// kind: round r below, what the ender leaves, down to a multiple of grid for each starter; take from each run as many
// whole planks as leave n = 0 for its longest starter and count them apart; and runs are of one kind when they have the
// same starters, each with the same n and r.
//
// Read the pieces of a layout in an order in which every run starts with what the run before left. A point of such a
// walk is (p, r): p planks are opened, the last leaves r for a starter, 0 <= r <= L. Point (p, r) is as good as (q, u)
// or better when pL - r <= qL - u. A run of length W, from (p, r), leads
//
//	in one piece where it fits, W <= r,
//	and is not begun                      to (p, max(0, r-W-kerf))
//	else, with its longest starter s <= r, n whole planks and the ender e
//	                                      to (p+n+1, max(0, L-kerf-e))
//	else, where nothing fits              on from (p+1, L) by the rules above
//
// and an offcut of length x on hand
//
//	left-ended, where r >= L-kerf-x       to (p-1, max(0, r-(L-x)))
//	else                                  to (p, max(r, x))
//
// (for an offcut that would need more rules these are kinder than the truth). Each of these keeps the order of points,
// so from equal counts of runs laid only the best point matters; and no other way to lay the run leads to a better one.
//
// A layout falls into rings and chains: a run follows another where its starter comes from the plank of the other's
// ender. All starters of a ring can be made longer by a grid step together, until one is at the end of a stretch: a
// starter s such that s + grid, with as many whole planks, is not a starter of its kind. So a ring begins with a run of
// some kind and such a starter s < L - kerf, n whole planks and an ender e, at (b+n+1, max(0, L-kerf-e)) where b is the
// fewest planks for the runs laid before it; it ends at (p, r), and takes p planks if r >= s, else p + 1. A chain
// begins at (b, 0) and takes p planks.
//
// Let v say how many runs of each kind are laid. For v in an order in which less comes before more, and for each way to
// begin (the chain, each kind with each end of a stretch), keep the best point: from the same way at v less one run, or
// begun at v less its first run, the chain at v itself. The fewest planks for v are the least that any way takes. Those
// for all runs, and the runs counted apart, must be at least the claim. A leaf is refused where vectors times ways to
// begin are more than 12,000,000, where there are more than 23 kinds, where a run longer than a plank cannot be laid,
// and where an offcut on hand is as long as a plank.
//
// # Families
//
// Where it is left open how the rows of a floor lie, a certificate may be one of a family: bare problems of one plank
// and one set of rules, of which a layout lays one for each floor. The file of a family is a JSON object with the
// figures plank, kerf, min_piece, min_ender, stagger and grid of an instance, without offcuts on hand, and
//
//	floors  a list for each floor of its placements, one at least, {"runs": [...], "touch": [...]} as an instance has
//	        them, runs numbered from 0 in each placement
//
// A certificate of a family is a JSON object:
//
//	planks  the claim: whichever placement each floor has, no layout of all floors together needs fewer planks
//	tree    the proof, a node
//
// A node is a branch or a leaf. A branch splits the placements of one floor,
//
//	floor  the floor, from 0 (0 is left out)
//	of     numbers of its placements, from 0, ascending; some of them may be out already; left out for none
//	in     the node for the case that the floor lies in one of these
//	out    the node for the case that it lies in another
//
// and a leaf has one of two:
//
//	prices       a step function C as above: for each floor, take the cheapest layout of every placement left on the
//	             way to the leaf, as in a leaf without multipliers and limits, and of these the cheapest. The sum over
//	             the floors must be more than planks - 1. Floors share planks, but their costs add up: one price
//	             function bounds them together
//	certificate  where one placement of every floor is left: a certificate of the instance that has the runs of all
//	             floors, floor by floor, of at least as many planks
//
// The forest of a placement is not listed: go through touch in the order of the file and leave out each pair whose runs
// hang together already by the pairs before it. A leaf of prices holds as well where no placement that a floor has left
// can be laid. Where a floor has none left at all, a leaf holds whatever stands in it. The certificate holds when every
// leaf does.
//
// # Limits
//
// A claim of 0 planks or fewer holds without a tree. Let N be the whole planks that fit in the runs, each by itself,
// and two for each run; of a family, those of the placement of each floor for which they are most. Some certificates
// are refused though what they claim may be so: one that claims more than N planks, so that no sum overflows; one with
// more than 1000 branches above a leaf; one of a family with more than 20000 placements; one that splits a sum at a
// value below -2N-1 or above 2N+1, or a figure of one run at a value below 0 or above the plank's length; one where N
// times what the multipliers of a leaf and a plank add up to, in billionths, is more than 2^60; and any where the plank
// has more than 1,000,000 grid lines.
//
// # Plans of rooms
//
// In a plan the instance comes from the rooms: runs are numbered room by room, row by row, from left to right, and
// runs of rows that share an edge touch where they overlap. A run begins at its left end; in rooms laid from the right
// the floor is mirrored: a run from x to y begins at -y, and starters are its right pieces. With a fit allowance every
// run, and so its ender, is longer by fit, the shortest ender longer by twice fit, and the stagger wider by twice fit.
// The bound is for the rows as the plan lays them: another direction or first row is another problem. Where the plan
// claims more, it lists first rows for each floor, which are the placements of a family in that order. For a floor
// without a list, whose first row the job leaves open, the placements are runs without ties that first rows have at
// least: for each first row that counts there is one whose runs are, taken as pairs from the longest down, no longer
// than its own and no more of them. The family then has a min_piece of one unit, and a min_ender that is shorter by a
// grid step, so that its bound holds for the floor: a layout of longer runs makes one of shorter runs that costs no
// more under any prices. Keep each ender, or leave it shorter by less than a step, and take the rest of the difference
// from the starter and the whole planks before it; what is not longer than an ender is laid in one piece.
package proof
