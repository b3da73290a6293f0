// Package gate holds the library against stored figures: cases that are the same on every machine, the planks and
// bounds they had when the figures were stored, and a comparison that tells better from worse.
package gate

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"plank.example/bench/frozen"
	"plank.example/bench/sample"
	"plank.example/bench/strategy"
	"plank.example/cutopt/solve"
)

// A Case is one thing to solve.
type Case struct {
	ID    string
	Floor *strategy.Floor
	By    strategy.Strategy
}

// Figures are what a case comes to. A case counts boxes where it is a room of a box, planks where it is a bare
// instance: the figure that the library was asked to have as few of as possible.
type Figures struct {
	ID    string `json:"id"`
	By    string `json:"by"`
	Count string `json:"count"` // "planks" or "boxes"
	Used  int    `json:"used"`
	Bound int    `json:"bound"`
	Steps int64  `json:"steps"` // for information: never compared
}

// Proven reports whether the figure is proven the least.
func (f *Figures) Proven() bool { return f.Used == f.Bound }

// Cases returns the cases of the gate: frozen instances, and whole dwelling rooms with each product in turn for the
// fewest boxes. All are laid at quick effort, where a weaker bound or search shows soonest. It is half a minute of one
// core's work.
func Cases(set []*frozen.Entry) ([]Case, error) {
	var out []Case
	taken := make(map[string]int)
	for _, e := range set {
		kind, _, _ := strings.Cut(e.ID, "-")
		if taken[kind]++; every[kind] == 0 || taken[kind]%every[kind] != 0 {
			continue
		}
		out = append(out, Case{e.ID, &strategy.Floor{Rows: e.Instance}, strategy.Library{Effort: solve.EffortQuick}})
	}
	products := sample.Products()
	rules := sample.Rules()
	for seed := range uint64(rooms) {
		room := sample.Draw(sample.MixDwelling, firstRoom+seed)
		product := products[seed%uint64(len(products))]
		floor, err := strategy.FloorOf(room.Job(product, &rules), room.Net, seed)
		if err != nil {
			return nil, err
		}
		out = append(out, Case{
			fmt.Sprintf("room-%d %s", firstRoom+seed, product.Name), floor, strategy.Library{Effort: solve.EffortQuick},
		})
	}
	return out, nil
}

// every says which part of each kind of instance is taken: every n-th; none of those that are too hard for a gate.
var every = map[string]int{"quarter": 1, "dwelling": 1, "tight": 1, "office": 2, "hall": 5}

// The rooms.
const (
	firstRoom = 500_000
	rooms     = 150
)

// Run solves a case and judges the answer, certificate included. A case without a layout has Used 0.
func Run(ctx context.Context, c *Case) (*Figures, error) {
	a, err := c.By.Lay(ctx, c.Floor)
	if err != nil {
		return nil, fmt.Errorf("gate: %s: %w", c.ID, err)
	}
	v, err := strategy.Judge(c.Floor, a, true)
	if err != nil {
		return nil, fmt.Errorf("gate: %s: %w", c.ID, err)
	}
	f := &Figures{ID: c.ID, By: c.By.Name(), Count: "planks", Used: v.Planks, Bound: v.Bound, Steps: a.Steps}
	if c.Floor.Job != nil {
		f.Count, f.Used, f.Bound = "boxes", v.Boxes, v.BoxBound
	}
	return f, nil
}

// A Difference is a figure that changed.
type Difference struct {
	ID    string
	Worse bool
	Text  string
}

// moved reports whether a room fills fewer boxes than before, which is proven: with other rows fewer may do than could
// with those that it had.
func (f *Figures) moved(old *Figures) bool {
	return f.Count == "boxes" && f.Used == f.Bound && f.Used < old.Used
}

// Compare lists what changed from the stored figures. Worse is more planks or boxes, a lower bound, a proof lost, a
// case that is stored and is not there any more; a case that is not stored is a difference that is not worse. Times and
// steps do not count.
func Compare(stored, now []*Figures) []Difference {
	was := make(map[string]*Figures, len(stored))
	for _, f := range stored {
		was[f.ID] = f
	}
	var out []Difference
	for _, f := range now {
		old := was[f.ID]
		delete(was, f.ID)
		switch {
		case old == nil:
			out = append(out, Difference{f.ID, false, fmt.Sprintf("no figures stored; now %s", f)})
		case old.By != f.By || old.Count != f.Count:
			out = append(
				out,
				Difference{f.ID, true, fmt.Sprintf("stored for %s by %s, now %s by %s", old.Count, old.By, f.Count, f.By)},
			)
		case f.Used > old.Used || f.Bound < old.Bound && !f.moved(old):
			out = append(out, Difference{f.ID, true, fmt.Sprintf("was %s, now %s", old, f)})
		case f.Used < old.Used || f.Bound > old.Bound:
			out = append(out, Difference{f.ID, false, fmt.Sprintf("was %s, now %s", old, f)})
		}
	}
	for _, f := range stored {
		if was[f.ID] != nil {
			out = append(out, Difference{f.ID, true, fmt.Sprintf("was %s, and is no case any more", f)})
		}
	}
	return out
}

// String returns "37 planks, proven" or "37 planks, bound 36".
func (f *Figures) String() string {
	if f.Proven() {
		return fmt.Sprintf("%d %s, proven", f.Used, f.Count)
	}
	return fmt.Sprintf("%d %s, bound %d", f.Used, f.Count, f.Bound)
}

// Read reads stored figures, one JSON line a case.
func Read(r io.Reader) ([]*Figures, error) {
	data, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	var out []*Figures
	seen := make(map[string]bool)
	for n, line := range bytes.Split(bytes.TrimSpace(data), []byte("\n")) {
		f := new(Figures)
		dec := json.NewDecoder(bytes.NewReader(line))
		dec.DisallowUnknownFields()
		if err := dec.Decode(f); err != nil {
			return nil, fmt.Errorf("gate: line %d of the stored figures: %w", n+1, err)
		}
		if seen[f.ID] || f.ID == "" || f.Used < f.Bound {
			return nil, fmt.Errorf("gate: line %d of the stored figures: %q stands twice, or is less than its bound", n+1, f.ID)
		}
		seen[f.ID] = true
		out = append(out, f)
	}
	return out, nil
}

// Write writes figures as Read reads them.
func Write(w io.Writer, figures []*Figures) error {
	enc := json.NewEncoder(w)
	for _, f := range figures {
		if err := enc.Encode(f); err != nil {
			return err
		}
	}
	return nil
}
