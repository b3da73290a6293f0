package cutopt

import (
	"fmt"
	"strings"

	"plank.example/cutopt/measure"
)

// A Finding is one thing found in a job or in a plan, in figures: what breaks a rule, why rows cannot be laid. Package
// words says it in a language, by the key "finding." and the kind.
type Finding struct {
	Kind    string // what is found, in a word or two joined by hyphens: "starter-short"
	Figures []Figure
}

// A Figure is one figure of a finding, by name.
type Figure struct {
	Name string
	// Value is an int, a bool, a float64 (degrees, percent, a chance), a string (a name, or a field as plan files spell
	// it), a measure.Length, a list of them, a measure.Area (square ticks), a Point of the room's axes, a RowRef, a
	// Fact, or one of the model's constants.
	Value any
}

// A RowRef names a row of a room, from 1 at the starting side.
type RowRef struct {
	Room string
	Row  int
}

// String names the row: "den row 7".
func (r RowRef) String() string {
	if r.Room == "" {
		return fmt.Sprintf("row %d", r.Row)
	}
	return fmt.Sprintf("%s row %d", r.Room, r.Row)
}

// Find makes a finding of a kind and its figures, given as name, value, name, value and so on.
func Find(kind string, figures ...any) Finding {
	f := Finding{Kind: kind}
	for i := 0; i+1 < len(figures); i += 2 {
		f.Figures = append(f.Figures, Figure{figures[i].(string), figures[i+1]})
	}
	return f
}

// Figure returns the value of that name; nil where the finding has none.
func (f Finding) Figure(name string) any {
	for _, v := range f.Figures {
		if v.Name == name {
			return v.Value
		}
	}
	return nil
}

// Format prints the finding plainly, as logs and Go errors have it, with lengths in the given unit: "starter-short:
// length 5 in, least 8 in".
func (f Finding) Format(unit measure.Unit) string {
	var b strings.Builder
	b.WriteString(f.Kind)
	for i, v := range f.Figures {
		sep := ", "
		if i == 0 {
			sep = ": "
		}
		fmt.Fprintf(&b, "%s%s %s", sep, v.Name, plain(v.Value, unit))
	}
	return b.String()
}

// plain prints a figure.
func plain(value any, unit measure.Unit) string {
	switch v := value.(type) {
	case measure.Length:
		return v.Format(unit, measure.Tick)
	case []measure.Length:
		all := make([]string, len(v))
		for i, l := range v {
			all[i] = plain(l, unit)
		}
		return "[" + strings.Join(all, ", ") + "]"
	case measure.Area:
		of := " sq ft"
		if unit.Metric() {
			of = " m²"
		}
		return v.Decimal(unit) + of
	case Point:
		return fmt.Sprintf("(%s, %s)", plain(v.X, unit), plain(v.Y, unit))
	case Fact:
		return v.Format(unit)
	case string:
		return fmt.Sprintf("%q", v)
	}
	return fmt.Sprint(value)
}
