package solve_test

import (
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestCrumbAtAJamb: with a first row of 4 in a triangle of 2 1/4 by 1 1/8 in lies beside the metal jamb of french doors
// that rows pass at 45 degrees. Its round is 15/16 in, so nobody can hold it: the plan says so, Check finds one that
// does not, and where the first row is open another is taken.
func TestCrumbAtAJamb(t *testing.T) {
	const in = measure.Inch
	job, err := jobfile.Decode(strings.NewReader(`
unit: ft
plank: {length: 50 in, width: 8 3/4 in}
box: {planks: 7}
rooms:
  - name: Garden room
    walls: [13' 2" left, 10' 1" left 45, 4' 3" left 45, 7' 2" left 45, 4' 3" left 45, 10' 1" left]
    doorways:
      - {name: French doors, wall: 4, at: 1' 1", width: 5', depth: 2 in, casing: metal}
      - {name: House, wall: 1, at: 5' 2", width: 2' 8", depth: 5 in}
    islands:
      - {name: Stove, at: [9' 6", 6' 1"], size: 3' 8" x 3'}
    rows: {direction: diagonal}
`), "garden.yaml")
	if err != nil {
		t.Fatal(err)
	}
	job.Aims = []cutopt.Aim{}
	plan := func(first measure.Length) (*cutopt.Plan, int) {
		job.Rooms[0].Rows.FirstRow = first
		result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatal(err)
		}
		facts := result.Plan.Floors[0].Facts
		return result.Plan, slices.IndexFunc(facts, func(f cutopt.Fact) bool { return f.Kind == cutopt.FactStrip })
	}
	if p, at := plan(0); at >= 0 {
		t.Errorf("the first row is open, and the plan has %+v", p.Floors[0].Facts[at])
	}
	p, at := plan(4 * in)
	if at < 0 {
		t.Fatal("nothing is told of the triangle")
	}
	f := &p.Floors[0].Facts[at]
	if f.Width <= 7*in/8 || f.Width >= in || f.Length <= 2*in || f.Length >= 5*in/2 {
		t.Errorf("told %v over %v", f.Width, f.Length)
	}
	for _, c := range []struct {
		reason string
		change func()
		want   string
	}{
		{"as told", func() {}, ""},
		{"wider than it is", func() { f.Width = 31 * in / 32 }, "strip-other"},
		{"longer than it is", func() { f.Length += in / 8 }, "strip-elsewhere"},
		{"not told", func() { p.Floors[0].Facts = slices.Delete(p.Floors[0].Facts, at, at+1) }, "strip-untold"},
	} {
		was := *f
		c.change()
		kind := ""
		if found := check.Plan(job, p); len(found) > 0 {
			kind = found[0].Finding.Kind
		}
		if kind != c.want {
			t.Errorf("%s: %q, want %q", c.reason, kind, c.want)
		}
		*f = was
	}
}
