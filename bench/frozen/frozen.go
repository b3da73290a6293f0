// Package frozen is the benchmark set of bare row instances: fixed problems with the best known layout of each, the
// best proven bound with its certificate, and how both were got.
//
// The set is a file of JSON lines: a [Header], then one [Entry] a line. [Read] reads it, [Entry.Verify] recomputes what
// an entry claims, [Add] takes new results. testdata/instances/SPECIFICATION.md is the page for those who write
// programs of their own.
package frozen

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"plank.example/bench/strategy"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Name and Version of the set that this package writes. A version is never changed: instances may be added in the next.
const (
	Name    = "plank rows"
	Version = 3
)

// A Header is the first line of a set.
type Header struct {
	Set       string `json:"set"`
	Version   int    `json:"version"`
	Instances int    `json:"instances"`
	Unit      string `json:"unit"` // of all lengths
	Licence   string `json:"licence"`
}

// An Entry is an instance and what is known of it.
type Entry struct {
	ID       string `json:"id"`
	Since    int    `json:"since,omitempty"` // version of the set it came with; 0 for 1
	Origin   string `json:"origin"`          // generator and seed that made the instance
	Planks   int    `json:"planks"`          // of the best known layout
	PlanksBy string `json:"planks_by"`
	Bound    int    `json:"bound"` // the best proven: no layout needs fewer planks
	BoundBy  string `json:"bound_by"`
	// PerBox makes an instance one of boxes: so many planks are sold together, and what is wanted is the fewest boxes.
	PerBox      int                `json:"per_box,omitempty"`
	Optima      []Optimum          `json:"optima,omitempty"`  // proved by general solvers
	History     []Result           `json:"history,omitempty"` // claims that were taken, the first first
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

// A Source says where a result comes from.
type Source struct {
	By      string  `json:"by"`                // who or what found it, in a few words
	Date    string  `json:"date,omitempty"`    // as 2026-11-26
	Source  string  `json:"source,omitempty"`  // paper, program or commit
	Seconds float64 `json:"seconds,omitempty"` // it took
	Machine string  `json:"machine,omitempty"` // processor and cores it took them on
}

// A Result is a verified claim: planks that a layout needs, a bound that a certificate proves, or both.
type Result struct {
	Source
	Planks int  `json:"planks,omitempty"`
	Bound  int  `json:"bound,omitempty"`
	Tie    bool `json:"tie,omitempty"` // as good as what was known; else better in one of the two
}

// Closed reports whether the instance is settled: in planks, or in boxes where it is one of boxes.
func (e *Entry) Closed() bool { return e.Figure() == e.FigureBound() }

// Figure is the fewest boxes or planks known.
func (e *Entry) Figure() int { return boxes(e.Planks, e.PerBox) }

// FigureBound is the most boxes or planks proven necessary.
func (e *Entry) FigureBound() int { return boxes(e.Bound, e.PerBox) }

func boxes(planks, per int) int {
	if per == 0 {
		return planks
	}
	return (planks + per - 1) / per
}

// Hash is the SHA-256 of the instance as JSON without blanks, in hexadecimal: results may change, it may not.
func (e *Entry) Hash() string {
	text, err := json.Marshal(e.Instance)
	if err != nil {
		panic(err) // whole numbers and texts
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// Verify recomputes everything the entry claims: the layout keeps the rules and needs Planks, the certificate proves
// Bound without solver code, and optima of general solvers and the history lie between. It takes the time of
// proof.Certificate.Verify.
func (e *Entry) Verify() error {
	fail := func(format string, args ...any) error {
		return fmt.Errorf("frozen: %s: "+format, append([]any{e.ID}, args...)...)
	}
	if e.Instance == nil || e.Layout == nil || e.Certificate == nil || e.ID == "" || e.Origin == "" || e.PlanksBy == "" ||
		e.BoundBy == "" {
		return fail("an entry has id, origin, planks_by, bound_by, instance, layout and certificate")
	}
	if e.PerBox < 0 || e.Since < 0 || e.Since > Version {
		return fail("per_box is %d and since %d: a box has planks, and the set is of version %d", e.PerBox, e.Since, Version)
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
	for _, r := range e.History {
		if r.By == "" || r.Planks > 0 && r.Planks < e.Planks || r.Bound > e.Bound {
			return fail(
				"%q found %d planks and a bound of %d: the best known are %d and %d",
				r.By,
				r.Planks,
				r.Bound,
				e.Planks,
				e.Bound,
			)
		}
	}
	return nil
}

func (e *Entry) answer() *strategy.Answer {
	return &strategy.Answer{Layout: e.Layout, Packing: e.Packing, Certificate: e.Certificate}
}

// Improve takes what is better in an answer: a layout of fewer planks, a higher bound, each after verification. It
// reports whether anything was.
func (e *Entry) Improve(a *strategy.Answer, by string) (bool, error) {
	v, err := strategy.Judge(&strategy.Floor{Rows: e.Instance}, a, true)
	if err != nil {
		return false, fmt.Errorf("frozen: %s: %w", e.ID, err)
	}
	better := false
	if a.Layout != nil && (e.Layout == nil || v.Planks < e.Planks) {
		e.Planks, e.PlanksBy, e.Layout, e.Packing, better = v.Planks, by, a.Layout, a.Packing, true
		if e.Packing == nil {
			e.Packing = strategy.PackingOf(e.Instance, e.Instance.Cut(a.Layout, nil)) // so that others need not look for it
		}
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

// Read reads a set and leaves verifying to Verify. The first line is the header of this version; each ID stands once.
func Read(r io.Reader) ([]*Entry, error) {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxLine)
	var head Header
	if !lines.Scan() {
		return nil, errors.Join(lines.Err(), errors.New("frozen: an empty file: a set begins with its name and version"))
	}
	if err := unmarshal(lines.Bytes(), &head); err != nil {
		return nil, fmt.Errorf("frozen: line 1: %w; a set begins with its name and version", err)
	}
	if head.Set != Name || head.Version != Version {
		return nil, fmt.Errorf(
			"frozen: line 1: set %q of version %d: %q of version %d is read",
			head.Set,
			head.Version,
			Name,
			Version,
		)
	}
	var out []*Entry
	seen := make(map[string]bool)
	for n := 2; lines.Scan(); n++ {
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
	if err := lines.Err(); err != nil {
		return nil, err
	}
	if len(out) != head.Instances {
		return nil, fmt.Errorf("frozen: %d instances, the first line says %d", len(out), head.Instances)
	}
	return out, nil
}

// Write writes a set: the header, then one line an entry.
func Write(w io.Writer, set []*Entry) error {
	enc := json.NewEncoder(w)
	head := Header{Name, Version, len(set), "1/320 mm", "CC0-1.0"}
	if err := enc.Encode(head); err != nil {
		return err
	}
	for _, e := range set {
		if err := enc.Encode(e); err != nil {
			return err
		}
	}
	return nil
}

// WriteHashes writes one line an entry as sha256sum does: the hash of its instance, two blanks, its ID.
func WriteHashes(w io.Writer, set []*Entry) error {
	for _, e := range set {
		if _, err := fmt.Fprintf(w, "%s  %s\n", e.Hash(), e.ID); err != nil {
			return err
		}
	}
	return nil
}

func unmarshal(line []byte, to any) error {
	if len(line) == 0 {
		return errors.New("an empty line")
	}
	dec := json.NewDecoder(bytes.NewReader(line))
	dec.DisallowUnknownFields()
	return dec.Decode(to)
}
