// Package frozen is the benchmark set of bare row instances: fixed problems with the best known layout of each, the best
// proven bound with its certificate, and how both were got. The set is a file of JSON lines, one [Entry] a line.
package frozen

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"plank.example/bench/strategy"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// An Entry is an instance and what is known of it.
type Entry struct {
	ID          string             `json:"id"`
	Origin      string             `json:"origin"` // how the instance was made
	Planks      int                `json:"planks"` // of the best known layout
	PlanksBy    string             `json:"planks_by"`
	Bound       int                `json:"bound"` // the best proven: no layout needs fewer planks
	BoundBy     string             `json:"bound_by"`
	Optima      []Optimum          `json:"optima,omitempty"` // proved by general solvers
	Instance    *rows.Instance     `json:"instance"`
	Layout      rows.Layout        `json:"layout"`
	Packing     rows.Packing       `json:"packing,omitempty"`
	Certificate *proof.Certificate `json:"certificate"`
}

// An Optimum is what a general solver proved on its own: the fewest planks.
type Optimum struct {
	By     string `json:"by"` // solver and version
	Planks int    `json:"planks"`
}

// Verify recomputes everything the entry claims: the layout keeps the rules and needs Planks, the certificate proves Bound
// without solver code, and optima of general solvers lie between. It takes the time of proof.Certificate.Verify.
func (e *Entry) Verify() error {
	fail := func(format string, args ...any) error {
		return fmt.Errorf("frozen: %s: "+format, append([]any{e.ID}, args...)...)
	}
	if e.Instance == nil || e.Layout == nil || e.Certificate == nil || e.ID == "" || e.Origin == "" || e.PlanksBy == "" || e.BoundBy == "" {
		return fail("an entry has id, origin, planks_by, bound_by, instance, layout and certificate")
	}
	if err := e.Instance.Validate(); err != nil {
		return fail("%w", err)
	}
	v, err := strategy.Judge(&strategy.Floor{Rows: e.Instance}, e.answer(), true)
	switch {
	case err != nil:
		return fail("%w", err)
	case v.Planks != e.Planks:
		return fail("planks is %d, the layout needs %d", e.Planks, v.Planks)
	case v.Bound != e.Bound:
		return fail("bound is %d, the certificate claims %d", e.Bound, v.Bound)
	}
	for _, o := range e.Optima {
		if o.By == "" || o.Planks > e.Planks || o.Planks < e.Bound {
			return fail("an optimum of %d planks by %q lies outside %d to %d", o.Planks, o.By, e.Bound, e.Planks)
		}
	}
	return nil
}

func (e *Entry) answer() *strategy.Answer {
	return &strategy.Answer{Layout: e.Layout, Packing: e.Packing, Certificate: e.Certificate}
}

// Improve takes what is better in an answer: a layout of fewer planks, a higher bound, each after verification. It reports
// whether anything was.
func (e *Entry) Improve(a *strategy.Answer, by string) (bool, error) {
	v, err := strategy.Judge(&strategy.Floor{Rows: e.Instance}, a, true)
	if err != nil {
		return false, fmt.Errorf("frozen: %s: %w", e.ID, err)
	}
	better := false
	if a.Layout != nil && (e.Layout == nil || v.Planks < e.Planks) {
		e.Planks, e.PlanksBy, e.Layout, e.Packing, better = v.Planks, by, a.Layout, a.Packing, true
		if !guests(e.Packing) {
			e.Packing = nil
		}
	}
	if a.Certificate != nil && (e.Certificate == nil || v.Bound > e.Bound) {
		e.Bound, e.BoundBy, e.Certificate, better = v.Bound, by, a.Certificate, true
	}
	return better, nil
}

// guests reports whether a packing places any piece; one that does not says nothing.
func guests(p rows.Packing) bool {
	for _, h := range p {
		if h >= 0 {
			return true
		}
	}
	return false
}

// maxLine is the longest line that is read.
const maxLine = 64 << 20

// Read reads a set and leaves verifying to Verify. Each ID stands once.
func Read(r io.Reader) ([]*Entry, error) {
	var out []*Entry
	seen := make(map[string]bool)
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxLine)
	for n := 1; lines.Scan(); n++ {
		e := new(Entry)
		if err := unmarshal(lines.Bytes(), e); err != nil {
			return nil, fmt.Errorf("frozen: line %d: %w", n, err)
		}
		if seen[e.ID] {
			return nil, fmt.Errorf("frozen: line %d: id %q stands twice", n, e.ID)
		}
		seen[e.ID] = true
		out = append(out, e)
	}
	return out, lines.Err()
}

// Write writes a set, one line an entry.
func Write(w io.Writer, set []*Entry) error {
	enc := json.NewEncoder(w)
	for _, e := range set {
		if err := enc.Encode(e); err != nil {
			return err
		}
	}
	return nil
}

// A Claim is a line of a file of new results: what someone found for an instance of the set. layout and certificate may each be
// left out.
type Claim struct {
	ID          string             `json:"id"`
	By          string             `json:"by"` // who or what found it, in a few words
	Layout      rows.Layout        `json:"layout,omitempty"`
	Packing     rows.Packing       `json:"packing,omitempty"`
	Certificate *proof.Certificate `json:"certificate,omitempty"`
}

// Add verifies claims and takes those that are better than what is known; it returns the IDs bettered.
func Add(set []*Entry, claims io.Reader) ([]string, error) {
	byID := make(map[string]*Entry, len(set))
	for _, e := range set {
		byID[e.ID] = e
	}
	var out []string
	lines := bufio.NewScanner(claims)
	lines.Buffer(nil, maxLine)
	for n := 1; lines.Scan(); n++ {
		var c Claim
		if err := unmarshal(lines.Bytes(), &c); err != nil {
			return out, fmt.Errorf("frozen: claim %d: %w", n, err)
		}
		e := byID[c.ID]
		if e == nil || c.By == "" {
			return out, fmt.Errorf("frozen: claim %d: id %q, by %q: a claim names an instance of the set and says by whom it is", n, c.ID, c.By)
		}
		a := &strategy.Answer{Layout: c.Layout, Packing: c.Packing, Certificate: c.Certificate}
		if a.Layout == nil { // a bound alone is held against the layout known
			a.Layout, a.Packing = e.Layout, e.Packing
		}
		better, err := e.Improve(a, c.By)
		if err != nil {
			return out, err
		}
		if better {
			out = append(out, c.ID)
		}
	}
	return out, lines.Err()
}

func unmarshal(line []byte, to any) error {
	if len(line) == 0 {
		return errors.New("an empty line")
	}
	dec := json.NewDecoder(bytes.NewReader(line))
	dec.DisallowUnknownFields()
	return dec.Decode(to)
}
