package slack_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/slack"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// column returns runs of the given lengths, as measured, that lie one beside the other and begin together, of planks of
// 48 in pieces of 8 or more, with a stagger of 8.
func column(fit measure.Length, lengths ...measure.Length) *rows.Instance {
	in := &rows.Instance{Plank: 48, MinPiece: 8, MinEnder: 8 + 2*fit, Stagger: 8 + 2*fit, Grid: 1}
	for i, l := range lengths {
		in.Runs = append(in.Runs, rows.Run{Length: l + fit})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	return in
}

func inOrder(n int) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	return order
}

// TestFind derives intervals by hand. The ender of a run of 110 is 62 less its starter, of one of 90 it is 42 less it,
// of one of 100 it is 52 less it; without kerf an ender leaves 48 less itself.
func TestFind(t *testing.T) {
	starter := func(run int, l measure.Length) rows.Part {
		return rows.Part{Run: run, Role: rows.RoleStarter, Length: l}
	}
	ender := func(run int, l measure.Length) rows.Part { return rows.Part{Run: run, Role: rows.RoleEnder, Length: l} }
	single := func(run int, l measure.Length) rows.Part {
		return rows.Part{Run: run, Role: rows.RoleSingle, Length: l}
	}
	type planks = [][]rows.Part
	two := planks{{starter(0, 40)}, {ender(0, 22), starter(1, 24)}, {ender(1, 38)}}
	exact := planks{{starter(0, 40)}, {ender(0, 22), starter(1, 24)}, {ender(1, 38), starter(2, 10)}, {ender(2, 32)}}
	for _, c := range []struct {
		name      string
		lengths   []measure.Length
		fit, most measure.Length
		layout    rows.Layout
		planks    planks
		sawn      int // a run that is sawn anyway, or -1
		want      []measure.Length
	}{
		{
			"an ender of 22 leaves 26 for a starter of 24",
			[]measure.Length{110, 110},
			0, 2,
			rows.Layout{40, 24},
			two, -1,
			[]measure.Length{0, 2},
		},
		{
			"more than is laid as it comes",
			[]measure.Length{110, 110},
			0, 1,
			rows.Layout{40, 24},
			two, -1,
			[]measure.Length{0, 0},
		},
		{"sawn anyway", []measure.Length{110, 110}, 0, 2, rows.Layout{40, 24}, two, 1, []measure.Length{0, 0}},
		{
			"a joint 8 to the right: it may not move",
			[]measure.Length{100, 100},
			0, 4,
			rows.Layout{22, 14},
			planks{{starter(0, 22)}, {ender(0, 30), starter(1, 14)}, {ender(1, 38)}},
			-1,
			[]measure.Length{0, 0},
		},
		{
			"walls out by 1: the ender of 22 may be 21 and leave 27",
			[]measure.Length{110, 110},
			1, 2,
			rows.Layout{40, 24},
			planks{{starter(0, 40)}, {ender(0, 23), starter(1, 24)}, {ender(1, 39)}},
			-1,
			[]measure.Length{0, 3},
		},
		{
			"the slack of the second goes on to the third",
			[]measure.Length{110, 110, 90},
			0, 2,
			rows.Layout{40, 24, 9},
			planks{{starter(0, 40)}, {ender(0, 22), starter(1, 24)}, {ender(1, 38), starter(2, 9)}, {ender(2, 33)}},
			-1,
			[]measure.Length{0, 2, 3},
		},
		{
			"what is laid before the ender of its plank is sawn from a new one",
			[]measure.Length{110, 110},
			0, 2,
			rows.Layout{24, 40},
			planks{{ender(1, 22), starter(0, 24)}, {starter(1, 40)}, {ender(0, 38)}},
			-1,
			[]measure.Length{0, 0},
		},
		{
			"an ender that leaves just a starter, for which no cut is planned: that comes longer too",
			[]measure.Length{110, 110, 90},
			0, 2,
			rows.Layout{40, 24, 10},
			exact, -1,
			[]measure.Length{0, 2, 2},
		},
		{
			"if it may not, the one before is sawn",
			[]measure.Length{110, 110, 90},
			0, 2,
			rows.Layout{40, 24, 10},
			exact,
			2,
			[]measure.Length{0, 0, 0},
		},
		{
			"behind a piece of 2, walls out by 2: it may come as long as a plank",
			[]measure.Length{2, 110},
			2, 2,
			rows.Layout{0, 44},
			planks{{single(0, 4), starter(1, 44)}, {ender(1, 20)}},
			-1,
			[]measure.Length{0, 4},
		},
		{
			"behind a piece of 1 it may not come longer than a plank: it is sawn",
			[]measure.Length{1, 110},
			2, 2,
			rows.Layout{0, 45},
			planks{{single(0, 3), starter(1, 45)}, {ender(1, 19)}},
			-1,
			[]measure.Length{0, 0},
		},
	} {
		in := column(c.fit, c.lengths...)
		if err := in.Check(c.layout); err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		p := &slack.Problem{
			Instance: in, Layout: c.layout, Planks: c.planks, Order: inOrder(len(c.layout)), Fit: c.fit, Most: c.most,
			Sawn: make([]bool, len(c.layout)),
		}
		if c.sawn >= 0 {
			p.Sawn[c.sawn] = true
		}
		if got := slack.Find(p); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// TestRandom lays random columns, saws walls and offcuts anew within what they may be out, and holds every rule; and no
// choice of starters to saw saves more cuts than Find does.
func TestRandom(t *testing.T) {
	found, columns := 0, oracle.Samples(1500)
	for seed := range uint64(columns) {
		r := rand.New(rand.NewPCG(seed, 15))
		p := draw(r)
		if p == nil {
			continue
		}
		longer := slack.Find(p)
		saved := 0
		for i, l := range longer {
			if l > 0 && planned(p, i) > 0 {
				saved++
			}
		}
		found += saved
		for range 20 {
			if broken := lay(p, longer, r); broken != "" {
				t.Fatalf("seed %d: %s: %+v longer %v", seed, broken, p, longer)
			}
		}
		if best := most(p); best != saved {
			t.Fatalf("seed %d: %d cuts are saved, %d can be: %+v longer %v", seed, saved, best, p, longer)
		}
	}
	if found < columns/8 {
		t.Errorf("only %d starters are laid as they come: the test shows little", found)
	}
}

// draw returns a column that keeps the rules, or nil.
func draw(r *rand.Rand) *slack.Problem {
	fit := measure.Length(r.IntN(2))
	lengths := make([]measure.Length, 2+r.IntN(5))
	for i := range lengths {
		lengths[i] = 80 + measure.Length(r.IntN(60))
	}
	in := column(fit, lengths...)
	layout := make(rows.Layout, len(lengths))
	for range 200 {
		for i := range layout {
			layout[i] = 8 + measure.Length(r.IntN(41))
		}
		if in.Check(layout) == nil {
			p := &slack.Problem{
				Instance: in, Layout: layout, Planks: in.Cut(layout, nil).Planks, Order: inOrder(len(layout)), Fit: fit,
				Most: measure.Length(r.IntN(8)), Sawn: make([]bool, len(layout)),
			}
			p.Sawn[r.IntN(len(layout))] = r.IntN(3) == 0
			return p
		}
	}
	return nil
}

// source returns the run whose ender leaves the offcut that the starter of run i is the last to be cut from, or -1.
func source(p *slack.Problem, i int) int {
	for _, parts := range p.Planks {
		if len(parts) == 2 && parts[1] == (rows.Part{Run: i, Role: rows.RoleStarter, Length: p.Layout[i]}) &&
			parts[0].Run < i {
			return parts[0].Run
		}
	}
	return -1
}

// measured is the ender of run i as measured.
func measured(p *slack.Problem, i int) measure.Length {
	pieces, _ := p.Instance.Lay(i, p.Layout[i])
	return pieces.Ender - p.Fit
}

// planned is how much longer than planned the offcut of starter i comes as measured.
func planned(p *slack.Problem, i int) measure.Length {
	return p.Instance.Plank - measured(p, source(p, i)) - p.Layout[i]
}

// lay lays the column with walls out by up to fit, each starter that is laid as it comes at its true length or sawn to
// any length between, and returns what breaks.
func lay(p *slack.Problem, longer []measure.Length, r *rand.Rand) string {
	in := p.Instance
	ender := make([]measure.Length, len(longer))
	var before []measure.Length
	for i, s := range p.Layout {
		offcut := s
		if from := source(p, i); from >= 0 {
			if offcut = in.Plank - ender[from]; offcut < s {
				return "an offcut is too short"
			}
			if offcut > s && longer[i] == 0 && planned(p, i) == 0 {
				return "a cut that is not planned"
			}
			if longer[i] > 0 && offcut > s+longer[i] {
				return "an offcut comes longer than its interval"
			}
		}
		actual := s
		if longer[i] > 0 {
			actual += measure.Length(r.IntN(int(offcut-s) + 1))
			if r.IntN(2) == 0 {
				actual = offcut
			}
		}
		if s == in.Plank && actual != s {
			return "a whole plank is longer"
		}
		out := measure.Length(0)
		if p.Fit > 0 {
			out = measure.Length(r.IntN(3) - 1)
		}
		ender[i] = measured(p, i) + out - (actual - s)
		switch {
		case ender[i] < in.MinPiece:
			return "an ender is too short"
		case p.Fit == 0 && measured(p, i) == in.Plank && ender[i] < in.Plank:
			return "a whole ender is sawn"
		}
		for _, parts := range p.Planks {
			if len(parts) == 2 && parts[0].Role == rows.RoleEnder && parts[0].Run == i && parts[1].Run <= i {
				if left := in.Plank - p.Layout[parts[1].Run]; ender[i] > left || ender[i] < measured(p, i) &&
					measured(p, i) == left {
					return "an ender does not suit what a starter left"
				}
			}
		}
		var joints []measure.Length
		pieces, _ := in.Lay(i, s)
		for k := range pieces.Joints() {
			joints = append(joints, actual+measure.Length(k)*in.Plank)
		}
		for _, a := range joints {
			for _, b := range before {
				if a-b < in.Stagger && b-a < in.Stagger {
					return "joints come too near"
				}
			}
		}
		before = joints
	}
	return ""
}

// most tries every choice of starters to lay as they come, with all that follows from it, and returns how many cuts the
// best saves. A choice will do when its longest lengths, each by itself against the others as planned, keep the rules.
func most(p *slack.Problem) int {
	n, best := len(p.Layout), 0
	for choice := range 1 << n {
		longer, saved, ok := make([]measure.Length, n), 0, true
		for i := range n {
			from := source(p, i)
			loose := choice>>i&1 == 1
			if from < 0 {
				ok = ok && !loose
				continue
			}
			over := planned(p, i)
			if loose && (over > p.Most || p.Sawn[i] || over == 0) {
				ok = false
			}
			if over == 0 && longer[from] > 0 {
				ok = ok && !p.Sawn[i]
				longer[i] = longer[from]
			}
			if loose {
				longer[i] = over + p.Fit + longer[from]
				saved++
			}
		}
		if ok && saved > best && keeps(p, longer) {
			best = saved
		}
	}
	return best
}

// keeps reports whether each run may move as far as its starter may come longer.
func keeps(p *slack.Problem, longer []measure.Length) bool {
	for i := range longer {
		if longer[i] == 0 {
			continue
		}
		for _, others := range []int{i - 1, i + 1} {
			if others < 0 || others >= len(longer) {
				continue
			}
			mine, _ := p.Instance.Lay(i, p.Layout[i])
			theirs, _ := p.Instance.Lay(others, p.Layout[others])
			for k := range mine.Joints() {
				for m := range theirs.Joints() {
					a := p.Layout[i] + measure.Length(k)*p.Instance.Plank
					b := p.Layout[others] + measure.Length(m)*p.Instance.Plank
					if b > a && b-a-longer[i] < p.Instance.Stagger {
						return false
					}
				}
			}
		}
		if measured(p, i)-p.Fit-longer[i] < p.Instance.MinPiece || p.Fit == 0 && measured(p, i) == p.Instance.Plank {
			return false
		}
		for _, parts := range p.Planks {
			if p.Fit == 0 && len(parts) == 2 && parts[0].Role == rows.RoleEnder && parts[0].Run == i &&
				parts[1].Run <= i && parts[0].Length+parts[1].Length == p.Instance.Plank {
				return false
			}
		}
	}
	return true
}
