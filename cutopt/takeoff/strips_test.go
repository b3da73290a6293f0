package takeoff_test

import (
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

func TestUnderlayOfTheDen(t *testing.T) {
	for _, c := range []struct {
		run          cutopt.StripsRun
		rolls, count int
		length       measure.Length
		seams        measure.Length
	}{
		{cutopt.StripsAlong, 3, 3, 174 * in, 2 * 174 * in},
		{cutopt.StripsAcross, 2, 4, 131 * in, 3 * 131 * in},
		{cutopt.StripsEither, 2, 4, 131 * in, 3 * 131 * in},
	} {
		for _, price := range []cutopt.Money{0, 3900} {
			job := den()
			job.Materials.Underlay = cutopt.Underlay{
				Strips: c.run, Rolls: []cutopt.Roll{{Width: 4 * ft, Length: 25 * ft, Price: price}},
			}
			list := reckon(t, job)
			item := find(t, list, cutopt.ItemUnderlay)
			if n := item.Goods[0].Count; n != c.rolls || item.Count != c.count || len(item.Goods) != 1 {
				t.Errorf("%v: %d rolls for %d strips, want %d for %d", c.run, n, item.Count, c.rolls, c.count)
			}
			if got := item.Strips[0]; got.Lengths[0] != c.length || got.Count != c.count {
				t.Errorf("%v: strips %+v, want %d of %v", c.run, got, c.count, c.length)
			}
			if tape := find(t, list, cutopt.ItemTape); tape.Length != c.seams || tape.Named {
				t.Errorf("%v: %v of seams, want %v", c.run, tape.Length, c.seams)
			}
		}
	}
}

func TestFilm(t *testing.T) {
	for _, c := range []struct {
		across, up measure.Length
		count      int
	}{
		{131 * in, 0, 2},
		{131 * in, 2 * in, 2},
		{232 * in, 0, 2},
		{232*in + 1, 0, 3},
		{228 * in, 2 * in, 2},
		{228*in + 1, 2 * in, 3},
		{120 * in, 0, 1},
		{120*in + 1, 0, 2},
	} {
		job := bare(cutopt.Room{Outline: cutopt.Rectangle(300*in, c.across)})
		job.Rooms[0].Rows.Direction = cutopt.DirectionAlong
		job.Materials.Underlay.Attached = true
		job.Materials.Film = cutopt.Film{
			Lap: 8 * in, TurnUp: c.up, Rolls: []cutopt.Roll{{Width: 10 * ft, Length: 100 * ft}},
		}
		list := reckon(t, job)
		if item := find(t, list, cutopt.ItemUnderlay); item.Bought() || item.Strips != nil {
			t.Errorf("attached underlay is bought: %+v", item)
		}
		item := find(t, list, cutopt.ItemFilm)
		strips := item.Strips[0]
		if !strips.Along { // either way may be less material
			continue
		}
		if strips.Count != c.count || strips.Lengths[0] != 300*in+2*c.up {
			t.Errorf("%v across, turned up %v: %+v, want %d strips", c.across, c.up, strips, c.count)
		}
		if want := measure.Length(c.count-1) * (300*in + 2*c.up); strips.Seams != want {
			t.Errorf("%v across: seams %v, want %v", c.across, strips.Seams, want)
		}
	}
}

func TestUnderlayInDoorways(t *testing.T) {
	job := bare(cutopt.Room{Outline: cutopt.Rectangle(174*in, 131*in), Doorways: []cutopt.Doorway{
		{Wall: 1, At: 10 * in, Width: 32 * in, Depth: 4 * in}, // in the right wall, at the first strip along
		{Wall: 2, At: 20 * in, Width: 30 * in, Depth: 5 * in}, // in the far wall, beyond the last strip
	}})
	job.Materials.Underlay = cutopt.Underlay{
		Strips: cutopt.StripsAlong, Rolls: []cutopt.Roll{{Width: 4 * ft, Length: 25 * ft}},
	}
	item := find(t, reckon(t, job), cutopt.ItemUnderlay)
	if want := []measure.Length{178 * in, 174 * in, 174 * in, 30 * in}; !slices.Equal(item.Strips[0].Lengths, want) {
		t.Errorf("strips %v, want %v", item.Strips[0].Lengths, want)
	}
	if want := 2*174*in + 30*in; item.Strips[0].Seams != want { // three strips and the piece in the far doorway
		t.Errorf("seams of %v, want %v", item.Strips[0].Seams, want)
	}
}

// One floor through two rooms: the strips of both meet in the opening, 36 in wide, whichever way they run.
func TestUnderlayThroughADoorway(t *testing.T) {
	for _, run := range []cutopt.StripsRun{cutopt.StripsAlong, cutopt.StripsAcross} {
		job := bare(
			cutopt.Room{Name: "A", Outline: cutopt.Rectangle(160*in, 90*in), Doorways: []cutopt.Doorway{
				{Wall: 1, At: 10 * in, Width: 36 * in, Depth: 5 * in, To: "B", Through: true},
			}},
			cutopt.Room{Name: "B", Outline: cutopt.RectangleAt(cutopt.Point{X: 165 * in}, 90*in, 90*in)},
		)
		job.Materials.Underlay = cutopt.Underlay{Strips: run, Rolls: []cutopt.Roll{{Width: 4 * ft, Length: 25 * ft}}}
		seams := 160*in + 90*in + 36*in // two strips along in each room
		if run == cutopt.StripsAcross {
			seams = 3*90*in + 90*in + 36*in + 36*in // four and two, and the opening is a piece of its own
		}
		item := find(t, reckon(t, job), cutopt.ItemUnderlay)
		if got := item.Strips[0].Seams + item.Strips[1].Seams; got != seams {
			t.Errorf("%v: seams of %v, want %v", run, got/in, seams/in)
		}
	}
}
