package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"plank.example/bench/frozen"
	"plank.example/bench/tables"
	"plank.example/bench/tally"
)

// resultsOf is the text of what is stored.
func resultsOf(set []*frozen.Entry, folder string) (string, error) {
	data, err := os.ReadFile(filepath.Join(folder, resultsData))
	if err != nil {
		return "", err
	}
	var r results
	if err := json.Unmarshal(data, &r); err != nil {
		return "", err
	}
	summaries, err := readParts(folder)
	if err != nil {
		return "", err
	}
	var text strings.Builder
	fmt.Fprintf(&text, resultsHead, r.Machine, r.Versions)
	writeFrozen(&text, set, r.Efforts)
	writeStrategies(&text, summaries["base"], summaries["office"], summaries["hall"])
	writeRates(&text, r.Rates)
	err = writePeers(&text, folder)
	return text.String(), err
}

const resultsHead = `# Results

Made by one command, which takes some minutes; ` + "`--render`" + ` writes it again from what is stored in bench/study:

` + "```sh\ngo run ./bench results\n```" + `

Planks, bounds and proofs are the same on every machine. Times are processor time of one core, to two figures,
of %s. Versions: %s.
What a plan is worth on many rooms is in [STUDY.md](STUDY.md).
`

// writeFrozen writes what is known of the frozen instances and what the library makes of them at each effort.
func writeFrozen(w io.Writer, set []*frozen.Entry, efforts []effort) {
	fmt.Fprintf(w, "\n## The frozen instances\n\nThe best that is known, of `testdata/instances`:\n\n")
	frozenGrid(set).Markdown(w)
	for _, e := range efforts {
		fmt.Fprintf(w, "\nThe library at %s effort on those that are closed:\n\n", e.Effort)
		g := &tables.Grid{Head: []string{
			"part", "instances", "planks", "above the best known", "bound", "proven", "ms, median", "95 %", "most",
			"seconds in all",
		}}
		for _, p := range e.Parts {
			g.Add(p.Name, fmt.Sprint(p.Instances), fmt.Sprint(p.Planks), fmt.Sprint(p.Planks-p.Best), fmt.Sprint(p.Bound),
				fmt.Sprint(p.Proven), tables.TwoFigures(p.Times[0]), tables.TwoFigures(p.Times[1]),
				tables.TwoFigures(p.Times[2]), tables.TwoFigures(p.Times[3]/1000))
		}
		g.Markdown(w)
	}
}

const strategiesHead = `
## Strategies on sample rooms

From the summaries of the study. added: on top of the floor area, by planks needed and by whole boxes. opened: what
someone opens who lays row by row. against: mean difference a room, of planks from library-quick-planks, of boxes from
library-quick. Intervals are 95 %.
`

// writeStrategies compares the strategies on the rooms of the study.
func writeStrategies(w io.Writer, parts ...*tally.Summary) {
	io.WriteString(w, strategiesHead)
	for _, s := range parts {
		fmt.Fprintf(w, "\n%s rooms of %s, %s:\n\n", thousandsOf(s.Seeds()), s.Spec.Mix, baseSetting)
		tables.Strategies(s, baseSetting, "all").Markdown(w)
	}
}

func writeRates(w io.Writer, rates []rate) {
	fmt.Fprintf(
		w,
		"\n## Rooms an hour\n\nThe whole harness with one worker, by its processor time: drawing, laying, judging, "+
			"verifying certificates, summing. An hour of a core is taken to cost $%.2f (our assumption).\n\n",
		corePrice,
	)
	g := &tables.Grid{Head: []string{
		"rooms", "strategies", "measured on", "rooms an hour of one core", "core hours for 10^8 rooms", "cost of 10^8 rooms",
	}}
	for _, r := range rates {
		hours := 1e8 / r.Hour
		g.Add(r.Mix, r.Strategies, thousandsOf(r.Rooms), thousands(r.Hour), thousands(hours), "$"+thousands(hours*corePrice))
	}
	g.Markdown(w)
	fmt.Fprintf(
		w,
		"\nShards share such a run between machines: `bench/shards/job.yaml` for a Kubernetes cluster, `bench/beam` for "+
			"any that Apache Beam knows.\n",
	)
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
	return thousandsOf(uint64(float64(int64(x/unit+0.5)) * unit))
}
