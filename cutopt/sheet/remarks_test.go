package sheet

import (
	"context"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestRemarks plans rooms that give the planner something to remark: every remark has a form, and is said in German.
func TestRemarks(t *testing.T) {
	const in = measure.Inch
	box := func(w, h measure.Length) []cutopt.Point { return []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}} }
	rooms := []cutopt.Room{
		{Name: "Long", Outline: box(600*in, 60*in)},
		{Name: "Deep", Outline: box(90*in, 70*in)},
		{Name: "Fixed", Outline: box(120*in, 60*in), Rows: cutopt.RowRules{FirstRow: in}},
		{Name: "Jog", Outline: []cutopt.Point{{}, {X: 120 * in}, {X: 120 * in, Y: 61 * in}, {X: 60 * in, Y: 61 * in}, {X: 60 * in, Y: 61*in - in/16}, {Y: 61*in - in/16}}},
		{Name: "Step", Outline: []cutopt.Point{{}, {X: 120 * in}, {X: 120 * in, Y: 61 * in}, {X: 60 * in, Y: 61 * in}, {X: 60 * in, Y: 58 * in}, {X: 30 * in, Y: 58 * in}, {X: 30 * in, Y: 53 * in}, {Y: 53 * in}}},
		{Name: "Sliver", Outline: []cutopt.Point{{}, {X: 120 * in}, {X: 120*in + in/4, Y: 60 * in}, {Y: 60 * in}}},
		{
			Name: "Door", Outline: box(120*in, 60*in),
			Doorways: []cutopt.Doorway{{Wall: 0, At: 20 * in, Width: in / 2, Depth: 4 * in, Casing: cutopt.CasingMetal}},
		},
	}
	seen := map[string]bool{}
	german := newSpeech(&Options{Language: "de"}, measure.UnitInch, measure.Sixteenth)
	for _, room := range rooms {
		for _, across := range []measure.Length{0, 40 * in} {
			job := &cutopt.Job{
				Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
				Rules: cutopt.DefaultRules(measure.UnitInch), Rooms: []cutopt.Room{room},
			}
			if job.Rules.MaxAlong, job.Rules.MaxAcross = 10*across, across; across == 0 {
				job.Rules.MinRip = 6 * in
			}
			result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
			if err != nil {
				t.Errorf("%s: %v", room.Name, err)
				continue
			}
			for _, note := range result.Plan.Floors[0].Notes {
				said := german.remark(note)
				if said == note || strings.Contains(said, "{") {
					t.Errorf("%q is said as %q", note, said)
				}
				for _, r := range remarkForms {
					if r.form.MatchString(note) {
						seen[r.key] = true
					}
				}
			}
		}
	}
	t.Logf("%d of %d forms seen", len(seen), len(remarkForms))
	if len(seen) < len(remarkForms)-2 {
		t.Errorf("only the forms %v were met", seen)
	}
}
