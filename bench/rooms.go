package main

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"sync"
	"sync/atomic"

	"plank.example/bench/sample"
	"plank.example/bench/tables"
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// roomsFlags say which rooms are planned, and by which rules.
type roomsFlags struct {
	mix, plank string
	from, to   uint64
	fits       []string
	losses     []string
	spare      string
	kept       cutopt.Spare // which spare says
	workers    int
}

func roomsCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	var r roomsFlags
	f := newFlags("rooms", errw)
	f.StringVar(&r.mix, "mix", string(sample.MixRectangle), "rooms: rectangle, dwelling, office, hall or mixed")
	f.StringVar(&r.plank, "plank", "48x7:8", "the product, length x width in inches, :N for N planks in a box")
	f.Uint64Var(&r.from, "from", 0, "first seed")
	f.Uint64Var(&r.to, "to", 120, "seed after the last")
	f.StringSliceVar(&r.fits, "fit", []string{"1/8 in", "1/2 in"}, "fit allowances, each a line of the tables")
	f.StringSliceVar(&r.losses, "loss", []string{"0 %", "2 %"}, "losses assumed, each a line of the tables")
	f.StringVar(&r.spare, "spare", "0", `whole planks to keep: 4, "3 %" of those laid, or "1 box per 50"`)
	f.IntVar(&r.workers, "workers", runtime.NumCPU(), "rooms planned at a time")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	product, err := sample.ParseProduct(r.plank)
	if err != nil {
		return fmt.Errorf("--plank: %w; %w", err, errUsage)
	}
	if mix := sample.Mix(r.mix); mix != sample.MixRectangle {
		if _, err := sample.ParseMix(r.mix); err != nil {
			return fmt.Errorf("--mix: %w; %w", err, errUsage)
		}
	}
	if r.kept, err = cutopt.ParseSpare(r.spare); err != nil {
		return fmt.Errorf("--spare: %w; %w", err, errUsage)
	}
	bought := &tables.Grid{Head: []string{
		"fit", "loss", "rooms", "boxes to buy", "of the fewest planks", "rooms where they differ", "rule of thumb",
		"rooms above it", "below it", "settled",
	}}
	looks := &tables.Grid{Head: []string{
		"fit", "loss", "planks", "fewest", "H-joints", "chains", "rooms with one", "of eight steps", "staircases", "clusters",
		"least stagger in", "crosscuts", "offcuts at once", "rows waited", "odd starters", "as they come",
	}}
	above := &tables.Grid{Head: []string{
		"fit", "loss", "seed", "boxes", "rule of thumb", "fewest planks", "proven", "risk of the rule of thumb",
	}}
	for _, fit := range r.fits {
		for _, loss := range r.losses {
			rules, err := r.rules(fit, loss)
			if err != nil {
				return err
			}
			if err := sample.Any(sample.Mix(r.mix), r.from).Job(product, rules).Validate(); err != nil {
				return fmt.Errorf("--fit %q --loss %q: %w; %w", fit, loss, err, errUsage)
			}
			s, err := r.plan(ctx, product, rules)
			if err != nil {
				return err
			}
			bought.Add(s.bought(fit, loss)...)
			s.above(above, fit, loss)
			looks.Add(s.looks(fit, loss)...)
		}
	}
	if err := bought.Text(out); err != nil {
		return err
	}
	fmt.Fprintln(out)
	if err := looks.Text(out); err != nil {
		return err
	}
	fmt.Fprintln(out, "\nRooms above the rule of thumb:")
	return above.Text(out)
}

// rules are the defaults, with the given fit allowance and loss.
func (r *roomsFlags) rules(fit, loss string) (*cutopt.Rules, error) {
	rules := cutopt.DefaultRules(measure.UnitInch)
	for _, rule := range cutopt.RuleTable() {
		for key, text := range map[string]string{"fit": fit, "loss": loss} {
			if rule.Key != key {
				continue
			}
			if err := rule.Parse(&rules, text, measure.UnitInch); err != nil {
				return nil, fmt.Errorf("--%s %q: %w; %w", key, text, err, errUsage)
			}
		}
	}
	return &rules, nil
}

// A purchase is what one room is told to buy, and how its floor looks.
type purchase struct {
	seed    uint64
	order   cutopt.Order
	bound   int     // planks that are proven to be needed
	thumb   float64 // the chance that the boxes of the rule of thumb run short of the floor of fewest planks
	fewest  int     // boxes that are bought for a floor of the fewest planks
	settled bool
	quality cutopt.Quality
	loose   int // starters that are laid as they come
}

type purchases []purchase

// plan plans every room, for boxes and for planks.
func (r *roomsFlags) plan(ctx context.Context, product *sample.Product, rules *cutopt.Rules) (purchases, error) {
	var next atomic.Int64
	var wait sync.WaitGroup
	all := make(purchases, r.to-min(r.from, r.to))
	errs := make([]error, max(r.workers, 1))
	for w := range errs {
		wait.Go(func() {
			for errs[w] == nil {
				i := int(next.Add(1)) - 1
				if i >= len(all) {
					return
				}
				errs[w] = r.room(ctx, &all[i], r.from+uint64(i), product, rules)
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return all, nil
}

func (r *roomsFlags) room(
	ctx context.Context, p *purchase, seed uint64, product *sample.Product, rules *cutopt.Rules,
) error {
	job := sample.Any(sample.Mix(r.mix), seed).Job(product, rules)
	job.Spare = r.kept
	result, err := solve.Job(ctx, job, nil)
	if err != nil {
		return fmt.Errorf("seed %d: %w", seed, err)
	}
	terms, err := job.Terms()
	if err != nil {
		return err
	}
	p.seed, p.bound = seed, result.Plan.Bound.Planks
	p.thumb = terms.Risk(result.Plan.Order.Fewest, result.Plan.Order.ThumbBoxes)
	p.order, p.quality = result.Plan.Order, result.Plan.Quality
	p.settled = result.Plan.Bound.Settled
	for piece := range result.Plan.Pieces() {
		if piece.AsItComes > 0 {
			p.loose++
		}
	}
	job.Aims = []cutopt.Aim{}
	few, err := solve.Job(ctx, job, &solve.Options{Fewest: solve.FewestPlanks})
	if err != nil {
		return fmt.Errorf("seed %d, fewest planks: %w", seed, err)
	}
	p.fewest = few.Plan.Order.Boxes
	return nil
}

// sum adds up a figure of all rooms.
func (s purchases) sum(figure func(*purchase) int) int {
	n := 0
	for i := range s {
		n += figure(&s[i])
	}
	return n
}

// count counts the rooms that something is so of.
func (s purchases) count(so func(*purchase) bool) string {
	return fmt.Sprint(s.sum(func(p *purchase) int {
		if so(p) {
			return 1
		}
		return 0
	}))
}

func (s purchases) bought(fit, loss string) []string {
	total := func(figure func(*purchase) int) string { return fmt.Sprint(s.sum(figure)) }
	return []string{
		fit, loss, fmt.Sprint(len(s)),
		total(func(p *purchase) int { return p.order.Boxes }),
		total(func(p *purchase) int { return p.fewest }),
		s.count(func(p *purchase) bool { return p.order.Boxes != p.fewest }),
		total(func(p *purchase) int { return p.order.ThumbBoxes }),
		s.count(func(p *purchase) bool { return p.order.Boxes > p.order.ThumbBoxes }),
		s.count(func(p *purchase) bool { return p.order.Boxes < p.order.ThumbBoxes }),
		s.count(func(p *purchase) bool { return p.settled }),
	}
}

// above lists the rooms that are told to buy more than the rule of thumb does.
func (s purchases) above(g *tables.Grid, fit, loss string) {
	for _, p := range s {
		if p.order.Boxes > p.order.ThumbBoxes {
			g.Add(fit, loss, fmt.Sprint(p.seed), fmt.Sprint(p.order.Boxes), fmt.Sprint(p.order.ThumbBoxes),
				fmt.Sprint(p.order.Fewest), fmt.Sprint(p.bound), tables.Number(100*p.thumb, 1)+" %")
		}
	}
}

func (s purchases) looks(fit, loss string) []string {
	mean := func(figure func(*purchase) int) string {
		return tables.Number(float64(s.sum(figure))/max(float64(len(s)), 1), 3)
	}
	stagger := float64(s.sum(func(p *purchase) int { return int(p.quality.LeastStagger) }))
	return []string{
		fit, loss,
		mean(func(p *purchase) int { return p.order.Planks }),
		mean(func(p *purchase) int { return p.order.Fewest }),
		mean(func(p *purchase) int { return p.quality.HJoints }),
		mean(func(p *purchase) int { return p.quality.Chains }),
		s.count(func(p *purchase) bool { return p.quality.LongestChain >= 5 }),
		s.count(func(p *purchase) bool { return p.quality.LongestChain >= 8 }),
		mean(func(p *purchase) int { return p.quality.Staircases }),
		mean(func(p *purchase) int { return p.quality.Clusters }),
		tables.Number(stagger/float64(measure.Inch)/max(float64(len(s)), 1), 2),
		mean(func(p *purchase) int { return p.quality.Crosscuts }),
		mean(func(p *purchase) int { return p.quality.OffcutsAtOnce }),
		mean(func(p *purchase) int { return p.quality.RowsWaited }),
		mean(func(p *purchase) int { return p.quality.OddStarters }),
		mean(func(p *purchase) int { return p.loose }),
	}
}
