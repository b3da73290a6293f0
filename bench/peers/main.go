// Command peers solves the same bare instances by this library and by general solvers, and prints optimum, proof and
// processor time side by side:
//
//	go run ./bench/peers -n 40 -limit 60s
//	go run ./bench/peers -frozen quarter- -limit 60s -highs DIR
//	go run ./bench/peers -mixed -n 40 -limit 60s
//	go run ./bench/peers -rest FILE -limit 60s
//
// Instances are those of mip.Draw; with -mixed those of mip.DrawMixed, which have one-piece runs, offcuts on hand and
// joints laid already; with -frozen PREFIX those of the frozen set whose id begins so; with -rest FILE those of a file,
// an instance a line, such as bench site writes of floors of which some lies. Every solver gets the step model
// and, where it covers the instance, the compact model, with a gap that only the optimum closes; one that is absent is
// left out. -highs names the folder that holds node_modules/highs.
//
// Times are processor time. This library's is that of Rows with one worker at the effort given, repeated where it is
// short, without the verification of its certificate. A peer's is that of its process less what the same process takes
// for a model with one choice, and at least a millisecond. The ratios at the end are geometric means over the instances
// that both close. The best peer is found instance by instance: the least time of any solver on any model, an instance
// that none closes counting as the limit on their side.
//
// With -race a solver has no more time than an earlier one took to close the instance, and two seconds: as much as the
// best peer is found by, at a part of the work. -answers FILE keeps every answer and takes those that are kept, so that
// what was stopped goes on; with -kept only instances that every solver asked has answered in it are compared.
package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"slices"
	"strings"
	"time"

	"plank.example/bench/frozen"
	"plank.example/bench/mip"
	"plank.example/bench/processor"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

func main() {
	var c comparison
	flag.IntVar(&c.n, "n", 40, "instances")
	flag.Uint64Var(&c.seed, "seed", 1, "first seed")
	flag.DurationVar(&c.limit, "limit", time.Minute, "limit of a peer on one instance, of processor time")
	flag.StringVar(&c.frozen, "frozen", "", "take the frozen instances whose id begins so, the first n of them")
	flag.StringVar(&c.file, "file", "testdata/instances/instances.jsonl", "the frozen set")
	flag.BoolVar(&c.mixed, "mixed", false, "draw instances with one-piece runs, offcuts on hand and joints laid already")
	flag.StringVar(&c.rest, "rest", "", "take the instances of a file, a line each, as bench site --rest writes them")
	highs := flag.String("highs", ".", "folder that holds node_modules/highs")
	flag.StringVar(&c.only, "only", "", "solvers and models to ask, such as \"CBC step,GLPK step\"; all by default")
	flag.BoolVar(&c.race, "race", false, "give a solver two seconds more than an earlier one took to close the instance")
	keep := flag.String("answers", "", "file that keeps the answers, a line each; those in it are not asked for again")
	flag.BoolVar(&c.kept, "kept", false, "compare the instances that all solvers asked have answered in that file")
	flag.StringVar(&c.out, "o", "", "file for the table at the end, as RESULTS.md takes it")
	flag.Parse()
	c.solvers = []*mip.Solver{mip.CBC(), mip.GLPK(), mip.HiGHS(*highs)}
	if *keep != "" {
		var err error
		if c.answers, err = readAnswers(*keep); err != nil {
			fmt.Fprintln(os.Stderr, "peers:", err)
			os.Exit(1)
		}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := c.run(ctx, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "peers:", err)
		os.Exit(1)
	}
}

// A comparison is one call of the command.
type comparison struct {
	n            int
	seed         uint64
	limit        time.Duration
	frozen, file string
	mixed        bool
	only         string
	rest         string
	out          string
	race, kept   bool
	answers      *answers // nil where none are kept
	solvers      []*mip.Solver
}

// A peer is a solver on a model.
type peer struct {
	*mip.Solver
	model   *mip.Model
	startup time.Duration
	tally   tally
}

func (p *peer) name() string { return p.Name + " " + p.model.Name }

type problem struct {
	name string
	in   *rows.Instance
}

func (c *comparison) problems() ([]problem, error) {
	var out []problem
	if c.rest != "" {
		return c.rests()
	}
	if c.frozen == "" {
		for k := range uint64(c.n) {
			draw := mip.Draw
			if c.mixed {
				draw = mip.DrawMixed
			}
			out = append(out, problem{fmt.Sprint(c.seed + k), draw(c.seed + k)})
		}
		return out, nil
	}
	f, err := os.Open(c.file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	set, err := frozen.Read(f)
	if err != nil {
		return nil, err
	}
	for _, e := range set {
		if strings.HasPrefix(e.ID, c.frozen) && len(out) < c.n {
			out = append(out, problem{e.ID, e.Instance})
		}
	}
	return out, nil
}

// rests reads the instances of a file, the first n of them.
func (c *comparison) rests() (out []problem, err error) {
	data, err := os.ReadFile(c.rest)
	if err != nil {
		return nil, err
	}
	for line := range bytes.Lines(data) {
		if len(out) == c.n {
			break
		}
		in, err := rows.Decode(bytes.NewReader(line))
		if err != nil {
			return nil, fmt.Errorf("%s, line %d: %w", c.rest, len(out)+1, err)
		}
		out = append(out, problem{fmt.Sprint(len(out) + 1), in})
	}
	return out, nil
}

// peers starts every solver that is installed once, for its start-up time.
func (c *comparison) peers(ctx context.Context, w io.Writer) []*peer {
	var out []*peer
	for _, s := range c.solvers {
		start, err := s.Startup(ctx)
		if err != nil {
			fmt.Fprintf(w, "%s: absent\n", s.Name)
			continue
		}
		fmt.Fprintf(w, "%s %s starts in %.3f s\n", s.Name, s.Version(), start.Seconds())
		for _, m := range []*mip.Model{mip.Compact(), mip.Step()} {
			p := &peer{Solver: s, model: m, startup: start}
			if c.only == "" || slices.Contains(strings.Split(c.only, ","), p.name()) {
				out = append(out, p)
			}
		}
	}
	return out
}

func (c *comparison) run(ctx context.Context, w io.Writer) error {
	list, err := c.problems()
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%d instances, %g s each, %s\n", len(list), c.limit.Seconds(), runtime.Version())
	peers := c.peers(ctx, w)
	if c.kept {
		list = slices.DeleteFunc(list, func(p problem) bool {
			return slices.ContainsFunc(peers, func(of *peer) bool { return !c.answers.has(p.name, of.name()) })
		})
	}
	best := tally{}
	fmt.Fprintf(w, "%-12s %4s %18s", "instance", "runs", "this library")
	for _, p := range peers {
		fmt.Fprintf(w, " %18s", p.name())
	}
	fmt.Fprintln(w)
	own, none := tally{}, 0
	done := 0
	for _, p := range list {
		a, err := c.library(ctx, p)
		if ctx.Err() != nil {
			break // what is done is summed
		}
		var no *solve.InfeasibleError
		if errors.As(err, &no) {
			none++
			continue
		}
		if err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
		own.asked++
		if a.Proven {
			own.closed, own.cpu = own.closed+1, own.cpu+a.CPU
		}
		fmt.Fprintf(w, "%-12s %4d %18s", p.name, len(p.in.Runs), cell(a))
		err = c.ask(ctx, w, p, a, peers, &best)
		fmt.Fprintln(w)
		if ctx.Err() != nil {
			break
		}
		if err != nil {
			return err
		}
		done++
	}
	if none > 0 {
		fmt.Fprintf(w, "%d instances have no layout and are left out\n", none)
	}
	var table strings.Builder
	c.summary(&table, &own, peers, &best)
	if _, err := io.WriteString(w, "\n"+table.String()); err != nil || c.out == "" {
		return err
	}
	return os.WriteFile(c.out, []byte(c.title(done, peers)+table.String()), 0o644)
}

// ask gives an instance to every peer, and compares the best of them too.
func (c *comparison) ask(
	ctx context.Context,
	w io.Writer,
	p problem,
	ours *mip.Answer,
	peers []*peer,
	best *tally,
) error {
	top := &mip.Answer{CPU: c.limit}
	for _, peer := range peers {
		limit := c.limit
		if c.race && top.Proven {
			limit = min(limit, (top.CPU + 2*time.Second).Truncate(time.Second))
		}
		a, err := c.answer(ctx, p, peer, limit)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if errors.Is(err, rows.ErrModel) {
			fmt.Fprintf(w, " %18s", "")
			continue
		}
		peer.tally.asked++
		if err != nil {
			fmt.Fprintf(w, " %18s", "-")
			continue
		}
		fmt.Fprintf(w, " %18s", cell(a))
		if a.Proven && ours.Proven && a.Planks != ours.Planks || a.Planks < ours.Planks && ours.Proven {
			fmt.Fprintln(w)
			return fmt.Errorf("%s: %s says %d planks, this library proves %d", p.name, peer.name(), a.Planks, ours.Planks)
		}
		peer.tally.add(ours, a)
		if a.Proven && (!top.Proven || a.CPU < top.CPU) {
			top = a
		}
	}
	best.asked++
	best.add(ours, top)
	if !top.Proven && ours.Proven { // at least the limit
		best.logRatio += ratio(top, ours)
	}
	return nil
}

// answer asks a peer, or takes the answer that is kept.
func (c *comparison) answer(ctx context.Context, p problem, of *peer, limit time.Duration) (*mip.Answer, error) {
	a, ok := c.answers.of(p.name, of.name(), limit)
	if !ok {
		var err error
		a, err = of.Solve(ctx, p.in, of.model, limit)
		switch {
		case ctx.Err() != nil || err != nil && !errors.Is(err, mip.ErrNothing):
			return nil, err
		case err != nil:
			a = &mip.Answer{}
		default:
			a.CPU = max(a.CPU-of.startup, time.Millisecond)
		}
		if err := c.answers.keep(p.name, of.name(), limit, a); err != nil {
			return nil, err
		}
	}
	if a.Planks == 0 && !a.Proven {
		return nil, mip.ErrNothing
	}
	return a, nil
}

// library is what this library answers, or has answered as it is kept.
func (c *comparison) library(ctx context.Context, p problem) (*mip.Answer, error) {
	if a, ok := c.answers.of(p.name, self, 0); ok {
		return a, nil
	}
	a, err := library(ctx, p.in)
	if err != nil {
		return nil, err
	}
	return a, c.answers.keep(p.name, self, 0, a)
}

// library answers by this library with one worker; its certificate is verified, outside the time. Answers that take
// less than 20 ms are repeated until they do, and take the mean.
func library(ctx context.Context, in *rows.Instance) (*mip.Answer, error) {
	start, n := processor.Time(), 0
	for {
		r, err := solve.Rows(ctx, in, &solve.Options{Workers: 1})
		if err != nil {
			return nil, err
		}
		n++
		took := processor.Time() - start
		if took < 20*time.Millisecond && n < 10_000 {
			continue
		}
		if err := r.Bound.Certificate.Verify(in); err != nil {
			return nil, err
		}
		each := max(took/time.Duration(n), time.Microsecond)
		return &mip.Answer{Planks: len(r.Cutting.Planks), Proven: r.Bound.PlanksProven, Took: each, CPU: each}, nil
	}
}
