package walk

import "slices"

// Narrow counts the narrow stretches of one band.
func Narrow(circle, stagger int32, at []int32) int {
	b := newBands(len(at), circle, stagger)
	x := &band{}
	for i := range at {
		x.runs = append(x.runs, int32(i))
	}
	for i, at := range at {
		b.at[i] = at
		b.count(x, at, 1)
	}
	x.places = slices.Sorted(slices.Values(at))
	b.weigh(x)
	return x.narrow
}
