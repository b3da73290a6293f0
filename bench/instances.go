package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"sync"
	"time"

	"plank.example/bench/frozen"
	"plank.example/bench/mip"
	"plank.example/bench/strategy"
	"plank.example/cutopt/solve"
)

// instancesFile is the frozen set, from the root of the repository.
const instancesFile = "testdata/instances/instances.jsonl"

type instancesFlags struct {
	file, effort, add, highs, only string
	anew, cbc, glpk                bool
	limit                          time.Duration
	workers                        int
}

func instancesCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	var r instancesFlags
	f := newFlags("instances", errw)
	f.StringVar(&r.file, "file", instancesFile, "the set")
	f.BoolVar(&r.anew, "make", false, "draw the instances anew; results of those that are the same are kept")
	f.StringVar(&r.effort, "effort", "", "lay every instance at this effort (quick, normal, thorough) and keep what is better")
	f.StringVar(&r.add, "add", "", "file of claims, JSON lines: take those that are better, after verifying them")
	f.StringVar(&r.highs, "highs", "", "let HiGHS prove optima; the folder that holds node_modules/highs")
	f.BoolVar(&r.cbc, "cbc", false, "let CBC prove optima")
	f.BoolVar(&r.glpk, "glpk", false, "let GLPK prove optima")
	f.DurationVar(&r.limit, "limit", time.Minute, "limit of a general solver on one instance")
	f.StringVar(&r.only, "only", "", "only instances whose id begins so")
	f.IntVar(&r.workers, "workers", runtime.NumCPU(), "instances at a time")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	set, err := r.read()
	if err != nil {
		return err
	}
	changed := r.anew
	for _, step := range []struct {
		asked bool
		do    func() (int, error)
	}{
		{r.effort != "", func() (int, error) { return r.lay(ctx, set, errw) }},
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
		if err := writeWhole(r.file, func(w io.Writer) error { return frozen.Write(w, set) }); err != nil {
			return err
		}
	}
	return summarise(out, set)
}

// read reads the set, or draws it and takes over the results that are known.
func (r *instancesFlags) read() ([]*frozen.Entry, error) {
	f, err := os.Open(r.file)
	if err != nil && !(r.anew && errors.Is(err, os.ErrNotExist)) {
		return nil, err
	}
	var set []*frozen.Entry
	if err == nil {
		defer f.Close()
		if set, err = frozen.Read(f); err != nil {
			return nil, err
		}
	}
	if !r.anew {
		return set, nil
	}
	if r.effort == "" {
		return nil, fmt.Errorf("--make needs --effort: every instance of the set has a layout and a bound; %w", errUsage)
	}
	known := make(map[string]*frozen.Entry)
	for _, e := range set {
		known[e.ID] = e
	}
	drawn, err := frozen.Make()
	if err != nil {
		return nil, err
	}
	for i, e := range drawn {
		if k := known[e.ID]; k != nil && frozen.Same(k.Instance, e.Instance) {
			drawn[i] = k
		}
	}
	return drawn, nil
}

func (r *instancesFlags) wanted(e *frozen.Entry) bool { return strings.HasPrefix(e.ID, r.only) }

// lay runs the library on every instance and keeps what is better.
func (r *instancesFlags) lay(ctx context.Context, set []*frozen.Entry, errw io.Writer) (int, error) {
	effort, err := parseEffort(r.effort)
	if err != nil {
		return 0, err
	}
	by := "library, " + r.effort + " effort"
	var mutex sync.Mutex
	better, done := 0, 0
	err = each(ctx, set, r.workers, func(e *frozen.Entry) error {
		if !r.wanted(e) {
			return nil
		}
		a, err := strategy.Library{Effort: effort}.Lay(ctx, &strategy.Floor{Rows: e.Instance})
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

// claims takes the results of a file.
func (r *instancesFlags) claims(set []*frozen.Entry, out io.Writer) (int, error) {
	f, err := os.Open(r.add)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	ids, err := frozen.Add(set, f)
	for _, id := range ids {
		fmt.Fprintf(out, "bettered: %s\n", id)
	}
	return len(ids), err
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

// version is what a command prints, or "" where it fails.
func version(name string, args ...string) string {
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(out))
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
	return g.text(out)
}

func frozenGrid(set []*frozen.Entry) *grid {
	g := &grid{head: []string{"part", "instances", "runs", "planks", "bound", "proven", "by a general solver too"}}
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
			g.add(name, fmt.Sprint(p.n), fmt.Sprint(p.runs), fmt.Sprint(p.planks), fmt.Sprint(p.bound), fmt.Sprint(p.proven), fmt.Sprint(p.general))
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
