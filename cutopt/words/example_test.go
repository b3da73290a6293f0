package words_test

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// What a plan says of its floors, and why another room cannot be laid, in two languages.
func Example() {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{{Name: "Store", Outline: cutopt.Rectangle(96*in, 95*in)}},
	}
	narrow := job.Clone()
	narrow.Rules.MinPiece = 30 * in
	narrow.Rooms[0].Outline = cutopt.Rectangle(55*in, 50*in)

	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	var no *solve.InfeasibleError
	if _, err := solve.Job(context.Background(), narrow, nil); !errors.As(err, &no) {
		fmt.Println(err)
		return
	}
	short := strings.NewReplacer(": ", ":\n  ", "; ", ";\n  ") // for a narrow page
	for _, language := range words.Languages() {
		speech := words.New(language, nil, job.Unit, job.Rules.Grid)
		for i := range result.Plan.Floors[0].Facts {
			fmt.Println(short.Replace(speech.Fact(job, &result.Plan.Floors[0].Facts[i])))
		}
		fmt.Println(short.Replace(speech.Findings(no.Why)))
	}
	// Output:
	// die Reihen sind von Wand 1 (Store) aus angelegt, 96 in:
	//   von 2 auf 1 % gleich langen Wänden die zuerst gemessene
	// eine Linie 5 1/2 in von Wand 1 (Store) schnüren:
	//   an ihr endet Reihe 1
	// Store Reihe 1 ist 54 1/2 in lang:
	//   mit Dielen von 48 in braucht sie ein Anfangs- und ein Endstück von je mindestens min-piece 30 in;
	//   ein kürzeres min-piece erlauben;
	//   fit 1/2 in macht das kürzeste Endstück um so viel länger
	// the rows are laid out from wall 1 of Store, 96 in:
	//   of 2 walls as long to within 1 % the one measured first
	// snap a line 5 1/2 in from wall 1 of Store:
	//   row 1 ends on it
	// Store row 1 is 54 1/2 in long:
	//   with planks of 48 in it needs a starter and an ender of at least min-piece 30 in each;
	//   allow a shorter min-piece;
	//   fit 1/2 in makes the shortest ender so much longer
}
