package counts

import "plank.example/cutopt/measure"

// bins is the most stretches that a plank is cut into to see where starters crowd.
const bins = 8

// A crowd counts the starters of each kind by where on the plank they lie: runs that touch, and those of one kind
// mostly do, can not all start within one stagger.
type crowd struct {
	number int     // bins in use, none shorter than the stagger
	counts []int16 // by kind and bin
}

func (f *Floor) newCrowd() crowd {
	n := bins
	if f.in.Stagger > 0 {
		n = int(min(f.in.Plank/f.in.Stagger, bins))
	}
	return crowd{n, make([]int16, len(f.Kinds)*bins)}
}

// of returns the counts of kind k.
func (c *crowd) of(k int) []int16 { return c.counts[k*bins : (k+1)*bins] }

func (c *crowd) add(k, bin int) {
	if bin >= 0 {
		c.counts[k*bins+bin]++
	}
}

// bin is where the starter lies that a run of kind k has when it is laid from x, or -1 where it is laid in one piece.
func (f *Floor) bin(k, number int, x point) int {
	kind := &f.Kinds[k]
	s := x.left()
	if kind.hand != "" || number < 3 || kind.Single && s >= kind.Length {
		return -1
	}
	if s == 0 { // from a plank of its own
		if kind.Single {
			return -1
		}
		s = kind.Segments[len(kind.Segments)-1].Hi
	}
	return int((s - 1) * measure.Length(number) / f.in.Plank)
}

// excess is by how many runs a bin and half of those beside it would hold more than half the runs of kind k with one
// more. counts are those of the kind.
func excess(counts []int16, number, bin int) float64 {
	if bin < 0 {
		return 0
	}
	sum := int16(1)
	for _, n := range counts[:number] {
		sum += n
	}
	beside := counts[(bin+1)%number] + counts[(bin+number-1)%number]
	return max(0, float64(counts[bin]+1)+float64(float64(beside)/2)-float64(float64(sum)/2)-1)
}
