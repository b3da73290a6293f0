package solve

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
)

const (
	// mostPlacements is the most ways for the rows of one floor to lie that are looked at.
	mostPlacements = 200
	// mostRuns is the most runs of all these together: some 20 MB while prices are evaluated.
	mostRuns = 20_000
	// mostMoves is how often the rows of a plan may move for fewer boxes.
	mostMoves = 4
)

// A lying is the ways that the rows of a floor may lie, those of the floor first; none where the job fixes them.
type lying []strips.FirstRow

// anywhere tries to prove that no first row that the job leaves open needs fewer boxes than the bound of the floor, or
// fewer planks where these are wanted, and where one does moves the rows there. It returns the problem and the floor,
// moved or not, and the proof; nil where there is none, or where the job leaves nothing open.
func (c *call) anywhere(p *problem, floor *floorplan) (*problem, *floorplan, *cutopt.RoomBound) {
	for range mostMoves {
		if floor.stopped != nil || c.opt.brief && len(p.instance.Runs) > briefRuns || len(p.job.Pattern) > 0 ||
			floor.certified.planks == 0 {
			break
		}
		ways, family := c.family(p)
		if family == nil {
			break
		}
		known := &fewest.Known{
			Choice: make([]int, len(ways)), Certificate: floor.certified.certificate, Prices: floor.prices,
		}
		verdict := fewest.Family(family, known, c.worse(p.terms, floor.certified.planks), &fewest.Settings{
			Budget: searchBudgets[c.opt.Effort], Seed: c.opt.Seed, Workers: c.opt.Workers, Stop: c.stop,
		})
		floor.stats.Steps += verdict.Steps
		if verdict.Certificate != nil {
			return p, floor, &cutopt.RoomBound{
				Planks: verdict.Certificate.Planks, Firsts: firsts(ways), Certificate: verdict.Certificate,
			}
		}
		moved := c.elsewhere(p, ways, verdict.Better)
		if moved == nil {
			break
		}
		better, err := c.least(moved, c.opt)
		if err != nil || !c.fewer(p.terms, better.planks(), floor.planks()) {
			break
		}
		better.stats.add(&floor.stats)
		p, floor = moved, better
	}
	return p, floor, nil
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

// family lists the ways for the rows of each floor to lie, and makes bare problems of them; nil where no floor has its
// first row open, or where one has that cannot be listed.
func (c *call) family(p *problem) ([]lying, *proof.Family) {
	f := &proof.Family{
		Plank: p.instance.Plank, Kerf: p.instance.Kerf, MinPiece: p.instance.MinPiece, MinEnder: p.instance.MinEnder,
		Stagger: p.instance.Stagger, Grid: p.instance.Grid,
	}
	ways := make([]lying, len(p.floors))
	runs, open := 0, false
	for i, fl := range p.floors {
		list := []strips.FirstRow{{Rows: fl.Rows}}
		if p.fields[i].lie.FirstRow == 0 {
			var ok bool
			if list, ok = fl.FirstRows(c.ctx, mostPlacements); !ok {
				return nil, nil
			}
			ways[i], open = list, true
		}
		var placements []proof.Placement
		for k := range list {
			in, _ := instanceOf(p.job, []*strips.Floor{{LaidFrom: fl.LaidFrom, Rows: list[k].Rows}})
			if runs += len(in.Runs); runs > mostRuns {
				return nil, nil
			}
			placements = append(placements, proof.Placement{Runs: in.Runs, Touch: in.Touch})
		}
		f.Floors = append(f.Floors, placements)
	}
	if !open {
		return nil, nil
	}
	return ways, f
}

// firsts are the widths of the first row of each way.
func firsts(ways []lying) [][]measure.Length {
	out := make([][]measure.Length, len(ways))
	for i := range ways {
		for _, w := range ways[i] {
			out[i] = append(out[i], w.Width)
		}
	}
	return out
}

// elsewhere returns the problem with the rows of each floor in the way chosen, at the nicest first row that gives it;
// nil for no choice, and where some rule were broken worse than it is.
func (c *call) elsewhere(p *problem, ways []lying, choice []int) *problem {
	if choice == nil {
		return nil
	}
	ground := *p.ground
	ground.floors = slices.Clone(p.floors)
	for i, k := range choice {
		if k == 0 {
			continue
		}
		width, fair := p.floors[i].Nicest(c.ctx, ways[i][k])
		if !fair {
			return nil
		}
		lie := p.fields[i].lie
		lie.FirstRow = width
		floor, err := floorOf(c.ctx, p.job, &p.fields[i], &lie, cutopt.MaxPieces)
		if err != nil {
			return nil
		}
		ground.floors[i] = floor
	}
	moved := &problem{job: p.job, terms: p.terms, ground: &ground}
	moved.instance, moved.places = instanceOf(p.job, ground.floors)
	return moved
}
