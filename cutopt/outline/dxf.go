package outline

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	"plank.example/cutopt/measure"
)

// Group codes of DXF that are read, from the DXF reference: 0 begins an entity, 9 names a header variable, 2 names a
// section or a block, 10 and 20 are x and y, 42 is the bulge of the side that begins at a vertex, 70 holds flags of
// which bit 1 closes a polyline.
const (
	codeEntity  = 0
	codeName    = 2
	codeHeader  = 9
	codeX       = 10
	codeY       = 20
	codeBulge   = 42
	codeFlags   = 70
	flagClosed  = 1
	unitsHeader = "$INSUNITS"
)

// dxfUnits are the values of $INSUNITS that are lengths of a room.
var dxfUnits = map[int]measure.Unit{
	1: measure.UnitInch, 2: measure.UnitFoot, 4: measure.UnitMillimetre, 5: measure.UnitCentimetre, 6: measure.UnitMetre,
}

// A group is a pair of lines of a DXF file.
type group struct {
	code int
	text string
	line int // of the code, from 1
}

// A vertex is a corner of a polyline and the bulge of the side that begins there: the tangent of a quarter of the arc's
// angle, positive counter-clockwise, 0 for a straight side.
type vertex struct {
	x, y  string
	bulge float64
	line  int
}

// readDXF reads the closed polylines among the entities of an ASCII DXF drawing; blocks are passed over. A polyline
// whose last vertex repeats the first counts as closed. The unit is that of $INSUNITS, else the stated one.
func readDXF(data []byte, o *Options) ([]polygon, error) {
	r := &dxfReader{options: o}
	scan := bufio.NewScanner(bytes.NewReader(data))
	scan.Buffer(nil, 1<<20)
	for line := 1; scan.Scan(); line += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(scan.Text()))
		if err != nil {
			return nil, r.fail(line, fmt.Sprintf("%q is no group code", short(scan.Text())), "save the drawing as ASCII DXF")
		}
		if !scan.Scan() {
			return nil, r.fail(line, "a value is missing at the end", "is the file complete?")
		}
		if err := r.group(group{code, strings.TrimSpace(scan.Text()), line}); err != nil {
			return nil, err
		}
	}
	if err := scan.Err(); err != nil {
		return nil, r.fail(0, err.Error(), "save the drawing as ASCII DXF")
	}
	if err := r.finish(); err != nil {
		return nil, err
	}
	return r.polygons, nil
}

type dxfReader struct {
	options  *Options
	unit     *measure.Unit // of $INSUNITS
	header   string        // the header variable being read
	section  string
	begins   bool   // a section begins; its name follows
	entity   string // being read
	polyline bool   // a POLYLINE whose vertices follow as entities
	closed   bool
	line     int // where the polyline begins
	vertices []vertex
	polygons []polygon
	corners  int // of all polygons
}

func lineOf(line int) string { return fmt.Sprintf("line %d", line) }

func (r *dxfReader) fail(line int, msg, hint string) error {
	e := &Error{Format: formatDXF, Msg: msg, Mend: hint}
	if line > 0 {
		e.Place = lineOf(line)
	}
	return e
}

func (r *dxfReader) group(g group) error {
	switch {
	case g.code == codeEntity:
		return r.begin(g)
	case g.code == codeHeader:
		r.header = g.text
	case g.code == codeName && r.begins:
		r.section, r.begins = g.text, false
	case g.code == codeFlags && r.header == unitsHeader && r.section == "HEADER":
		return r.insUnits(g)
	case r.section == "ENTITIES":
		return r.value(g)
	}
	return nil
}

// insUnits reads the drawing's unit; 0 states none.
func (r *dxfReader) insUnits(g group) error {
	n, err := strconv.Atoi(g.text)
	if unit, ok := dxfUnits[n]; ok && err == nil {
		r.unit = &unit
	} else if n != 0 || err != nil {
		return r.fail(g.line, fmt.Sprintf("$INSUNITS is %q, which is no unit for a room", short(g.text)),
			"set the drawing's unit to inches, feet, mm, cm or m")
	}
	return nil
}

// begin ends the entity at work and begins the next.
func (r *dxfReader) begin(g group) error {
	inPolyline := r.polyline && (g.text == "VERTEX" || g.text == "SEQEND")
	if !inPolyline {
		if err := r.finish(); err != nil {
			return err
		}
	}
	r.entity = g.text
	switch g.text {
	case "SECTION":
		r.begins = true
	case "ENDSEC":
		r.section = ""
	case "LWPOLYLINE", "POLYLINE":
		r.polyline, r.line = g.text == "POLYLINE", g.line
	case "VERTEX":
		if r.polyline {
			r.vertices = append(r.vertices, vertex{line: g.line})
		}
	}
	return nil
}

// value reads a group of an entity.
func (r *dxfReader) value(g group) error {
	own := r.entity == "LWPOLYLINE" // its vertices are groups of its own; those of a POLYLINE are entities
	switch {
	case g.code == codeFlags && (own || r.entity == "POLYLINE"):
		n, err := strconv.Atoi(g.text)
		if err != nil {
			return r.fail(g.line, fmt.Sprintf("the flags %q are no number", short(g.text)), "save the drawing anew")
		}
		r.closed = n&flagClosed != 0
	case g.code == codeX && own:
		r.vertices = append(r.vertices, vertex{line: g.line})
	}
	if len(r.vertices) == 0 || !own && r.entity != "VERTEX" {
		return nil
	}
	if len(r.vertices) > MaxCorners {
		return tooLarge(formatDXF, lineOf(g.line), fmt.Sprintf("a polyline has more than %d vertices", MaxCorners))
	}
	last := &r.vertices[len(r.vertices)-1]
	switch g.code {
	case codeX:
		last.x = g.text
	case codeY:
		last.y = g.text
	case codeBulge:
		b, err := strconv.ParseFloat(g.text, 64)
		if err != nil || math.IsNaN(b) || math.Abs(b) > 1e6 {
			return r.fail(g.line, fmt.Sprintf("the bulge %q is no number within a million", short(g.text)),
				"a bulge is the tangent of a quarter of the arc's angle")
		}
		last.bulge = b
	}
	return nil
}

// finish turns the polyline at work into a ring, if it is closed.
func (r *dxfReader) finish() error {
	vertices, closed, line := r.vertices, r.closed, r.line
	r.vertices, r.closed, r.polyline = nil, false, false
	if len(vertices) == 0 {
		return nil
	}
	unit := r.unit
	if unit == nil {
		unit = r.options.Unit
	}
	if unit == nil {
		return unitMissing(formatDXF)
	}
	corners := make([]measure.Point, len(vertices))
	for i, v := range vertices {
		x, okX := number(decimal(v.x), *unit)
		y, okY := number(decimal(v.y), *unit)
		if !okX || !okY {
			return r.fail(v.line, fmt.Sprintf("(%q, %q) is no vertex "+farText, short(v.x), short(v.y)), farMend)
		}
		corners[i] = measure.Point{X: x, Y: y}
	}
	if n := len(corners); !closed && (n < 4 || corners[0] != corners[n-1]) {
		return nil // a line, not an outline
	}
	if len(r.polygons) >= MaxRings {
		return tooLarge(formatDXF, lineOf(line), fmt.Sprintf("there are more than %d closed polylines", MaxRings))
	}
	ring, ok := r.flatten(corners, vertices)
	if !ok {
		return tooLarge(
			formatDXF,
			lineOf(line),
			fmt.Sprintf("with its arcs as chords the drawing has more than %d corners", MaxCorners),
		)
	}
	if ring = drop(ring); len(ring) < 3 {
		return r.fail(line, "a closed polyline has at least three corners", "draw each room as one closed outline")
	}
	r.corners += len(ring)
	r.polygons = append(r.polygons, polygon{rings: [][]measure.Point{ring}})
	return nil
}

// flatten replaces every arc by chords no farther from it than the sagitta: an arc of radius R and angle a has chords
// of angle h = a/n with R (1 - cos(h/2)) = 2 R sin²(h/4) <= sagitta. It reports false where the drawing would have too
// many corners.
func (r *dxfReader) flatten(corners []measure.Point, vertices []vertex) ([]measure.Point, bool) {
	ring := make([]measure.Point, 0, len(corners))
	for i, from := range corners {
		ring = append(ring, from)
		b, to := vertices[i].bulge, corners[(i+1)%len(corners)]
		dx, dy := float64(to.X-from.X), float64(to.Y-from.Y) // differences, so that no digits are lost far from the origin
		chord := math.Hypot(dx, dy)
		if b == 0 || chord == 0 {
			continue
		}
		angle := 4 * math.Atan(b)
		n := chords(chord*(1+b*b)/(4*math.Abs(b)), math.Abs(angle), float64(r.options.Sagitta))
		if n > float64(MaxCorners-r.corners-len(ring)) {
			return nil, false
		}
		// The corner at angle t from the first lies chord*sin(t/2)/sin(angle/2) away, turned from the chord by (t-angle)/2.
		for k := 1; k < int(n); k++ {
			t := angle * float64(k) / n
			away := math.Sin(t/2) / math.Sin(angle/2)
			sin, cos := math.Sincos((t - angle) / 2)
			p := measure.Point{
				X: from.X + measure.Length(math.Round(away*(dx*cos-dy*sin))),
				Y: from.Y + measure.Length(math.Round(away*(dx*sin+dy*cos))),
			}
			if p != ring[len(ring)-1] {
				ring = append(ring, p)
			}
		}
	}
	return ring, len(ring) <= MaxCorners-r.corners
}

// chords returns how many chords an arc takes, at least one for every quarter of a circle.
func chords(radius, angle, sagitta float64) float64 {
	least := math.Ceil(angle / math.Pi * 2)
	s := sagitta / (2 * radius)
	if s >= 1 {
		return least
	}
	return max(least, math.Ceil(angle/(4*math.Asin(math.Sqrt(s)))))
}
