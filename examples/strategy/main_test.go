package main

import (
	"bytes"
	"context"
	"errors"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"plank.example/bench/harness"
	"plank.example/bench/strategy"
	"plank.example/cutopt/rows"
)

// figures are the cells of a strategy's row but for the two of times.
func figures(t *testing.T, table, name string) string {
	t.Helper()
	for _, line := range strings.Split(table, "\n") {
		if f := regexp.MustCompile("  +").Split(line, -1); len(f) > 4 && f[0] == name {
			return strings.Join(f[1:len(f)-2], " ")
		}
	}
	t.Fatalf("no row of %s in\n%s", name, table)
	return ""
}

// TestCompare lays some rooms by both: the Go and the Python strategy are the same, so their figures are.
func TestCompare(t *testing.T) {
	var out bytes.Buffer
	if err := compare(context.Background(), &out, 12); err != nil {
		t.Fatal(err)
	}
	mine := figures(t, out.String(), "mine")
	if !strings.HasPrefix(mine, "12 100.0 ") {
		t.Errorf("mine: %s", mine)
	}
	if _, err := exec.LookPath("python3"); err != nil {
		t.Skip("python3 is not installed")
	}
	if python := figures(t, out.String(), "python"); python != mine {
		t.Errorf("in Python %s, in Go %s", python, mine)
	}
}

type inLine struct{}

func (inLine) Name() string { return "in-line" }

func (inLine) Lay(_ context.Context, floor *strategy.Floor) (*strategy.Answer, error) {
	layout := make(rows.Layout, len(floor.Rows.Runs))
	for i := range layout {
		layout[i] = floor.Rows.Plank
	}
	return &strategy.Answer{Layout: layout}, nil
}

// TestBroken wants answers that break a rule counted and named.
func TestBroken(t *testing.T) {
	var out bytes.Buffer
	err := harness.Compare(context.Background(), &out, &harness.Options{Rooms: 5}, inLine{})
	if !errors.Is(err, harness.ErrBroken) || !strings.Contains(err.Error(), "in-line: 5 of 5") {
		t.Errorf("%v\n%s", err, out.String())
	}
}
