package cutopt

import (
	"fmt"

	"plank.example/cutopt/measure"
)

// Doubts returns what a job says that is allowed and hardly meant, each with what is probably meant instead: a room
// less than 1 ft (305 mm) wide, a plank over 10 ft (3.05 m) long, a gap over 2 in (51 mm) and a saw cut over 1/2 in (13
// mm), which a wrong unit makes, and a plank wider than long. They are no errors: show them before anyone trusts the
// plan. It takes O(corners).
func (j *Job) Doubts() []*FieldError {
	var all []*FieldError
	doubt := func(field, value, rule, mend string) {
		all = append(all, &FieldError{Field: field, Value: value, Rule: rule, Mend: mend})
	}
	text := func(l measure.Length) string { return l.Format(j.Unit, measure.Tick) }
	unit := map[measure.Unit]string{measure.UnitInch: "inches", measure.UnitFoot: "feet"}[j.Unit]
	if unit == "" {
		unit = j.Unit.String()
	}
	bare := "a bare number is in " + unit + " here: write the unit if another is meant"
	plank := func(prefix string, p Plank) {
		switch {
		case p.Width > p.Length:
			doubt(prefix+"plank.width", text(p.Width), "this plank is wider than it is long, "+text(p.Length),
				"change the two over, if they are")
		case p.Length > 10*measure.Foot:
			doubt(prefix+"plank.length", text(p.Length), "this plank is over 10 ft long", bare)
		}
	}
	plank("", j.Plank)
	for i, p := range j.Products {
		plank(fmt.Sprintf("products[%d].", i+1), p.Plank)
	}
	if gap := j.Rules.Gap; gap > 2*measure.Inch {
		doubt("rules.gap", text(gap), "this gap is over 2 in wide, and no trim covers it", bare)
	}
	if kerf := j.Rules.Kerf; kerf > measure.Inch/2 {
		doubt("rules.kerf", text(kerf), "no saw for planks cuts over 1/2 in wide", bare)
	}
	for i := range j.Rooms {
		low, high := Point{}, Point{}
		for k, p := range j.Rooms[i].Outline {
			if k == 0 {
				low, high = p, p
			}
			low.X, low.Y, high.X, high.Y = min(low.X, p.X), min(low.Y, p.Y), max(high.X, p.X), max(high.Y, p.Y)
		}
		if wide, deep := high.X-low.X, high.Y-low.Y; min(wide, deep) < measure.Foot {
			doubt(fmt.Sprintf("rooms[%d].corners", i+1), text(wide)+" x "+text(deep), "this room is less than 1 ft wide", bare)
		}
	}
	return all
}
