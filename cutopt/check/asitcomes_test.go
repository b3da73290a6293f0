package check_test

import (
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
)

// looseParlour is the parlour with the starter of row 3 laid as it comes: the ender of 200 and a kerf leave 797 of
// plank 7, of which 700 are planned. A cut is saved, and 97 x 200 are what the offcuts are longer, no more 94 left over
// and a kerf. The joints of row 3, at 710 and 1710, may come to 807 and 1807, 403 from those of row 2, and its ender to
// 603.
func looseParlour() (*cutopt.Job, *cutopt.Plan) {
	job, plan := parlour(), parlourPlan()
	job.Rules.AsItComes = 100 * mm
	plan.Floors[0].Rows[2].Runs[0].Pieces[0].AsItComes = 797 * mm
	use := &plan.Planks[6]
	use.Cuts, use.Left = use.Cuts[:1], nil
	plan.Waste.Offcuts += 3 * 200 * measure.Area(mm*mm)
	plan.Waste.Kerf -= 3 * 200 * measure.Area(mm*mm)
	plan.Quality.Crosscuts--
	return job, plan
}

func TestAsItComes(t *testing.T) {
	type job = cutopt.Job
	type plan = cutopt.Plan
	piece := func(p *plan, row, k int) *cutopt.Piece { return &p.Floors[0].Rows[row].Runs[0].Pieces[k] }
	for _, c := range []struct {
		name   string
		change func(*job, *plan)
		want   string // the finding, or "" for none
	}{
		{"as it is", func(*job, *plan) {}, ""},
		{"an interval longer than the offcut can come", func(_ *job, p *plan) { piece(p, 2, 0).AsItComes += mm }, ""},
		{"a tick too short", func(_ *job, p *plan) { piece(p, 2, 0).AsItComes-- }, "loose-beyond"},
		{"no interval, and no cut either", func(_ *job, p *plan) { piece(p, 2, 0).AsItComes = 0 }, "offcut-untold"},
		{"below the planned length", func(_ *job, p *plan) { piece(p, 2, 0).AsItComes = 699 * mm }, "loose-interval"},
		{"beyond a plank", func(_ *job, p *plan) { piece(p, 2, 0).AsItComes = 1001 * mm }, "loose-interval"},
		{
			"an offcut longer than the rule lays so", func(j *job, _ *plan) { j.Rules.AsItComes = 97*mm - 1 }, "loose-long",
		},
		{"none laid so", func(j *job, _ *plan) { j.Rules.AsItComes = 0 }, "loose-long"},
		{
			"joints that may come too near: 393 of 400", func(j *job, p *plan) {
				j.Rules.Stagger, piece(p, 2, 0).AsItComes = 400*mm, 807*mm
			}, "joints-come-near",
		},
		{
			"an ender that may come too short: 200 - 97", func(_ *job, p *plan) {
				run := &p.Floors[0].Rows[2].Runs[0]
				run.Pieces[2].From, run.Pieces[2].Length, run.Pieces[1].To = 2210*mm, 200*mm, 2210*mm
			}, "ender-short-as-it-comes",
		},
		{"a starter of a new plank", func(_ *job, p *plan) { piece(p, 0, 0).AsItComes = 610 * mm }, "loose-new"},
		{
			"a starter that is laid before the rest of its plank", func(_ *job, p *plan) {
				piece(p, 1, 0).AsItComes = 297 * mm
			}, "loose-new",
		},
		{"an ender", func(_ *job, p *plan) { piece(p, 2, 2).AsItComes = 750 * mm }, "loose-no-starter"},
		{"a whole plank", func(_ *job, p *plan) { piece(p, 0, 1).AsItComes = 1000 * mm }, "loose-no-starter"},
		{
			"the cut is sawn all the same", func(_ *job, p *plan) {
				p.Planks[6].Cuts = append(p.Planks[6].Cuts, cutopt.Cut{At: 297 * mm})
			}, "cuts-other",
		},
		{
			"what is sawn off is told all the same", func(_ *job, p *plan) {
				p.Planks[6].Left = []cutopt.Leftover{{From: 203 * mm, To: 297 * mm}}
			}, "loose-leaves",
		},
		{
			"a shaped piece in its run", func(_ *job, p *plan) {
				piece(p, 2, 1).Shape = []cutopt.Point{{X: 710 * mm, Y: 410 * mm}, {X: 1710 * mm, Y: 410 * mm}, {Y: 610 * mm}}
			}, "loose-shape",
		},
		{"joints of a pattern", func(j *job, _ *plan) { j.Pattern = []measure.Length{700 * mm} }, "loose-pattern"},
		{"walls that may be out by 1: the ender before it too", func(j *job, p *plan) {
			j.Rules.Fit = mm
			piece(p, 2, 0).AsItComes = 798*mm - 1
		}, "loose-beyond"},
		{"the cut is counted all the same", func(_ *job, p *plan) { p.Quality.Crosscuts++ }, "figure-off"},
	} {
		job, plan := looseParlour()
		c.change(job, plan)
		var found []string
		for _, v := range check.Plan(job, plan) {
			found = append(found, v.Finding.Kind)
		}
		if all := strings.Join(found, " "); c.want == "" && all != "" || !strings.Contains(all, c.want) {
			t.Errorf("%s: found %q, want %q", c.name, all, c.want)
		}
	}
}
