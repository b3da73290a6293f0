package cut_test

import (
	"context"
	"encoding/json"
	"errors"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
	"plank.example/cutopt/stock/internal/tiny"
)

// narrow draws jobs whose linear bound is often short: few pieces of a third to a half of a stick.
func narrow(seed uint64) *stock.Job {
	r := rand.New(rand.NewPCG(seed, 41))
	job := &stock.Job{Sticks: []stock.Stick{{Length: 30, Price: 1}}}
	for _, at := range r.Perm(14)[:3+r.IntN(3)] {
		job.Pieces = append(job.Pieces, stock.Piece{Length: measure.Length(6 + at), Count: 1 + r.IntN(3)})
	}
	return job
}

// TestShortlist: a shortlist refutes a cost below the optimum often enough, in a way that verifies, and the optimum
// never. Whatever still verifies when one figure of it is changed is true. CUTOPT_SAMPLES tries more.
func TestShortlist(t *testing.T) {
	refuted, held, forged := 0, 0, 0
	for seed := range uint64(oracle.Samples(300)) {
		job := narrow(seed)
		if seed%3 == 0 {
			job = tiny.Job(rand.New(rand.NewPCG(seed, 42)))
		}
		best := tiny.Brute(job)
		if !best.Found {
			continue
		}
		if cut.RefuteByShortlist(job, best.Cost) != nil {
			t.Fatalf("seed %d: the optimum %d is refuted", seed, best.Cost)
		}
		r := cut.RefuteByShortlist(job, best.Cost-1)
		if r == nil {
			continue
		}
		refuted++
		c := &stock.Certificate{Refutations: []*stock.Refutation{r}}
		if v, err := stock.Verify(context.Background(), job, c); err != nil || v.Cost < best.Cost {
			t.Fatalf("seed %d: %+v, %v, the optimum is %d", seed, v, err, best.Cost)
		}
		text, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		rng := rand.New(rand.NewPCG(seed, 43))
		for range 20 {
			forge(t, text, rng, func(c *stock.Certificate) {
				v, err := stock.Verify(context.Background(), job, c)
				var wrong *stock.CertificateError
				switch {
				case err == nil && v.Cost > best.Cost:
					t.Fatalf("seed %d: a forged shortlist shows %d, the optimum is %d", seed, v.Cost, best.Cost)
				case err == nil:
					held++
				case errors.As(err, &wrong) || errors.Is(err, stock.ErrTooLarge):
					forged++
				default:
					t.Fatalf("seed %d: %v", seed, err)
				}
			})
		}
	}
	t.Logf("%d refuted; of forged ones %d refused, %d hold", refuted, forged, held)
	if refuted < 20 || forged < 200 {
		t.Errorf("%d refuted, %d forged ones refused: too few to tell", refuted, forged)
	}
}

// forge changes one figure of the first refutation's shortlist or claim.
func forge(t *testing.T, text []byte, rng *rand.Rand, use func(*stock.Certificate)) {
	t.Helper()
	c := new(stock.Certificate)
	if err := json.Unmarshal(text, c); err != nil {
		t.Fatal(err)
	}
	r := c.Refutations[0]
	figures := []*int64{&r.Claim.Cost}
	add := func(list []int64) {
		for i := range list {
			figures = append(figures, &list[i])
		}
	}
	list := r.Root.Shortlist
	for i := range list.Steps {
		s := &list.Steps[i]
		add(s.Values)
		add(s.Sticks)
		add(s.Roundings)
		figures = append(figures, &s.Cost, &s.Count)
	}
	for i := range list.Roundings {
		figures = append(figures, &list.Roundings[i].By)
		for k := range list.Roundings[i].Of {
			figures = append(figures, &list.Roundings[i].Of[k].Times)
		}
	}
	x := figures[rng.IntN(len(figures))]
	switch rng.IntN(5) {
	case 0:
		*x++
	case 1:
		*x = -*x
	case 2:
		*x *= 2
	case 3:
		*x = 0
	case 4:
		*x += rng.Int64() >> rng.IntN(63)
	}
	use(c)
}
