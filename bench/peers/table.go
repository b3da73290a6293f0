package main

import (
	"fmt"
	"io"
	"math"
	"runtime"
	"slices"
	"strings"
	"time"

	"plank.example/bench/mip"
)

// A tally compares this library with a peer.
type tally struct {
	asked, closed, both, same int
	cpu                       time.Duration // of the instances closed
	logRatio                  float64       // over those that both close
}

// title says what is compared.
func (c *comparison) title(n int, peers []*peer) string {
	what := fmt.Sprintf("the first %d instances of mip.Draw from seed %d", n, c.seed)
	switch {
	case c.rest != "":
		what = fmt.Sprintf("%d instances of floors of which some lies: runs in hand, joints beside, offcuts on hand", n)
	case c.frozen != "":
		what = fmt.Sprintf("%d frozen instances of %s", n, strings.TrimSuffix(c.frozen, "-"))
	case c.mixed:
		what = fmt.Sprintf(
			"%d instances of mip.DrawMixed from seed %d: one-piece runs, cycles of ties, offcuts on hand",
			n,
			c.seed,
		)
	}
	var versions []string
	for _, p := range peers {
		if v := p.Name + " " + p.Version(); !slices.Contains(versions, v) {
			versions = append(versions, v)
		}
	}
	race := ""
	if c.race {
		race = " A solver has two seconds more than an earlier one took to close the instance, so what the later ones " +
			"close is less than they could."
	}
	return fmt.Sprintf("%s; %s; %s on %s/%s. "+
		"Limits and times are of processor time; other work may have run beside.%s\n\n",
		what, strings.Join(versions, ", "), runtime.Version(), runtime.GOOS, runtime.GOARCH, race)
}

func (t *tally) add(ours, peer *mip.Answer) {
	if !peer.Proven {
		return
	}
	t.closed, t.cpu = t.closed+1, t.cpu+peer.CPU
	if !ours.Proven {
		return
	}
	t.both++
	if ours.Planks == peer.Planks {
		t.same++
	}
	t.logRatio += ratio(peer, ours)
}

func ratio(peer, ours *mip.Answer) float64 { return math.Log(peer.CPU.Seconds() / ours.CPU.Seconds()) }

func (c *comparison) summary(w io.Writer, ours *tally, peers []*peer, best *tally) {
	fmt.Fprintf(
		w,
		"| solver and model | instances | closed in %g s | same optimum | CPU s, closed ones | times ours, both close |\n",
		c.limit.Seconds(),
	)
	fmt.Fprintf(w, "|---|--:|--:|--:|--:|--:|\n")
	fmt.Fprintf(w, "| this library | %d | %d | | %.2f | 1 |\n", ours.asked, ours.closed, ours.cpu.Seconds())
	for _, p := range peers {
		t := p.tally
		fmt.Fprintf(
			w,
			"| %s | %d | %d | %d of %d | %.2f | %s |\n",
			p.name(),
			t.asked,
			t.closed,
			t.same,
			t.both,
			t.cpu.Seconds(),
			t.times(t.both),
		)
	}
	if len(peers) == 0 {
		return
	}
	fmt.Fprintf(w, "| best of them, each instance | %d | %d | %d of %d | %.2f | %s |\n",
		best.asked, best.closed, best.same, best.both, best.cpu.Seconds(), best.times(best.asked))
	fmt.Fprintf(w, "\nThe last line counts an instance that no peer closes as %g s of theirs.\n", c.limit.Seconds())
}

func (t *tally) times(over int) string {
	if over == 0 {
		return "-"
	}
	return fmt.Sprintf("%.0f", math.Exp(t.logRatio/float64(over)))
}

func cell(a *mip.Answer) string {
	mark := "<="
	if a.Proven {
		mark = "="
	}
	return fmt.Sprintf("%s%d %.4f s", mark, a.Planks, a.CPU.Seconds())
}
