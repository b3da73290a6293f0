package outline

import (
	"cmp"
	"slices"

	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

// nest makes rooms and islands of single rings: a ring that lies in another is its island. Rooms come in the order of
// the drawing. Every decision is taken on whole numbers.
func nest(rings []polygon) ([]polygon, error) {
	order := make([]int, len(rings))
	areas := make([]measure.Area, len(rings))
	sides := make([]*sides, len(rings))
	for i, p := range rings {
		order[i], areas[i], sides[i] = i, outline.Area(p.rings[0]), newSides(p.rings[0])
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(areas[b], areas[a]) })
	parent := make([]int, len(rings)) // the room that a ring is an island of; -1 for a room
	for k, i := range order {
		parent[i] = -1
		for _, j := range order[:k] {
			if !sides[j].extent.holds(sides[i].extent) || !within(sides[i], sides[j]) {
				continue
			}
			if parent[j] >= 0 {
				return nil, &Error{
					Format: formatDXF, Msg: "a closed polyline lies within one that lies within a third",
					Mend: "draw the outlines of rooms and of fixed things in them, and nothing else",
				}
			}
			parent[i] = j
		}
	}
	islands := make(map[int][]int)
	for i, p := range parent {
		if p >= 0 {
			islands[p] = append(islands[p], i)
		}
	}
	var list []polygon
	for i, p := range rings {
		if parent[i] >= 0 {
			continue
		}
		for _, j := range islands[i] {
			p.rings = append(p.rings, rings[j].rings[0])
		}
		list = append(list, p)
	}
	return list, nil
}

// A box is the extent of a ring.
type box struct{ low, high measure.Point }

func boxOf(ring []measure.Point) box {
	b := box{ring[0], ring[0]}
	for _, c := range ring {
		b.low.X, b.low.Y = min(b.low.X, c.X), min(b.low.Y, c.Y)
		b.high.X, b.high.Y = max(b.high.X, c.X), max(b.high.Y, c.Y)
	}
	return b
}

func (b box) holds(c box) bool {
	return b.low.X <= c.low.X && b.low.Y <= c.low.Y && c.high.X <= b.high.X && c.high.Y <= b.high.Y
}

func (b box) meets(c box) bool {
	return b.low.X <= c.high.X && c.low.X <= b.high.X && b.low.Y <= c.high.Y && c.low.Y <= b.high.Y
}
