package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// testEnv reads from a text.
func testEnv(stdin string, stdout, stderr io.Writer) *env {
	return &env{stdin: strings.NewReader(stdin), stdout: stdout, stderr: stderr, temps: new(tempFiles)}
}

// TestInterruptedWrite has a signal come while a file is written: nothing is left of it, and none is made after it.
func TestInterruptedWrite(t *testing.T) {
	dir, temps := t.TempDir(), new(tempFiles)
	err := writeAll(temps, []output{{"json", filepath.Join(dir, "plan.json"), func(w io.Writer) error {
		if left, _ := os.ReadDir(dir); len(left) != 1 {
			t.Errorf("the folder holds %v while the file is written, want a temporary one", left)
		}
		temps.close()
		if left, _ := os.ReadDir(dir); len(left) != 0 {
			t.Errorf("the signal has left %v", left)
		}
		return nil
	}}})
	if err == nil {
		t.Error("no error, and nothing was written")
	}
	if err := writeAll(temps, []output{{
		"json", filepath.Join(dir, "b.json"),
		func(io.Writer) error { return nil },
	}}); err == nil {
		t.Error("no error after the signal")
	}
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("%v is left", left)
	}
}

// TestWriteAllOrNone has the second of two files fail half way: neither is there afterwards, what was there before is
// untouched, and no temporary file is left.
func TestWriteAllOrNone(t *testing.T) {
	dir := t.TempDir()
	kept := filepath.Join(dir, "kept.txt")
	if err := os.WriteFile(kept, []byte("before"), 0o600); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("no more ink")
	err := writeAll(new(tempFiles), []output{
		{"json", kept, func(w io.Writer) error { _, err := io.WriteString(w, "after"); return err }},
		{"map", filepath.Join(dir, "new.svg"), func(w io.Writer) error {
			if _, err := io.WriteString(w, "half a pic"); err != nil {
				return err
			}
			return broken
		}},
	})
	if !errors.Is(err, broken) || !strings.Contains(err.Error(), "--map") || exitCode(err) != exitFault {
		t.Errorf("error %v, exit code %d; want the flag named and our fault", err, exitCode(err))
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("the folder holds %v (%v), want kept.txt alone", entries, err)
	}
	if text, err := os.ReadFile(kept); err != nil || string(text) != "before" {
		t.Errorf("kept.txt holds %q (%v), want it untouched", text, err)
	}
}

// TestWriteAllReplaces replaces a file whole and keeps its mode.
func TestWriteAllReplaces(t *testing.T) {
	name := filepath.Join(t.TempDir(), "plan.json")
	if err := os.WriteFile(name, []byte("a longer text than the new one"), 0o600); err != nil {
		t.Fatal(err)
	}
	err := writeAll(
		new(tempFiles),
		[]output{{"json", name, func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err }}},
	)
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(name)
	if err != nil || string(text) != "new" {
		t.Errorf("the file holds %q (%v), want new", text, err)
	}
	if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v (%v), want 0600", info.Mode(), err)
	}
}
