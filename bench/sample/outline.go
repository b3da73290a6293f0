package sample

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// outline is a room being drawn: its corners counter-clockwise, and those of an island or nil.
type outline struct{ corners, island []cutopt.Point }

func rectangle(x, y, w, h measure.Length) []cutopt.Point {
	return []cutopt.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

// lShape cuts 20 to 60 % of each side out of the far right corner.
func (d *draws) lShape(w, h measure.Length) []cutopt.Point {
	x, y := w-d.share(w, 20, 60), h-d.share(h, 20, 60)
	return []cutopt.Point{{}, {X: w}, {X: w, Y: y}, {X: x, Y: y}, {X: x, Y: h}, {Y: h}}
}

// uShape cuts a recess out of the far side: 25 to 45 % of its width, beginning at 20 to 30 %, and 25 to 60 % deep.
func (d *draws) uShape(w, h measure.Length) []cutopt.Point {
	x := d.share(w, 20, 30)
	x2, y := x+d.share(w, 25, 45), h-d.share(h, 25, 60)
	return []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {X: x2, Y: h}, {X: x2, Y: y}, {X: x, Y: y}, {X: x, Y: h}, {Y: h}}
}

// alcove adds one to the far side or to the right: 3 to 6 ft wide, 18 in to 3 ft deep.
func (d *draws) alcove(w, h measure.Length) []cutopt.Point {
	const ft = measure.Foot
	wide, deep := d.between(3*ft, 6*ft), d.between(18*measure.Inch, 3*ft)
	if d.below(2) == 0 {
		x := d.between(6*measure.Inch, w-wide-6*measure.Inch)
		return []cutopt.Point{
			{},
			{X: w},
			{X: w, Y: h},
			{X: x + wide, Y: h},
			{X: x + wide, Y: h + deep},
			{X: x, Y: h + deep},
			{X: x, Y: h},
			{Y: h},
		}
	}
	wide = min(wide, h-12*measure.Inch)
	y := d.between(6*measure.Inch, h-wide-6*measure.Inch)
	return []cutopt.Point{
		{},
		{X: w},
		{X: w, Y: y},
		{X: w + deep, Y: y},
		{X: w + deep, Y: y + wide},
		{X: w, Y: y + wide},
		{X: w, Y: h},
		{Y: h},
	}
}

// island is 3 to 7 ft by 2 to 4 ft and stands at least 30 in from every wall.
func (d *draws) island(w, h measure.Length) []cutopt.Point {
	const ft, off = measure.Foot, 30 * measure.Inch
	iw, ih := d.between(3*ft, min(7*ft, w-2*off)), d.between(2*ft, min(4*ft, h-2*off))
	return rectangle(d.between(off, w-off-iw), d.between(off, h-off-ih), iw, ih)
}

// angled cuts one or both far corners at 45 degrees, 18 in to 4 ft along each wall and at most 45 % of a side.
func (d *draws) angled(w, h measure.Length) []cutopt.Point {
	most := min(4*measure.Foot, w/100*45, h/100*45).Floor(measure.Sixteenth)
	a := d.between(18*measure.Inch, most)
	out := []cutopt.Point{{}, {X: w}, {X: w, Y: h - a}, {X: w - a, Y: h}}
	if d.below(2) == 0 {
		return append(out, cutopt.Point{Y: h})
	}
	b := d.between(18*measure.Inch, most)
	return append(out, cutopt.Point{X: b, Y: h}, cutopt.Point{Y: h - b})
}

// crook moves each corner by up to 1/2 in along either axis.
func (d *draws) crook(corners []cutopt.Point) {
	const most = measure.Inch / 2
	for i := range corners {
		corners[i].X += d.between(-most, most)
		corners[i].Y += d.between(-most, most)
	}
}

// turn mirrors the room or not, and turns it by quarters.
func (d *draws) turn(o *outline) {
	how := d.below(8)
	for _, ring := range [][]cutopt.Point{o.corners, o.island} {
		for i, p := range ring {
			if how&1 != 0 {
				p.X = -p.X
			}
			if how&2 != 0 {
				p.Y = -p.Y
			}
			if how&4 != 0 {
				p.X, p.Y = p.Y, p.X
			}
			ring[i] = p
		}
	}
}

// area is that of a ring, either way round: half the sum of cross products, a half square tick rounded down.
func area(ring []cutopt.Point) measure.Area {
	var twice measure.Area
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		twice += measure.Area(p.X)*measure.Area(q.Y) - measure.Area(q.X)*measure.Area(p.Y)
	}
	return max(twice, -twice) / 2
}
