package quality

// piles are how many offcuts are kept at the end of each row. Rows are in sections, so that a part kept over many rows
// takes a step for each section.
type piles struct {
	size     []int32 // by row: less what its section has in all
	sections []section
	most     int32 // the largest pile
	rows     int   // that have it
}

// A section is some rows in a row: their largest pile, how many of them have it, and what all of them have.
type section struct {
	most, all int32
	rows      int
}

const sectionRows = 64

// newPiles has no offcuts at the ends of so many rows, at least one.
func newPiles(rows int) *piles {
	p := &piles{size: make([]int32, rows), sections: make([]section, (rows-1)/sectionRows+1)}
	for k := range p.sections {
		p.sections[k].rows = min(rows-k*sectionRows, sectionRows)
	}
	p.rows = rows
	return p
}

// add adds 1 or -1 to the rows from one up to before another, of which there is at least one.
func (p *piles) add(from, to int, by int32) {
	changed := false
	for from < to {
		k := from / sectionRows
		begin := k * sectionRows
		end := min(begin+sectionRows, len(p.size))
		s := &p.sections[k]
		switch {
		case begin == from && end <= to:
			s.all += by
			s.most += by
			changed = true
		case by > 0:
			changed = s.more(p.size[from:min(end, to)]) || changed
		default:
			changed = s.less(p.size[from:min(end, to)], p.size[begin:end]) || changed
		}
		from = end
	}
	if !changed {
		return
	}
	p.most, p.rows = p.sections[0].most, 0
	for k := range p.sections {
		switch s := &p.sections[k]; {
		case s.most > p.most:
			p.most, p.rows = s.most, s.rows
		case s.most == p.most:
			p.rows += s.rows
		}
	}
}

// more adds 1 to some rows of a section and reports whether its figures are others then.
func (s *section) more(size []int32) bool {
	most, rows := s.most-s.all, s.rows
	for r := range size {
		size[r]++
		switch x := size[r]; {
		case x > most:
			most, rows = x, 1
		case x == most:
			rows++
		}
	}
	changed := most != s.most-s.all || rows != s.rows
	s.most, s.rows = most+s.all, rows
	return changed
}

// less takes 1 from some rows of a section, whose rows are all of the other list, and reports whether its figures are
// others then.
func (s *section) less(size, whole []int32) bool {
	most, rows := s.most-s.all, s.rows
	for r := range size {
		if size[r] == most {
			rows--
		}
		size[r]--
	}
	if rows == s.rows {
		return false
	}
	if s.rows = rows; rows > 0 {
		return true
	}
	most-- // only rows that had the largest pile lost it
	for _, x := range whole {
		if x == most {
			rows++
		}
	}
	s.most, s.rows = most+s.all, rows
	return true
}
