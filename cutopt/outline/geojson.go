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
		e := &Error{Format: formatGeoJSON, Msg: err.Error()}
		var syntax *json.SyntaxError
		if errors.As(err, &syntax) {
			e.Place = fmt.Sprintf("byte %d", syntax.Offset)
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
	return &Error{Format: format, Msg: "the file states no unit", Hint: "state the unit of its coordinates"}
}

type geoReader struct {
	unit     measure.Unit
	polygons []polygon
}

func (g *geoReader) fail(place, format string, args ...any) error {
	return &Error{Format: formatGeoJSON, Place: place, Msg: fmt.Sprintf(format, args...)}
}

// object reads the polygons of an object that is called name. Points and lines are passed over.
func (g *geoReader) object(v *geoObject, place, name string, depth int) error {
	switch {
	case v == nil:
		return nil
	case depth > geoDepth:
		return g.fail(place, "collections are nested more than %d deep", geoDepth)
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
		var rings [][][]json.Number
		if err := json.Unmarshal(v.Coordinates, &rings); err != nil {
			return g.fail(join(place, "coordinates"), "a Polygon has a list of rings, each a list of positions [x, y]")
		}
		return g.polygon(rings, join(place, "coordinates"), name)
	case "MultiPolygon":
		var many [][][][]json.Number
		if err := json.Unmarshal(v.Coordinates, &many); err != nil {
			return g.fail(join(place, "coordinates"), "a MultiPolygon has a list of polygons, each a list of rings")
		}
		for i, rings := range many {
			if err := g.polygon(rings, fmt.Sprintf("%s[%d]", join(place, "coordinates"), i), name); err != nil {
				return err
			}
		}
		return nil
	case "Point", "MultiPoint", "LineString", "MultiLineString":
		return nil
	}
	return g.fail(place, "the type %q is none of GeoJSON", v.Type)
}

func (g *geoReader) list(items []*geoObject, place, name string, depth int) error {
	for i, v := range items {
		if err := g.object(v, fmt.Sprintf("%s[%d]", place, i), name, depth+1); err != nil {
			return err
		}
	}
	return nil
}

func (g *geoReader) polygon(rings [][][]json.Number, place, name string) error {
	if len(rings) == 0 {
		return nil // an empty polygon, as RFC 7946 section 3.1 allows
	}
	p := polygon{name: name}
	for i, positions := range rings {
		var ring []measure.Point
		for j, at := range positions {
			where := fmt.Sprintf("%s[%d][%d]", place, i, j)
			if len(at) < 2 {
				return g.fail(where, "a position has at least two numbers")
			}
			x, okX := number(at[0].String(), g.unit)
			y, okY := number(at[1].String(), g.unit)
			if !okX || !okY {
				return g.fail(where, "[%s, %s] is no position within 100,000 km", short(at[0].String()), short(at[1].String()))
			}
			ring = append(ring, measure.Point{X: x, Y: y})
		}
		if ring = drop(ring); len(ring) < 3 {
			return g.fail(fmt.Sprintf("%s[%d]", place, i), "a ring has at least three corners")
		}
		p.rings = append(p.rings, ring)
	}
	g.polygons = append(g.polygons, p)
	return nil
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
