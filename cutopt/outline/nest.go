package outline

import (
	"cmp"
	"slices"

	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

// nest makes rooms and islands of single rings: a ring that lies in another is its island. Rooms come in the order of the
// drawing. Every decision is taken on whole numbers.
func nest(rings []polygon) ([]polygon, error) {
	order := make([]int, len(rings))
	areas := make([]measure.Area, len(rings))
	boxes := make([]box, len(rings))
	for i, p := range rings {
		area := outline.Area(p.rings[0])
		order[i], areas[i], boxes[i] = i, max(area, -area), boxOf(p.rings[0])
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(areas[b], areas[a]) })
	parent := make([]int, len(rings)) // the room that a ring is an island of; -1 for a room
	for k, i := range order {
		parent[i] = -1
		for _, j := range order[:k] {
			if !boxes[j].holds(boxes[i]) {
				continue
			}
			if _, ok := outline.Within(rings[i].rings[0], rings[j].rings[0]); !ok {
				continue
			}
			if parent[j] >= 0 {
				return nil, &Error{
					Format: formatDXF, Msg: "a closed polyline lies within one that lies within a third",
					Hint: "draw the outlines of rooms and of fixed things in them, and nothing else",
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
