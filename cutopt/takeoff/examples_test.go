package takeoff_test

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// example plans an example and says its take-off in English.
func example(t *testing.T, name string) (*cutopt.Takeoff, *words.Listing) {
	t.Helper()
	f, err := os.Open("../../examples/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	job, err := jobfile.Decode(f, name)
	if err != nil {
		t.Fatal(err)
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	list := judged(t, job, result.Plan)
	return list, words.New("en", nil, job.Unit, job.Rules.Grid).Takeoff(job, list)
}

// TestExamples holds the take-offs of the examples against figures reckoned by hand, line by line; the planks are those
// of the plan. Each row is what, needed, to buy and price.
func TestExamples(t *testing.T) {
	for _, c := range []struct {
		name  string
		rows  []string
		total string
	}{
		{"den.yaml", []string{
			// Strips across are (174 - 0)/(48 - 0) = 3.6, 4 of 131 in, two from each roll of 300 in. Along they are
			// 131/48 = 2.7, 3 of 174 in, each from a roll of its own.
			"Underlay, Foam | 4 strips, 158.3 sq ft | 2 rolls of 48 in x 300 in | 78.00",
			// Across (174 - 8)/(120 - 8) = 1.5, 2 of 131 in: 262 in of one roll. Along 2 of 174 in: two rolls.
			"Film, 6 mil | 2 strips, 158.3 sq ft | 1 roll of 120 in x 300 in | 22.00",
			// 3 seams of the underlay and 1 of the film, 131 in each.
			"Tape | 524 in | 1 roll of 2160 in | 8.50",
			// 174/24 = 7.25, 8 spans and 9 spacers; 131/24 = 5.5, 6 spans and 7 spacers: 2 x 9 + 2 x 7.
			"Spacers | 32 | 1 pack of 40 | 5.90",
			// Two walls of 174 in take 16 ft, two of 131 in 12 ft; no stick holds two walls. 2 x 14.90, 2 x 19.80.
			"Base, 3 1/2 in primed | 4 pieces, 610 in | 2 sticks of 144 in; 2 sticks of 192 in | 29.80; 39.60",
		}, "682.80"}, // with 499.00 for planks
		{"hall.yaml", []string{
			"Underlay | none: attached |  | ",
			"Film | 83.8 sq ft, if asked for |  | ",
			// From wall 1, in inches: 194.1, 8.1 spans of 24 in, 10 spacers; 7 and 7 beside the garden door, 2 and 2;
			// 66, 4; 25, 3; 56, 4; 25, 3; 72.2, 3.01 spans, 5; 8 and 10 beside the cellar door, 2 and 2: 37. Closet:
			// 62, 4, and 28, 3, twice: 14.
			"Spacers | 51 | 2 packs of 40 | 11.80",
			// 650 1/4 in of wall less 4 casings of 2 1/4 in, 4 ends at the 2 outside corners of 1/2 in, wall 1 of 194
			// 1/8 in spliced, 1/2 in; each piece rounded up. Less the 75 in on hand that is 3.95 sticks of 12 ft.
			"Base, 4 1/4 in primed | 15 pieces, 53' 7 7/8\" | 4 sticks of 12' 0\" | 65.60",
			// Wall 1 takes three pieces, of which the last two share: 3 5/8 in would be left. Eight pieces are longer
			// than half a stick: wall 1 three times, 73, 66 3/4, 62, 62 and 56 in.
			"Quarter round | 16 pieces, 53' 9 7/8\" | 8 sticks of 8' 0\" | 32.80",
			"Edge profile, brushed metal | 2 pieces, 5' 0\" | 1 stick of 6' 0\" | 24.50",
			// 32 + 28 in and a kerf of 72 in
		}, "366.70"}, // with 232.00 for planks
		{"dwelling.yaml", []string{
			"Kept for repairs | 2 planks |  | ",
			// Across in all rooms: 214/36, 6; 151/36, 5; 143.5/36, 4; 196/36, 6; 118/36, 4; 92/36, 3. They are 5 x 163
			// and 108, 5 x 137, 4 x 126 1/4, 6 x 44 1/2, 4 x 97 3/4, 2 x 88 and 61 in: 3008 in, 7.5 rolls of 400 in.
			"Underlay, Felt | 28 strips, 680.8 sq ft | 8 rolls of 36 in x 400 in | 352.00",
			"Film | 680.8 sq ft, if asked for |  | ",
			"Spacers | 179 | 4 packs of 50 | 24.80",
			// 3142 in of walls less the hearth's 54 in and its three free edges, 54 + 18 + 18 in; 8 ends at outside
			// corners (2 in the parlour, 4 at the hearth, 2 in the boot room) and 3 splices of 5/8 in each.
			"Base, 5 in primed | 35 pieces, 3184 7/8 in | 8 sticks of 144 in; 11 sticks of 192 in | 151.20; 281.60",
		}, "2665.60"}, // with 1856.00 for planks
	} {
		list, text := example(t, c.name)
		var rows []string
		for i, row := range text.Rows {
			if kind := list.Items[i].Kind; kind != cutopt.ItemPlanks && kind != cutopt.ItemDisposal {
				rows = append(rows, strings.ReplaceAll(strings.Join(row, " | "), "\n", "; "))
			}
		}
		if diff := cmp.Diff(c.rows, rows); diff != "" {
			t.Errorf("%s (-by hand +take-off):\n%s", c.name, diff)
		}
		if !strings.HasPrefix(text.Total, c.total+" ") {
			t.Errorf("%s: %s; by hand it is %s", c.name, text.Total, c.total)
		}
	}
}
