// Command peers solves the same bare instances by this library and by general solvers, and prints optimum, proof and time
// side by side:
//
//	go run ./bench/peers -n 40 -limit 60s
//
// Instances are those of mip.Draw. The general solvers get the compact mixed-integer model with a gap that only the
// optimum closes; one that is absent is skipped. -highs names the folder that holds node_modules/highs. Times are wall
// clock, without start-up for this library and with it for the peers.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"time"

	"plank.example/bench/mip"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

func main() {
	n := flag.Int("n", 40, "instances")
	seed := flag.Uint64("seed", 1, "first seed")
	limit := flag.Duration("limit", time.Minute, "limit of a peer on one instance")
	highs := flag.String("highs", ".", "folder that holds node_modules/highs")
	flag.Parse()
	if err := run(os.Stdout, *n, *seed, *limit, *highs); err != nil {
		fmt.Fprintln(os.Stderr, "peers:", err)
		os.Exit(1)
	}
}

func cell(a *mip.Answer) string {
	if a == nil {
		return fmt.Sprintf("%20s", "-")
	}
	mark := "<="
	if a.Proven {
		mark = "="
	}
	return fmt.Sprintf("%3s %4d %10.4f s", mark, a.Planks, a.Took.Seconds())
}

// A tally compares this library with one peer over the instances that the peer closed.
type tally struct {
	closed, same int
	logRatio     float64
}

func run(w io.Writer, n int, seed uint64, limit time.Duration, highs string) error {
	peers := []*mip.Solver{mip.HiGHS(highs), mip.CBC()}
	tallies := make([]tally, len(peers))
	fmt.Fprintf(w, "%6s %4s %20s", "seed", "rows", "this library")
	for _, p := range peers {
		fmt.Fprintf(w, " %20s", p.Name)
	}
	fmt.Fprintln(w)
	for k := range uint64(n) {
		in := mip.Draw(seed + k)
		ours, err := byLibrary(in)
		if err != nil {
			return fmt.Errorf("seed %d: %w", seed+k, err)
		}
		fmt.Fprintf(w, "%6d %4d %20s", seed+k, len(in.Runs), cell(ours))
		for i, p := range peers {
			a, err := p.Solve(context.Background(), in, limit)
			if err != nil {
				a = nil
			}
			fmt.Fprintf(w, " %20s", cell(a))
			if a == nil || !a.Proven {
				continue
			}
			tallies[i].add(ours, a)
		}
		fmt.Fprintln(w)
	}
	for i, p := range peers {
		t := tallies[i]
		if t.closed > 0 {
			fmt.Fprintf(w, "%s closed %d of %d within %v; the same planks in %d; geometric mean of its time over ours %.0f\n",
				p.Name, t.closed, n, limit, t.same, math.Exp(t.logRatio/float64(t.closed)))
		} else {
			fmt.Fprintf(w, "%s: absent, or closed none\n", p.Name)
		}
	}
	return nil
}

func (t *tally) add(ours, peer *mip.Answer) {
	t.closed++
	if ours.Planks == peer.Planks {
		t.same++
	}
	t.logRatio += math.Log(peer.Took.Seconds() / ours.Took.Seconds())
}

// byLibrary answers by this library; its certificate is verified, outside the time.
func byLibrary(in *rows.Instance) (*mip.Answer, error) {
	start := time.Now()
	r, err := solve.Rows(context.Background(), in, nil)
	if err != nil {
		return nil, err
	}
	took := time.Since(start)
	if err := r.Bound.Certificate.Verify(in); err != nil {
		return nil, err
	}
	return &mip.Answer{Planks: len(r.Cutting.Planks), Proven: r.Bound.PlanksProven, Took: took}, nil
}
