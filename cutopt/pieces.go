package cutopt

import (
	"iter"
)

// Pieces yields the pieces of the plan in laying order: room by room, row by row from the starting side, and along each
// row from the end that is laid first.
func (p *Plan) Pieces() iter.Seq[*Piece] {
	return func(yield func(*Piece) bool) {
		for r := range p.Floors {
			room := &p.Floors[r]
			for w := range room.Rows {
				for piece := range room.Rows[w].pieces(room.From) {
					if !yield(piece) {
						return
					}
				}
			}
		}
	}
}

// pieces yields the pieces of the row, starting at the given end.
func (r *PlanRow) pieces(from Hand) iter.Seq[*Piece] {
	return func(yield func(*Piece) bool) {
		for u := range r.Runs {
			if from == HandRight {
				u = len(r.Runs) - 1 - u
			}
			run := &r.Runs[u]
			for i := range run.Pieces {
				if from == HandRight {
					i = len(run.Pieces) - 1 - i
				}
				if !yield(&run.Pieces[i]) {
					return
				}
			}
		}
	}
}
