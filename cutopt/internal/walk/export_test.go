package walk

// Narrow counts the narrow stretches of one band whose starters lie at some places, after each of the moves of a run to
// another place.
func Narrow(circle, stagger int32, at []int32, moves ...[2]int32) int {
	b := newBands(len(at), circle, stagger)
	x := band{runs: make([]int32, len(at)), places: make([]int32, len(at)), spare: -1}
	for i, at := range at {
		x.runs[i], b.at[i] = int32(i), at
		x.in[b.sectorOf(at)]++
	}
	b.all = []band{x}
	for _, m := range moves {
		b.weigh(&b.all[0])
		b.move(m[0], m[1])
	}
	b.weigh(&b.all[0])
	return b.all[0].narrow
}
