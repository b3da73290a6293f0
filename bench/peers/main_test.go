package main

import (
	"strings"
	"testing"
	"time"
)

// TestRun runs the comparison on one instance with no peer to be found but CBC, where it is installed.
func TestRun(t *testing.T) {
	var out strings.Builder
	if err := run(&out, 1, 40, time.Second, t.TempDir()); err != nil {
		t.Fatal(err)
	}
	if text := out.String(); !strings.Contains(text, "HiGHS: absent") || !strings.Contains(text, "=   20") {
		t.Errorf("seed 40 needs 20 planks, and HiGHS is not installed in an empty folder:\n%s", text)
	}
}
