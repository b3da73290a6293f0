package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"plank.example/bench/tally"
)

func mergeCommand(_ context.Context, args []string, out, errw io.Writer) error {
	f := newFlags("merge", errw)
	name := f.StringP("out", "o", "-", "file for the sum; - for standard output")
	if err := parse(f, args, 1, -1); err != nil {
		return err
	}
	sum, err := readSummaries(f.Args())
	if err != nil {
		return err
	}
	if *name == "-" {
		return sum.Encode(out)
	}
	return writeWhole(*name, sum.Encode)
}

// readSummaries reads and adds up summaries.
func readSummaries(names []string) (*tally.Summary, error) {
	var sum *tally.Summary
	for _, name := range names {
		f, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		s, err := tally.Decode(f)
		f.Close()
		if err == nil && sum != nil {
			err = sum.Merge(s)
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		if sum == nil {
			sum = s
		}
	}
	return sum, nil
}
