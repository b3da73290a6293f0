package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
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
	share uint64 // rooms: all of them divided by this
	plots []string
}

// parts of the study. Boxes come from plans with as few boxes as can be, planks from plans with as few planks.
func parts() []part {
	one := []string{"8"}
	habits := []string{"thumb", "carry", "pile", "library-quick", "library-quick-planks"}
	plain := func(mix sample.Mix, strategies ...string) trial.Spec {
		return trial.Spec{
			Mix: mix, Planks: []string{"48x7"}, MinPieces: one, Staggers: one, Verify: true, Strategies: strategies,
		}
	}
	factors := plain("dwelling", habits...)
	factors.Planks = []string{"48x7", "24x7", "36x7", "60x7", "72x7", "84x7"}
	factors.MinPieces, factors.Staggers = []string{
		"8",
		"2",
		"4",
		"6",
		"12",
		"16",
	}, []string{
		"8",
		"0",
		"4",
		"6",
		"12",
		"16",
	}
	factors.Verify = false // the same strategies are verified in the other parts
	base := plain(
		"dwelling",
		"thumb",
		"carry",
		"pile",
		"halves",
		"thirds",
		"random",
		"library-quick",
		"library-quick-planks",
	)
	return []part{
		{"base", base, 1, []string{"waste", "saved", "cost"}},
		{"factors", factors, 10, []string{"factors"}},
		{
			"proof",
			plain("dwelling", "carry", "library-quick", "library-normal", "library-quick-planks"),
			5,
			[]string{"proof"},
		},
		{"office", plain("office", habits...), 10, nil},
		{"hall", plain("hall", habits...), 20, nil},
	}
}

func studyCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	f := newFlags("study", errw)
	rooms := f.Uint64("rooms", 100_000, "rooms of the largest part")
	render := f.Bool("render", false, "measure nothing: write the tables from the stored summaries")
	only := f.String("only", "", "measure this part alone and write no tables: base, factors, proof, office or hall")
	resume := f.Bool("resume", false, "go on where an interrupted study ended; else all is measured anew")
	folder := f.String("folder", studyFolder, "folder of the summaries and pictures")
	text := f.String("text", studyText, "the text whose tables are written")
	workers := f.Int("workers", runtime.NumCPU(), "rooms laid at a time")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	if !*render {
		if err := os.MkdirAll(*folder, 0o755); err != nil {
			return err
		}
		for _, p := range parts() {
			if *only != "" && *only != p.name {
				continue
			}
			fmt.Fprintf(errw, "%s: %d rooms\n", p.name, max(*rooms/p.share, 1))
			r := runFlags{
				spec: p.spec, to: max(*rooms/p.share, 1), summary: filepath.Join(*folder, p.name+".json"), resume: *resume,
				workers:  *workers,
				noVerify: !p.spec.Verify, checkpoint: 500,
			}
			if _, err := r.measure(ctx, out, errw); err != nil {
				return err
			}
		}
	}
	if *only != "" {
		return nil
	}
	summaries := make(map[string]*tally.Summary)
	for _, p := range parts() {
		s, err := readSummaries([]string{filepath.Join(*folder, p.name+".json")})
		if err != nil {
			return err
		}
		summaries[p.name] = s
	}
	old, err := os.ReadFile(*text)
	if err != nil {
		return err
	}
	written, err := fill(string(old), summaries)
	if err != nil {
		return err
	}
	if err := writeWhole(*text, func(w io.Writer) error { _, err := io.WriteString(w, written); return err }); err != nil {
		return err
	}
	return drawPlots(ctx, *folder, errw)
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
