package takeoff

import (
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// transitions lists those of each kind that the doorways take.
func (r *reckoner) transitions() error {
	kinds := r.job.DoorTransitions()
	items := make([]cutopt.Item, cutopt.TransitionNosing+1)
	pieces := make([][]stock.Piece, len(items))
	add := func(kind cutopt.Transition, s cutopt.Stretch) {
		item := &items[kind]
		item.Stretches = append(item.Stretches, s)
		for _, l := range s.Pieces {
			item.Count++
			item.Length += l
			pieces[kind] = append(pieces[kind], stock.Piece{Length: l, Count: 1})
		}
	}
	open := make(map[passage]int) // doorways counted from one side whose other side was not met
	for i := range r.job.Rooms {
		room := &r.job.Rooms[i]
		for k := range room.Doorways {
			if d := &room.Doorways[k]; !d.Through && !back(open, room.Name, d) {
				add(kinds[i][k], cutopt.Stretch{
					Room: i + 1, Wall: d.Wall + 1, At: d.At, Doorway: k + 1, Length: d.Width,
					Pieces: []measure.Length{d.Width},
				})
			}
		}
	}
	profiles := make(map[cutopt.Transition]int)
	for i, p := range r.job.Materials.Transitions {
		profiles[p.Kind] = i
	}
	breaks, err := r.breaks(profiles)
	if err != nil {
		return err
	}
	for _, s := range breaks {
		add(cutopt.TransitionLevel, s)
	}
	for kind := range items {
		item := items[kind]
		if item.Count == 0 {
			continue
		}
		item.Kind, item.Transition = cutopt.ItemTransition, cutopt.Transition(kind)
		if i, ok := profiles[item.Transition]; ok {
			p := &r.job.Materials.Transitions[i]
			item.Name, item.Named = p.Name, true
			cutting, err := r.cut(profileOf(i), sizesOf(p.Sticks), r.job.Rules.Kerf, pieces[kind], cut.AimOffcut)
			if err != nil {
				return err
			}
			item.Cutting, item.Goods = cutting, goods(cutting, cutopt.GoodsStick, 0)
		}
		r.add(item)
	}
	return nil
}

// profileOf names the sticks of a profile.
func profileOf(i int) string { return fmt.Sprintf("transitions[%d].sticks", i+1) }

// breaks lists the transitions that cover the breaks of the plan, between fields of one height; those longer than the
// sticks on sale in several pieces.
func (r *reckoner) breaks(profiles map[cutopt.Transition]int) ([]cutopt.Stretch, error) {
	var stick measure.Length
	level, ok := profiles[cutopt.TransitionLevel]
	if ok {
		stick = longest(sizesOf(r.job.Materials.Transitions[level].Sticks))
	}
	var list []cutopt.Stretch
	for _, b := range r.plan.Breaks {
		s := cutopt.Stretch{Room: b.Room + 1, Wall: b.Wall + 1, At: b.At, Doorway: b.Doorway + 1, Length: b.Length}
		if s.Pieces = []measure.Length{b.Length}; stick > 0 && b.Length > stick {
			s.Pieces = split(b.Length.Ceil(r.graduation()), stick, 0, splice, r.graduation())
		}
		if s.Pieces == nil {
			return nil, tooMany(profileOf(level))
		}
		list = append(list, s)
	}
	return list, nil
}

// A passage is a way from one room to another of the same width.
type passage struct {
	from, to string
	width    measure.Length
}

// back reports whether a doorway was counted from its other side, and else remembers it.
func back(open map[passage]int, from string, d *cutopt.Doorway) bool {
	if d.To == "" {
		return false
	}
	if other := (passage{d.To, from, d.Width}); open[other] > 0 {
		open[other]--
		return true
	}
	open[passage{from, d.To, d.Width}]++
	return false
}
