package walk

// Narrow counts the narrow stretches of one band.
func Narrow(circle, stagger int32, at []int32) int {
	b := &bands{circle: circle, stagger: stagger, at: at}
	x := &band{}
	for i := range at {
		x.sorted = append(x.sorted, int32(i))
	}
	b.sort(x)
	b.weigh(x)
	return x.narrow
}
