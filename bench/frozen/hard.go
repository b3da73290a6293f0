package frozen

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"plank.example/bench/strategy"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// A Part is one kind of hard instances: seeds from 1 on are drawn in order, laid, and kept where the rule says that
// they are hard, until there are as many as wanted.
type Part struct {
	Name   string
	Count  int
	Since  int // version of the set that it came with
	PerBox int // planks of a box, for parts of boxes
	Rule   string
	draw   func(seed uint64) *rows.Instance
	keep   func(*Entry) bool
}

// Parts are those that came with versions 2 and 3. Each rule can be read off an entry, of the day when it was chosen.
func Parts() []Part {
	open := func(e *Entry) bool { return e.Planks > e.Bound }
	return []Part{
		{
			Name: "gap", Count: 40, Since: 2, Rule: "the planks are two or more above what dividing lengths shows", draw: gap2,
			keep: func(e *Entry) bool { return e.Planks >= Division(e.Instance)+2 },
		},
		{
			Name: "cycle", Count: 50, Since: 2, draw: cycle2,
			Rule: "ties close three or more cycles, and the bound needs a split of cases or leaves planks open",
			keep: func(e *Entry) bool {
				return cycles(e.Instance) >= 3 && (open(e) || e.Certificate.Tree.Split != nil)
			},
		},
		{
			Name: "closet", Count: 50, Since: 2, draw: closet2,
			Rule: "four or more runs no longer than a plank, and the bound needs a split or counts or leaves planks open",
			keep: func(e *Entry) bool {
				return short(e.Instance) >= 4 && (open(e) || e.Certificate.Tree.Split != nil || counted(&e.Certificate.Tree))
			},
		},
		{
			Name: "hand", Count: 30, Since: 2, draw: hand2,
			Rule: "two or more offcuts on hand, joints laid beside a run, and planks above what dividing lengths shows",
			keep: func(e *Entry) bool { return len(e.Instance.Offcuts) >= 2 && e.Planks > Division(e.Instance) },
		},
		{
			Name: "box", Count: 20, Since: 2, PerBox: 9, draw: gap2ForBoxes,
			Rule: "boxes of nine planks, of which dividing lengths would allow fewer than the best known layout takes",
			keep: func(e *Entry) bool { return e.Figure() > boxes(Division(e.Instance), e.PerBox) },
		},
		{
			Name: "block", Count: 30, Since: 2, draw: block2,
			Rule: "ties close cycles, four or more runs no longer than a plank, and " +
				"planks are open",
			keep: func(e *Entry) bool { return open(e) && cycles(e.Instance) >= 1 && short(e.Instance) >= 4 },
		},
		{
			Name: "big", Count: 6, Since: 2, Rule: "a thousand runs or more", draw: big2,
			keep: func(e *Entry) bool { return len(e.Instance.Runs) >= 1000 },
		},
		{
			Name: "home", Count: 20, Since: 3, Rule: "planks are open", draw: home3, keep: open,
		},
	}
}

// gap2ForBoxes draws other seeds of gap2.
func gap2ForBoxes(seed uint64) *rows.Instance { return gap2(seed + 100_000) }

// Division is the bound that dividing lengths shows: all material with a kerf for each piece, less what is on hand,
// over a plank with one kerf.
func Division(in *rows.Instance) int {
	total := measure.Length(0)
	for _, r := range in.Runs {
		pieces := (r.Length + in.Plank - 1) / in.Plank // at least
		total += r.Length + pieces*in.Kerf
	}
	for _, o := range in.Offcuts {
		total -= o.Length + in.Kerf
	}
	whole := in.Plank + in.Kerf
	return int(max(0, (total+whole-1)/whole))
}

// cycles is how many ties there are beyond a forest.
func cycles(in *rows.Instance) int {
	parent := make([]int, len(in.Runs))
	for i := range parent {
		parent[i] = i
	}
	var root func(i int) int
	root = func(i int) int {
		if parent[i] != i {
			parent[i] = root(parent[i])
		}
		return parent[i]
	}
	n := 0
	for _, t := range in.Touch {
		if a, b := root(t[0]), root(t[1]); a == b {
			n++
		} else {
			parent[a] = b
		}
	}
	return n
}

// short counts runs that one piece may lay.
func short(in *rows.Instance) int {
	n := 0
	for _, r := range in.Runs {
		if r.Length <= in.Plank {
			n++
		}
	}
	return n
}

func counted(n *proof.Node) bool {
	return n != nil && (n.Counts || counted(n.Low) || counted(n.High))
}

// Hard draws the part, with the layouts and bounds that the library finds at the effort within the limit. Entries known
// by their ID are taken as they are, so that what was chosen once stays chosen.
func (p *Part) Hard(
	ctx context.Context,
	known map[string]*Entry,
	effort solve.Effort,
	limit time.Duration,
	by string,
) ([]*Entry, error) {
	var out []*Entry
	out = append(out, sorted(known, p.Name+"-")...)
	for seed := uint64(1); len(out) < p.Count && seed < 10_000; seed++ {
		e, err := p.Draw(seed)
		if err != nil || known[e.ID] != nil {
			continue
		}
		a, err := strategy.Library{Effort: effort, Limit: limit}.Lay(ctx, &strategy.Floor{Rows: e.Instance})
		if errors.Is(err, strategy.ErrNone) {
			continue
		}
		if err != nil || ctx.Err() != nil {
			return nil, errors.Join(err, ctx.Err())
		}
		if _, err := e.Improve(a, by); err != nil {
			return nil, err
		}
		if p.keep(e) {
			out = append(out, e)
		}
	}
	return out, nil
}

// Draw makes the instance of a seed, without results.
func (p *Part) Draw(seed uint64) (*Entry, error) {
	e := &Entry{
		ID: fmt.Sprintf("%s-%d", p.Name, seed), Since: p.Since, PerBox: p.PerBox, Instance: p.draw(seed),
		Origin: fmt.Sprintf("hard%d.%s(%d)", p.Since, p.Name, seed),
	}
	return e, e.Instance.Validate()
}

func sorted(known map[string]*Entry, prefix string) []*Entry {
	var out []*Entry
	for id, e := range known {
		if strings.HasPrefix(id, prefix) {
			out = append(out, e)
		}
	}
	slices.SortFunc(out, func(a, b *Entry) int { // by seed
		return cmp.Or(cmp.Compare(len(a.ID), len(b.ID)), cmp.Compare(a.ID, b.ID))
	})
	return out
}

// Same reports whether two instances are the same problem.
func Same(a, b *rows.Instance) bool {
	return a != nil && b != nil && fmt.Sprint(*a) == fmt.Sprint(*b)
}
