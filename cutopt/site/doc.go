// Package site is the state of a job while its floor is laid: what lies, what was lost, what is on hand and what was
// measured anew. [Grammar.Parse] reads it, a line an event, short enough to be typed with one thumb; [Apply] makes of
// it what package solve plans on from.
//
//	file, err := site.Decode(r, "site.yaml")
//	...                                        // read file.Job and file.Plan
//	state, err := file.State(site.NewGrammar(job, plan))
//	job, marked, remarks, err := site.Apply(job, plan, state)
//	result, err := solve.Continue(ctx, job, marked, nil)
//
// # Lines
//
// Case, plurals and the order of the words do not matter, nor do words such as "row" and "the". The name of a room may
// be begun only, as long as it is no other's, and left out in a plan of one floor; "room 2" is the second of the job.
// Bare numbers are what a tape shows: inches, centimetres or millimetres. Left and right are those of one who faces
// the starting wall. Planks have the numbers of the plan. What follows a # is a comment. [Lines] lists them all.
//
// A line says how things stand now: of several rows of a floor that lie the last one counts, and of several counts of
// a lot the last.
package site

// A Sample is a line of a state and what it means.
type Sample struct{ Line, Means string }

// Lines returns the table of all lines, for help and documents.
func Lines() []Sample {
	return []Sample{
		{"Kitchen 8", "rows 1 to 8 lie as planned; Kitchen all: the whole floor does"},
		{"Kitchen 9 3 pieces", "and of row 9 the first three pieces; of a row with several runs write 9b"},
		{"Kitchen 5 starter 14 1/2", "row 5 lies, but begins with a starter of that length"},
		{"lost 31", "plank 31, or what does not lie of it, is gone; lost 31, 40"},
		{"offcut of 12 lost", "what was left over of plank 12 is gone"},
		{"culled 2", "two whole planks are of no use"},
		{"miscut 12 left 22", "plank 12 was sawn in the wrong place: its part with the left end is 22 long"},
		{"offcut 14 1/2 left", "an offcut from elsewhere is here, with its left factory end; or right, or none"},
		{"planks 14", "so many whole planks are here out of their boxes, instead of what the plan says; planks 14 lot B"},
		{"boxes 3", "so many unopened boxes are here; boxes 3 lot B"},
		{"Kitchen lot A", "what lies in that room is of lot A"},
		{"mix", "a floor may be laid of several lots"},
		{"Kitchen 9 longer 1/2", "from row 9 on, what rows end at stands 1/2 farther than planned; or shorter 1/2"},
		{"Kitchen 9 is 143 1/2", "from row 9 on, rows measure so much from wall to wall; or 9b from island to wall"},
		{"Kitchen last row 4 1/4", "the last row, before the wall, is so wide"},
		{"Kitchen first row 3 3/4", "the first row was ripped so wide, and all rows lie where that puts them"},
		{"Kitchen wall 3 out 1/2", "wall 3 of the job stands 1/2 farther out, beyond the rows that lie; or in 1/2"},
		{"Kitchen pipe at 40, 12 diameter 2", "a pipe that the job does not have, at a place of its drawing"},
		{"Kitchen island at 40, 12 size 24 x 12", "the same of a fixed thing: its corner of least x and y"},
	}
}
