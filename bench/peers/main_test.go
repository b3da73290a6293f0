package main

import (
	"bufio"
	"encoding/json"
	"os"
	"testing"

	"plank.example/bench/mip"
)

// TestOptima holds this library against the optima that general solvers proved for the instances of mip.Draw. Each line of
// testdata/optima.jsonl was written by `go run ./bench/peers -store`: HiGHS (npm highs 1.15.3) or CBC (Debian
// coinor-cbc 2.10.8), absolute gap below one plank, limit 40 s.
func TestOptima(t *testing.T) {
	f, err := os.Open("testdata/optima.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	seen := make(map[uint64]bool)
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		var o struct {
			Seed   uint64
			Planks int
			By     string
		}
		if err := json.Unmarshal(lines.Bytes(), &o); err != nil {
			t.Fatal(err)
		}
		if seen[o.Seed] {
			continue
		}
		seen[o.Seed] = true
		a, err := solve(mip.Draw(o.Seed))
		if err != nil {
			t.Fatal(err)
		}
		if a.Planks != o.Planks {
			t.Errorf("seed %d: %d planks, %s proved %d", o.Seed, a.Planks, o.By, o.Planks)
		}
	}
	if len(seen) < 10 {
		t.Errorf("only %d instances are stored", len(seen))
	}
}
