package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"time"

	"plank.example/bench/frozen"
	"plank.example/bench/mip"
	"plank.example/bench/strategy"
	"plank.example/bench/tables"
	"plank.example/cutopt/solve"
)

// instancesFile is the frozen set, from the root of the repository.
const instancesFile = "testdata/instances/instances.jsonl"

type instancesFlags struct {
	file, effort, add, highs, only string
	hard, cbc, glpk, rewrite       bool
	limit                          time.Duration
	workers                        int
}

func instancesCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	var r instancesFlags
	f := newFlags("instances", errw)
	f.StringVar(&r.file, "file", instancesFile, "the set")
	f.BoolVar(&r.hard, "hard", false, "draw hard instances until each part since version 2 has as many as it should")
	f.StringVar(
		&r.effort,
		"effort",
		"",
		"lay every open instance at this effort (quick, normal, thorough) and keep what is better",
	)
	f.StringVar(&r.add, "add", "", "file of claims, JSON lines: take those that are better, after verifying them")
	f.StringVar(&r.highs, "highs", "", "let HiGHS prove optima; the folder that holds node_modules/highs")
	f.BoolVar(&r.cbc, "cbc", false, "let CBC prove optima")
	f.BoolVar(&r.glpk, "glpk", false, "let GLPK prove optima")
	f.BoolVar(&r.rewrite, "rewrite", false, "write the set, SHA256SUMS and LEADERBOARD.md anew though nothing is better")
	f.DurationVar(&r.limit, "limit", time.Minute, "limit on one instance, of general solvers and of --effort")
	f.StringVar(&r.only, "only", "", "only instances whose id begins so")
	f.IntVar(&r.workers, "workers", runtime.NumCPU(), "instances at a time")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	set, err := readSet(r.file)
	if err != nil {
		return err
	}
	changed := r.rewrite
	for _, step := range []struct {
		asked bool
		do    func() (int, error)
	}{
		{r.hard, func() (int, error) { return r.choose(ctx, &set, errw) }},
		{r.effort != "" && !r.hard, func() (int, error) { return r.lay(ctx, set, errw) }},
		{r.add != "", func() (int, error) { return r.claims(set, out) }},
		{r.highs != "" || r.cbc || r.glpk, func() (int, error) { return r.general(ctx, set, errw) }},
	} {
		if !step.asked {
			continue
		}
		n, err := step.do()
		changed = changed || n > 0
		if err != nil {
			return err
		}
	}
	if err := verifyAll(set, r.workers); err != nil {
		return err
	}
	if changed {
		if err := r.write(set); err != nil {
			return err
		}
	}
	return summarise(out, set)
}

// write writes the set, and beside it the hashes of its instances and the table of what is known.
func (r *instancesFlags) write(set []*frozen.Entry) error {
	beside := func(name string) string { return filepath.Join(filepath.Dir(r.file), name) }
	return errors.Join(
		writeWhole(r.file, func(w io.Writer) error { return frozen.Write(w, set) }),
		writeWhole(beside("SHA256SUMS"), func(w io.Writer) error { return frozen.WriteHashes(w, set) }),
		writeWhole(beside("LEADERBOARD.md"), func(w io.Writer) error { return leaderboard(w, set) }),
	)
}

func (r *instancesFlags) wanted(e *frozen.Entry) bool { return strings.HasPrefix(e.ID, r.only) }

// lay runs the library on every instance and keeps what is better.
func (r *instancesFlags) lay(ctx context.Context, set []*frozen.Entry, errw io.Writer) (int, error) {
	effort, err := parseEffort(r.effort)
	if err != nil {
		return 0, err
	}
	by := fmt.Sprintf("library, %s effort, at most %v", r.effort, r.limit)
	var mutex sync.Mutex
	better, done := 0, 0
	err = each(ctx, set, r.workers, func(e *frozen.Entry) error {
		if !r.wanted(e) || e.Certificate != nil && e.Planks == e.Bound {
			return nil
		}
		a, err := strategy.Library{Effort: effort, Limit: r.limit}.Lay(ctx, &strategy.Floor{Rows: e.Instance})
		if err != nil || ctx.Err() != nil {
			return errors.Join(err, ctx.Err())
		}
		improved, err := e.Improve(a, by)
		mutex.Lock()
		defer mutex.Unlock()
		if done++; improved {
			better++
		}
		if done%20 == 0 {
			fmt.Fprintf(errw, "%d of %d laid, %d bettered\n", done, len(set), better)
		}
		return err
	})
	return better, err
}

// claims takes the results of a file and says what became of each.
func (r *instancesFlags) claims(set []*frozen.Entry, out io.Writer) (int, error) {
	f, err := os.Open(r.add)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	outcomes, err := frozen.Add(set, f)
	taken := 0
	for _, o := range outcomes {
		switch {
		case !o.Taken:
			fmt.Fprintf(out, "known: %s: no better than what is known\n", o.ID)
			continue
		case o.Result.Tie:
			fmt.Fprintf(out, "tie: %s by %s\n", o.ID, o.Result.By)
		default:
			fmt.Fprintf(out, "bettered: %s by %s\n", o.ID, o.Result.By)
		}
		taken++
	}
	return taken, err
}

// choose draws the parts since version 2, as many at a time as there are workers.
func (r *instancesFlags) choose(ctx context.Context, set *[]*frozen.Entry, errw io.Writer) (int, error) {
	if r.effort == "" {
		return 0, fmt.Errorf("--hard needs --effort: the rules ask what the library makes of an instance; %w", errUsage)
	}
	effort, err := parseEffort(r.effort)
	if err != nil {
		return 0, err
	}
	known := make(map[string]*frozen.Entry)
	for _, e := range *set {
		known[e.ID] = e
	}
	parts := frozen.Parts()
	drawn, errs := make([][]*frozen.Entry, len(parts)), make([]error, len(parts))
	var group sync.WaitGroup
	free := make(chan bool, max(r.workers, 1))
	for i := range parts {
		if !strings.HasPrefix(parts[i].Name, strings.TrimSuffix(r.only, "-")) {
			continue
		}
		group.Go(func() {
			free <- true
			defer func() { <-free }()
			by := fmt.Sprintf("library, %s effort, at most %v", r.effort, r.limit)
			drawn[i], errs[i] = parts[i].Hard(ctx, known, effort, r.limit, by)
			fmt.Fprintf(errw, "%s: %d instances\n", parts[i].Name, len(drawn[i]))
		})
	}
	group.Wait()
	added := 0
	for _, list := range drawn {
		for _, e := range list {
			if known[e.ID] == nil {
				*set = append(*set, e)
				added++
			}
		}
	}
	return added, errors.Join(errs...)
}

// general lets general solvers prove optima of instances that they can take; each keeps one result of each solver.
func (r *instancesFlags) general(ctx context.Context, set []*frozen.Entry, errw io.Writer) (int, error) {
	var peers []*mip.Solver
	if r.highs != "" {
		peers = append(peers, mip.HiGHS(r.highs))
	}
	if r.cbc {
		peers = append(peers, mip.CBC())
	}
	if r.glpk {
		peers = append(peers, mip.GLPK())
	}
	found := 0
	var mutex sync.Mutex
	err := each(ctx, set, r.workers, func(e *frozen.Entry) error {
		for _, p := range peers {
			by := strings.TrimSpace(p.Name + " " + p.Version())
			if !r.wanted(e) || proved(e, p.Name) {
				continue
			}
			a, err := p.Solve(ctx, e.Instance, mip.Step(), r.limit)
			if ctx.Err() != nil {
				return ctx.Err()
			}
			mutex.Lock()
			switch {
			case err != nil:
				fmt.Fprintf(errw, "%s: %s: %v\n", e.ID, by, err)
			case !a.Proven:
				fmt.Fprintf(errw, "%s: %s: not closed in %v\n", e.ID, by, r.limit)
			default:
				fmt.Fprintf(errw, "%s: %s: %d planks in %.1f s\n", e.ID, by, a.Planks, a.Took.Seconds())
				e.Optima = append(e.Optima, frozen.Optimum{By: by, Planks: a.Planks})
				found++
			}
			mutex.Unlock()
		}
		return nil
	})
	if errors.Is(err, context.Canceled) && found > 0 { // hours of work of others are kept
		err = nil
	}
	return found, err
}

func proved(e *frozen.Entry, solver string) bool {
	for _, o := range e.Optima {
		if strings.HasPrefix(o.By, solver) {
			return true
		}
	}
	return false
}

// each hands the entries to workers and returns the first error by their order.
func each(ctx context.Context, set []*frozen.Entry, workers int, do func(*frozen.Entry) error) error {
	errs := make([]error, len(set))
	next := make(chan int)
	var group sync.WaitGroup
	for range max(workers, 1) {
		group.Go(func() {
			for i := range next {
				errs[i] = do(set[i])
			}
		})
	}
	for i := range set {
		if ctx.Err() != nil {
			errs[i] = ctx.Err()
			break
		}
		next <- i
	}
	close(next)
	group.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func verifyAll(set []*frozen.Entry, workers int) error {
	return each(context.Background(), set, workers, (*frozen.Entry).Verify)
}

// summarise counts what is known of the set, by the first word of the IDs.
func summarise(out io.Writer, set []*frozen.Entry) error {
	g := frozenGrid(set)
	return g.Text(out)
}

func frozenGrid(set []*frozen.Entry) *tables.Grid {
	g := &tables.Grid{Head: []string{"part", "instances", "runs", "planks", "bound", "proven", "by a general solver too"}}
	type part struct{ n, runs, planks, bound, proven, general int }
	parts, order := map[string]*part{}, []string{}
	for _, e := range set {
		for _, name := range []string{partOf(e), "all"} {
			p := parts[name]
			if p == nil {
				p = new(part)
				parts[name] = p
				if name != "all" {
					order = append(order, name)
				}
			}
			p.n++
			p.runs, p.planks, p.bound = p.runs+len(e.Instance.Runs), p.planks+e.Planks, p.bound+e.Bound
			if e.Planks == e.Bound {
				p.proven++
			}
			if len(e.Optima) > 0 {
				p.general++
			}
		}
	}
	for _, name := range append(order, "all") {
		if p := parts[name]; p != nil {
			g.Add(
				name,
				fmt.Sprint(p.n),
				fmt.Sprint(p.runs),
				fmt.Sprint(p.planks),
				fmt.Sprint(p.bound),
				fmt.Sprint(p.proven),
				fmt.Sprint(p.general),
			)
		}
	}
	return g
}

// parseEffort reads the name of an effort.
func parseEffort(s string) (solve.Effort, error) {
	for _, k := range strategy.Known() {
		if l, ok := k.(strategy.Library); ok && l.Name() == "library-"+s {
			return l.Effort, nil
		}
	}
	return 0, fmt.Errorf("--effort is %q: one of quick, normal, thorough; %w", s, errUsage)
}
