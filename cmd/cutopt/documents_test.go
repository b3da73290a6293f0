package main

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A tree is the files of this repository, by their paths with slashes, and the text of those of Go.
type tree struct {
	paths map[string]bool   // files and folders
	base  map[string]bool   // the last parts of their paths
	code  map[string]string // by the name of the folder: its Go files, one behind the other
}

func readTree(t *testing.T) *tree {
	t.Helper()
	here := &tree{paths: make(map[string]bool), base: make(map[string]bool), code: make(map[string]string)}
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		if rel = filepath.ToSlash(rel); rel == ".git" || rel == "dist" || d.Name() == "node_modules" {
			if d.IsDir() {
				return filepath.SkipDir
			}
			return nil
		}
		here.paths[rel], here.base[path.Base(rel)] = true, true
		if !d.IsDir() && strings.HasSuffix(rel, ".go") {
			data, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			here.code[path.Base(path.Dir(rel))] += string(data)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return here
}

// has reports whether a path is there: from the root, or as the documents shorten it.
func (h *tree) has(name string) bool {
	name = strings.Trim(strings.TrimPrefix(strings.TrimPrefix(name, "./"), "plank.example/"), "/")
	return h.paths[name] || h.paths["cutopt/"+name] || h.paths["cutopt/internal/"+name] ||
		!strings.Contains(name, "/") && h.base[name]
}

// TestDocumentsNameWhatIs holds the files, packages and names of Go that README.md and DEVELOPERS.md show as code
// against the repository, and their links within a page against its headings.
func TestDocumentsNameWhatIs(t *testing.T) {
	here := readTree(t)
	var (
		fence  = regexp.MustCompile("(?s)```.*?```")
		code   = regexp.MustCompile("`([^`]+)`")
		link   = regexp.MustCompile(`\]\(([^)]+)\)`)
		head   = regexp.MustCompile(`(?m)^#+ (.*)$`)
		file   = regexp.MustCompile(`^[a-z0-9_./-]+$`)
		ending = regexp.MustCompile(`\.(go|md|json|yaml|sh|conf|css|js)$`)
		module = regexp.MustCompile(`^(github|gonum|golang|codeberg|go\.yaml)\S*/`)
		dotted = regexp.MustCompile(`^([a-z]+)\.([A-Za-z]\w*)(?:\.(\w+))?(\(|$)`)
	)
	for _, page := range []string{"README.md", "DEVELOPERS.md"} {
		data, err := os.ReadFile(filepath.Join(root, page))
		if err != nil {
			t.Fatal(err)
		}
		text, seen := fence.ReplaceAllString(string(data), ""), 0
		anchors := make(map[string]bool)
		for _, m := range head.FindAllStringSubmatch(text, -1) {
			anchors["#"+strings.ReplaceAll(strings.ToLower(m[1]), " ", "-")] = true
		}
		for _, m := range link.FindAllStringSubmatch(text, -1) {
			seen++
			if to := m[1]; strings.HasPrefix(to, "#") && !anchors[to] || !strings.HasPrefix(to, "#") && !here.has(to) {
				t.Errorf("%s leads to %s, which is not there", page, to)
			}
		}
		for _, m := range code.FindAllStringSubmatch(text, -1) {
			word := m[1]
			name := dotted.FindStringSubmatch(word)
			switch {
			case word == "encoding/json" || module.MatchString(word): // of others
			case file.MatchString(word) && (ending.MatchString(word) || strings.Contains(word, "/")):
				if seen++; !here.has(word) {
					t.Errorf("%s names %s, which is not there", page, word)
				}
			case name != nil && here.code[name[1]] != "":
				for _, id := range name[2:4] {
					if seen++; !regexp.MustCompile(`\b` + id + `\b`).MatchString(here.code[name[1]]) {
						t.Errorf("%s names %s, and package %s has no %s", page, word, name[1], id)
					}
				}
			}
		}
		if seen < 10 {
			t.Errorf("%s: %d names and links are seen: is it read right?", page, seen)
		}
	}
}
