package sheet_test

import (
	"bytes"
	"context"
	"regexp"
	"strconv"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/solve"
)

// TestMarksOfThinPieces draws a room that ends in tips too thin for a label: the marks of their notes stay on the
// floor.
func TestMarksOfThinPieces(t *testing.T) {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: oracle.Rules(measure.UnitInch),
		Rooms: []cutopt.Room{{Name: "Prow", Outline: []cutopt.Point{
			{}, {X: 300 * in}, {X: 310 * in, Y: 120 * in}, {X: 160 * in, Y: 211 * in}, {X: 150 * in, Y: 211 * in}, {
				X: 10 * in,
				Y: 120 * in,
			},
		}}},
	}
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := writeMap(&b, job, result.Plan, sheet.FormatSVG, nil); err != nil {
		t.Fatal(err)
	}
	texts := regexp.MustCompile(`<text x="(-?[\d.]+)"`).FindAllStringSubmatch(b.String(), -1)
	if len(texts) < 50 {
		t.Fatalf("only %d texts", len(texts))
	}
	for _, m := range texts {
		if x, err := strconv.ParseFloat(m[1], 64); err != nil || x < 30 {
			t.Errorf("a text at x = %s, beyond the margin", m[1])
		}
	}
}
