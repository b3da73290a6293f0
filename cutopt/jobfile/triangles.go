package jobfile

import (
	"fmt"
	"math"
	"slices"
)

// triangles place the corners of a room from lengths between them: corner 0 at the origin, corner 1 on the x axis, the
// room to the left of its walls. Products are converted before they are added, so that no machine fuses the two: all
// get the same.
type triangles struct {
	n         int
	spans     []span // the walls first
	inward    []int
	tolerance float64      // ticks
	at        [][2]float64 // of each corner, ticks
}

// place puts corner after corner to two others that it was measured from, and that were measured from each other. A
// room that n-3 diagonals inside it cut into triangles is placed whole. Such a triangle runs the way its corners do;
// one of three corners in a row whose middle one turns in lies outside the room, and runs the other way.
func (t *triangles) place(text func(float64) string) *Error {
	length := make(map[[2]int]float64, 2*len(t.spans))
	for _, s := range t.spans {
		length[[2]int{s.from, s.to}], length[[2]int{s.to, s.from}] = float64(s.length), float64(s.length)
	}
	t.at = make([][2]float64, t.n)
	placed := make([]bool, t.n)
	placed[0], placed[1] = true, true
	t.at[1] = [2]float64{length[[2]int{0, 1}], 0}
	for count := 2; count < t.n; count++ {
		a, b, k := t.next(placed, length)
		if k < 0 {
			loose := slices.Index(placed, false)
			return &Error{
				Msg: fmt.Sprintf("these diagonals leave corner %d loose: they do not cut the room into triangles", loose+1),
				Mend: fmt.Sprintf(
					"measure from corner %d to one that is fixed already; misclosure can only tell of what is measured",
					loose+1,
				),
			}
		}
		c, p, q := length[[2]int{a, b}], length[[2]int{a, k}], length[[2]int{b, k}]
		if short := max(c-p-q, p-c-q, q-c-p); short > t.tolerance {
			return &Error{
				Msg: fmt.Sprintf(
					"corner %d cannot lie %s from corner %d and %s from corner %d, which are %s apart: %s is missing, more than the "+
						"misclosure of %s",
					k+1,
					text(p),
					a+1,
					text(q),
					b+1,
					text(c),
					text(short),
					text(t.tolerance),
				),
				Mend: "measure the three again, or allow more with misclosure",
			}
		}
		t.at[k] = third(t.at[a], t.at[b], c, p, q, t.left(a, b, k))
		placed[k] = true
	}
	return nil
}

// next returns a corner to place and the two it is placed from, or -1.
func (t *triangles) next(placed []bool, length map[[2]int]float64) (a, b, k int) {
	for k := range t.n {
		if placed[k] {
			continue
		}
		var from []int // placed corners it was measured from
		for i := range t.n {
			if _, ok := length[[2]int{i, k}]; ok && placed[i] {
				from = append(from, i)
			}
		}
		for i, a := range from {
			for _, b := range from[i+1:] {
				if _, ok := length[[2]int{a, b}]; ok {
					return a, b, k
				}
			}
		}
	}
	return -1, -1, -1
}

// left reports whether corner k lies to the left of the way from a to b.
func (t *triangles) left(a, b, k int) bool {
	runs := (b-a+t.n)%t.n < (k-a+t.n)%t.n // a, b, k follow each other round the room
	corners := []int{a, b, k}
	for _, middle := range corners {
		before, after := (middle+t.n-1)%t.n, (middle+1)%t.n
		if slices.Contains(corners, before) && slices.Contains(corners, after) && slices.Contains(t.inward, middle) &&
			t.n > 3 {
			return !runs
		}
	}
	return runs
}

// third returns the corner that lies p from a and q from b, which are c apart, on one side of the way from a to b: by
// the cosine law x = (c² + p² - q²)/2c along it. Where the three lengths just miss each other it lies on the line.
func third(a, b [2]float64, c, p, q float64, left bool) [2]float64 {
	x := (float64(c*c) + float64((p-q)*(p+q))) / (2 * c)
	y := math.Sqrt(max(float64((p-x)*(p+x)), 0))
	if !left {
		y = -y
	}
	ux, uy := (b[0]-a[0])/c, (b[1]-a[1])/c // of length 1, but for what was adjusted before
	return [2]float64{a[0] + float64(x*ux) - float64(y*uy), a[1] + float64(x*uy) + float64(y*ux)}
}

// residual returns by how much the way between two corners is longer than it was measured.
func (t *triangles) residual(s span) float64 {
	a, b := t.at[s.from], t.at[s.to]
	return math.Hypot(b[0]-a[0], b[1]-a[1]) - float64(s.length)
}

// adjust moves the corners to the least sum of squared residuals, each measure counting alike, by Gauss and Newton's
// method: each step solves the normal equations of the residuals made linear. It reports whether that came to rest.
// O(corners³) a step.
func (t *triangles) adjust() bool {
	const steps, still = 100, 1e-4 // ticks
	unknowns := 2*t.n - 3
	for range steps {
		normal, right := t.normal(unknowns)
		move, ok := solveNormal(normal, right)
		if !ok {
			return false
		}
		largest := 0.0
		for u, m := range move {
			corner, axis := unknown(u)
			t.at[corner][axis] += m
			largest = max(largest, math.Abs(m))
		}
		if largest < still {
			return true
		}
	}
	return false
}

// unknown returns the corner and the axis of an unknown: corner 0 stays, and corner 1 on the x axis.
func unknown(u int) (corner, axis int) {
	if u == 0 {
		return 1, 0
	}
	return 2 + (u-1)/2, (u - 1) % 2
}

// normal returns the normal equations A'A x = -A'r of the residuals r.
func (t *triangles) normal(unknowns int) ([][]float64, []float64) {
	normal, right := make([][]float64, unknowns), make([]float64, unknowns)
	for i := range normal {
		normal[i] = make([]float64, unknowns)
	}
	for _, s := range t.spans {
		a, b := t.at[s.from], t.at[s.to]
		long := max(math.Hypot(b[0]-a[0], b[1]-a[1]), 1)
		direction := [2]float64{(b[0] - a[0]) / long, (b[1] - a[1]) / long}
		r := t.residual(s)
		var at []int // the unknowns of the two ends, and their slopes
		var slope []float64
		for end, corner := range [2]int{s.from, s.to} {
			for axis := range 2 {
				u := 2*corner - 3 + axis
				if corner == 1 {
					u = -axis // its x is unknown 0, its y none
				}
				if corner == 0 || u < 0 {
					continue
				}
				at, slope = append(at, u), append(slope, float64(2*end-1)*direction[axis])
			}
		}
		for i, u := range at {
			right[u] -= float64(slope[i] * r)
			for j, v := range at {
				normal[u][v] += float64(slope[i] * slope[j])
			}
		}
	}
	return normal, right
}

// solveNormal solves equations with a symmetric positive matrix by Cholesky's factors, in place. It fails where the
// matrix is singular: a corner that nothing holds.
func solveNormal(m [][]float64, x []float64) ([]float64, bool) {
	n := len(x)
	for i := range n {
		for j := 0; j <= i; j++ {
			sum := m[i][j]
			for k := range j {
				sum -= float64(m[i][k] * m[j][k])
			}
			if i > j {
				m[i][j] = sum / m[j][j]
			} else if sum < 1e-9 {
				return nil, false
			} else {
				m[i][i] = math.Sqrt(sum)
			}
		}
	}
	for i := range n {
		for k := range i {
			x[i] -= float64(m[i][k] * x[k])
		}
		x[i] /= m[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= float64(m[k][i] * x[k])
		}
		x[i] /= m[i][i]
	}
	return x, true
}
