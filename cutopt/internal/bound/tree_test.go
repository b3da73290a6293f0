package bound_test

import (
	"encoding/json"
	"errors"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// tiny draws two to five runs on a grid of a few lines a plank: runs of one piece among them, two in a row so that a
// tie closes a cycle, joints laid beside, offcuts on hand.
func tiny(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(6 + r.IntN(7)), Kerf: measure.Length(r.IntN(2)), MinPiece: measure.Length(1 + r.IntN(3)),
		Stagger: measure.Length(r.IntN(4)), Grid: 1,
	}
	for i := range 2 + r.IntN(4) {
		w := measure.Length(2 + r.IntN(24))
		if r.IntN(3) == 0 {
			w = measure.Length(2 + r.IntN(int(in.Plank)-1))
		}
		run := rows.Run{From: measure.Length(r.IntN(3)), Length: w}
		if r.IntN(6) == 0 {
			run.Beside = append(run.Beside, measure.Length(r.IntN(int(w)+4)-2))
		}
		in.Runs = append(in.Runs, run)
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	if len(in.Runs) > 3 && r.IntN(2) == 0 { // runs 1 and 2 stand in one row between 0 and 3
		in.Touch = append([][2]int{{0, 1}, {0, 2}, {1, 3}, {2, 3}}, in.Touch[3:]...)
	}
	for range r.IntN(3) * r.IntN(2) {
		in.Offcuts = append(in.Offcuts, rows.Offcut{
			Length: measure.Length(
				1 + r.IntN(int(in.Plank)),
			), End: []rows.End{rows.EndNone, rows.EndLeft, rows.EndRight}[r.IntN(3)],
		})
	}
	return in
}

// refute proves by cases alone that the instance needs more than target planks; nil where the tree does not close
// within so many nodes. Few paths at each leave much to splits.
func refute(in *rows.Instance, target, nodes, paths int, runsFirst bool) (c *proof.Certificate, err error) {
	b, err := bound.New(starters.New(in))
	if err != nil {
		return nil, err
	}
	t := b.Refute(target)
	t.RunsFirst = runsFirst
	if _, complete := t.Grow(nodes, paths, func(rows.Layout, rows.Packing) bool { return false }); !complete {
		return nil, nil
	}
	return &proof.Certificate{Planks: target + 1, Dropped: b.Dropped(), Tree: *t.Proof()}, nil
}

// TestRefute proves, of tiny instances, that one plank fewer than the fewest does not do, by cases with splits of every
// kind, and that a tree never closes for the fewest. It may stay open only where an offcut without factory ends is on
// hand, which the bound takes for one that a starter may be cut from, or one as long as a plank, which it takes for a
// whole starter. Few paths at a node make for many splits; of the first 2,400 instances one needs more of them to
// close. The certificates verify; forged ones that claim one plank more do not, whatever is changed in them.
// CUTOPT_SAMPLES tries more instances.
func TestRefute(t *testing.T) {
	n := uint64(oracle.Samples(60))
	kinds := make(map[proof.Figure]int)
	laid, closed, open, forged := 0, 0, 0, 0
	for seed := range n {
		r := rand.New(rand.NewPCG(seed, 43))
		in := tiny(r)
		if seed%3 == 1 {
			oracle.Begin(r, in)
		}
		least := oracle.Fewest(in)
		if least < 0 {
			if c, err := refute(in, 1, 2000, 5, true); err == nil && c != nil && c.Verify(in) != nil {
				t.Errorf("seed %d: the proof that no layout keeps the rules does not verify: %v", seed, c.Verify(in))
			}
			continue
		}
		laid++
		if c, err := refute(in, least, 400, 5, seed%2 == 0); err != nil || c != nil {
			t.Fatalf("seed %d: %d planks do, the proof that they do not: %v, %v", seed, least, c, err)
		}
		if least == 0 {
			closed++
			continue
		}
		c, err := refute(in, least-1, 2000, 5, seed%2 == 0)
		if err == nil && c == nil { // a node out of paths may have no split
			c, err = refute(in, least-1, 2000, 50, seed%2 == 0)
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if c == nil {
			if !slices.ContainsFunc(in.Offcuts, func(o rows.Offcut) bool {
				return o.End == rows.EndNone || o.Length == in.Plank
			}) {
				t.Errorf("seed %d: the tree does not close", seed)
			}
			open++
			continue
		}
		closed++
		tally(&c.Tree, kinds)
		if err := c.Verify(in); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		for range 10 {
			lie := forge(t, r, c, in)
			forged++
			if err := lie.Verify(in); !errors.Is(err, proof.ErrUnproven) {
				t.Fatalf("seed %d: a forged certificate of %d planks where %d do: %v", seed, lie.Planks, least, err)
			}
		}
	}
	if open*50 > laid { // 20 of the first 2,345
		t.Errorf("%d trees of %d do not close with offcuts whose ends or length the bound takes for more", open, laid)
	}
	t.Logf(
		"%d of %d instances can be laid, %d trees closed with splits %v, %d forged certificates refused",
		laid,
		n,
		closed,
		kinds,
		forged,
	)
	for _, f := range []proof.Figure{
		proof.OfStarted, proof.OfStarters, proof.OfEnders, proof.OfDeficit, proof.OfStarter,
		proof.OfPlace,
	} {
		if kinds[f] == 0 && n >= 1000 {
			t.Errorf("no split of kind %s", f)
		}
	}
}

// tally counts the splits of a proof by kind.
func tally(n *proof.Node, kinds map[proof.Figure]int) {
	if n.Split != nil {
		kinds[n.Split.Of]++
		tally(n.Low, kinds)
		tally(n.High, kinds)
	}
}

// forge returns a copy of a certificate that claims one plank too many and differs in one to three more places.
func forge(t *testing.T, r *rand.Rand, c *proof.Certificate, in *rows.Instance) *proof.Certificate {
	t.Helper()
	data, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	out := new(proof.Certificate)
	if err := json.Unmarshal(data, out); err != nil {
		t.Fatal(err)
	}
	out.Planks++
	for range 1 + r.IntN(3) {
		change(r, out, in)
	}
	return out
}

// change alters one thing somewhere in the tree.
func change(r *rand.Rand, c *proof.Certificate, in *rows.Instance) {
	var all []*proof.Node
	var walk func(n *proof.Node)
	walk = func(n *proof.Node) {
		if n != nil {
			all = append(all, n)
			walk(n.Low)
			walk(n.High)
		}
	}
	walk(&c.Tree)
	n := all[r.IntN(len(all))]
	other := all[r.IntN(len(all))]
	draw := r.IntN(12)
	switch {
	case draw == 0 && len(c.Dropped) > 0:
		c.Dropped = c.Dropped[1:]
	case draw == 0 && len(in.Touch) > 0:
		c.Dropped = append(slices.Clone(c.Dropped), in.Touch[r.IntN(len(in.Touch))])
	case draw == 1 && n.Split != nil:
		n.Low, n.High = n.High, n.Low
	case draw == 2 && n.Split != nil:
		n.Low = n.High
	case draw < 5 && n.Split != nil:
		n.Split.Value += r.IntN(7) - 3
	case draw == 5 && n.Split != nil:
		n.Split.Run = r.IntN(len(in.Runs)+2) - 1
	case draw == 6 && n.Split != nil:
		n.Split.Of = []proof.Figure{proof.OfStarter, proof.OfPlace, proof.OfStarted, proof.OfDeficit}[r.IntN(4)]
	case draw == 7 && n.Split != nil:
		*n = *n.High
	case draw == 8 && n.Split == nil && len(n.Multipliers) > 0:
		n.Multipliers[r.IntN(len(n.Multipliers))] += int64(r.IntN(3)-1) * proof.Denominator / 3
	case draw < 10 && n.Split == nil && other.Split == nil:
		n.Prices, n.Multipliers = slices.Clone(other.Prices), slices.Clone(other.Multipliers)
	case n.Split == nil && len(n.Prices) > 0:
		k := r.IntN(len(n.Prices))
		n.Prices[k].At += measure.Length(r.IntN(3) - 1)
		n.Prices[k].Price += int64(r.IntN(3)-1) * proof.Denominator / 4
	}
}
