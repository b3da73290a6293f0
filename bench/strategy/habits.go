package strategy

import (
	"context"
	"math/big"
	"math/bits"
	"math/rand/v2"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Carry is the trade's habit: each run starts with the offcut of the run before, at full length where the rules allow,
// else sawn back to the longest starter that keeps them, else with a new plank. It takes O(runs * grid lines of a
// plank).
type Carry struct{}

// Name returns "carry".
func (Carry) Name() string { return "carry" }

// Lay returns ErrNone when it comes to a run that has no starter left.
func (Carry) Lay(_ context.Context, floor *Floor) (*Answer, error) {
	l := newLaying(floor.Rows)
	in := floor.Rows
	offcut := measure.Length(0)
	for i := range in.Runs {
		s, ok := l.longest(i, offcut)
		if !ok {
			s, ok = l.longest(i, in.Plank)
		}
		if !ok {
			return nil, ErrNone
		}
		p := l.lay(i, s)
		offcut = max(in.Plank-in.Kerf-max(p.Ender, p.Single), 0)
	}
	return &Answer{Layout: l.layout}, nil
}

// Steps is a fixed pattern: the joints of each row are moved by one N-th of a plank against the row before, halves for
// N = 2 and thirds for 3. The pattern as a whole slides from a whole plank at the left wall to the first place where
// every run keeps the rules. Where no place does, a run out of step takes the starter nearest to the pattern that keeps
// them. It takes O(runs * grid lines of a plank).
type Steps struct{ N int }

// Name returns "halves", "thirds", "quarters" or "steps".
func (s Steps) Name() string {
	switch s.N {
	case 2:
		return "halves"
	case 3:
		return "thirds"
	case 4:
		return "quarters"
	}
	return "steps"
}

// Lay returns ErrNone when a run is left without a starter.
func (s Steps) Lay(_ context.Context, floor *Floor) (*Answer, error) {
	in := floor.Rows
	level := Levels(in)
	wall := in.Runs[0].From
	for _, r := range in.Runs {
		wall = min(wall, r.From)
	}
	// starter of run i when the pattern is slid by some lines of the grid
	starter := func(i, lines int) measure.Length {
		joint := wall - measure.Length(lines)*in.Grid - in.Plank*measure.Length(level[i]%s.N)/measure.Length(s.N)
		from := in.Runs[i].From
		x := ((joint-from)%in.Plank + in.Plank) % in.Plank
		if x < in.Grid {
			return in.Plank
		}
		return x.Floor(in.Grid)
	}
	lines := int(in.Plank / in.Grid)
slide:
	for k := range lines {
		l := newLaying(in)
		for i := range in.Runs {
			if x := starter(i, k); l.may(i, x) {
				l.lay(i, x)
			} else if l.may(i, 0) {
				l.lay(i, 0)
			} else {
				continue slide
			}
		}
		return &Answer{Layout: l.layout}, nil
	}
	l := newLaying(in)
	for i := range in.Runs {
		x, ok := l.nearest(i, starter(i, 0))
		if !ok {
			return nil, ErrNone
		}
		l.lay(i, x)
	}
	return &Answer{Layout: l.layout}, nil
}

// Random draws each starter at even odds from those that keep the rules; the layer who "mixes it up". Where a run is
// left without one it begins again, up to 50 times. It draws from the floor's seed.
type Random struct{}

// Name returns "random".
func (Random) Name() string { return "random" }

// Lay returns ErrNone when 50 beginnings come to nothing.
func (Random) Lay(_ context.Context, floor *Floor) (*Answer, error) {
	in := floor.Rows
	r := rand.NewPCG(floor.Seed, 7)
begin:
	for range 50 {
		l := newLaying(in)
		for i := range in.Runs {
			var may []measure.Length
			l.each(i, func(s measure.Length) bool { may = append(may, s); return true })
			if len(may) == 0 {
				continue begin
			}
			at, _ := bits.Mul64(r.Uint64(), uint64(len(may)))
			l.lay(i, may[at])
		}
		return &Answer{Layout: l.layout}, nil
	}
	return nil, ErrNone
}

// Thumb buys by the rule of thumb and lays nothing: floor area plus the job's waste allowance, in whole boxes.
type Thumb struct{}

// Name returns "thumb".
func (Thumb) Name() string { return "thumb" }

// Lay returns ErrNone for a bare instance, which has no area.
func (Thumb) Lay(_ context.Context, floor *Floor) (*Answer, error) {
	if floor.Job == nil {
		return nil, ErrNone
	}
	p := floor.Job.Plank
	box := new(big.Int).Mul(big.NewInt(int64(p.Length)), big.NewInt(int64(p.Width)))
	box.Mul(box, big.NewInt(100*int64(floor.PerBox)))
	share := new(big.Rat).SetFloat64(floor.Job.Rules.WasteAllowance)
	need := share.Add(share, big.NewRat(100, 1))
	need.Mul(need, new(big.Rat).SetInt64(int64(floor.Net)))
	need.Quo(need, new(big.Rat).SetInt(box))
	boxes, rest := new(big.Int).DivMod(need.Num(), need.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		boxes.Add(boxes, big.NewInt(1))
	}
	return &Answer{Buys: int(boxes.Int64())}, nil
}

// Levels returns the row that each run stands in, from 0: one more than the furthest touching run before it.
func Levels(in *rows.Instance) []int {
	level := make([]int, len(in.Runs))
	for _, t := range in.Touch { // lower index first, so one pass in order of the higher index would do
		level[t[1]] = max(level[t[1]], level[t[0]]+1)
	}
	for again := true; again; {
		again = false
		for _, t := range in.Touch {
			if level[t[1]] <= level[t[0]] {
				level[t[1]], again = level[t[0]]+1, true
			}
		}
	}
	return level
}
