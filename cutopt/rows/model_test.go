package rows_test

import (
	"bytes"
	"errors"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A reference is a general solver: Debian's coinor-cbc and glpk-utils.
type reference struct {
	name string
	args func(lp string) []string
	// value is where the optimum stands in what it prints; infeasible is what it says where there is none.
	value, infeasible *regexp.Regexp
}

var references = []reference{
	{
		"cbc", func(lp string) []string { return []string{lp, "-ratio", "0", "-allow", "0.9", "-solve", "-quit"} },
		regexp.MustCompile(`Objective value: +([0-9.]+)`),
		regexp.MustCompile(`(?m)^(Result - Problem proven|Problem is|Result - Linear relaxation) infeasible`),
	},
	{
		"glpsol", func(lp string) []string { return []string{"--lp", lp, "-o", lp + ".out"} },
		regexp.MustCompile(`Objective: +\S+ = ([0-9.]+)`),
		regexp.MustCompile(`NO (PRIMAL|INTEGER) FEASIBLE|INTEGER EMPTY`),
	},
}

// solve returns the optimum of a model by the solver, -1 where it has none.
func (ref *reference) solve(t *testing.T, model []byte) int {
	t.Helper()
	lp := filepath.Join(t.TempDir(), "model.lp")
	if err := os.WriteFile(lp, model, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(ref.name, ref.args(lp)...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v: %s", ref.name, err, out)
	}
	if more, err := os.ReadFile(lp + ".out"); err == nil {
		out = append(out, more...)
	}
	if ref.infeasible.Match(out) {
		return -1
	}
	found := ref.value.FindAllSubmatch(out, -1)
	if len(found) == 0 {
		t.Fatalf("%s: no optimum in %s", ref.name, out)
	}
	v, err := strconv.ParseFloat(string(found[len(found)-1][1]), 64)
	if err != nil {
		t.Fatal(err)
	}
	return int(math.Round(v))
}

// least is the fewest planks over all layouts, each cut in every way; -1 where no layout keeps the rules.
func least(in *rows.Instance) int {
	best := -1
	layout := make(rows.Layout, len(in.Runs))
	var lay func(i int)
	lay = func(i int) {
		if i == len(layout) {
			if keeps(in, layout) {
				if n := fewest(in, layout); best < 0 || n < best {
					best = n
				}
			}
			return
		}
		for s := measure.Length(0); s <= in.Plank; s++ {
			if s == 0 || s == in.Plank || s%in.Grid == 0 {
				if _, ok := in.Lay(i, s); ok {
					layout[i] = s
					lay(i + 1)
				}
			}
		}
	}
	lay(0)
	return best
}

// tiny draws an instance that brute force can settle.
func tiny(r *rand.Rand, compact bool) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(9 + r.IntN(9)), Kerf: measure.Length(r.IntN(2)), MinPiece: measure.Length(1 + r.IntN(3)),
		MinEnder: measure.Length(r.IntN(4)), Stagger: measure.Length(r.IntN(4)), Grid: measure.Length(1 + r.IntN(2)),
	}
	n := 2 + r.IntN(3)
	for i := range n {
		run := rows.Run{From: measure.Length(r.IntN(5)), Length: in.Plank + measure.Length(1+r.IntN(int(2*in.Plank)))}
		if !compact && r.IntN(2) == 0 {
			run.Length = measure.Length(1 + r.IntN(int(in.Plank)))
		}
		if r.IntN(4) == 0 {
			run.Beside = []measure.Length{measure.Length(r.IntN(int(run.Length)))}
		}
		in.Runs = append(in.Runs, run)
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{r.IntN(i), i})
		}
	}
	if n > 2 && r.IntN(3) == 0 && in.Touch[n-2][0] != 0 { // a cycle
		in.Touch = append(in.Touch, [2]int{0, n - 1})
	}
	if !compact && r.IntN(2) == 0 {
		drawOffcuts(r, in, 4)
	}
	return in
}

// TestModelsAgainstBruteForce holds the optimum of both models, as general solvers find it, against every layout cut in
// every way. It skips the solvers that are not installed.
func TestModelsAgainstBruteForce(t *testing.T) {
	samples := uint64(oracle.Samples(6))
	for _, ref := range references {
		t.Run(ref.name, func(t *testing.T) {
			if _, err := exec.LookPath(ref.name); err != nil {
				t.Skip("it is not installed")
			}
			none := 0
			for seed := range samples {
				compact := seed%2 == 0
				r := rand.New(rand.NewPCG(seed, 11))
				in := tiny(r, compact)
				if seed%3 > 0 {
					oracle.Begin(r, in)
				}
				if err := in.Validate(); err != nil {
					t.Fatal(err)
				}
				want := least(in)
				if want < 0 {
					none++
				}
				for name, write := range map[string]func(io.Writer) error{"step": in.WriteStepLP, "compact": in.WriteLP} {
					var model bytes.Buffer
					err := write(&model)
					if errors.Is(err, rows.ErrModel) && name == "compact" || err != nil && want < 0 {
						continue // the model does not cover it, or says that there is none
					}
					if err != nil {
						t.Fatalf("seed %d, %s model: %v", seed, name, err)
					}
					if got := ref.solve(t, model.Bytes()); got != want {
						t.Errorf("seed %d: %s says %d of the %s model, brute force %d: %+v", seed, ref.name, got, name, want, in)
					}
				}
			}
			if none > int(samples/2) {
				t.Errorf("%d of %d instances have no layout: the test shows little", none, samples)
			}
		})
	}
}
