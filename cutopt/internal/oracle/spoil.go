package oracle

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Spoil changes one thing of a plan that its planks, rows or figures cannot do without, and says what.
func Spoil(p *cutopt.Plan, r *rand.Rand) string {
	floor := &p.Floors[r.IntN(len(p.Floors))]
	i := r.IntN(len(floor.Rows))
	for len(floor.Rows[i].Runs) == 0 {
		i = r.IntN(len(floor.Rows))
	}
	row := &floor.Rows[i]
	run := &row.Runs[r.IntN(len(row.Runs))]
	m := r.IntN(len(run.Pieces))
	piece := &run.Pieces[m]
	use := &p.Planks[r.IntN(len(p.Planks))]
	for len(use.Pieces) == 0 {
		use = &p.Planks[r.IntN(len(p.Planks))]
	}
	by := measure.Length(1 + r.IntN(2000))
	if r.IntN(2) == 0 {
		by = -by
	}
	switch r.IntN(15) {
	case 0:
		if len(run.Pieces) > 1 {
			m = r.IntN(len(run.Pieces) - 1)
			a, b := &run.Pieces[m], &run.Pieces[m+1]
			a.To, b.From, a.Length, b.Length = a.To+by, b.From+by, a.Length+by, b.Length-by
			return fmt.Sprintf("joint %d of row %d moved by %d", m+1, i+1, by)
		}
		run.To += by
		return fmt.Sprintf("row %d ends %d further on", i+1, by)
	case 1:
		other := &floor.Rows[i].Runs[0].Pieces[0]
		if other.Plank == piece.Plank {
			other.Plank++
		} else {
			other.Plank, piece.Plank = piece.Plank, other.Plank
		}
		return "plank numbers exchanged"
	case 2:
		piece.Ends = (piece.Ends + cutopt.Ends(1+r.IntN(3))) % 4
		return fmt.Sprintf("ends of row %d piece %d changed to %v", i+1, m+1, piece.Ends)
	case 3:
		run.Pieces = slices.Delete(run.Pieces, m, m+1)
		return fmt.Sprintf("row %d piece %d dropped", i+1, m+1)
	case 4:
		row.To -= measure.Length(1 + r.IntN(2000))
		row.Width = row.To - row.From
		return fmt.Sprintf("row %d made narrower", i+1)
	case 5:
		floor.Rows = slices.Delete(floor.Rows, i, i+1)
		return fmt.Sprintf("row %d dropped", i+1)
	case 6:
		piece.To += by
		return fmt.Sprintf("row %d piece %d ends %d further on", i+1, m+1, by)
	case 7:
		run.From += by
		return fmt.Sprintf("row %d begins %d further on", i+1, by)
	case 8:
		use.Pieces = append(use.Pieces, use.Pieces[0])
		return fmt.Sprintf("plank %d lists a piece twice", use.Number)
	case 9:
		use.Cuts = append(use.Cuts, cutopt.Cut{At: measure.Length(1 + r.IntN(100_000))})
		return fmt.Sprintf("plank %d has a cut more", use.Number)
	case 10:
		use.Left = append(use.Left, cutopt.Leftover{From: 1, To: 2})
		return fmt.Sprintf("plank %d has an offcut more", use.Number)
	case 11:
		p.Planks = slices.Delete(p.Planks, use.Number-1, use.Number)
		return fmt.Sprintf("plank %d dropped", use.Number)
	case 12:
		q := &p.Quality
		count := []*int{
			&q.HJoints, &q.LongestChain, &q.Chains, &q.Staircases, &q.Clusters, &q.Crosscuts, &q.OffcutsAtOnce, &q.RowsWaited,
			&q.OddStarters,
			(*int)(nil),
		}[r.IntN(8)]
		if count == nil {
			q.LeastStagger += by
		} else {
			*count++
		}
		return "a figure of quality misstated"
	case 13:
		switch r.IntN(3) {
		case 0:
			p.Order.Planks -= 1 + r.IntN(2)
		case 1:
			p.Order.Left++
		default:
			p.Order.Kept++
		}
		return "planks miscounted"
	default:
		p.Waste.Offcuts += measure.Area(by)
		return "an area misstated"
	}
}
