// Package jobfile reads and writes job files: the measurements, the product and the rules of a floor in YAML, of which
// JSON is a part.
//
//	name: Den
//	unit: in
//	plank: {length: 48, width: 7}
//	box: {planks: 10, price: 52.50}
//	rules: {stagger: 12}
//	rooms:
//	  - name: Den
//	    size: 14' 6" x 11' 2"
//
// # Reading
//
// [Read] is strict: unknown, repeated and missing keys are errors, and so is every value that can be read in two ways.
// All errors of a file are reported at once, each with its line, column, key, value and a hint. Lengths are read from
// the text as it stands, by measure.Parse; a number without a unit is in the file's unit.
//
// # Keys
//
// unit, plank.length, plank.width, box.planks or box.covers, and rooms are required. The rules default to
// cutopt.DefaultRules of the unit. [Schema] is the full list. What needs saying:
//
//   - size: two lengths with x, × or "by" between. The corners are (0, 0), (first, 0), (first, second), (0, second);
//     wall 1 runs along the first length.
//   - corners: a list of [x, y] in order; the last joins the first. Wall 1 runs from the first corner to the second.
//   - walls: the tape walk round the room, see below.
//   - islands: each a list of [x, y], or a mapping with corners, or with at (its corner of least x and y) and size.
//     gap is the gap around it; 0 lays the floor tight against it. One that reaches no farther beyond a wall than the
//     room's misclosure ends at the wall, which a [Warning] tells: cabinets are square and rooms are not.
//   - gaps: wall number to gap.
//   - rows: along, across, free (the one of these that needs fewer boxes), diagonal or an angle in degrees from the x
//     axis, counter-clockwise; or a mapping with direction, start (near, far), from (left, right) and first (the width
//     of the first row, or auto, which takes one that needs the fewest boxes).
//   - doorways: wall (its number), at (from the corner where the wall begins), width, depth (how far the floor runs
//     into the wall), casing (wood, metal), to (the room behind), through (true: one floor with that room),
//     break (true: parted there).
//   - spare: planks to keep whole for repairs, such as 4; a share of the planks laid, such as 3 %; or unopened boxes,
//     such as 1 box per 50.
//   - min-rip: half, or a length. max-along and max-across: none, or a length.
//   - trim, transitions, underlay, film, tape, spacers, appliances: the products that go with the floor. Package
//     takeoff reckons with them and with the transition, height and clearance of doorways, planning does not. What is
//     left out is reckoned by quantity alone.
//
// # The tape walk
//
// Each item of walls is the length of a wall and the turn at its end, facing along the walk: 12' 6" right, or
// {length: 12' 6", turn: right}. left and right alone are square corners; left 45 turns by 45 degrees. The turn after
// the last wall may be left out. The walk begins at (0, 0) along the x axis.
//
// A measured walk does not quite come back to its start: the distance left open is the misclosure. Up to the room's key
// misclosure (default 1/2 in, or 12 mm in metric files: common practice) it is spread over the walls and reported as a
// [Warning]; beyond, it is an error that tells the figure. Where all corners are square each wall along an axis takes a
// share of the error along that axis in proportion to its length (the transit rule of surveying), so that the corners
// stay square; else each wall takes a share of the error in proportion to its length (the compass rule, or Bowditch's).
// Both rules are textbook surveying, given here from memory. All of it is exact to a tick.
//
// # Walls and diagonals
//
// Four sides do not fix a room; a diagonal does. A room may be given by the lengths of its walls alone and by
// diagonals, each two corners and the length between them, measured inside the room:
//
//	walls: [14' 6", 10' 11", 14' 6", 10' 11"]
//	diagonals: [[1, 3, 18' 1 13/16"]]
//
// Wall 1 runs from corner 1 to corner 2 along the x axis, and the room lies to its left; clockwise: true turns it over.
// A room of n corners needs n - 3 diagonals that cut it into triangles. Corners that turn in are named under inward,
// which is held against what the measures say. More diagonals are adjusted by least squares, each measure counting
// alike: corners move as little as makes all agree. The residuals are reported as a [Warning]; one beyond misclosure is
// an error that names it. It takes O(corners³); such a room has at most 200 corners.
package jobfile

import (
	"errors"
	"fmt"
	"io"

	"plank.example/cutopt"
)

// MaxSize is the size of the largest job file that is read, in bytes.
const MaxSize = 4 << 20

// A File is a job file that was read.
type File struct {
	Job      *cutopt.Job
	Warnings []Warning // what was mended while reading, and what is hardly meant

	name   string
	places map[string]place // of keys
}

// A Warning is something that was mended while reading, or one of the job's doubts.
type Warning struct {
	File         string
	Line, Column int
	Key          string
	Text         string
}

// String returns the warning in the form of an [Error].
func (w Warning) String() string {
	return (&Error{File: w.File, Line: w.Line, Column: w.Column, Key: w.Key, Msg: w.Text}).Error()
}

// Decode reads a job file and returns its valid job. Name is used in messages. The error is that of [Read]; warnings
// are dropped.
func Decode(r io.Reader, name string) (*cutopt.Job, error) {
	f, err := Read(r, name)
	if err != nil {
		return nil, err
	}
	return f.Job, nil
}

// Read reads a job file, whose job is valid when the error is nil. Name is used in messages.
//
// The error is an [Errors] for whatever is wrong with the file, or the error of r. At most 100 errors are listed. Files
// above [MaxSize], nested more than 20 deep or swollen by aliases are refused; errors.Is finds [cutopt.ErrTooLarge]
// where the file or its job is beyond a limit. No more than MaxSize+1 bytes are read of r.
func Read(r io.Reader, name string) (*File, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return nil, err
	}
	if len(data) > MaxSize {
		return nil, Errors{{
			File: name, Msg: fmt.Sprintf("a job file has at most %d MB", MaxSize>>20), Mend: "is this a job file?",
			Err: cutopt.ErrTooLarge,
		}}
	}
	root, perr := parse(data, name)
	if perr != nil {
		return nil, Errors{perr}
	}
	d := &decoder{
		file:   &File{Job: new(cutopt.Job), name: name, places: make(map[string]place)},
		broken: make(map[string]bool),
	}
	d.job(root)
	if d.unitKnown && d.nodes <= maxNodes {
		d.validate()
	}
	if len(d.errs) > 0 {
		return nil, d.sorted()
	}
	for _, doubt := range d.file.Job.Doubts() {
		at := d.file.locate(doubt)
		d.file.Warnings = append(d.file.Warnings, Warning{
			File: at.File, Line: at.Line, Column: at.Column, Key: at.Key, Text: at.Msg + "; " + at.Mend,
		})
	}
	return d.file, nil
}

// Locate gives the errors of a job their place in the file: every [*cutopt.FieldError] in err's tree becomes an
// [*Error] with the line and column of the field, or of the nearest key around it. Any other error is returned as is.
func (f *File) Locate(err error) error {
	fields := fieldErrors(err)
	if len(fields) == 0 {
		return err
	}
	located := make(Errors, len(fields))
	for i, fe := range fields {
		located[i] = f.locate(fe)
	}
	return located
}

// fieldErrors returns the field errors in the tree of err.
func fieldErrors(err error) []*cutopt.FieldError {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []*cutopt.FieldError
		for _, e := range joined.Unwrap() {
			all = append(all, fieldErrors(e)...)
		}
		return all
	}
	var fe *cutopt.FieldError
	if errors.As(err, &fe) {
		return []*cutopt.FieldError{fe}
	}
	return nil
}
