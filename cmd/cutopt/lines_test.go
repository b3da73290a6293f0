package main

import (
	"bytes"
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestLinesAreNarrow finds lines of Go over 120 characters, a tab counting as one, in the whole tree. What may not be
// broken may be longer: raw strings, the output that an example is held against, and formatted text in comments.
func TestLinesAreNarrow(t *testing.T) {
	const most = 120
	if os.Getenv("CUTOPT_LINES") == "" {
		t.Skip("CUTOPT_LINES=1, which .ci/run sets, looks at every file")
	}
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || filepath.Ext(path) != ".go" {
			if err == nil && entry.IsDir() && strings.HasPrefix(entry.Name(), ".") && path != root {
				return fs.SkipDir
			}
			return err
		}
		source, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		exempt := unbreakable(source)
		for i, line := range bytes.Split(source, []byte("\n")) {
			if n := utf8.RuneCount(line); n > most && !exempt[i+1] {
				t.Errorf("%s:%d: %d characters", path, i+1, n)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// unbreakable returns the lines of a Go file that hold a raw string, the output of an example or formatted text.
func unbreakable(source []byte) map[int]bool {
	lines := make(map[int]bool)
	files := token.NewFileSet()
	file := files.AddFile("", files.Base(), len(source))
	var s scanner.Scanner
	s.Init(file, source, nil, scanner.ScanComments)
	output := false
	for {
		pos, kind, text := s.Scan()
		if kind == token.EOF {
			return lines
		}
		line := file.Line(pos)
		switch kind {
		case token.STRING:
			for range strings.Count(text, "\n") + 1 {
				if text[0] == '`' {
					lines[line] = true
				}
				line++
			}
			output = false
		case token.COMMENT:
			output = output || strings.HasPrefix(text, "// Output:") || strings.HasPrefix(text, "// Unordered output:")
			if output || strings.HasPrefix(text, "//\t") || strings.HasPrefix(text, "//  ") {
				lines[line] = true
			}
		default:
			output = false
		}
	}
}
