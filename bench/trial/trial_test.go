package trial_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"plank.example/bench/sample"
	"plank.example/bench/trial"
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

func spec() *trial.Spec {
	return &trial.Spec{
		Mix: sample.MixDwelling, Planks: []string{"48x7", "36x6"}, MinPieces: []string{"8"}, Staggers: []string{"8", "300mm"},
		Strategies: []string{"thumb", "carry", "library-quick"}, Verify: true,
	}
}

func records(t *testing.T, from, to uint64, workers int) []trial.Record {
	t.Helper()
	var out []trial.Record
	next := from
	err := trial.Run(
		context.Background(),
		spec(),
		from,
		to,
		&trial.Options{Workers: workers},
		func(seed uint64, r []trial.Record) error {
			if seed != next {
				t.Errorf("seed %d comes where %d should", seed, next)
			}
			next++
			out = append(out, r...)
			return nil
		},
	)
	if err != nil || next != to {
		t.Fatalf("ended before seed %d: %v", next, err)
	}
	return out
}

// TestWorkers wants the same records in the same order from any number of workers, and none judged broken.
func TestWorkers(t *testing.T) {
	one := records(t, 5, 17, 1)
	if len(one) != 12*3*3 {
		t.Errorf("%d records of 12 rooms, 3 settings, 3 strategies", len(one))
	}
	for _, r := range one {
		if r.Outcome == trial.Broken || r.Micros != 0 {
			t.Errorf("%+v", r)
		}
	}
	if diff := cmp.Diff(one, records(t, 5, 17, 7)); diff != "" {
		t.Errorf("7 workers: %s", diff)
	}
	if diff := cmp.Diff(one, append(records(t, 5, 10, 2), records(t, 10, 17, 2)...)); diff != "" {
		t.Errorf("two parts: %s", diff)
	}
}

// TestStops ends a run by its sink and by its context.
func TestStops(t *testing.T) {
	stop := errors.New("enough")
	calls := 0
	err := trial.Run(
		context.Background(),
		spec(),
		0,
		1<<40,
		&trial.Options{Workers: 3},
		func(uint64, []trial.Record) error {
			if calls++; calls == 4 {
				return stop
			}
			return nil
		},
	)
	if !errors.Is(err, stop) || calls != 4 {
		t.Errorf("%v after %d", err, calls)
	}
	ctx, cancel := context.WithCancel(context.Background())
	err = trial.Run(ctx, spec(), 0, 1<<40, nil, func(uint64, []trial.Record) error { cancel(); return nil })
	if !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// TestShard cuts ranges: parts follow each other, cover everything, and differ by at most one seed.
func TestShard(t *testing.T) {
	for _, c := range []struct {
		from, to uint64
		n        int
	}{{0, 1, 1}, {3, 17, 5}, {100, 1000, 7}, {0, 8, 8}, {1 << 63, 1<<63 + 10, 3}} {
		at := c.from
		for i := range c.n {
			from, to, err := trial.Shard(c.from, c.to, i, c.n)
			if err != nil || from != at || to-from < (c.to-c.from)/uint64(c.n) || to-from > (c.to-c.from)/uint64(c.n)+1 {
				t.Errorf("%+v: part %d is %d to %d, %v", c, i, from, to, err)
			}
			at = to
		}
		if at != c.to {
			t.Errorf("%+v: the parts end at %d", c, at)
		}
	}
	for _, c := range [][4]int{{0, 0, 0, 1}, {5, 4, 0, 1}, {0, 9, -1, 3}, {0, 9, 3, 3}, {0, 9, 0, 0}, {0, 9, 0, 10}} {
		if _, _, err := trial.Shard(uint64(c[0]), uint64(c[1]), c[2], c[3]); err == nil {
			t.Errorf("%v is accepted", c)
		}
	}
}

// TestRecordsFile cuts a file of records at every byte of its last lines: what is whole is read, and no more.
func TestRecordsFile(t *testing.T) {
	var file bytes.Buffer
	if err := trial.WriteHeader(&file, spec()); err != nil {
		t.Fatal(err)
	}
	ends := []int{file.Len()}
	all := records(t, 0, 3, 1)
	for k := range 3 {
		if err := trial.WriteRecords(&file, all[k*9:k*9+9]); err != nil {
			t.Fatal(err)
		}
		ends = append(ends, file.Len())
	}
	for cut := range file.Len() + 1 {
		if cut%31 > 0 && !slices.ContainsFunc(ends, func(e int) bool { return max(cut-e, e-cut) < 20 }) {
			continue
		}
		want, seeds := 0, 0
		for k, e := range ends {
			if e <= cut {
				want, seeds = e, k
			}
		}
		var got []trial.Record
		whole, err := trial.ReadRecords(bytes.NewReader(file.Bytes()[:cut]), spec(), func(_ uint64, r []trial.Record) error {
			got = append(got, r...)
			return nil
		})
		if err != nil || int(whole) != want || len(got) != seeds*9 {
			t.Fatalf(
				"cut at %d: %d bytes and %d records are whole, want %d and %d; %v",
				cut,
				whole,
				len(got),
				want,
				seeds*9,
				err,
			)
		}
		if cut == file.Len() {
			if diff := cmp.Diff(all, got); diff != "" {
				t.Error(diff)
			}
		}
	}
	other := spec()
	other.Verify = false
	if _, err := trial.ReadRecords(bytes.NewReader(file.Bytes()), other, nil); err == nil {
		t.Error("records of another spec are read")
	}
	var half bytes.Buffer
	if err := errors.Join(trial.WriteHeader(&half, spec()), trial.WriteRecords(&half, all[:5]), trial.WriteRecords(&half,
		all[9:18])); err != nil {
		t.Fatal(err)
	}
	if _, err := trial.ReadRecords(&half, spec(), func(uint64, []trial.Record) error { return nil }); err == nil {
		t.Error("a seed with five of nine records is read")
	}
}

// TestSpec refuses what cannot be measured.
func TestSpec(t *testing.T) {
	for _, edit := range []func(*trial.Spec){
		func(s *trial.Spec) { s.Planks = nil },
		func(s *trial.Spec) { s.Planks = []string{"48"} },
		func(s *trial.Spec) { s.Planks = []string{"48x7", "48x7"} },
		func(s *trial.Spec) { s.MinPieces = []string{"eight"} },
		func(s *trial.Spec) { s.Staggers = []string{"-8"} },
		func(s *trial.Spec) { s.Strategies = nil },
		func(s *trial.Spec) { s.Strategies = []string{"luck"} },
		func(s *trial.Spec) { s.Mix = "castle" },
	} {
		s := spec()
		edit(s)
		if err := trial.Run(context.Background(), s, 0, 1, nil, func(uint64,
			[]trial.Record,
		) error {
			return nil
		}); err == nil {
			text, _ := json.Marshal(s)
			t.Errorf("%s is accepted", text)
		}
	}
	full := spec()
	full.MinPieces, full.Full = []string{"8", "10", "12"}, true
	settings, err := full.Settings()
	if err != nil || len(settings) != 2*3*2 {
		t.Errorf("%d settings, %v", len(settings), err)
	}
	full.Full = false
	if settings, err := full.Settings(); err != nil || len(settings) != 1+1+2+1 {
		t.Errorf("one at a time: %d settings, %v", len(settings), err)
	}
	if _, err := full.Laying(time.Second); err != nil {
		t.Error(err)
	}
}

// TestAcrossOnePiece plans rooms in which joints are in line across a row of one piece: solver and Check must count
// them alike.
func TestAcrossOnePiece(t *testing.T) {
	s := spec()
	s.Planks, s.Staggers, s.Strategies = []string{"48x7"}, []string{"8"}, []string{"library-quick"}
	for _, seed := range []uint64{338, 445, 551, 821, 929} {
		err := trial.Run(context.Background(), s, seed, seed+1, nil, func(_ uint64, records []trial.Record) error {
			for _, r := range records {
				if r.Outcome != trial.Laid {
					t.Errorf("seed %d: %s: %s", seed, r.Outcome, r.Note)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// TestVary wants each variation to change the one thing it names, and wrong ones refused.
func TestVary(t *testing.T) {
	s := spec()
	s.Planks, s.Staggers = s.Planks[:1], s.Staggers[:1]
	s.Vary = []string{"kerf=0", "fit=1/2 in", "box=6", "direction=across", "start=far", "first-row=5", "edges=whole-first"}
	settings, err := s.Settings()
	if err != nil || len(settings) != 1+len(s.Vary) {
		t.Fatal(len(settings), err)
	}
	first := settings[0]
	for i, change := range []func(*trial.Setting){
		func(s *trial.Setting) { s.Rules.Kerf = 0 },
		func(s *trial.Setting) { s.Rules.Fit = measure.Inch / 2 },
		func(s *trial.Setting) { s.Product = settings[3].Product },
		func(s *trial.Setting) { s.Rows.Direction = cutopt.DirectionAcross },
		func(s *trial.Setting) { s.Rows.Start = cutopt.StartFar },
		func(s *trial.Setting) { s.Rows.FirstRow = 5 * measure.Inch },
		func(s *trial.Setting) { s.Rules.Edges = cutopt.EdgeRowsWholeFirst },
	} {
		want := first
		change(&want)
		want.Name = first.Name + " " + strings.Replace(s.Vary[i], "=", " ", 1)
		if diff := cmp.Diff(want, settings[1+i]); diff != "" {
			t.Errorf("%s: %s", s.Vary[i], diff)
		}
	}
	if n := settings[3].Product.Box.Planks; n != 6 || first.Product.Box.Planks != 9 {
		t.Errorf("boxes of %d and %d planks", first.Product.Box.Planks, n)
	}
	for _, bad := range []string{"", "kerf", "luck=7", "kerf=wide", "box=0", "direction=up", "start=here", "first-row=a"} {
		s.Vary = []string{bad}
		if _, err := s.Settings(); err == nil {
			t.Errorf("%q is accepted", bad)
		}
	}
	s.Vary = []string{"kerf=0", "kerf=0"}
	if _, err := s.Settings(); err == nil {
		t.Error("the same variation twice is accepted")
	}
}

// TestOutlines runs rooms that are handed over, and refuses seeds beyond them.
func TestOutlines(t *testing.T) {
	s := spec()
	s.Mix = sample.MixOutlines
	rooms := []*sample.Room{sample.Draw(sample.MixDwelling, 3), sample.Draw(sample.MixDwelling, 4)}
	opt, nets := &trial.Options{Rooms: rooms}, map[uint64]int64{}
	sink := func(seed uint64, r []trial.Record) error { nets[seed] = r[0].Net; return nil }
	if err := trial.Run(context.Background(), s, 0, 2, opt, sink); err != nil || nets[0] == nets[1] || len(nets) != 2 {
		t.Errorf("%v, %v", nets, err)
	}
	if err := trial.Run(context.Background(), s, 0, 3, opt, sink); err == nil {
		t.Error("a third room of two is laid")
	}
}

// TestBreakings lays floors with planks that break: the counts are the same for any number of workers, more losses do
// not run short less often, and what is recommended keeps to its limit by the binomial chance.
func TestBreakings(t *testing.T) {
	s := &trial.Spec{
		Mix: sample.MixDwelling, Planks: []string{"48x7"}, MinPieces: []string{"8"}, Staggers: []string{"8"},
		Strategies: []string{"carry", "library-quick-planks"}, Layings: 40,
	}
	run := func(workers int) (out []trial.Record) {
		opt := &trial.Options{Workers: workers}
		err := trial.Run(context.Background(), s, 0, 6, opt, func(_ uint64, r []trial.Record) error {
			out = append(out, r...)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	records := run(1)
	if diff := cmp.Diff(records, run(3)); diff != "" {
		t.Errorf("with three workers: %s", diff)
	}
	for _, r := range records {
		if r.Strategy == "carry" {
			if r.Breakings != nil {
				t.Errorf("seed %d: carry makes no plan and is laid: %+v", r.Seed, r.Breakings)
			}
			continue
		}
		if len(r.Breakings) != len(trial.Losses) {
			t.Fatalf("seed %d: %s %+v", r.Seed, r.Note, r.Breakings)
		}
		low, high := r.Breakings[0], r.Breakings[1]
		if low.PlainAdvised > 20_000 || high.PlainAdvised > 20_000 {
			t.Errorf("seed %d: what is recommended runs short with more than 2 %%: %+v", r.Seed, r.Breakings)
		}
		if low.PlainThumb > high.PlainThumb || low.Thumb > high.Thumb+3 || max(low.Thumb, high.Thumb) > s.Layings {
			t.Errorf("seed %d: with more losses the same boxes run short less often: %+v", r.Seed, r.Breakings)
		}
	}
}
