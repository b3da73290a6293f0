package solve_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

func TestParsePattern(t *testing.T) {
	const in = measure.Inch
	for _, c := range []struct {
		reason, text string
		want         []measure.Length
		err          string
	}{
		{"no pattern", "irregular", nil, ""},
		{"a whole plank first", "halves", []measure.Length{48 * in, 24 * in}, ""},
		{"three starters", "thirds", []measure.Length{48 * in, 32 * in, 16 * in}, ""},
		{"not a staircase", "quarters", []measure.Length{48 * in, 24 * in, 36 * in, 12 * in}, ""},
		{"lengths in any unit, and parts", `10, 1' 4 1/2", 1/3 plank, plank`, []measure.Length{
			10 * in, 16*in + in/2,
			16 * in, 48 * in,
		}, ""},
		{"a part off the grid is rounded down", "1/7 plank", []measure.Length{6*in + 13*in/16}, ""},
		{"a whole plank in words", "1 plank, 3/3 plank", []measure.Length{48 * in, 48 * in}, ""},
		{"more than a plank", "4/3 plank", nil, "at most a plank"},
		{"nothing of a plank", "0/3 plank", nil, "more than nothing"},
		{"a division by nothing", "0/0 plank", nil, "more than nothing"},
		{"no length", "thrids", nil, "thrids"},
		{"an empty item", "16,,32", nil, "it is empty"},
	} {
		got, err := cutopt.ParsePattern(c.text, measure.UnitInch, 48*in, measure.Sixteenth)
		if c.err == "" && (err != nil || !slices.Equal(got, c.want)) {
			t.Errorf("%s: %v, %v, want %v", c.reason, got, err, c.want)
		}
		if c.err != "" && (err == nil || !strings.Contains(err.Error(), c.err)) {
			t.Errorf("%s: the error is %v, want one that says %q", c.reason, err, c.err)
		}
	}
}

// keeps reports whether starters in turn lay rows of one length by the rules, fit allowance included.
func keeps(job *cutopt.Job, pattern []measure.Length, length measure.Length, rows int) bool {
	l, rules := job.Plank.Length, job.Rules
	var before []measure.Length
	for i := range rows {
		s := pattern[i%len(pattern)]
		if s < rules.MinPiece || s > l {
			return false
		}
		var joints []measure.Length
		for x := s; x < length; x += l {
			joints = append(joints, x)
		}
		if len(joints) == 0 {
			return false
		}
		if e := length - joints[len(joints)-1]; e < rules.MinPiece+rules.Fit || e+rules.Fit > l {
			return false
		}
		if !apart(before, joints, rules.Stagger+2*rules.Fit) {
			return false
		}
		before = joints
	}
	return true
}

// TestPattern plans random rectangles with random patterns. Where the pattern keeps the rules, every row has the
// starter it asks for, and the plan says what that costs; where it does not, the error names rows and rule, and the
// shift it offers, if any, keeps them.
func TestPattern(t *testing.T) {
	quick := &solve.Options{Effort: solve.EffortQuick}
	kept, moved, refused := 0, 0, 0
	rooms := oracle.Samples(15)
	for seed := range uint64(rooms) {
		r := rand.New(rand.NewPCG(seed, 81))
		job := oracle.PlainRoom(r)
		outline := job.Rooms[0].Outline
		w, h := outline[2].X, outline[len(outline)-1].Y
		job.Rooms[0].Outline = []cutopt.Point{{}, {X: max(w, h)}, {X: max(w, h), Y: min(w, h)}, {Y: min(w, h)}}
		job.Rooms[0].Rows.LaidFrom = cutopt.FromLeft + cutopt.From(r.IntN(2))
		if seed%3 > 0 {
			job.Pattern, _ = cutopt.ParsePattern(
				[]string{"halves", "thirds", "quarters"}[r.IntN(3)],
				job.Unit,
				job.Plank.Length,
				job.Rules.Grid,
			)
		} else {
			for range 1 + r.IntN(4) {
				inches := r.Int64N(int64((job.Plank.Length - job.Rules.MinPiece) / measure.Inch))
				job.Pattern = append(job.Pattern, job.Rules.MinPiece+measure.Length(inches)*measure.Inch)
			}
		}
		length := max(w, h) - 2*job.Rules.Gap
		result, err := solve.Job(context.Background(), job, quick)
		var no *solve.InfeasibleError
		switch {
		case err == nil:
			kept++
			rows := result.Plan.Floors[0].Rows
			if !keeps(job, job.Pattern, length, len(rows)) {
				t.Errorf("seed %d: a pattern that breaks a rule is planned", seed)
			}
			for i, row := range rows {
				first := row.Runs[0].Pieces[0]
				if job.Rooms[0].Rows.LaidFrom == cutopt.FromRight {
					first = row.Runs[0].Pieces[len(row.Runs[0].Pieces)-1]
				}
				if want := job.Pattern[i%len(job.Pattern)]; first.Length != want {
					t.Errorf("seed %d: row %d begins with %v, want %v", seed, i+1, first.Length, want)
				}
			}
			than := result.Irregular
			if than == nil || than.More < 0 || than.Planks+than.More > result.Plan.Order.Planks ||
				than.Boxes > result.Plan.Order.Boxes ||
				than.Planks < result.Plan.Bound.Planks {
				t.Errorf("seed %d: %+v without the pattern, %+v with it", seed, than, result.Plan.Order)
			}
			if result.Status != solve.StatusProven {
				t.Errorf("seed %d: %v, and a pattern leaves nothing to search", seed, result.Status)
			}
			if check.Proof(job, result.Plan) != nil ||
				result.Plan.Bound.Proven != (result.Plan.Bound.Boxes == result.Plan.Order.Boxes) {
				t.Errorf("seed %d: the bound does not hold: %+v", seed, result.Plan.Bound)
			}
		case errors.As(err, &no):
			if len(no.Rows) == 0 || no.Rule != "min-piece" && no.Rule != "stagger" {
				t.Errorf("seed %d: the error names no row or no rule: %+v", seed, no)
			}
			instance, err := solve.Instance(job)
			if err != nil {
				t.Fatal(err)
			}
			if keeps(job, job.Pattern, length, len(instance.Runs)) {
				t.Errorf("seed %d: a pattern that keeps the rules is refused: %v", seed, no)
			}
			offer, found := no.Mend[0].Figure("starters").([]measure.Length)
			if !found {
				refused++
				continue
			}
			moved++
			job.Pattern = offer
			if _, err := solve.Job(context.Background(), job, quick); err != nil {
				t.Errorf("seed %d: what was offered, %v, does not do: %v", seed, offer, err)
			}
		default:
			t.Errorf("seed %d: %v", seed, err)
		}
	}
	t.Logf("%d patterns keep the rules, %d would when moved, %d are refused", kept, moved, refused)
	if kept < rooms/4 || moved == 0 || moved < rooms/10 || refused < rooms/10 {
		t.Errorf("too few of a kind: %d, %d, %d", kept, moved, refused)
	}
}

// TestPatternPastAnIsland lays thirds round an island: joints on both sides of it lie where they would without it.
func TestPatternPastAnIsland(t *testing.T) {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: oracle.Rules(measure.UnitInch),
		Rooms: []cutopt.Room{{
			Name: "Galley", Outline: []cutopt.Point{
				{},
				{X: 226*in + in/2},
				{X: 226*in + in/2, Y: 91 * in},
				{Y: 91 * in},
			},
			Islands: []cutopt.Island{
				{
					Outline: []cutopt.Point{
						{X: 88 * in, Y: 30 * in},
						{X: 110 * in, Y: 30 * in},
						{X: 110 * in, Y: 60 * in},
						{X: 88 * in, Y: 60 * in},
					},
				},
			},
		}},
	}
	job.Pattern = []measure.Length{40 * in, 24 * in, 8 * in}
	job.Rules.MinPiece = 6 * in
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	split := 0
	for i, row := range result.Plan.Floors[0].Rows {
		split += len(row.Runs) - 1
		for _, run := range row.Runs {
			for _, p := range run.Pieces[1:] {
				off := (p.From - job.Rules.Gap - job.Pattern[i%3]) % (48 * in)
				if off != 0 {
					t.Errorf("row %d: a joint lies %v off the pattern", i+1, off)
				}
			}
		}
	}
	if split == 0 {
		t.Error("no row is split by the island")
	}
	for _, spoil := range []func(p *cutopt.Job){
		func(j *cutopt.Job) { j.Pattern = []measure.Length{40 * in, 24 * in} },
		func(j *cutopt.Job) { j.Pattern = []measure.Length{40*in + in/16, 24*in + in/16, 8*in + in/16} },
	} {
		other := *job
		spoil(&other)
		if !slices.ContainsFunc(
			check.Plan(&other, result.Plan),
			func(v check.Violation) bool { return v.Rule == check.RulePattern },
		) {
			t.Errorf("with the pattern %v Check finds %v", other.Pattern, check.Plan(&other, result.Plan))
		}
	}
}
