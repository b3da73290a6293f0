package solve_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/solve"
)

// slantedRoom draws a room whose walls run any way, or nearly along its rows, with a fixed thing, doorways and jogs.
func slantedRoom(r *rand.Rand) *cutopt.Job {
	job := oracle.PlainRoom(r)
	inch := func(low, high int) measure.Length {
		return measure.Length(low*16+r.IntN((high-low)*16+1)) * measure.Sixteenth
	}
	room := &job.Rooms[0]
	w, h := inch(70, 200), inch(60, 150)
	out := []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	switch r.IntN(4) {
	case 0: // corners cut off
		c := inch(2, 40)
		out = []cutopt.Point{{X: c}, {X: w - inch(2, 25)}, {X: w, Y: inch(2, 25)}, {X: w, Y: h}, {Y: h}, {Y: inch(2, 25)}}
	case 1: // a corner that points in
		out = []cutopt.Point{{}, {X: w}, {X: w - inch(0, 9), Y: h}, {X: w/2 + inch(0, 9), Y: h/2 + inch(0, 9)}, {Y: h}}
	case 2: // a bay
		out = []cutopt.Point{
			{},
			{X: w},
			{X: w, Y: h},
			{X: w * 3 / 4, Y: h},
			{X: w * 2 / 3, Y: h + inch(4, 30)},
			{X: w / 3, Y: h + inch(4, 30)},
			{X: w / 4, Y: h},
			{Y: h},
		}
	}
	if r.IntN(2) == 0 {
		for range 1 + r.IntN(2) {
			p, most := &out[r.IntN(len(out))], 1+r.IntN(10)
			p.X, p.Y = p.X+inch(0, most)-inch(0, most), p.Y+inch(0, most)-inch(0, most)
		}
	}
	if r.IntN(4) == 0 { // jogs
		k := r.IntN(len(out))
		p, q := out[k], out[(k+1)%len(out)]
		m := cutopt.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
		n := cutopt.Point{X: m.X, Y: m.Y + measure.Length(r.IntN(3*320))}
		out = slices.Insert(out, k+1, m, n)
	}
	room.Outline = out
	if r.IntN(3) == 0 {
		x, y, dx, dy := inch(20, 40), inch(15, 40), inch(4, 20), inch(4, 20)
		room.Islands = []cutopt.Island{{Outline: []cutopt.Point{
			{X: x, Y: y}, {X: x + dx, Y: y + inch(0, 4)}, {X: x + dx - inch(0, 3), Y: y + dy}, {X: x, Y: y + dy},
		}}}
	}
	if r.IntN(3) == 0 {
		room.Pipes = []cutopt.Pipe{{At: cutopt.Point{X: inch(8, 60), Y: inch(5, 50)}, Diameter: inch(1, 11)}}
	}
	if r.IntN(2) == 0 {
		room.Doorways = []cutopt.Doorway{{Wall: r.IntN(len(out)), At: inch(3, 20), Width: inch(24, 32), Depth: inch(3, 5)}}
	}
	if r.IntN(3) == 0 { // all turned in its drawing
		sin, cos := math.Sincos(r.Float64() * 2 * math.Pi)
		turn := func(p *cutopt.Point) {
			x, y := float64(p.X), float64(p.Y)
			p.X, p.Y = measure.Length(math.Round(x*cos-y*sin)), measure.Length(math.Round(x*sin+y*cos))
		}
		for i := range room.Outline {
			turn(&room.Outline[i])
		}
		for k := range room.Islands {
			for i := range room.Islands[k].Outline {
				turn(&room.Islands[k].Outline[i])
			}
		}
		for k := range room.Pipes {
			turn(&room.Pipes[k].At)
		}
	}
	job.Box.Planks = 2 + r.IntN(6)
	if r.IntN(2) == 0 {
		room.Rows.Direction = cutopt.DirectionAcross
	}
	room.Rows.Start = cutopt.Start(r.IntN(2))
	return job
}

// leastOf returns the lists of least runs that Check recounts for the floors of a plan; nil where there are none.
func leastOf(job *cutopt.Job, plan *cutopt.Plan) *proof.Family {
	q := *plan
	q.Bound.Rooms = &cutopt.RoomBound{Firsts: make([][]cutopt.FirstRow, len(plan.Floors))}
	f, err := check.Family(job, &q)
	if err != nil {
		return nil
	}
	return f
}

// lengthsOf lists the runs of a floor, the longest first.
func lengthsOf(job *cutopt.Job, floor *cutopt.PlanFloor) (out []measure.Length) {
	for _, row := range floor.Rows {
		for _, run := range row.Runs {
			out = append(out, run.To-run.From+job.Rules.Fit)
		}
	}
	slices.SortFunc(out, func(a, b measure.Length) int { return int(b - a) })
	return out
}

// holds reports whether some placement of a floor has no run longer than those listed, and no more.
func holds(ways []proof.Placement, runs []measure.Length) bool {
	return slices.ContainsFunc(ways, func(p proof.Placement) bool {
		for i, r := range p.Runs {
			if i >= len(runs) || r.Length > runs[i] {
				return false
			}
		}
		return true
	})
}

// TestLeastRuns lays floors of any shape by first rows all over the grid: the lists that Check makes of the outline by
// itself hold each of them that counts.
func TestLeastRuns(t *testing.T) {
	kinds := []struct {
		name string
		draw func(*rand.Rand) *cutopt.Job
	}{{"slanted", slantedRoom}, {"awkward", awkward}, {"level", levelRoom}, {"joined", joinedRooms}}
	for _, kind := range kinds {
		floors, laid, skipped := 0, 0, 0
		for seed := range uint64(oracle.Samples(3)) {
			r := rand.New(rand.NewPCG(seed, 1616))
			job := kind.draw(r)
			lie := &job.Rooms[0].Rows
			free := seed%3 == 2 && lie.Direction != cutopt.DirectionAngle
			if lie.FirstRow = 0; free {
				lie.Direction = cutopt.DirectionFree
			}
			if job.Validate() != nil {
				continue
			}
			own, breaks, err := solve.Floors(context.Background(), job)
			if err != nil || len(breaks) > 0 {
				continue
			}
			plan := &cutopt.Plan{Floors: own}
			family := leastOf(job, plan)
			if family == nil {
				t.Logf("%s, seed %d: no lists", kind.name, seed)
				continue
			}
			floors++
			grid := max(1, job.Rules.Grid)
			for range 5 {
				w := min(job.Plank.Width, grid*measure.Length(1+r.Int64N(int64(job.Plank.Width/grid))))
				fixed := *job
				fixed.Rooms = slices.Clone(job.Rooms)
				fixed.Rooms[0].Rows.FirstRow = w
				if free {
					fixed.Rooms[0].Rows.Direction = []cutopt.Direction{cutopt.DirectionAlong, cutopt.DirectionAcross}[r.IntN(2)]
				}
				other, _, err := solve.Floors(context.Background(), &fixed)
				if err != nil || math.Mod(other[0].Axes.Turn-own[0].Axes.Turn, 90) != 0 {
					continue
				}
				laid++
				if holds(family.Floors[0], lengthsOf(job, &other[0])) {
					continue
				}
				if counts(t, &fixed, own[0].Facts) {
					t.Errorf("%s, seed %d: a first row of %v is not held by any of %d lists", kind.name, seed, w,
						len(family.Floors[0]))
				} else {
					skipped++
				}
			}
		}
		t.Logf("%s: %d floors laid %d times, %d of them with strips or edge rows that do not count", kind.name, floors, laid,
			skipped)
	}
}

// counts reports whether the fixed first row of a job keeps the rules that the rows of a plan with these facts keep:
// no strip too narrow to be held, and no edge row narrower than asked.
func counts(t *testing.T, fixed *cutopt.Job, own []cutopt.Fact) bool {
	t.Helper()
	tells := func(facts []cutopt.Fact, kinds ...cutopt.FactKind) bool {
		return slices.ContainsFunc(facts, func(f cutopt.Fact) bool { return slices.Contains(kinds, f.Kind) })
	}
	strips, edges := []cutopt.FactKind{cutopt.FactStrip}, []cutopt.FactKind{cutopt.FactEdgeAsked, cutopt.FactEdgeForced}
	if tells(own, strips...) {
		return true
	}
	result, err := solve.Job(context.Background(), fixed, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		return false
	}
	facts := result.Plan.Floors[0].Facts
	return !tells(facts, strips...) && (tells(own, edges...) || !tells(facts, edges...))
}

// tinySlant draws a slanted room, or two joined ones, of few rows of few short planks, so that all can be tried.
func tinySlant(r *rand.Rand) *cutopt.Job {
	const in = measure.Inch
	length := func(low, high int) measure.Length { return measure.Length(low*4+r.IntN((high-low)*4+1)) * in / 4 }
	long, wide := length(9, 26), length(5, 10)
	job := &cutopt.Job{
		Name: "Tiny", Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 10 * in, Width: 4 * in},
		Box: cutopt.Box{Planks: 1}, Rules: oracle.Rules(measure.UnitInch),
	}
	rules := &job.Rules
	rules.Grid, rules.MinPiece, rules.Stagger, rules.Gap = in, 2*in, 2*in, in/4
	rules.Fit, rules.AsItComes, rules.MinStrip = 0, 0, in/2
	if r.IntN(3) == 0 {
		rules.MinPiece = 3 * in
	}
	a := cutopt.Room{Name: "A", Outline: []cutopt.Point{
		{X: length(0, 3)}, {X: long}, {X: long - length(0, 4), Y: wide}, {Y: wide - length(0, 2)},
	}}
	job.Rooms = []cutopt.Room{a}
	if r.IntN(3) == 0 {
		thick := length(0, 3)
		y := wide + thick
		job.Rooms[0].Outline = []cutopt.Point{{X: length(0, 3)}, {X: long}, {X: long, Y: wide}, {Y: wide}}
		job.Rooms[0].Doorways = []cutopt.Doorway{{
			Wall: 2, At: length(0, 2), Width: length(4, 6), Depth: thick, To: "B", Through: true,
		}}
		job.Rooms = append(job.Rooms, cutopt.Room{Name: "B", Outline: []cutopt.Point{
			{Y: y}, {X: long, Y: y}, {X: long - length(0, 4), Y: y + length(4, 6)}, {Y: y + length(4, 6)},
		}})
	}
	if r.IntN(4) == 0 {
		job.Rooms[0].Pipes = []cutopt.Pipe{{
			At: cutopt.Point{X: long / 2, Y: wide / 2}, Diameter: in / 2, Gap: cutopt.GapNone,
		}}
	}
	job.Rooms[0].Rows.Direction = cutopt.DirectionAlong
	return job
}

// TestTinyClaims lays every first row of tiny slanted and joined rooms, in every way where it has up to four runs: none
// that counts needs fewer planks than the bound of the rooms says.
func TestTinyClaims(t *testing.T) {
	rooms, claims, joined, laid, all, least := 0, 0, 0, 0, 0, 0
	for seed := range uint64(oracle.Samples(10)) {
		job := tinySlant(rand.New(rand.NewPCG(seed, 5)))
		if job.Validate() != nil {
			continue
		}
		result, err := solve.Job(context.Background(), job, &solve.Options{Fewest: solve.FewestPlanks})
		if err != nil {
			continue
		}
		plan := result.Plan
		if rooms++; plan.Bound.Rooms == nil {
			continue
		}
		claims++
		if err := check.Proof(job, plan); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if len(job.Rooms) > 1 {
			joined++
		}
		for w := job.Rules.Grid; w <= job.Plank.Width; w += job.Rules.Grid {
			fixed := *job
			fixed.Rooms = slices.Clone(job.Rooms)
			fixed.Rooms[0].Rows.FirstRow = w
			floors, _, err := solve.Floors(context.Background(), &fixed)
			if err != nil || floors[0].Axes != plan.Floors[0].Axes {
				continue
			}
			in, err := check.Instance(&fixed, &cutopt.Plan{Floors: floors})
			if err != nil {
				continue
			}
			few := -1
			if len(in.Runs) <= 4 {
				few, all = oracle.Fewest(in), all+1
			} else if other, err := solve.Rows(context.Background(), in, nil); err == nil {
				few = len(other.Cutting.Planks)
			}
			if laid++; few >= 0 && few < plan.Bound.Rooms.Planks && counts(t, &fixed, plan.Floors[0].Facts) {
				t.Errorf("seed %d: a first row of %v needs %d planks, %d are said to be needed", seed, w, few,
					plan.Bound.Rooms.Planks)
			}
			if few == plan.Bound.Rooms.Planks {
				least++
			}
		}
	}
	t.Logf("%d rooms, %d claims, %d of joined rooms; %d first rows laid, %d in every way, %d with as few planks as "+
		"claimed", rooms, claims, joined, laid, all, least)
	if claims == 0 || least == 0 {
		t.Error("nothing is claimed, or claimed idly")
	}
}

// TestForgedRooms spoils certificates of slanted rooms and has them claim a plank more than the plan needs: none holds.
func TestForgedRooms(t *testing.T) {
	forged, plans := 0, 0
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 16))
		job := slantedRoom(r)
		if job.Validate() != nil {
			continue
		}
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil || result.Plan.Bound.Rooms == nil || result.Plan.Bound.Rooms.Certificate.Tree.Prices == nil {
			continue
		}
		if plans++; plans > 5 {
			break
		}
		family, err := check.Family(job, result.Plan)
		if err != nil {
			t.Fatal(err)
		}
		for range oracle.Samples(10) {
			c := *result.Plan.Bound.Rooms.Certificate
			c.Planks = len(result.Plan.Planks) + 1
			c.Tree.Prices = slices.Clone(c.Tree.Prices)
			for range r.IntN(4) {
				s := &c.Tree.Prices[r.IntN(len(c.Tree.Prices))]
				switch r.IntN(3) {
				case 0:
					s.At += measure.Length(r.IntN(2001) - 1000)
				case 1:
					s.Price += r.Int64N(200_000_001) - 100_000_000
				default:
					s.Price = r.Int64N(proof.Denominator)
				}
			}
			if forged++; c.Verify(family) == nil {
				t.Errorf("seed %d: %d planks are proven of a room that takes %d", seed, c.Planks, c.Planks-1)
			}
		}
		listed := *result.Plan
		rooms := *listed.Bound.Rooms
		listed.Bound.Rooms = &rooms
		rooms.Firsts = [][]cutopt.FirstRow{{{Width: job.Plank.Width / 2}}}
		if len(result.Plan.Bound.Rooms.Firsts[0]) == 0 && check.Proof(job, &listed) == nil {
			t.Errorf("seed %d: a list of one first row is taken for whole", seed)
		}
	}
	t.Logf("%d forged certificates of %d plans", forged, plans)
}
