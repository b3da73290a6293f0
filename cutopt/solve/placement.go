package solve

import (
	"context"
	"errors"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// anyhow tries the rows as they lie, and where a floor cannot be laid and the job leaves the width of its first row
// open, with the nearest first row that can. It returns the problem that was tried last, and its error.
func (c *call) anyhow(p *problem, try func(*problem) error) (*problem, error) {
	err := try(p)
	for range p.floors { // each is moved once at most
		var no *InfeasibleError
		if !errors.As(err, &no) {
			break
		}
		moved := c.moved(p, no)
		if moved == nil {
			break
		}
		p = moved
		err = try(p)
	}
	return p, err
}

// moved returns the problem with the first row of a floor that cannot be laid as near to the one chosen as it can be,
// or nil where no first row does or the job fixes it.
func (c *call) moved(p *problem, no *InfeasibleError) *problem {
	if no.floor < 0 {
		return nil
	}
	field := &p.fields[no.floor]
	if field.lie.FirstRow > 0 {
		return nil
	}
	if floor, _ := c.firstRow(p.job, field, field.lie, p.floors[no.floor]); floor != nil {
		return p.with(no.floor, floor, field.lie)
	}
	if !p.free(no.floor) {
		return nil
	}
	other := c.turned(p, no.floor)
	if other == nil {
		return nil
	}
	floor, _ := c.laid(p.job, field, other.lie)
	if floor == nil {
		return nil
	}
	return p.with(no.floor, floor, other.lie)
}

// advise returns the refusal of a floor, which names the first row or the direction that would do, where one does.
func (c *call) advise(p *problem, no *InfeasibleError) error {
	if no.floor < 0 || p.fields[no.floor].Parts > 1 { // rows that run otherwise may ask for other breaks
		return no
	}
	field := &p.fields[no.floor]
	asked := field.lie
	for _, lie := range instead(asked) {
		floor, first := c.laid(p.job, field, lie)
		if floor == nil {
			continue
		}
		lie.FirstRow = first
		no.Instead, no.Mend = &lie, append(no.Mend, mend(asked, lie))
		break
	}
	if err := c.stopped(PhaseFloor); err != nil {
		return err
	}
	return no
}

// instead lists other ways for rows to lie than those asked for: with any first row, and along and across.
func instead(asked cutopt.RowRules) []cutopt.RowRules {
	var out []cutopt.RowRules
	if asked.FirstRow > 0 {
		open := asked
		open.FirstRow = 0
		out = append(out, open)
	}
	for _, d := range []cutopt.Direction{cutopt.DirectionAlong, cutopt.DirectionAcross} {
		if d != asked.Direction {
			other := asked
			other.Direction, other.Angle, other.FirstRow = d, 0, 0
			out = append(out, other)
		}
	}
	return out
}

// laid returns a floor whose rows lie as said and can be laid, with the planner's first row or another, whose width it
// then returns too; nil where there is none.
func (c *call) laid(job *cutopt.Job, field *field, lie cutopt.RowRules) (*strips.Floor, measure.Length) {
	floor, err := floorOf(c.ctx, job, field, &lie, cutopt.MaxPieces)
	if err != nil {
		return nil, 0
	}
	if layableFloor(c.ctx, job, floor) == nil {
		return floor, 0
	}
	return c.firstRow(job, field, lie, floor)
}

// firstRow tries every width of the first row on the grid that keeps the least width of edge rows, those nearest to
// the one of a floor first, and returns the first floor that can be laid, and the width; nil where there is none. Where
// edge walls slant, and where no first row keeps that width, it then tries the others.
func (c *call) firstRow(
	job *cutopt.Job,
	field *field,
	lie cutopt.RowRules,
	chosen *strips.Floor,
) (*strips.Floor, measure.Length) {
	const most = 4096 // widths tried
	wide, grid := job.Plank.Width, job.Rules.Grid
	step := grid * max(1, wide/grid/most)
	was := chosen.Rows[0].To - chosen.Rows[0].From
	var widths []measure.Length
	for w := step; w < wide; w += step {
		widths = append(widths, w)
	}
	widths = append(widths, wide)
	away := func(w measure.Length) measure.Length { return max(w-was, was-w) }
	slices.SortStableFunc(widths, func(a, b measure.Length) int { return int(away(a) - away(b)) })
	for _, any := range []bool{false, true} {
		if any && !chosen.Tapers() && !narrow(job, chosen) {
			break
		}
		for _, w := range widths {
			if w == was {
				continue
			}
			lie.FirstRow = w
			floor, err := floorOf(c.ctx, job, field, &lie, cutopt.MaxPieces)
			if c.ctx.Err() != nil {
				return nil, 0
			}
			if err == nil && narrow(job, floor) == any && layableFloor(c.ctx, job, floor) == nil {
				return floor, w
			}
		}
	}
	return nil, 0
}

// narrow reports whether an edge row is somewhere narrower than the job asks.
func narrow(job *cutopt.Job, f *strips.Floor) bool {
	least := job.LeastRip()
	for i := range f.Rows {
		for k, run := range f.Rows[i].Runs {
			if first, last := f.EdgeWidths(i, k, run.From, run.To); min(first, last) < least {
				return true
			}
		}
	}
	return false
}

// mend says how else rows could lie.
func mend(asked, lie cutopt.RowRules) cutopt.Finding {
	switch turned := asked.Direction != lie.Direction; {
	case turned && lie.FirstRow > 0:
		return cutopt.Find("lies-turned-with", "direction", lie.Direction, "width", lie.FirstRow)
	case turned && asked.FirstRow > 0:
		return cutopt.Find("lies-turned-free", "direction", lie.Direction)
	case turned:
		return cutopt.Find("lies-turned", "direction", lie.Direction)
	case lie.FirstRow > 0:
		return cutopt.Find("lies-with", "width", lie.FirstRow)
	}
	return cutopt.Find("lies-free")
}

// layableFloor returns nil when some layout of one floor keeps the job's rules, stopping at the first.
func layableFloor(ctx context.Context, job *cutopt.Job, floor *strips.Floor) error {
	in, places := instanceOf(job, []*strips.Floor{floor})
	return layableRows(ctx, &problem{job: job, instance: in, places: places})
}

// layableRows returns nil when some layout of the rows as they lie keeps the job's rules, stopping at the first, and
// otherwise what is in the way.
func layableRows(ctx context.Context, p *problem) error {
	if len(p.job.Pattern) > 0 {
		if _, err := p.patterned(); err != nil {
			return err
		}
	}
	_, err := fewest.Solve(p.instance, &fewest.Settings{
		Enough: func(int, int) bool { return true }, Budget: &fewest.Quick,
		Stop: func() bool { return ctx.Err() != nil },
	})
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return err
}

// layable returns nil when some layout keeps the job's rules, with any first row that the job leaves open, and
// otherwise what is in the way.
func layable(ctx context.Context, job *cutopt.Job) error {
	ground, err := layOut(ctx, job)
	if err != nil {
		return err
	}
	p := &problem{job: job, ground: ground}
	p.instance, p.places = instanceOf(job, ground.floors)
	c := &call{ctx, &Options{}}
	_, err = c.anyhow(p, func(p *problem) error {
		err := layableRows(ctx, p)
		var no *InfeasibleError
		if err == nil || ctx.Err() != nil || errors.As(err, &no) {
			return err
		}
		return fitToo(job, explain(job, asMeasured(job, p.instance), p.places, err))
	})
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return err
}
