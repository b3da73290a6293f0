package check

import (
	"context"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Family recounts from the outlines the family that the bound of a plan for the rooms is one of, see
// [cutopt.RoomBound]. For a floor whose first row the job fixes, that is the placement of the plan. For a floor with a
// list of first rows it is one placement for every first row listed, in that order, and the list is held to be whole:
// every first row on the grid that counts, as that type says, gives the runs of a placement listed, and the first
// listed those of the plan. For other floors it is lists of runs without stagger that first rows have at least,
// whatever the shape of the floor: every first row on the grid that counts has runs, of which each of some list's is no
// longer than one of its own. Then starters of the family may be as short as its grid and enders shorter by a step of
// it, which makes up for the shorter runs. The errors unwrap to proof.ErrUnproven where there is no such family.
//
// First rows are listed of floors of one room whose walls run along the rows or square to them, without pipes and with
// no jog straightened. Where the axes are turned by other than whole quarters walls are held to 1/40 mm, as Plan holds
// them. There rows change only as a line between them passes a corner, or comes so near to one that the trim hides what
// lies between, and widths beside such places are all that is tried: it takes O(k) cuts of the floor into rows for k
// corners. Other floors are cut once for each graduation in a plank's width, and refused where that is too much work.
func Family(job *cutopt.Job, plan *cutopt.Plan) (*proof.Family, error) {
	return familyOf(context.Background(), job, plan)
}

func familyOf(ctx context.Context, job *cutopt.Job, plan *cutopt.Plan) (*proof.Family, error) {
	of := plan.Bound.Rooms
	if of == nil {
		return nil, fmt.Errorf("check: %w: the plan claims nothing of other first rows", proof.ErrUnproven)
	}
	if plan.Site != nil {
		return nil, fmt.Errorf("check: %w: rows that lie do not move", proof.ErrUnproven)
	}
	if len(of.Firsts) != len(plan.Floors) {
		return nil, fmt.Errorf("check: %w: first rows of %d floors, and the plan has %d", proof.ErrUnproven,
			len(of.Firsts), len(plan.Floors))
	}
	all, err := Instance(job, &cutopt.Plan{})
	if err != nil {
		return nil, err
	}
	f := &proof.Family{
		Plank: all.Plank, Kerf: all.Kerf, MinPiece: all.MinPiece, MinEnder: all.MinEnder, Stagger: all.Stagger,
		Grid: all.Grid,
	}
	c := &checker{ctx: ctx, job: job, plan: plan}
	least := false // some floor has lists of least runs
	floors, firsts := c.fields()
	if len(floors) != len(plan.Floors) {
		return nil, fmt.Errorf("check: %w: the plan is of other floors than the job", proof.ErrUnproven)
	}
	for i := range plan.Floors {
		room := &roomChecker{
			checker: c, index: i, room: &plan.Floors[i], rooms: floors[i], first: &job.Rooms[firsts[i]], leading: firsts[i],
		}
		own, err := placementOf(plan.Floors[i].Rows, room.room.LaidFrom, job.Rules.Fit)
		if err != nil {
			return nil, err
		}
		placements := []proof.Placement{*own}
		rows := &room.first.Rows
		switch fixed := rows.FirstRow > 0 && rows.Direction != cutopt.DirectionFree; {
		case fixed && len(of.Firsts[i]) > 0:
			err = fmt.Errorf("the job says how its rows lie")
		case fixed:
		case len(of.Firsts[i]) > 0:
			placements, err = room.placements(own, of.Firsts[i])
		default:
			least = true
			placements, err = room.leastPlacements()
		}
		if err != nil {
			return nil, fmt.Errorf("check: floor %d: %w: %w", i+1, proof.ErrUnproven, err)
		}
		f.Floors = append(f.Floors, placements)
	}
	if least {
		f.MinPiece, f.MinEnder = 1, max(1, max(f.MinPiece, f.MinEnder)-f.Grid)
	}
	return f, nil
}

// placementOf takes a placement from rows.
func placementOf(list []cutopt.PlanRow, from cutopt.Hand, fit measure.Length) (*proof.Placement, error) {
	in := &rows.Instance{}
	if err := addRuns(&cutopt.PlanFloor{Rows: list, LaidFrom: from}, in, fit); err != nil {
		return nil, err
	}
	return &proof.Placement{Runs: in.Runs, Touch: in.Touch}, nil
}

func same(a, b *proof.Placement) bool {
	equal := func(p, q rows.Run) bool { return p.From == q.From && p.Length == q.Length }
	return slices.EqualFunc(a.Runs, b.Runs, equal) && slices.Equal(a.Touch, b.Touch)
}

// placements returns those of the first rows listed, once it is sure that no other first row gives another.
func (c *roomChecker) placements(own *proof.Placement, firsts []cutopt.FirstRow) ([]proof.Placement, error) {
	grounds, err := c.grounds()
	if err != nil {
		return nil, err
	}
	if g := grounds[false]; len(firsts) > 0 && !c.room.Axes.Square() {
		g.measured(c.room.Rows, firsts[0].Width)
	}
	at := func(f cutopt.FirstRow) (*proof.Placement, error) {
		g := grounds[f.Turned]
		if g == nil {
			return nil, fmt.Errorf("its rows do not turn")
		}
		if w := f.Width; w <= 0 || w > g.wide || w < g.wide && w%g.grid != 0 && w != c.first.Rows.FirstRow {
			return nil, fmt.Errorf("a first row of %d is not on the grid", w)
		}
		return placementOf(g.rows(f.Width), c.room.LaidFrom, c.job.Rules.Fit)
	}
	var out []proof.Placement
	for i, f := range firsts {
		p, err := at(f)
		if err != nil {
			return nil, err
		}
		if i == 0 && (f.Turned || !same(p, own)) {
			return nil, fmt.Errorf("the first row listed first gives other rows than the plan has")
		}
		out = append(out, *p)
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no first row is listed")
	}
	for _, f := range c.fair(grounds) {
		p, err := at(f)
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(out, func(q proof.Placement) bool { return same(p, &q) }) {
			return nil, fmt.Errorf("a first row of %d gives rows that are not listed", f.Width)
		}
	}
	return out, nil
}

// grounds measures the floor as its rows run in the plan, and where the job leaves that open, also the other way.
func (c *roomChecker) grounds() (map[bool]*levelGround, error) {
	own, err := c.ground()
	if err != nil || c.first.Rows.Direction != cutopt.DirectionFree {
		return map[bool]*levelGround{false: own}, err
	}
	low, high := extent(own.blocks)
	if c.breaksTurned(own.along(), [2]float64{float64(low), float64(high)}) {
		return nil, fmt.Errorf("rows that run otherwise may ask for other breaks")
	}
	if !c.room.Axes.Square() {
		return nil, fmt.Errorf("rows of a room that lies askew in the drawing are recounted one way only")
	}
	other, err := c.otherWay().ground()
	return map[bool]*levelGround{false: own, true: other}, err
}

// breaksTurned reports whether the floor may ask for breaks where rows run square to those of the plan: where it is
// parted as it is, or reaches too far then.
func (c *roomChecker) breaksTurned(along, across [2]float64) bool {
	rules := &c.job.Rules
	far := func(reach [2]float64, most measure.Length) bool {
		return most > 0 && reach[1]-reach[0] > float64(most)-recount.Slack
	}
	return len(c.plan.Breaks) > 0 || far(across, rules.MaxAlong) || far(along, rules.MaxAcross)
}

// otherWay returns the floor with rows square to those of the plan, as the job has them along or across.
func (c *roomChecker) otherWay() *roomChecker {
	w, far := c.baseWall(c.first), 0.0
	if c.first.Rows.Start == cutopt.StartFar {
		far = 180
	}
	quarter := -90.0 // across the wall the rows run turned to the left from along it
	if math.Abs(math.Remainder(c.room.Axes.Turn-w.along()-far, 360)) < 1 {
		quarter = 90
	}
	turned, room := *c, *c.room
	room.Axes.Turn = math.Mod(room.Axes.Turn+quarter+360, 360)
	turned.room, turned.straightened = &room, 0
	return &turned
}

// fair lists the first rows that count: without a strip that is too narrow to be held, and with edge rows as wide as
// asked; where there are none, those without a strip; where there are none, all.
func (c *roomChecker) fair(grounds map[bool]*levelGround) []cutopt.FirstRow {
	var all, whole []cutopt.FirstRow
	for _, keep := range []bool{true, false} { // the width of edge rows
		for _, turned := range []bool{false, true} {
			g := grounds[turned]
			if g == nil {
				continue
			}
			widths := []measure.Length{c.first.Rows.FirstRow}
			if widths[0] == 0 {
				widths = g.turning()
			}
			for _, w := range widths {
				if g.keeps(w) != keep {
					continue
				}
				f := cutopt.FirstRow{Width: w, Turned: turned}
				if all = append(all, f); !g.thin(w) {
					whole = append(whole, f)
				}
			}
		}
		if len(whole) > 0 {
			return whole
		}
	}
	return all
}
