package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"time"

	"plank.example/bench/frozen"
	"plank.example/bench/strategy"
	"plank.example/bench/tables"
	"plank.example/bench/trial"
	"plank.example/cutopt/solve"
)

const resultsFile = "bench/RESULTS.md"

// corePrice is what an hour of one core is taken to cost, in dollars: our assumption, of the order that clouds ask for.
const corePrice = 0.04

func resultsCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	f := newFlags("results", errw)
	rooms := f.Uint64("rooms", 1000, "rooms of each table; halls a tenth")
	efforts := f.StringSlice("efforts", []string{"quick", "normal"}, "efforts that the frozen instances are laid at")
	workers := f.Int("workers", runtime.NumCPU(), "instances or rooms laid at a time, but for the table of rates")
	file := f.String("out", resultsFile, "the file to write")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	set, err := readSet(instancesFile)
	if err != nil {
		return err
	}
	var text strings.Builder
	fmt.Fprintf(&text, resultsHead, machine(), versions())
	for _, write := range []func() error{
		func() error { return frozenResults(ctx, &text, errw, set, *efforts, *workers) },
		func() error { return roomResults(ctx, &text, errw, *rooms, *workers) },
		func() error { return rateResults(ctx, &text, errw, *rooms) },
		func() error { return peerResults(&text) },
	} {
		if err := write(); err != nil {
			return err
		}
	}
	return writeWhole(*file, func(w io.Writer) error { _, err := io.WriteString(w, text.String()); return err })
}

const resultsHead = `# Results

Made by one command, which takes some minutes:

` + "```sh\ngo run ./bench results\n```" + `

Planks, bounds and proofs are the same on every machine; times are of this one: %s. Versions: %s.
What a plan is worth on many rooms is in [STUDY.md](STUDY.md).
`

// machine names processor, cores and system.
func machine() string {
	cpu := runtime.GOARCH
	if data, err := os.ReadFile("/proc/cpuinfo"); err == nil {
		for _, line := range strings.Split(string(data), "\n") {
			if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
				cpu = strings.TrimSpace(value)
				break
			}
		}
	}
	return fmt.Sprintf("%s, %d cores, %s%s", cpu, runtime.NumCPU(), runtime.GOOS, load())
}

// load says how busy the machine is, where it can be told: times of a busy one are too long.
func load() string {
	data, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return ""
	}
	average, _, _ := strings.Cut(string(data), " ")
	return ", load average " + average + " when it began"
}

// versions names the compiler, the commit of this tree, and the modules that figures may depend on.
func versions() string {
	out := []string{runtime.Version()}
	if commit := version("git", "rev-parse", "--short", "HEAD"); commit != "" {
		if version("git", "status", "--porcelain", "--untracked-files=no", "--", "*.go", "go.mod") != "" {
			commit += " with changes"
		}
		out = append(out, "commit "+commit)
	}
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, m := range info.Deps {
			if m.Path == "gonum.org/v1/gonum" {
				out = append(out, m.Path+" "+m.Version)
			}
		}
	}
	return strings.Join(out, ", ")
}

// version is what a command prints, or "" where it fails.
func version(name string, args ...string) string {
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(out))
}

// peerFiles are what bench/peers -o wrote.
var peerFiles = []string{"bench/study/peers-quarter.md", "bench/study/peers-mixed.md"}

// peerResults takes over the comparisons with general solvers.
func peerResults(w io.Writer) error {
	fmt.Fprintf(
		w,
		"\n## General solvers\n\nMade by `go run ./bench/peers -frozen quarter- -o bench/study/peers-quarter.md` and "+
			"`-mixed -o bench/study/peers-mixed.md`; each "+
			"solver gets the compact model, where it covers the instance, and the step model, with a gap that only the "+
			"optimum closes. The last line is the least time of any solver on any model, instance by instance.\n",
	)
	for _, name := range peerFiles {
		text, err := os.ReadFile(name)
		if errors.Is(err, os.ErrNotExist) {
			fmt.Fprintf(w, "\n%s is not measured yet.\n", filepath.Base(name))
			continue
		}
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "\n%s%s", strings.ToUpper(string(text[:1])), text[1:])
	}
	return nil
}

// frozenResults lays the frozen instances at each effort.
func frozenResults(ctx context.Context, w, errw io.Writer, set []*frozen.Entry, efforts []string, workers int) error {
	fmt.Fprintf(w, "\n## The frozen instances\n\nThe best that is known, of `testdata/instances`:\n\n")
	frozenGrid(set).Markdown(w)
	var closed []*frozen.Entry
	for _, e := range set {
		if e.Planks == e.Bound {
			closed = append(closed, e)
		}
	}
	for _, name := range efforts {
		effort, err := parseEffort(name)
		if err != nil {
			return err
		}
		fmt.Fprintf(errw, "frozen instances, %s effort\n", name)
		g, err := effortGrid(ctx, closed, effort, workers)
		if err != nil {
			return err
		}
		fmt.Fprintf(
			w,
			"\nThe library at %s effort on those that are closed, at most %v each; times with %d instances at a time:\n\n",
			name,
			effortLimit,
			workers,
		)
		g.Markdown(w)
	}
	return nil
}

// effortLimit bounds the time of one instance in the tables of efforts.
const effortLimit = 10 * time.Second

// effortGrid lays every instance and sums by part.
func effortGrid(ctx context.Context, set []*frozen.Entry, effort solve.Effort, workers int) (*tables.Grid, error) {
	type sum struct {
		n, planks, best, bound, proven int
		times                          []float64 // milliseconds
	}
	sums, order := map[string]*sum{}, []string{}
	var mutex sync.Mutex
	err := each(ctx, set, workers, func(e *frozen.Entry) error {
		floor := &strategy.Floor{Rows: e.Instance}
		began := time.Now()
		a, err := strategy.Library{Effort: effort, Limit: effortLimit}.Lay(ctx, floor)
		took := float64(time.Since(began).Microseconds()) / 1000
		if err != nil {
			return err
		}
		v, err := strategy.Judge(floor, a, true)
		if err != nil {
			return err
		}
		mutex.Lock()
		defer mutex.Unlock()
		for _, name := range []string{partOf(e), "all"} {
			s := sums[name]
			if s == nil {
				s = new(sum)
				sums[name] = s
			}
			s.n, s.planks, s.best, s.bound = s.n+1, s.planks+v.Planks, s.best+e.Planks, s.bound+v.Bound
			if v.PlanksProven() {
				s.proven++
			}
			s.times = append(s.times, took)
		}
		return nil
	})
	g := &tables.Grid{
		Head: []string{
			"part",
			"instances",
			"planks",
			"above the best known",
			"bound",
			"proven",
			"ms, median",
			"95 %",
			"most",
		},
	}
	for _, e := range set {
		if !slices.Contains(order, partOf(e)) {
			order = append(order, partOf(e))
		}
	}
	for _, name := range append(order, "all") {
		s := sums[name]
		if s == nil {
			continue
		}
		slices.Sort(s.times)
		at := func(share float64) string { return tables.Number(s.times[int(share*float64(len(s.times)-1))], 1) }
		g.Add(
			name,
			fmt.Sprint(s.n),
			fmt.Sprint(s.planks),
			fmt.Sprint(s.planks-s.best),
			fmt.Sprint(s.bound),
			fmt.Sprint(s.proven),
			at(0.5),
			at(0.95),
			at(1),
		)
	}
	return g, err
}

func partOf(e *frozen.Entry) string {
	part, _, _ := strings.Cut(e.ID, "-")
	return part
}

// roomResults compares the strategies on the mixes.
func roomResults(ctx context.Context, w, errw io.Writer, rooms uint64, workers int) error {
	fmt.Fprintf(
		w,
		"\n## Strategies on sample rooms\n\nadded: bought on top of the floor area, by planks needed and by whole boxes. "+
			"opened: what someone opens "+
			"who lays row by row. against: mean difference a room, with its 95 %% interval, of planks from "+
			"library-quick-planks, of boxes from library-quick. ms: half the rooms take less.\n",
	)
	for _, mix := range []string{"dwelling", "office", "hall"} {
		n := rooms
		if mix == "hall" {
			n = max(rooms/10, 1)
		}
		fmt.Fprintf(errw, "%d rooms: %s\n", n, mix)
		r := runFlags{to: n, workers: workers, checkpoint: n, quiet: true, spec: trial.Spec{
			Planks: []string{"48x7"}, MinPieces: []string{"8"}, Staggers: []string{"8"},
			Strategies: []string{
				"thumb",
				"carry",
				"pile",
				"halves",
				"thirds",
				"random",
				"library-quick",
				"library-quick-planks",
			},
		}}
		if err := r.setMix(mix); err != nil {
			return err
		}
		s, err := r.measure(ctx, io.Discard, errw)
		if err != nil {
			return err
		}
		g := tables.Strategies(s, baseSetting, "all")
		fmt.Fprintf(w, "\nRooms of %s, seeds 0 to %d, %s:\n\n", mix, n-1, baseSetting)
		g.Markdown(w)
	}
	return nil
}

// rateResults measures how many rooms one core lays in an hour.
func rateResults(ctx context.Context, w, errw io.Writer, rooms uint64) error {
	fmt.Fprintf(
		w,
		"\n## Rooms an hour\n\nThe whole harness with one worker: drawing, laying, judging, verifying certificates, "+
			"summing. An hour of a core is "+
			"taken to cost $%.2f (our assumption).\n\n",
		corePrice,
	)
	g := &tables.Grid{
		Head: []string{"rooms", "strategies", "rooms an hour on one core", "core hours for 10^8 rooms", "cost of 10^8 rooms"},
	}
	for _, c := range []struct {
		mix, strategies string
		part            uint64
	}{
		{"dwelling", "carry", 1},
		{"dwelling", "library-quick", 1},
		{"dwelling", "thumb,carry,library-quick", 1},
		{"office", "library-quick", 10},
		{"hall", "library-quick", 20},
	} {
		n := max(rooms/c.part, 1)
		fmt.Fprintf(errw, "rate: %d rooms: %s by %s\n", n, c.mix, c.strategies)
		r := runFlags{to: n, workers: 1, checkpoint: n, quiet: true, spec: trial.Spec{
			Planks: []string{
				"48x7",
			}, MinPieces: []string{"8"}, Staggers: []string{"8"}, Strategies: strings.Split(c.strategies, ","),
		}}
		if err := r.setMix(c.mix); err != nil {
			return err
		}
		began := time.Now()
		if _, err := r.measure(ctx, io.Discard, errw); err != nil {
			return err
		}
		hour := float64(n) / time.Since(began).Hours()
		g.Add(c.mix, c.strategies, thousands(hour), thousands(1e8/hour), "$"+thousands(1e8/hour*corePrice))
	}
	g.Markdown(w)
	fmt.Fprintf(
		w,
		"\nShards share such a run between machines: `bench/shards/job.yaml` for a Kubernetes cluster, `bench/beam` for "+
			"any that Apache Beam knows.\n",
	)
	return nil
}

// thousands prints a number to two figures, or whole below a thousand, with commas.
func thousands(x float64) string {
	unit := 1.0
	for x/unit >= 100 {
		unit *= 10
	}
	if x < 1000 {
		unit = 1
	}
	digits := fmt.Sprintf("%.0f", float64(int64(x/unit+0.5))*unit)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}
