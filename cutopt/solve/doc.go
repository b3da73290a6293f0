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
// The proof is of the rows as they lie in the plan, not of other directions or first rows.
package solve
