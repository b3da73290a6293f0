package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestDependenciesHaveReasons holds the direct dependencies of go.mod against the table of DEVELOPERS.md: each stands
// there with where it is used and why, and the table names none that is not there, but for those of modules of their
// own.
func TestDependenciesHaveReasons(t *testing.T) {
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	direct := make(map[string]bool)
	for _, m := range regexp.MustCompile(`(?m)^\t(\S+) v\S+$`).FindAllStringSubmatch(string(mod), -1) {
		direct[m[1]] = true // an indirect one has a comment behind it
	}
	if len(direct) < 5 {
		t.Fatalf("go.mod has %d direct dependencies: is it read right?", len(direct))
	}
	_, table, _ := strings.Cut(string(text), "\n| module | where | why |\n")
	table, _, _ = strings.Cut(table, "\n\n")
	for _, m := range regexp.MustCompile("(?m)^\\| `(\\S+)` \\| (.*) \\| (.*) \\|$").FindAllStringSubmatch(table, -1) {
		if !direct[m[1]] && !strings.Contains(m[2], "a module of its own") {
			t.Errorf("DEVELOPERS.md has %s, and go.mod does not", m[1])
		}
		if m[2] == "" || m[3] == "" {
			t.Errorf("DEVELOPERS.md says neither where nor why of %s", m[1])
		}
		delete(direct, m[1])
	}
	for module := range direct {
		t.Errorf("go.mod has %s without a reason in the table of DEVELOPERS.md", module)
	}
}
