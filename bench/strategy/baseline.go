package strategy

import (
	"context"
	"fmt"
	"math/bits"
	"math/rand/v2"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// Area counts the planks that all runs together fill, end to end: a bound that no layout goes below, and no layout.
type Area struct{}

// Name returns "area".
func (Area) Name() string { return "area" }

// Lay takes O(runs).
func (Area) Lay(_ context.Context, floor *Floor) (*Answer, error) {
	total, plank := measure.Length(0), floor.Rows.Plank
	for _, r := range floor.Rows.Runs {
		total += r.Length
	}
	return &Answer{Planks: int((total + plank - 1) / plank)}, nil
}

// Stock is classical cutting stock with no thought of joints: each run is whole planks and one rest, all rests are cut
// from as few planks as can be (packages stock and stock/cut), whichever end they have. It counts planks; the joints
// lie in line, so it is no layout.
type Stock struct{}

// Name returns "stock".
func (Stock) Name() string { return "stock" }

// Lay takes the time of cut.Solve at quick effort.
func (Stock) Lay(ctx context.Context, floor *Floor) (*Answer, error) {
	in := floor.Rows
	planks, rests := 0, make(map[measure.Length]int)
	for _, r := range in.Runs {
		planks += int(r.Length / in.Plank)
		if rest := r.Length % in.Plank; rest > 0 {
			rests[rest]++
		}
	}
	if len(rests) == 0 {
		return &Answer{Planks: planks}, nil
	}
	job := &stock.Job{Kerf: in.Kerf, Sticks: []stock.Stick{{Length: in.Plank}}}
	for length, count := range rests {
		job.Pieces = append(job.Pieces, stock.Piece{Length: length, Count: count})
	}
	slices.SortFunc(job.Pieces, func(a, b stock.Piece) int { return int(b.Length - a.Length) })
	r, err := cut.Solve(ctx, job, &cut.Options{Aim: cut.AimCost, Effort: cut.EffortQuick})
	if err != nil {
		return nil, err
	}
	return &Answer{Planks: planks + r.Plan.Sticks}, nil
}

// Draws is the best of so many layouts of Random.
type Draws struct{ N int }

// Name returns "random-N".
func (d Draws) Name() string { return fmt.Sprint("random-", d.N) }

// Lay returns ErrNone where Random finds no layout. It takes N times as long.
func (d Draws) Lay(ctx context.Context, floor *Floor) (*Answer, error) {
	var best *Answer
	least := 0
	drawn := *floor
	for i := range uint64(d.N) {
		drawn.Seed = floor.Seed + i<<32 // the first is Random's own
		a, err := Random{}.Lay(ctx, &drawn)
		if err != nil {
			return nil, err
		}
		if n := floor.Rows.CountBestFit(a.Layout); best == nil || n < least {
			best, least = a, n
		}
	}
	return best, nil
}

// Search is local search without a bound: from the layout of Pile, N times a run and another starter for it are drawn;
// what keeps the rules and needs no more planks is taken. It draws from the floor's seed.
type Search struct{ N int }

// Name returns "search-N".
func (s Search) Name() string { return fmt.Sprint("search-", s.N) }

// Lay returns ErrNone where neither Pile nor Random finds a layout to begin with. It takes O(N * runs * log).
func (s Search) Lay(ctx context.Context, floor *Floor) (*Answer, error) {
	a, err := Pile{}.Lay(ctx, floor)
	if err != nil {
		if a, err = (Random{}).Lay(ctx, floor); err != nil {
			return nil, err
		}
	}
	in := floor.Rows
	beside := neighbours(in)
	draws := rand.NewPCG(floor.Seed, 11)
	below := func(n int) int { hi, _ := bits.Mul64(draws.Uint64(), uint64(n)); return int(hi) }
	lines := int(in.Plank / in.Grid)
	least := in.CountBestFit(a.Layout)
	for range s.N {
		i := below(len(in.Runs))
		before, starter := a.Layout[i], measure.Length(1+below(lines))*in.Grid
		if starter+in.Grid > in.Plank {
			starter = in.Plank
		}
		if a.Layout[i] = starter; before > 0 && keeps(in, a.Layout, i, beside[i]) {
			if n := in.CountBestFit(a.Layout); n <= least {
				least = n
				continue
			}
		}
		a.Layout[i] = before
	}
	return a, nil
}

// neighbours lists by run those that it touches.
func neighbours(in *rows.Instance) [][]int {
	out := make([][]int, len(in.Runs))
	for _, t := range in.Touch {
		out[t[0]], out[t[1]] = append(out[t[0]], t[1]), append(out[t[1]], t[0])
	}
	return out
}

// keeps reports whether run i of a layout keeps the rules.
func keeps(in *rows.Instance, layout rows.Layout, i int, beside []int) bool {
	p, ok := in.Lay(i, layout[i])
	for _, j := range beside {
		if !ok {
			break
		}
		q, _ := in.Lay(j, layout[j])
		ok = !in.Clash(in.Runs[i].From+layout[i], p.Joints(), in.Runs[j].From+layout[j], q.Joints())
	}
	return ok
}

// Apart plans each room of a job on its own, with the fewest planks: no offcut goes from room to room. Their planks are
// bought together, or for each room in whole boxes. It counts planks.
type Apart struct {
	Effort solve.Effort
	Boxes  bool // bought for each room
}

// Name returns "apart", or "apart-boxes".
func (a Apart) Name() string {
	if a.Boxes {
		return "apart-boxes"
	}
	return "apart"
}

// Lay returns ErrNone where a room cannot be laid, and for a bare instance.
func (a Apart) Lay(ctx context.Context, floor *Floor) (*Answer, error) {
	if floor.Job == nil {
		return nil, ErrNone
	}
	out := new(Answer)
	for _, room := range floor.Job.Rooms {
		job := *floor.Job
		job.Rooms, job.Aims = []cutopt.Room{room}, []cutopt.Aim{}
		r, err := solve.Job(ctx, &job, &solve.Options{Effort: a.Effort, Fewest: solve.FewestPlanks})
		if err != nil {
			return nil, none(err)
		}
		out.Planks += r.Plan.Order.Planks
		if a.Boxes {
			out.Buys += r.Plan.Order.Boxes
		}
	}
	return out, nil
}
