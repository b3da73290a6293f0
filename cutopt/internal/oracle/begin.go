package oracle

import (
	"math/rand/v2"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Begin begins about every third run of a small instance, with any starter on the grid or a whole plank, however short
// its ender comes out.
func Begin(r *rand.Rand, in *rows.Instance) {
	for i := range in.Runs {
		run := &in.Runs[i]
		s := measure.Length(1+r.IntN(int(in.Plank/in.Grid))) * in.Grid
		if r.IntN(3) == 0 {
			s = in.Plank
		}
		if r.IntN(3) == 0 && s < run.Length {
			run.Starter = s
		}
	}
}
