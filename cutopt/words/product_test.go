package words_test

import (
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/words"
)

func TestProduct(t *testing.T) {
	const face = "Widths and gaps are measured on the face, without the tongue."
	job := func(p cutopt.Plank, room cutopt.From) *cutopt.Job {
		return &cutopt.Job{Plank: p, Rooms: []cutopt.Room{{Rows: cutopt.RowRules{LaidFrom: room}}}}
	}
	for _, row := range []struct {
		job  *cutopt.Job
		want []string
	}{
		{job(cutopt.Plank{}, cutopt.FromUnset), []string{
			"Whether the end or the long edge of a plank is joined first: see the product's instruction.",
			"Which long edge faces the starting wall, tongue or groove: see the product's instruction.",
			"Lay each row from the left, unless the product asks for the other end: see the product's instruction, " +
				"and make a new plan then.",
			face,
		}},
		{
			job(
				cutopt.Plank{Ends: cutopt.EndJoinDrop, ToWall: cutopt.LongEdgeTongue, From: cutopt.FromRight},
				cutopt.FromUnset,
			),
			[]string{
				"Angle the long edge of a plank into the row before first, then press its end down into the plank " +
					"before.",
				"The tongue of the first row faces the starting wall.",
				"Lay each row from the right, as the product asks.",
				face,
			},
		},
		{
			job(
				cutopt.Plank{Ends: cutopt.EndJoinAngle, ToWall: cutopt.LongEdgeGroove, From: cutopt.FromRight},
				cutopt.FromLeft,
			),
			[]string{
				"Join the end of a plank first, at an angle to the plank before, then its long edge to the row before.",
				"The groove of the first row faces the starting wall.",
				"Lay each row from the left, as the job asks.",
				face,
			},
		},
	} {
		if got := words.New("en", nil, measure.UnitInch, measure.Sixteenth).
			Product(row.job); !slices.Equal(
			got,
			row.want,
		) {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}
