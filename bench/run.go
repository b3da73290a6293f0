package main

import (
	"bufio"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"reflect"
	"runtime"
	"time"

	"github.com/spf13/pflag"

	"plank.example/bench/sample"
	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

// runFlags are those of a measurement.
type runFlags struct {
	spec                  trial.Spec
	from, to              uint64
	shard                 string
	records, csv, summary string
	resume, noTimes       bool
	quiet, noVerify       bool
	workers               int
	checkpoint            uint64
	limit                 time.Duration
	outlines              string // folder of the rooms of mix outlines
}

func (r *runFlags) register(f *pflag.FlagSet) {
	f.StringVar((*string)(&r.spec.Mix), "mix", "dwelling", "rooms: dwelling, office, hall, mixed or house; "+
		"outlines are those of --outlines")
	f.StringVar(&r.outlines, "outlines", "", "folder of room outlines, see package sample: ReadOutlines")
	f.StringSliceVar(
		&r.spec.Planks,
		"planks",
		[]string{"48x7"},
		"products, length x width in inches, :N for N planks in a box",
	)
	f.StringSliceVar(&r.spec.MinPieces, "min-piece", []string{"8"}, "shortest pieces, in inches or with a unit")
	f.StringSliceVar(&r.spec.Staggers, "stagger", []string{"8"}, "staggers, in inches or with a unit")
	f.StringArrayVar(&r.spec.Vary, "vary", nil, "key=value, may be repeated: the first setting with another value of a "+
		"rule, or of box, direction, start or first-row")
	f.BoolVar(
		&r.spec.Full,
		"full",
		false,
		"cross all planks, pieces and staggers; else vary one of them at a time from the first",
	)
	f.StringSliceVar(
		&r.spec.Strategies,
		"strategies",
		[]string{"thumb", "carry", "halves", "thirds", "random", "library-quick", "library-normal"},
		"ways of laying; label=command for a program of your own; the others are compared with the last",
	)
	f.BoolVar(&r.noVerify, "no-verify", false, "take the claims of certificates as they stand")
	f.Uint64Var(&r.from, "from", 0, "first seed")
	f.Uint64Var(&r.to, "to", 200, "seed after the last")
	f.StringVar(&r.shard, "shard", "", "K/N: only the K-th of N parts of the seeds, K from 0")
	f.StringVar(&r.records, "records", "", "file for the records, JSON lines")
	f.StringVar(&r.csv, "csv", "", "file for the records, CSV")
	f.StringVar(&r.summary, "summary", "", "file for the summary; - for standard output")
	f.BoolVar(&r.resume, "resume", false, "go on where the files of an interrupted run end")
	f.Uint64Var(&r.checkpoint, "checkpoint", 500, "seeds after which the files are brought up to date")
	f.BoolVar(&r.noTimes, "no-times", false, "leave times out: the files are then the same on every machine")
	f.IntVar(&r.workers, "workers", runtime.NumCPU(), "rooms laid at a time; nothing but times depends on it, which are "+
		"processor time with one and by the clock with more")
	f.DurationVar(&r.limit, "limit", time.Minute, "limit of a program of your own on one floor")
	f.BoolVar(&r.quiet, "quiet", false, "no progress on standard error")
}

// setMix sets the mix of rooms by name.
func (r *runFlags) setMix(name string) (err error) {
	r.spec.Mix, err = sample.ParseMix(name)
	return err
}

func runCommand(ctx context.Context, args []string, out, errw io.Writer) error {
	var r runFlags
	f := newFlags("run", errw)
	r.register(f)
	if err := parse(f, args, 0, 0); err != nil {
		return err
	}
	s, err := r.measure(ctx, out, errw)
	if err != nil {
		return err
	}
	switch r.summary {
	case "-":
		err = s.Encode(out)
	case "":
		err = writeTables(out, s)
	}
	return errors.Join(err, s.Broken())
}

// rooms reads the outlines that the mix asks for, and takes no more seeds than there are; nil for rooms that are drawn.
func (r *runFlags) rooms() ([]*sample.Room, error) {
	if r.spec.Mix != sample.MixOutlines {
		if _, err := sample.ParseMix(string(r.spec.Mix)); err != nil {
			return nil, fmt.Errorf("--mix: %w; %w", err, errUsage)
		}
		return nil, nil
	}
	if r.outlines == "" {
		return nil, fmt.Errorf("--mix outlines needs --outlines FOLDER; %w", errUsage)
	}
	rooms, err := sample.ReadOutlines(r.outlines)
	r.to = min(r.to, uint64(len(rooms)))
	return rooms, err
}

// A measurement is a run under way.
type measurement struct {
	*runFlags
	summary       *tally.Summary
	records, csv  *os.File
	lines         *bufio.Writer
	table         *csv.Writer
	errw          io.Writer
	began         time.Time
	first         uint64 // seed this process began with
	lastReport    time.Time
	sinceWritten  uint64
	summaryToFile bool
}

// measure does what the flags ask for and returns the summary of all of it.
func (r *runFlags) measure(ctx context.Context, _, errw io.Writer) (*tally.Summary, error) {
	r.spec.Verify = !r.noVerify
	rooms, err := r.rooms()
	if err != nil {
		return nil, err
	}
	if _, err := r.spec.Settings(); err != nil {
		return nil, fmt.Errorf("%w; %w", err, errUsage)
	}
	if _, err := r.spec.Laying(r.limit); err != nil {
		return nil, fmt.Errorf("--strategies: %w; %w", err, errUsage)
	}
	from, to := r.from, r.to
	k, n := 0, 1
	if r.shard != "" {
		if _, err := fmt.Sscanf(r.shard, "%d/%d", &k, &n); err != nil {
			return nil, fmt.Errorf("--shard is %q: write K/N, such as 0/16; %w", r.shard, errUsage)
		}
	}
	from, to, err = trial.Shard(from, to, k, n)
	if err != nil {
		return nil, fmt.Errorf("%w; %w", err, errUsage)
	}
	m := &measurement{
		runFlags: r, summary: tally.New(&r.spec), errw: errw, began: time.Now(),
		summaryToFile: r.summary != "" && r.summary != "-",
	}
	if err := m.open(&from); err != nil {
		return nil, err
	}
	m.first = from
	if from < to {
		opt := &trial.Options{Workers: r.workers, Times: !r.noTimes, Limit: r.limit, Rooms: rooms}
		err = trial.Run(ctx, &r.spec, from, to, opt, func(seed uint64, records []trial.Record) error {
			return m.take(seed, to, records)
		})
	}
	if cerr := m.close(); err == nil {
		err = cerr
	}
	if errors.Is(err, context.Canceled) {
		return nil, fmt.Errorf("interrupted after seed %d; go on with --resume", max(m.next(), 1)-1)
	}
	if err == nil && !r.quiet && from < to {
		m.report(to, true)
	}
	return m.summary, err
}

// open opens the files; on resuming it reads what is in them and moves from behind it.
func (m *measurement) open(from *uint64) error {
	if m.resume && m.runFlags.records == "" && m.runFlags.csv != "" {
		return fmt.Errorf("--resume with --csv needs --records, from which the CSV is written anew; %w", errUsage)
	}
	var err error
	if m.runFlags.csv != "" {
		if m.csv, err = os.Create(m.runFlags.csv); err != nil {
			return err
		}
		m.table = csv.NewWriter(m.csv)
		if err := trial.WriteCSVHeader(m.table); err != nil {
			return err
		}
	}
	begin := *from
	seen := func(seed uint64, records []trial.Record) error {
		if seed != *from {
			return fmt.Errorf("the records hold seed %d where %d follows: ask for the same --from and --shard", seed, *from)
		}
		*from = seed + 1
		if m.table != nil {
			if err := trial.WriteCSV(m.table, records); err != nil {
				return err
			}
		}
		return m.summary.Add(seed, records)
	}
	switch {
	case m.runFlags.records != "":
		mode := os.O_RDWR | os.O_CREATE
		if !m.resume {
			mode |= os.O_TRUNC
		}
		if m.records, err = os.OpenFile(m.runFlags.records, mode, 0o644); err != nil {
			return err
		}
		whole := int64(0)
		if m.resume {
			if whole, err = trial.ReadRecords(m.records, &m.spec, seen); err != nil {
				return err
			}
		}
		if err := m.records.Truncate(whole); err != nil {
			return err
		}
		if _, err := m.records.Seek(whole, io.SeekStart); err != nil {
			return err
		}
		m.lines = bufio.NewWriter(m.records)
		if whole == 0 {
			return trial.WriteHeader(m.lines, &m.spec)
		}
	case m.resume && m.summaryToFile:
		return m.readSummary(from, begin)
	}
	return nil
}

// readSummary takes up the summary of an interrupted run.
func (m *measurement) readSummary(from *uint64, begin uint64) error {
	f, err := os.Open(m.runFlags.summary)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer f.Close()
	s, err := tally.Decode(f)
	if err != nil {
		return err
	}
	if !reflect.DeepEqual(s.Spec, m.spec) || len(s.Ranges) != 1 || s.Ranges[0].From != begin {
		return fmt.Errorf(
			"%s is of another run: %w, or its seeds do not begin with %d",
			m.runFlags.summary,
			tally.ErrSpec,
			begin,
		)
	}
	m.summary, *from = s, s.Ranges[0].To
	return nil
}

// next is the seed after those summed.
func (m *measurement) next() uint64 {
	if r := m.summary.Ranges; len(r) > 0 {
		return r[len(r)-1].To
	}
	return m.first
}

// take sums and writes the records of a seed.
func (m *measurement) take(seed, to uint64, records []trial.Record) error {
	if err := m.summary.Add(seed, records); err != nil {
		return err
	}
	if m.lines != nil {
		if err := trial.WriteRecords(m.lines, records); err != nil {
			return err
		}
	}
	if m.table != nil {
		if err := trial.WriteCSV(m.table, records); err != nil {
			return err
		}
	}
	if m.sinceWritten++; m.sinceWritten >= m.checkpoint {
		if err := m.flush(); err != nil {
			return err
		}
	}
	if !m.quiet && time.Since(m.lastReport) > time.Second {
		m.report(to, false)
	}
	return nil
}

// report prints one line of progress, over the last one on a terminal.
func (m *measurement) report(to uint64, last bool) {
	m.lastReport = time.Now()
	done, all, took := m.next()-m.first, to-m.first, time.Since(m.began)
	begin, end := "", "\n"
	if f, ok := m.errw.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
			begin, end = "\r\x1b[K", ""
			if last {
				end = "\n"
			}
		} else if !last && took < 10*time.Second {
			return
		}
	}
	left := time.Duration(float64(took) / float64(max(done, 1)) * float64(all-done)).Round(time.Second)
	fmt.Fprintf(
		m.errw,
		"%s%d of %d rooms, %.0f a second, %v to go%s",
		begin,
		done,
		all,
		float64(done)/took.Seconds(),
		left,
		end,
	)
}

// flush brings the files up to date.
func (m *measurement) flush() error {
	m.sinceWritten = 0
	if m.lines != nil {
		if err := m.lines.Flush(); err != nil {
			return err
		}
	}
	if m.table != nil {
		if m.table.Flush(); m.table.Error() != nil {
			return m.table.Error()
		}
	}
	if m.summaryToFile {
		return writeWhole(m.runFlags.summary, m.summary.Encode)
	}
	return nil
}

// close flushes and closes the files.
func (m *measurement) close() error {
	err := m.flush()
	for _, f := range []*os.File{m.records, m.csv} {
		if f != nil {
			if cerr := f.Close(); err == nil {
				err = cerr
			}
		}
	}
	return err
}
