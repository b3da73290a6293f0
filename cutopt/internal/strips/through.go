package strips

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A depth is how far a room reaches across the rows, less its narrowest gap.
type depth struct {
	room      int // number in the job
	low, high int64
}

// depths lists those of the rooms of a floor, in their order: one for a room of which there are several parts.
func (d *drawing) depths() []depth {
	var out []depth
	for i, ring := range d.placed() {
		n := depth{d.rooms[i].Number, ring[0].y, ring[0].y}
		for _, p := range ring {
			n.low, n.high = min(n.low, p.y), max(n.high, p.y)
		}
		gap := int64(slices.Min(d.rooms[i].Gaps))
		n.low, n.high = n.low+gap, n.high-gap
		k := slices.IndexFunc(out, func(o depth) bool { return o.room == n.room })
		if k < 0 {
			out = append(out, n)
			continue
		}
		out[k].low, out[k].high = min(out[k].low, n.low), max(out[k].high, n.high)
	}
	return out
}

// through tells, of a floor through several rooms, which line between two rows runs through most of them, and which
// rows each room takes.
func (f *Floor) through(d *drawing) {
	depths := d.depths()
	if len(depths) < 2 {
		return
	}
	best, most := 0, -1
	for i := range max(1, len(f.Rows)-1) {
		n := 0
		for _, o := range depths {
			if y := int64(f.Rows[i].To); o.low < y && y < o.high {
				n++
			}
		}
		if n > most {
			best, most = i, n
		}
	}
	f.tell(cutopt.Fact{
		Kind: cutopt.FactThrough, Row: best + 1, Across: f.Rows[best].To - f.Rows[0].From, Count: max(1, most),
	})
	for _, o := range depths {
		first, count := 0, 0
		for i, r := range f.Rows {
			if r.To > measure.Length(o.low) && r.From < measure.Length(o.high) {
				if count++; count == 1 {
					first = i
				}
			}
		}
		if count > 0 {
			f.tell(cutopt.Fact{Kind: cutopt.FactRoomRows, Room: o.room, Row: first + 1, Count: count})
		}
	}
}
