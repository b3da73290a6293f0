package bound

import "plank.example/cutopt/measure"

// Domain lists, for every run, the starters (0 for one piece) that some layout of the forest uses whose cost under the
// best prices is within slack planks of the bound; of each stretch of equal cost at most the given number, its ends
// among them. Every run has at least one.
func (b *Bound) Domain(slack float64, most int) [][]measure.Length {
	g := b.table.Instance.Grid
	limit := b.value + int64(slack*Den)
	b.eval.domains = b.domains
	full := b.eval.through(b.best)
	out := make([][]measure.Length, len(full))
	for i, c := range full {
		if c.single <= limit {
			out[i] = append(out[i], 0)
		}
		for _, p := range c.pieces {
			if p.cost > limit {
				continue
			}
			n := int((p.hi-p.lo)/g) + 1
			for k := range min(n, most) {
				at := k
				if n > most {
					at = k * (n - 1) / max(most-1, 1)
				}
				out[i] = append(out[i], p.lo+measure.Length(at)*g)
			}
		}
	}
	return out
}

// through returns the choices of every run with the cost of the cheapest layout of the forest that makes them. It sends
// messages up the forest, as evaluate does, then down.
func (e *evaluator) through(p *prices) []choice {
	n := len(e.parent)
	total, _ := e.evaluate(p, nil)
	up := append([]choice(nil), e.choices...)
	children := make([][]int, n)
	for i, up := range e.parent {
		if up >= 0 {
			children[up] = append(children[up], i)
		}
	}
	// above is a run's own cost and all that reaches it through its parent.
	above, full := make([]choice, n), make([]choice, n)
	gather := func(i, except int) {
		e.choices[i] = above[i]
		for _, s := range children[i] {
			if s != except {
				e.choices[s] = up[s]
				e.send(s, i, e.delta[s], up[s].best())
			}
		}
	}
	for k := n - 1; k >= 0; k-- {
		i := e.order[k]
		own := e.own(i, p)
		if par := e.parent[i]; par < 0 {
			above[i] = own.plus(total - up[i].best()) // all other trees
		} else {
			gather(par, i)
			e.choices[i] = own
			e.send(par, i, -e.delta[i], e.choices[par].best())
			above[i] = e.choices[i]
		}
		gather(i, -1)
		full[i] = e.choices[i]
	}
	return full
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
