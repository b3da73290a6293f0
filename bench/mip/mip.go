// Package mip hands bare instances to general mixed-integer solvers, as the models of package rows: HiGHS (the npm
// package highs, run by node), CBC (Debian's coinor-cbc) and GLPK (Debian's glpk-utils), each as it comes but for a gap
// below one plank, at which it may stop.
package mip

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Model is a form of the problem for general solvers.
type Model struct {
	Name  string // "compact" or "step"
	write func(in *rows.Instance, w io.Writer) error
}

// The models of package rows.
var (
	compact = &Model{"compact", (*rows.Instance).WriteLP}
	step    = &Model{"step", (*rows.Instance).WriteStepLP}
)

// Compact is rows.Instance.WriteLP, for instances without one-piece runs and offcuts on hand.
func Compact() *Model { return compact }

// Step is rows.Instance.WriteStepLP.
func Step() *Model { return step }

// An Answer is what a solver says of an instance.
type Answer struct {
	Planks int           // of its best layout, or what else the model minimises; 0 where it has none
	Proven bool          // no layout of the model needs fewer
	Took   time.Duration // wall clock, with the start of the solver and its reading
	CPU    time.Duration // of its process, user and system, all threads
}

// ErrNothing is wrapped where a solver ended in time and has neither a layout nor a proof that there is none.
var ErrNothing = errors.New("mip: the solver found nothing")

// A Solver is a general solver.
type Solver struct {
	Name    string
	command func(lp string, limit time.Duration) *exec.Cmd
	read    func(out []byte, lp string) (value string, proven bool)
	version func() string
}

// HiGHS runs the npm package of a folder that holds node_modules/highs.
func HiGHS(folder string) *Solver {
	return &Solver{"HiGHS", func(lp string, limit time.Duration) *exec.Cmd {
		cmd := exec.Command("node", "-e", script, lp, seconds(limit))
		cmd.Dir = folder
		return cmd
	}, func(out []byte, _ string) (string, bool) {
		fields := bytes.Fields(out)
		if len(fields) < 3 || string(fields[0]) != "answer" {
			return "", false
		}
		return string(fields[2]), string(fields[1]) == "Optimal"
	}, func() string {
		return output(
			"node",
			"-p",
			"require("+strconv.Quote(filepath.Join(folder, "node_modules/highs/package.json"))+").version",
		)
	}}
}

// script runs HiGHS on a model; the absolute gap is below one plank, so it stops at the optimum.
const script = `const fs=require('fs');(async()=>{const h=await require('highs')({});
const o={mip_rel_gap:0,mip_abs_gap:0.99,time_limit:+process.argv[2],output_flag:false};
const r=h.solve(fs.readFileSync(process.argv[1],'utf8'),o);
console.log('answer '+r.Status.replace(/ /g,'_')+' '+r.ObjectiveValue);})();`

// CBC runs the command cbc.
func CBC() *Solver {
	value := regexp.MustCompile(`(?m)^Objective value: +(\S+)`)
	optimal := regexp.MustCompile(`(?m)^Result - Optimal solution found$`)
	return &Solver{"CBC", func(lp string, limit time.Duration) *exec.Cmd {
		return exec.Command("cbc", lp, "-ratio", "0", "-allow", "0.99", "-sec", seconds(limit), "-solve", "-quit")
	}, func(out []byte, _ string) (string, bool) {
		if m := value.FindSubmatch(out); m != nil {
			return string(m[1]), optimal.Match(out)
		}
		return "", false
	}, func() string { return output("dpkg-query", "-W", "-f", "${Version}", "coinor-cbc") }}
}

// GLPK runs the command glpsol with its cuts, without which it closes little. It knows no absolute gap.
func GLPK() *Solver {
	value := regexp.MustCompile(`(?m)^Objective: +\S+ = (\S+)`)
	return &Solver{"GLPK", func(lp string, limit time.Duration) *exec.Cmd {
		return exec.Command("glpsol", "--lp", lp, "--cuts", "--tmlim", seconds(limit), "-o", lp+".out")
	}, func(_ []byte, lp string) (string, bool) {
		out, err := os.ReadFile(lp + ".out")
		m := value.FindSubmatch(out)
		if err != nil || m == nil || bytes.Contains(out, []byte("UNDEFINED")) {
			return "", false
		}
		return string(m[1]), bytes.Contains(out, []byte("INTEGER OPTIMAL"))
	}, func() string { return output("dpkg-query", "-W", "-f", "${Version}", "glpk-utils") }}
}

// Version returns the version of the solver, or "" where it is not installed.
func (s *Solver) Version() string { return s.version() }

// Solve writes the model to a temporary file and runs the solver on it for at most the limit of processor time, whole
// seconds, at which it is killed (on systems with sh; it is killed in any case when twenty times the limit have
// passed). So a busy machine closes no fewer instances. The error is that of the model for instances it does not cover,
// that of the solver where it is absent, and ErrNothing where it has no answer.
func (s *Solver) Solve(ctx context.Context, in *rows.Instance, model *Model, limit time.Duration) (*Answer, error) {
	dir, err := os.MkdirTemp("", "mip")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	lp := filepath.Join(dir, "model.lp")
	if err := writeModel(in, model, lp); err != nil {
		return nil, err
	}
	return s.run(ctx, lp, limit)
}

// SolveLP is Solve for a model in a file, in CPLEX-LP format, whose objective is a whole number that is minimised.
func (s *Solver) SolveLP(ctx context.Context, lp string, limit time.Duration) (*Answer, error) {
	return s.run(ctx, lp, limit)
}

func (s *Solver) run(ctx context.Context, lp string, limit time.Duration) (*Answer, error) {
	ctx, cancel := context.WithTimeout(ctx, wallFactor*limit+30*time.Second)
	defer cancel()
	plain := s.command(lp, wallFactor*limit)
	if plain.Err != nil {
		return nil, plain.Err
	}
	args := plain.Args
	if sh, err := exec.LookPath("sh"); err == nil {
		args = append([]string{sh, "-c", "ulimit -t " + seconds(limit) + `; exec "$0" "$@"`}, args...)
	}
	cmd := exec.CommandContext(ctx, args[0], args[1:]...)
	cmd.Dir = plain.Dir
	start := time.Now()
	out, err := cmd.Output()
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() < 0 && time.Since(start) >= limit/2 { // by a signal: the limit
		return nil, fmt.Errorf("%w: %s was stopped after %v of processor time", ErrNothing, s.Name, limit)
	}
	if err != nil {
		return nil, err
	}
	a := &Answer{Took: time.Since(start), CPU: cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()}
	text, proven := s.read(out, lp)
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) || v < 0.5 || v > 1e9 {
		return a, fmt.Errorf("%w: %s", ErrNothing, s.Name)
	}
	a.Planks, a.Proven = int(math.Round(v)), proven
	return a, nil
}

// wallFactor is how much wall clock a solver may take for its processor time.
const wallFactor = 20

func writeModel(in *rows.Instance, model *Model, name string) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	if err := model.write(in, f); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// Startup is the CPU time a solver takes for a model with one choice: the least of three. It is what its process costs
// before it works.
func (s *Solver) Startup(ctx context.Context) (time.Duration, error) {
	one := &rows.Instance{Plank: 4, MinPiece: 1, Grid: 2, Runs: []rows.Run{{Length: 5}}}
	least := time.Duration(math.MaxInt64)
	for range 3 {
		a, err := s.Solve(ctx, one, step, time.Minute)
		if err != nil {
			return 0, err
		}
		least = min(least, a.CPU)
	}
	return least, nil
}

func seconds(limit time.Duration) string {
	return strconv.FormatFloat(math.Ceil(limit.Seconds()), 'f', 0, 64)
}

// output is what a command prints, or "" where it fails.
func output(name string, args ...string) string {
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(out))
}

// Draw makes the instance of a seed that general solvers can close: plain and angled rooms on a 1/4 in grid, 8 to 32
// rows, planks of 36 to 72 in, shortest piece and stagger 6 to 12 in.
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

// DrawMixed makes the instance of a seed with what only the step model covers: rows of one to three runs round things
// in the way, one-piece runs among them, ties that close cycles, offcuts on hand and joints laid already. 4 to 12 rows
// on a 1/2 in grid.
func DrawMixed(seed uint64) *rows.Instance {
	const half = measure.Inch / 2
	r := rand.New(rand.NewPCG(seed, 6))
	in := &rows.Instance{
		Name: fmt.Sprintf("mixed %d", seed), Plank: measure.Length(36+r.IntN(25)) * measure.Inch, Kerf: measure.Inch / 8,
		Grid: half, MinPiece: measure.Length(6+r.IntN(4)) * measure.Inch, Stagger: measure.Length(6+r.IntN(3)) * measure.Inch,
	}
	wide := measure.Length(2*90+r.IntN(2*90)) * half
	from, to := wide/3, wide/3+measure.Length(2*12+r.IntN(2*24))*half // the thing in the way
	var above []int
	for row := range 4 + r.IntN(9) {
		spans := [][2]measure.Length{{0, wide}}
		if row%6 >= 2 {
			spans = [][2]measure.Length{{0, from}, {to, wide}}
		}
		var here []int
		for _, s := range spans {
			i := len(in.Runs)
			in.Runs = append(in.Runs, rows.Run{From: s[0], Length: s[1] - s[0]})
			for _, j := range above {
				if a := in.Runs[j]; a.From < s[1] && s[0] < a.From+a.Length {
					in.Touch = append(in.Touch, [2]int{j, i})
				}
			}
			here = append(here, i)
		}
		above = here
	}
	for range r.IntN(4) {
		in.Offcuts = append(in.Offcuts, rows.Offcut{
			Length: measure.Length(
				2*10+r.IntN(2*24),
			) * half, End: []rows.End{rows.EndLeft, rows.EndRight, rows.EndNone}[r.IntN(3)],
		})
	}
	if r.IntN(2) == 0 {
		in.Runs[0].Beside = []measure.Length{measure.Length(2*10+r.IntN(2*20)) * half}
	}
	return in
}
