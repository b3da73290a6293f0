package check

import (
	"context"
	"fmt"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/measure"
)

// A Rule is what a plan must keep.
type Rule uint8

// The rules that [Plan] holds a plan against.
const (
	RuleJob    Rule = iota // "job": the job is in order, and the plan is of this job
	RulePlan               // "plan": version, ranges and names of the plan's own fields
	RuleRows               // "rows": rows do not overlap, and only edge rows are narrower than a plank
	RuleMinRip             // "min-rip": first and last row at least Rules.MinRip wide
	// "min-strip": no piece has a strip narrower than Rules.MinStrip that the plan does not state
	RuleMinStrip
	RuleRun      // "run": pieces follow each other from end to end of a run, and runs are maximal stretches
	RuleLength   // "length": a piece is To-From long, above 0 and at most a plank
	RuleEnds     // "ends": starters keep their right factory end, enders their left one, the rest both
	RuleMinPiece // "min-piece": starters at least Rules.MinPiece long, enders Rules.Fit more
	RuleGrid     // "grid": the piece of a run that is laid first is a multiple of Rules.Grid, or whole
	// "stagger": end joints of runs that touch are at least Rules.Stagger and twice Rules.Fit apart
	RuleStagger
	RuleShape   // "shape": the shape of a piece lies within its stretch of the row
	RuleCover   // "cover": no floor is left open beyond what the trim covers
	RuleInside  // "inside": no piece lies outside the room or on an island
	RuleGap     // "gap": every piece keeps the gap
	RuleOverlap // "overlap": no piece lies on another
	RuleNumber  // "number": every piece is cut from one plank, which lists it
	// "fit": the pieces of a plank fit on it with a kerf between them, those cut to fit Rules.Fit longer
	RuleFit
	RuleCuts      // "cuts": the cuts of a plank are those its pieces need
	RuleLeftovers // "leftovers": the offcuts of a plank are what its pieces leave
	RuleOrder     // "order": planks, boxes, spare planks, price and the rule of thumb add up
	RuleBound     // "bound": the bound is not above the plan, and its figures agree
	RuleWaste     // "waste": areas and percentages add up
	// "as-it-comes": a starter laid without a saw cut keeps every rule at any length that its offcut may come at
	RuleAsItComes
	RulePattern // "pattern": joints lie where those of Job.Pattern do
	RuleQuality // "quality": the figures of the floor's quality are right
	RuleBreak   // "break": no field is longer than the product allows, and breaks lie where the plan has them
	RuleFact    // "fact": what is told of floors and of the shapes of pieces is so, and nothing is missing
	// "site": what lies, is opened, gone or brought along hangs together, and what is told of the stock is so
	RuleSite
)

var ruleNames = []string{
	"job",
	"plan",
	"rows",
	"min-rip",
	"min-strip",
	"run",
	"length",
	"ends",
	"min-piece",
	"grid",
	"stagger",
	"shape",
	"cover",
	"inside",
	"gap",
	"overlap",
	"number",
	"fit",
	"cuts",
	"leftovers",
	"order",
	"bound",
	"waste",
	"as-it-comes",
	"pattern",
	"quality",
	"break",
	"fact",
	"site",
}

// String returns the name of the rule: that of its key in a job file where there is one.
func (r Rule) String() string { return enum.String("Rule", ruleNames, int(r)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (r Rule) MarshalText() ([]byte, error) { return enum.MarshalText("Rule", ruleNames, int(r)) }

// UnmarshalText reads what MarshalText writes.
func (r *Rule) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Rule", ruleNames, text, r)
}

// A Violation is one thing in a plan that breaks a rule. Floors, rows, runs, pieces and planks are counted from 1 in
// the order of the plan; 0 stands for none.
type Violation struct {
	Rule  Rule
	Floor int
	Name  string // of the floor
	Row   int    // from the starting side
	Run   int    // from the left
	Piece int    // of the run, from the left
	Plank int
	// Finding is what the plan says or does, and what must hold: package words says it in a language.
	Finding cutopt.Finding
	Unit    measure.Unit // of the job: lengths in String are in it
}

// String names the place, the rule and what was found, plainly: "Den row 4 run 1 piece 1: min-piece: starter-short:
// length 5 in, least 8 in".
func (v Violation) String() string {
	var b strings.Builder
	if v.Floor > 0 {
		if b.WriteString(v.Name); v.Name == "" {
			fmt.Fprintf(&b, "room %d", v.Floor)
		}
	}
	for _, p := range []struct {
		word string
		n    int
	}{{"row", v.Row}, {"run", v.Run}, {"piece", v.Piece}, {"plank", v.Plank}} {
		if p.n > 0 {
			if b.Len() > 0 {
				b.WriteByte(' ')
			}
			fmt.Fprintf(&b, "%s %d", p.word, p.n)
		}
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	fmt.Fprintf(&b, "%v: %s", v.Rule, v.Finding.Format(v.Unit))
	return b.String()
}

// Plan recounts a plan of a job from its pieces and the job's outlines and lists everything that breaks a rule; nil
// means that the plan can be laid as it stands and that all its figures are right. It trusts no figure of the plan and
// uses none of the code that makes plans. Whether the plan's certificate holds is for [Proof] to say: here its figure
// is only compared with the bound. The quality of the floor is recounted where nothing else is wrong.
//
// Of a job that is begun, where Plan.Site is set, the whole floor is recounted, what lies included. Runs of which some
// pieces lie are as they are: they need not keep the grid, the shortest piece, the pattern, nor the stagger to each
// other, and pieces that lie may have narrow strips. To all that is planned every rule holds.
//
// Lengths are compared exactly, in whole ticks. The places of pieces in the room are measured within these tolerances:
// walls along the rows or square to them are held exactly where the room is turned by whole quarters, all others to
// 1/40 mm; in a floor that has such others, intrusions no taller than that or smaller than (2/5 mm)² are rounding;
// corners that point into the floor may be rounded or mitred; floor nearer to a wall than gap, Rules.Cover and
// Rules.Smooth together, and 1/40 mm, needs no piece. Percentages are held to one part in 10^9 and areas of shaped
// pieces to half a square tick each.
//
// Any plan may be checked, however broken: Plan never panics. Where the job does not pass [cutopt.Job.Validate], and
// where the plan is of another version or job or has values that none can have, such as a length beyond all rooms,
// that alone is reported. It takes O(n log n) for the n pieces and corners, times the pieces of one row; five
// thousand rows take well under a second.
func Plan(job *cutopt.Job, plan *cutopt.Plan) []Violation {
	out, _ := PlanContext(context.Background(), job, plan) // without a context that ends there is no error
	return out
}

// PlanContext does what [Plan] does, and gives up with the context's error when that ends; it is polled at every row
// and plank, and every few thousand steps of the measurement in the room.
func PlanContext(ctx context.Context, job *cutopt.Job, plan *cutopt.Plan) ([]Violation, error) {
	c := &checker{ctx: ctx, job: job, plan: plan}
	if err := job.Validate(); err != nil {
		c.report(Violation{Rule: RuleJob}, "job-broken", "error", strings.ReplaceAll(err.Error(), "\n", "; "))
		return c.out, nil
	}
	if plan == nil {
		c.report(Violation{Rule: RulePlan}, "no-plan")
		return c.out, nil
	}
	if c.ranges(); len(c.out) > 0 {
		return c.out, nil
	}
	floors, firsts := c.fields()
	for i := range plan.Floors {
		floor := &roomChecker{checker: c, index: i, room: &plan.Floors[i]}
		if i < len(floors) {
			floor.rooms, floor.first, floor.leading = floors[i], &job.Rooms[firsts[i]], firsts[i]
			floor.field(firsts)
		}
		if err := floor.run(); err != nil {
			return nil, err
		}
	}
	c.planks()
	if c.plan.Site != nil {
		c.site()
	} else {
		c.order()
		c.bound()
	}
	c.waste()
	c.quality()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return c.out, nil
}

// over reports whether the context has ended: what is left need not be counted.
func (c *checker) over() bool { return c.ctx.Err() != nil }

// A checker gathers the violations of one plan.
type checker struct {
	ctx  context.Context
	job  *cutopt.Job
	plan *cutopt.Plan
	out  []Violation

	// Of all planks, along them, once they are cut up again: kerfs, offcuts and pieces. Uncut says that some could not
	// be, so that these are not known.
	sawn, spent, used measure.Length
	lost, brought     measure.Length // what is gone, and what there was of offcuts brought along
	uncut             bool
}

// report adds a violation: its rule and place, and what is found, figures as name, value, name, value and so on.
func (c *checker) report(v Violation, kind string, figures ...any) {
	v.Finding = cutopt.Find(kind, figures...)
	if c.job != nil {
		v.Unit = c.job.Unit
	}
	c.out = append(c.out, v)
}

// off reports a figure of the plan that is not what was recounted, by its name in plan files.
func (c *checker) off(rule Rule, field string, got, want any) {
	c.report(Violation{Rule: rule}, "figure-off", "field", field, "got", got, "want", want)
}

// equal reports two whole numbers that differ.
func (c *checker) equal(rule Rule, field string, got, want int) {
	if got != want {
		c.off(rule, field, got, want)
	}
}

// farthest is the largest coordinate and length of a plan: room enough for turned drawings of a kilometre, and small
// enough that no product of two overflows.
const farthest = 4 * cutopt.MaxLength

// ranges reports fields that could make sense in no plan.
func (c *checker) ranges() {
	p := c.plan
	if p.Version != cutopt.PlanVersion {
		c.off(RulePlan, "version", p.Version, cutopt.PlanVersion)
	}
	if _, err := p.Unit.MarshalText(); err != nil {
		c.report(Violation{Rule: RulePlan}, "unit-unknown", "unit", p.Unit)
	}
	if p.Job != c.job.Name {
		c.report(Violation{Rule: RuleJob}, "other-job", "got", p.Job, "want", c.job.Name)
	}
	for i := range p.Floors {
		c.roomRanges(i)
	}
	for i := range p.Planks {
		use := &p.Planks[i]
		at := Violation{Rule: RulePlan, Plank: i + 1}
		for _, cut := range use.Cuts {
			c.inRange(at, "cut", cut.At)
		}
		for _, left := range use.Left {
			c.inRange(at, "offcut", left.From, left.To)
		}
		for _, gone := range use.Gone {
			c.inRange(at, "offcut", gone.From, gone.To)
		}
	}
	if p.Site != nil {
		c.siteRanges()
	}
}

func (c *checker) roomRanges(i int) {
	floor := &c.plan.Floors[i]
	at := Violation{Rule: RulePlan, Floor: i + 1, Name: floor.Name}
	c.inRange(at, "axes", floor.Axes.Origin.X, floor.Axes.Origin.Y)
	if t := floor.Axes.Turn; !(t >= -360 && t <= 360) {
		c.report(at, "turn-out", "turn", t)
	}
	if floor.LaidFrom != cutopt.HandLeft && floor.LaidFrom != cutopt.HandRight {
		c.report(at, "hand-unknown", "hand", floor.LaidFrom)
	}
	for j := range floor.Rows {
		row := &floor.Rows[j]
		at.Row = j + 1
		at.Run, at.Piece = 0, 0
		c.inRange(at, "row", row.From, row.To, row.Width)
		for k := range row.Runs {
			run := &row.Runs[k]
			at.Run, at.Piece = k+1, 0
			c.inRange(at, "run", run.From, run.To)
			for m := range run.Pieces {
				at.Piece = m + 1
				c.pieceRanges(at, &run.Pieces[m])
			}
		}
	}
}

func (c *checker) pieceRanges(at Violation, p *cutopt.Piece) {
	c.inRange(at, "piece", p.From, p.To, p.Length, p.AsItComes)
	for _, corner := range p.Shape {
		c.inRange(at, "shape", corner.X, corner.Y)
	}
	if p.Ends > cutopt.EndsBoth {
		c.report(at, "ends-unknown", "ends", p.Ends)
	}
}

// inRange reports the first of the lengths that lies beyond all rooms.
func (c *checker) inRange(at Violation, part string, lengths ...measure.Length) {
	for _, l := range lengths {
		if l < -farthest || l > farthest {
			c.report(at, "beyond", "part", part, "length", l)
			return
		}
	}
}
