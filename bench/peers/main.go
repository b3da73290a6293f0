// Command peers solves the same bare instances by this library and by general solvers, and prints optimum, proof and time
// side by side:
//
//	go run ./bench/peers -n 40 -limit 60s
//
// Instances are plain and angled rooms of 8 to 32 rows on a 1/4 in grid, drawn from a seed. HiGHS (npm package highs, run
// by node) and CBC (Debian's coinor-cbc) get the compact mixed-integer model in CPLEX-LP form with a gap that only the
// optimum closes; a peer that is absent is skipped. -highs names the folder that holds node_modules/highs. Times are wall
// clock, without start-up for this library and with it for the peers.
package main

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

func main() {
	n := flag.Int("n", 40, "instances")
	seed := flag.Uint64("seed", 1, "first seed")
	limit := flag.Duration("limit", time.Minute, "limit of a peer on one instance")
	highs := flag.String("highs", ".", "folder that holds node_modules/highs")
	store := flag.String("store", "", "file to append optima to, one JSON line an instance")
	flag.Parse()
	if err := run(os.Stdout, *n, *seed, *limit, *highs, *store); err != nil {
		fmt.Fprintln(os.Stderr, "peers:", err)
		os.Exit(1)
	}
}

// An answer is what a solver says of an instance.
type answer struct {
	planks int
	proven bool
	took   time.Duration
}

func (a *answer) String() string {
	if a == nil {
		return fmt.Sprintf("%20s", "-")
	}
	mark := "<="
	if a.proven {
		mark = "="
	}
	return fmt.Sprintf("%3s %4d %10.4f s", mark, a.planks, a.took.Seconds())
}

// A tally compares this library with one peer over the instances that the peer closed.
type tally struct {
	closed, same int
	logRatio     float64
}

func run(w io.Writer, n int, seed uint64, limit time.Duration, highs, store string) error {
	dir, err := os.MkdirTemp("", "peers")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	peers := []struct {
		name  string
		solve func(lp string, limit time.Duration) (*answer, error)
	}{
		{"HiGHS", func(lp string, limit time.Duration) (*answer, error) { return runHiGHS(highs, lp, limit) }},
		{"CBC", runCBC},
	}
	tallies := make([]tally, len(peers))
	fmt.Fprintf(w, "%6s %4s %20s %20s %20s\n", "seed", "rows", "this library", "HiGHS", "CBC")
	for k := range uint64(n) {
		in := draw(seed + k)
		lp := filepath.Join(dir, "model.lp")
		if err := writeModel(in, lp); err != nil {
			return err
		}
		ours, err := solve(in)
		if err != nil {
			return fmt.Errorf("seed %d: %w", seed+k, err)
		}
		fmt.Fprintf(w, "%6d %4d %20s", seed+k, len(in.Runs), ours)
		for i, p := range peers {
			a, err := p.solve(lp, limit)
			if err != nil {
				a = nil
			}
			fmt.Fprintf(w, " %20s", a)
			if a != nil && a.proven {
				tallies[i].add(ours, a)
				if store != "" {
					if err := keep(store, p.name, seed+k, a.planks); err != nil {
						return err
					}
				}
			}
		}
		fmt.Fprintln(w)
	}
	for i, p := range peers {
		t := tallies[i]
		if t.closed > 0 {
			fmt.Fprintf(w, "%s closed %d of %d within %v; the same planks in %d; geometric mean of its time over ours %.0f\n",
				p.name, t.closed, n, limit, t.same, math.Exp(t.logRatio/float64(t.closed)))
		} else {
			fmt.Fprintf(w, "%s: absent, or closed none\n", p.name)
		}
	}
	return nil
}

func (t *tally) add(ours, peer *answer) {
	t.closed++
	if ours.planks == peer.planks {
		t.same++
	}
	t.logRatio += math.Log(peer.took.Seconds() / ours.took.Seconds())
}

// draw makes the instance of a seed: 8 to 32 rows, planks of 36 to 72 in, shortest piece and stagger 6 to 12 in.
func draw(seed uint64) *rows.Instance {
	const quarter = measure.Inch / 4
	r := rand.New(rand.NewPCG(seed, 5))
	plank := measure.Length(36+r.IntN(37)) * measure.Inch
	in := &rows.Instance{
		Name: fmt.Sprintf("peers %d", seed), Plank: plank, Kerf: measure.Inch / 8, Grid: quarter,
		MinPiece: measure.Length(6+r.IntN(7)) * measure.Inch, Stagger: measure.Length(6+r.IntN(5)) * measure.Inch,
	}
	w := measure.Length(4*100+r.IntN(4*200)) * quarter
	slant := measure.Length(r.IntN(3)) * quarter
	for i := range 8 + r.IntN(25) {
		in.Runs = append(in.Runs, rows.Run{Length: w + slant*measure.Length(i)})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	return in
}

func writeModel(in *rows.Instance, name string) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	if err := in.WriteLP(f); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

func solve(in *rows.Instance) (*answer, error) {
	start := time.Now()
	r, err := cutopt.SolveRows(context.Background(), in, nil)
	if err != nil {
		return nil, err
	}
	took := time.Since(start)
	if err := r.Bound.Certificate.Verify(in); err != nil {
		return nil, err
	}
	return &answer{planks: len(r.Cutting.Planks), proven: r.Bound.PlanksProven, took: took}, nil
}

// script runs HiGHS on a model; the absolute gap is below one plank, so it stops at the optimum.
const script = `const fs=require('fs');(async()=>{const h=await require('highs')({});
const r=h.solve(fs.readFileSync(process.argv[1],'utf8'),{mip_rel_gap:0,mip_abs_gap:0.99,time_limit:+process.argv[2],output_flag:false});
console.log('answer '+r.Status.replace(/ /g,'_')+' '+r.ObjectiveValue);})();`

func runHiGHS(folder, lp string, limit time.Duration) (*answer, error) {
	cmd := exec.Command("node", "-e", script, lp, strconv.FormatFloat(limit.Seconds(), 'f', 0, 64))
	cmd.Dir = folder
	start := time.Now()
	out, err := cmd.Output()
	if err != nil {
		return nil, err
	}
	took := time.Since(start)
	fields := strings.Fields(string(out))
	if len(fields) < 3 || fields[0] != "answer" {
		return nil, fmt.Errorf("highs: %q", out)
	}
	return parse(fields[2], fields[1] == "Optimal", took)
}

func runCBC(lp string, limit time.Duration) (*answer, error) {
	cmd := exec.Command("cbc", lp, "-ratio", "0", "-allow", "0.99", "-sec", strconv.FormatFloat(limit.Seconds(), 'f', 0, 64), "-solve", "-quit")
	start := time.Now()
	out, err := cmd.Output()
	if err != nil {
		return nil, err
	}
	took := time.Since(start)
	value, proven := "", false
	lines := bufio.NewScanner(strings.NewReader(string(out)))
	for lines.Scan() {
		if v, ok := strings.CutPrefix(lines.Text(), "Objective value:"); ok {
			value = strings.TrimSpace(v)
		}
		proven = proven || strings.HasPrefix(lines.Text(), "Result - Optimal solution found")
	}
	return parse(value, proven, took)
}

func parse(value string, proven bool, took time.Duration) (*answer, error) {
	v, err := strconv.ParseFloat(value, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return nil, fmt.Errorf("no value in %q", value)
	}
	return &answer{planks: int(math.Round(v)), proven: proven, took: took}, nil
}

// keep appends an optimum that a peer proved.
func keep(name, peer string, seed uint64, planks int) error {
	f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(f, "{\"seed\": %d, \"planks\": %d, \"by\": %q}\n", seed, planks, peer)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	return err
}
