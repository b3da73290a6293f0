package sample

import "fmt"

// KindHouse is the kind of the rooms of a house together.
const KindHouse Kind = "house"

// houseRooms is how many dwelling rooms a house has: our assumption.
const houseRooms = 5

// house makes the house of a seed: the dwelling rooms of five seeds.
func house(seed uint64) *Room {
	all := &Room{Mix: MixHouse, Seed: seed, Kind: KindHouse, Shape: ShapeRooms}
	for i := range uint64(houseRooms) {
		room := Draw(MixDwelling, houseRooms*seed+i)
		room.Plan.Name = fmt.Sprintf("%s %d", room.Plan.Name, i+1)
		all.Net += room.Net
		if i == 0 {
			all.Plan = room.Plan
		} else {
			all.Others = append(all.Others, room.Plan)
		}
	}
	return all
}
