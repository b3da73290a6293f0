package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"sync"

	"plank.example/bench/frozen"
	"plank.example/bench/gate"
)

// gateFile holds the figures of the gate, from the root of the repository.
const gateFile = "testdata/instances/gate.jsonl"

func gateCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	f := newFlags("gate", errw)
	set := f.String("instances", instancesFile, "the frozen instances")
	file := f.String("figures", gateFile, "the stored figures")
	update := f.Bool("update", false, "store the figures of this run; a change for the worse needs --accept too")
	accept := f.Bool("accept", false, "with --update: store figures that are worse; the commit says why")
	workers := f.Int("workers", runtime.NumCPU(), "cases at a time")
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	entries, err := readSet(*set)
	if err != nil {
		return err
	}
	cases, err := gate.Cases(entries)
	if err != nil {
		return err
	}
	now, err := runCases(ctx, cases, *workers)
	if err != nil {
		return err
	}
	stored, err := readFigures(*file)
	if err != nil && !(*update && errors.Is(err, os.ErrNotExist)) {
		return err
	}
	worse, better := report(out, stored, now)
	switch {
	case worse > 0 && !(*update && *accept):
		return fmt.Errorf("%d of %d cases are worse than stored in %s", worse, len(now), *file)
	case *update:
		return writeWhole(*file, func(w io.Writer) error { return gate.Write(w, now) })
	case better > 0:
		fmt.Fprintf(
			out,
			"%d cases are better than stored, or new: please store them, with\n  go run ./bench gate --update\n",
			better,
		)
	}
	return nil
}

// report prints what changed and a sum.
func report(out io.Writer, stored, now []*gate.Figures) (worse, better int) {
	for _, d := range gate.Compare(stored, now) {
		mark := "better"
		if d.Worse {
			mark = "WORSE"
			worse++
		} else {
			better++
		}
		if len(stored) == 0 {
			continue
		}
		fmt.Fprintf(out, "%-6s  %s: %s\n", mark, d.ID, d.Text)
	}
	used, bound, proven, steps := map[string]int{}, map[string]int{}, map[string]int{}, int64(0)
	for _, f := range now {
		used[f.Count] += f.Used
		bound[f.Count] += f.Bound
		steps += f.Steps
		if f.Proven() {
			proven[f.Count]++
		}
	}
	for _, c := range []string{"planks", "boxes"} {
		fmt.Fprintf(out, "%s: %d used, bound %d, %d cases proven\n", c, used[c], bound[c], proven[c])
	}
	fmt.Fprintf(out, "%d cases: %d worse, %d better, %d million steps\n", len(now), worse, better, steps/1_000_000)
	return worse, better
}

func runCases(ctx context.Context, cases []gate.Case, workers int) ([]*gate.Figures, error) {
	out, errs := make([]*gate.Figures, len(cases)), make([]error, len(cases))
	next := make(chan int)
	var group sync.WaitGroup
	for range max(workers, 1) {
		group.Go(func() {
			for i := range next {
				out[i], errs[i] = gate.Run(ctx, &cases[i])
			}
		})
	}
	for i := range cases {
		next <- i
	}
	close(next)
	group.Wait()
	return out, errors.Join(append(errs, ctx.Err())...)
}

func readSet(name string) ([]*frozen.Entry, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return frozen.Read(f)
}

func readFigures(name string) ([]*gate.Figures, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return gate.Read(f)
}
