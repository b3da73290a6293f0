package frozen

import (
	"bufio"
	"fmt"
	"io"
	"time"

	"plank.example/bench/strategy"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// A Claim is a line of a file of new results: what someone found for an instance of the set. layout and certificate may
// each be left out, not both.
type Claim struct {
	ID string `json:"id"`
	Source
	Layout      rows.Layout        `json:"layout,omitempty"`
	Packing     rows.Packing       `json:"packing,omitempty"`
	Certificate *proof.Certificate `json:"certificate,omitempty"`
}

// An Outcome is what became of a claim.
type Outcome struct {
	ID     string
	Result Result
	Taken  bool // better, or a tie by someone who is not in the history with it
}

// Add verifies claims and takes those that are better than what is known, and those that are as good: both are added to
// the history, and a better layout or certificate takes the place of the one known. A claim that is worse in both, or a
// tie that the same source has already, changes nothing. A claim that does not hold is an error, which ends the call.
func Add(set []*Entry, claims io.Reader) ([]Outcome, error) {
	byID := make(map[string]*Entry, len(set))
	for _, e := range set {
		byID[e.ID] = e
	}
	var out []Outcome
	lines := bufio.NewScanner(claims)
	lines.Buffer(nil, maxLine)
	for n := 1; lines.Scan(); n++ {
		var c Claim
		if err := unmarshal(lines.Bytes(), &c); err != nil {
			return out, fmt.Errorf("frozen: claim %d: %w", n, err)
		}
		e := byID[c.ID]
		if err := c.check(e); err != nil {
			return out, fmt.Errorf("frozen: claim %d: %w", n, err)
		}
		o, err := e.claim(&c)
		if err != nil {
			return out, err
		}
		out = append(out, *o)
	}
	return out, lines.Err()
}

func (c *Claim) check(e *Entry) error {
	switch {
	case e == nil:
		return fmt.Errorf("id is %q: a claim names an instance of the set", c.ID)
	case c.By == "":
		return fmt.Errorf("by is empty: a claim says by whom it is")
	case c.Layout == nil && c.Certificate == nil:
		return fmt.Errorf("a claim has a layout, a certificate, or both")
	case c.Seconds < 0:
		return fmt.Errorf("seconds is %v: it takes some, or is left out", c.Seconds)
	}
	if c.Date != "" {
		if _, err := time.Parse(time.DateOnly, c.Date); err != nil {
			return fmt.Errorf("date is %q: write it as 2026-11-26", c.Date)
		}
	}
	return nil
}

func (e *Entry) claim(c *Claim) (*Outcome, error) {
	a := &strategy.Answer{Layout: c.Layout, Packing: c.Packing, Certificate: c.Certificate}
	if a.Layout == nil { // a bound alone is held against the layout known
		a.Layout, a.Packing = e.Layout, e.Packing
	}
	v, err := strategy.Judge(&strategy.Floor{Rows: e.Instance}, a, true)
	if err != nil {
		return nil, fmt.Errorf("frozen: %s: %w", e.ID, err)
	}
	r := Result{Source: c.Source}
	if c.Layout != nil && v.Planks <= e.Planks {
		r.Planks = v.Planks
	}
	if c.Certificate != nil && v.Bound >= e.Bound {
		r.Bound = v.Bound
	}
	better := r.Planks > 0 && r.Planks < e.Planks || r.Bound > e.Bound
	r.Tie = !better
	o := &Outcome{ID: e.ID, Result: r}
	if r.Planks == 0 && r.Bound == 0 || r.Tie && e.has(&r) {
		return o, nil
	}
	if _, err := e.Improve(a, c.By); err != nil {
		return nil, err
	}
	o.Taken, e.History = true, append(e.History, r)
	return o, nil
}

// has reports whether the source of a tie has been credited with it.
func (e *Entry) has(r *Result) bool {
	planks, bound := r.Planks == 0 || e.PlanksBy == r.By, r.Bound == 0 || e.BoundBy == r.By
	for _, h := range e.History {
		if h.By == r.By {
			planks, bound = planks || h.Planks == r.Planks, bound || h.Bound == r.Bound
		}
	}
	return planks && bound
}
