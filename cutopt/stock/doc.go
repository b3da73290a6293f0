// Package stock says how sticks of stock are cut into pieces, and judges such plans: trim, transitions, strips of
// underlayment, anything sold in lengths.
//
// A [Job] lists the sticks that can be had (length, price, supply, what lies on hand) and the pieces wanted. Package
// plank.example/cutopt/stock/cut finds the cheapest plan and proves it:
//
//	result, err := cut.Solve(ctx, job, nil)
//
// This package holds what stands apart from any solver: the types, [Check], which recounts a [Plan], and [Verify],
// which recomputes a [Certificate]. It imports the standard library and plank.example/cutopt/measure only, so whoever
// wants to judge a plan of someone else links no solver; go list -deps shows it.
//
// # What is exact
//
// Lengths are whole ticks of package measure. A stick of length L with w lost at each end yields pieces p1 … pn when
//
//	p1 + … + pn + (n-1) kerf <= L - 2w
//
// so each piece counts its length and a kerf, and the stick one kerf more than it has. What is left after the last
// piece and its kerf is an offcut; it is worth keeping from [Job.Keep] on. A mitred piece counts by its long point, and
// pieces are not nested into each other's mitres.
//
// # What is best
//
// In this order: the least cost, then the fewest sticks, then the largest single offcut worth keeping. Each of the
// three is proven or not on its own.
//
// # What a certificate shows
//
// A [Refutation] shows that no plan keeps a [Claim]: costs at most so much, with at most so many sticks, leaving an
// offcut at least so long. An offcut of length r is nothing but one more piece. Each leaf gives every kind of piece a
// value and every stick a limit: where no pattern that fits on a stick is worth more than its limit, all pieces
// together are worth no more than the sticks that the claim allows; they are worth more, so there is no such plan. The
// certificate is a tree where one set of values does not do: two pieces are on one stick somewhere (they become one
// piece) or nowhere (they exclude each other); or at most m sticks of a kind are cut, or more. And where few patterns
// can be in a plan at all, a leaf may list them and go on from there. See [Node] and [Shortlist]. What is shown of the
// cost is raised to the next sum of prices of sticks that are as long together as all pieces.
//
// What is not promised: that every job is proven within the effort given, or that a certificate is the shortest.
package stock
