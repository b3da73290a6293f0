package solve

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

const (
	// mostPlacements is the most ways for the rows of one floor to lie that are looked at.
	mostPlacements = 200
	// mostRuns is the most runs of all these together: some 20 MB while prices are evaluated.
	mostRuns = 20_000
	// leastSteps is what a proof over least runs may take, beside a tenth of what the plan took, where the effort is not
	// thorough: nearly all that come to an end take less.
	leastSteps = 5000
	// mostMoves is how often the rows of a plan may move for fewer boxes.
	mostMoves = 4
)

// A lying is one way for the rows of a floor to lie.
type lying struct {
	strips.FirstRow
	lie   cutopt.RowRules
	floor *strips.Floor // laid so, but for its first row; nil where the job fixes it
}

// A roomClaim is a bound of the rooms and the family that its certificate is of.
type roomClaim struct {
	family *proof.Family
	floors []cutopt.PlanFloor // that Check made the family of; nil where it has not
	bound  *cutopt.RoomBound
}

// borne gives a plan the bound of its rooms, if there is one, where Check recounts the same ways for the rows to lie
// from the outlines, or others of which the certificate holds as well. Where a floor is cut so that it does not, the
// claim stays one of the plan's rows.
func (r *roomClaim) borne(job *cutopt.Job, plan *cutopt.Plan) {
	if r == nil {
		return
	}
	plan.Bound.Rooms = r.bound
	if r.floors != nil && slices.EqualFunc(r.floors, plan.Floors, sameFloor) {
		return
	}
	recounted, err := check.Family(job, plan)
	same := err == nil && slices.EqualFunc(r.family.Floors, recounted.Floors, sameWays)
	if err != nil || !same && r.bound.Certificate.Verify(recounted) != nil {
		plan.Bound.Rooms = nil
	}
}

// sameFloor reports whether Check makes the same placements of two floors: they lie alike, and what is told of strips
// and edge rows is of the same kinds.
func sameFloor(a, b cutopt.PlanFloor) bool {
	tells := func(f *cutopt.PlanFloor, kind cutopt.FactKind) bool {
		return slices.ContainsFunc(f.Facts, func(f cutopt.Fact) bool { return f.Kind == kind })
	}
	for _, kind := range []cutopt.FactKind{cutopt.FactStrip, cutopt.FactEdgeAsked, cutopt.FactEdgeForced} {
		if tells(&a, kind) != tells(&b, kind) {
			return false
		}
	}
	sameRuns := func(p, q cutopt.PlanRun) bool { return p.From == q.From && p.To == q.To }
	sameRows := func(p, q cutopt.PlanRow) bool {
		return p.From == q.From && p.To == q.To && slices.EqualFunc(p.Runs, q.Runs, sameRuns)
	}
	return a.Axes == b.Axes && a.LaidFrom == b.LaidFrom && slices.EqualFunc(a.Rows, b.Rows, sameRows)
}

// sameWays reports whether the placements of a floor are alike but for where its axes begin.
func sameWays(a, b []proof.Placement) bool {
	return slices.EqualFunc(a, b, func(p, q proof.Placement) bool {
		if len(p.Runs) != len(q.Runs) || len(p.Runs) == 0 {
			return false
		}
		by := p.Runs[0].From - q.Runs[0].From
		alike := func(x, y rows.Run) bool { return x.Length == y.Length && x.From-y.From == by }
		return slices.EqualFunc(p.Runs, q.Runs, alike) && slices.Equal(p.Touch, q.Touch)
	})
}

// anywhere tries to prove that no first row that the job leaves open needs fewer boxes than the bound of the floor, or
// fewer planks where these are wanted, and where one does moves the rows there. It returns the problem and the floor,
// moved or not, and the proof; nil where there is none, or where the job leaves nothing open.
func (c *call) anywhere(p *problem, floor *floorplan) (*problem, *floorplan, *roomClaim) {
	for range mostMoves {
		if floor.stopped != nil || c.opt.brief && len(p.instance.Runs) > briefRuns || floor.certified.planks == 0 {
			break
		}
		claim, moved, better := c.claim(p, floor)
		if claim != nil {
			return p, floor, claim
		}
		if moved == nil {
			moved, better = c.fewerElsewhere(p, floor)
		}
		if moved == nil {
			break
		}
		p, floor = moved, better
	}
	p, floor = c.around(p, floor)
	return p, floor, nil
}

// claim tries to prove that no first row needs fewer boxes or planks than the bound of the floor. Where it finds that
// one does, it returns the problem and the floor that is planned so, unless joints follow a pattern.
func (c *call) claim(p *problem, floor *floorplan) (*roomClaim, *problem, *floorplan) {
	ways, family, made := c.family(p, floor)
	if family == nil {
		return nil, nil, nil
	}
	budget, least := searchBudgets[c.opt.Effort], false
	known := &fewest.Known{Prices: floor.prices}
	if !slices.ContainsFunc(ways, func(w []lying) bool { return w == nil }) {
		known.Choice, known.Certificate = make([]int, len(ways)), floor.certified.certificate
	} else {
		budget, least = c.leastBudget(floor), true
	}
	verdict := fewest.Family(family, known, c.worse(p.terms, floor.certified.planks), &fewest.Settings{
		Budget: budget, Seed: c.opt.Seed, Workers: c.opt.Workers, Stop: c.stop,
	})
	floor.stats.Steps += verdict.Steps
	floor.curtailed = verdict.Spent && least && c.opt.Effort != EffortThorough
	if verdict.Certificate != nil {
		return &roomClaim{family, made, &cutopt.RoomBound{
			Planks: verdict.Certificate.Planks, Firsts: firsts(p, ways), Certificate: verdict.Certificate,
		}}, nil, nil
	}
	moved := c.elsewhere(p, ways, verdict.Better)
	if moved == nil || len(p.job.Pattern) > 0 {
		return nil, nil, nil
	}
	better, err := c.least(moved, c.opt)
	if err != nil || !c.fewer(p.terms, better.planks(), floor.planks()) {
		return nil, nil, nil
	}
	better.stats.add(&floor.stats)
	return nil, moved, better
}

// worse is the most planks that would do better than so many: fill fewer boxes, or be fewer where these are wanted.
func (c *call) worse(terms cutopt.Terms, planks int) int {
	for t := planks - 1; t > 0; t-- {
		if c.fewer(terms, t, planks) {
			return t
		}
	}
	return 0
}

// fewer reports whether so many planks are better than as many as b.
func (c *call) fewer(terms cutopt.Terms, a, b int) bool {
	if c.opt.Fewest == FewestPlanks {
		return a < b
	}
	return terms.Boxes(a) < terms.Boxes(b) || terms.Holding(a) < terms.Holding(b) && terms.Boxes(a) <= terms.Boxes(b)
}

// family lists the ways for the rows of each floor to lie, its own first, and makes bare problems of them; where they
// cannot be listed, it has the least runs that first rows have, and no ways. It is nil where the job leaves nothing
// open, or where neither can be had. Made are the floors that Check made those runs of.
func (c *call) family(
	p *problem, floor *floorplan,
) (ways [][]lying, f *proof.Family, made []cutopt.PlanFloor) {
	f = &proof.Family{
		Plank: p.instance.Plank, Kerf: p.instance.Kerf, MinPiece: p.instance.MinPiece, MinEnder: p.instance.MinEnder,
		Stagger: p.instance.Stagger, Grid: p.instance.Grid,
	}
	ways = make([][]lying, len(p.floors))
	runs, open, listed := 0, false, true
	for i, fl := range p.floors {
		if p.fields[i].lie.FirstRow > 0 && !p.free(i) {
			ways[i] = []lying{{FirstRow: strips.FirstRow{Rows: fl.Rows}}}
		} else {
			open, ways[i] = true, c.ways(p, i)
			listed = listed && ways[i] != nil
		}
		var placements []proof.Placement
		for _, w := range ways[i] {
			in, _ := instanceOf(p.job, []*strips.Floor{{LaidFrom: fl.LaidFrom, Rows: w.Rows}})
			if runs += len(in.Runs); runs > mostRuns {
				return nil, nil, nil
			}
			placements = append(placements, proof.Placement{Runs: in.Runs, Touch: in.Touch})
		}
		f.Floors = append(f.Floors, placements)
	}
	switch {
	case !open:
		return nil, nil, nil
	case listed:
		return ways, f, nil
	case !c.provable(p, floor):
		return nil, nil, nil
	}
	bare := &assembler{problem: p, plan: new(cutopt.Plan)}
	bare.rooms()
	for i, fl := range p.floors {
		if fl.Thin() { // told once its pieces lie
			floor := &bare.plan.Floors[i]
			floor.Facts = append(floor.Facts, cutopt.Fact{Kind: cutopt.FactStrip})
		}
	}
	bare.plan.Bound.Rooms = &cutopt.RoomBound{Firsts: firsts(p, ways)}
	f, err := check.Family(p.job, bare.plan)
	if err != nil {
		return nil, nil, nil
	}
	return ways, f, bare.plan.Floors
}

// provable reports whether the rows in hand alone can be proven as runs of any first row are: without stagger, and with
// starters and enders that are freer. Where they cannot, no list of least runs that holds them can.
func (c *call) provable(p *problem, floor *floorplan) bool {
	alone := p.untied([][]proof.Placement{{{Runs: p.instance.Runs}}})
	verdict := fewest.Family(alone, &fewest.Known{Prices: floor.prices}, c.worse(p.terms, floor.certified.planks),
		&fewest.Settings{Budget: c.leastBudget(floor), Seed: c.opt.Seed, Workers: c.opt.Workers, Stop: c.stop})
	floor.stats.Steps += verdict.Steps
	floor.curtailed = verdict.Spent && c.opt.Effort != EffortThorough
	return verdict.Certificate != nil
}

// untied is the family of some placements whose runs are not tied, and may begin and end with less than a piece.
func (p *problem) untied(floors [][]proof.Placement) *proof.Family {
	in := p.instance
	return &proof.Family{
		Plank: in.Plank, Kerf: in.Kerf, MinPiece: 1, MinEnder: max(1, max(in.MinPiece, in.MinEnder)-in.Grid), Grid: in.Grid,
		Floors: floors,
	}
}

// leastBudget is what a proof over least runs may take.
func (c *call) leastBudget(floor *floorplan) *fewest.Budget {
	budget := *searchBudgets[c.opt.Effort]
	if c.opt.Effort != EffortThorough {
		budget.Branch = min(budget.Branch, leastSteps+int(floor.stats.Steps/20))
	}
	return &budget
}

// free reports whether the job leaves open which way the rows of a floor run.
func (p *problem) free(floor int) bool {
	return p.job.Rooms[p.fields[floor].Rooms[0].Number].Rows.Direction == cutopt.DirectionFree
}

// turned returns a floor with its rows the other way, along or across; nil where it cannot be laid so by itself, and
// where it may ask for breaks.
func (c *call) turned(p *problem, floor int) *lying {
	field, rules := &p.fields[floor], &p.job.Rules
	from, to := p.floors[floor].Along()
	low, high := p.floors[floor].Across()
	if rules.MaxAlong > 0 && high-low > rules.MaxAlong || rules.MaxAcross > 0 && to-from > rules.MaxAcross ||
		len(p.breaks) > 0 {
		return nil
	}
	other := &lying{lie: field.lie}
	other.lie.Direction = cutopt.DirectionAlong + cutopt.DirectionAcross - field.lie.Direction
	var err error
	if other.floor, err = floorOf(c.ctx, p.job, field, &other.lie, cutopt.MaxPieces); err != nil {
		return nil
	}
	return other
}

// ways lists the ways for the rows of a floor to lie, its own first; nil where they cannot be listed. Those that break
// a rule count only where no others are left, along or across.
func (c *call) ways(p *problem, floor int) []lying {
	fl := p.floors[floor]
	out := []lying{{strips.FirstRow{Width: fl.First, Rows: fl.Rows}, p.fields[floor].lie, fl}}
	list, fair, ok := fl.FirstRows(c.ctx, p.fields[floor].lie.FirstRow, mostPlacements)
	if !ok {
		return nil
	}
	add := func(list []strips.FirstRow, as *lying) {
		for _, first := range list {
			if as.floor != fl || !first.Alike(fl.Rows) {
				out = append(out, lying{first, as.lie, as.floor})
			}
		}
	}
	if !p.free(floor) {
		add(list, &out[0])
		return out
	}
	other := c.turned(p, floor)
	if other == nil || math.Mod(fl.Turn, 90) != 0 {
		return nil
	}
	turned, fairer, ok := other.floor.FirstRows(c.ctx, other.lie.FirstRow, mostPlacements)
	if !ok {
		return nil
	}
	if fair >= fairer {
		add(list, &out[0])
	}
	if fairer >= fair {
		add(turned, other)
	}
	return out
}

// firsts are the first rows of each way.
func firsts(p *problem, ways [][]lying) [][]cutopt.FirstRow {
	out := make([][]cutopt.FirstRow, len(ways))
	for i := range ways {
		for _, w := range ways[i] {
			if w.floor != nil {
				out[i] = append(out[i], cutopt.FirstRow{Width: w.Width, Turned: w.floor != p.floors[i]})
			}
		}
	}
	return out
}

// elsewhere returns the problem with the rows of each floor in the way chosen, at the nicest first row that gives it;
// nil for no choice, and where some rule were broken worse than it is.
func (c *call) elsewhere(p *problem, ways [][]lying, choice []int) *problem {
	if choice == nil {
		return nil
	}
	moved := p
	for i, k := range choice {
		if k == 0 || len(ways[i]) == 0 {
			continue
		}
		w := &ways[i][k]
		width, fair := w.floor.Nicest(c.ctx, &w.FirstRow, w.lie.FirstRow, p.floors[i])
		if !fair {
			return nil
		}
		if moved = c.laidBy(moved, i, w, width); moved == nil {
			return nil
		}
	}
	if moved == p {
		return nil
	}
	return moved
}

// laidBy returns the problem with the rows of a floor the way said, with a first row of some width; nil where they
// cannot be.
func (c *call) laidBy(p *problem, floor int, as *lying, first measure.Length) *problem {
	laid, err := as.floor.With(c.ctx, first)
	if err != nil {
		return nil
	}
	return p.with(floor, p.fields[floor].told(laid), as.lie)
}

// with returns the problem with another floor, whose rows lie as said.
func (p *problem) with(i int, floor *strips.Floor, lie cutopt.RowRules) *problem {
	ground := *p.ground
	ground.floors, ground.fields = slices.Clone(p.floors), slices.Clone(p.fields)
	ground.floors[i], ground.fields[i].lie = floor, lie
	moved := &problem{job: p.job, terms: p.terms, ground: &ground}
	moved.instance, moved.places = instanceOf(p.job, ground.floors)
	return moved
}

// around tries the other direction of each floor that has it open, where nothing is proven of all ways together, and
// returns what needs the fewest boxes.
func (c *call) around(p *problem, floor *floorplan) (*problem, *floorplan) {
	if floor.stopped != nil || len(p.job.Pattern) > 0 {
		return p, floor
	}
	for i := range p.floors {
		if !p.free(i) {
			continue
		}
		other := c.turned(p, i)
		if other == nil {
			continue
		}
		moved := p.with(i, other.floor, other.lie)
		if better, err := c.least(moved, c.opt); err == nil && c.fewer(p.terms, better.planks(), floor.planks()) {
			better.stats.add(&floor.stats)
			p, floor = moved, better
		}
	}
	return p, floor
}
