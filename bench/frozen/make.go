package frozen

import (
	"context"
	"errors"
	"fmt"

	"plank.example/bench/mip"
	"plank.example/bench/sample"
	"plank.example/bench/strategy"
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// Make draws the instances that came with version 1 of the set, without results. IDs say where each comes from:
//
//	quarter-S   mip.Draw of seed S: plain and angled rooms on a 1/4 in grid, for general solvers
//	dwelling-S  dwelling rooms of seed S of package sample, with products and rules in turn
//	office-S    offices
//	hall-S      halls: up to about a hundred rows
//	tight-S     dwelling rooms where stagger and shortest piece leave few starters
//
// Rooms in which no plan keeps the rules are passed over.
func Make() ([]*Entry, error) {
	var out []*Entry
	for seed := range uint64(80) {
		in := mip.Draw(seed + 1)
		in.Name = ""
		out = append(out, &Entry{
			ID: fmt.Sprintf("quarter-%d", seed+1), Origin: fmt.Sprintf("mip.Draw(%d)", seed+1), Instance: in,
		})
	}
	for _, part := range []struct {
		name  string
		mix   sample.Mix
		count int
		tight bool
	}{
		{"dwelling", sample.MixDwelling, 120, false},
		{"office", sample.MixOffice, 40, false},
		{"hall", sample.MixHall, 30, false},
		{"tight", sample.MixDwelling, 60, true},
	} {
		first := uint64(0)
		if part.tight {
			first = 10_000 // other rooms than those of dwelling
		}
		for seed, n := first, 0; n < part.count; seed++ {
			e, err := drawn(part.name, part.mix, seed, part.tight)
			var no *solve.InfeasibleError
			if errors.As(err, &no) || e != nil && len(e.Instance.Runs) < 4 {
				continue
			}
			if err != nil {
				return nil, err
			}
			out = append(out, e)
			n++
		}
	}
	return out, nil
}

// drawn makes the instance of a sample room. Products and rules go by the seed.
func drawn(name string, mix sample.Mix, seed uint64, tight bool) (*Entry, error) {
	products := sample.Products()
	product := products[seed%uint64(len(products))]
	rules := cutopt.DefaultRules(measure.UnitInch)
	rules.Loss = 0 // boxes hold the planks and no more
	pairs := [][2]measure.Length{{8, 8}, {6, 6}, {8, 12}, {12, 8}, {10, 6}, {6, 10}, {12, 12}}
	if tight {
		pairs = [][2]measure.Length{{8, 15}, {15, 8}, {12, 14}, {10, 16}, {16, 10}}
	}
	pair := pairs[seed/uint64(len(products))%uint64(len(pairs))]
	rules.MinPiece, rules.Stagger = pair[0]*measure.Inch, pair[1]*measure.Inch
	in, err := solve.Instance(sample.Draw(mix, seed).Job(product, &rules))
	if err != nil {
		return nil, err
	}
	for i := range in.Runs {
		in.Runs[i].Name = ""
	}
	in.Name = ""
	if _, err := (strategy.Carry{}).Lay(context.Background(), &strategy.Floor{Rows: in}); err != nil {
		if _, err := solve.Rows(context.Background(), in, &solve.Options{Effort: solve.EffortQuick}); err != nil {
			return nil, err
		}
	}
	return &Entry{
		ID: fmt.Sprintf("%s-%d", name, seed), Instance: in,
		Origin: fmt.Sprintf("sample.Draw(%q, %d), %s, shortest piece %d in, stagger %d in", mix, seed, product.Name, pair[0], pair[1]),
	}, nil
}

// Same reports whether two instances are the same problem.
func Same(a, b *rows.Instance) bool {
	return a != nil && b != nil && fmt.Sprint(*a) == fmt.Sprint(*b)
}
