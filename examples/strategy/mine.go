package main

import (
	"context"

	"plank.example/bench/strategy"
	"plank.example/cutopt/rows"
)

// Mine starts each run with the shortest starter that the rules allow beside the runs laid before it.
type Mine struct{}

func (Mine) Name() string { return "mine" }

func (Mine) Lay(_ context.Context, floor *strategy.Floor) (*strategy.Answer, error) {
	layout := make(rows.Layout, len(floor.Rows.Runs)) // 0: in one piece, where that is enough
	for i := range layout {
		for ; !strategy.Fits(floor.Rows, layout, i); layout[i] += floor.Rows.Grid {
			if layout[i] > floor.Rows.Plank {
				return nil, strategy.ErrNone
			}
		}
	}
	return &strategy.Answer{Layout: layout}, nil
}
