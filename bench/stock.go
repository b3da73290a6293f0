package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"plank.example/bench/mip"
	"plank.example/bench/processor"
	"plank.example/bench/sticks"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

const stockFile = "bench/STOCK.md"

func stockCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	s := &stockBench{errw: errw}
	f := newFlags("stock", errw)
	folder := f.String("data", "", "folder of the published instances; absent ones are left out")
	only := f.String("class", "", "measure the classes whose name begins so")
	f.IntVar(&s.most, "n", 1000, "instances of a class")
	f.IntVar(&s.peers, "peers", 4, "instances of a class that CBC gets too")
	f.DurationVar(&s.limit, "limit", 10*time.Second, "limit of CBC on one instance")
	effort := f.String("effort", "normal", "effort")
	file := f.String("out", stockFile, "the file to write; - prints it")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	if err := s.effort.UnmarshalText([]byte(*effort)); err != nil {
		return err
	}
	f.Visit(func(g *pflag.Flag) {
		if g.Name != "out" && g.Name != "data" {
			s.flags += fmt.Sprintf(" --%s %s", g.Name, g.Value)
		}
	})
	s.cbc = mip.CBC()
	version := s.cbc.Version()
	if version == "" {
		s.peers = 0
		version = "not installed"
	}
	for _, c := range sticks.Classes(*folder) {
		if strings.HasPrefix(c.Name, *only) {
			if err := s.class(ctx, &c); err != nil {
				return err
			}
		}
	}
	write := func(w io.Writer) error { return s.write(w, version) }
	if *file == "-" {
		return write(out)
	}
	return writeWhole(*file, write)
}

// A stockBench measures classes.
type stockBench struct {
	errw        io.Writer
	most, peers int
	limit       time.Duration
	flags       string // as given
	effort      cut.Effort
	cbc         *mip.Solver
	rows        []*stockRow
	open        []string
}

// A stockRow is one class of the table.
type stockRow struct {
	class                   sticks.Class
	n, proven, verified     int
	within                  int             // proven in a second
	times                   []time.Duration // of processor
	verify                  time.Duration   // longest
	cost, bestFit           int64           // summed
	asked, closed, tooLarge int             // of CBC
	cbc, own                time.Duration   // on those that it closed
}

func (s *stockBench) class(ctx context.Context, c *sticks.Class) error {
	instances, err := c.Draw()
	if err != nil {
		return err
	}
	instances = instances[:min(len(instances), s.most)]
	row := &stockRow{class: *c}
	s.rows = append(s.rows, row)
	for i, in := range instances {
		if err := s.instance(ctx, row, &in, i*s.peers/len(instances) != (i+1)*s.peers/len(instances)); err != nil {
			return fmt.Errorf("%s: %w", in.Name, err)
		}
	}
	fmt.Fprintf(s.errw, "%s: %d of %d proven\n", c.Name, row.proven, row.n)
	return nil
}

func (s *stockBench) instance(ctx context.Context, row *stockRow, in *sticks.Instance, peer bool) error {
	options := &cut.Options{Aim: cut.AimSticks, Effort: s.effort}
	if row.class.Offcut {
		options.Aim = cut.AimOffcut
	}
	start := processor.Time()
	r, err := cut.Solve(ctx, in.Job, options)
	if err != nil {
		return err
	}
	took := processor.Time() - start
	row.n++
	row.times = append(row.times, took)
	if r.Status == cut.StatusProven {
		row.proven++
		if took <= time.Second {
			row.within++
		}
	} else {
		open := fmt.Sprintf("%s, %s: cost %d, bound %d; %d sticks, bound %d",
			row.class.Name, in.Name, r.Plan.Cost, r.Bound.Cost, r.Plan.Sticks, r.Bound.Sticks)
		if row.class.Offcut {
			open += fmt.Sprintf("; offcut of %d ticks, bound %d", r.Plan.Offcut, r.Bound.Offcut)
		}
		s.open = append(s.open, open)
	}
	start = processor.Time()
	v, err := stock.Verify(ctx, in.Job, r.Certificate)
	if err != nil {
		return err
	}
	row.verify = max(row.verify, processor.Time()-start)
	if v.Cost != r.Bound.Cost || v.Sticks != r.Bound.Sticks {
		return fmt.Errorf("the certificate shows cost %d and %d sticks, the bound is %d and %d",
			v.Cost, v.Sticks, r.Bound.Cost, r.Bound.Sticks)
	}
	if in.Best > 0 && (r.Bound.Sticks > in.Best || r.Status == cut.StatusProven && r.Plan.Sticks != in.Best) {
		return fmt.Errorf("%d sticks, bound %d, published are %d", r.Plan.Sticks, r.Bound.Sticks, in.Best)
	}
	row.verified++
	cost, _ := sticks.BestFit(in.Job)
	row.cost += r.Plan.Cost
	row.bestFit += cost
	if peer {
		return s.peer(ctx, row, in, r, took)
	}
	return nil
}

// peer gives the instance to CBC as an arc flow.
func (s *stockBench) peer(
	ctx context.Context,
	row *stockRow,
	in *sticks.Instance,
	r *cut.Result,
	took time.Duration,
) error {
	dir, err := os.MkdirTemp("", "stock")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	lp := filepath.Join(dir, "model.lp")
	var b strings.Builder
	row.asked++
	if err := sticks.WriteArcFlow(in.Job, &b); errors.Is(err, sticks.ErrLarge) {
		row.tooLarge++
		return nil
	} else if err != nil {
		return err
	}
	if err := os.WriteFile(lp, []byte(b.String()), 0o600); err != nil {
		return err
	}
	a, err := s.cbc.SolveLP(ctx, lp, s.limit)
	if errors.Is(err, mip.ErrNothing) || ctx.Err() == nil && err != nil && a == nil {
		return nil // none in time
	} else if err != nil {
		return err
	}
	if !a.Proven || a.CPU > s.limit+time.Second {
		return nil
	}
	if r.Bound.Cost > int64(a.Planks) || r.Proven.Cost && r.Plan.Cost != int64(a.Planks) {
		return fmt.Errorf("cost %d, bound %d, CBC has %d", r.Plan.Cost, r.Bound.Cost, a.Planks)
	}
	row.closed++
	row.cbc += a.CPU
	row.own += took
	return nil
}

const stockHead = `# Cutting stock

Made by one command, which takes some minutes:

` + "```sh\ngo run ./bench stock%s\n```" + `

Every plan passes stock.Check, every certificate stock.Verify. Counts are the same on every machine; times are processor
time of one solve with one goroutine, on this one: %s. CBC: %s, on the arc-flow model, one thread,
limit %v, a sample of each class. Effort %s. Proven are cost and number of sticks, and the largest offcut where it is an aim.

` + stockTable + "\n|---|---|---|---|---|---|---|---|---|---|---|---|\n"

const stockTable = "| class | jobs | proven | in 1 s | mean ms | median ms | longest ms | longest verification ms | " +
	"best fit decreasing costs more | CBC closed | CBC mean ms, on those | ours |"

func (s *stockBench) write(w io.Writer, version string) error {
	fmt.Fprintf(w, stockHead, s.flags, machine(), version, s.limit, s.effort)
	for _, r := range s.rows {
		slices.Sort(r.times)
		sum := time.Duration(0)
		for _, t := range r.times {
			sum += t
		}
		cbc, mean, own := "-", "-", "-"
		if r.asked > 0 {
			cbc = fmt.Sprintf("%d of %d", r.closed, r.asked)
			if r.tooLarge > 0 {
				cbc += fmt.Sprintf(", %d too large to write", r.tooLarge)
			}
		}
		if r.closed > 0 {
			mean, own = ms(r.cbc/time.Duration(r.closed)), ms(r.own/time.Duration(r.closed))
		}
		fmt.Fprintf(w, "| %s | %d | %d | %d | %s | %s | %s | %s | %.2f %% | %s | %s | %s |\n",
			r.class.Name, r.n, r.proven, r.within,
			ms(sum/time.Duration(r.n)), ms(r.times[len(r.times)/2]), ms(r.times[len(r.times)-1]), ms(r.verify),
			100*(float64(r.bestFit)/float64(r.cost)-1), cbc, mean, own)
	}
	fmt.Fprintf(w, "\n## Classes\n\n")
	for _, r := range s.rows {
		fmt.Fprintf(w, "- %s: %s.\n", r.class.Name, r.class.Source)
	}
	if len(s.open) > 0 {
		fmt.Fprintf(w, "\n## Open\n\n")
		for _, o := range s.open {
			fmt.Fprintf(w, "- %s\n", o)
		}
	}
	return nil
}

func ms(d time.Duration) string { return fmt.Sprintf("%.2f", float64(d)/float64(time.Millisecond)) }
