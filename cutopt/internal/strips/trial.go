package strips

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A trial is a floor whose rows are placed and not cut yet.
type trial struct {
	floor   *Floor
	drawing *drawing
	region  *region
	placing *placing
	best    score
}

// try places the rows of a floor that is turned by so many degrees more than the layout says.
func try(clock *poll, rooms []Room, layout *Layout, lean float64) (*trial, error) {
	f := &Floor{Name: joined(rooms), LaidFrom: layout.LaidFrom, Mirrored: true, hidden: hidden(layout)}
	fail := func(format string, args ...any) (*trial, error) {
		return nil, &Error{Room: f.Name, Reason: fmt.Sprintf(format, args...)}
	}
	d, err := draw(f, rooms, layout)
	if err != nil {
		return nil, err
	}
	if err := d.place(f, layout, lean); err != nil {
		return nil, err
	}
	paths, ok := d.paths(true)
	if !ok {
		return fail("a gap is wider than the room: it eats the floor; enter a smaller gap")
	}
	reg, err := sweepPolled(clock, paths)
	if err != nil {
		return nil, err
	}
	f.Area = reg.area()
	if f.Area == 0 {
		return fail("the gaps leave no floor; enter a smaller gap or check the outline")
	}
	closed := reg
	if len(d.openings) > 0 {
		paths, _ := d.paths(false)
		if closed, err = sweepPolled(clock, paths); err != nil {
			return nil, err
		}
		if len(closed.cells) == 0 {
			closed = reg
		}
	}
	if len(rooms) > 1 {
		f.rooms = d.placed()
	}
	f.fixed = d.boxes()
	p := newPlacing(reg, closed, layout)
	f.walls = [2]int64{p.from, p.to}
	p.discs, p.rooms = d.discs, f.rooms
	if n, most := p.pieces(f.Area, layout.Length), int64(p.most); n > most {
		return nil, &Error{
			f.Name,
			fmt.Sprintf(
				"it would take at least %d rows or pieces of planks and the most is %d; check the sizes of the room "+
					"and of "+
					"the plank",
				n,
				most,
			),
			ErrTooLarge,
		}
	}
	best, err := p.choose(clock)
	if errors.Is(err, ErrTooLarge) {
		return nil, f.large(p.most)
	} else if err != nil {
		return nil, err
	}
	return &trial{f, d, reg, p, best}, nil
}

// shares are the parts of a taper that the first row may take over from the last, in eighths.
var shares = [...]float64{1, 2, 3, 4}

// shared returns the floor turned so that the first row takes part of the taper of the room, as little as will do,
// where the last alone would be narrower than it may be; else the floor itself. Nothing turns a floor by less than
// turned over its length, and rooms that share a floor keep the rows that the first of them gives.
func (t *trial) shared(clock *poll, rooms []Room, layout *Layout) (*trial, error) {
	open := len(rooms) == 1 && layout.FirstRow == 0 && layout.Direction != cutopt.DirectionAngle
	if t.best.shortfall == 0 || !open {
		return t, nil
	}
	start, far, ok := t.drawing.tapers()
	if !ok || start.y != 0 {
		return t, nil
	}
	taper := abs(float64(far.y))
	angle := math.Atan2(float64(far.y), float64(far.x)) * 180 / math.Pi
	best := t
	for _, eighths := range shares {
		if taper*eighths/8 < turned {
			continue
		}
		next, err := try(clock, rooms, layout, -angle*eighths/8)
		if err != nil {
			return nil, err
		}
		a, b := &next.best, &best.best
		first, last, ok := next.drawing.tapers()
		if ok && (first.y < 0) != (last.y < 0) && a.thin <= b.thin && a.shortfall < b.shortfall {
			best = next
		}
		if best.best.shortfall == 0 {
			break
		}
	}
	if best != t {
		start, far, _ = best.drawing.tapers()
		best.floor.tell(cutopt.Fact{
			Kind:  cutopt.FactTaper,
			First: measure.Length(max(start.y, -start.y)),
			Last:  measure.Length(max(far.y, -far.y)),
			Least: measure.Length(t.placing.minRip),
		})
	}
	return best, nil
}

// tapers returns how the wall of the starting side, and that of the side opposite, run across the rows, from left to
// right: from its one end to the other, where it is parted. ok is false where a side has no wall along the rows.
func (d *drawing) tapers() (start, far point, ok bool) {
	var ends [2][]point
	for _, w := range edgeWalls(d.placed()) {
		ends[w.side] = append(ends[w.side], w.a, w.b)
	}
	if len(ends[0]) == 0 || len(ends[1]) == 0 {
		return start, far, false
	}
	across := func(side int) point {
		byX := func(p, q point) int { return cmp.Or(cmp.Compare(p.x, q.x), cmp.Compare(p.y, q.y)) }
		return slices.MaxFunc(ends[side], byX).minus(slices.MinFunc(ends[side], byX))
	}
	return across(0), across(1), true
}
