package solve_test

import (
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestForgedLine plans a tapering room with cabinets along a part of its starting wall. Check finds a place behind
// them, one left out, and one that is off.
func TestForgedLine(t *testing.T) {
	const mm = measure.Millimetre
	job := metric(1220*mm, 180*mm, cutopt.Room{Name: "Kitchen", Outline: []cutopt.Point{
		{}, {X: 5000 * mm}, {X: 5000 * mm, Y: 3000 * mm}, {Y: 3040 * mm},
	}})
	room := &job.Rooms[0]
	room.Islands = []cutopt.Island{{Name: "Cabinets", Gap: job.Rules.Gap, Outline: []cutopt.Point{
		{X: 2610 * mm, Y: 2400 * mm},
		{X: 5000 * mm, Y: 2400 * mm},
		{X: 5000 * mm, Y: 2995 * mm},
		{X: 2610 * mm, Y: 3010 * mm},
	}}}
	room.Rows.Start = cutopt.StartFar
	result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	floor := &result.Plan.Floors[0]
	facts := floor.Facts
	at := slices.IndexFunc(facts, func(f cutopt.Fact) bool { return f.Kind == cutopt.FactLineAt })
	if at < 0 {
		t.Fatalf("no line aslant to the wall is told in %v", facts)
	}
	n := 0
	for at+n < len(facts) && facts[at+n].Kind == cutopt.FactLineAt {
		n++
	}
	last := facts[at+n-1]
	if n < 3 || last.At > 2610*mm || last.At < 2590*mm {
		t.Fatalf("the last of %d places is at %v, want 2600 mm, where the cabinets begin", n, last.At)
	}
	slope := last.Width - facts[at].Width
	behind := last
	behind.At, behind.Width = last.At+1000*mm, last.Width+slope*1000/2600
	off := last
	off.Width += mm
	for what, with := range map[string][]cutopt.Fact{
		"behind the cabinets": slices.Insert(slices.Clone(facts), at+n, behind),
		"left out at the end": slices.Delete(slices.Clone(facts), at+n-1, at+n),
		"left out between":    slices.Delete(slices.Clone(facts), at+1, at+2),
		"off by 1 mm":         slices.Replace(slices.Clone(facts), at+n-1, at+n, off),
	} {
		floor.Facts = with
		if check.Plan(job, result.Plan) == nil {
			t.Errorf("a place %s is not found in %v", what, with)
		}
	}
}

// TestForgedLineOfCabinets does so where cabinets hide all of the starting wall, in a room that is square and in one
// that is not.
func TestForgedLineOfCabinets(t *testing.T) {
	const mm = measure.Millimetre
	for _, kind := range []cutopt.FactKind{cutopt.FactLineFixed, cutopt.FactLineFixedAt} {
		lean := 0 * mm
		if kind == cutopt.FactLineFixedAt {
			lean = 20 * mm
		}
		job := metric(1220*mm, 180*mm, cutopt.Room{Name: "Kitchen", Outline: cutopt.Rectangle(4000*mm, 3000*mm)})
		job.Rooms[0].Islands = []cutopt.Island{
			{Outline: cutopt.RectangleAt(cutopt.Point{X: 1500 * mm, Y: 1700 * mm}, 900*mm, 600*mm)},
			{Name: "Cabinets", Outline: []cutopt.Point{
				{}, {X: 4000 * mm}, {X: 4000 * mm, Y: 600*mm + lean}, {Y: 600 * mm},
			}},
		}
		result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatal(err)
		}
		floor := &result.Plan.Floors[0]
		facts := floor.Facts
		n := 0
		for i, f := range facts {
			if !f.Kind.OfLine() {
				continue
			}
			if n++; f.Kind != kind || f.Island != 2 || f.Row != 1 {
				t.Fatalf("%+v, want %v of island 2 and row 1", f, kind)
			}
			for what, forge := range map[string]func(*cutopt.Fact){
				"of the other island":  func(f *cutopt.Fact) { f.Island = 1 },
				"of none":              func(f *cutopt.Fact) { f.Island = 3 },
				"of row 2":             func(f *cutopt.Fact) { f.Row = 2 },
				"off by 1 mm":          func(f *cutopt.Fact) { f.Width += mm },
				"level or slanted not": func(f *cutopt.Fact) { f.Kind = cutopt.FactLineFixed + cutopt.FactLineFixedAt - kind },
			} {
				with := slices.Clone(facts)
				forge(&with[i])
				floor.Facts = with
				if check.Plan(job, result.Plan) == nil {
					t.Errorf("%v %s is not found in %v", kind, what, with)
				}
			}
		}
		if want := map[cutopt.FactKind]int{cutopt.FactLineFixed: 1, cutopt.FactLineFixedAt: 5}[kind]; n != want {
			t.Errorf("%d places of %v, want %d", n, kind, want)
		}
	}
}
