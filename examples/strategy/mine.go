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
	in := floor.Rows
	layout := make(rows.Layout, len(in.Runs)) // 0: in one piece, where that is enough
	for i := range layout {
		for ; !fits(in, layout, i); layout[i] += in.Grid {
			if layout[i] > in.Plank {
				return nil, strategy.ErrNone
			}
		}
	}
	return &strategy.Answer{Layout: layout}, nil
}

func fits(in *rows.Instance, layout rows.Layout, i int) bool {
	mine, ok := in.Lay(i, layout[i])
	for _, t := range in.Touch {
		if ok && t[1] == i { // t[0] is laid already
			other, _ := in.Lay(t[0], layout[t[0]])
			ok = !in.Clash(in.Runs[i].From+layout[i], mine.Joints(), in.Runs[t[0]].From+layout[t[0]], other.Joints())
		}
	}
	return ok
}
