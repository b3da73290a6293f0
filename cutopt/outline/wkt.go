package outline

import (
	"fmt"
	"strings"

	"plank.example/cutopt/measure"
)

// readWKT reads POLYGON and MULTIPOLYGON texts, one after the other, with or without an SRID, Z and M; the third and
// fourth coordinates are ignored.
func readWKT(text string, o *Options) ([]polygon, error) {
	if o.Unit == nil {
		return nil, unitMissing(formatWKT)
	}
	p := &wktReader{text: text, unit: *o.Unit}
	p.next()
	for p.token != "" {
		if err := p.geometry(); err != nil {
			return nil, err
		}
		for p.token == ";" || p.token == "," {
			p.next()
		}
	}
	return p.polygons, nil
}

const wktMend = "write POLYGON ((0 0, 4 0, 4 3, 0 0))"

// A wktReader reads tokens: words, numbers and signs.
type wktReader struct {
	text     string
	pos      int // behind the token
	token    string
	unit     measure.Unit
	polygons []polygon
	rings    int
	corners  int
}

func (p *wktReader) next() {
	for p.pos < len(p.text) && strings.IndexByte(" \t\r\n", p.text[p.pos]) >= 0 {
		p.pos++
	}
	start := p.pos
	if p.pos < len(p.text) && strings.IndexByte("(),;=", p.text[p.pos]) >= 0 {
		p.pos++
	} else {
		for p.pos < len(p.text) && strings.IndexByte(" \t\r\n(),;=", p.text[p.pos]) < 0 {
			p.pos++
		}
	}
	p.token = p.text[start:p.pos]
}

func (p *wktReader) place() string {
	return fmt.Sprintf("line %d", 1+strings.Count(p.text[:p.pos], "\n"))
}

func (p *wktReader) fail(mend, format string, args ...any) error {
	return &Error{Format: formatWKT, Place: p.place(), Msg: fmt.Sprintf(format, args...), Mend: mend}
}

// word reports whether the token is the word, in capitals or not, and passes over it.
func (p *wktReader) word(w string) bool {
	if !strings.EqualFold(p.token, w) {
		return false
	}
	p.next()
	return true
}

func (p *wktReader) geometry() error {
	if p.word("SRID") {
		p.next() // =
		p.next() // the number
		p.word(";")
	}
	multi := p.word("MULTIPOLYGON")
	if !multi && !p.word("POLYGON") {
		return p.fail(wktMend, "%q is neither POLYGON nor MULTIPOLYGON", short(p.token))
	}
	for p.word("Z") || p.word("M") || p.word("ZM") {
	}
	if p.word("EMPTY") {
		return nil
	}
	if multi {
		return p.list(p.polygon)
	}
	return p.polygon()
}

// list reads items in brackets with commas between.
func (p *wktReader) list(item func() error) error {
	if !p.word("(") {
		return p.fail(wktMend, "%q where ( is due", short(p.token))
	}
	for {
		if err := item(); err != nil {
			return err
		}
		if p.word(")") {
			return nil
		}
		if !p.word(",") {
			return p.fail(wktMend, "%q where a comma or ) is due", short(p.token))
		}
	}
}

func (p *wktReader) polygon() error {
	var rings [][]measure.Point
	err := p.list(func() error {
		var ring []measure.Point
		if err := p.list(func() error { return p.corner(&ring) }); err != nil {
			return err
		}
		if ring = drop(ring); len(ring) < 3 {
			return p.fail(wktMend, "a ring has at least three corners")
		}
		if p.rings++; p.rings > MaxRings {
			return tooLarge(formatWKT, p.place(), fmt.Sprintf("there are more than %d rings", MaxRings))
		}
		rings = append(rings, ring)
		return nil
	})
	if err == nil {
		p.polygons = append(p.polygons, polygon{rings: rings})
	}
	return err
}

func (p *wktReader) corner(ring *[]measure.Point) error {
	var at [2]measure.Length
	for i := range at {
		var ok bool
		if at[i], ok = number(decimal(p.token), p.unit); !ok {
			return p.fail(farMend, "%q is no coordinate "+farText, short(p.token))
		}
		p.next()
	}
	for extra := 0; extra < 2 && p.token != "" && p.token != "," && p.token != ")"; extra++ {
		if _, ok := number(decimal(p.token), p.unit); !ok {
			return p.fail(farMend, "%q is no coordinate "+farText, short(p.token))
		}
		p.next()
	}
	if p.corners++; p.corners > 2*MaxCorners { // each ring repeats its first corner, and may have three of them
		return tooLarge(formatWKT, p.place(), fmt.Sprintf("there are more than %d corners", MaxCorners))
	}
	*ring = append(*ring, measure.Point{X: at[0], Y: at[1]})
	return nil
}

// decimal spells a number as JSON does: with a digit on either side of the point, and no plus sign or needless zeros.
func decimal(s string) string {
	s = strings.TrimPrefix(s, "+")
	sign := ""
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		sign, s = "-", rest
	}
	whole, rest := s, ""
	if i := strings.IndexAny(s, ".eE"); i >= 0 {
		whole, rest = s[:i], s[i:]
	}
	if rest == "." || strings.HasPrefix(rest, ".e") || strings.HasPrefix(rest, ".E") {
		rest = rest[1:]
		if whole == "" {
			return s // a point alone is no number
		}
	}
	whole = strings.TrimLeft(whole, "0")
	if whole == "" && (rest != "" || strings.HasPrefix(s, "0")) {
		whole = "0"
	}
	return sign + whole + rest
}
