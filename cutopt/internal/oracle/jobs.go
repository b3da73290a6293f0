package oracle

import (
	"math"
	"math/rand/v2"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

const mm = measure.Millimetre

// PlainRoom draws a rectangle or an L of dwelling size with a common plank and [Rules].
func PlainRoom(r *rand.Rand) *cutopt.Job {
	inch := func(low, high int) measure.Length {
		return measure.Length(low*16+r.IntN((high-low)*16)) * measure.Sixteenth
	}
	w, h := inch(84, 260), inch(72, 200)
	outline := []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	if r.IntN(2) == 0 {
		x, y := w/2+inch(0, 30), h/2+inch(0, 24)
		outline = []cutopt.Point{{}, {X: w}, {X: w, Y: y}, {X: x, Y: y}, {X: x, Y: h}, {Y: h}}
	}
	sizes := [][2]measure.Length{{48, 7}, {36, 6}, {60, 9}, {54, 8}}
	size := sizes[r.IntN(len(sizes))]
	rules := Rules(measure.UnitInch)
	rules.Loss = 0
	return &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: size[0] * measure.Inch, Width: size[1] * measure.Inch},
		Box: cutopt.Box{Planks: 10}, Rules: rules,
		Rooms: []cutopt.Room{{Name: "Mill room", Outline: outline}},
	}
}

// SmallRoom draws a rectangle of a few rows.
func SmallRoom(r *rand.Rand) *cutopt.Job {
	job := PlainRoom(r)
	w, h := measure.Length(90+r.IntN(80))*measure.Inch, measure.Length(36+r.IntN(24))*measure.Inch
	job.Rooms[0].Outline = []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	return job
}

// AnyRooms is a job of one to three rooms of many shapes: rectangles, L-rooms, stars and rooms turned by any angle,
// with islands, doorways and walls of other gaps.
func AnyRooms(r *rand.Rand) *cutopt.Job {
	unit, u := measure.UnitMillimetre, mm
	if r.IntN(2) == 0 {
		unit, u = measure.UnitInch, measure.Inch/25
	}
	length := func(low, high int64) measure.Length { return u * measure.Length(low+r.Int64N(high-low+1)) }
	rules := Rules(unit)
	rules.MinPiece, rules.Stagger = length(100, 200), length(0, 200)
	rules.Loss, rules.RiskLimit = []float64{0, 2, 7.5}[r.IntN(3)], []float64{0.5, 2, 12.5}[r.IntN(3)]
	rules.Cover, rules.Smooth = length(0, 6), length(0, 3)
	job := &cutopt.Job{
		Name: "Mill house", Unit: unit, Rules: rules,
		Spare: []cutopt.Spare{{}, {Percent: 7.5}, {BoxPer: 3}}[r.IntN(3)],
		Plank: cutopt.Plank{Length: length(900, 1300), Width: length(120, 220)},
		Box:   cutopt.Box{Planks: 4 + r.IntN(8), Price: cutopt.Money(r.IntN(10_000))},
	}
	from := cutopt.FromLeft + cutopt.From(r.IntN(2)) // rooms of one job are laid from one side
	for i := range 1 + r.IntN(3) {
		room := cutopt.Room{Name: []string{"Mill room", "Flour store", "Miller's den"}[i]}
		room.Outline = randomOutline(r, length)
		room.Rows = cutopt.RowRules{
			Direction: cutopt.Direction(
				r.IntN(3),
			), Angle: math.Round(r.Float64() * 180), Start: cutopt.Start(r.IntN(2)), LaidFrom: from,
		}
		if r.IntN(3) == 0 {
			room.WallGaps = map[int]measure.Length{r.IntN(len(room.Outline)): length(0, 25)}
		}
		if wall := r.IntN(len(room.Outline)); r.IntN(2) == 0 {
			a, b := room.Outline[wall], room.Outline[(wall+1)%len(room.Outline)]
			long := measure.Length(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)))
			room.Doorways = []cutopt.Doorway{{
				Wall: wall, At: long / 4, Width: long / 3, Depth: length(0, 120), Casing: cutopt.Casing(r.IntN(2)),
			}}
		}
		job.Rooms = append(job.Rooms, room)
	}
	return job
}

func randomOutline(r *rand.Rand, length func(low, high int64) measure.Length) []cutopt.Point {
	w, h := length(1500, 4200), length(1200, 3600)
	outline := []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	switch r.IntN(4) {
	case 1:
		x, y := w/2+length(0, 400), h/2+length(0, 300)
		outline = []cutopt.Point{{}, {X: w}, {X: w, Y: y}, {X: x, Y: y}, {X: x, Y: h}, {Y: h}}
	case 2:
		cut := length(200, 900)
		outline = []cutopt.Point{{}, {X: w}, {X: w, Y: h - cut}, {X: w - cut, Y: h}, {Y: h}}
	case 3:
		outline[2].X -= length(0, 60)
		outline[3].Y += length(0, 60)
	}
	if r.IntN(3) == 0 {
		sin, cos := math.Sincos(2 * math.Pi * r.Float64())
		for i, p := range outline {
			x, y := float64(p.X), float64(p.Y)
			outline[i] = cutopt.Point{
				X: measure.Length(math.Round(x*cos - y*sin)),
				Y: measure.Length(math.Round(x*sin + y*cos)),
			}
		}
	}
	return outline
}

// AddPost puts a post into the first room where it is a plain rectangle.
func AddPost(job *cutopt.Job, r *rand.Rand) {
	o := job.Rooms[0].Outline
	if len(o) != 4 || o[1].Y != 0 || o[2].X != o[1].X || o[3].Y != o[2].Y {
		return
	}
	x, y := o[2].X/3, o[2].Y/3
	job.Rooms[0].Islands = []cutopt.Island{
		{
			Name: "Post",
			Gap:  cutopt.GapNone * measure.Length(r.IntN(2)),
			Outline: []cutopt.Point{
				{X: x, Y: y},
				{X: x + 400*mm, Y: y},
				{X: x + 400*mm, Y: y + 300*mm},
				{X: x, Y: y + 300*mm},
			},
		},
	}
}
