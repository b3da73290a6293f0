package trial

import (
	"context"
	"errors"
	"fmt"
	"io"
	"sync"
	"time"

	"plank.example/bench/processor"
	"plank.example/bench/sample"
	"plank.example/bench/strategy"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// Options steer Run. The zero value is ready to use.
type Options struct {
	Workers int // goroutines; default 1
	// Times measures times; without, records are the same on every machine. With one worker they are processor time of
	// this process, so that other work on the machine does not count; with more, and for a program of someone else, they
	// are by the clock.
	Times bool
	Limit time.Duration // of a program of someone else, for one floor
	// Own are strategies of the caller that the spec may name beside those of strategy.Known.
	Own []strategy.Strategy
	// Rooms are those of the mix sample.MixOutlines: a seed is an index.
	Rooms []*sample.Room
}

// draw makes the room of a seed.
func (o *Options) draw(mix sample.Mix, seed uint64) *sample.Room {
	if mix == sample.MixOutlines {
		return o.Rooms[seed]
	}
	return sample.Draw(mix, seed)
}

// clock returns what tells the time of a strategy.
func (o *Options) clock(s strategy.Strategy) func() time.Duration {
	if _, outside := s.(*strategy.Stream); outside || o.Workers > 1 {
		began := time.Now()
		return func() time.Duration { return time.Since(began) }
	}
	return processor.Time
}

// Run draws the rooms with seeds from..to-1, lays each under every setting by every strategy, and hands the records of
// one seed after the other to sink, in order. It ends at the first error of sink or of ctx. A strategy that fails is a
// record, not an error.
func Run(
	ctx context.Context,
	spec *Spec,
	from, to uint64,
	opt *Options,
	sink func(seed uint64, records []Record) error,
) error {
	if opt == nil {
		opt = new(Options)
	}
	settings, err := spec.Settings()
	if err != nil {
		return err
	}
	strategies, err := spec.Laying(opt.Limit, opt.Own...)
	if err != nil {
		return err
	}
	if err := checkMix(spec.Mix, to, opt.Rooms); err != nil {
		return err
	}
	defer func() {
		for _, s := range strategies {
			if c, ok := s.(io.Closer); ok { // programs of someone else
				c.Close()
			}
		}
	}()
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	workers := max(opt.Workers, 1)
	// Each seed gets a slot of its own; at most window seeds are under way or waiting for an earlier one.
	window := 4 * workers
	type job struct {
		seed uint64
		done chan []Record
	}
	jobs, order := make(chan job), make(chan job, window)
	var group sync.WaitGroup
	for range workers {
		group.Go(func() {
			for j := range jobs {
				j.done <- room(ctx, spec, j.seed, settings, strategies, opt)
			}
		})
	}
	go func() {
		defer close(jobs)
		defer close(order)
		for seed := from; seed < to; seed++ {
			j := job{seed, make(chan []Record, 1)}
			select {
			case order <- j:
			case <-ctx.Done():
				return
			}
			jobs <- j
		}
	}()
	defer group.Wait()
	for j := range order {
		records := <-j.done
		if err := ctx.Err(); err != nil {
			cancel()
			for range order { // let the feeder end
			}
			return err
		}
		if err := sink(j.seed, records); err != nil {
			cancel()
			for range order {
			}
			return err
		}
	}
	return ctx.Err()
}

// room makes the records of one seed.
func room(
	ctx context.Context,
	spec *Spec,
	seed uint64,
	settings []Setting,
	strategies []strategy.Strategy,
	opt *Options,
) []Record {
	drawn := opt.draw(spec.Mix, seed)
	out := make([]Record, 0, len(settings)*len(strategies))
	for i := range settings {
		set := &settings[i]
		base := Record{
			Seed: seed, Kind: string(drawn.Kind), Shape: string(drawn.Shape), Setting: set.Name,
			Net:    squareMillimetres(drawn.Net),
			PerBox: set.Product.Box.Planks,
			Plank:  squareMillimetres(measure.Area(set.Product.Plank.Length) * measure.Area(set.Product.Plank.Width)),
		}
		floor, err := strategy.FloorOf(set.Job(drawn), drawn.Net, seed)
		if err == nil {
			base.Runs, base.Rows, base.AreaBound = len(floor.Rows.Runs), rowsOf(floor), areaBound(floor.Rows)
			if a, terr := (strategy.Thumb{}).Lay(ctx, floor); terr == nil {
				base.Thumb = a.Buys
			}
		}
		for _, s := range strategies {
			r := base
			r.Strategy = s.Name()
			switch {
			case errors.Is(err, solve.ErrNoPlan):
				r.Outcome, r.Note = None, err.Error()
			case err != nil:
				r.Outcome, r.Note = Broken, err.Error()
			default:
				lay(ctx, s, floor, &r, spec, opt)
			}
			out = append(out, r)
		}
	}
	return out
}

// lay runs one strategy and judges it.
func lay(ctx context.Context, s strategy.Strategy, floor *strategy.Floor, r *Record, spec *Spec, opt *Options) {
	clock := opt.clock(s)
	start := clock()
	a, err := s.Lay(ctx, floor)
	if opt.Times {
		r.Micros = max((clock() - start).Microseconds(), 1)
	}
	var v *strategy.Verdict
	if err == nil {
		v, err = strategy.Judge(floor, a, spec.Verify)
	}
	if err == nil && spec.Layings > 0 && a.Plan != nil {
		r.Breakings, err = breakings(ctx, s, floor, spec.Layings)
	}
	switch {
	case errors.Is(err, strategy.ErrNone):
		r.Outcome = None
		var no *solve.InfeasibleError
		if errors.As(err, &no) {
			r.Note = "infeasible: " + no.Rule
		}
		return
	case err != nil:
		r.Outcome, r.Note = Broken, err.Error()
		return
	case a.Layout == nil && a.Planks > 0:
		r.Outcome = Counted
	case a.Layout == nil:
		r.Outcome = Bought
	default:
		r.Outcome = Laid
		r.OpenedPile = strategy.Opened(floor.Rows, a.Layout, true)
		r.OpenedLast = strategy.Opened(floor.Rows, a.Layout, false)
	}
	r.Planks, r.Boxes, r.Bound, r.BoxBound, r.Steps = v.Planks, v.Boxes, v.Bound, v.BoxBound, a.Steps
}

func rowsOf(floor *strategy.Floor) int {
	n := 0
	for _, l := range strategy.Levels(floor.Rows) {
		n = max(n, l+1)
	}
	return n
}

// areaBound is valid because every tick of a run is a tick of some plank.
func areaBound(in *rows.Instance) int {
	total := measure.Length(0)
	for _, r := range in.Runs {
		total += r.Length
	}
	return int((total + in.Plank - 1) / in.Plank)
}

// squareMillimetres rounds to the nearest.
func squareMillimetres(a measure.Area) int64 {
	const one = measure.Area(measure.Millimetre) * measure.Area(measure.Millimetre)
	return int64((a + one/2) / one)
}

// checkMix reports a mix that no rooms can be drawn of.
func checkMix(mix sample.Mix, to uint64, rooms []*sample.Room) error {
	if mix != sample.MixOutlines {
		_, err := sample.ParseMix(string(mix))
		return err
	}
	if to > uint64(len(rooms)) {
		return fmt.Errorf("trial: seeds up to %d of %d outlines", to, len(rooms))
	}
	return nil
}

// checkRange reports what is wrong with a range of seeds.
func checkRange(from, to uint64) error {
	if from >= to {
		return fmt.Errorf("trial: seeds from %d to %d: the range is empty", from, to)
	}
	return nil
}

// Shard returns the i-th of n parts of a range of seeds, as even as can be; parts are in order and cover the range.
func Shard(from, to uint64, i, n int) (uint64, uint64, error) {
	if err := checkRange(from, to); err != nil {
		return 0, 0, err
	}
	if n < 1 || i < 0 || i >= n || uint64(n) > to-from {
		return 0, 0, fmt.Errorf(
			"trial: shard %d of %d: shards count from 0, and each has at least one of the %d seeds",
			i,
			n,
			to-from,
		)
	}
	size, rest := (to-from)/uint64(n), (to-from)%uint64(n)
	begin := func(k uint64) uint64 { return from + k*size + min(k, rest) }
	return begin(uint64(i)), begin(uint64(i) + 1), nil
}
