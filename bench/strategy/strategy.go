// Package strategy lays floors in several ways, from the trade's habits to the library itself and programs of others,
// and judges them all by the same count.
//
// A [Strategy] takes a [Floor] and returns an [Answer]; [Judge] says what the answer is worth. New strategies need no
// more than the one method; a program in another language is attached by [Pipe].
package strategy

import (
	"cmp"
	"context"
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// A Floor is what is to be laid. A strategy only reads it.
type Floor struct {
	Rows *rows.Instance // the bare problem
	Seed uint64         // for strategies that draw lots

	// What follows is absent (nil, 0) for bare instances that come from no room; then a box is one plank.
	Job    *cutopt.Job
	Net    measure.Area // floor area: outline less islands
	PerBox int          // planks in a box
}

// Boxes returns how many boxes hold so many planks to lay, and those that the job keeps for repairs.
func (f *Floor) Boxes(planks int) int {
	var spare cutopt.Spare
	if f.Job != nil {
		spare = f.Job.Spare
	}
	return spare.Boxes(planks, max(f.PerBox, 1))
}

// FloorOf makes the floor of a job whose rooms have the given area together. Errors are those of solve.Instance.
func FloorOf(job *cutopt.Job, net measure.Area, seed uint64) (*Floor, error) {
	in, err := solve.Instance(job)
	if err != nil {
		return nil, err
	}
	per, err := job.Box.PlanksPer(job.Plank)
	if err != nil {
		return nil, err
	}
	return &Floor{Rows: in, Seed: seed, Job: job, Net: net, PerBox: per}, nil
}

// An Answer is what a strategy makes of a floor.
type Answer struct {
	Layout  rows.Layout  // the starter of each run; nil from a strategy that only buys or counts
	Packing rows.Packing // whose plank each one-piece run comes from; nil leaves it to the count
	// Planks and Buys are what a strategy without a layout counts and the boxes that it buys; 0 boxes are those that
	// hold the planks.
	Planks, Buys int
	// Certificate proves a bound; nil from strategies that prove nothing.
	Certificate *proof.Certificate
	Plan        *cutopt.Plan // the whole plan, of strategies that make one
	Steps       int64        // work in steps of the strategy's own; 0 when it counts none
}

// A Strategy lays floors. Anyone may write one: see package harness, which runs it. Its Lay may be called by several
// goroutines at once; for the same floor it returns the same answer. ErrNone says that it found no layout, which is an
// outcome and not a fault.
type Strategy interface {
	Name() string
	Lay(ctx context.Context, floor *Floor) (*Answer, error)
}

// ErrNone is returned by a strategy that finds no layout that keeps the rules.
var ErrNone = errors.New("strategy: no layout found that keeps the rules")

// A Verdict is what an answer is worth.
type Verdict struct {
	Planks int // needed by the layout, or counted without one; 0 when the strategy only buys
	Boxes  int
	// Bound is what the answer proves: no layout needs fewer planks. 0 without a certificate.
	Bound    int
	BoxBound int
}

// Proven reports whether the boxes are proven the fewest.
func (v *Verdict) Proven() bool { return v.Bound > 0 && v.BoxBound == v.Boxes }

// PlanksProven reports whether the planks are proven the fewest.
func (v *Verdict) PlanksProven() bool { return v.Bound > 0 && v.Bound == v.Planks }

// Judge counts an answer by its pieces and trusts none of its figures: the layout must keep the rules
// (rows.Instance.Check), a packing must fit, planks are those of rows.Instance.Count. A plan must pass check.Plan and
// need as many planks as its layout, which is one of the plan's own rows: a planner may choose where they lie. A bound
// counts only with a certificate; with verify the certificate is recomputed, else its claim is taken as it stands. It
// takes the time of these functions.
func Judge(floor *Floor, a *Answer, verify bool) (*Verdict, error) {
	if a.Layout == nil {
		if a.Buys < 0 || a.Planks < 0 || a.Buys == 0 && a.Planks == 0 {
			return nil, errors.New("strategy: an answer has a layout, counts planks or buys boxes")
		}
		return &Verdict{Planks: a.Planks, Boxes: cmp.Or(a.Buys, floor.Boxes(a.Planks))}, nil
	}
	in := floor.Rows
	if a.Plan != nil {
		var err error
		if in, err = check.Instance(floor.Job, a.Plan); err != nil {
			return nil, err
		}
	}
	if err := in.Check(a.Layout); err != nil {
		return nil, err
	}
	if err := in.CheckPacking(a.Layout, a.Packing); err != nil {
		return nil, err
	}
	v := &Verdict{Planks: in.Count(a.Layout, a.Packing)}
	v.Boxes = floor.Boxes(v.Planks)
	if a.Plan != nil {
		if broken := check.Plan(floor.Job, a.Plan); len(broken) > 0 {
			return nil, fmt.Errorf("strategy: the plan breaks %d rules, first: %v", len(broken), broken[0])
		}
		if n := a.Plan.Order.Planks; n != v.Planks {
			return nil, fmt.Errorf("strategy: the plan cuts %d planks, its layout needs %d", n, v.Planks)
		}
	}
	if a.Certificate == nil {
		return v, nil
	}
	if verify {
		if err := a.Certificate.Verify(in); err != nil {
			return nil, err
		}
	}
	v.Bound = a.Certificate.Planks
	v.BoxBound = floor.Boxes(v.Bound)
	if v.Bound > v.Planks {
		return nil, fmt.Errorf("strategy: a layout of %d planks refutes the bound of %d", v.Planks, v.Bound)
	}
	return v, nil
}
