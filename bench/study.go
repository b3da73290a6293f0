package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"plank.example/bench/sample"
	"plank.example/bench/tables"
	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

// The study's files, from the root of the repository.
const (
	studyText   = "bench/STUDY.md"
	studyFolder = "bench/study"
)

// A part is one measurement of the study.
type part struct {
	name  string
	spec  trial.Spec
	rooms uint64 // measured by default; of the outlines all there are
	plots []string
}

// parts of the study. Boxes come from plans with as few boxes as can be, planks from plans with as few planks.
func parts() []part {
	one := []string{"8"}
	plain := func(mix sample.Mix, strategies ...string) trial.Spec {
		return trial.Spec{
			Mix: mix, Planks: []string{"48x7"}, MinPieces: one, Staggers: one, Verify: true, Strategies: strategies,
		}
	}
	habits := []string{"thumb", "carry", "pile", "library-quick", "library-quick-planks"}
	factors := plain("dwelling", habits...)
	factors.Planks = []string{"48x7", "24x7", "36x7", "60x7", "72x7", "84x7"}
	factors.MinPieces = []string{"8", "2", "4", "6", "12", "16"}
	factors.Staggers = []string{"8", "0", "4", "6", "12", "16"}
	factors.Verify = false // the same strategies are verified in the other parts
	rules := plain("dwelling", "thumb", "pile", "library-quick", "library-quick-planks")
	rules.Vary, rules.Verify = sensitivities, false
	breakage := plain("dwelling", "library-quick-planks")
	breakage.Layings = 200
	whole := func(spec trial.Spec) trial.Spec { spec.Whole = true; return spec }
	return []part{
		{"base", plain("dwelling", "thumb", "area", "stock", "carry", "pile", "halves", "thirds", "random",
			"library-quick", "library-quick-planks"), baseRooms, []string{"waste", "saved", "cost"}},
		{"factors", whole(factors), 500, []string{"factors"}},
		{"rules", whole(rules), 250, nil},
		{"breakage", breakage, 300, nil},
		{"baselines", whole(plain("dwelling", "area", "stock", "pile", "random", "random-50", "search-8000",
			"library-quick-planks")), 500, nil},
		{
			"proof", whole(plain("dwelling", "carry", "library-quick", "library-normal", "library-quick-planks")), 500,
			[]string{"proof"},
		},
		{"office", whole(plain("office", habits...)), 250, nil},
		{"hall", whole(plain("hall", habits...)), 50, nil},
		{"house", whole(plain("house", "thumb", "pile", "apart", "apart-boxes", "library-quick",
			"library-quick-planks")), 100, nil},
		{"outlines", plain(sample.MixOutlines, habits...), math.MaxInt64, nil},
	}
}

// baseRooms are the rooms of the largest part. More take nothing but time: some 25 ms of a core each.
const baseRooms = 31_000

// sensitivities are the settings of part rules beside the first.
var sensitivities = []string{
	"kerf=0", "kerf=1/4 in", "fit=0", "fit=1/4 in", "fit=1/2 in", "grid=1/4 in", "grid=1 in", "box=6", "box=12",
	"direction=across", "start=far", "edges=whole-first",
}

type studyFlags struct {
	rooms                  uint64
	render, resume         bool
	only                   []string
	folder, text, outlines string
	workers                int
}

func studyCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	var r studyFlags
	f := newFlags("study", errw)
	f.Uint64Var(&r.rooms, "rooms", baseRooms, "rooms of the largest part; the others have theirs in proportion")
	f.BoolVar(&r.render, "render", false, "measure nothing: write tables and pictures from the stored summaries")
	f.StringSliceVar(&r.only, "only", nil, "measure these parts alone and write no tables: "+
		strings.Join(partNames(), ", "))
	f.BoolVar(&r.resume, "resume", false, "go on where an interrupted study ended; else all is measured anew")
	f.StringVar(&r.folder, "folder", studyFolder, "folder of the summaries and pictures")
	f.StringVar(&r.text, "text", studyText, "the text whose tables are written")
	f.StringVar(&r.outlines, "outlines", os.Getenv("CUTOPT_ROOMS"), "folder of published room outlines; without it "+
		"part outlines stays as it is stored")
	f.IntVar(&r.workers, "workers", 1, "rooms laid at a time; with more than one times are by the clock")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	if !r.render {
		if err := r.measure(ctx, out, errw); err != nil || len(r.only) > 0 {
			return err
		}
	}
	summaries, err := readParts(r.folder)
	if err != nil {
		return err
	}
	old, err := os.ReadFile(r.text)
	if err != nil {
		return err
	}
	written, err := fill(string(old), summaries)
	if err != nil {
		return err
	}
	err = writeWhole(r.text, func(w io.Writer) error { _, err := io.WriteString(w, written); return err })
	if err != nil {
		return err
	}
	return drawPlots(ctx, r.folder, errw)
}

func partNames() []string {
	var names []string
	for _, p := range parts() {
		names = append(names, p.name)
	}
	return names
}

// measure measures the parts that are asked for.
func (r *studyFlags) measure(ctx context.Context, out, errw io.Writer) error {
	for _, name := range r.only {
		if !slices.Contains(partNames(), name) {
			return fmt.Errorf("--only is %q: one of %v; %w", name, partNames(), errUsage)
		}
	}
	if err := os.MkdirAll(r.folder, 0o755); err != nil {
		return err
	}
	for _, p := range parts() {
		if len(r.only) > 0 && !slices.Contains(r.only, p.name) || p.spec.Mix == sample.MixOutlines && r.outlines == "" {
			continue
		}
		n := p.rooms
		if p.spec.Mix != sample.MixOutlines {
			n = max(p.rooms*r.rooms/baseRooms, 1)
		}
		fmt.Fprintf(errw, "%s\n", p.name)
		run := runFlags{
			spec: p.spec, to: n, summary: filepath.Join(r.folder, p.name+".json"), resume: r.resume,
			workers: r.workers, noVerify: !p.spec.Verify, checkpoint: 500, outlines: r.outlines,
		}
		if _, err := run.measure(ctx, out, errw); err != nil {
			return err
		}
	}
	return nil
}

// readParts reads the stored summaries of all parts.
func readParts(folder string) (map[string]*tally.Summary, error) {
	summaries := make(map[string]*tally.Summary)
	for _, p := range parts() {
		s, err := readSummaries([]string{filepath.Join(folder, p.name+".json")})
		if err != nil {
			return nil, err
		}
		summaries[p.name] = s
	}
	return summaries, nil
}

// drawPlots runs the module of plots.
func drawPlots(ctx context.Context, folder string, errw io.Writer) error {
	abs, err := filepath.Abs(folder)
	if err != nil {
		return err
	}
	for _, p := range parts() {
		for _, kind := range p.plots {
			cmd := exec.CommandContext(
				ctx,
				"go",
				"run",
				"-C",
				"bench/plots",
				".",
				"-out",
				abs,
				kind,
				filepath.Join(abs, p.name+".json"),
			)
			cmd.Stderr = errw
			if err := cmd.Run(); err != nil {
				return fmt.Errorf("picture %s of %s: %w", kind, p.name, err)
			}
		}
	}
	return nil
}

// fill writes every table and every figure of the prose between its marks:
//
//	<!-- table NAME: begin -->
//	<!-- table NAME: end -->
//	<!--NAME-->figure<!--/-->
func fill(text string, s map[string]*tally.Summary) (string, error) {
	for _, t := range []struct {
		name string
		make func() (*tables.Grid, error)
	}{
		{"strategies", func() (*tables.Grid, error) { return tables.Strategies(s["base"], baseSetting, "all"), nil }},
		{"size", func() (*tables.Grid, error) { return sizeGrid(s["base"]) }},
		{"shape", func() (*tables.Grid, error) { return shapeGrid(s["base"]) }},
		{"factors", func() (*tables.Grid, error) { return factorGrid(s["factors"]) }},
		{"rules", func() (*tables.Grid, error) { return ruleGrid(s["rules"]) }},
		{"breakage", func() (*tables.Grid, error) { return breakageGrid(s["base"]) }},
		{"breakings", func() (*tables.Grid, error) { return breakingGrid(s["breakage"]) }},
		{"outlines", func() (*tables.Grid, error) { return outlineGrid(s["outlines"], s["base"]) }},
		{"baselines", func() (*tables.Grid, error) { return baselineGrid(s["baselines"]) }},
		{"house", func() (*tables.Grid, error) { return houseGrid(s["house"]) }},
		{"proof", func() (*tables.Grid, error) { return proofGrid(s["proof"]) }},
		{"large", func() (*tables.Grid, error) { return largeGrid(s["office"], s["hall"]) }},
	} {
		g, err := t.make()
		if err != nil {
			return "", fmt.Errorf("table %s: %w", t.name, err)
		}
		begin, end := "<!-- table "+t.name+": begin -->\n", "<!-- table "+t.name+": end -->"
		from, to := strings.Index(text, begin), strings.Index(text, end)
		if from < 0 || to < from {
			return "", fmt.Errorf("the text has no place for table %s: %q … %q", t.name, begin, end)
		}
		var b bytes.Buffer
		g.Markdown(&b)
		text = text[:from+len(begin)] + b.String() + text[to:]
	}
	return fillFigures(text, figures(s))
}
