package outline

import (
	"encoding/json"
	"errors"
	"fmt"

	"plank.example/cutopt/measure"
)

// geoObject is whatever GeoJSON object: a geometry, a feature or a collection.
type geoObject struct {
	Type        string          `json:"type"`
	Coordinates json.RawMessage `json:"coordinates"`
	Geometry    *geoObject      `json:"geometry"`
	Features    []*geoObject    `json:"features"`
	Geometries  []*geoObject    `json:"geometries"`
	Properties  struct {
		Name any `json:"name"`
	} `json:"properties"`
}

// digits is a JSON number as it is written. A json.Number would take a text of digits too.
type digits string

func (d *digits) UnmarshalJSON(text []byte) error {
	if c := text[0]; c != '-' && (c < '0' || c > '9') {
		return &Error{
			Format: formatGeoJSON, Msg: fmt.Sprintf("%s is no number", short(string(text))),
			Mend: "a position is a list of numbers, without quotes",
		}
	}
	*d = digits(text)
	return nil
}

type (
	position  = []digits
	positions = []position
	rings     = []positions
)

// geoDepth bounds collections within collections.
const geoDepth = 8

// readGeoJSON reads all polygons of a GeoJSON text. Its coordinates are taken as lengths in the stated unit, not as
// degrees; heights are ignored. A feature's property "name" names its room.
func readGeoJSON(data []byte, o *Options) ([]polygon, error) {
	if o.Unit == nil {
		return nil, unitMissing(formatGeoJSON)
	}
	var root geoObject
	if err := json.Unmarshal(data, &root); err != nil {
		e := &Error{Format: formatGeoJSON, Msg: err.Error(), Mend: "is the file complete?"}
		var (
			syntax *json.SyntaxError
			wrong  *json.UnmarshalTypeError
		)
		switch {
		case errors.As(err, &syntax):
			e.Place = fmt.Sprintf("byte %d", syntax.Offset)
		case errors.As(err, &wrong):
			e.Place, e.Msg = fmt.Sprintf("byte %d", wrong.Offset), fmt.Sprintf("%s is a JSON %s", wrong.Field, wrong.Value)
			e.Mend = "write it as RFC 7946 says"
		}
		return nil, e
	}
	g := &geoReader{unit: *o.Unit}
	if err := g.object(&root, "", "", 0); err != nil {
		return nil, err
	}
	return g.polygons, nil
}

func unitMissing(format string) error {
	return &Error{
		Format: format, Msg: "the file states no unit", Mend: "state the unit of its coordinates", sentinel: ErrNoUnit,
	}
}

type geoReader struct {
	unit     measure.Unit
	polygons []polygon
	rings    int
}

func (g *geoReader) fail(mend, place, format string, args ...any) error {
	return &Error{Format: formatGeoJSON, Place: place, Msg: fmt.Sprintf(format, args...), Mend: mend}
}

// object reads the polygons of an object that is called name. Points and lines are passed over.
func (g *geoReader) object(v *geoObject, place, name string, depth int) error {
	switch {
	case v == nil:
		return nil
	case depth > geoDepth:
		return g.fail("put the polygons into one collection", place, "collections are nested more than %d deep", geoDepth)
	}
	switch v.Type {
	case "Feature":
		if s, ok := v.Properties.Name.(string); ok {
			name = s
		}
		return g.object(v.Geometry, join(place, "geometry"), name, depth+1)
	case "FeatureCollection":
		return g.list(v.Features, join(place, "features"), name, depth)
	case "GeometryCollection":
		return g.list(v.Geometries, join(place, "geometries"), name, depth)
	case "Polygon":
		place = join(place, "coordinates")
		var list rings
		if err := json.Unmarshal(v.Coordinates, &list); err != nil {
			return g.wrong(err, place, "a Polygon has a list of rings, each a list of positions")
		}
		return g.polygon(list, place, name)
	case "MultiPolygon":
		place = join(place, "coordinates")
		var many []rings
		if err := json.Unmarshal(v.Coordinates, &many); err != nil {
			return g.wrong(err, place, "a MultiPolygon has a list of polygons, each a list of rings")
		}
		for i, list := range many {
			if err := g.polygon(list, fmt.Sprintf("%s[%d]", place, i), name); err != nil {
				return err
			}
		}
		return nil
	case "Point", "MultiPoint", "LineString", "MultiLineString":
		return nil
	}
	return g.fail("draw rooms as Polygon or MultiPolygon", place, "the type %q is none of GeoJSON", short(v.Type))
}

// wrong says what is wrong with a list of coordinates.
func (g *geoReader) wrong(err error, place, rule string) error {
	var own *Error
	if errors.As(err, &own) {
		own.Place = place
		return own
	}
	return g.fail("write a position as [4.5, 3]", place, "%s", rule)
}

func (g *geoReader) list(items []*geoObject, place, name string, depth int) error {
	for i, v := range items {
		if err := g.object(v, fmt.Sprintf("%s[%d]", place, i), name, depth+1); err != nil {
			return err
		}
	}
	return nil
}

func (g *geoReader) polygon(list rings, place, name string) error {
	if len(list) == 0 {
		return nil // an empty polygon, as RFC 7946 section 3.1 allows
	}
	p := polygon{name: name}
	for i, at := range list {
		if g.rings++; g.rings > MaxRings {
			return tooLarge(formatGeoJSON, place, fmt.Sprintf("there are more than %d rings", MaxRings))
		}
		ring, err := g.ring(at, fmt.Sprintf("%s[%d]", place, i))
		if err != nil {
			return err
		}
		p.rings = append(p.rings, ring)
	}
	g.polygons = append(g.polygons, p)
	return nil
}

func (g *geoReader) ring(list positions, place string) ([]measure.Point, error) {
	ring := make([]measure.Point, 0, len(list))
	for j, at := range list {
		if len(at) < 2 {
			return nil, g.fail(
				"write a position as [4.5, 3]",
				fmt.Sprintf("%s[%d]", place, j),
				"a position has at least two numbers",
			)
		}
		x, okX := number(string(at[0]), g.unit)
		y, okY := number(string(at[1]), g.unit)
		if !okX || !okY {
			return nil, g.fail(farMend, fmt.Sprintf("%s[%d]", place, j), "[%s, %s] is no position "+farText,
				short(string(at[0])), short(string(at[1])))
		}
		ring = append(ring, measure.Point{X: x, Y: y})
	}
	if ring = drop(ring); len(ring) < 3 {
		return nil, g.fail("draw each room as one closed outline", place, "a ring has at least three corners")
	}
	return ring, nil
}

func join(place, key string) string {
	if place == "" {
		return key
	}
	return place + "." + key
}

// short cuts a text for quoting.
func short(s string) string {
	if len(s) > 40 {
		return s[:40] + "..."
	}
	return s
}
