package sample_test

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"plank.example/bench/sample"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestSameOnEveryMachine holds a digest of rooms fixed: a change of it changes every stored figure of the bench.
func TestSameOnEveryMachine(t *testing.T) {
	h := sha256.New()
	for _, mix := range []sample.Mix{sample.MixDwelling, sample.MixOffice, sample.MixHall, sample.MixMixed} {
		for seed := range uint64(1000) {
			r := sample.Draw(mix, seed)
			fmt.Fprintln(h, r.Mix, r.Seed, r.Kind, r.Shape, r.Crooked, r.Plan.Outline, r.Net) // what is drawn, by value
			for _, island := range r.Plan.Islands {
				fmt.Fprintln(h, island.Outline, int64(island.Gap))
			}
			for _, d := range r.Plan.Doorways {
				fmt.Fprintln(h, d.Wall, d.At, d.Width, d.Depth, d.Casing)
			}
		}
	}
	const want = "329c9fae24236ec61f9520a2f8e7991d"
	if got := fmt.Sprintf("%x", h.Sum(nil)[:16]); got != want {
		t.Errorf("digest of 4000 rooms is %s, want %s", got, want)
	}
}

// TestRectangles holds some rectangles fixed, in quarters of an inch.
func TestRectangles(t *testing.T) {
	for seed, want := range [][2]measure.Length{{793, 534}, {873, 851}, {574, 842}} {
		far := sample.DrawRectangle(uint64(seed)).Plan.Outline[2]
		if got := [2]measure.Length{far.X / (measure.Inch / 4), far.Y / (measure.Inch / 4)}; got != want {
			t.Errorf("seed %d: %v, want %v", seed, got, want)
		}
	}
}

// TestRooms validates rooms of every mix and counts kinds and shapes against the shares of the package comment.
func TestRooms(t *testing.T) {
	rules := sample.Rules()
	kinds, shapes, crooked := map[sample.Kind]int{}, map[sample.Shape]int{}, 0
	const n = 4000
	for seed := range uint64(n) {
		room := sample.Draw(sample.MixDwelling, seed)
		kinds[room.Kind]++
		shapes[room.Shape]++
		if room.Crooked {
			crooked++
		}
		if seed < 300 {
			for _, mix := range []sample.Mix{sample.MixDwelling, sample.MixOffice, sample.MixHall, sample.MixMixed} {
				if err := sample.Draw(mix, seed).Job(sample.Products()[0], &rules).Validate(); err != nil {
					t.Fatalf("%s %d: %v", mix, seed, err)
				}
			}
		}
	}
	within := func(what string, got, percent int) {
		if low, high := n*(percent-3)/100, n*(percent+3)/100; got < low || got > high {
			t.Errorf("%d of %d rooms are %s, want about %d %%", got, n, what, percent)
		}
	}
	within("bedrooms", kinds[sample.KindBedroom], 35)
	within("living rooms", kinds[sample.KindLiving], 25)
	within("kitchens", kinds[sample.KindKitchen], 20)
	within("utility rooms", kinds[sample.KindUtility], 10)
	within("passages", kinds[sample.KindPassage], 10)
	within("crooked", crooked, 40)
	for _, s := range []sample.Shape{
		sample.ShapeL, sample.ShapeU, sample.ShapeAlcove, sample.ShapeIsland,
		sample.ShapeAngled,
	} {
		if shapes[s] < n/100 {
			t.Errorf("only %d of %d rooms are of shape %s", shapes[s], n, s)
		}
	}
}

// TestHouse wants a house to be five dwelling rooms, apart from those of the next, with their area together.
func TestHouse(t *testing.T) {
	rules := sample.Rules()
	for seed := range uint64(20) {
		house, net := sample.Draw(sample.MixHouse, seed), measure.Area(0)
		job := house.Job(sample.Products()[1], &rules)
		if err := job.Validate(); err != nil || len(job.Rooms) != 5 {
			t.Fatalf("house %d: %d rooms, %v", seed, len(job.Rooms), err)
		}
		for i := range uint64(5) {
			room := sample.Draw(sample.MixDwelling, 5*seed+i)
			net += room.Net
			if fmt.Sprint(room.Plan.Outline) != fmt.Sprint(job.Rooms[i].Outline) {
				t.Errorf("house %d: room %d is another", seed, i)
			}
		}
		if house.Net != net {
			t.Errorf("house %d: net %d, want %d", seed, house.Net, net)
		}
	}
}

// TestOutlines reads a room of 5 x 4 m with a hole of 1 x 1 m, closed rings as GeoJSON has them.
func TestOutlines(t *testing.T) {
	dir := t.TempDir()
	write := func(text string) {
		if err := os.WriteFile(filepath.Join(dir, "a.jsonl"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(`{"room": "a", "outer": [[0, 0], [5, 0], [5, 4], [0, 4], [0, 0]], ` +
		`"holes": [[[1, 1], [1, 2], [2, 2], [2, 1], [1, 1]]]}` +
		"\n" + `{"outer": [[0.0005, 0], [3, 0], [3, 3]]}` + "\n")
	rooms, err := sample.ReadOutlines(dir)
	if err != nil || len(rooms) != 2 {
		t.Fatal(len(rooms), err)
	}
	const m = measure.Metre
	first := rooms[0]
	want := 19 * measure.Area(m) * measure.Area(m)
	if n, holes := len(first.Plan.Outline), len(first.Plan.Islands); n != 4 || holes != 1 || first.Net != want {
		t.Errorf("%d corners, net %d, %d islands", n, first.Net, holes)
	}
	if p := rooms[1].Plan.Outline[0]; rooms[1].Seed != 1 || p.X != 160 || p.Y != 0 {
		t.Errorf("seed %d, corner %v: half a millimetre is 160 ticks", rooms[1].Seed, p)
	}
	write("{")
	if rooms, err := sample.ReadOutlines(dir); err == nil {
		t.Errorf("a broken line reads as %v", rooms)
	}
	if rooms, err := sample.ReadOutlines(t.TempDir()); err == nil {
		t.Errorf("an empty folder reads as %v", rooms)
	}
}

// TestNet holds the area of a room against the one that the library finds and Check recounts.
func TestNet(t *testing.T) {
	rules := sample.Rules()
	planned := 0
	for seed := range uint64(40) {
		room := sample.Draw(sample.MixMixed, seed)
		job := room.Job(sample.Products()[1], &rules)
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if errors.Is(err, solve.ErrNoPlan) {
			continue
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		planned++
		if net := result.Plan.Waste.Net; net != room.Net {
			t.Errorf("seed %d: net %d, the plan says %d", seed, room.Net, net)
		}
	}
	if planned < 30 {
		t.Errorf("only %d of 40 rooms planned", planned)
	}
}

func TestParseProduct(t *testing.T) {
	for _, c := range []struct {
		text   string
		length measure.Length
		planks int
	}{
		{"48x7", 48 * measure.Inch, 9},                          // 20 sq ft / 2.333 = 8.57
		{"1220mm x 180mm", 1220 * measure.Millimetre, 8},        // 1.858 m2 / 0.2196 = 8.46
		{"36x6:12", 36 * measure.Inch, 12},                      // stated
		{"3ft x 6in", 36 * measure.Inch, 13},                    // 20 / 1.5 = 13.33
		{"1000mmx1000mm", 1000 * measure.Millimetre, 2},         // 1.858 rounds up
		{"2000mmx2000mm", 2000 * measure.Millimetre, 1},         // more than a box: one plank
		{"47 1/4 x 7 1/4", 47*measure.Inch + measure.Inch/4, 8}, // 8.41
	} {
		p, err := sample.ParseProduct(c.text)
		if err != nil || p.Plank.Length != c.length || p.Box.Planks != c.planks {
			t.Errorf("%q: %+v, %v", c.text, p, err)
		}
	}
	for _, text := range []string{
		"", "48", "48x", "x7", "48x7:", "48x7:0", "48x7:2.5", "-48x7", "48x7x9", "48x0",
		"99999999x7",
	} {
		if p, err := sample.ParseProduct(text); err == nil {
			t.Errorf("%q is read as %+v", text, p)
		}
	}
}
