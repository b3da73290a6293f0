package sheet

import (
	"math"

	"plank.example/cutopt"
)

// A tile is the part of a floor that one page shows, in ticks of the floor's own axes.
type tile struct {
	min, max          spot
	firstRow, lastRow int
	column, columns   int // which part of its band of rows it is, from 0
}

func (t tile) width() float64  { return t.max.X - t.min.X }
func (t tile) height() float64 { return t.max.Y - t.min.Y }

// tiling cuts a floor into tiles for pages with the given room and returns the scale in points a tick. A page without
// height takes the floor as one tile. Tiles are cut between rows and overlap by nothing; they read from the starting
// wall, each band of rows from left to right.
func (b *book) tiling(i int, width, height float64) ([]tile, float64) {
	s, floor := &b.shapes[i], &b.plan.Floors[i]
	w, h := max(1, s.max.X-s.min.X), max(1, s.max.Y-s.min.Y)
	plank := float64(b.job.Plank.Width)
	most := rowMost / plank
	roomW := width - leftStrip - rightStrip - 2*rim
	whole := tile{min: s.min, max: s.max, lastRow: len(floor.Rows) - 1}
	if height <= 0 {
		return []tile{whole}, min(most, max(roomW/w, rowLeast/plank))
	}
	roomH := height - topStrip - bottomStrip - 96 - 2*rim // title and legend
	scale := min(most, roomW/w, roomH/h)
	if scale*plank >= rowLeast || len(floor.Rows) == 0 {
		return []tile{whole}, scale
	}
	return cutTiles(floor.Rows, whole, roomW, roomH, rowLeast/plank)
}

// rim is the room for the walls' lines outside the outline, in points.
const rim = 4

// sheetCount estimates the pages a floor takes when it is tiled.
func (b *book) sheetCount(i int, width, height float64) float64 {
	s, scale := &b.shapes[i], rowLeast/float64(b.job.Plank.Width)
	return max(1, (s.max.X-s.min.X)*scale/(width-200)) * max(1, (s.max.Y-s.min.Y)*scale/(height-250))
}

// cutTiles cuts a floor into bands of whole rows, as many to a page as fit, and bands into equal columns.
func cutTiles(rows []cutopt.PlanRow, whole tile, roomW, roomH, scale float64) ([]tile, float64) {
	columns := max(1, math.Ceil(whole.width()*scale/roomW-1e-9))
	step := whole.width() / columns
	var tiles []tile
	for first := 0; first < len(rows); {
		top, last := float64(rows[first].From), first
		if first == 0 {
			top = whole.min.Y
		}
		for last+1 < len(rows) && (float64(rows[last+1].To)-top)*scale <= roomH {
			last++
		}
		bottom := float64(rows[last].To)
		if last == len(rows)-1 {
			bottom = whole.max.Y
		}
		for c := range int(columns) {
			tiles = append(tiles, tile{
				min: spot{X: whole.min.X + float64(c)*step, Y: top}, max: spot{X: whole.min.X + float64(c+1)*step, Y: bottom},
				firstRow: first, lastRow: last, column: c, columns: int(columns),
			})
		}
		first = last + 1
	}
	return tiles, scale
}
