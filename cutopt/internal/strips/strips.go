// Package strips turns outlines into rows and runs: the floor is the outline less the islands, inset by the gap of each
// wall, joined by the openings of doorways, turned into the room's own axes and sliced into rows; each stretch of a row
// is a run with its exact shape.
//
// # How it works
//
// Every wall and every edge of an island takes away the strip of its gap, and every corner that points into the floor
// the mitre between two strips. Walked in order they make one closed path for each ring, which winds around a point
// once for the room, less once for each strip that covers it (compare X. Chen and S. McMains, "Polygon offsetting by
// computing winding numbers", 2005). A sweep over y keeps what is wound around at least once, so that islands that
// touch, necks that close and walls that vanish need no cases of their own.
//
// # Exactness
//
// Places are whole ticks, and every decision of the sweep is taken on whole numbers. Walls along the axes are placed
// exactly. Corners of other walls are rounded to the nearest tick, and so is each place where another wall crosses the
// line of a row or the end of a piece: no boundary moves by more than two ticks, 1/160 mm.
//
// # Cost
//
// With n corners and k walls met by one line along the rows, the sweep takes O(n log n + n k) steps and slicing
// O((n + rows) k log k). Places of the first row are tried by slicing: all on the grid in a dwelling, at least three,
// the most promising ones, in the largest floors. What would take more than [MaxPieces] rows or pieces of planks is
// refused before it is stored, and a context that ends stops all of it within a few thousand steps.
package strips

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A Room is an outline with islands and doorways, in the axes of the drawing: x to the right, y up.
type Room struct {
	Name     string
	Number   int              // in the job, from 1
	Outline  []measure.Point  // simple, either way round
	Walls    []int            // numbers of the walls in the job, from 1; below 1 for what is none; nil for all in order
	Gaps     []measure.Length // gap of each wall, 0 or more; wall i runs from corner i to corner i+1
	Islands  []Island
	Pipes    []Pipe
	Doorways []Doorway
}

// An Island is a fixed thing that the floor is laid around.
type Island struct {
	Outline []measure.Point
	Gap     measure.Length // 0 or more
	Number  int            // in the job, from 1; 0 for that here
}

// A Pipe is a round thing that the floor is laid around.
type Pipe struct {
	At       measure.Point  // its middle
	Diameter measure.Length // above 0
	Gap      measure.Length // 0 or more
}

// A Doorway is an opening in a wall.
type Doorway struct {
	Wall             int
	At, Width, Depth measure.Length
	Jamb             measure.Length // gap kept from its sides
	Under            measure.Length // how far the floor runs beneath the casing, on both sides
	Stop             measure.Length // gap kept from its far line, unless it runs through
	Number, JobWall  int            // of the doorway and its wall in the job, from 1; 0 for those here
	Into             int            // index of the room that it runs through to without a transition; -1 for none
}

// A Layout says how rows lie and what they must keep.
type Layout struct {
	Direction cutopt.Direction
	Angle     float64        // degrees from the drawing's x axis, counter-clockwise
	Start     cutopt.Start   // the longest wall of the first room, or the side opposite
	StartWall int            // number of the wall of the first room, from 1, that takes the longest's place; 0 for none
	LaidFrom  cutopt.Hand    // end of each row that is laid first
	FirstRow  measure.Length // width of the first row; 0 lets the planner choose
	Width     measure.Length // of a plank, above 0
	MinRip    measure.Length // narrowest edge row; 0 for half a plank
	Grid      measure.Length // graduation of the first row's width; 0 for a tick
	Smooth    measure.Length // jogs shorter than this are straightened
	Cover     measure.Length // slivers narrower than this need no plank
	Length    measure.Length // of a plank, to foresee how many a floor takes; 0 when unknown
	MinStrip  measure.Length // narrowest strip of a piece that can be held
	MinPiece  measure.Length // shortest starter or ender
	Edges     cutopt.EdgeRows
	// Turn is which way rows run, as Floor.Turn, in place of Direction, Angle, Start and StartWall; nil for those.
	Turn      *float64
	Offsets   measure.Length // most between two places where the first row's line is told; 0 for [cutopt.LineStep]
	MaxPieces int            // most pieces of planks; 0 for [MaxPieces]
}

// MaxPieces is the most pieces of planks that [Lay] cuts a floor into.
const MaxPieces = 2_000_000

// ErrTooLarge is what an [Error] unwraps to where a floor takes more rows or pieces than the limits allow.
var ErrTooLarge = errors.New("too large")

// An Error says why a floor cannot be cut into rows.
type Error struct {
	Room   string
	Reason string
	Err    error // ErrTooLarge or nil
}

// Unwrap returns the kind of the error.
func (e *Error) Unwrap() error { return e.Err }

// Error names the room and the reason.
func (e *Error) Error() string {
	if e.Room == "" {
		return e.Reason
	}
	return fmt.Sprintf("room %q: %s", e.Room, e.Reason)
}

// A Floor is a region cut into rows, in its own axes: x along the rows to the right, y across them from the starting
// side, seen facing the starting wall.
//
// A point p of the drawing lies in the own axes at
//
//	x =  (p.X-Origin.X) cos Turn + (p.Y-Origin.Y) sin Turn
//	y = -(p.Y-Origin.Y) cos Turn + (p.X-Origin.X) sin Turn
//
// that is, turned by -Turn about Origin and then mirrored in y; Mirrored is always true, since a drawing has y up and
// whoever faces the starting wall sees y come towards them. Turn is the direction of the own x axis in the drawing.
// Origin is the corner of the box around the outlines and openings, so that no place of the floor is below 0. For turns
// by whole quarters all this is exact; else Origin and the corners are rounded to the nearest tick, and walls that
// rounding leaves up to 4 ticks off the axes are put back on them.
//
// A Floor is not changed by its methods and may be used by several goroutines at once.
type Floor struct {
	Name     string
	Origin   measure.Point // the drawing's point that is (0, 0) in the floor's own axes
	Turn     float64       // degrees, in [0, 360)
	Upright  float64       // Turn without what shares a taper
	Mirrored bool
	LaidFrom cutopt.Hand  // end of each row that is laid first
	Net      measure.Area // outlines less islands
	Area     measure.Area // what is to be covered, after the gaps; slivers included
	Rows     []Row
	First    measure.Length // width of the first row, as chosen or asked for
	Facts    []cutopt.Fact  // what was smoothed or dropped, which edge rows are narrow

	stretches [][]stretch // by row and run
	hidden    int64       // what the trim hides beside the gap
	walls     [2]int64    // from where to where it reaches across the rows, doorways left out
	discs     []disc
	fixed     [][2]point // the boxes around islands and their gaps
	rooms     [][]point  // outlines of the rooms, where there are several
	edgeWalls []edgeWall
	width     measure.Length // of a plank
	reach     float64        // how far from the walls edge rows may lie

	placed  *trial // before it was cut
	layout  *Layout
	placing *placing // how the rows were placed, and what that came to
	chosen  score
	level   bool // all walls run along the rows or square to them
}

// A Row is a strip of the floor. Each begins where the one before it ends.
type Row struct {
	From, To measure.Length // y; To-From is the laid width
	Runs     []Run          // from left to right; none where the row meets no floor
}

// A Run is a maximal stretch of a row: what hangs together within the strip. From and To are the outermost x it
// reaches. Stretches whose extents along the row overlap, as beside a slanted wall, are one run.
type Run struct {
	From, To measure.Length
}

// Lay cuts the floor of one room, or of several that doorways join without a transition, into rows. The longest wall of
// the first room gives the direction. The rooms must have passed the checks of a job: simple outlines within a
// kilometre of the drawing's origin, islands inside. The error is an *[Error].
func Lay(rooms []Room, layout *Layout) (*Floor, error) {
	return LayContext(context.Background(), rooms, layout)
}

// LayContext does what [Lay] does and gives up with the context's error when that ends; it is polled every few thousand
// steps. What a floor would take beyond the limits is refused before it is stored.
func LayContext(ctx context.Context, rooms []Room, layout *Layout) (*Floor, error) {
	if len(rooms) == 0 || layout.Width <= 0 {
		return nil, &Error{Reason: "a floor needs a room and planks wider than 0"}
	}
	own := *layout
	layout = &own
	clock := &poll{ctx: ctx}
	t, err := try(clock, rooms, layout, 0)
	if err != nil {
		return nil, err
	}
	if t, err = t.shared(clock, rooms, layout); err != nil {
		return nil, err
	}
	return t.cut(clock, layout)
}

// With returns the floor with a first row of some width; else it is as the planner places it.
func (f *Floor) With(ctx context.Context, first measure.Length) (*Floor, error) {
	t, clock := *f.placed, &poll{ctx: ctx}
	p := t.placing
	var err error
	if t.best, err = p.score(clock, min(int64(first), p.to-p.from), true); err != nil {
		return nil, err
	}
	return t.cut(clock, f.layout)
}

// cut cuts a floor into rows where they are placed. The trial stays as it is.
func (t *trial) cut(clock *poll, layout *Layout) (*Floor, error) {
	floor, d := *t.floor, t.drawing
	f := &floor
	f.Facts = slices.Clone(f.Facts)
	f.placed, f.layout, f.placing, f.chosen, f.First = t, layout, t.placing, t.best, measure.Length(t.best.first)
	f.level = d.level() && !slices.ContainsFunc(f.Facts, func(f cutopt.Fact) bool { return f.Kind == cutopt.FactJogs })
	if err := f.slice(clock, t.region, t.placing.lines(t.best.first), layout); err != nil {
		return nil, err
	}
	if len(f.Rows) == 0 {
		return nil, &Error{
			Room: f.Name,
			Reason: "all that the gaps leave of the floor is hidden by the trim; enter a smaller gap or check the " +
				"outline",
		}
	}
	f.edgeWalls, f.width, f.reach = edgeWalls(
		d.placed(),
	), layout.Width, d.widestGap()+float64(
		layout.Cover+layout.Smooth,
	)+16
	f.lines(d, layout)
	f.through(d)
	return f, nil
}

// Along returns from where to where the floor reaches along the rows, and Across across them.
func (f *Floor) Along() (from, to measure.Length) {
	first := true
	for i := range f.Rows {
		for _, r := range f.Rows[i].Runs {
			if first {
				from, to, first = r.From, r.To, false
			}
			from, to = min(from, r.From), max(to, r.To)
		}
	}
	return from, to
}

// Across returns from where to where the floor reaches across the rows.
func (f *Floor) Across() (from, to measure.Length) { return f.Rows[0].From, f.Rows[len(f.Rows)-1].To }

// large returns the error of a floor that takes more pieces than the most.
func (f *Floor) large(most int) *Error {
	return &Error{
		f.Name,
		fmt.Sprintf("it would take more than %d pieces of planks; check the sizes of the room and of the plank", most),
		ErrTooLarge,
	}
}

// Pieces returns how many pieces of planks of a length the runs take at least.
func (f *Floor) Pieces(length measure.Length) int {
	n := 0
	for i := range f.Rows {
		for _, r := range f.Rows[i].Runs {
			n += 1 + int((r.To-r.From-1)/length)
		}
	}
	return n
}

// joined names the floor after its rooms.
func joined(rooms []Room) string {
	name := rooms[0].Name
	for i, r := range rooms[1:] {
		if r.Number == 0 || r.Number != rooms[i].Number { // parts of one room bear its name once
			name += " + " + r.Name
		}
	}
	return name
}
