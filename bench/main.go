// Command bench measures ways of laying floors on sample rooms, holds the library against stored figures, and makes the
// tables of RESULTS.md and STUDY.md:
//
//	go run ./bench run --to 1000 --summary out.json
//	go run ./bench table out.json
//	go run ./bench gate
//
// Each command lists its flags with --help. The exit code is 0 when all is well, 1 when a figure is worse or something
// could not be done, 2 for a wrong command line, and 5 when a strategy gave answers that do not hold.
//
// Strategies of your own run through package harness, see examples/strategy.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"

	"github.com/spf13/pflag"

	"plank.example/bench/tally"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(bench(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// Exit codes.
const (
	done   = 0
	failed = 1 // a figure is worse, or something could not be done
	usage  = 2
	broken = 5 // a strategy gave answers that do not hold
)

// A command is one word of the command line.
type command struct {
	name, args, does string
	run              func(ctx context.Context, args []string, out, errw io.Writer) error
}

// commands are listed in the order of help.
func commands() []command {
	return []command{
		{"run", "[flags]", "lay sample rooms by several strategies; write records and a summary", runCommand},
		{"merge", "SUMMARY… [-o FILE]", "add up the summaries of shards", mergeCommand},
		{"table", "SUMMARY…", "print means, quantiles, comparisons and proofs of a summary", tableCommand},
		{"gate", "[flags]", "hold the library against the stored figures", gateCommand},
		{"instances", "[flags]", "verify the frozen instances, better their figures or make the set anew", instancesCommand},
		{"rooms", "[flags]", "plan sample rooms; print what each is told to buy, and how the floors look", roomsCommand},
		{"site", "[flags]", "tell stories of rooms laid with losses, planned on at each event", siteCommand},
		{"results", "[flags]", "measure and write bench/RESULTS.md", resultsCommand},
		{"stock", "[flags]", "measure cutting stock by classes of jobs; write bench/STOCK.md", stockCommand},
		{"study", "[flags]", "measure sample rooms; write the tables and pictures of bench/STUDY.md", studyCommand},
	}
}

// errUsage marks errors of the command line.
var errUsage = errors.New("see --help")

// bench is the whole program; it returns the exit code.
func bench(ctx context.Context, args []string, out, errw io.Writer) int {
	if len(args) > 0 {
		for _, c := range commands() {
			if c.name != args[0] {
				continue
			}
			err := c.run(ctx, args[1:], out, errw)
			switch {
			case err == nil || errors.Is(err, pflag.ErrHelp):
				return done
			case errors.Is(err, errUsage):
				fmt.Fprintf(errw, "bench %s: %v\n", c.name, err)
				return usage
			}
			fmt.Fprintf(errw, "bench %s: %v\n", c.name, err)
			if errors.Is(err, tally.ErrBroken) {
				return broken
			}
			return failed
		}
	}
	fmt.Fprintln(errw, "Usage: go run ./bench COMMAND")
	for _, c := range commands() {
		fmt.Fprintf(errw, "  %-34s %s\n", c.name+" "+c.args, c.does)
	}
	if len(args) > 0 && (args[0] == "help" || args[0] == "--help" || args[0] == "-h") {
		return done
	}
	return usage
}

// newFlags makes the flags of a command, whose help goes to errw.
func newFlags(name string, errw io.Writer) *pflag.FlagSet {
	f := pflag.NewFlagSet(name, pflag.ContinueOnError)
	f.SetOutput(errw)
	f.SortFlags = false
	f.Usage = func() {
		for _, c := range commands() {
			if c.name == name {
				fmt.Fprintf(errw, "Usage: go run ./bench %s %s\n%s.\n\n%s", c.name, c.args, c.does, f.FlagUsages())
			}
		}
	}
	return f
}

// parse reads the flags and the given number of other arguments; most < 0 takes any number.
func parse(f *pflag.FlagSet, args []string, least, most int) error {
	if err := f.Parse(args); err != nil {
		if errors.Is(err, pflag.ErrHelp) {
			return err
		}
		return fmt.Errorf("%w; %w", err, errUsage)
	}
	if n := f.NArg(); n < least || most >= 0 && n > most {
		return fmt.Errorf("%d arguments %q are given; %w", n, f.Args(), errUsage)
	}
	return nil
}

// writeWhole writes a file whole or not at all.
func writeWhole(name string, write func(io.Writer) error) error {
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+"-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	if err = write(f); err == nil {
		err = f.Chmod(0o644)
	}
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
