package main

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

// summary measures some rooms.
func summary(t *testing.T, name string, staggers ...string) string {
	t.Helper()
	s := tally.New(&trial.Spec{
		Mix: "dwelling", Planks: []string{"48x7"}, MinPieces: []string{"8"}, Staggers: staggers, Strategies: []string{
			"thumb",
			"carry", "library-quick",
		},
	})
	if err := trial.Run(context.Background(), &s.Spec, 0, 200, &trial.Options{Times: true}, s.Add); err != nil {
		t.Fatal(err)
	}
	name = filepath.Join(t.TempDir(), name)
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := s.Encode(f); err != nil {
		t.Fatal(err)
	}
	return name
}

// TestPictures draws each kind twice: every SVG is well-formed, every PNG decodes and is not one colour, and the second
// time gives the same bytes.
func TestPictures(t *testing.T) {
	name := summary(t, "summary.json", "8", "12")
	var drawn []string
	for kind := range pictures {
		var first map[string][]byte
		for range 2 {
			dir := t.TempDir()
			if err := run(dir, []string{kind, name}); err != nil {
				t.Fatalf("%s: %v", kind, err)
			}
			files, err := os.ReadDir(dir)
			if err != nil {
				t.Fatal(err)
			}
			now := make(map[string][]byte)
			for _, f := range files {
				if now[f.Name()], err = os.ReadFile(filepath.Join(dir, f.Name())); err != nil {
					t.Fatal(err)
				}
			}
			for file, data := range now {
				check(t, file, data)
				if first != nil && !bytes.Equal(data, first[file]) {
					t.Errorf("%s differs the second time", file)
				}
				if first == nil {
					drawn = append(drawn, file)
				}
			}
			first = now
		}
	}
	for _, want := range []string{
		"waste-size", "boxes-size", "boxes-saved", "waste-stagger", "time-to-proof", "cost-rows",
	} {
		if !slices.Contains(drawn, want+".svg") || !slices.Contains(drawn, want+".png") {
			t.Errorf("%s is not drawn: %v", want, drawn)
		}
	}
}

func check(t *testing.T, file string, data []byte) {
	t.Helper()
	if filepath.Ext(file) == ".svg" {
		for d := xml.NewDecoder(bytes.NewReader(data)); ; {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				return
			} else if err != nil {
				t.Fatalf("%s: %v", file, err)
			}
		}
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	seen := make(map[any]bool)
	for x := range img.Bounds().Dx() {
		seen[img.At(x, img.Bounds().Dy()/2)] = true
	}
	if len(seen) < 2 {
		t.Errorf("%s is blank", file)
	}
}

func TestRefuses(t *testing.T) {
	one := summary(t, "one.json", "8")
	for _, args := range [][]string{
		nil,
		{"waste"},
		{"dance", one},
		{"waste", "absent.json"},
		{"waste", one, one},
		{"factors", one},
	} {
		if err := run(t.TempDir(), args); err == nil {
			t.Errorf("%q is drawn", args)
		}
	}
}
