//go:build unix

package fewest_test

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// sets are kinds of floors, drawn by seed, on which the share proven and the time are measured.
var sets = []struct {
	name  string
	draw  func(r *rand.Rand) *rows.Instance
	limit time.Duration
}{
	{"plain", plain, 10 * time.Second},
	{"shapes", shapes, 10 * time.Second},
	{"dwelling", dwelling, 15 * time.Second},
	{"metric", metric, 10 * time.Second},
	{"diagonal", diagonal, 5 * time.Second},
	{"few", few, time.Second},
	{"closets", closets, 6 * time.Second},
}

// TestSets solves floors of every set on one worker, for the fewest planks, and logs a row of a table for each: the
// share whose planks are proven, and whose boxes of 8 are, processor times, the floors left open and the planks that
// they are short of together. CUTOPT_SETS says how many floors of each, CUTOPT_SET only one set, NAME or NAME:FIRST;
// CUTOPT_EFFORT=thorough goes on longer and CUTOPT_EACH lists slow floors, or all.
func TestSets(t *testing.T) {
	count, err := strconv.Atoi(os.Getenv("CUTOPT_SETS"))
	if err != nil {
		t.Skip("CUTOPT_SETS says of how many floors a set")
	}
	only, from := os.Getenv("CUTOPT_SET"), 0
	if name, first, ok := strings.Cut(only, ":"); ok {
		only = name
		from, _ = strconv.Atoi(first)
	}
	t.Log("| set | floors | planks proven | boxes proven | median | p90 | p95 | p99 | most | open | short of |")
	t.Log("|---|---|---|---|---|---|---|---|---|---|---|")
	for k, set := range sets {
		if only != "" && only != set.name {
			continue
		}
		var times []time.Duration
		proven, boxed, gap := 0, 0, 0
		var open []int
		for i := range count {
			seed := from + i
			in := set.draw(rand.New(rand.NewPCG(uint64(seed), uint64(1000+k))))
			began := cpu()
			s := settings()
			s.Workers = 1
			if os.Getenv("CUTOPT_EFFORT") == "thorough" {
				s.Budget = &fewest.Thorough
			}
			s.Stop = func() bool { return cpu()-began > set.limit }
			out, err := fewest.Solve(in, s)
			took := cpu() - began
			times = append(times, took)
			if err != nil {
				t.Errorf("%s %d: %v", set.name, seed, err)
				continue
			}
			if boxes(out.Planks) == boxes(out.Bound) {
				boxed++
			}
			if out.Planks == out.Bound {
				proven++
			} else {
				open = append(open, seed)
				gap += out.Planks - out.Bound
			}
			if os.Getenv("CUTOPT_EACH") != "" && took > 200*time.Millisecond || os.Getenv("CUTOPT_EACH") == "all" {
				t.Logf(
					"%s %d: %d runs, %d planks, bound %d, %d paths, %d leaves, %d steps, %v",
					set.name,
					seed,
					len(in.Runs),
					out.Planks,
					out.Bound,
					out.Paths,
					out.Leaves,
					out.Steps,
					took.Round(time.Millisecond),
				)
			}
			if err := out.Certificate.Verify(in); err != nil {
				t.Errorf("%s %d: %v", set.name, seed, err)
			}
		}
		slices.Sort(times)
		at := func(share float64) time.Duration {
			return times[min(int(share*float64(count)), count-1)].Round(10 * time.Microsecond)
		}
		share := func(n int) float64 { return 100 * float64(n) / float64(count) }
		t.Logf("| %s | %d | %.1f %% | %.1f %% | %v | %v | %v | %v | %v | %v | %d |", set.name, count, share(proven),
			share(boxed), at(0.5), at(0.9), at(0.95), at(0.99), at(1), open, gap)
	}
}

func boxes(planks int) int { return (planks + 7) / 8 }

// TestFewRuns closes floors of 2 to 12 runs, one-piece runs among them, and their certificates verify.
func TestFewRuns(t *testing.T) {
	open, split := 0, 0
	for seed := range uint64(oracle.Samples(20)) {
		floor := few(rand.New(rand.NewPCG(seed, 1005)))
		out, err := fewest.Solve(floor, settings())
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if out.Planks > out.Bound {
			open++
		}
		if out.Leaves > 1 {
			split++
		}
		if err := out.Certificate.Verify(floor); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
	}
	if open > 0 || split == 0 {
		t.Errorf("%d floors stay open, %d are closed by cases", open, split)
	}
}

// cpu is the time the process has spent.
func cpu() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func inches(r *rand.Rand, lo, hi int) measure.Length {
	return measure.Length(lo*16+r.IntN((hi-lo)*16)) * measure.Sixteenth
}

func rules(rowsOf [][][2]measure.Length, plank measure.Length) *rows.Instance {
	return instance(rowsOf, plank, in/8, 8*in, 8*in, measure.Sixteenth)
}

func usual(r *rand.Rand) measure.Length {
	return []measure.Length{36 * in, 48 * in, 60 * in, 72 * in}[r.IntN(4)]
}

// plain draws a rectangle of 8 to 32 rows.
func plain(r *rand.Rand) *rows.Instance {
	return rules(block(8+r.IntN(25), 0, inches(r, 96, 300)), usual(r))
}

// shapes draws an L, a T, or a room with an island.
func shapes(r *rand.Rand) *rows.Instance {
	return rules(outlined(r), usual(r))
}

func block(n int, from, w measure.Length) (out [][][2]measure.Length) {
	for range n {
		out = append(out, [][2]measure.Length{{from, from + w}})
	}
	return out
}

func outlined(r *rand.Rand) [][][2]measure.Length {
	n, w := 10+r.IntN(23), inches(r, 120, 300)
	out := block(n, 0, w)
	a := 2 + r.IntN(n-4)
	switch r.IntN(3) {
	case 0: // L
		short := inches(r, 40, 110)
		from := []measure.Length{0, w - short}[r.IntN(2)]
		for i := a; i < n; i++ {
			out[i][0] = [2]measure.Length{from, from + short}
		}
	case 1: // T
		short := inches(r, 40, 80)
		for i := a; i < n; i++ {
			out[i][0] = [2]measure.Length{20 * in, 20*in + short}
		}
	case 2: // island
		x := inches(r, 30, 60)
		y := x + inches(r, 20, 40)
		for i := a; i < min(a+2+r.IntN(6), n-1); i++ {
			out[i] = [][2]measure.Length{{0, x}, {y, w}}
		}
	}
	return out
}

// dwelling draws two to four rooms with closets and a hall, laid from the same boxes: many short runs.
func dwelling(r *rand.Rand) *rows.Instance {
	out := outlined(r)
	add := func(more [][][2]measure.Length) { // apart from what is there: one row never touches another
		far := 10_000 * in * measure.Length(len(out))
		for _, row := range more {
			for k := range row {
				row[k][0], row[k][1] = row[k][0]+far, row[k][1]+far
			}
			out = append(out, row)
		}
	}
	for range 1 + r.IntN(3) {
		add(block(8+r.IntN(14), 0, inches(r, 90, 180)))
	}
	for range 2 + r.IntN(4) {
		add(block(3+r.IntN(4), 0, inches(r, 22, 60)))
	}
	add(block(4+r.IntN(20), 0, inches(r, 36, 46)))
	return rules(out, usual(r))
}

// metric draws a plain or outlined room on a grid of 1 mm.
func metric(r *rand.Rand) *rows.Instance {
	const mm = measure.Millimetre
	n, w := 8+r.IntN(25), measure.Length(2400+r.IntN(5000))*mm
	out := block(n, 0, w)
	if r.IntN(2) == 0 {
		short := measure.Length(900+r.IntN(1400)) * mm
		for i := 2 + r.IntN(n-3); i < n; i++ {
			out[i][0][1] = short
		}
	}
	plank := []measure.Length{1220 * mm, 1380 * mm, 2200 * mm}[r.IntN(3)]
	return instance(out, plank, 3*mm, 200*mm, 200*mm, mm)
}

// diagonal draws a rectangle laid at 45 degrees.
func diagonal(r *rand.Rand) *rows.Instance {
	w, h := float64(inches(r, 96, 200))*math.Sqrt2, float64(inches(r, 96, 200))*math.Sqrt2
	step := float64([]measure.Length{5 * in, 6 * in, 7 * in}[r.IntN(3)])
	var out [][][2]measure.Length
	low, high := -w/2, h/2
	for q := low; q < high; q += step {
		// across the rows at q a run goes from |q| to min(q + w, h - q)
		p := min(q+step, high)
		from := min(math.Abs(q), math.Abs(p))
		if q < 0 && p > 0 {
			from = 0
		}
		top := min(max(q, (h-w)/2), p)
		to := max(min(q+w, h-q), min(p+w, h-p), min(top+w, h-top))
		out = append(out, [][2]measure.Length{{measure.Length(from), measure.Length(to)}})
	}
	return rules(out, usual(r))
}

// few draws 2 to 12 runs, one-piece runs among them.
func few(r *rand.Rand) *rows.Instance {
	plank := usual(r)
	var out [][][2]measure.Length
	for n := 2 + r.IntN(11); n > 0; {
		k := min(n, 1+r.IntN(4))
		w := inches(r, 20, 150)
		if r.IntN(3) == 0 {
			w = inches(r, 10, 40)
		}
		out = append(out, block(k, measure.Length(r.IntN(3))*10*in, w)...)
		n -= k
	}
	return rules(out, plank)
}
