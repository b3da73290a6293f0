package stock_test

import (
	"slices"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// shelf is a job and a plan that keeps every rule: two sticks of 100 for pieces 40, 40, 40 and 30 with a kerf of 2.
func shelf() (*stock.Job, *stock.Plan) {
	job := &stock.Job{
		Unit:   measure.UnitMillimetre,
		Sticks: []stock.Stick{{Length: 102, Waste: 1, Price: 7}, {Length: 50, OnHand: true, Supply: 1}},
		Pieces: []stock.Piece{{Length: 40, Count: 3}, {Length: 30, Count: 1}},
		Kerf:   2, Keep: 10,
	}
	plan := &stock.Plan{
		Cuttings: []stock.Cutting{
			{Stick: 0, Count: 1, Pieces: []stock.Cut{{Piece: 0, Count: 2}}, Offcut: 16},
			{Stick: 0, Count: 1, Pieces: []stock.Cut{{Piece: 0, Count: 1}, {Piece: 1, Count: 1}}, Offcut: 26},
		},
		Cost: 14, Sticks: 2, Offcut: 26,
	}
	return job, plan
}

func TestCheck(t *testing.T) {
	if job, _ := shelf(); len(stock.Check(job, nil)) == 0 {
		t.Error("a plan that is none cuts everything")
	}
	for _, c := range []struct {
		name   string
		change func(*stock.Job, *stock.Plan)
		rules  []string
	}{
		{"as it is", func(*stock.Job, *stock.Plan) {}, nil},
		{"a stick that there is not", func(_ *stock.Job, p *stock.Plan) { p.Cuttings[0].Stick = 2 }, []string{
			"stick",
			"pieces",
		}},
		{"a stick below 0", func(_ *stock.Job, p *stock.Plan) { p.Cuttings[0].Stick = -1 }, []string{"stick", "pieces"}},
		{
			"a piece that there is not", func(_ *stock.Job, p *stock.Plan) { p.Cuttings[0].Pieces[0].Piece = 2 },
			[]string{"piece", "pieces"},
		},
		{"no sticks", func(_ *stock.Job, p *stock.Plan) { p.Cuttings[0].Count = 0 }, []string{"count", "pieces"}},
		{
			"more sticks than can be counted", func(_ *stock.Job, p *stock.Plan) { p.Cuttings[0].Count = 1 << 62 },
			[]string{"count", "pieces"},
		},
		{"no pieces", func(_ *stock.Job, p *stock.Plan) { p.Cuttings[0].Pieces = nil }, []string{"piece", "pieces"}},
		{"a piece below 0", func(_ *stock.Job, p *stock.Plan) { p.Cuttings[1].Pieces[0].Count = -1 }, []string{
			"count",
			"pieces", "pieces",
		}},
		{"too long by a tick: 98 + 2 x 2 - 2 is the usable 100", func(j *stock.Job,
			_ *stock.Plan,
		) {
			j.Pieces[0].Length = 50
		}, []string{"fit", "offcut", "pieces"}},
		{"the last kerf may run out of the stick", func(j *stock.Job, p *stock.Plan) {
			j.Pieces[0].Length, p.Cuttings[0].Offcut, p.Cuttings[1].Offcut = 49, 0, 17
			p.Offcut = 17
		}, nil},
		{
			"an offcut that is longer than it is", func(_ *stock.Job, p *stock.Plan) { p.Cuttings[0].Offcut = 17 },
			[]string{"offcut"},
		},
		{"a stick on hand used twice", func(_ *stock.Job, p *stock.Plan) {
			p.Cuttings = []stock.Cutting{
				{Stick: 1, Count: 3, Pieces: []stock.Cut{{Piece: 0, Count: 1}}, Offcut: 8},
				{Stick: 0, Count: 1, Pieces: []stock.Cut{{Piece: 1, Count: 1}}, Offcut: 68},
			}
			p.Cost, p.Sticks, p.Offcut = 7, 4, 68
		}, []string{"supply"}},
		{"a piece too few", func(_ *stock.Job, p *stock.Plan) { p.Cuttings = p.Cuttings[:1] }, []string{"pieces", "pieces"}},
		{"a piece too many", func(j *stock.Job, _ *stock.Plan) { j.Pieces[1].Count = 2 }, []string{"pieces"}},
		{"cost", func(_ *stock.Job, p *stock.Plan) { p.Cost = 13 }, []string{"cost"}},
		{"sticks", func(_ *stock.Job, p *stock.Plan) { p.Sticks = 3 }, []string{"sticks"}},
		{"offcut of the plan", func(_ *stock.Job, p *stock.Plan) { p.Offcut = 16 }, []string{"offcut"}},
		{"none is worth keeping", func(j *stock.Job, p *stock.Plan) { j.Keep, p.Offcut = 27, 0 }, nil},
	} {
		job, plan := shelf()
		c.change(job, plan)
		var rules []string
		for _, v := range stock.Check(job, plan) {
			rules = append(rules, v.Rule)
		}
		if !slices.Equal(rules, c.rules) {
			t.Errorf("%s: broken are %q, want %q", c.name, rules, c.rules)
		}
	}
}
