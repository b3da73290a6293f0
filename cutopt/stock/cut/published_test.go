package cut_test

import (
	"bufio"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
	"time"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// A published instance of cutting stock with one stick length.
type published struct {
	Name     string
	Capacity int64
	Optimum  int
	Items    []int64
}

// read reads instances from the folder of test data, and skips the test where it is absent.
func read(t testing.TB, file string) []published {
	t.Helper()
	folder := os.Getenv("CUTOPT_BPP")
	if folder == "" {
		folder = filepath.Join("..", "..", "..", "..", "shared", "data", "bpp")
	}
	f, err := os.Open(filepath.Join(folder, file))
	if err != nil {
		t.Skip("the published instances are not here; CUTOPT_BPP names their folder")
	}
	defer f.Close()
	var out []published
	in := bufio.NewScanner(f)
	in.Buffer(nil, 1<<20)
	for in.Scan() {
		var p published
		if err := json.Unmarshal(in.Bytes(), &p); err != nil {
			t.Fatal(err)
		}
		out = append(out, p)
	}
	return out
}

// job makes a job of an instance: lengths in ticks, no kerf.
func (p *published) job() *stock.Job {
	job := &stock.Job{Sticks: []stock.Stick{{Length: measure.Length(p.Capacity), Price: 1}}}
	counts := map[int64]int{}
	for _, w := range p.Items {
		counts[w]++
	}
	for _, w := range p.Items {
		if counts[w] > 0 {
			job.Pieces = append(job.Pieces, stock.Piece{Length: measure.Length(w), Count: counts[w]})
			counts[w] = 0
		}
	}
	return job
}

// TestPublished proves the published optimum of every instance with a certificate that verifies.
func TestPublished(t *testing.T) {
	for _, file := range []string{"worked_examples.jsonl", "falkenauer_u.jsonl", "falkenauer_t.jsonl"} {
		proven, total, longest := 0, 0, time.Duration(0)
		start := time.Now()
		for _, p := range read(t, file) {
			job := p.job()
			begin := time.Now()
			r, err := cut.Solve(context.Background(), job, &cut.Options{Aim: cut.AimSticks, Effort: cut.EffortQuick})
			if err != nil {
				t.Fatalf("%s: %v", p.Name, err)
			}
			took := time.Since(begin)
			total++
			longest = max(longest, took)
			if r.Status == cut.StatusProven {
				proven++
			}
			begin = time.Now()
			v, err := stock.Verify(context.Background(), job, r.Certificate)
			if r.Status != cut.StatusProven {
				t.Logf("%s: %d sticks, bound %d, optimum %d, %v, %+v, %v, verified in %v",
					p.Name, r.Plan.Sticks, r.Bound.Sticks, p.Optimum, r.Status, r.Stats, took, time.Since(begin))
			}
			if err != nil {
				t.Errorf("%s: %v", p.Name, err)
				continue
			}
			if v.Sticks != r.Bound.Sticks || r.Bound.Sticks > p.Optimum {
				t.Errorf(
					"%s: the certificate shows %d, the bound is %d, the optimum %d",
					p.Name,
					v.Sticks,
					r.Bound.Sticks,
					p.Optimum,
				)
			}
			if r.Plan.Sticks != p.Optimum {
				t.Errorf("%s: %d sticks, optimum %d", p.Name, r.Plan.Sticks, p.Optimum)
			}
		}
		t.Logf("%s: %d of %d proven in %v, longest %v", file, proven, total, time.Since(start), longest)
	}
}
