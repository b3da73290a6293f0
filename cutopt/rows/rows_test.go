package rows_test

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// draw makes an instance of a few runs on a coarse grid, and a layout of it; singles allows one-piece runs.
func draw(r *rand.Rand, singles bool) (*rows.Instance, rows.Layout) {
	in := &rows.Instance{
		Plank: measure.Length(
			12 + r.IntN(20),
		), Kerf: measure.Length(r.IntN(3)), MinPiece: measure.Length(1 + r.IntN(4)), Grid: 1,
	}
	var layout rows.Layout
	for range 1 + r.IntN(12) {
		w := measure.Length(1 + r.IntN(int(4*in.Plank)))
		var fits rows.Layout
		for s := range in.Plank + 1 {
			in.Runs = append(in.Runs, rows.Run{Length: w})
			if _, ok := in.Lay(len(in.Runs)-1, s); ok && (s > 0 || singles) {
				fits = append(fits, s)
			}
			in.Runs = in.Runs[:len(in.Runs)-1]
		}
		if len(fits) > 0 {
			in.Runs = append(in.Runs, rows.Run{Length: w})
			layout = append(layout, fits[r.IntN(len(fits))])
		}
	}
	return in, layout
}

// matching returns the size of a largest matching of starters and left-ended offcuts with enders and right-ended
// offcuts, by augmenting paths. Each pair is a plank saved: starter and ender share one, an offcut is the one of a
// piece.
func matching(in *rows.Instance, starters, enders []measure.Length) int {
	var left, right []measure.Length // offcuts
	for _, o := range in.Offcuts {
		switch o.End {
		case rows.EndLeft:
			left = append(left, o.Length)
		case rows.EndRight:
			right = append(right, o.Length)
		}
	}
	fits := func(s, e int) bool {
		switch onLeft, onRight := s >= len(starters), e >= len(enders); {
		case onLeft && onRight:
			return false
		case onLeft:
			return enders[e] <= left[s-len(starters)]
		case onRight:
			return starters[s] <= right[e-len(enders)]
		}
		return starters[s]+enders[e]+in.Kerf <= in.Plank
	}
	of := make([]int, len(enders)+len(right))
	for e := range of {
		of[e] = -1
	}
	var augment func(s int, seen []bool) bool
	augment = func(s int, seen []bool) bool {
		for e := range of {
			if seen[e] || !fits(s, e) {
				continue
			}
			seen[e] = true
			if of[e] < 0 || augment(of[e], seen) {
				of[e] = s
				return true
			}
		}
		return false
	}
	n := 0
	for s := range len(starters) + len(left) {
		if augment(s, make([]bool, len(of))) {
			n++
		}
	}
	return n
}

// drawOffcuts puts up to n offcuts on hand.
func drawOffcuts(r *rand.Rand, in *rows.Instance, n int) {
	for range r.IntN(n) {
		in.Offcuts = append(in.Offcuts, rows.Offcut{
			Length: measure.Length(
				1 + r.IntN(int(in.Plank)),
			), End: []rows.End{rows.EndLeft, rows.EndRight, rows.EndNone}[r.IntN(3)],
		})
	}
}

// TestCountAgainstMatching holds the count of planks against a largest bipartite matching of starters and enders,
// without offcuts on hand and with them.
func TestCountAgainstMatching(t *testing.T) {
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 1))
		in, layout := draw(r, false)
		if seed%2 == 1 {
			drawOffcuts(r, in, 12)
		}
		var starters, enders []measure.Length
		want := 0
		for i, s := range layout {
			p, _ := in.Lay(i, s)
			want += p.Field
			if p.Starter == in.Plank {
				want++
			} else {
				starters = append(starters, p.Starter)
			}
			if p.Ender == in.Plank {
				want++
			} else {
				enders = append(enders, p.Ender)
			}
		}
		want += len(starters) + len(enders) - matching(in, starters, enders)
		if got := in.Count(layout, nil); got != want {
			t.Fatalf("seed %d: %d planks, the matching gives %d", seed, got, want)
		}
	}
}

// TestCut recounts the planks of a cutting: every piece lies on one plank or offcut, in an order that its factory ends
// allow, with a kerf between pieces.
func TestCut(t *testing.T) {
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 2))
		in, layout := draw(r, true)
		drawOffcuts(r, in, 4)
		cutting := in.Cut(layout, nil)
		if got := in.Count(layout, nil); got != len(cutting.Planks) {
			t.Fatalf("seed %d: Count says %d, Cut makes %d planks", seed, got, len(cutting.Planks))
		}
		var parts []rows.Part
		for _, p := range cutting.Planks {
			onPlank(t, seed, in, p, in.Plank, "both")
			parts = append(parts, p...)
		}
		for k, p := range cutting.Offcuts {
			onPlank(t, seed, in, p, in.Offcuts[k].Length, string(in.Offcuts[k].End))
			parts = append(parts, p...)
		}
		got := make(map[rows.Part]int)
		for _, p := range parts {
			got[p]++
		}
		want := make(map[rows.Part]int)
		for i, s := range layout {
			p, _ := in.Lay(i, s)
			if p.Single > 0 {
				want[rows.Part{Run: i, Role: rows.RoleSingle, Length: p.Single}]++
				continue
			}
			want[rows.Part{Run: i, Role: rows.RoleStarter, Length: p.Starter}]++
			want[rows.Part{Run: i, Role: rows.RoleEnder, Length: p.Ender}]++
			if p.Field > 0 {
				want[rows.Part{Run: i, Role: rows.RoleField, Length: in.Plank}] += p.Field
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("seed %d: pieces: %s", seed, diff)
		}
	}
}

func onPlank(t *testing.T, seed uint64, in *rows.Instance, parts []rows.Part, length measure.Length, end string) {
	t.Helper()
	used := -in.Kerf
	for k, p := range parts {
		used += p.Length + in.Kerf
		whole := p.Length == in.Plank
		if p.Role == rows.RoleEnder && !whole && (k > 0 || end == "right" || end == "none") {
			t.Fatalf("seed %d: an ender has no left factory end: %v on %v", seed, parts, end)
		}
		if p.Role == rows.RoleStarter && !whole && (k < len(parts)-1 || end == "left" || end == "none") {
			t.Fatalf("seed %d: a starter has no right factory end: %v on %v", seed, parts, end)
		}
	}
	if used > length {
		t.Fatalf("seed %d: %v take %d of %d", seed, parts, used, length)
	}
}

// TestOffcutReuse is US Army course EN1136, lesson 5: four 10-ft pieces cut to 5 ft 1 in leave 4 ft 11 in each, and
// uprights of 3 ft 7 in come from two of these. Here the 5 ft 1 in pieces are starters and the uprights enders; no
// kerf.
func TestOffcutReuse(t *testing.T) {
	long, upright := 5*measure.Foot+measure.Inch, 3*measure.Foot+7*measure.Inch
	in := &rows.Instance{Plank: 10 * measure.Foot, MinPiece: measure.Foot, Grid: measure.Inch}
	var layout rows.Layout
	for range 2 { // a starter of 5 ft 1 in and an ender of 3 ft 7 in
		in.Runs = append(in.Runs, rows.Run{Length: long + upright})
		layout = append(layout, long)
	}
	if left := in.Plank - long; left != 4*measure.Foot+11*measure.Inch || left < upright {
		t.Fatalf("10 ft less 5 ft 1 in is %d", left)
	}
	if got := in.Count(layout, nil); got != 2 {
		t.Errorf("two pieces of 5 ft 1 in and two of 3 ft 7 in: %d lengths of 10 ft, want 2", got)
	}
}

// TestRoundTrip writes instances and reads them back.
func TestRoundTrip(t *testing.T) {
	for seed := range uint64(50) {
		in, _ := draw(rand.New(rand.NewPCG(seed, 3)), true)
		if len(in.Runs) > 1 {
			in.Touch = [][2]int{{0, 1}}
		}
		in.Offcuts = []rows.Offcut{{Length: 3, End: rows.EndLeft}}
		var b bytes.Buffer
		if err := in.Encode(&b); err != nil {
			t.Fatal(err)
		}
		got, err := rows.Decode(&b)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(in, got); diff != "" {
			t.Errorf("seed %d: %s", seed, diff)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(
		[]byte(
			`{"plank": 48, "kerf": 0, "min_piece": 8, "stagger": 8, "grid": 1, "runs": [{"from": 0, "length": 100}], ` +
				`"touch": []}`,
		),
	)
	f.Add([]byte(`{"plank": -1}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		in, err := rows.Decode(bytes.NewReader(data))
		if err != nil {
			return
		}
		var b bytes.Buffer
		if err := in.Encode(&b); err != nil {
			t.Fatal(err)
		}
		if _, err := rows.Decode(&b); err != nil {
			t.Fatalf("what was read does not read back: %v", err)
		}
	})
}
