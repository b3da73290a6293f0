package counts_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// tiny draws two to five runs of a few lengths on a grid of a few lines a plank, one-piece runs and longer ones, none
// of which touch, with up to two offcuts on hand in one of three.
func tiny(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(
			8 + r.IntN(9),
		), Kerf: measure.Length(r.IntN(2)), MinPiece: measure.Length(1 + r.IntN(3)), Grid: 1,
	}
	in.Grid = measure.Length(1 + r.IntN(2))
	if r.IntN(3) == 0 {
		in.MinEnder = in.MinPiece + 1
	}
	short, long := measure.Length(2+r.IntN(int(in.Plank))), measure.Length(6+r.IntN(30))
	for range 2 + r.IntN(3) {
		w := short
		if r.IntN(2) == 0 {
			w = long
		}
		if r.IntN(4) == 0 {
			w++
		}
		run := rows.Run{Length: w}
		if r.IntN(6) == 0 {
			run.Beside = append(run.Beside, measure.Length(r.IntN(int(w)+1)))
			in.Stagger = measure.Length(1 + r.IntN(3))
		}
		in.Runs = append(in.Runs, run)
	}
	if r.IntN(3) == 0 {
		for range 1 + r.IntN(2) {
			ends := []rows.End{rows.EndLeft, rows.EndRight}
			length := 1 + measure.Length(r.IntN(int(in.Plank)-1))
			in.Offcuts = append(in.Offcuts, rows.Offcut{Length: length, End: ends[r.IntN(2)]})
		}
	}
	return in
}

// brute returns the fewest planks over all layouts, each cut up in every way, or -1 where some run cannot be laid.
func brute(in *rows.Instance) int {
	best := -1
	layout := make(rows.Layout, len(in.Runs))
	var lay func(i int)
	lay = func(i int) {
		if i == len(layout) {
			if n := pack(in, layout, best); best < 0 || n < best {
				best = n
			}
			return
		}
		for s := range in.Plank + 1 {
			if _, ok := in.Lay(i, s); ok {
				layout[i] = s
				lay(i + 1)
			}
		}
	}
	lay(0)
	return best
}

// pack returns the fewest planks for the pieces of a layout, or most where they are no fewer, by trying every piece on
// every plank opened so far, on a new one and on every offcut on hand: at most one starter and one ender a plank,
// singles anywhere, a kerf between pieces. Whole pieces take a plank.
func pack(in *rows.Instance, layout rows.Layout, most int) int {
	type part struct {
		kind rows.Role
		size measure.Length
	}
	type board struct {
		used, length           measure.Length // used with a kerf after each piece
		noStarter, noEnder, on bool           // on hand: it costs nothing
	}
	var parts []part
	var boards []board
	for _, o := range in.Offcuts {
		boards = append(
			boards,
			board{length: o.Length, noStarter: o.End != rows.EndRight, noEnder: o.End != rows.EndLeft, on: true},
		)
	}
	whole := 0
	for i, s := range layout {
		p, _ := in.Lay(i, s)
		whole += p.Field
		for _, q := range []part{{rows.RoleStarter, p.Starter}, {rows.RoleEnder, p.Ender}, {
			rows.RoleSingle,
			p.Single,
		}} {
			switch {
			case q.size == in.Plank:
				whole++
			case q.size > 0:
				parts = append(parts, q)
			}
		}
	}
	best := len(parts)
	if most >= 0 {
		best = min(best, most-whole)
	}
	var place func(k, opened int)
	place = func(k, opened int) {
		if opened >= best {
			return
		}
		if k == len(parts) {
			best = opened
			return
		}
		q := parts[k]
		for i := range boards {
			b := boards[i]
			if b.used+q.size > b.length || q.kind == rows.RoleStarter && b.noStarter || q.kind == rows.RoleEnder &&
				b.noEnder {
				continue
			}
			boards[i] = board{
				b.used + q.size + in.Kerf, b.length,
				b.noStarter || q.kind == rows.RoleStarter, b.noEnder || q.kind == rows.RoleEnder, b.on,
			}
			place(k+1, opened)
			boards[i] = b
		}
		boards = append(
			boards,
			board{q.size + in.Kerf, in.Plank, q.kind == rows.RoleStarter, q.kind == rows.RoleEnder, false},
		)
		place(k+1, opened+1)
		boards = boards[:len(boards)-1]
	}
	place(0, 0)
	return whole + best
}

// TestAgainstBruteForce counts tiny instances without stagger: as many planks as laying and cutting in every way, and
// never more where offcuts are on hand.
func TestAgainstBruteForce(t *testing.T) {
	n := uint64(1200)
	if testing.Short() {
		n = 400
	}
	equal, hand, equalHand := 0, 0, 0
	for seed := range n {
		in := tiny(rand.New(rand.NewPCG(seed, 43)))
		want := brute(in)
		floor := counts.Sort(starters.New(in))
		if floor == nil {
			if want >= 0 {
				t.Errorf("seed %d: not counted, but %d planks do", seed, want)
			}
			continue
		}
		c := counts.New(floor, 1<<20)
		got := c.Planks()
		cert := proof.Certificate{Planks: got, Tree: proof.Node{Counts: true}}
		if err := cert.Verify(in); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if cert.Planks++; cert.Verify(in) == nil {
			t.Errorf("seed %d: a leaf of counts verifies for %d planks, the count is %d: %+v", seed, got+1, got, in)
		}
		if got > want || got < want && len(in.Offcuts) == 0 {
			t.Errorf("seed %d: %d planks are counted, %d are needed: %+v", seed, got, want, in)
		}
		if len(in.Offcuts) > 0 {
			hand++
			if got == want {
				equalHand++
			}
		} else {
			equal++
		}
	}
	t.Logf("%d equal without offcuts; with offcuts %d of %d", equal, equalHand, hand)
	if equalHand < hand*95/100 {
		t.Errorf("with offcuts on hand only %d of %d counts are exact", equalHand, hand)
	}
}
