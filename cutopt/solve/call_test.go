package solve_test

import (
	"context"
	"encoding"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// TestOptionsRefused gives options that are out of range, to all that take them.
func TestOptionsRefused(t *testing.T) {
	job := oracle.PlainRoom(rand.New(rand.NewPCG(3, 21)))
	in, err := solve.Instance(job)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		opt    solve.Options
		fields []string
	}{
		{solve.Options{Effort: 9}, []string{"options.effort"}},
		{solve.Options{Fewest: 9}, []string{"options.fewest"}},
		{solve.Options{Workers: -3}, []string{"options.workers"}},
		{solve.Options{Workers: solve.MaxWorkers + 1}, []string{"options.workers"}},
		{solve.Options{Limit: -1}, []string{"options.limit"}},
		{solve.Options{Effort: 3, Fewest: 2, Workers: -1, Limit: -time.Second}, []string{
			"options.fewest", "options.effort",
			"options.workers", "options.limit",
		}},
	} {
		_, ofJob := solve.Job(context.Background(), job, &c.opt)
		_, ofRows := solve.Rows(context.Background(), in, &c.opt)
		_, ofCompare := solve.Compare(context.Background(), job, &c.opt)
		for _, err := range []error{ofJob, ofRows, ofCompare} {
			if got := fields(err); !slices.Equal(got, c.fields) {
				t.Errorf("%+v: errors about %q, want %q: %v", c.opt, got, c.fields, err)
			}
		}
	}
}

// fields names the fields of the field errors that an error joins.
func fields(err error) []string {
	all, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return nil
	}
	var out []string
	for _, e := range all.Unwrap() {
		var field *cutopt.FieldError
		if errors.As(e, &field) {
			out = append(out, field.Field)
		}
	}
	return out
}

// TestStopped ends calls before there is a plan: that is no statement about the rules.
func TestStopped(t *testing.T) {
	job := oracle.PlainRoom(rand.New(rand.NewPCG(3, 21)))
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	late, end := context.WithDeadline(context.Background(), time.Now().Add(-time.Second))
	defer end()
	for _, c := range []struct {
		reason string
		ctx    context.Context
		opt    *solve.Options
		want   error
	}{
		{"cancelled before it began", cancelled, nil, context.Canceled},
		{"a deadline that has passed", late, nil, context.DeadlineExceeded},
		{"a limit that passes at once", context.Background(), &solve.Options{Limit: 1}, context.DeadlineExceeded},
	} {
		_, err := solve.Job(c.ctx, job, c.opt)
		var stopped *solve.StoppedError
		if !errors.As(err, &stopped) || !errors.Is(err, c.want) || errors.Is(err, solve.ErrNoPlan) || stopped.Hint() == "" {
			t.Errorf("%s: %v", c.reason, err)
		}
	}
}

// TestCutShort cancels a call once it has a plan: the plan is returned, in order, and the status says why.
func TestCutShort(t *testing.T) {
	job := oracle.PlainRoom(rand.New(rand.NewPCG(3, 21)))
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	result, err := solve.Job(ctx, job, &solve.Options{Progress: func(p solve.Progress) {
		if p.Phase == solve.PhaseQuality {
			cancel()
		}
	}})
	if err != nil || check.Plan(job, result.Plan) != nil {
		t.Fatalf("%v", err)
	}
	if s := result.Status; s != solve.StatusCancelled || !s.Early() || s.Err() != context.Canceled {
		t.Errorf("status %v, early %v, error %v", s, s.Early(), s.Err())
	}
}

// TestPhases wants progress of every phase of a job, in order but for those of the search.
func TestPhases(t *testing.T) {
	job := oracle.PlainRoom(rand.New(rand.NewPCG(3, 21)))
	var seen []solve.Phase
	_, err := solve.Job(
		context.Background(),
		job,
		&solve.Options{Fewest: solve.FewestPlanks, Progress: func(p solve.Progress) {
			if !slices.Contains(seen, p.Phase) {
				seen = append(seen, p.Phase)
			}
		}},
	)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []solve.Phase{solve.PhaseFloor, solve.PhaseBound, solve.PhaseQuality, solve.PhaseCheck} {
		if !slices.Contains(seen, want) {
			t.Errorf("no progress of phase %v, only of %v", want, seen)
		}
	}
	if seen[0] != solve.PhaseFloor || seen[len(seen)-1] != solve.PhaseCheck {
		t.Errorf("phases %v", seen)
	}
}

// TestBareProblemIsUnitless: what cannot be laid of a bare problem is told by the numbers and the names that it has.
func TestBareProblemIsUnitless(t *testing.T) {
	for _, row := range []struct {
		reason string
		in     rows.Instance
		want   string
	}{
		{
			"60 is more than a plank and less than two pieces of 40",
			rows.Instance{
				Plank: 48, MinPiece: 40, Grid: 1, Runs: []rows.Run{{Length: 60, Name: "7b"}},
			},
			"row-short: row 7b row 1, length 60, plank 48, least 40",
		},
		{
			"joints 40 apart on a plank of 48",
			rows.Instance{
				Plank: 48, Stagger: 40, Grid: 1, Runs: []rows.Run{{Length: 100}, {Length: 100}}, Touch: [][2]int{{0, 1}},
			},
			"no-joints: row row 2, stagger 40, least 0, plank 48",
		},
	} {
		_, err := solve.Rows(t.Context(), &row.in, nil)
		if !errors.Is(err, solve.ErrNoPlan) || !strings.HasSuffix(err.Error(), row.want) {
			t.Errorf("%s: %v, want %q", row.reason, err, row.want)
		}
	}
}

// TestNothing gives nil where a job or an instance is wanted.
func TestNothing(t *testing.T) {
	ctx := context.Background()
	_, ofJob := solve.Job(ctx, nil, nil)
	_, ofRows := solve.Rows(ctx, nil, nil)
	_, ofCompare := solve.Compare(ctx, nil, nil)
	_, _, ofRelax := solve.Relax(ctx, nil)
	_, ofInstance := solve.Instance(nil)
	_, ofEmpty := solve.Rows(ctx, &rows.Instance{}, nil)
	for k, err := range []error{ofJob, ofRows, ofCompare, ofRelax, ofInstance, ofEmpty} {
		if err == nil {
			t.Errorf("call %d takes nothing for something", k)
		}
	}
	if v := check.Plan(nil, &cutopt.Plan{}); len(v) == 0 {
		t.Error("a plan of no job is in order")
	}
	if v := check.Plan(job0(), nil); len(v) == 0 {
		t.Error("no plan is in order")
	}
	if check.Proof(nil, &cutopt.Plan{}) == nil || check.Proof(job0(), nil) == nil {
		t.Error("nothing is proven")
	}
}

func job0() *cutopt.Job { return oracle.PlainRoom(rand.New(rand.NewPCG(3, 21))) }

// TestSpelling reads back what every constant of the enumerations prints, and refuses others.
func TestSpelling(t *testing.T) {
	for _, c := range []struct {
		reason string
		names  string
		of     func(i int) (encoding.TextMarshaler, encoding.TextUnmarshaler, func() bool)
	}{
		{"objectives", "boxes planks", enumOf[solve.Objective]},
		{"efforts", "normal quick thorough", enumOf[solve.Effort]},
		{"statuses", "proven exhausted limit cancelled", enumOf[solve.Status]},
		{"phases", "floor bound search branch quality check", enumOf[solve.Phase]},
		{"aspects", "none direction start first-row stagger min-piece product", enumOf[solve.Aspect]},
	} {
		for i, name := range strings.Fields(c.names) {
			x, y, same := c.of(i)
			text, err := x.MarshalText()
			if err != nil || string(text) != name || y.UnmarshalText(text) != nil || !same() {
				t.Errorf("%s: constant %d prints %q, want %q: %v", c.reason, i, text, name, err)
			}
		}
		x, y, _ := c.of(len(strings.Fields(c.names)))
		if _, err := x.MarshalText(); err == nil || y.UnmarshalText([]byte("Proven ")) == nil {
			t.Errorf("%s: takes what is none", c.reason)
		}
	}
}

func enumOf[E interface {
	~uint8
	encoding.TextMarshaler
}](i int) (encoding.TextMarshaler, encoding.TextUnmarshaler, func() bool) {
	x, y := E(i), E(99)
	return x, any(&y).(encoding.TextUnmarshaler), func() bool { return x == y }
}
