package takeoff

import (
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// splice is the shortest end of a stretch made of several pieces: where less would be left, the last two share what
// they cover. It is the distance of studs, so that both ends of a piece can be nailed: common practice.
const splice = 16 * measure.Inch

// trim lists every trim of the job, or the walls as base where it names none.
func (r *reckoner) trim() error {
	unseen := r.unseen()
	if len(r.job.Materials.Trim) == 0 {
		item := cutopt.Item{Kind: cutopt.ItemTrim, Unseen: unseen}
		if _, err := r.stretches(&item, &cutopt.Trim{}, 0); err != nil {
			return err
		}
		r.add(item)
		return nil
	}
	bare := r.bare()
	for i := range r.job.Materials.Trim {
		t := &r.job.Materials.Trim[i]
		item := cutopt.Item{
			Kind: cutopt.ItemTrim, Trim: t.Kind, Name: t.Name, Named: true, Thickness: t.Thickness,
			Unseen: unseen, Bare: bare,
		}
		pieces, err := r.stretches(&item, t, i)
		if err != nil {
			return err
		}
		cutting, err := r.cut(sticksOf(i), sizesOf(t.Sticks), r.job.Rules.Kerf, pieces, cut.AimOffcut)
		if err != nil {
			return err
		}
		item.Cutting, item.Goods = cutting, goods(cutting, cutopt.GoodsStick, 0)
		r.add(item)
	}
	return nil
}

// bare returns how much less all trims together hide than the widest gap along a wall and what the plan leaves open
// beside it: one stands before the other.
func (r *reckoner) bare() measure.Length {
	gap := r.job.Rules.Gap
	for i := range r.job.Rooms {
		for _, g := range r.job.Rooms[i].WallGaps {
			gap = max(gap, g)
		}
	}
	thick := measure.Length(0)
	for _, t := range r.job.Materials.Trim {
		thick += t.Thickness
	}
	return max(0, gap+r.job.Rules.Cover-thick)
}

// unseen counts the doorways into other rooms of the job that these do not show on their side.
func (r *reckoner) unseen() (n int) {
	known := make(map[string]bool, len(r.job.Rooms))
	open := make(map[passage]int)
	for i := range r.job.Rooms {
		known[r.job.Rooms[i].Name] = true
	}
	for i := range r.job.Rooms {
		room := &r.job.Rooms[i]
		for k := range room.Doorways {
			if d := &room.Doorways[k]; !d.Through && known[d.To] {
				back(open, room.Name, d)
			}
		}
	}
	for _, left := range open {
		n += left
	}
	return n
}

// sticksOf names the sticks of a trim.
func sticksOf(i int) string { return fmt.Sprintf("trim[%d].sticks", i+1) }

// stretches fills in what trim i covers, and returns its pieces.
func (r *reckoner) stretches(item *cutopt.Item, t *cutopt.Trim, i int) ([]stock.Piece, error) {
	var pieces []stock.Piece
	field := sticksOf(i)
	stick := longest(sizesOf(t.Sticks))
	for k := range r.rooms {
		for _, s := range r.rooms[k].spans(t.Casing, t.Islands) {
			stretch := cutopt.Stretch{Room: k + 1, Island: s.side.island, Length: s.length}
			stretch.Wall, stretch.At = s.place()
			var ends [2]stock.End
			if s.starts() {
				stretch.Outside[0], ends[0] = outside(t.Thickness, s.side.before)
			}
			if s.ends() {
				stretch.Outside[1], ends[1] = outside(t.Thickness, s.side.after)
			}
			if s.side.toLeft {
				slices.Reverse(stretch.Outside[:])
				slices.Reverse(ends[:])
			}
			long := s.length + stretch.Outside[0] + stretch.Outside[1]
			stretch.Pieces = split(long.Ceil(r.graduation()), stick, t.Thickness, splice, r.graduation())
			if stretch.Pieces == nil || stick > 0 && len(pieces)+len(stretch.Pieces) > maxPieces {
				return nil, tooMany(field)
			}
			for k, l := range stretch.Pieces {
				piece := stock.Piece{Length: l, Count: 1, Ends: [2]stock.End{{Mitre: 4500}, {Mitre: 4500}}}
				if k == 0 {
					piece.Ends[0] = ends[0]
				}
				if k == len(stretch.Pieces)-1 {
					piece.Ends[1] = ends[1]
				}
				if stick > 0 {
					pieces = append(pieces, piece)
				}
				item.Count++
				item.Length += l
			}
			item.Stretches = append(item.Stretches, stretch)
		}
	}
	return pieces, nil
}

// outside returns what the mitre at a corner adds to a trim, and that mitre: thickness x tan(turn/2) at an outside
// corner, rounded up to the tick, and a square end elsewhere. A corner that turns back on itself adds no more than one
// of 170 degrees.
func outside(thickness measure.Length, turn float64) (measure.Length, stock.End) {
	if turn <= 0 || bent(turn) {
		return 0, stock.End{}
	}
	half := min(turn, 170*math.Pi/180) / 2
	return measure.Length(math.Ceil(float64(float64(thickness)*math.Tan(half)) - 1e-6)),
		stock.End{Mitre: int(math.Round(half * 180 / math.Pi * 100))}
}

// split cuts a length into as few pieces as sticks allow: whole sticks and the rest, each joint taking so much of two
// pieces, which is less than a stick. A rest shorter than least shares with the piece before it, on the graduation.
// Without a stick it is one piece. It returns nil where they are too many.
func split(length, stick, joint, least, grid measure.Length) []measure.Length {
	if stick == 0 || length <= stick {
		return []measure.Length{length}
	}
	n := roundUp(length-joint, stick-joint)
	if n > maxPieces {
		return nil
	}
	all := length + measure.Length(n-1)*joint
	pieces := make([]measure.Length, n)
	for i := range pieces {
		pieces[i] = stick
	}
	pieces[n-1] = all - measure.Length(n-1)*stick
	if two := pieces[n-1] + stick; pieces[n-1] < least {
		half := (two - two/2).Ceil(grid)
		if half > stick {
			half = two - two/2
		}
		pieces[n-2], pieces[n-1] = half, two-half
	}
	return pieces
}
