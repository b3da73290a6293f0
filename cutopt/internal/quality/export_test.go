package quality

// Piles are the offcuts kept at the ends of rows.
type Piles = piles

// NewPiles has none.
func NewPiles(rows int) *Piles { return newPiles(rows) }

// Add adds 1 or -1 to the rows from one up to before another.
func (p *piles) Add(from, to int, by int32) { p.add(from, to, by) }

// Most is the largest pile, and at how many rows one lies.
func (p *piles) Most() (size, rows int) { return int(p.most), p.rows }
