package words

import (
	"fmt"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
)

// Finding says what was found of a job or a plan. Lengths are exact, to the tick: what a rule is held against is not
// rounded; but how far measures differ from planned ones is said on the graduation. Rules and fields keep the names
// that job and plan files have for them.
//
// The words are those of the key "finding." and the kind, whose places are the finding's figures.
func (s *Speech) Finding(f *cutopt.Finding) string {
	key := "finding." + f.Kind
	if !Has(key) {
		return f.Format(s.Unit)
	}
	places := make([]string, 0, 2*len(f.Figures))
	for _, v := range f.Figures {
		text := s.figure(v.Name, v.Value)
		if l, ok := v.Value.(measure.Length); ok && v.Name == "length" && differs(f.Kind) && l.Nearest(s.Grid) != 0 {
			text = s.Length(l)
		}
		places = append(places, v.Name, text)
	}
	return s.Say(key, places...)
}

// differs reports whether a finding tells how far what was measured is from what was planned: along walls that slant
// that is no figure of a tape.
func differs(kind string) bool {
	return kind == "measured-longer" || kind == "measured-shorter" || kind == "cut-to-fit"
}

// Findings says several findings, one after the other.
func (s *Speech) Findings(all []cutopt.Finding) string {
	said := make([]string, len(all))
	for i := range all {
		said[i] = s.Finding(&all[i])
	}
	return strings.Join(said, "; ")
}

// Violation says where a plan breaks a rule, which, and how: "Den row 4 run 1 piece 1: min-piece: a starter of 5 in;
// want at least 8 in".
func (s *Speech) Violation(v *check.Violation) string {
	var place []string
	switch {
	case v.Name != "":
		place = append(place, v.Name)
	case v.Floor > 0:
		place = append(place, s.Say("room", "n", strconv.Itoa(v.Floor)))
	}
	at := func(key string, n int) {
		if n > 0 {
			place = append(place, s.Say("at."+key, "n", strconv.Itoa(n)))
		}
	}
	at("row", v.Row)
	at("run", v.Run)
	at("piece", v.Piece)
	at("plank", v.Plank)
	text := v.Rule.String() + ": " + s.Finding(&v.Finding)
	if len(place) == 0 {
		return text
	}
	return strings.Join(place, " ") + ": " + text
}

// figure says one figure of a finding.
func (s *Speech) figure(name string, value any) string {
	switch v := value.(type) {
	case measure.Length:
		return s.Exact(v)
	case []measure.Length:
		if len(v) == 0 {
			return s.Say("nowhere")
		}
		all := make([]string, len(v))
		for i, l := range v {
			all[i] = s.Exact(l)
		}
		return strings.Join(all, s.Say("between"))
	case measure.Area:
		if name == "area" {
			return s.about(v)
		}
		return s.Decimal(v.Decimal(s.Unit)) + s.areaUnit()
	case float64:
		return s.Decimal(strconv.FormatFloat(v, 'g', -1, 64))
	case cutopt.Point:
		return "(" + s.Exact(v.X) + s.Say("between") + s.Exact(v.Y) + ")"
	case cutopt.RowRef:
		return s.Row(v)
	case cutopt.Fact:
		return s.Decimal(v.Format(s.Unit))
	case cutopt.Money:
		return s.Decimal(v.String())
	case cutopt.Ends:
		return s.constant("sawn."+v.String(), v)
	case cutopt.Hand:
		return s.constant("hand."+v.String(), v)
	case cutopt.Direction:
		return s.constant("direction."+v.String(), v)
	case cutopt.Start:
		return s.constant("start."+v.String(), v)
	case string:
		if name == "part" {
			return s.Say("part." + v)
		}
		return v
	}
	return fmt.Sprint(value)
}

// constant says one of the model's constants, or prints it where it is none of them.
func (s *Speech) constant(key string, v fmt.Stringer) string {
	if !Has(key) {
		return v.String()
	}
	return s.Say(key)
}

// Row names a row: "Den row 7".
func (s *Speech) Row(r cutopt.RowRef) string {
	row := s.Say("at.row", "n", strconv.Itoa(r.Row))
	if r.Room == "" {
		return row
	}
	return r.Room + " " + row
}

// areaUnit is the unit in which whole areas are printed.
func (s *Speech) areaUnit() string {
	if s.Unit.Metric() {
		return " m²"
	}
	return " sq ft"
}

// about prints an area in small units: to two digits, or to whole ones where there are more.
func (s *Speech) about(a measure.Area) string {
	size, name := float64(measure.Inch), " sq in"
	if s.Unit.Metric() {
		size, name = float64(measure.Centimetre), " cm²"
	}
	n := float64(a) / (size * size)
	text := strconv.FormatFloat(n, 'f', 0, 64)
	if n < 100 {
		text = strconv.FormatFloat(n, 'g', 2, 64)
	}
	return s.Decimal(s.glue(text + name))
}
