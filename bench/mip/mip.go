// Package mip hands bare instances to general mixed-integer solvers, as the compact model of rows.Instance.WriteLP: HiGHS
// (the npm package highs, run by node) and CBC (Debian's coinor-cbc).
package mip

import (
	"bufio"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// An Answer is what a solver says of an instance.
type Answer struct {
	Planks int
	Proven bool          // no layout of the model needs fewer
	Took   time.Duration // wall clock, with the start of the solver
}

// A Solver is a general solver.
type Solver struct {
	Name  string
	solve func(ctx context.Context, lp string, limit time.Duration) (*Answer, error)
}

// HiGHS runs the npm package of a folder that holds node_modules/highs.
func HiGHS(folder string) *Solver {
	return &Solver{"HiGHS", func(ctx context.Context, lp string, limit time.Duration) (*Answer, error) {
		return runHiGHS(ctx, folder, lp, limit)
	}}
}

// CBC runs the command cbc.
func CBC() *Solver { return &Solver{"CBC", runCBC} }

// Solve writes the model to a temporary file and runs the solver on it for about the limit; a solver that is still busy half
// a minute later is killed. The error is rows.ErrModel for instances the compact model does not cover, and that of the
// solver where it is absent or says nothing that can be read.
func (s *Solver) Solve(ctx context.Context, in *rows.Instance, limit time.Duration) (*Answer, error) {
	dir, err := os.MkdirTemp("", "mip")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	lp := filepath.Join(dir, "model.lp")
	if err := writeModel(in, lp); err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(ctx, limit+30*time.Second)
	defer cancel()
	return s.solve(ctx, lp, limit)
}

// Draw makes the instance of a seed that general solvers can close: plain and angled rooms on a 1/4 in grid, 8 to 32 rows, planks of 36 to 72 in, shortest piece and stagger 6 to 12 in.
func Draw(seed uint64) *rows.Instance {
	const quarter = measure.Inch / 4
	r := rand.New(rand.NewPCG(seed, 5))
	plank := measure.Length(36+r.IntN(37)) * measure.Inch
	in := &rows.Instance{
		Name: fmt.Sprintf("mip %d", seed), Plank: plank, Kerf: measure.Inch / 8, Grid: quarter,
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

// script runs HiGHS on a model; the absolute gap is below one plank, so it stops at the optimum.
const script = `const fs=require('fs');(async()=>{const h=await require('highs')({});
const r=h.solve(fs.readFileSync(process.argv[1],'utf8'),{mip_rel_gap:0,mip_abs_gap:0.99,time_limit:+process.argv[2],output_flag:false});
console.log('answer '+r.Status.replace(/ /g,'_')+' '+r.ObjectiveValue);})();`

func runHiGHS(ctx context.Context, folder, lp string, limit time.Duration) (*Answer, error) {
	cmd := exec.CommandContext(ctx, "node", "-e", script, lp, strconv.FormatFloat(limit.Seconds(), 'f', 0, 64))
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

func runCBC(ctx context.Context, lp string, limit time.Duration) (*Answer, error) {
	cmd := exec.CommandContext(ctx, "cbc", lp, "-ratio", "0", "-allow", "0.99", "-sec", strconv.FormatFloat(limit.Seconds(), 'f', 0, 64), "-solve", "-quit")
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

func parse(value string, proven bool, took time.Duration) (*Answer, error) {
	v, err := strconv.ParseFloat(value, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return nil, fmt.Errorf("no value in %q", value)
	}
	return &Answer{Planks: int(math.Round(v)), Proven: proven, Took: took}, nil
}
