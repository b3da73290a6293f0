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
	open := make(map[passage]int) // doorways counted from one side whose other side was not met
	for i := range r.job.Rooms {
		room := &r.job.Rooms[i]
		for k := range room.Doorways {
			d := &room.Doorways[k]
			if d.Through || back(open, room.Name, d) {
				continue
			}
			kind := kinds[i][k]
			item := &items[kind]
			item.Stretches = append(item.Stretches, cutopt.Stretch{
				Room: i + 1, Wall: d.Wall + 1, At: d.At, Doorway: k + 1, Length: d.Width,
				Pieces: []measure.Length{d.Width},
			})
			item.Count++
			item.Length += d.Width
			pieces[kind] = append(pieces[kind], stock.Piece{Length: d.Width, Count: 1})
		}
	}
	profiles := make(map[cutopt.Transition]int)
	for i, p := range r.job.Materials.Transitions {
		profiles[p.Kind] = i
	}
	for _, s := range r.breaks(profiles) {
		item := &items[cutopt.TransitionLevel]
		item.Stretches = append(item.Stretches, s)
		item.Count++
		item.Length += s.Length
		for _, l := range s.Pieces {
			pieces[cutopt.TransitionLevel] = append(pieces[cutopt.TransitionLevel], stock.Piece{Length: l, Count: 1})
		}
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
			cutting, err := r.cut(fmt.Sprintf("transitions[%d].sticks", i+1), sizesOf(p.Sticks), r.job.Rules.Kerf,
				pieces[kind],
				cut.AimOffcut)
			if err != nil {
				return err
			}
			item.Cutting, item.Goods = cutting, goods(cutting, cutopt.GoodsStick, 0)
		}
		r.add(item)
	}
	return nil
}

// breaks lists the transitions that cover the breaks of the plan, between fields of one height; those longer than the
// sticks on sale in several pieces.
func (r *reckoner) breaks(profiles map[cutopt.Transition]int) []cutopt.Stretch {
	var stick measure.Length
	if i, ok := profiles[cutopt.TransitionLevel]; ok {
		stick = longest(sizesOf(r.job.Materials.Transitions[i].Sticks))
	}
	var list []cutopt.Stretch
	for _, b := range r.plan.Breaks {
		s := cutopt.Stretch{Room: b.Room + 1, Wall: b.Wall + 1, At: b.At, Doorway: b.Doorway + 1, Length: b.Length}
		if s.Pieces = []measure.Length{b.Length}; stick > 0 && b.Length > stick {
			s.Pieces = split(b.Length.Ceil(r.graduation()), stick, 0, splice)
		}
		list = append(list, s)
	}
	return list
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
