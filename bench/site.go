package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"plank.example/bench/sample"
	"plank.example/bench/story"
	"plank.example/bench/tables"
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// siteFlags say which stories are told.
type siteFlags struct {
	mix, plank string
	from, to   uint64
	boxes      bool
	gone       float64
	grid       string
	rest       string
	restOf     int
	workers    int
}

func siteCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	var s siteFlags
	f := newFlags("site", errw)
	f.StringVar(&s.mix, "mix", string(sample.MixDwelling), "rooms: dwelling, office, hall or mixed")
	f.StringVar(&s.plank, "plank", "", "length x width in inches, :N for N planks in a box; else a product is drawn")
	f.Uint64Var(&s.from, "from", 0, "first seed")
	f.Uint64Var(&s.to, "to", 100, "seed after the last")
	f.BoolVar(&s.boxes, "boxes", false, "plan for the fewest boxes, as by default, and not for the fewest planks")
	f.Float64Var(&s.gone, "gone", 0, "percent of the offcuts that are gone when their turn comes")
	f.StringVar(&s.grid, "grid", "", "graduation of starters; default that of the rules")
	f.StringVar(&s.rest, "rest", "", "file for bare problems of what was left, a line each, as package rows writes them")
	f.IntVar(&s.restOf, "rest-of", 30, "how many of them: the first of each of the first stories")
	f.IntVar(&s.workers, "workers", runtime.NumCPU(), "stories told at a time")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	products := sample.Products()
	if s.plank != "" {
		product, err := sample.ParseProduct(s.plank)
		if err != nil {
			return fmt.Errorf("--plank: %w; %w", err, errUsage)
		}
		products = []*sample.Product{product}
	}
	mix, err := sample.ParseMix(s.mix)
	if err != nil {
		return fmt.Errorf("--mix: %w; %w", err, errUsage)
	}
	rules := cutopt.DefaultRules(measure.UnitInch)
	if s.grid != "" {
		if rules.Grid, err = measure.Parse(s.grid, measure.UnitInch); err != nil || rules.Grid <= 0 {
			return fmt.Errorf("--grid %q: a length above 0; %w", s.grid, errUsage)
		}
	}
	all, errs := s.tell(ctx, mix, products, &rules)
	if err := ctx.Err(); err != nil {
		return err
	}
	told := slices.DeleteFunc(slices.Clone(all), func(o *story.Outcome) bool { return o == nil })
	if err := summary(told).Text(out); err != nil {
		return err
	}
	worse, err := s.worse(ctx, mix, products, &rules, told)
	if err != nil {
		return err
	}
	if len(worse.Rows) > 0 {
		fmt.Fprintln(out, "\nStories that used more than one of the habits, and what that is owed to:")
		if err := worse.Text(out); err != nil {
			return err
		}
	}
	if s.rest != "" {
		if err := s.write(told); err != nil {
			return err
		}
	}
	for _, err := range errs {
		fmt.Fprintln(errw, err)
	}
	if len(errs) > 0 {
		return fmt.Errorf("%d of %d stories came to no good end", len(errs), len(all))
	}
	return nil
}

// draw draws a story.
func (s *siteFlags) draw(mix sample.Mix, products []*sample.Product, rules *cutopt.Rules, seed uint64) *story.Story {
	told := story.Draw(mix, products, rules, seed)
	told.Mixed = s.gone / 100
	return told
}

// options are those of every plan.
func (s *siteFlags) options() *solve.Options {
	if s.boxes {
		return &solve.Options{Fewest: solve.FewestBoxes}
	}
	return &solve.Options{Fewest: solve.FewestPlanks}
}

// tell tells all stories; a nil outcome is of one that is among the errors.
func (s *siteFlags) tell(ctx context.Context, mix sample.Mix, products []*sample.Product, rules *cutopt.Rules) (
	[]*story.Outcome, []error,
) {
	opt := s.options()
	var next atomic.Int64
	var wait sync.WaitGroup
	all := make([]*story.Outcome, s.to-min(s.from, s.to))
	errs := make([]error, len(all))
	for range max(s.workers, 1) {
		wait.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(all) || ctx.Err() != nil {
					return
				}
				seed := s.from + uint64(i)
				var err error
				if all[i], err = s.draw(mix, products, rules, seed).Tell(ctx, opt, s.rest != ""); err != nil {
					all[i], errs[i] = nil, fmt.Errorf("seed %d: %w", seed, err)
				}
			}
		})
	}
	wait.Wait()
	return all, slices.DeleteFunc(errs, func(err error) bool { return err == nil })
}

// summary is the table of all stories.
func summary(all []*story.Outcome) *tables.Grid {
	g := &tables.Grid{Head: []string{"what", "figure"}}
	sum := func(figure func(*story.Outcome) int) (n int) {
		for _, o := range all {
			n += figure(o)
		}
		return n
	}
	count := func(so func(*story.Outcome) bool) int {
		return sum(func(o *story.Outcome) int {
			if so(o) {
				return 1
			}
			return 0
		})
	}
	events := sum(func(o *story.Outcome) int { return o.Events })
	proven := sum(func(o *story.Outcome) int { return o.Proven })
	share := func(n, of int) string {
		return fmt.Sprintf("%d (%s %%)", n, tables.Number(100*float64(n)/max(float64(of), 1), 2))
	}
	beside := func(o *story.Outcome) bool { return o.Habit > 0 }
	used := sum(func(o *story.Outcome) int {
		if beside(o) {
			return o.Used
		}
		return 0
	})
	var longest []float64
	for _, o := range all {
		longest = append(longest, o.Longest.Seconds())
	}
	slices.Sort(longest)
	add := func(what string, figure any) { g.Add(what, fmt.Sprint(figure)) }
	add("stories", len(all))
	add("plans on the way", events)
	add("of these, further planks proven the fewest", share(proven, events))
	add("planks lost", sum(func(o *story.Outcome) int { return o.Lost }))
	add("offcuts lost", sum(func(o *story.Outcome) int { return o.Offcuts }))
	add("changed measures", sum(func(o *story.Outcome) int { return o.Walls }))
	add("of these refused", sum(func(o *story.Outcome) int { return o.Refused }))
	add("of these cut to fit, to spare a plank", sum(func(o *story.Outcome) int { return o.ToFit }))
	add("planks planned at first", sum(func(o *story.Outcome) int { return o.Planned }))
	add("planks used", sum(func(o *story.Outcome) int { return o.Used }))
	add("planks of plans that knew measures and losses", sum(func(o *story.Outcome) int { return o.Known }))
	add("stories that the habit can lay", count(beside))
	add("planks used in these", used)
	add("planks that the habit opens in these", sum(func(o *story.Outcome) int { return o.Habit }))
	add("planks that the careful habit opens in these", sum(func(o *story.Outcome) int { return o.Careful }))
	add("of these stories, those with fewer than the habit", share(count(func(o *story.Outcome) bool {
		return beside(o) && o.Used < o.Habit
	}), len(all)))
	add("those with more", share(count(func(o *story.Outcome) bool { return beside(o) && o.Used > o.Habit }), len(all)))
	add("those with fewer than the careful habit", share(count(func(o *story.Outcome) bool {
		return beside(o) && o.Used < o.Careful
	}), len(all)))
	add("those with more than the careful habit", share(count(func(o *story.Outcome) bool {
		return beside(o) && o.Used > o.Careful
	}), len(all)))
	add("runs started otherwise than planned before, a plan", tables.Number(
		float64(sum(func(o *story.Outcome) int { return o.Changed }))/max(float64(events), 1), 2))
	if len(longest) > 0 {
		add("longest planning on, median of stories, s", tables.Number(longest[len(longest)/2], 3))
		add("the same, 99 of 100", tables.Number(longest[len(longest)*99/100], 3))
		add("the longest of all", tables.Number(longest[len(longest)-1], 3))
	}
	return g
}

// worse lists the stories that used more planks than one of the habits, each with its cause.
func (s *siteFlags) worse(
	ctx context.Context, mix sample.Mix, products []*sample.Product, rules *cutopt.Rules, all []*story.Outcome,
) (*tables.Grid, error) {
	g := &tables.Grid{Head: []string{
		"seed", "runs", "planned", "used", "habit", "careful", "known", "planks lost", "offcuts lost", "cause",
	}}
	for _, o := range all {
		if o.Habit == 0 || o.Used <= min(o.Habit, o.Careful) {
			continue
		}
		cells := []string{fmt.Sprint(o.Seed)}
		for _, n := range []int{o.Runs, o.Planned, o.Used, o.Habit, o.Careful, o.Known, o.Lost, o.Offcuts} {
			cells = append(cells, fmt.Sprint(n))
		}
		cause, err := s.draw(mix, products, rules, o.Seed).Why(ctx, o, s.options())
		if err != nil {
			return nil, fmt.Errorf("seed %d, told again: %w", o.Seed, err)
		}
		g.Add(append(cells, string(cause))...)
	}
	return g, nil
}

// write writes bare problems of what was left, one of each story: that in the middle, where runs are begun, offcuts on
// hand and joints beside.
func (s *siteFlags) write(all []*story.Outcome) error {
	return writeWhole(s.rest, func(w io.Writer) error {
		enc := json.NewEncoder(w)
		n := 0
		for _, o := range all {
			if in := middle(o.Rest); in != nil && n < s.restOf {
				n++
				if err := enc.Encode(in); err != nil {
					return err
				}
			}
		}
		if n < s.restOf {
			fmt.Fprintf(os.Stderr, "only %d stories have a run in hand and offcuts when something happens\n", n)
		}
		return nil
	})
}

// middle returns the bare problem nearest to the middle of a story that has a run in hand, an offcut and at least two
// runs more.
func middle(all []*rows.Instance) *rows.Instance {
	for i := range all {
		in := all[(len(all)/2+i)%len(all)]
		begun := slices.ContainsFunc(in.Runs, func(r rows.Run) bool { return r.Starter > 0 })
		if begun && len(in.Offcuts) > 0 && len(in.Runs) > 2 {
			return in
		}
	}
	return nil
}
