package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"

	"plank.example/bench/frozen"
	"plank.example/bench/processor"
	"plank.example/bench/strategy"
	"plank.example/bench/trial"
	"plank.example/cutopt/solve"
)

// Files of the results, from the root of the repository: the text, and in the folder of the study what it is made from.
const (
	resultsText = "bench/RESULTS.md"
	resultsData = "results.json"
)

// corePrice is what an hour of one core is taken to cost, in dollars: our assumption, of the order that clouds ask for.
const corePrice = 0.04

// results are what is measured for RESULTS.md; the rest of it comes from the frozen set, from the summaries of the
// study and from the files of bench/peers.
type results struct {
	Machine  string   `json:"machine"`
	Versions string   `json:"versions"`
	Efforts  []effort `json:"efforts"`
	Rates    []rate   `json:"rates"`
}

// An effort is what the library makes of the closed instances of the frozen set.
type effort struct {
	Effort string       `json:"effort"`
	Parts  []effortPart `json:"parts"`
}

type effortPart struct {
	Name      string     `json:"name"`
	Instances int        `json:"instances"`
	Planks    int        `json:"planks"`
	Best      int        `json:"best"` // known
	Bound     int        `json:"bound"`
	Proven    int        `json:"proven"`
	Times     [4]float64 `json:"times"` // processor milliseconds: median, 95 %, most, sum
}

// A rate is how many rooms an hour of one core goes through.
type rate struct {
	Mix        string  `json:"mix"`
	Strategies string  `json:"strategies"`
	Rooms      uint64  `json:"rooms"`
	Hour       float64 `json:"hour"`
}

func resultsCommand(ctx context.Context, args []string, _, errw io.Writer) error {
	f := newFlags("results", errw)
	render := f.Bool("render", false, "measure nothing: write the text from what is stored")
	rooms := f.Uint64("rooms", 1000, "rooms that rates are measured on; offices and halls are fewer")
	efforts := f.StringSlice("efforts", []string{"quick"}, "efforts that the closed instances are laid at")
	folder := f.String("folder", studyFolder, "folder of what is measured")
	file := f.String("out", resultsText, "the file to write")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	set, err := readSet(instancesFile)
	if err != nil {
		return err
	}
	if !*render {
		if err := measureResults(ctx, errw, set, *efforts, *rooms, *folder); err != nil {
			return err
		}
	}
	text, err := resultsOf(set, *folder)
	if err != nil {
		return err
	}
	return writeWhole(*file, func(w io.Writer) error { _, err := io.WriteString(w, text); return err })
}

// measureResults measures and stores.
func measureResults(
	ctx context.Context, errw io.Writer, set []*frozen.Entry, efforts []string, rooms uint64, folder string,
) error {
	r := results{Machine: machine(), Versions: versions()}
	for _, name := range efforts {
		e, err := measureEffort(ctx, errw, set, name)
		if err != nil {
			return err
		}
		r.Efforts = append(r.Efforts, *e)
	}
	var err error
	if r.Rates, err = measureRates(ctx, errw, rooms); err != nil {
		return err
	}
	return writeWhole(filepath.Join(folder, resultsData), func(w io.Writer) error {
		enc := json.NewEncoder(w)
		enc.SetIndent("", " ")
		return enc.Encode(&r)
	})
}

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

// load says how busy the machine is, where it can be told: processor time of a busy one is somewhat too long, since
// programs share its caches.
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

// measureEffort lays every closed instance, one after the other, and sums by part.
func measureEffort(ctx context.Context, errw io.Writer, set []*frozen.Entry, name string) (*effort, error) {
	level, err := parseEffort(name)
	if err != nil {
		return nil, err
	}
	out := &effort{Effort: name}
	times := make(map[string][]float64)
	add := func(part string, v *strategy.Verdict, e *frozen.Entry, took float64) {
		at := slices.IndexFunc(out.Parts, func(p effortPart) bool { return p.Name == part })
		if at < 0 {
			at = len(out.Parts)
			out.Parts = append(out.Parts, effortPart{Name: part})
		}
		p := &out.Parts[at]
		p.Instances, p.Planks, p.Best, p.Bound = p.Instances+1, p.Planks+v.Planks, p.Best+e.Planks, p.Bound+v.Bound
		if v.PlanksProven() {
			p.Proven++
		}
		times[part] = append(times[part], took)
		p.Times[3] += took
	}
	for _, e := range set {
		if e.Planks != e.Bound {
			continue
		}
		v, took, err := layFrozen(ctx, e, level)
		if err != nil {
			return nil, err
		}
		add(partOf(e), v, e, took)
		if took > 1000 {
			fmt.Fprintf(errw, "%s: %.1f s\n", e.ID, took/1000)
		}
	}
	all := effortPart{Name: "all"}
	for i := range out.Parts {
		p := &out.Parts[i]
		all.Instances, all.Planks, all.Best = all.Instances+p.Instances, all.Planks+p.Planks, all.Best+p.Best
		all.Bound, all.Proven = all.Bound+p.Bound, all.Proven+p.Proven
		all.Times[3] += p.Times[3]
		times["all"] = append(times["all"], times[p.Name]...)
		p.quantiles(times[p.Name])
	}
	all.quantiles(times["all"])
	out.Parts = append(out.Parts, all)
	return out, nil
}

func (p *effortPart) quantiles(times []float64) {
	slices.Sort(times)
	for i, share := range []float64{0.5, 0.95, 1} {
		p.Times[i] = times[int(share*float64(len(times)-1))]
	}
}

// layFrozen lays an instance and returns what it is worth and the processor time in milliseconds.
func layFrozen(ctx context.Context, e *frozen.Entry, level solve.Effort) (*strategy.Verdict, float64, error) {
	floor := &strategy.Floor{Rows: e.Instance}
	began := processor.Time()
	a, err := strategy.Library{Effort: level}.Lay(ctx, floor)
	took := float64((processor.Time() - began).Microseconds()) / 1000
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		return nil, 0, err
	}
	v, err := strategy.Judge(floor, a, true)
	return v, took, err
}

func partOf(e *frozen.Entry) string {
	part, _, _ := strings.Cut(e.ID, "-")
	return part
}

// measureRates measures how many rooms one core goes through in an hour.
func measureRates(ctx context.Context, errw io.Writer, rooms uint64) ([]rate, error) {
	var out []rate
	for _, c := range []struct {
		mix, strategies string
		part            uint64
	}{
		{"dwelling", "carry", 1},
		{"dwelling", "library-quick", 1},
		{"dwelling", "library-quick-planks", 1},
		{"dwelling", "thumb,carry,library-quick", 1},
		{"office", "library-quick", 10},
		{"hall", "library-quick", 20},
	} {
		n := max(rooms/c.part, 1)
		fmt.Fprintf(errw, "rate: %d rooms: %s by %s\n", n, c.mix, c.strategies)
		r := runFlags{to: n, workers: 1, checkpoint: n, quiet: true, spec: trial.Spec{
			Planks: []string{"48x7"}, MinPieces: []string{"8"}, Staggers: []string{"8"},
			Strategies: strings.Split(c.strategies, ","),
		}}
		if err := r.setMix(c.mix); err != nil {
			return nil, err
		}
		began := processor.Time()
		if _, err := r.measure(ctx, io.Discard, errw); err != nil {
			return nil, err
		}
		out = append(out, rate{c.mix, c.strategies, n, float64(n) / (processor.Time() - began).Hours()})
	}
	return out, nil
}
