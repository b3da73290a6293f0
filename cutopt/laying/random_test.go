package laying_test

import (
	"cmp"
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// holds checks what is promised of every sequence against slow and plain ways to find it.
func holds(t *testing.T, job *cutopt.Job, plan *cutopt.Plan, seq *laying.Sequence) {
	t.Helper()
	i := 0
	for want := range plan.Pieces() {
		p := seq.Pieces[i]
		ref := p.Ref
		if p.Piece != want || want != plan.Piece(ref) || p.Order != i {
			t.Fatalf("piece %d is %+v, want %+v", i, p.Piece, *want)
		}
		i++
	}
	if i != len(seq.Pieces) || len(seq.Planks) != len(plan.Planks) || len(seq.Floors) != len(plan.Floors) {
		t.Fatalf(
			"%d pieces of %d, %d planks of %d, %d rooms of %d",
			len(seq.Pieces),
			i,
			len(seq.Planks),
			len(plan.Planks),
			len(seq.Floors),
			len(plan.Floors),
		)
	}
	for k, pieces := range seq.Planks {
		plank(t, job, &plan.Planks[k], pieces)
	}
	// The pile, kept as it is kept on site: what is sawn off goes on it, what is cut from is taken off it.
	there := seq.Pile(0)
	pile := slices.Clone(there)
	for _, o := range pile {
		if o.Next == nil || o.Of != nil && !o.Of.Lies || o.Of == nil && len(plan.Planks[o.Plank-1].Gone) == 0 {
			t.Fatalf("an offcut of plank %d is there before the first piece", o.Plank)
		}
	}
	for i, p := range seq.Pieces {
		if p.Source != nil {
			at := slices.Index(pile, p.Source)
			if at < 0 {
				t.Fatalf("piece %d is cut from an offcut that does not lie about", i)
			}
			pile = slices.Delete(pile, at, at+1)
		}
		for _, o := range p.Offcuts {
			if o.Next != nil && !slices.Contains(there, o) {
				pile = append(pile, o)
			}
		}
		if got := seq.Pile(i + 1); !slices.Equal(got, pile) {
			t.Fatalf("the pile after piece %d holds %d offcuts, want %d", i, len(got), len(pile))
		}
	}
	if len(pile) > 0 {
		t.Errorf("%d offcuts are kept for nothing", len(pile))
	}
	laid := 0
	for i, rows := range seq.Floors {
		for j, row := range rows {
			runs := plan.Floors[i].Rows[j].Runs
			if row.Floor != i || row.Row != j || len(row.Runs) != len(runs) {
				t.Fatalf("row %d of room %d is row %d of room %d with %d runs", j, i, row.Row, row.Floor, len(row.Runs))
			}
			for _, run := range row.Runs {
				for _, p := range run.Pieces {
					if p != seq.Pieces[laid] || p.Run != run || p.Ref.Run != run.Index {
						t.Fatalf("run %d of row %d of room %d does not hold piece %d", run.Index, j, i, laid)
					}
					laid++
				}
			}
			if row.Laid != laid {
				t.Errorf("row %d of room %d is down after %d pieces, want %d", j, i, row.Laid, laid)
			}
		}
	}
}

// sawnBefore reports whether p is cut before q of the same plank: what lies is cut already.
func sawnBefore(p, q *laying.Piece) bool {
	return p.Lies && !q.Lies || p.Lies == q.Lies && p.Order < q.Order
}

// marked holds a plan of a job that is begun: the offcuts on hand are those of the bare problem of what is left, which
// package check finds without this package.
func marked(t *testing.T, job *cutopt.Job, plan *cutopt.Plan) {
	t.Helper()
	seq, err := laying.FromPlan(job, plan)
	if err != nil {
		t.Fatal(err)
	}
	holds(t, job, plan, seq)
	begun := 0
	for _, p := range seq.Pieces {
		if p.Lies {
			begun++
		}
	}
	if begun != seq.Begun {
		t.Errorf("%d pieces lie, and Begun is %d", begun, seq.Begun)
	}
	exact := job.Clone()
	exact.Rules.Fit = 0
	in, err := check.Instance(exact, plan)
	if err != nil {
		t.Fatal(err)
	}
	var got, want []measure.Length
	for _, o := range seq.OnHand {
		got = append(got, o.Length())
	}
	for _, o := range in.Offcuts {
		want = append(want, o.Length)
	}
	if diff := gocmp.Diff(want, got); diff != "" {
		t.Errorf("the offcuts on hand are others than those of the bare problem: %s", diff)
	}
}

// plank checks one plank.
func plank(t *testing.T, job *cutopt.Job, use *cutopt.PlankUse, pieces []*laying.Piece) {
	t.Helper()
	type part struct{ from, to measure.Length }
	var parts []part
	for k, p := range pieces {
		if p.Ref != use.Pieces[k] || p.Plank != use.Number {
			t.Fatalf("piece %d of plank %d is %v, want %v", k, use.Number, p.Ref, use.Pieces[k])
		}
		parts = append(parts, part{p.At, p.At + p.Length})
		from := part{0, job.Plank.Length}
		if o := p.Source; o != nil {
			from = part{o.From, o.To}
			if o.Next != p || o.Plank != p.Plank || o.Of == nil && len(use.Gone) == 0 || o.Of != nil &&
				(!sawnBefore(o.Of, p) || !slices.Contains(o.Of.Offcuts, o)) {
				t.Errorf("plank %d: the source of piece %d is that of another", use.Number, p.Order)
			}
		}
		comes := p.AsItComes > 0 && p.Source != nil // it is all of the part
		if p.At < from.from || p.At+p.Length > from.to || p.SawLeft != (p.At > from.from && !comes) ||
			p.SawRight != (p.At+p.Length < from.to && !comes) {
			t.Errorf(
				"plank %d: piece %d lies at %d to %d of a part from %d to %d, sawn %v and %v",
				use.Number,
				p.Order,
				p.At,
				p.At+p.Length,
				from.from,
				from.to,
				p.SawLeft,
				p.SawRight,
			)
		}
		for _, o := range p.Offcuts {
			if o.Of != p || o.Plank != p.Plank || o.From < from.from || o.To > from.to || o.Length() <= 0 {
				t.Errorf(
					"plank %d: piece %d leaves %+v of a part from %d to %d",
					use.Number,
					p.Order,
					*o,
					from.from,
					from.to,
				)
			}
			// The piece that is cut from it is the first laid of those that lie within it.
			var next *laying.Piece
			for _, q := range pieces {
				if sawnBefore(p, q) && o.From <= q.At && q.At+q.Length <= o.To && (next == nil || sawnBefore(q, next)) {
					next = q
				}
			}
			if o.Next != next {
				t.Errorf("plank %d: the wrong piece is cut from %d to %d", use.Number, o.From, o.To)
			}
			if next == nil {
				parts = append(parts, part{o.From, o.To})
			}
		}
	}
	slices.SortFunc(parts, func(a, b part) int { return cmp.Compare(a.from, b.from) })
	for k, p := range parts {
		if p.from < 0 || p.to > job.Plank.Length || k > 0 && p.from < parts[k-1].to+job.Rules.Kerf {
			t.Errorf("plank %d: parts %v overlap or lie outside of it", use.Number, parts)
		}
	}
}

// asPlanned checks what holds only in a plan whose offcuts and cuts are right: each offcut in it is one that is left
// over, and each cut in it is sawn for one piece.
func asPlanned(t *testing.T, job *cutopt.Job, plan *cutopt.Plan, seq *laying.Sequence) {
	t.Helper()
	for k, pieces := range seq.Planks {
		var left []cutopt.Leftover
		var cuts []cutopt.Cut
		for _, p := range pieces {
			for _, o := range p.Offcuts {
				if o.Next == nil {
					left = append(left, cutopt.Leftover{From: o.From, To: o.To, Ends: o.Ends})
				}
			}
			if p.SawLeft {
				cuts = append(cuts, cutopt.Cut{At: p.At - job.Rules.Kerf})
			}
			if p.SawRight {
				cuts = append(cuts, cutopt.Cut{At: p.At + p.Length})
			}
		}
		slices.SortFunc(left, func(a, b cutopt.Leftover) int { return cmp.Compare(a.From, b.From) })
		if use := &plan.Planks[k]; !slices.Equal(left, use.Left) {
			t.Errorf("plank %d leaves %v, the plan has %v", k+1, left, use.Left)
		}
		want := slices.Clone(plan.Planks[k].Cuts)
		byPlace := func(a, b cutopt.Cut) int { return cmp.Compare(a.At, b.At) }
		slices.SortFunc(cuts, byPlace)
		slices.SortFunc(want, byPlace)
		if !slices.Equal(cuts, want) {
			t.Errorf("plank %d is sawn at %v, the plan has %v", k+1, cuts, want)
		}
	}
}

// randomPlan plans up to three rectangles, closets narrower than a plank among them, some with a post. It returns nil
// where no plan keeps the rules.
func randomPlan(t *testing.T, r *rand.Rand) (*cutopt.Job, *cutopt.Plan) {
	t.Helper()
	const mm = measure.Millimetre
	length := func(low, high int) measure.Length { return mm * measure.Length(low+r.IntN(high-low+1)) }
	job := &cutopt.Job{
		Unit: measure.UnitMillimetre, Plank: cutopt.Plank{Length: length(700, 1300), Width: length(150, 220)},
		Box:   cutopt.Box{Planks: 6},
		Rules: oracle.Rules(measure.UnitMillimetre),
	}
	job.Rules.Stagger, job.Rules.Kerf = length(0, 200), length(0, 5)
	if r.IntN(2) == 0 {
		job.Rules.Fit = length(0, 3)
	}
	from := cutopt.FromLeft + cutopt.From(r.IntN(2))
	for i := range 1 + r.IntN(3) {
		w, h := length(1500, 4000), length(900, 2500)
		if r.IntN(3) == 0 {
			w = length(300, 650)
		}
		room := cutopt.Room{
			Name:    []string{"Barn", "Loft", "Stall"}[i],
			Outline: []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}},
		}
		room.Rows = cutopt.RowRules{Direction: cutopt.DirectionAngle, LaidFrom: from}
		if w > 2000*mm && r.IntN(2) == 0 {
			x, y := w/3, h/3
			room.Islands = []cutopt.Island{
				{
					Name: "Post",
					Outline: []cutopt.Point{
						{X: x, Y: y},
						{X: x + w/4, Y: y},
						{X: x + w/4, Y: y + h/4},
						{X: x, Y: y + h/4},
					},
				},
			}
		}
		job.Rooms = append(job.Rooms, room)
	}
	result, err := solve.Job(
		context.Background(),
		job,
		&solve.Options{Effort: solve.EffortQuick, Fewest: solve.FewestPlanks, Seed: r.Uint64()},
	)
	var infeasible *solve.InfeasibleError
	if errors.As(err, &infeasible) {
		return job, nil
	}
	if err != nil {
		t.Fatal(err)
	}
	return job, result.Plan
}

// Plans of random rooms, and what random changes leave of them: those are refused, or all that is promised holds.
func TestRandomPlans(t *testing.T) {
	seeds := uint64(oracle.Samples(20))
	var kinds [4]int
	planned, several, away, shared, refused, taken := 0, 0, 0, 0, 0, 0
	for seed := range seeds {
		r := rand.New(rand.NewPCG(seed, 11))
		job, plan := randomPlan(t, r)
		if plan == nil {
			continue
		}
		planned++
		seq, err := laying.FromPlan(job, plan)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		holds(t, job, plan, seq)
		asPlanned(t, job, plan, seq)
		for range 4 {
			marked(t, job, oracle.Mark(job, plan, r))
		}
		for _, p := range seq.Pieces {
			kinds[p.Role]++
			if p.Source != nil && p.Source.Of.Ref.Floor != p.Ref.Floor {
				away++
			}
		}
		for _, rows := range seq.Floors {
			for _, row := range rows {
				several += min(1, len(row.Runs)/2)
			}
		}
		for _, pieces := range seq.Planks {
			shared += min(1, len(pieces)/3)
		}
		for range 20 {
			undo := spoil(plan, r)
			if seq, err := laying.FromPlan(job, plan); err != nil {
				refused++
			} else {
				taken++
				holds(t, job, plan, seq)
			}
			undo()
		}
		if t.Failed() {
			t.Fatalf("seed %d: %+v", seed, job)
		}
	}
	t.Logf(
		"%d plans: %v whole, starter, ender, single; %d rows of several runs, %d pieces from another room, %d "+
			"planks of "+
			"three pieces or more; "+
			"%d changed plans refused, %d taken",
		planned,
		kinds,
		several,
		away,
		shared,
		refused,
		taken,
	)
	for what, n := range map[string]int{
		"plan": planned, "starter": kinds[laying.RoleStarter], "ender": kinds[laying.RoleEnder],
		"single":              kinds[laying.RoleSingle],
		"row of several runs": several, "piece from another room": away, "plank of three pieces": shared,
		"plan refused": refused, "changed plan taken": taken,
	} {
		if n == 0 {
			t.Errorf("no %s was seen: this test checks less than it should", what)
		}
	}
}

// spoil changes one figure of a plan to anything at all and returns what changes it back.
func spoil(p *cutopt.Plan, r *rand.Rand) (undo func()) {
	room := &p.Floors[r.IntN(len(p.Floors))]
	row := &room.Rows[r.IntN(len(room.Rows))]
	use := &p.Planks[r.IntN(len(p.Planks))]
	ref := use.Pieces[r.IntN(len(use.Pieces))]
	piece := &p.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run].Pieces[ref.Piece]
	figure := func(old int64) int64 {
		return []int64{
			0, 1, -1, old + 1, old - 1, -old, old + r.Int64N(5000), math.MaxInt64, math.MinInt64,
			r.Int64(),
		}[r.IntN(10)]
	}
	change := func(l *measure.Length) func() {
		old := *l
		*l = measure.Length(figure(int64(old)))
		return func() { *l = old }
	}
	index := func(n *int) func() {
		old := *n
		*n = int(figure(int64(old)))
		return func() { *n = old }
	}
	switch r.IntN(10) {
	case 0:
		return change(&piece.Length)
	case 1:
		length, to := piece.Length, piece.To
		piece.Length = measure.Length(figure(int64(length)))
		piece.To = piece.From + piece.Length
		return func() { piece.Length, piece.To = length, to }
	case 2:
		old := piece.Ends
		piece.Ends = cutopt.Ends(r.IntN(256))
		return func() { piece.Ends = old }
	case 3:
		return index([]*int{&piece.Plank, &use.Number}[r.IntN(2)])
	case 4:
		at := &use.Pieces[r.IntN(len(use.Pieces))]
		return index([]*int{&at.Floor, &at.Row, &at.Run, &at.Piece}[r.IntN(4)])
	case 5:
		if len(use.Cuts) > 0 {
			return change(&use.Cuts[r.IntN(len(use.Cuts))].At)
		}
	case 6:
		if len(use.Left) > 0 {
			o := &use.Left[r.IntN(len(use.Left))]
			return change([]*measure.Length{&o.From, &o.To}[r.IntN(2)])
		}
	case 7:
		old := room.LaidFrom
		room.LaidFrom = cutopt.Hand(r.IntN(256))
		return func() { room.LaidFrom = old }
	case 8:
		old := use.Pieces
		use.Pieces = slices.Clone(old)
		slices.Reverse(use.Pieces)
		return func() { use.Pieces = old }
	}
	old := row.Runs
	row.Runs = old[:len(old)/2]
	return func() { row.Runs = old }
}
