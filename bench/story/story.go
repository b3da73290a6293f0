// Package story tells how floors come to lie: a sample room is planned and laid piece by piece, planks turn out to be
// of no use or are sawn in the wrong place, offcuts are mixed up, and a wall stands elsewhere than it was measured. At
// each such event the job is planned on, until the floor is down.
//
// A length that differs by no more than the fit allowance is cut to fit where a plan of it takes more planks: the plan
// before holds for that. The habits lay the floor that came of it, by the same rules and with the same allowance.
//
// [Draw] makes a story of a seed, [Story.Tell] tells it and holds every plan on the way against package check.
// [Story.Why] says what it is owed to that one took more planks than by habit.
package story

import (
	"math/rand/v2"

	"plank.example/bench/sample"
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A Story is a room and what will happen in it. It only reads what it was drawn with.
type Story struct {
	Seed  uint64
	Job   *cutopt.Job
	Loss  float64 // two thirds of it are the chance that a plank opened is culled, a third that one sawn is miscut
	Mixed float64 // chance that an offcut is gone when its turn comes; Draw leaves it 0

	// ChangeRow is the row, as a share of all, from which on the wall where rows end stands Change farther out; 0 for a
	// room as it was measured.
	ChangeRow float64
	Change    measure.Length

	Aside float64 // where in the story what-ifs are asked, as a share of the pieces
}

// Losses are the least and the greatest chance that a plank is lost.
const (
	LeastLoss = 0.02
	MostLoss  = 0.10
)

// Draw makes the story of a seed: a room of the mix and one of the products, losses drawn evenly between LeastLoss and
// MostLoss, and in half of the rooms a wall that stands up to 1/2 in farther out or in from some row on.
func Draw(mix sample.Mix, products []*sample.Product, rules *cutopt.Rules, seed uint64) *Story {
	r := rand.New(rand.NewPCG(seed, 23))
	product := products[r.IntN(len(products))]
	s := &Story{
		Seed: seed, Job: sample.Draw(mix, seed).Job(product, rules), Loss: LeastLoss + (MostLoss-LeastLoss)*r.Float64(),
		Aside: r.Float64(),
	}
	if r.IntN(2) == 0 {
		s.ChangeRow = 0.1 + 0.8*r.Float64()
		s.Change = measure.Length(1+r.IntN(8)) * measure.Sixteenth
		if r.IntN(2) == 0 {
			s.Change = -s.Change
		}
	}
	return s
}

// luck draws the n-th of a kind.
func (s *Story) luck(kind, n int) *rand.Rand {
	return rand.New(rand.NewPCG(s.Seed, uint64(kind)<<32+uint64(n)))
}

// Culled reports whether the n-th plank opened, from 0, is of no use.
func (s *Story) Culled(n int) bool { return s.luck(1, n).Float64() < s.Loss*2/3 }

// Miscut returns where the n-th plank sawn, from 0, is sawn in the wrong place, from its left end; 0 for nowhere.
func (s *Story) Miscut(n int) measure.Length {
	const tenths = 10
	r := s.luck(2, n)
	if r.Float64() >= s.Loss/3 {
		return 0
	}
	return s.Job.Plank.Length / tenths * measure.Length(1+r.IntN(tenths-1))
}

// Gone reports whether the n-th offcut taken, from 0, is gone.
func (s *Story) Gone(n int) bool { return s.luck(3, n).Float64() < s.Mixed }
