package cut_test

import (
	"context"
	"encoding/json"
	"errors"
	"math/rand/v2"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// mixed is a job of the size of a dwelling's trim: inches and millimetres, three sticks with prices, a kerf.
func mixed(seed uint64, kinds int) *stock.Job {
	r := rand.New(rand.NewPCG(seed, 30))
	job := &stock.Job{
		Unit: measure.UnitInch, Kerf: in / 8, Keep: 12 * in,
		Sticks: []stock.Stick{
			{Length: 8 * ft, Price: 899}, {Length: 12 * ft, Price: 1399}, {Length: 16 * ft, Price: 1875},
		},
	}
	for range kinds {
		l := measure.Length(6*16+r.IntN(110*16)) * measure.Sixteenth
		if r.IntN(2) == 0 {
			l = measure.Length(150+r.IntN(2800)) * measure.Millimetre
		}
		job.Pieces = append(job.Pieces, stock.Piece{Length: l, Count: 1 + r.IntN(3)})
	}
	return job
}

// TestDeterministic: the same job gives the same result, certificate and steps too, and the job is left as it was.
func TestDeterministic(t *testing.T) {
	for seed := range uint64(5) {
		job := mixed(seed, 15)
		before, _ := json.Marshal(job)
		a, err := cut.Solve(context.Background(), job, &cut.Options{Effort: cut.EffortQuick})
		if err != nil {
			t.Fatal(err)
		}
		b, err := cut.Solve(context.Background(), job, &cut.Options{Effort: cut.EffortQuick})
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(a, b); d != "" {
			t.Errorf("seed %d: %s", seed, d)
		}
		if after, _ := json.Marshal(job); string(after) != string(before) {
			t.Errorf("seed %d: the job was changed", seed)
		}
	}
}

// TestSideBySide: jobs solved at the same time, in memory that other jobs have used, come out as each does alone.
func TestSideBySide(t *testing.T) {
	const n = 8
	options := &cut.Options{Effort: cut.EffortQuick}
	var alone [n]*cut.Result
	for i := range alone {
		r, err := cut.Solve(context.Background(), mixed(uint64(i), 3+i), options)
		if err != nil {
			t.Fatal(err)
		}
		alone[i] = r
	}
	var group sync.WaitGroup
	for i := range 2 * n {
		group.Go(func() {
			i %= n
			r, err := cut.Solve(context.Background(), mixed(uint64(i), 3+i), options)
			if d := cmp.Diff(alone[i], r); err != nil || d != "" {
				t.Errorf("seed %d: %v %s", i, err, d)
			}
		})
	}
	group.Wait()
}

// TestOrderDoesNotMatter: pieces and sticks in another order, or in halves, cost the same.
func TestOrderDoesNotMatter(t *testing.T) {
	for seed := range uint64(10) {
		job := mixed(seed, 10)
		want := solve(t, "as it is", job, cut.AimSticks)
		other := *job
		other.Pieces, other.Sticks = nil, nil
		r := rand.New(rand.NewPCG(seed, 31))
		for _, i := range r.Perm(len(job.Pieces)) {
			p := job.Pieces[i]
			for ; p.Count > 1; p.Count-- {
				other.Pieces = append(other.Pieces, stock.Piece{Length: p.Length, Count: 1})
			}
			other.Pieces = append(other.Pieces, p)
		}
		for _, k := range r.Perm(len(job.Sticks)) {
			other.Sticks = append(other.Sticks, job.Sticks[k])
		}
		got := solve(t, "shuffled", &other, cut.AimSticks)
		if want.Status == cut.StatusProven && got.Status == cut.StatusProven &&
			(got.Plan.Cost != want.Plan.Cost || got.Plan.Sticks != want.Plan.Sticks) {
			t.Errorf("seed %d: cost %d and %d sticks, shuffled %d and %d",
				seed, want.Plan.Cost, want.Plan.Sticks, got.Plan.Cost, got.Plan.Sticks)
		}
	}
}

// TestMonotone: at proven optima a thinner kerf, a piece less or an offcut on hand never cost more.
func TestMonotone(t *testing.T) {
	for seed := range uint64(10) {
		job := mixed(seed, 9)
		base := solve(t, "as it is", job, cut.AimCost)
		for name, change := range map[string]func(*stock.Job){
			"kerf":   func(j *stock.Job) { j.Kerf = in / 16 },
			"piece":  func(j *stock.Job) { j.Pieces = j.Pieces[1:] },
			"offcut": func(j *stock.Job) { j.Sticks = append(j.Sticks, stock.Stick{Length: 40 * in, OnHand: true, Supply: 1}) },
		} {
			easier := *job
			easier.Pieces = append([]stock.Piece(nil), job.Pieces...)
			easier.Sticks = append([]stock.Stick(nil), job.Sticks...)
			change(&easier)
			r := solve(t, name, &easier, cut.AimCost)
			if base.Status == cut.StatusProven && r.Bound.Cost > base.Plan.Cost {
				t.Errorf("seed %d: with less %s the bound is %d, it cost %d", seed, name, r.Bound.Cost, base.Plan.Cost)
			}
		}
	}
}

func TestOptions(t *testing.T) {
	job := mixed(1, 5)
	for _, c := range []struct {
		job     *stock.Job
		options *cut.Options
		want    string
	}{
		{job, &cut.Options{Aim: 9}, "options.aim is 9"},
		{job, &cut.Options{Effort: 9}, "options.effort is 9"},
		{job, &cut.Options{Limit: -1}, "options.limit is -1ns"},
		{nil, nil, "job is nil"},
		{&stock.Job{}, nil, "sticks is empty"},
	} {
		_, err := cut.Solve(context.Background(), c.job, c.options)
		var field *stock.FieldError
		if !errors.As(err, &field) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.options, err, c.want)
		}
	}
}

// TestText: every aim, effort and status reads back what it writes.
func TestText(t *testing.T) {
	var o struct {
		A cut.Aim
		E cut.Effort
		S cut.Status
	}
	for _, text := range []string{
		`{"A":"cost","E":"quick","S":"limit"}`, `{"A":"sticks","E":"thorough","S":"cancelled"}`,
		`{"A":"offcut","E":"normal","S":"proven"}`,
	} {
		if err := json.Unmarshal([]byte(text), &o); err != nil {
			t.Error(err)
		}
		if back, err := json.Marshal(o); err != nil || string(back) != text {
			t.Errorf("%s became %s, %v", text, back, err)
		}
	}
	if err := json.Unmarshal([]byte(`{"A":"speed"}`), &o); err == nil ||
		!strings.Contains(err.Error(), `"offcut" "cost" "sticks"`) {
		t.Errorf("an unknown aim gave %v", err)
	}
}

// TestStops: a cancelled context without a plan is its error; a limit with a plan in hand is a status.
func TestStops(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	r, err := cut.Solve(ctx, mixed(1, 40), nil)
	if err == nil && r.Status != cut.StatusCancelled || err != nil && !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v, %v", r, err)
	}
	r, err = cut.Solve(
		context.Background(),
		mixed(3, 300),
		&cut.Options{Limit: 100 * time.Millisecond, Effort: cut.EffortThorough},
	)
	if err != nil || r.Status != cut.StatusLimit && r.Status != cut.StatusProven {
		t.Errorf("a limit gave %+v, %v", r, err)
	}
	late, end := context.WithTimeout(context.Background(), 100*time.Millisecond)
	defer end()
	r, err = cut.Solve(late, mixed(3, 300), &cut.Options{Effort: cut.EffortThorough})
	if err != nil && !errors.Is(err, context.DeadlineExceeded) || err == nil && r.Status == cut.StatusCancelled {
		t.Errorf("a deadline gave %+v, %v", r, err)
	}
}

// TestNoPlan: what there is does not do.
func TestNoPlan(t *testing.T) {
	job := &stock.Job{
		Sticks: []stock.Stick{{Length: 10, Supply: 2}, {Length: 7, OnHand: true, Supply: 1}},
		Pieces: []stock.Piece{{Length: 6, Count: 4}},
	}
	if _, err := cut.Solve(context.Background(), job, nil); !errors.Is(err, cut.ErrNoPlan) ||
		!strings.Contains(err.Error(), "proven") {
		t.Errorf("four pieces from three sticks: %v", err)
	}
	job.Pieces[0].Count = 3
	r := solve(t, "three pieces", job, cut.AimOffcut)
	if r.Plan.Sticks != 3 || r.Plan.Cost != 20 {
		t.Errorf("three pieces: %+v", r.Plan)
	}
}

// TestLarge: a million pieces, and a thousand lengths, stay within bounds.
func TestLarge(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	job := &stock.Job{Sticks: []stock.Stick{{Length: 6000}}}
	for i := range 10 {
		job.Pieces = append(job.Pieces, stock.Piece{Length: measure.Length(700 + 137*i), Count: stock.MaxPieces / 10})
	}
	solve(t, "a million pieces", job, cut.AimSticks)
	job = &stock.Job{Sticks: []stock.Stick{{Length: 30_000}}}
	for i := range stock.MaxKinds {
		job.Pieces = append(job.Pieces, stock.Piece{Length: measure.Length(3000 + 7*i), Count: 1 + i%3})
	}
	r, err := cut.Solve(
		context.Background(),
		job,
		&cut.Options{Aim: cut.AimSticks, Effort: cut.EffortQuick, Limit: 3 * time.Second},
	)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := stock.Verify(context.Background(), job, r.Certificate); err != nil {
		t.Error(err)
	}
}

// TestLittleEffort: a plan cut short claims no more than its certificate shows, whatever the sticks can waste.
func TestLittleEffort(t *testing.T) {
	job := &stock.Job{Sticks: []stock.Stick{{Length: 30_001}, {Length: 41_003}}}
	for i := range 300 {
		job.Pieces = append(job.Pieces, stock.Piece{Length: measure.Length(3000 + 21*i), Count: 1 + i%3})
	}
	r, err := cut.Solve(context.Background(), job, &cut.Options{Limit: 20 * time.Millisecond})
	if err != nil {
		t.Fatal(err)
	}
	hold(t, 0, job, r)
}

// TestMitre: ends change nothing in version 1 but are kept in the job.
func TestMitre(t *testing.T) {
	job := mixed(2, 8)
	plain := solve(t, "square", job, cut.AimSticks)
	for i := range job.Pieces {
		job.Pieces[i].Ends = [2]stock.End{{Mitre: 4500}, {}}
	}
	if r := solve(t, "mitred", job, cut.AimSticks); !reflect.DeepEqual(r.Plan, plain.Plan) {
		t.Error("mitres change the plan")
	}
}
