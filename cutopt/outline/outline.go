// Package outline reads rooms that were drawn elsewhere: GeoJSON polygons (RFC 7946), WKT polygons (OGC 06-103r4) and
// closed polylines of ASCII DXF drawings.
//
// # What to call first
//
// [Read] is all there is to call: it tells the formats apart by their content and returns rooms to put into a job.
// Every polygon becomes a room and every hole an island. A DXF drawing has no holes: there, a closed polyline inside
// another is its island. The job's own Validate then says whether the outlines can be floored.
//
// # Units
//
// A DXF drawing may state its unit ($INSUNITS); else Options.Unit is that of its coordinates. GeoJSON and WKT state
// none, so there it must be given. Degrees are no lengths: project a map before it is read.
//
// # What is promised
//
//  1. Coordinates are read from their digits, to the nearest tick of 1/320 mm; no floating-point number is between.
//  2. A drawing that lies more than a kilometre from its origin, as surveys do, is moved as a whole so that its lower
//     left corner is the origin, wherever within 14 billion km it lies. Nothing else is changed: neither the order of
//     corners nor the way round.
//  3. Arcs of DXF polylines become chords that stay within Options.Sagitta of the arc and a tick, whatever its radius.
//     Their corners lie on the arc to the nearest tick, computed in floating point.
//  4. Numbers are numbers: a text is none, not even one of digits.
//  5. Errors are an [*Error] with a hint, those of r apart. Limits are kept while reading: nothing is allocated beyond
//     what [MaxSize], [MaxRings] and [MaxCorners] allow, and nothing panics.
//
// Not promised: that outlines do not cross or overlap, which is for Job.Validate; curves other than arcs of polylines,
// which are passed over; and blocks, which are not expanded.
package outline

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Limits of a drawing.
const (
	MaxSize    = 32 << 20 // bytes
	MaxRings   = 10_000   // polygons and holes, or closed polylines
	MaxCorners = 500_000  // of all rings
)

// Options say what a file leaves open. The zero value and nil are ready to use where the file states its unit.
type Options struct {
	Unit    *measure.Unit  // of coordinates in files that state none; nil refuses such files
	Sagitta measure.Length // farthest an arc may be from its chord, above 0; default 1/2 mm, also where it is less
	// of rooms that the file gives no name; the second and later ones get a number behind it; default "Room"
	Name string
}

// Sentinels that an Error may wrap, as it may [cutopt.ErrTooLarge] where the file, its rings or its corners pass a
// limit; test for them with errors.Is.
var (
	ErrNoUnit = errors.New("no unit is stated")     // neither by the file nor by Options.Unit
	ErrFormat = errors.New("none of these formats") // neither GeoJSON, nor WKT, nor ASCII DXF
)

// An Error says what in a drawing cannot be read.
type Error struct {
	Format string // "GeoJSON", "WKT", "DXF" or "outline"
	Place  string // as in "line 12" or "features[3]"; may be empty
	Msg    string
	Mend   string // how to mend it

	sentinel error // one of the above, or nil
}

// Error names the format and the place, says what is wrong and how to mend it.
func (e *Error) Error() string {
	s := e.Format
	if e.Place != "" {
		s += ", " + e.Place
	}
	s += ": " + e.Msg
	if e.Mend != "" {
		s += "; " + e.Mend
	}
	return s
}

// Hint returns how to mend it.
func (e *Error) Hint() string { return e.Mend }

// Unwrap returns the sentinel that goes with the error, or nil.
func (e *Error) Unwrap() error { return e.sentinel }

// A polygon is an outline with its holes, in the drawing's coordinates.
type polygon struct {
	name  string
	rings [][]measure.Point // the first is the outline
}

// Read reads the rooms of a drawing. The error is an [*Error] or that of r. It takes time in proportion to the file,
// and for a DXF drawing O(r²) comparisons of extents for its r closed polylines, and for each of them time in
// proportion to the sides of larger ones that it lies beside.
func Read(r io.Reader, opt *Options) ([]cutopt.Room, error) {
	o := Options{Sagitta: measure.Millimetre / 2, Name: "Room"}
	if opt != nil {
		o.Unit = opt.Unit
		if opt.Sagitta > 0 {
			o.Sagitta = opt.Sagitta
		}
		if opt.Name != "" {
			o.Name = opt.Name
		}
	}
	data, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return nil, err
	}
	if len(data) > MaxSize {
		return nil, &Error{
			Format: "outline", Msg: fmt.Sprintf("the file is larger than %d MB", MaxSize>>20), Mend: "is this a drawing?",
			sentinel: cutopt.ErrTooLarge,
		}
	}
	format, polygons, err := readAny(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), &o)
	if err != nil {
		return nil, err
	}
	if len(polygons) == 0 {
		return nil, &Error{Format: format, Msg: "there is no polygon in it", Mend: "draw each room as one closed outline"}
	}
	if err := place(format, polygons); err != nil {
		return nil, err
	}
	if format == formatDXF {
		if polygons, err = nest(polygons); err != nil {
			return nil, err
		}
	}
	return rooms(polygons, o.Name), nil
}

// The formats, as errors name them.
const (
	formatGeoJSON = "GeoJSON"
	formatWKT     = "WKT"
	formatDXF     = "DXF"
)

// readAny tells the formats apart: GeoJSON is an object, WKT begins with a word, DXF with a number.
func readAny(data []byte, o *Options) (string, []polygon, error) {
	start := bytes.TrimSpace(data)
	switch {
	case len(start) == 0:
		return "", nil, &Error{
			Format:   "outline",
			Msg:      "the file is empty",
			Mend:     "is it the file meant?",
			sentinel: ErrFormat,
		}
	case bytes.Contains(start[:min(len(start), 22)], []byte(binaryDXF)):
		return "", nil, &Error{
			Format: formatDXF, Msg: "this is a binary DXF drawing", Mend: "save the drawing as ASCII DXF", sentinel: ErrFormat,
		}
	case bytes.IndexByte(start[:min(len(start), 512)], 0) >= 0:
		return "", nil, &Error{
			Format: "outline", Msg: "this is a binary file", Mend: "save the drawing as ASCII DXF, GeoJSON or WKT",
			sentinel: ErrFormat,
		}
	case start[0] == '{':
		p, err := readGeoJSON(start, o)
		return formatGeoJSON, p, err
	case isLetter(start[0]):
		p, err := readWKT(string(start), o)
		return formatWKT, p, err
	case '0' <= start[0] && start[0] <= '9':
		p, err := readDXF(data, o)
		return formatDXF, p, err
	}
	return "", nil, &Error{
		Format: "outline", Msg: "this is neither GeoJSON, nor WKT, nor ASCII DXF",
		Mend: "GeoJSON begins with {, WKT with POLYGON, ASCII DXF with a number", sentinel: ErrFormat,
	}
}

// binaryDXF ends the name in the first bytes of a binary drawing, which the DXF reference calls its sentinel.
const binaryDXF = "Binary DXF\r\n\x1a"

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// number reads a coordinate.
func number(text string, unit measure.Unit) (measure.Length, bool) {
	l, err := measure.FromDecimal(text, unit)
	return l, err == nil && -farthest < l && l < farthest
}

// farthest keeps differences of coordinates from overflow before a drawing is moved: 14 billion km.
const farthest measure.Length = 1 << 62

const (
	farText  = "within 14 billion km"
	farMend  = "write lengths in the unit given, as decimal numbers"
	sizeMend = "keep the rooms to be floored"
)

func tooLarge(format, place, msg string) error {
	return &Error{Format: format, Place: place, Msg: msg, Mend: sizeMend, sentinel: cutopt.ErrTooLarge}
}

// drop removes the last corner of a ring that repeats the first, as GeoJSON and WKT write it.
func drop(ring []measure.Point) []measure.Point {
	if n := len(ring); n > 1 && ring[0] == ring[n-1] {
		return ring[:n-1]
	}
	return ring
}

// place counts rings and corners, moves a drawing far from its origin, and refuses one that is too large.
func place(format string, polygons []polygon) error {
	rings, corners := 0, 0
	low, high := polygons[0].rings[0][0], polygons[0].rings[0][0]
	for _, p := range polygons {
		for _, ring := range p.rings {
			rings, corners = rings+1, corners+len(ring)
			for _, c := range ring {
				low.X, low.Y = min(low.X, c.X), min(low.Y, c.Y)
				high.X, high.Y = max(high.X, c.X), max(high.Y, c.Y)
			}
		}
	}
	switch {
	case rings > MaxRings:
		return tooLarge(format, "", fmt.Sprintf("it has %d outlines, more than %d", rings, MaxRings))
	case corners > MaxCorners:
		return tooLarge(format, "", fmt.Sprintf("it has %d corners, more than %d", corners, MaxCorners))
	case high.X-low.X > cutopt.MaxLength || high.Y-low.Y > cutopt.MaxLength:
		return &Error{
			Format: format, Msg: "it is more than 1 km long or wide", Mend: "check its unit, or part it",
			sentinel: cutopt.ErrTooLarge,
		}
	}
	if max(high.X, -low.X, high.Y, -low.Y) <= cutopt.MaxLength {
		return nil
	}
	for _, p := range polygons {
		for _, ring := range p.rings {
			for i := range ring {
				ring[i].X -= low.X
				ring[i].Y -= low.Y
			}
		}
	}
	return nil
}

// rooms makes a room of every polygon, with a name of its own.
func rooms(polygons []polygon, name string) []cutopt.Room {
	used, last := make(map[string]bool, len(polygons)), make(map[string]int) // last number behind each name
	list := make([]cutopt.Room, len(polygons))
	for i, p := range polygons {
		base := p.name
		if base == "" {
			base = name
		}
		own := base
		for used[own] {
			last[base] = max(last[base], 1) + 1
			own = fmt.Sprintf("%s %d", base, last[base])
		}
		used[own] = true
		list[i] = cutopt.Room{Name: own, Outline: p.rings[0]}
		for _, hole := range p.rings[1:] {
			list[i].Islands = append(list[i].Islands, cutopt.Island{Outline: hole})
		}
	}
	return list
}
