package cutopt

import (
	"iter"

	"plank.example/cutopt/measure"
)

// Piece returns the piece that a reference names; nil where the plan has none there.
func (p *Plan) Piece(ref PieceRef) *Piece {
	if ref.Floor < 0 || ref.Floor >= len(p.Floors) {
		return nil
	}
	rows := p.Floors[ref.Floor].Rows
	if ref.Row < 0 || ref.Row >= len(rows) || ref.Run < 0 || ref.Run >= len(rows[ref.Row].Runs) {
		return nil
	}
	pieces := rows[ref.Row].Runs[ref.Run].Pieces
	if ref.Piece < 0 || ref.Piece >= len(pieces) {
		return nil
	}
	return &pieces[ref.Piece]
}

// StripsServe reports whether a strip ripped off one piece of the plan could be wide enough for another: whether the
// two narrowest pieces and a kerf make no more than a plank's width. What is proven too few is then so with each piece
// taking a plank's full width.
func (p *Plan) StripsServe(width, kerf measure.Length) bool {
	least, next := width, width // of the two narrowest pieces
	for i := range p.Floors {
		for k := range p.Floors[i].Rows {
			row := &p.Floors[i].Rows[k]
			for piece := range row.pieces(HandLeft) {
				wide := row.Width
				for _, f := range piece.Shaping {
					if f.Kind == FactRip {
						wide -= f.Width
					}
				}
				if wide < least {
					least, next = wide, least
				} else {
					next = min(next, wide)
				}
			}
		}
	}
	return least+next+kerf <= width
}

// Pieces yields the pieces of the plan in laying order: floor by floor, row by row from the starting side, and along
// each row from the end that is laid first. Those of package laying know their row, and what they are cut from, too.
func (p *Plan) Pieces() iter.Seq[*Piece] {
	return func(yield func(*Piece) bool) {
		for r := range p.Floors {
			floor := &p.Floors[r]
			for w := range floor.Rows {
				for piece := range floor.Rows[w].pieces(floor.LaidFrom) {
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
