// Package cutopt is the model of a floating plank floor: what was measured and read from the label (a [Job]), what is
// laid (a [Plan]), and what both must keep. It holds no algorithm. A program usually begins like this:
//
//	job, err := jobfile.Decode(file, "den.yaml") // or fill in a Job, beginning with DefaultRules
//	result, err := solve.Job(ctx, job, nil)      // plans it and proves that fewer boxes cannot do
//	violations := check.Plan(job, result.Plan)   // recounts the plan; nil means that it can be laid
//	err = check.Proof(job, result.Plan)          // recomputes the bound from its certificate
//
// # Packages
//
//   - measure: exact lengths and areas, as written on a tape
//   - jobfile, planfile, outline: job files, plan files, outlines drawn elsewhere
//   - solve: plans a job or a bare instance, compares, relaxes
//   - check: recounts a plan and its proof, without a line of the solver
//   - risk: what planks that break mean for the boxes to buy
//   - rows, proof: the bare problem and the certificate of its bound, for those who attack the problem itself
//   - takeoff: everything else to order, with stock and stock/cut, which cut sticks of any kind
//   - laying: a plan in the order of work; words: what plans and findings say, in each language
//   - sheet, with sheet/paper: maps, sheets, cut lists and orders as SVG, HTML, CSV and text, and as PDF and PNG
//   - site: what happened to a job that is begun, and the plan and job to go on from
//
// # Units
//
// Every length is a [measure.Length], a whole number of 1/320 mm, in which 1/64 in and 1 mm are both whole. No
// floating-point number decides a rule.
//
// What a field calls an index counts from 0 and leads into a slice: [Doorway].Wall, [PieceRef]. What it calls a number
// counts from 1, as files, messages and people have it: [Piece].Plank, and those of a [Fact], a [Change], a [Stretch].
//
// # Guarantees
//
//  1. A plan that package solve returns can be laid: check.Plan finds nothing in it.
//  2. A bound is true of the rows as they lie in the plan, and where [Bound].Rooms is there, of every first row and
//     direction that the job leaves open; its certificate shows it.
//  3. The same job, options and seed give the same plan, whatever the workers.
//  4. A job that [Job.Validate] accepts makes nothing panic; one that it refuses is planned by nothing.
//
// Not promised: that rows which lie otherwise could not need fewer planks, where Bound.Rooms is nil.
//
// # Compatibility
//
// There is no release yet. From the first on, exported names keep their meaning within a major version, plan files and
// job files of an older version are read or refused with a hint, and a plan may change between versions only for a
// better one.
package cutopt
