package strips

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

func (f *Floor) tell(fact cutopt.Fact) { f.Facts = append(f.Facts, fact) }

// breaks asks for breaks of floors longer than the limits.
func (f *Floor) breaks(l *Layout) {
	rows := f.Rows
	if size := rows[len(rows)-1].To - rows[0].From; l.MaxAcross > 0 && size > l.MaxAcross {
		for _, row := range f.parted(size, l.MaxAcross) {
			f.tell(cutopt.Fact{
				Kind: cutopt.FactBreakAcross, Row: row + 1, Across: rows[row].To - rows[0].From, Length: size, Most: l.MaxAcross,
			})
		}
	}
	if l.MaxAlong <= 0 {
		return
	}
	var longest measure.Length
	at, which := 0, 0
	for i := range rows {
		for k, r := range rows[i].Runs {
			if r.To-r.From > longest {
				longest, at, which = r.To-r.From, i, k
			}
		}
	}
	parts := (longest + l.MaxAlong - 1) / l.MaxAlong
	for k := measure.Length(1); k < parts; k++ {
		f.tell(cutopt.Fact{
			Kind: cutopt.FactBreakAlong, Row: at + 1, Run: which + 1, At: longest * k / parts, Length: longest, Most: l.MaxAlong,
		})
	}
}

// parted returns the rows after which breaks part the floor, size across, into the fewest parts of about one width that
// are no wider than most, but for rows that are so alone.
func (f *Floor) parted(size, most measure.Length) []int {
	from := f.Rows[0].From
	for parts := (size + most - 1) / most; ; parts++ {
		var after []int
		row, ok, at := 0, true, measure.Length(0)
		for k := measure.Length(1); k <= parts && row < len(f.Rows); k++ {
			first := row
			for row++; row < len(f.Rows) && f.Rows[row].To-from <= size*k/parts; row++ {
			}
			end := f.Rows[row-1].To - from
			ok = ok && (end-at <= most || row-first == 1)
			at = end
			if row < len(f.Rows) {
				after = append(after, row-1)
			}
		}
		if ok && row == len(f.Rows) || parts > measure.Length(len(f.Rows)) {
			return after
		}
	}
}
