package cutopt

import (
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt/measure"
	"plank.example/internal/nearest"
)

// The functions here read what job files and flags have in common, so that both take the same.

// maxDecimal is the length of the longest decimal number that is read: any float64 fits.
const maxDecimal = 1100

// parseDecimal reads a decimal number of 0 or more, without an exponent.
func parseDecimal(s string) (float64, bool) {
	units, part, point := strings.Cut(s, ".")
	if units == "" || point && part == "" || strings.Trim(units+part, "0123456789") != "" || len(s) > maxDecimal {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

// inField names the field of a *FieldError that had no place yet.
func inField(err error, field string) error {
	if fe, ok := err.(*FieldError); ok {
		fe.Field = field
	}
	return err
}

// didYouMean returns the hint that names the nearest word, or otherwise when none is near.
func didYouMean(word string, list []string, otherwise string) string {
	if near := nearest.Word(word, list); near != "" {
		return "did you mean " + near + "?"
	}
	return otherwise
}

// parseLengthOr reads a length, or the word that stands for 0, such as "none"; 0 itself is refused then, and without a
// word it is read. A bare number is in unit. The error is a *measure.ParseError or a *FieldError without a field.
func parseLengthOr(text, word string, unit measure.Unit) (measure.Length, error) {
	if word != "" && strings.TrimSpace(text) == word {
		return 0, nil
	}
	l, err := measure.Parse(text, unit)
	if err != nil && word != "" {
		if pe, ok := err.(*measure.ParseError); ok && strings.Trim(text, "abcdefghijklmnopqrstuvwxyz ") == "" {
			pe.Mend = "write a length, or " + word
		}
	}
	if err == nil && l == 0 && word != "" {
		err = &FieldError{Value: text, Rule: "this length is above 0", Mend: "write " + word + " or a length"}
	}
	return l, err
}

// ParseFirstRow reads RowRules.FirstRow: a width above 0, or "auto", which is 0. A bare number is in unit. The error is
// a *measure.ParseError or a *[FieldError] without a field.
func ParseFirstRow(text string, unit measure.Unit) (measure.Length, error) {
	return parseLengthOr(text, "auto", unit)
}

// ParseDirection reads the way that rows run: "along", "across", "free", which is the one of these that needs fewer
// boxes, "diagonal", which is an angle of 45 degrees, or an angle of -360 to 360 degrees from the drawing's x axis:
// "30", "-22.5", "45°". It sets Direction and Angle and leaves the others. The error is a *FieldError without a field.
func (r *RowRules) ParseDirection(text string) error {
	text = strings.TrimSpace(text)
	switch text {
	case "along":
		r.Direction = DirectionAlong
		return nil
	case "across":
		r.Direction = DirectionAcross
		return nil
	case "free":
		r.Direction = DirectionFree
		return nil
	case "diagonal":
		r.Direction, r.Angle = DirectionAngle, 45
		return nil
	}
	number, negative := strings.CutPrefix(text, "-")
	for _, unit := range []string{"°", "degrees", "degree", "deg"} {
		number = strings.TrimSpace(strings.TrimSuffix(number, unit))
	}
	angle, ok := parseDecimal(number)
	switch {
	case !ok:
		return &FieldError{
			Value: text, Rule: "rows run along or across the longest wall, free to do either, diagonal, or at an angle",
			Mend: didYouMean(
				text,
				[]string{"along", "across", "free", "diagonal"},
				"write along, across, free, diagonal or degrees such as 45",
			),
		}
	case angle > 360:
		return &FieldError{Value: text, Rule: "an angle lies between -360 and 360 degrees"}
	case negative && angle != 0:
		angle = -angle
	}
	r.Direction, r.Angle = DirectionAngle, angle
	return nil
}

// ParseAims reads Job.Aims: names separated by commas, the most important first, or "none" for an empty list. The error
// is a *FieldError of the field "aims".
func ParseAims(text string) ([]Aim, error) {
	aims := []Aim{}
	if strings.TrimSpace(text) == "none" {
		return aims, nil
	}
	for _, name := range strings.Split(text, ",") {
		var a Aim
		name = strings.TrimSpace(name)
		if err := a.UnmarshalText([]byte(name)); err != nil {
			return nil, &FieldError{
				Field: "aims", Value: name, Rule: "unknown aim",
				Mend: didYouMean(name, aimNames, "the aims are "+strings.Join(aimNames, ", ")+"; or none"),
			}
		}
		if slices.Contains(aims, a) {
			return nil, &FieldError{Field: "aims", Value: name, Rule: "each aim comes once", Mend: "drop the second"}
		}
		aims = append(aims, a)
	}
	return aims, nil
}
