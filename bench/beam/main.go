// Command beam runs a measurement of package trial as an Apache Beam pipeline: the range of seeds is cut into shards,
// workers measure the shards, and the summaries are merged. Every accumulator is a whole number, so the totals are
// those of the same measurement by `go run ./bench run`, to the last plank.
//
// By default the pipeline runs in this process (Beam's prism runner). Any cluster that Beam knows takes it by Beam's
// own flags, such as --runner=universal --endpoint=HOST:PORT. From bench/beam:
//
//	go run . --to 1000000 --shards 1000 --out summary.json
//
// It is a module of its own because the SDK brings hundreds of modules.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"strings"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/register"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/x/beamx"

	"plank.example/bench/sample"
	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

func init() {
	register.DoFn3x1[context.Context, Shard, func([]byte), error](&Measure{})
	register.Emitter1[[]byte]()
	register.Combiner1[[]byte](&Merge{})
	register.DoFn1x1[[]byte, error](&Write{})
}

// A Shard is a part of the seeds.
type Shard struct{ From, To uint64 }

// Measure lays the rooms of a shard and emits their summary.
type Measure struct{ Spec string } // the trial.Spec in JSON

// ProcessElement measures one shard with one worker: Beam spreads the shards.
func (m *Measure) ProcessElement(ctx context.Context, s Shard, emit func([]byte)) error {
	var spec trial.Spec
	if err := json.Unmarshal([]byte(m.Spec), &spec); err != nil {
		return err
	}
	sum := tally.New(&spec)
	if err := trial.Run(ctx, &spec, s.From, s.To, nil, sum.Add); err != nil {
		return err
	}
	out, err := encode(sum)
	if err != nil {
		return err
	}
	emit(out)
	return nil
}

// Merge adds summaries; nothing is the empty sum.
type Merge struct{}

// MergeAccumulators is associative and commutative, as Beam asks.
func (*Merge) MergeAccumulators(a, b []byte) ([]byte, error) {
	if len(a) == 0 {
		return b, nil
	}
	if len(b) == 0 {
		return a, nil
	}
	x, err := tally.Decode(bytes.NewReader(a))
	if err != nil {
		return nil, err
	}
	y, err := tally.Decode(bytes.NewReader(b))
	if err != nil {
		return nil, err
	}
	if err := x.Merge(y); err != nil {
		return nil, err
	}
	return encode(x)
}

// Write stores the total.
type Write struct{ Name string }

// ProcessElement writes the file, on the worker that holds the total.
func (w *Write) ProcessElement(total []byte) error { return os.WriteFile(w.Name, total, 0o644) }

func encode(s *tally.Summary) ([]byte, error) {
	var b bytes.Buffer
	err := s.Encode(&b)
	return b.Bytes(), err
}

// pipeline builds the pipeline of a measurement.
func pipeline(spec *trial.Spec, from, to uint64, shards int, out string) (*beam.Pipeline, error) {
	if _, err := sample.ParseMix(string(spec.Mix)); err != nil {
		return nil, err
	}
	if _, err := spec.Settings(); err != nil {
		return nil, err
	}
	if _, err := spec.Laying(0); err != nil {
		return nil, err
	}
	text, err := json.Marshal(spec)
	if err != nil {
		return nil, err
	}
	var parts []any
	for i := range shards {
		f, t, err := trial.Shard(from, to, i, shards)
		if err != nil {
			return nil, err
		}
		parts = append(parts, Shard{f, t})
	}
	if len(parts) == 0 {
		return nil, errors.New("at least one shard is wanted")
	}
	p, s := beam.NewPipelineWithRoot()
	// Reshuffle lets the runner spread the shards over its workers.
	sums := beam.ParDo(s, &Measure{Spec: string(text)}, beam.Reshuffle(s, beam.Create(s, parts...)))
	total := beam.Combine(s, &Merge{}, sums)
	beam.ParDo0(s, &Write{Name: out}, total)
	return p, nil
}

func main() {
	var spec trial.Spec
	list := func(to *[]string, name, value, usage string) {
		*to = strings.Split(value, ",")
		flag.Func(
			name,
			usage+"; commas between (default "+value+")",
			func(s string) error { *to = strings.Split(s, ","); return nil },
		)
	}
	flag.StringVar((*string)(&spec.Mix), "mix", "dwelling", "rooms: dwelling, office, hall or mixed")
	list(&spec.Planks, "planks", "48x7", "products")
	list(&spec.MinPieces, "min-piece", "8", "shortest pieces")
	list(&spec.Staggers, "stagger", "8", "staggers")
	list(&spec.Strategies, "strategies", "thumb,carry,library-quick", "ways of laying")
	flag.BoolVar(&spec.Full, "full", false, "cross all planks, pieces and staggers")
	flag.BoolVar(&spec.Verify, "verify", true, "recompute every certificate")
	from := flag.Uint64("from", 0, "first seed")
	to := flag.Uint64("to", 1000, "seed after the last")
	shards := flag.Int("shards", 16, "parts of the seeds")
	out := flag.String("out", "summary.json", "file for the summary, as the last worker sees it")
	flag.Parse()
	beam.Init()
	p, err := pipeline(&spec, *from, *to, *shards, *out)
	if err == nil {
		err = beamx.Run(context.Background(), p)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "beam:", err)
		os.Exit(1)
	}
}
