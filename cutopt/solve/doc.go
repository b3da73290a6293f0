// Package solve plans floors: [Job] a job, [Rows] a bare instance. Each result carries the plan, the lower bound with
// its certificate, and a [Status] that says why the search stopped. [Compare] plans variants of a job side by side,
// [Relax] finds the smallest change of a rule with which a job can be laid at all, [Instance] gives the bare problem of
// a job. [Continue] plans on where some of the floor lies, planks are lost or measures differ.
//
// # Guarantees
//
//  1. A plan passes check.Plan, or the call fails with an [InternalError]: the fault is then of this package.
//  2. The bound is never above what is possible, and check.Proof confirms it without code of this package.
//  3. The same job, options and seed give the same plan; Options.Workers changes the time alone.
//  4. Effort is counted in steps. A limit or a cancelled context ends the search early with the best plan so far.
//
// What is proven of the rows as they lie is in [cutopt.Plan].Bound; what is proven whatever the first row, and the
// direction where the job leaves that open, is in its Rooms, where that is not nil.
//
// # Jobs of strangers
//
// A server reads a job with package jobfile, which holds no more than jobfile.MaxSize bytes of it, asks [EstimateOf]
// how large it is, and plans it with [Options].Limit and the context of the request. errors.Is finds
// [cutopt.ErrTooLarge] in what is too large and [ErrNoPlan] in what no plan can lay; errors.As finds a [StoppedError]
// where time ran out before there was a plan.
package solve
