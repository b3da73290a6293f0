// Package cut cuts sticks into pieces at the least cost and proves it: classical one-dimensional cutting stock, with
// several kinds of sticks, limited supply, offcuts on hand and saw kerf, as package plank.example/cutopt/stock has it.
//
//	job := &stock.Job{
//		Sticks: []stock.Stick{{Length: 96 * measure.Inch}},
//		Pieces: []stock.Piece{{Length: 32 * measure.Inch, Count: 7}},
//		Kerf:   measure.Inch / 8,
//	}
//	result, err := cut.Solve(ctx, job, nil)
//
// It is a package of its own so that [stock.Check] and [stock.Verify] link none of it. It imports the standard library,
// measure, stock and the simplex method of this module.
//
// # Method
//
//  1. Stick after stick is filled as far as sums of pieces go (Gupta and Ho, 1999); what all pieces count bounds the
//     cost from below, and what sticks of that length cost together is often more. Many jobs close here.
//  2. Column generation (Gilmore and Gomory, 1961) for a target: only patterns that waste no more than a plan within
//     the target can are admitted. Dual values are smoothed (Wentges, 1997); one knapsack table gives a pattern for
//     each kind that may come first on a stick. It ends when the program is within the target or when dual values,
//     rounded to whole numbers and priced exactly, show that no plan is.
//  3. Dives take whole patterns of the program, improve it for what is left, and fill the rest as in 1.
//  4. A tree splits on which two pieces are on one stick (after Ryan and Foster, 1981) and on how many sticks of a kind
//     are cut. Its leaves are refuted as in 2 and make the certificate.
//  5. Where the tree grows, a node's patterns are listed that a plan within the target can use: those whose reduced
//     cost fits in the gap, under many dual values. Roundings of rows (Gomory, 1958; Jepsen and others, 2008) raise its
//     bound until it closes or stands still; then the node is split.
//
// The number of sticks is then brought down at that cost in the same way, and the largest offcut is sought by asking
// for one more piece of its length.
//
// # Guarantees
//
//   - Every plan passes stock.Check, or Solve returns an *InternalError.
//   - No bound comes from floating-point figures: each is shown by the certificate, which stock.Verify recomputes.
//   - The same job, options and seed give the same plan on any machine. Work is counted in steps.
//
// What is not promised: that every job is proven. The problem is NP-hard; Result says what is proven and what is not.
package cut
