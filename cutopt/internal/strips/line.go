package strips

import (
	"cmp"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// base tells which wall the rows are laid out from; rows at an angle of their own are not.
func (f *Floor) base(d *drawing, wall, alike int, l *Layout) {
	r, room := d.outlines[0], d.rooms[0].Number
	switch {
	case l.StartWall > 0:
		f.tell(cutopt.Fact{Kind: cutopt.FactBaseAsked, Room: room, Wall: l.StartWall})
	case l.Direction != cutopt.DirectionAngle:
		size := r[(wall+1)%len(r)].at.minus(r[wall].at).size()
		f.tell(cutopt.Fact{
			Kind: cutopt.FactBase, Room: room, Wall: slices.Min(r[wall].index) + 1, Count: alike,
			Length: measure.Length(round(size)),
		})
	}
}

// lines tells where the back edge of the row along the starting wall lies from that: once for a wall along the rows,
// else at its two ends and every few feet between.
func (f *Floor) lines(d *drawing, l *Layout) {
	step := cmp.Or(l.Offsets, cutopt.LineStep)
	outlines := d.placed()
	low := outlines[0][0].y
	for _, ring := range outlines {
		for _, p := range ring {
			low = min(low, p.y)
		}
	}
	for i, ring := range outlines {
		for k, a := range ring {
			b := ring[(k+1)%len(ring)]
			if a.x > b.x {
				a, b = b, a
			}
			v := b.minus(a)
			if abs(float64(v.y)) > parallel*float64(v.x) || float64(v.x) <= short || min(a.y, b.y) > low+alike {
				continue
			}
			wall := k + 1
			if walls := d.rooms[i].Walls; walls != nil {
				wall = walls[k]
			}
			if wall < 1 { // a break
				continue
			}
			f.line(cutopt.Fact{Room: d.rooms[i].Number, Wall: wall}, a, b, int64(d.rooms[i].Gaps[k]), int64(step))
		}
	}
	if !slices.ContainsFunc(f.Facts, func(f cutopt.Fact) bool { return f.Kind.OfLine() }) {
		f.fixedLines(d, int64(step))
	}
}

// fixedLines tells where the first row's back edge lies from the islands along the starting side: that of a kitchen
// whose cabinets reach from wall to wall.
func (f *Floor) fixedLines(d *drawing, step int64) {
	for i := range d.rooms {
		for k := range d.rooms[i].Islands {
			island := &d.rooms[i].Islands[k]
			for _, side := range d.fronts(island) {
				a, b := side[0], side[1]
				if from, gap := int64(f.Rows[0].From), int64(island.Gap); from >= min(a.y, b.y) &&
					int64(f.Rows[0].To) > max(a.y, b.y)+gap && len(f.before(0, a, b, step)) > 0 {
					fact := cutopt.Fact{Room: d.rooms[i].Number, Island: cmp.Or(island.Number, k+1)}
					f.line(fact, a, b, gap, step)
					break
				}
			}
		}
	}
}

// fronts returns the sides of an island along the rows that face away from the starting side, each from its left end.
func (d *drawing) fronts(island *Island) (sides [][2]point) {
	var ring []point
	for _, p := range island.Outline {
		ring = append(ring, d.frame.point(pointOf(p)))
	}
	way := int64(1) // along x, in which such sides are drawn
	if twiceArea(ring) > 0 {
		way = -1
	}
	for k, a := range ring {
		b := ring[(k+1)%len(ring)]
		if v := b.minus(a); v.x*way > short && abs(float64(v.y)) <= parallel*float64(v.x*way) {
			if way < 0 {
				a, b = b, a
			}
			sides = append(sides, [2]point{a, b})
		}
	}
	return sides
}

// line tells of the line along one wall or island, from a on the left to b, where floor lies before it: nobody measures
// from a wall behind cabinets.
func (f *Floor) line(fact cutopt.Fact, a, b point, gap, step int64) {
	row := slices.IndexFunc(f.Rows, func(r Row) bool { return int64(r.To) > max(a.y, b.y)+gap })
	if row < 0 {
		return
	}
	fact.Row = row + 1
	places := f.before(row, a, b, step)
	back := int64(f.Rows[row].To)
	if len(places) > 0 && max(a.y-b.y, b.y-a.y) <= int64(cutopt.Trifle) {
		if fact.Kind = cutopt.FactLine; fact.Island > 0 {
			fact.Kind = cutopt.FactLineFixed
		}
		fact.Width = measure.Length(back - min(a.y, b.y))
		f.tell(fact)
		return
	}
	if fact.Kind = cutopt.FactLineAt; fact.Island > 0 {
		fact.Kind = cutopt.FactLineFixedAt
	}
	for _, x := range places {
		fact.At, fact.Width = measure.Length(x-a.x), measure.Length(back-heightAt(a, b, x))
		f.tell(fact)
	}
}

// before returns where a wall from a to b has floor of a row before it: the two ends of each run, and between them
// places every step from a. A run that ends near a corner is measured from there.
func (f *Floor) before(row int, a, b point, step int64) (places []int64) {
	const near = int64(2 * measure.Inch)
	if float64(f.Rows[row].From) > float64(max(a.y, b.y))+f.reach {
		return nil
	}
	for _, r := range f.Rows[row].Runs {
		from, to := max(int64(r.From), a.x), min(int64(r.To), b.x)
		if from >= to {
			continue
		}
		if from <= a.x+near {
			from = a.x
		}
		if to >= b.x-near {
			to = b.x
		}
		places = append(places, from)
		for x := a.x + ((from-a.x)/step+1)*step; x < to; x += step {
			places = append(places, x)
		}
		places = append(places, to)
	}
	slices.Sort(places)
	return slices.Compact(places)
}
