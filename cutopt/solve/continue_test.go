package solve_test

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// inOrder lists the pieces of a plan in the order of laying.
func inOrder(plan *cutopt.Plan) (refs []cutopt.PieceRef) {
	for f := range plan.Floors {
		room := &plan.Floors[f]
		for r := range room.Rows {
			runs := room.Rows[r].Runs
			for n := range runs {
				k := n
				if room.LaidFrom == cutopt.HandRight {
					k = len(runs) - 1 - n
				}
				for m := range runs[k].Pieces {
					if room.LaidFrom == cutopt.HandRight {
						m = len(runs[k].Pieces) - 1 - m
					}
					refs = append(refs, cutopt.PieceRef{Floor: f, Row: r, Run: k, Piece: m})
				}
			}
		}
	}
	return refs
}

// lay marks the first pieces of a plan as lying, their planks as opened, and what then is here.
func lay(job *cutopt.Job, plan *cutopt.Plan, pieces int) *cutopt.Plan {
	out := plan.Clone()
	for _, ref := range inOrder(out)[:pieces] {
		p := out.Piece(ref)
		p.Lies = true
		out.Planks[p.Plank-1].Opened = true
	}
	stocked(job, out, plan.Order.Boxes*plan.Order.PlanksPerBox)
	return out
}

// stocked says what is here when so many whole planks came in boxes.
func stocked(job *cutopt.Job, plan *cutopt.Plan, planks int) {
	per := plan.Order.PlanksPerBox
	for i := range plan.Planks {
		if plan.Planks[i].Opened && !plan.Planks[i].Brought {
			planks--
		}
	}
	bought := plan.Order.Boxes
	if plan.Site != nil {
		bought = plan.Site.Bought
	}
	plan.Site = &cutopt.Site{Bought: bought, Here: []cutopt.Lot{{Planks: planks, Boxes: planks / per}}}
}

// lose marks a plank as lost, but for what lies of it.
func lose(job *cutopt.Job, plan *cutopt.Plan, k int) {
	use := &plan.Planks[k]
	use.Opened = true
	use.Gone = []cutopt.Leftover{{To: job.Plank.Length, Ends: cutopt.EndsBoth}}
}

// TestContinueLaid: what is only laid as planned stays as it is planned, piece by piece.
func TestContinueLaid(t *testing.T) {
	for seed := range uint64(oracle.Samples(3)) {
		r := rand.New(rand.NewPCG(seed, 91))
		job := oracle.AnyRooms(r)
		if seed%2 == 1 { // then the planner chooses, and the first row too
			for i := range job.Rooms {
				job.Rooms[i].Rows.Direction, job.Rooms[i].Rows.Angle = cutopt.DirectionFree, 0
			}
		}
		first, err := solve.Job(t.Context(), job, nil)
		if err != nil {
			continue
		}
		same, err := solve.Continue(t.Context(), job, first.Plan, nil)
		if err != nil || !bytes.Equal(oracle.Encode(t, first.Plan), oracle.Encode(t, same.Plan)) {
			t.Fatalf("seed %d: nothing has happened and the plan is another: %v", seed, err)
		}
		all := len(inOrder(first.Plan))
		for _, n := range []int{1, all / 3, all / 2, all - 1, all} {
			marked := lay(job, first.Plan, n)
			got, err := solve.Continue(t.Context(), job, marked, nil)
			if err != nil {
				t.Fatalf("seed %d: %d of %d pieces laid: %v", seed, n, all, err)
			}
			if d := cutopt.Changes(first.Plan, got.Plan); len(d) > 0 {
				t.Errorf("seed %d: %d of %d pieces laid: %d changes, the first %+v", seed, n, all, len(d), d[0])
			}
			if broken := check.Plan(job, got.Plan); len(broken) > 0 {
				t.Errorf("seed %d: %v", seed, broken)
			}
			if got.Plan.Quality != first.Plan.Quality {
				t.Errorf("seed %d: %+v, was %+v", seed, got.Plan.Quality, first.Plan.Quality)
			}
			if !slices.Equal(got.Plan.Site.Here, marked.Site.Here) {
				t.Errorf("seed %d: %+v", seed, got.Plan.Site)
			}
		}
	}
}

// happens marks one thing more that happens to a plan that is laid on to so many pieces: planks lost, opened or not, a
// cut in the wrong place, a starter that is laid otherwise.
func happens(r *rand.Rand, job *cutopt.Job, plan *cutopt.Plan) {
	k := r.IntN(len(plan.Planks))
	use := &plan.Planks[k]
	lies := slices.ContainsFunc(use.Pieces, func(ref cutopt.PieceRef) bool { return plan.Piece(ref).Lies })
	switch long, kerf := job.Plank.Length, job.Rules.Kerf; {
	case lies || len(use.Gone) > 0:
		return
	case r.IntN(2) == 0:
		lose(job, plan, k)
	default:
		use.Opened = true
		at := long/8 + measure.Length(r.Int64N(int64(long)*3/4))
		use.Gone = []cutopt.Leftover{{From: at, To: at + kerf}}
	}
}

// TestContinueLosses: whatever is lost on the way, every plan passes Check, its certificate verifies, and the floor is
// laid to its end.
func TestContinueLosses(t *testing.T) {
	steps, proven := 0, 0
	for seed := range uint64(oracle.Samples(2)) {
		r := rand.New(rand.NewPCG(seed, 92))
		job := oracle.AnyRooms(r)
		first, err := solve.Job(t.Context(), job, nil)
		if err != nil {
			continue
		}
		plan, stock := first.Plan, first.Plan.Order.Boxes*first.Plan.Order.PlanksPerBox
		for laid := 0; laid < len(inOrder(plan)); {
			laid = min(laid+1+r.IntN(1+len(inOrder(plan))/4), len(inOrder(plan)))
			marked := lay(job, plan, laid)
			for range r.IntN(3) {
				happens(r, job, marked)
			}
			marked.Site = plan.Site
			if plan.Site != nil { // what was to be bought is bought
				stock += plan.Site.Buy * plan.Order.PlanksPerBox
				marked.Site.Bought += plan.Site.Buy
			}
			stocked(job, marked, stock)
			got, err := solve.Continue(t.Context(), job, marked, nil)
			if err != nil {
				t.Fatalf("seed %d: %d of %d pieces laid: %v", seed, laid, len(inOrder(plan)), err)
			}
			if broken := check.Plan(job, got.Plan); len(broken) > 0 {
				t.Fatalf("seed %d: %v", seed, broken)
			}
			if err := check.Proof(job, got.Plan); err != nil && got.Plan.Bound.Certificate != nil {
				t.Errorf("seed %d: %d of %d pieces laid: %v", seed, laid, len(inOrder(plan)), err)
			}
			steps++
			if got.Plan.Bound.PlanksProven || got.Plan.Bound.Settled {
				proven++
			}
			plan = got.Plan
		}
	}
	t.Logf("%d of %d steps proven", proven, steps)
	if proven < steps*9/10 {
		t.Errorf("%d of %d steps proven", proven, steps)
	}
}

// afloat is a job that is laid in part, with a loss.
func afloat(t *testing.T, r *rand.Rand, draw func(*rand.Rand) *cutopt.Job) (*cutopt.Job, *cutopt.Plan) {
	t.Helper()
	for {
		job := draw(r)
		first, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			continue
		}
		marked := lay(job, first.Plan, r.IntN(len(inOrder(first.Plan))))
		for range 3 {
			happens(r, job, marked)
		}
		stocked(job, marked, first.Plan.Order.Boxes*first.Plan.Order.PlanksPerBox)
		return job, marked
	}
}

// TestContinueMoreStock: with a plank more here, or an offcut brought along, no more planks are needed and no more
// boxes are bought, where the fewest are proven.
func TestContinueMoreStock(t *testing.T) {
	for seed := range uint64(oracle.Samples(3)) {
		r := rand.New(rand.NewPCG(seed, 93))
		job, marked := afloat(t, r, oracle.SmallRoom)
		opt := &solve.Options{Fewest: solve.FewestPlanks, Effort: solve.EffortQuick}
		before, err := solve.Continue(t.Context(), job, marked, opt)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		plank, offcut := marked.Clone(), marked.Clone()
		plank.Site.Brought, plank.Site.Here[0].Planks = 1, plank.Site.Here[0].Planks+1
		left := job.Plank.Length / 3
		offcut.Planks = append(offcut.Planks, cutopt.PlankUse{
			Number: len(offcut.Planks) + 1, Opened: true, Brought: true,
			Gone: []cutopt.Leftover{{To: job.Plank.Length - left, Ends: cutopt.EndsLeft}},
		})
		for k, more := range []*cutopt.Plan{plank, offcut} {
			after, err := solve.Continue(t.Context(), job, more, opt)
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			if broken := check.Plan(job, after.Plan); len(broken) > 0 {
				t.Fatalf("seed %d: %v", seed, broken)
			}
			if !before.Plan.Bound.PlanksProven || !after.Plan.Bound.PlanksProven {
				continue
			}
			if after.Plan.Site.Needed > before.Plan.Site.Needed || after.Plan.Site.Buy > before.Plan.Site.Buy {
				t.Errorf("seed %d: more stock %d: %d planks and %d boxes, before %d and %d", seed, k, after.Plan.Site.Needed,
					after.Plan.Site.Buy, before.Plan.Site.Needed, before.Plan.Site.Buy)
			}
		}
	}
}

// TestContinueSame: the same for any number of workers, and what is marked is only read.
func TestContinueSame(t *testing.T) {
	for seed := range uint64(oracle.Samples(2)) {
		job, marked := afloat(t, rand.New(rand.NewPCG(seed, 94)), oracle.AnyRooms)
		kept := oracle.Encode(t, marked)
		one, err := solve.Continue(t.Context(), job, marked, nil)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		three, err := solve.Continue(t.Context(), job, marked, &solve.Options{Workers: 3})
		if err != nil || !bytes.Equal(oracle.Encode(t, one.Plan), oracle.Encode(t, three.Plan)) {
			t.Errorf("seed %d: another plan with three workers: %v", seed, err)
		}
		if !bytes.Equal(kept, oracle.Encode(t, marked)) {
			t.Errorf("seed %d: the marked plan is changed", seed)
		}
	}
}

// TestContinueLots: floors are laid from one lot each, what is begun from its own, and few planks are missing.
func TestContinueLots(t *testing.T) {
	several, short, quick := 0, 0, &solve.Options{Effort: solve.EffortQuick}
	for seed := range uint64(oracle.Samples(5)) {
		r := rand.New(rand.NewPCG(seed, 95))
		job, marked := afloat(t, r, oracle.AnyRooms)
		whole := cutopt.WholePlanks(marked.Site.Here)
		first := r.IntN(whole + 1)
		marked.Site.Here = []cutopt.Lot{{Name: "A", Planks: first}, {Name: "B", Planks: whole - first}}
		for i := range marked.Planks {
			if marked.Planks[i].Opened {
				marked.Planks[i].Lot = "A"
			}
		}
		got, err := solve.Continue(t.Context(), job, marked, quick)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if broken := check.Plan(job, got.Plan); len(broken) > 0 {
			t.Fatalf("seed %d: %v", seed, broken)
		}
		lots := make(map[string]bool)
		for _, f := range got.Plan.Floors {
			lots[f.Lot] = true
		}
		if len(lots) > 1 {
			several++
		}
		if got.Plan.Site.Short > 0 {
			short++
		}
		marked.Site.Mixed = true
		mixed, err := solve.Continue(t.Context(), job, marked, quick)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if mixed.Plan.Site.Short > got.Plan.Site.Short {
			t.Errorf("seed %d: mixed %d are missing, lot by lot %d", seed, mixed.Plan.Site.Short, got.Plan.Site.Short)
		}
	}
	t.Logf("%d from several lots, %d short", several, short)
	if several == 0 || short == 0 {
		t.Error("the test shows little")
	}
}

// TestContinueRunInHand: of a run in hand the ender is what is left, up to a whole plank, and the fit allowance makes
// it no longer than that: a wall that stands so little farther takes no other plank.
func TestContinueRunInHand(t *testing.T) {
	job := denJob()
	first, err := solve.Job(t.Context(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	run := first.Plan.Floors[0].Rows[0].Runs[0]
	for _, short := range []measure.Length{0, 1, job.Rules.Fit / 2, job.Rules.Fit, job.Rules.Fit + 1} {
		by := job.Plank.Length - short - run.Pieces[len(run.Pieces)-1].Length
		wider, marked, _, err := site.Apply(job, first.Plan, &site.State{Events: []site.Event{
			{Kind: site.KindLaid, Row: 1, Pieces: 1}, {Kind: site.KindLonger, Row: 1, Length: by},
		}})
		if err != nil {
			t.Fatal(err)
		}
		result, err := solve.Continue(t.Context(), wider, marked, nil)
		if err != nil {
			t.Errorf("ender %d shorter than a plank: %v", short, err)
			continue
		}
		now := result.Plan.Floors[0].Rows[0].Runs[0].Pieces
		if n := len(run.Pieces); len(now) != n || now[n-1].Length != job.Plank.Length-short {
			t.Errorf("ender %d shorter than a plank: the run has %d pieces, the last of %d", short, len(now),
				now[len(now)-1].Length)
		}
		if err := check.Proof(wider, result.Plan); err != nil {
			t.Errorf("ender %d shorter than a plank: %v", short, err)
		}
	}
}

// TestEased: shorter pieces save planks where the shortest one is a third of a plank, and nearer end joints none.
func TestEased(t *testing.T) {
	job := denJob()
	job.Rules.MinPiece = 16 * measure.Inch
	first, err := solve.Job(t.Context(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	marked := first.Plan.Clone()
	marked.Site = &cutopt.Site{Bought: 5, Here: []cutopt.Lot{{Planks: 40, Boxes: 5}}}
	all, err := solve.Eased(t.Context(), job, marked, &solve.Options{Fewest: solve.FewestPlanks})
	if err != nil || len(all) != 3 {
		t.Fatalf("%d variants: %v", len(all), err)
	}
	short := make(map[solve.Aspect]int)
	for _, v := range all {
		short[v.Aspect] = v.Result.Plan.Site.Short
		if broken := check.Plan(v.Job, v.Result.Plan); broken != nil {
			t.Errorf("%v: %v", v.Aspect, broken[0])
		}
	}
	own := short[solve.AspectNone]
	if own == 0 || short[solve.AspectStagger] != own || short[solve.AspectMinPiece] >= own {
		t.Errorf("planks that are missing: %v", short)
	}
	if _, err := solve.Eased(t.Context(), job, nil, nil); err == nil {
		t.Error("no plan to go on from is accepted")
	}
}
