package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/bench/sample"
	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

// call runs the command and returns its exit code and what it wrote.
func call(t *testing.T, args ...string) (int, string, string) {
	t.Helper()
	var out, errw bytes.Buffer
	code := bench(context.Background(), args, &out, &errw)
	return code, out.String(), errw.String()
}

func must(t *testing.T, args ...string) string {
	t.Helper()
	code, out, errs := call(t, args...)
	if code != done {
		t.Fatalf("bench %q: exit code %d: %s", args, code, errs)
	}
	return out
}

func read(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

var small = []string{"run", "--strategies", "thumb,carry,library-quick", "--to", "24", "--no-times", "--quiet"}

func with(args ...string) []string { return append(append([]string(nil), small...), args...) }

// TestRunResumes cuts the files of a run where an interrupt may, and goes on: the files are those of the run in one
// piece.
func TestRunResumes(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	must(t, with("--records", at("a.jsonl"), "--csv", at("a.csv"), "--summary", at("a.json"))...)
	records := read(t, at("a.jsonl"))
	if n := strings.Count(records, "\n"); n != 1+24*3 {
		t.Errorf("%d lines, want a header and 3 records for each of 24 rooms", n)
	}
	for _, cut := range []int{0, 20, len(records) / 3, len(records) - 1, len(records)} {
		if err := os.WriteFile(at("b.jsonl"), []byte(records[:cut]), 0o644); err != nil {
			t.Fatal(err)
		}
		must(
			t,
			with("--records", at("b.jsonl"), "--csv", at("b.csv"), "--summary", at("b.json"), "--resume", "--workers", "5")...)
		for _, end := range []string{".jsonl", ".csv", ".json"} {
			if read(t, at("b"+end)) != read(t, at("a"+end)) {
				t.Errorf("cut at byte %d: %s differs", cut, end)
			}
		}
	}
	must(t, with("--to", "10", "--summary", at("c.json"))...)
	must(t, with("--summary", at("c.json"), "--resume")...)
	if read(t, at("c.json")) != read(t, at("a.json")) {
		t.Error("resumed from the summary alone: the summary differs")
	}
	for _, args := range [][]string{
		with("--records", at("a.jsonl"), "--resume", "--mix", "hall"),
		with("--records", at("a.jsonl"), "--resume", "--from", "3"),
		with("--summary", at("a.json"), "--resume", "--stagger", "9"),
		with("--csv", at("a.csv"), "--resume"),
	} {
		if code, _, errs := call(t, args...); code == done || errs == "" {
			t.Errorf("%q is accepted", args)
		}
	}
}

// TestShards merges the summaries of shards into that of the whole, byte for byte, and prints its table.
func TestShards(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	must(t, with("--summary", at("whole.json"))...)
	args := []string{"merge", "-o", at("sum.json")}
	for _, k := range []string{"2", "0", "1"} {
		must(t, with("--shard", k+"/3", "--summary", at(k+".json"))...)
		args = append(args, at(k+".json"))
	}
	must(t, args...)
	if read(t, at("sum.json")) != read(t, at("whole.json")) {
		t.Error("the merged shards differ from the whole")
	}
	table := must(t, "table", at("sum.json"))
	for _, want := range []string{"48x7 piece 8 stagger 8", "library-quick     24", "thumb"} {
		if !strings.Contains(table, want) {
			t.Errorf("no %q in\n%s", want, table)
		}
	}
	if code, _, _ := call(t, "merge", at("0.json"), at("whole.json")); code != failed {
		t.Error("a shard and the whole are added up")
	}
	if code, _, _ := call(t, "table", "--group", "kind castle", at("sum.json")); code != failed {
		t.Error("rooms that are not there have a table")
	}
}

// TestBroken wants answers that do not hold counted, named, and told by the exit code, after the table.
func TestBroken(t *testing.T) {
	code, out, errs := call(t, "run", "--strategies", "bad=echo {},carry", "--to", "3", "--no-times", "--quiet")
	if code != broken || !strings.Contains(errs, "bad: 3 of 3 answers do not hold; the first, of seed 0") ||
		!strings.Contains(out, "carry") {
		t.Errorf("exit code %d: %s\n%s", code, errs, out)
	}
}

// TestLeaderboard holds the table of what is known against the frozen set.
func TestLeaderboard(t *testing.T) {
	set, err := readSet("../" + instancesFile)
	if err != nil {
		t.Fatal(err)
	}
	var want bytes.Buffer
	if err := leaderboard(&want, set); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want.String(), read(t, "../testdata/instances/LEADERBOARD.md")); diff != "" {
		t.Errorf("LEADERBOARD.md is not that of the set: %s", diff)
	}
}

// TestUsage wants wrong command lines refused with exit code 2 and a hint.
func TestUsage(t *testing.T) {
	for _, args := range [][]string{
		{},
		{"dance"},
		{"run", "--what"},
		{"run", "extra"},
		{"run", "--mix", "castle"},
		{"run", "--mix", "outlines"},
		{"run", "--vary", "luck=7"},
		{"study", "--only", "luck"},
		{"run", "--planks", "48"},
		{"run", "--strategies", "luck"},
		{"run", "--shard", "half"},
		{"run", "--shard", "3/3"},
		{"run", "--from", "5", "--to", "5"},
		{"merge"},
		{"table"},
	} {
		if code, _, errs := call(t, args...); code != usage || errs == "" {
			t.Errorf("%q: exit code %d, %q", args, code, errs)
		}
	}
	if code, _, errs := call(t, "run", "--help"); code != done || !strings.Contains(errs, "--strategies") {
		t.Errorf("help: %d, %q", code, errs)
	}
}

// TestResults writes RESULTS.md from what is stored: it holds just that.
func TestResults(t *testing.T) {
	set, err := readSet("../" + instancesFile)
	if err != nil {
		t.Fatal(err)
	}
	want, err := resultsOf(set, "study")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, read(t, "RESULTS.md")); diff != "" {
		t.Errorf("run `go run ./bench results --render`: %s", diff)
	}
}

// TestPeersInReadme holds what README.md says of general solvers against their tables.
func TestPeersInReadme(t *testing.T) {
	want := peersInShort(read(t, "study/"+peersBest), read(t, "study/"+peersQuarter))
	if !strings.Contains(strings.Join(strings.Fields(read(t, "../README.md")), " "), want) {
		t.Errorf("README.md does not say: %s", want)
	}
}

// TestStudy writes the tables of the study from its stored summaries: STUDY.md holds just these, and each part measured
// what this tree would measure.
func TestStudy(t *testing.T) {
	summaries, err := readParts("study")
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range parts() {
		if diff := cmp.Diff(p.spec, summaries[p.name].Spec); diff != "" {
			t.Errorf("%s: %s", p.name, diff)
		}
		if n := summaries[p.name].Seeds(); n != p.rooms && p.spec.Mix != sample.MixOutlines {
			t.Errorf("%s: %d rooms are stored, the command measures %d", p.name, n, p.rooms)
		}
	}
	old := read(t, "STUDY.md")
	text, err := fill(old, summaries)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(old, text); diff != "" {
		t.Errorf("run `go run ./bench study --render`: %s", diff)
	}
	if again, err := fill(text, summaries); err != nil || again != text {
		t.Errorf("written twice it differs: %v", err)
	}
	for _, bad := range []string{"no marks", old + "<!--luck-->7<!--/-->", old + "<!--least-->7", old + "<!--least"} {
		if _, err := fill(bad, summaries); err == nil {
			t.Errorf("%q is filled in", bad[max(0, len(bad)-30):])
		}
	}
}

// TestClaims holds what the words of the study say against its summaries, each difference beyond its interval.
func TestClaims(t *testing.T) {
	s, err := readParts("study")
	if err != nil {
		t.Fatal(err)
	}
	pair := func(part, setting, name string, of func(*tally.Cell) tally.Pair) (low, high float64) {
		c := cellOf(s[part], setting, name, "all")
		if c == nil {
			t.Fatalf("%s has no %s under %s", part, name, setting)
		}
		mean, half := of(c).Mean()
		return mean - half, mean + half
	}
	first := func(c *tally.Cell) tally.Pair { return c.PairFirst }
	planks := func(c *tally.Cell) tally.Pair { return c.PairPlanks }
	boxes := func(c *tally.Cell) tally.Pair { return c.PairBoxes }
	const fewest, never = "library-quick-planks", 1e9
	for _, c := range []struct {
		claim               string
		part, setting, name string
		of                  func(*tally.Cell) tally.Pair
		low, high           float64 // tenths of a point, planks or boxes
	}{
		{"planned, stagger is almost free", "factors", "48x7 piece 8 stagger 16", fewest, first, -3, 3},
		{"who carries pays for it", "factors", "48x7 piece 8 stagger 16", "carry", first, 10, never},
		{"so does who lays from a pile", "factors", "48x7 piece 8 stagger 16", "pile", first, 5, never},
		{"the shortest piece is dear", "factors", "48x7 piece 16 stagger 8", fewest, first, 20, never},
		{"plank length matters little: 36 in", "factors", "36x7 piece 8 stagger 8", fewest, first, -10, 10},
		{"60 in", "factors", "60x7 piece 8 stagger 8", fewest, first, -10, 10},
		{"84 in", "factors", "84x7 piece 8 stagger 8", fewest, first, -10, 10},
		{"the pile needs more", "base", baseSetting, "pile", planks, 0, never},
		{"carrying needs more", "base", baseSetting, "carry", planks, 0, never},
		{"cutting stock of the rests needs more", "baselines", baseSetting, "stock", planks, 0, never},
		{"dividing lengths needs fewer", "baselines", baseSetting, "area", planks, -never, 0},
		{"search without a bound finds fewer than random", "baselines", baseSetting, "search-8000", planks, 0, 1},
		{"rooms apart need more", "house", baseSetting, "apart", planks, 0, never},
		{"and more boxes when they are bought apart", "house", baseSetting, "apart-boxes", boxes, 1, never},
	} {
		if low, high := pair(c.part, c.setting, c.name, c.of); low < c.low || high > c.high {
			t.Errorf("%s: from %.2f to %.2f, said to be from %g to %g", c.claim, low, high, c.low, c.high)
		}
	}
	small := cellOf(s["base"], baseSetting, fewest, "size 50-75").Added.Mean()
	if large := cellOf(s["base"], baseSetting, fewest, "size 250-300").Added.Mean(); large > small {
		t.Errorf("the share wasted falls with the room: from %.1f to %.1f tenths", small, large)
	}
	c := cellOf(s["factors"], "24x7 piece 8 stagger 8", fewest, "all")
	if c.Outcomes[trial.None] == 0 {
		t.Error("24 in planks can be laid in every room")
	}
}
