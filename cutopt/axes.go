package cutopt

import (
	"math"

	"plank.example/cutopt/measure"
)

// Axes place a floor's own axes in its drawing: the drawing is turned by -Turn degrees about Origin, and mirrored in y
// when Mirrored, to reach them.
type Axes struct {
	Origin   Point
	Turn     float64
	Mirrored bool
}

// ToDrawing returns where a point of the floor's own axes lies in the drawing: exactly where these are turned by whole
// quarters, else rounded to the nearest tick. It undoes FromDrawing.
func (a Axes) ToDrawing(p Point) Point {
	x, y := float64(p.X), float64(p.Y)
	if a.Mirrored {
		y = -y
	}
	sin, cos := a.direction()
	return Point{
		X: a.Origin.X + measure.Length(math.Round(float64(x*cos)-float64(y*sin))),
		Y: a.Origin.Y + measure.Length(math.Round(float64(x*sin)+float64(y*cos))),
	}
}

// FromDrawing returns where a point of the drawing lies in the floor's own axes, in ticks. It is exact for turns by
// whole quarters, else within 1e-6 ticks for points within a kilometre.
func (a Axes) FromDrawing(p Point) (x, y float64) {
	dx, dy := float64(p.X-a.Origin.X), float64(p.Y-a.Origin.Y)
	sin, cos := a.direction()
	x, y = float64(dx*cos)+float64(dy*sin), float64(dy*cos)-float64(dx*sin)
	if a.Mirrored {
		y = -y
	}
	return x, y
}

// Finite reports whether the axes place a point of a room within what lengths can hold: they are turned by no more than
// a full turn either way, about an origin within a few kilometres. Those of any other plan would place it nowhere.
func (a Axes) Finite() bool {
	const most = 4 * MaxLength // turned drawings of a kilometre stay within
	return a.Turn >= -360 && a.Turn <= 360 &&
		min(a.Origin.X, a.Origin.Y) >= -most && max(a.Origin.X, a.Origin.Y) <= most
}

// Square reports whether the axes are turned by whole quarters.
func (a Axes) Square() bool {
	turn := a.Turn / 90
	return turn == math.Trunc(turn)
}

// direction returns the sine and the cosine of the turn, exactly for whole quarters.
func (a Axes) direction() (sin, cos float64) {
	if a.Square() {
		q := (int(math.Mod(a.Turn/90, 4)) + 4) % 4
		return [4]float64{0, 1, 0, -1}[q], [4]float64{1, 0, -1, 0}[q]
	}
	return math.Sincos(a.Turn * math.Pi / 180)
}
