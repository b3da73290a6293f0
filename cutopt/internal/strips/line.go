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
}

// line tells of the line along one wall, from a on the left to b.
func (f *Floor) line(fact cutopt.Fact, a, b point, gap, step int64) {
	row := slices.IndexFunc(f.Rows, func(r Row) bool { return int64(r.To) > max(a.y, b.y)+gap })
	if row < 0 {
		return
	}
	fact.Row = row + 1
	back := int64(f.Rows[row].To)
	if max(a.y-b.y, b.y-a.y) <= int64(cutopt.Trifle) {
		fact.Kind, fact.Width = cutopt.FactLine, measure.Length(back-min(a.y, b.y))
		f.tell(fact)
		return
	}
	fact.Kind = cutopt.FactLineAt
	for x := a.x; ; x += step {
		x = min(x, b.x)
		fact.At, fact.Width = measure.Length(x-a.x), measure.Length(back-heightAt(a, b, x))
		f.tell(fact)
		if x == b.x {
			return
		}
	}
}
