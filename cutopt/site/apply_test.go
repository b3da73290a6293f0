package site_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// A planned is a job of the examples with its plan.
type planned struct {
	name string
	job  *cutopt.Job
	plan *cutopt.Plan
}

// examples plans the jobs of the examples once.
var examples = sync.OnceValues(func() ([]planned, error) {
	var out []planned
	for _, name := range []string{"den", "hall", "kitchen", "loft", "flat", "dwelling"} {
		path := filepath.Join("..", "..", "examples", name+".yaml")
		data, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		job, err := jobfile.Decode(data, path)
		data.Close()
		if err != nil {
			return nil, err
		}
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			return nil, err
		}
		out = append(out, planned{name, job, result.Plan})
	}
	return out, nil
})

// samples multiplies a number of random cases by CUTOPT_SAMPLES.
func samples(n int) int {
	if by, err := strconv.Atoi(os.Getenv("CUTOPT_SAMPLES")); err == nil && by > 0 {
		return n * by
	}
	return n
}

// apply reads lines and applies them.
func apply(p planned, lines ...string) (*cutopt.Job, *cutopt.Plan, []cutopt.Finding, error) {
	g := site.NewGrammar(p.job, p.plan)
	s := new(site.State)
	for _, line := range lines {
		e, err := g.Parse(line)
		if err != nil {
			return nil, nil, nil, err
		}
		s.Events = append(s.Events, e)
	}
	return site.Apply(p.job, p.plan, s)
}

// TestMeasuresKeepWhatLies lays random floors of the examples to a random row, changes what comes after, and holds
// that the rows that lie come out to the tick as they lie, and that the next run is as long as told.
func TestMeasuresKeepWhatLies(t *testing.T) {
	all, err := examples()
	if err != nil {
		t.Fatal(err)
	}
	const seed = 17
	r := rand.New(rand.NewPCG(seed, 3))
	for n := range samples(40) {
		p := all[n%len(all)]
		f := r.IntN(len(p.plan.Floors))
		floor := &p.plan.Floors[f]
		if len(floor.Rows) < 3 {
			continue
		}
		row := 1 + r.IntN(len(floor.Rows)-2) // the last that lies
		by := measure.Length(1+r.IntN(32)) * in / 16
		if r.IntN(2) == 0 {
			by = -by
		}
		next := &floor.Rows[row]
		s := &site.State{Events: []site.Event{
			{Kind: site.KindLaid, Floor: f, Row: row},
			{Kind: site.KindLonger, Floor: f, Row: row + 1, Length: by},
		}}
		if r.IntN(3) == 0 { // a second step on top
			s.Events = append(s.Events, site.Event{
				Kind: site.KindLonger, Floor: f, Row: row + 2, Length: by / 2,
			})
		}
		about := fmt.Sprintf("seed %d, sample %d: %s, %s field %d laid to row %d, then %v", seed, n, p.name, floor.Name,
			floor.Field, row, by)
		job, marked, remarks, err := site.Apply(p.job, p.plan, s)
		if err != nil {
			t.Logf("%s: %v", about, err)
			continue
		}
		if i := slices.IndexFunc(remarks, func(f cutopt.Finding) bool { return f.Kind == "cut-to-fit" }); i >= 0 {
			if out, ok := remarks[i].Figure("length").(measure.Length); !ok || out <= 0 || out > p.job.Rules.Fit {
				t.Errorf("%s: %v is left out, the fit allowance is %v", about, out, p.job.Rules.Fit)
			}
			continue
		}
		floors, _, err := solve.Floors(context.Background(), job)
		if err != nil {
			t.Fatalf("%s: %v", about, err)
		}
		is := &floors[f]
		slack := measure.Length(0)
		if !is.Axes.Square() {
			slack = 4
		}
		if marked.Floors[f].Axes != is.Axes {
			t.Errorf("%s: axes %+v, marked %+v", about, is.Axes, marked.Floors[f].Axes)
		}
		for k := range row {
			for i, run := range is.Rows[k].Runs {
				lies := marked.Floors[f].Rows[k].Runs[i]
				longer := run.To - run.From - (floor.Rows[k].Runs[i].To - floor.Rows[k].Runs[i].From)
				if run.From != lies.From || run.To != lies.To || max(longer, -longer) > slack {
					t.Errorf("%s: row %d run %d from %v to %v, lies from %v to %v", about, k+1, i+1, run.From, run.To, lies.From,
						lies.To)
				}
			}
		}
		i := len(next.Runs) - 1
		if i < 0 {
			continue
		}
		was, got := next.Runs[i].To-next.Runs[i].From, is.Rows[row].Runs[i].To-is.Rows[row].Runs[i].From
		const rounding = measure.Millimetre / 20 // of the corners of a step in a slanted wall
		told := []measure.Length{by}
		if len(s.Events) > 2 { // which may let the step of the next row begin at this one
			told = append(told, by/2)
		}
		if !slices.ContainsFunc(told, func(by measure.Length) bool {
			return max(got-was-by, was+by-got) <= rounding
		}) {
			t.Errorf("%s: run %d was %v and is %v", about, i+1, was, got)
		}
	}
}

// sound holds what any marked plan keeps: pieces that lie are the first of their runs, their planks are opened, and
// whole planks add up.
func sound(t *testing.T, about string, p *cutopt.Plan) {
	t.Helper()
	opened := 0
	for i := range p.Planks {
		use := &p.Planks[i]
		if use.Number != i+1 {
			t.Errorf("%s: plank %d has the number %d", about, i+1, use.Number)
		}
		if use.Opened && !use.Brought {
			opened++
		}
		for _, ref := range use.Pieces {
			switch piece := p.Piece(ref); {
			case piece == nil || piece.Plank != use.Number:
				t.Errorf("%s: plank %d lists %+v, which is not its own", about, use.Number, ref)
			case piece.Lies && !use.Opened:
				t.Errorf("%s: a piece of plank %d lies, which is not opened", about, use.Number)
			}
		}
	}
	if per := p.Order.PlanksPerBox; p.Site.Bought*per+p.Site.Brought != opened+cutopt.WholePlanks(p.Site.Here) {
		t.Errorf("%s: %d boxes of %d and %d brought, but %d opened and %+v here", about, p.Site.Bought, per, p.Site.Brought,
			opened, p.Site.Here)
	}
}

func TestApply(t *testing.T) {
	all, err := examples()
	if err != nil {
		t.Fatal(err)
	}
	den, hall := all[0], all[1]
	before := den.plan.Clone()

	_, plan, _, err := apply(den, "row 4")
	if err != nil {
		t.Fatal(err)
	}
	sound(t, "row 4", plan)
	for r, row := range plan.Floors[0].Rows {
		for _, run := range row.Runs {
			for _, p := range run.Pieces {
				if p.Lies != (r < 4) {
					t.Errorf("row %d: lies %v", r+1, p.Lies)
				}
			}
		}
	}
	if len(plan.Site.Here) != 1 || plan.Site.Here[0].Boxes != plan.Site.Here[0].Planks/8 {
		t.Errorf("here %+v", plan.Site.Here)
	}
	whole := plan.Site.Here[0].Planks

	// Two planks that are culled are two fewer, one that nothing lies of another.
	last := len(den.plan.Planks)
	_, plan, _, err = apply(den, "row 4", "culled 2", "lost "+strconv.Itoa(last))
	if err != nil {
		t.Fatal(err)
	}
	sound(t, "culled", plan)
	if got := plan.Site.Here[0].Planks; got != whole-3 || len(plan.Planks) != last+2 {
		t.Errorf("%d planks here, want %d; %d planks in all", got, whole-3, len(plan.Planks))
	}
	if use := plan.Planks[last-1]; len(use.Pieces) != 0 || len(use.Gone) != 1 || use.Gone[0].To != den.job.Plank.Length {
		t.Errorf("plank %d is lost: %+v", last, use)
	}

	// A run in hand.
	_, plan, _, err = apply(den, "row 5 2 pieces")
	if err != nil {
		t.Fatal(err)
	}
	run := plan.Floors[0].Rows[4].Runs[0].Pieces
	if !run[0].Lies || !run[1].Lies || run[2].Lies {
		t.Error("of row 5 two pieces lie")
	}

	// Another starter: the row is filled, and the pieces fit on their planks.
	_, plan, _, err = apply(den, "row 5 starter 20 1/2")
	if err != nil {
		t.Fatal(err)
	}
	sound(t, "starter", plan)
	row := plan.Floors[0].Rows[4].Runs[0]
	sum := measure.Length(0)
	for _, p := range row.Pieces {
		sum += p.Length
	}
	if row.Pieces[0].Length != 20*in+in/2 || sum != row.To-row.From || !row.Pieces[len(row.Pieces)-1].Lies {
		t.Errorf("row 5: %+v", row)
	}

	// Offcuts from elsewhere, stock that is counted, lots.
	_, plan, remarks, err := apply(hall, "Hall 2", "offcut 14 1/2 left", "offcut 12 none", "planks 3 lot A",
		"boxes 2 lot B", "Hall lot A")
	if err != nil {
		t.Fatal(err)
	}
	sound(t, "lots", plan)
	n := len(hall.plan.Planks)
	if one, two := plan.Planks[n], plan.Planks[n+1]; !one.Brought || !two.Brought || len(two.Gone) != 2 {
		t.Errorf("brought: %+v", plan.Planks[n:])
	}
	per := plan.Order.PlanksPerBox
	want := []cutopt.Lot{{Name: "A", Planks: 3}, {Name: "B", Planks: 2 * per, Boxes: 2}}
	if d := cmp.Diff(want, plan.Site.Here); d != "" {
		t.Error(d)
	}
	if plan.Floors[0].Lot != "A" || plan.Planks[0].Lot != "A" {
		t.Errorf("lots %q, %q", plan.Floors[0].Lot, plan.Planks[0].Lot)
	}
	if len(remarks) == 0 {
		t.Error("fewer planks are here than the plan says, and nothing is remarked")
	}
	if d := cmp.Diff(before, den.plan); d != "" {
		t.Errorf("the plan given was changed:\n%s", d)
	}
}

// TestMiscut saws a plank in the wrong place: both parts stay, and only the kerf is gone.
func TestMiscut(t *testing.T) {
	all, err := examples()
	if err != nil {
		t.Fatal(err)
	}
	den := all[0]
	k, long := den.job.Rules.Kerf, den.job.Plank.Length
	n := strconv.Itoa(len(den.plan.Planks))
	for line, want := range map[string]cutopt.Leftover{
		"miscut " + n + " left 22":  {From: 22 * in, To: 22*in + k},
		"miscut " + n + " right 22": {From: long - 22*in - k, To: long - 22*in},
	} {
		_, plan, _, err := apply(den, line)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, line, plan)
		use := plan.Planks[len(plan.Planks)-1]
		parts := []cutopt.Leftover{
			{To: want.From, Ends: cutopt.EndsLeft}, {From: want.To, To: long, Ends: cutopt.EndsRight},
		}
		if d := cmp.Diff([]cutopt.Leftover{want}, use.Gone) + cmp.Diff(parts, use.Left); d != "" || len(use.Cuts) != 0 {
			t.Errorf("%s: %s, cuts %v", line, d, use.Cuts)
		}
	}
}

// TestContradictions holds that states which cannot be are refused with the line, and that the hint says what to
// write.
func TestContradictions(t *testing.T) {
	all, err := examples()
	if err != nil {
		t.Fatal(err)
	}
	den, hall := all[0], all[1]
	planks := len(den.plan.Planks)
	for _, c := range []struct {
		p     planned
		lines []string
		want  string
	}{
		{den, []string{"row 5 starter 20", "row 5 starter 21"}, "row 5 is told twice"},
		{den, []string{"row 5 starter 60"}, "a starter is at most a plank long"},
		{den, []string{"row 5 9 pieces"}, "row 5 has"},
		{den, []string{"lost 999"}, fmt.Sprintf("the plan has planks 1 to %d", planks)},
		{den, []string{"lost 31", "lost 31"}, "nothing of plank 31 is left"},
		{
			den,
			[]string{fmt.Sprintf("offcut of %d lost", planks)},
			fmt.Sprintf("plank %d has no offcut", planks), // it is laid whole
		},
		{den, []string{"offcut 48 left"}, "an offcut is shorter than a plank"},
		{den, []string{"miscut 12 left 48"}, "shorter than a plank"},
		{den, []string{"lost 12", "miscut 12 left 20"}, "what plank 12 has on hand: nothing"},
		{den, []string{"culled 99"}, "whole planks are left"},
		{den, []string{"row 5", "row 3 longer 1"}, "row 3 lies already"},
		{den, []string{"row 5", "pipe at 20, 8 diameter 2"}, "lies there already"},
		{den, []string{"all", "last row 3"}, "the last row lies already"},
		{den, []string{"row 3", "wall 1 in 1/2"}, "would not come out where they lie"},
		{den, []string{"wall 2 in 200"}, "another wall is in the way"},
		{den, []string{"wall 9 in 1"}, "the room has walls 1 to 4"},
		{hall, []string{"Hall 2", "boxes 2 lot B"}, `of which lot is what lies in "Hall"?`},
	} {
		_, _, _, err := apply(c.p, c.lines...)
		var wrong site.Errors
		if !errors.As(err, &wrong) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v, want %s", c.lines, err, c.want)
			continue
		}
		if wrong[0].Value == "" || wrong[0].Mend == "" && !strings.Contains(c.want, "has") {
			t.Errorf("%q: %+v lacks the line or a hint", c.lines, wrong[0])
		}
	}
}
