package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plank.example/cutopt/rows"
)

// TestSiteCommand tells a story and writes a bare problem of what was left, which reads back.
func TestSiteCommand(t *testing.T) {
	file := filepath.Join(t.TempDir(), "rest.jsonl")
	out := must(t, "site", "--from", "8", "--to", "9", "--workers", "2", "--rest", file, "--rest-of", "1")
	if !strings.Contains(out, "stories ") || !strings.Contains(out, "planks used") {
		t.Errorf("printed %q", out)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	in, err := rows.Decode(bytes.NewReader(data))
	if err != nil || len(in.Offcuts) == 0 {
		t.Errorf("the file holds %s: %v", data, err)
	}
	for _, bad := range [][]string{{"site", "--mix", "x"}, {"site", "--plank", "48"}} {
		if code, _, errs := call(t, bad...); code != usage || !strings.Contains(errs, bad[1]) {
			t.Errorf("%q: exit code %d, %s", bad, code, errs)
		}
	}
}
