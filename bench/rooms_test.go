package main

import (
	"strings"
	"testing"
)

// TestRoomsCommand plans a few rectangles: every room is told to buy what a floor of the fewest planks takes, the same
// for any number of workers.
func TestRoomsCommand(t *testing.T) {
	args := []string{"rooms", "--to", "6", "--fit", "1/8 in", "--loss", "2 %"}
	out := must(t, append(args, "--workers", "1")...)
	lines := strings.Split(out, "\n")
	if len(lines) < 2 {
		t.Fatalf("printed %q", out)
	}
	cells := strings.Fields(strings.ReplaceAll(lines[1], "1/8 in", ""))
	if len(cells) != 10 || cells[2] != "6" || cells[3] != cells[4] || cells[5] != "0" || cells[9] != "6" {
		t.Errorf("the first table has %q", lines[1])
	}
	if again := must(t, append(args, "--workers", "3")...); again != out {
		t.Errorf("three workers print other figures:\n%s\n%s", out, again)
	}
	for _, bad := range [][]string{
		{"rooms", "--fit", "far"},
		{"rooms", "--loss", "200 %"},
		{"rooms", "--mix", "x"},
		{"rooms", "--spare", "-1"},
		{"rooms", "--plank", "48"},
	} {
		if code, _, errs := call(t, bad...); code != usage || !strings.Contains(errs, bad[1]) {
			t.Errorf("%q: exit code %d, %s", bad, code, errs)
		}
	}
}
