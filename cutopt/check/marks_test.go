package check_test

import (
	stdcmp "cmp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// begunParlour is the parlour with so many pieces down. With rows 1 and 2, seven pieces, planks 1 to 7 are opened and
// one is needed. Three boxes of 4 were bought, so 5 planks are here, one box of them closed: all figures are as they
// were.
func begunParlour(pieces int) *cutopt.Plan {
	p := parlourPlan()
	n := 0
	for piece := range p.Pieces() {
		if n++; n <= pieces {
			piece.Lies, p.Planks[piece.Plank-1].Opened = true, true
		}
	}
	opened := 0
	for _, use := range p.Planks {
		if use.Opened {
			opened++
		}
	}
	p.Site = &cutopt.Site{
		Bought: 3, Here: []cutopt.Lot{{Planks: 12 - opened, Boxes: 1}}, Needed: 8 - opened, Least: 8 - opened,
		Assigned: true,
	}
	return p
}

func TestMarkedPlanPasses(t *testing.T) {
	for n := range 12 {
		if v := check.Plan(parlour(), begunParlour(n)); v != nil {
			t.Errorf("with %d pieces down: %v", n, v)
		}
	}
}

// What lies need not keep the grid, the shortest piece nor the stagger; the row that is planned does, to what lies too.
func TestWhatLiesIsExempt(t *testing.T) {
	for _, c := range []struct {
		reason string
		spoil  func(*cutopt.Rules)
		lies   string // violations with rows 1 and 2 down
		plain  string // with none
	}{
		{
			"a stagger of 450: rows 1 and 2 are 400 apart",
			func(r *cutopt.Rules) { r.Stagger = 450 * mm },
			"",
			"stagger stagger",
		},
		{
			"of 550: rows 2 and 3 are 500 apart",
			func(r *cutopt.Rules) { r.Stagger = 550 * mm },
			"stagger stagger",
			"stagger stagger stagger stagger",
		},
		{
			"pieces of 250: row 2 has two of 200",
			func(r *cutopt.Rules) { r.MinPiece = 250 * mm },
			"",
			"min-piece min-piece",
		},
		{
			"of 750: row 3 has two of 700",
			func(r *cutopt.Rules) { r.MinPiece = 750 * mm },
			"min-piece min-piece",
			"min-piece min-piece min-piece min-piece min-piece",
		},
		{"a grid of 70: starters are 600, 200 and 700", func(r *cutopt.Rules) { r.Grid = 70 * mm }, "", "grid grid"},
	} {
		job := parlour()
		c.spoil(&job.Rules)
		for _, w := range []struct {
			plan *cutopt.Plan
			want string
		}{{begunParlour(7), c.lies}, {parlourPlan(), c.plain}} {
			var got []string
			for _, v := range check.Plan(job, w.plan) {
				got = append(got, v.Rule.String())
			}
			if strings.Join(got, " ") != w.want {
				t.Errorf("%s: got %v, want %s", c.reason, got, w.want)
			}
		}
	}
}

// The bare problem of what is left is written down by hand: joints of the parlour are at 610 and 1610, at 210, 1210 and
// 2210, and at 710 and 1710. Plank 1 leaves 397 at its left end, plank 3 has 197 at its right end, plank 4 has 797.
func TestInstanceOfTheRest(t *testing.T) {
	for _, c := range []struct {
		reason  string
		pieces  int // that lie
		fit     measure.Length
		spoil   func(*cutopt.Plan)
		runs    []rows.Run
		touch   [][2]int
		offcuts []rows.Offcut
	}{
		{
			"row 1, and the starter of row 2", 4, 0, nil,
			[]rows.Run{{From: -790 * mm, Length: 3200 * mm, Starter: 1000 * mm}, {From: 10 * mm, Length: 2400 * mm}},
			[][2]int{{0, 1}},
			[]rows.Offcut{
				{Length: 397 * mm, End: rows.EndLeft},
				{Length: 197 * mm, End: rows.EndRight},
				{Length: 797 * mm, End: rows.EndLeft},
			},
		},
		{
			"the joint before the last that lies is beside row 3; the ender may have come out longer", 5, 5 * mm, nil,
			[]rows.Run{
				{From: 210 * mm, Length: 2205 * mm, Starter: 1000 * mm},
				{From: 10 * mm, Length: 2405 * mm, Beside: []measure.Length{210 * mm}},
			},
			[][2]int{{0, 1}},
			[]rows.Offcut{
				{Length: 397 * mm, End: rows.EndLeft},
				{Length: 192 * mm, End: rows.EndRight},
				{Length: 797 * mm, End: rows.EndLeft},
			},
		},
		{
			"an ender of 800 may come out as long as a plank, not longer", 1, 250 * mm, nil,
			[]rows.Run{
				{From: -390 * mm, Length: 3000 * mm, Starter: 1000 * mm},
				{From: 10 * mm, Length: 2650 * mm},
				{From: 10 * mm, Length: 2650 * mm},
			},
			[][2]int{{0, 1}, {1, 2}},
			[]rows.Offcut{{Length: 397 * mm, End: rows.EndLeft}},
		},
		{
			"rows 1 and 2; of plank 7 there is 797 beside the ender of 200", 7, 0, nil,
			[]rows.Run{{From: 10 * mm, Length: 2400 * mm, Beside: []measure.Length{210 * mm, 1210 * mm, 2210 * mm}}},
			nil,
			[]rows.Offcut{
				{Length: 397 * mm, End: rows.EndLeft},
				{Length: 197 * mm, End: rows.EndRight},
				{Length: 797 * mm, End: rows.EndLeft},
				{Length: 797 * mm, End: rows.EndRight},
			},
		},
		{
			"a starter laid as it came may be 30 longer, and its joints so much further on; offcuts are lost", 7, 0,
			func(p *cutopt.Plan) {
				p.Floors[0].Rows[1].Runs[0].Pieces[0].AsItComes = 230 * mm
				p.Planks[0].Gone, p.Planks[0].Left = p.Planks[0].Left, nil
				p.Planks[2].Left[0] = cutopt.Leftover{From: 803 * mm, To: 903 * mm}
				p.Planks[2].Gone = []cutopt.Leftover{{From: 903 * mm, To: 1000 * mm, Ends: cutopt.EndsRight}}
			},
			[]rows.Run{{From: 10 * mm, Length: 2400 * mm, Beside: []measure.Length{
				210 * mm, 240 * mm, 1210 * mm, 1240 * mm, 2210 * mm, 2240 * mm,
			}}},
			nil,
			[]rows.Offcut{
				{Length: 100 * mm, End: rows.EndNone},
				{Length: 797 * mm, End: rows.EndLeft},
				{Length: 797 * mm, End: rows.EndRight},
			},
		},
		{"nothing is left", 10, 0, nil, nil, nil, []rows.Offcut{
			{Length: 397 * mm, End: rows.EndLeft},
			{Length: 197 * mm, End: rows.EndRight},
			{Length: 94 * mm, End: rows.EndNone},
			{Length: 94 * mm, End: rows.EndNone},
		}},
	} {
		job, plan := parlour(), begunParlour(c.pieces)
		job.Rules.Fit = c.fit
		if c.spoil != nil {
			c.spoil(plan)
		}
		in, err := check.Instance(job, plan)
		if err != nil {
			t.Fatal(err)
		}
		want := &rows.Instance{
			Plank: 1000 * mm, Kerf: 3 * mm, MinPiece: 200 * mm, MinEnder: 200*mm + 2*c.fit, Stagger: 200*mm + 2*c.fit,
			Grid: mm, Runs: c.runs, Touch: c.touch, Offcuts: c.offcuts,
		}
		if diff := cmp.Diff(want, in); diff != "" {
			t.Errorf("%s: %s", c.reason, diff)
		}
	}
}

// The same floor laid from the right, mirrored, leaves the same bare problem.
func TestInstanceOfTheRestMirrored(t *testing.T) {
	for n := range 12 {
		plan := begunParlour(n)
		want, err := check.Instance(parlour(), plan)
		if err != nil {
			t.Fatal(err)
		}
		got, err := check.Instance(parlour(), mirror(plan, 1000*mm))
		if err != nil {
			t.Fatal(err)
		}
		for i := range got.Runs {
			got.Runs[i].From += 2420 * mm
			for k := range got.Runs[i].Beside {
				got.Runs[i].Beside[k] += 2420 * mm
			}
		}
		for _, in := range []*rows.Instance{want, got} {
			slices.SortFunc(in.Offcuts, func(a, b rows.Offcut) int {
				return stdcmp.Or(int(a.Length-b.Length), strings.Compare(string(a.End), string(b.End)))
			})
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("with %d pieces down: %s", n, diff)
		}
	}
}

// mirror turns a plan of the parlour left to right.
func mirror(plan *cutopt.Plan, long measure.Length) *cutopt.Plan {
	swap := func(e cutopt.Ends) cutopt.Ends { return e&1<<1 | e>>1 }
	p := plan.Clone()
	p.Floors[0].LaidFrom = cutopt.HandRight
	for i := range p.Floors[0].Rows {
		pieces := p.Floors[0].Rows[i].Runs[0].Pieces
		slices.Reverse(pieces)
		for k := range pieces {
			q := &pieces[k]
			q.From, q.To, q.Ends = 2420*mm-q.To, 2420*mm-q.From, swap(q.Ends)
		}
	}
	for i := range p.Planks {
		use := &p.Planks[i]
		slices.Reverse(use.Pieces)
		for k := range use.Pieces {
			use.Pieces[k].Piece = len(p.Floors[0].Rows[use.Pieces[k].Row].Runs[0].Pieces) - 1 - use.Pieces[k].Piece
		}
		slices.Reverse(use.Left)
		for k := range use.Left {
			o := &use.Left[k]
			o.From, o.To, o.Ends = long-o.To, long-o.From, swap(o.Ends)
		}
	}
	return p
}

func TestMarkViolations(t *testing.T) {
	for _, c := range []struct {
		reason string
		spoil  func(*cutopt.Plan)
		want   string // a part of one of the violations
	}{
		{"marks without a site", func(p *cutopt.Plan) { p.Site = nil }, "site: lies-nowhere"},
		{"an opened plank without a site", func(p *cutopt.Plan) {
			*p = *parlourPlan()
			p.Planks[0].Opened = true
		}, "plank 1: site: marks-nowhere"},
		{
			"a lot without a site",
			func(p *cutopt.Plan) { *p = *parlourPlan(); p.Planks[0].Lot = "A" },
			"plank 1: site: marks-nowhere",
		},
		{"the second piece of a run lies alone", func(p *cutopt.Plan) {
			p.Floors[0].Rows[2].Runs[0].Pieces[1].Lies, p.Planks[7].Opened = true, true
		}, "row 3 run 1 piece 2: site: lies-alone"},
		{
			"a piece of a whole plank lies",
			func(p *cutopt.Plan) { p.Planks[0].Opened = false },
			"row 1 run 1 piece 1: site: lies-whole",
		},
		{"opened for nothing", func(p *cutopt.Plan) { p.Planks[7].Opened = true }, "plank 8: site: opened-whole"},
		{"gone of a whole plank", func(p *cutopt.Plan) {
			p.Planks[7].Gone = []cutopt.Leftover{{From: 5, To: 5}}
		}, "plank 8: site: gone-of-whole"},
		{
			"a whole plank brought along",
			func(p *cutopt.Plan) { p.Planks[7].Brought = true },
			"plank 8: site: gone-of-whole",
		},
		{
			"an offcut brought along that lacks nothing",
			func(p *cutopt.Plan) { p.Planks[6].Brought = true },
			"plank 7: site: brought-whole",
		},
		{"gone beyond the plank", func(p *cutopt.Plan) {
			p.Planks[0].Gone = []cutopt.Leftover{{From: 0, To: 1001 * mm}}
		}, "plank 1: site: gone-astray"},
		{"a piece where the plank is gone", func(p *cutopt.Plan) {
			p.Planks[6].Gone = []cutopt.Leftover{{From: 100 * mm, To: 101 * mm}}
		}, "plank 7: leftovers: plank-full"},
		{"cut without a kerf at an end", func(p *cutopt.Plan) {
			p.Planks[0].Gone = []cutopt.Leftover{{From: 0, To: 0, Ends: cutopt.EndsLeft}}
		}, "plank 1: site: gone-astray"},
		{"ends of what is gone", func(p *cutopt.Plan) {
			p.Planks[0].Gone, p.Planks[0].Left = p.Planks[0].Left, nil
			p.Planks[0].Gone[0].Ends = cutopt.EndsNone
		}, "plank 1: site: gone-ends"},
		{"an offcut that is gone, and the areas as before", func(p *cutopt.Plan) {
			p.Planks[0].Gone, p.Planks[0].Left = p.Planks[0].Left, nil
		}, "waste.areas.lost"},
		{"a plank too many here", func(p *cutopt.Plan) { p.Site.Here[0].Planks++ }, "site: planks-astray"},
		{"more boxes than the planks fill", func(p *cutopt.Plan) { p.Site.Here[0].Boxes = 2 }, "site: lot-boxes"},
		{"needs more", func(p *cutopt.Plan) { p.Site.Needed++ }, "site.needed"},
		{"the bound is another", func(p *cutopt.Plan) { p.Site.Least = 0 }, "bound.planks"},
		{"no plan needs so many", func(p *cutopt.Plan) { p.Site.Least = 2 }, "site: least-out"},
		{"short of some", func(p *cutopt.Plan) { p.Site.Short = 1 }, "site.short"},
		{"buys for nothing", func(p *cutopt.Plan) { p.Site.Buy = 1 }, "site.buy"},
		{"a box that is kept goes back", func(p *cutopt.Plan) {
			p.Site.Returns = []cutopt.Lot{{Planks: 4, Boxes: 1}}
		}, "site: returns-other"},
		{"a floor of no lot", func(p *cutopt.Plan) { p.Floors[0].Lot = "A" }, "plank 4: site: lot-other"},
		{"an absurd number", func(p *cutopt.Plan) { p.Site.Bought = 1 << 50 }, "plan: count-out"},
		{"below 0", func(p *cutopt.Plan) { p.Site.Here[0].Boxes = -1 }, "plan: count-out"},
		{"rows that are not short", func(p *cutopt.Plan) { p.Site.Reaches = []int{3} }, "site: reaches-other"},
		{"a floor that need not wait", func(p *cutopt.Plan) { p.Site.Waits = []int{0} }, "site: waits-other"},
		{
			"a change of no run",
			func(p *cutopt.Plan) { p.Site.Changed = []cutopt.RunChange{{Row: 7}} },
			"site: changed-astray",
		},
		{"a change of what lies", func(p *cutopt.Plan) {
			p.Site.Changed = []cutopt.RunChange{{Row: 1, Was: 1, Is: 200 * mm}}
		}, "site: changed-other"},
		{"a change to something else", func(p *cutopt.Plan) {
			p.Site.Changed = []cutopt.RunChange{{Row: 2, Was: 1, Is: 200 * mm}}
		}, "site: changed-other"},
	} {
		plan := begunParlour(7)
		c.spoil(plan)
		var all []string
		found := false
		for _, v := range check.Plan(parlour(), plan) {
			all = append(all, v.String())
			found = found || strings.Contains(v.String(), c.want)
		}
		if !found {
			t.Errorf("%s: got %q, want %q among them", c.reason, all, c.want)
		}
	}
}

// A change that is so is told: row 3 starts with 700, before with 650.
func TestChangeIsHeld(t *testing.T) {
	plan := begunParlour(7)
	plan.Site.Changed = []cutopt.RunChange{{Row: 2, Was: 650 * mm, Is: 700 * mm}}
	if v := check.Plan(parlour(), plan); v != nil {
		t.Error(v)
	}
}

// A starter that lies as it came may have a shaped piece in its run: a wall beside it was measured anew. A planned one
// may not, since shapes are measured from where pieces are planned.
func TestShapeBesideWhatLies(t *testing.T) {
	for _, c := range []struct{ row, want int }{{1, 0}, {2, 1}} {
		plan := begunParlour(7)
		row := &plan.Floors[0].Rows[c.row]
		row.Runs[0].Pieces[0].AsItComes = row.Runs[0].Pieces[0].Length + 10*mm
		p := &row.Runs[0].Pieces[1]
		p.Shape = cutopt.RectangleAt(cutopt.Point{X: p.From, Y: row.From}, p.To-p.From, row.To-row.From)
		got := 0
		for _, v := range check.Plan(parlour(), plan) {
			if v.Finding.Kind == "loose-shape" {
				got++
			}
		}
		if got != c.want {
			t.Errorf("row %d: loose-shape is found %d times, want %d", c.row+1, got, c.want)
		}
	}
}
