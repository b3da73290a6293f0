// Package harness runs strategies of your own beside those of this module, from any module that imports it.
//
// Write a type with the methods of [strategy.Strategy], or name a program as label=command in Options.Beside, and call
// [Compare]: it draws sample rooms, lays each by every strategy, judges every answer by its pieces (see
// [strategy.Judge]), and prints one table. Rooms go by their seeds, so the same call gives the same planks on every
// machine.
//
//	err := harness.Compare(ctx, os.Stdout, nil, Mine{})
//
// A program behind a command may be in any language: it reads a [strategy.Task] a line and writes a [strategy.Reply] a
// line. examples/strategy of the repository has both ways, some twenty lines each.
//
// # What is promised
//
//  1. Every answer is recounted; none is believed. One that breaks a rule is counted as broken and named in the error.
//  2. A bound counts only with a certificate, which is verified without solver code.
//  3. No figure but the times depends on the machine or the number of workers.
package harness

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"time"

	"plank.example/bench/sample"
	"plank.example/bench/strategy"
	"plank.example/bench/tables"
	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

// ErrBroken is wrapped by the error of Compare where a strategy gave answers that do not hold.
var ErrBroken = tally.ErrBroken

// Options say what to measure. The zero value of each field has a default.
type Options struct {
	Mix     sample.Mix // rooms; default dwelling rooms
	First   uint64     // first seed; default 0
	Rooms   uint64     // default 200
	Product string     // plank, length x width in inches and :N for N in a box; default 48x7
	Rules   [2]string  // shortest piece and stagger, bare numbers in inches; default 8 and 8
	Beside  []string   // other strategies, label=command for a program; default carry
	// Against is the one that all are compared with; default library-quick for boxes and library-quick-planks for planks,
	// each of which has as few as can be.
	Against string
	Workers int           // rooms laid at a time; default all cores
	Limit   time.Duration // of a program on one floor; default a minute
}

func or[T comparable](value, otherwise T) T {
	var zero T
	if value == zero {
		return otherwise
	}
	return value
}

// Compare measures and prints the table. own are strategies of the caller, whose names differ from all others. Errors
// are those of names that are not known, of ctx and of w, and one that wraps ErrBroken after the table is printed.
func Compare(ctx context.Context, w io.Writer, opt *Options, own ...strategy.Strategy) error {
	if opt == nil {
		opt = new(Options)
	}
	spec := &trial.Spec{
		Mix: or(opt.Mix, sample.MixDwelling), Planks: []string{or(opt.Product, "48x7")},
		MinPieces: []string{or(opt.Rules[0], "8")}, Staggers: []string{or(opt.Rules[1], "8")}, Verify: true,
		Strategies: append([]string(nil), opt.Beside...),
	}
	if opt.Beside == nil {
		spec.Strategies = []string{"carry"}
	}
	for _, s := range own {
		spec.Strategies = append(spec.Strategies, s.Name())
	}
	if opt.Against == "" {
		spec.Strategies = append(spec.Strategies, "library-quick", "library-quick-planks")
	} else {
		spec.Strategies = append(spec.Strategies, opt.Against)
	}
	settings, err := spec.Settings()
	if err != nil {
		return err
	}
	sum := tally.New(spec)
	run := &trial.Options{Workers: or(opt.Workers, runtime.NumCPU()), Times: true, Limit: opt.Limit, Own: own}
	rooms := or(opt.Rooms, 200)
	if err := trial.Run(ctx, spec, opt.First, opt.First+rooms, run, sum.Add); err != nil {
		return err
	}
	fmt.Fprintf(w, "%d rooms of %s from seed %d, %s\n", rooms, spec.Mix, opt.First, settings[0].Name)
	if err := tables.Strategies(sum, settings[0].Name, "all").Text(w); err != nil {
		return err
	}
	return sum.Broken()
}
