package solve

import (
	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Other ways for the rows to lie are laid in short before a move, where the effort is not thorough so many at most,
// each with so many steps and some for each run, and until that has taken a small share of what the plan took and so
// many steps: those that save a box mostly do at once. What a pattern needs is known without a search.
const (
	mostTried   = 8
	triedShare  = 64
	triedSteps  = 30_000
	triedPerRun = 100
)

// fewerElsewhere looks for other first rows that need fewer boxes, or fewer planks where these are wanted, in floors of
// any shape, and returns the problem with these and the floor planned so; nil where it finds none. Prices that prove
// the bound of the rows in hand rule out most; of the others those that look best are laid first, floor by floor, and
// at last all floors as prices like them best.
func (c *call) fewerElsewhere(p *problem, floor *floorplan) (*problem, *floorplan) {
	target := c.worse(p.terms, floor.planks())
	if target == 0 {
		return nil, nil
	}
	ways := make([][]lying, len(p.floors))
	for i := range ways {
		ways[i] = c.fairer(p, i)
	}
	most, spent := floor.stats.Steps/triedShare+triedSteps, int64(0)
	for tried, choice := range promising(p, ways, floor.prices, target) {
		if len(p.job.Pattern) == 0 && c.opt.Effort != EffortThorough && (tried == mostTried || spent > most) {
			floor.curtailed = true
			break
		}
		if c.stop() {
			break
		}
		moved := c.lies(p, ways, choice)
		if moved == nil {
			continue
		}
		better, steps := c.within(moved, target)
		spent, floor.stats.Steps = spent+steps, floor.stats.Steps+steps
		if better != nil {
			better.stats.add(&floor.stats)
			return moved, better
		}
	}
	return nil, nil
}

// within plans a floor where that takes so many planks or fewer, as far as the pattern of its joints or a short search
// tells, and returns the steps of this; nil where it does not.
func (c *call) within(p *problem, target int) (floor *floorplan, steps int64) {
	if len(p.job.Pattern) > 0 {
		pattern, err := p.patterned()
		if err != nil || len(p.instance.Cut(pattern, nil).Planks) > target {
			return nil, 0
		}
		if floor, err = c.lay(p); err != nil {
			return nil, 0
		}
		return floor, 0
	}
	budget := fewest.Glance
	if c.opt.Effort != EffortThorough {
		budget.Steps = triedSteps + triedPerRun*int64(len(p.instance.Runs))
	}
	brief, err := fewest.Solve(p.instance, &fewest.Settings{
		Enough: func(planks, bound int) bool { return planks <= target || bound > target },
		Budget: &budget, Seed: c.opt.Seed, Workers: c.opt.Workers, Stop: c.stop,
	})
	if err != nil || brief.Planks > target {
		if err == nil {
			steps = brief.Steps
		}
		return nil, steps
	}
	floor, err = c.minimise(p.instance, c.enough(&p.terms), brief.Layout)
	if err != nil {
		return nil, brief.Steps
	}
	return floor, brief.Steps
}

// lies returns the problem with the rows of each floor in the way chosen; nil where they cannot be.
func (c *call) lies(p *problem, ways [][]lying, choice []int) *problem {
	for i, k := range choice {
		if w := &ways[i][k]; k > 0 && p != nil {
			p = c.laidBy(p, i, w, w.Width)
		}
	}
	return p
}

// fairer lists the ways for the rows of a floor to lie that break no rule worse than its own, which come first.
func (c *call) fairer(p *problem, floor int) []lying {
	fl, lie := p.floors[floor], p.fields[floor].lie
	out := []lying{{strips.FirstRow{Width: fl.First, Rows: fl.Rows}, lie, fl}}
	from := []*lying{&out[0]}
	if p.free(floor) {
		if other := c.turned(p, floor); other != nil {
			from = append(from, other)
		}
	} else if lie.FirstRow > 0 {
		return out
	}
	for _, as := range from {
		list, err := as.floor.Fairer(c.ctx, fl)
		if err != nil {
			return out
		}
		for _, first := range list {
			if as.floor != fl || !first.Alike(fl.Rows) {
				out = append(out, lying{first, as.lie, as.floor})
			}
		}
	}
	return out
}

// promising lists choices of a way for each floor that prices do not rule out to need so many planks or fewer: one
// floor moved, in the order of the ways, and then each floor as it costs least. Runs are priced by themselves, by their
// length on the grid.
func promising(p *problem, ways [][]lying, prices []proof.Step, target int) (out [][]int) {
	var floors [][]proof.Placement
	for i := range ways {
		var placements []proof.Placement
		for k := range ways[i] {
			var runs []rows.Run
			for _, row := range ways[i][k].Rows {
				for _, r := range row.Runs {
					l := (r.To - r.From + p.job.Rules.Fit).Floor(p.instance.Grid)
					runs = append(runs, rows.Run{Length: max(l, measure.Tick)})
				}
			}
			placements = append(placements, proof.Placement{Runs: runs})
		}
		floors = append(floors, placements)
	}
	costs := bound.Costs(p.untied(floors), prices)
	own, least, cheapest := int64(0), int64(0), make([]int, len(ways))
	for i := range costs {
		for k, cost := range costs[i] {
			if at := costs[i][cheapest[i]]; at < 0 || cost >= 0 && cost < at {
				cheapest[i] = k
			}
		}
		if costs[i][0] < 0 {
			return nil
		}
		own, least = own+costs[i][0], least+costs[i][cheapest[i]]
	}
	most, moved := int64(target)*bound.Den, 0
	for i := range costs {
		for k, cost := range costs[i] {
			if k > 0 && cost >= 0 && own-costs[i][0]+cost <= most {
				choice := make([]int, len(ways))
				choice[i] = k
				out = append(out, choice)
			}
		}
		if cheapest[i] > 0 {
			moved++
		}
	}
	if moved > 1 && least <= most {
		out = append(out, cheapest)
	}
	return out
}
