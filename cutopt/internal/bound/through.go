package bound

import "plank.example/cutopt/measure"

// A Reach is what each choice of a run costs at least, under prices.
type Reach struct {
	choices []choice // by run
	value   int64    // the cost of the cheapest layout of the forest
	grid    measure.Length
}

// Reach returns what the choices of every run cost under the best prices.
func (b *Bound) Reach() *Reach {
	b.eval.domains = b.domains
	return &Reach{b.eval.through(b.best), b.value, b.table.Instance.Grid}
}

// Size is how many starters on the grid all runs have together.
func (r *Reach) Size() (n int) {
	for i := range r.choices {
		for _, p := range r.choices[i].pieces {
			n += int((p.hi-p.lo)/r.grid) + 1
		}
	}
	return n
}

// Near lists, for every run, the starters (0 for one piece) that some layout of the forest uses whose cost is within
// slack planks of the cheapest; of each stretch of equal cost at most the given number, its ends among them. Every run
// has at least one.
func (r *Reach) Near(slack float64, most int) [][]measure.Length {
	limit := r.value + int64(slack*Den)
	out := make([][]measure.Length, len(r.choices))
	for i, c := range r.choices {
		if c.single <= limit {
			out[i] = append(out[i], 0)
		}
		for _, p := range c.pieces {
			if p.cost > limit {
				continue
			}
			n := int((p.hi-p.lo)/r.grid) + 1
			for k := range min(n, most) {
				at := k
				if n > most {
					at = k * (n - 1) / max(most-1, 1)
				}
				out[i] = append(out[i], p.lo+measure.Length(at)*r.grid)
			}
		}
	}
	return out
}

// through returns the choices of every run with the cost of the cheapest layout of the forest that makes them. It sends
// messages up the forest, as evaluate does, then down: O(log k) messages for each of the k runs that hang on one, and
// memory for what is returned.
func (e *evaluator) through(p *prices) []choice {
	n := len(e.parent)
	total, _ := e.evaluate(p, nil)
	t := &passage{e: e, p: p, up: append([]choice(nil), e.choices...), above: make([]choice, n)}
	children := make([][]int, n)
	for i, up := range e.parent {
		if up >= 0 {
			children[up] = append(children[up], i)
		}
	}
	full := make([]choice, n)
	for k := n - 1; k >= 0; k-- {
		i := e.order[k]
		if e.parent[i] < 0 {
			t.above[i] = e.own(i, p).plus(total - t.up[i].best()) // all other trees
		}
		full[i] = t.gather(i, t.above[i], children[i])
		t.share(i, t.above[i], children[i])
		t.above[i] = choice{}
	}
	return full
}

// A passage sends messages down a forest whose messages up are known.
type passage struct {
	e     *evaluator
	p     *prices
	up    []choice // of each run, its own cost and all that hangs on it
	above []choice // of each run, its own cost and all that reaches it through its parent
}

// gather returns the choices of a run with the cost of what hangs on the given ones of its children added.
func (t *passage) gather(i int, at choice, children []int) choice {
	mark := len(t.e.arena)
	t.e.choices[i] = at
	for _, s := range children {
		t.e.choices[s] = t.up[s]
		t.e.send(s, i, t.e.delta[s], t.up[s].best())
	}
	out := t.e.choices[i].plus(0)
	t.e.arena = t.e.arena[:mark]
	return out
}

// share tells the given children of a run what reaches them through it, the choices of the run holding the cost of all
// but them: each half of them is told with what hangs on the other half.
func (t *passage) share(i int, at choice, children []int) {
	if len(children) > 1 {
		half := len(children) / 2
		t.share(i, t.gather(i, at, children[half:]), children[:half])
		t.share(i, t.gather(i, at, children[:half]), children[half:])
		return
	}
	for _, s := range children {
		mark := len(t.e.arena)
		t.e.choices[i], t.e.choices[s] = at, t.e.own(s, t.p)
		t.e.send(i, s, -t.e.delta[s], at.best())
		t.above[s] = t.e.choices[s].plus(0)
		t.e.arena = t.e.arena[:mark]
	}
}

func (c choice) plus(x int64) choice {
	out := choice{single: c.single, pieces: make([]piece, len(c.pieces))}
	if out.single < infinite {
		out.single += x
	}
	for k, p := range c.pieces {
		p.cost += x
		out.pieces[k] = p
	}
	return out
}
