package outline_test

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

// ring reads corners such as "0,0 4,0 4,3".
func ring(t *testing.T, text string) []measure.Point {
	t.Helper()
	var points []measure.Point
	for _, field := range strings.Fields(text) {
		var p measure.Point
		if _, err := fmt.Sscanf(field, "%d,%d", &p.X, &p.Y); err != nil {
			t.Fatalf("%q: %v", field, err)
		}
		points = append(points, p)
	}
	return points
}

func TestSimple(t *testing.T) {
	for _, row := range []struct {
		name, ring string
		want       *outline.Flaw
	}{
		{"rectangle", "0,0 4,0 4,3 0,3", nil},
		{"the other way round", "0,3 4,3 4,0 0,0", nil},
		{"triangle", "0,0 4,1 2,5", nil},
		{"corners in line", "0,0 2,0 4,0 4,3 4,1000 0,1000 0,2", nil},
		{"repeated corners", "0,0 0,0 4,0 4,3 4,3 0,3 0,0", nil},
		{"U", "0,0 9,0 9,9 6,9 6,3 3,3 3,9 0,9", nil},
		{"spiral", "0,0 9,0 9,9 2,9 2,4 5,4 5,6 4,6 4,5 3,5 3,8 8,8 8,1 0,1", nil},
		{"a wall a tick away", "0,0 9,0 9,9 5,9 5,1 4,1 4,9 0,9", nil},
		{"no corners", "", &outline.Flaw{Kind: outline.FewCorners}},
		{"one place", "1,1 1,1 1,1 1,1", &outline.Flaw{Kind: outline.FewCorners}},
		{"there and back", "0,0 4,0", &outline.Flaw{Kind: outline.FewCorners}},
		{"bow tie", "0,0 4,4 4,0 0,4", &outline.Flaw{Kind: outline.Cross, I: 0, J: 2, At: measure.Point{X: 2, Y: 2}}},
		{"in line", "0,0 4,0 2,0", &outline.Flaw{Kind: outline.Fold, I: 2, J: 0}},
		{"spike", "0,0 4,0 4,4 2,4 2,8 2,4 0,4", &outline.Flaw{Kind: outline.Repeat, I: 3, J: 5, At: measure.Point{
			X: 2,
			Y: 4,
		}}},
		{"spike beyond its foot", "0,0 4,0 4,4 2,4 2,8 2,3 0,3", &outline.Flaw{
			Kind: outline.Touch, I: 3, J: 4,
			At: measure.Point{X: 2, Y: 4},
		}},
		{"corner on a wall", "0,0 8,0 8,4 4,0 0,4", &outline.Flaw{Kind: outline.Touch, I: 3, J: 0, At: measure.Point{X: 4}}},
		{"two corners in one place", "0,0 4,4 8,0 8,8 4,4 0,8", &outline.Flaw{
			Kind: outline.Repeat, I: 1, J: 4,
			At: measure.Point{X: 4, Y: 4},
		}},
		{"walls that share a stretch", "0,0 8,0 8,4 6,4 6,0 2,0 2,4 0,4", &outline.Flaw{
			Kind: outline.Touch, I: 5, J: 0,
			At: measure.Point{X: 2},
		}},
		{"repeated corners keep their numbers", "0,0 0,0 4,4 4,4 4,0 0,4", &outline.Flaw{
			Kind: outline.Cross, I: 1, J: 4,
			At: measure.Point{X: 2, Y: 2},
		}},
	} {
		flaw, ok := outline.Simple(ring(t, row.ring))
		if ok != (row.want == nil) {
			t.Errorf("%s: simple is %v (%+v)", row.name, ok, flaw)
		} else if row.want != nil && flaw != *row.want {
			t.Errorf("%s: flaw %+v, want %+v", row.name, flaw, *row.want)
		}
	}
}

// naive compares every pair of edges. It finds common points by solving for them with rationals, and shares nothing
// with the sweep.
func naive(r []measure.Point) bool {
	n := len(r)
	for i := range n {
		for j := i + 1; j < n; j++ {
			from, to, meet := common(r[i], r[(i+1)%n], r[j], r[(j+1)%n])
			if !meet {
				continue
			}
			follow := (i+1)%n == j || (j+1)%n == i
			if !follow || from.Cmp(to) != 0 {
				return false
			}
		}
	}
	return true
}

// common returns the stretch of the edge ab, as fractions of it, that the edge cd shares.
func common(a, b, c, d measure.Point) (from, to *big.Rat, meet bool) {
	// Points of ab are a + u(b-a) with 0 <= u <= 1. Along cd: w, across it: 0.
	ex, ey, fx, fy := rat(b.X-a.X), rat(b.Y-a.Y), rat(d.X-c.X), rat(d.Y-c.Y)
	gx, gy := rat(c.X-a.X), rat(c.Y-a.Y)
	det := sub(mul(fx, ey), mul(ex, fy))
	if det.Sign() != 0 {
		u := quo(sub(mul(fx, gy), mul(gx, fy)), det)
		w := quo(sub(mul(ex, gy), mul(gx, ey)), det)
		return u, u, unit(u) && unit(w)
	}
	if sub(mul(gx, ey), mul(gy, ex)).Sign() != 0 {
		return nil, nil, false
	}
	square := sub(mul(ex, ex), mul(rat(-1), mul(ey, ey)))
	u := quo(sub(mul(gx, ex), mul(rat(-1), mul(gy, ey))), square)
	v := sub(u, mul(rat(-1), quo(sub(mul(fx, ex), mul(rat(-1), mul(fy, ey))), square)))
	if u.Cmp(v) > 0 {
		u, v = v, u
	}
	if u.Sign() < 0 {
		u = rat(0)
	}
	if v.Cmp(rat(1)) > 0 {
		v = rat(1)
	}
	return u, v, u.Cmp(v) <= 0
}

func rat(l measure.Length) *big.Rat { return big.NewRat(int64(l), 1) }
func mul(a, b *big.Rat) *big.Rat    { return new(big.Rat).Mul(a, b) }
func sub(a, b *big.Rat) *big.Rat    { return new(big.Rat).Sub(a, b) }
func quo(a, b *big.Rat) *big.Rat    { return new(big.Rat).Quo(a, b) }
func unit(u *big.Rat) bool          { return u.Sign() >= 0 && u.Cmp(rat(1)) <= 0 }

// randomRing returns n corners on a small square, none the same as the one before it.
func randomRing(rng *rand.Rand, n int, side int64) []measure.Point {
	var r []measure.Point
	for len(r) < n {
		p := measure.Point{X: measure.Length(rng.Int64N(side)), Y: measure.Length(rng.Int64N(side))}
		if len(r) == 0 || r[len(r)-1] != p && (len(r) < n-1 || r[0] != p) {
			r = append(r, p)
		}
	}
	return r
}

func TestSimpleAgreesWithAllPairs(t *testing.T) {
	const seed = 5
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 5))
	simple := 0
	rings := oracle.Samples(12_000)
	for range rings {
		r := randomRing(rng, 3+rng.IntN(6), 3+rng.Int64N(8))
		_, ok := outline.Simple(r)
		if want := naive(r); ok != want {
			t.Fatalf("Simple(%v) = %v, all pairs say %v", r, ok, want)
		}
		if ok {
			simple++
		}
	}
	if simple < rings/12 {
		t.Errorf("only %d of the rings are simple: the test shows little", simple)
	}
}

// Large rings, simple and spoilt by one corner.
func TestSimpleLargeRings(t *testing.T) {
	const seed = 6
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 6))
	for range 60 {
		r := comb(5+rng.IntN(20), rng)
		if flaw, ok := outline.Simple(r); !ok {
			t.Fatalf("a comb of %d corners has the flaw %+v", len(r), flaw)
		}
		i := rng.IntN(len(r))
		r[i] = measure.Point{X: r[i].X + measure.Length(rng.IntN(41)-20), Y: r[i].Y + measure.Length(rng.IntN(4001)-2000)}
		if r[i] == r[(i+1)%len(r)] || r[i] == r[(i+len(r)-1)%len(r)] {
			continue
		}
		if _, ok := outline.Simple(r); ok != naive(r) {
			t.Fatalf("corner %d of %v: Simple says %v", i, r, ok)
		}
	}
}

// comb returns an outline of long slanted teeth.
func comb(teeth int, rng *rand.Rand) []measure.Point {
	r := []measure.Point{{X: -100, Y: 0}, {X: measure.Length(20 * teeth), Y: 0}}
	for k := teeth - 1; k >= 0; k-- {
		x := measure.Length(20 * k)
		top := measure.Length(500 + rng.IntN(500))
		r = append(r, measure.Point{X: x + 18, Y: top}, measure.Point{X: x + 9, Y: top}, measure.Point{X: x + 2, Y: 10})
	}
	return append(r, measure.Point{X: -100, Y: 10})
}

// The limits of the coordinates are exact too.
func TestSimpleAtTheLimits(t *testing.T) {
	const far = outline.MaxCoordinate
	r := []measure.Point{{X: -far, Y: -far}, {X: far, Y: far - 1}, {X: far, Y: far}}
	if flaw, ok := outline.Simple(r); !ok {
		t.Errorf("a needle of one tick has the flaw %+v", flaw)
	}
	r = append(r, measure.Point{X: -far, Y: -far + 1}, measure.Point{X: far - 1, Y: far - 1})
	if _, ok := outline.Simple(r); ok != naive(r) {
		t.Errorf("at the limits: Simple says %v", ok)
	}
	square := []measure.Point{{X: -far, Y: -far}, {X: far, Y: -far}, {X: far, Y: far}, {X: -far, Y: far}}
	if got, want := outline.Area(square), 4*1_000_000*measure.SquareMetre; got != want {
		t.Errorf("four square kilometres are %d, want %d", got, want)
	}
	inner := []measure.Point{{X: -far, Y: -far}, {X: far, Y: far - 1}, {X: far, Y: far}}
	if flaw, ok := outline.Within(inner, square); !ok {
		t.Errorf("the needle lies within the square, but for %+v", flaw)
	}
}

// Area against a published figure: OpenStax, Prealgebra 2e, "Rectangles, Triangles, Trapezoids": a trapezoid with sides
// of 62 and 50 in, 18.5 in apart, is 1036 square inches.
func TestArea(t *testing.T) {
	const in = measure.Inch
	trapezoid := []measure.Point{{}, {X: 62 * in}, {X: 56 * in, Y: 37 * in / 2}, {X: 6 * in, Y: 37 * in / 2}}
	if got, want := outline.Area(trapezoid), 1036*measure.SquareFoot/144; got != want {
		t.Errorf("the trapezoid is %s, want 1036 sq in = %s", got.Format(measure.UnitInch), want.Format(measure.UnitInch))
	}
	if got := outline.Area([]measure.Point{{X: 1}, {Y: 1}, {}}); got != 0 {
		t.Errorf("half a square tick is %d, want 0: rounded down", got)
	}
}

// polygon turns a ring into a polygon of the reference library.
func polygon(t *testing.T, r []measure.Point) geom.Geometry {
	t.Helper()
	var b strings.Builder
	for _, p := range append(r[:len(r):len(r)], r[0]) {
		fmt.Fprintf(&b, ",%d %d", p.X, p.Y)
	}
	g, err := geom.UnmarshalWKT("POLYGON((" + b.String()[1:] + "))")
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// simpleRing returns a random simple ring.
func simpleRing(rng *rand.Rand, side int64) []measure.Point {
	for {
		r := randomRing(rng, 3+rng.IntN(5), side)
		if _, ok := outline.Simple(r); ok {
			return r
		}
	}
}

// Within and Apart against the DE-9IM matrix of simplefeatures, on small grids where touching is common.
func TestWithinAndApartAgreeWithSimplefeatures(t *testing.T) {
	const seed = 8
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 8))
	var within, apart int
	for range oracle.Samples(6_000) {
		side := 3 + rng.Int64N(6)
		a, b := simpleRing(rng, side), simpleRing(rng, side)
		if rng.IntN(3) == 0 { // a ring around, so that many lie inside
			w := measure.Length(side - 1)
			b = []measure.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: w}, {X: 0, Y: w}}
		}
		matrix, err := geom.Relate(polygon(t, a), polygon(t, b))
		if err != nil {
			t.Fatal(err)
		}
		// Interior and interior; interior and exterior.
		wantApart, wantWithin := matrix[0] == 'F', matrix[2] == 'F'
		if flaw, ok := outline.Within(a, b); ok != wantWithin {
			t.Fatalf("Within(%v, %v) = %v (%+v), simplefeatures says %s", a, b, ok, flaw, matrix)
		}
		if flaw, ok := outline.Apart(a, b); ok != wantApart {
			t.Fatalf("Apart(%v, %v) = %v (%+v), simplefeatures says %s", a, b, ok, flaw, matrix)
		}
		if wantWithin {
			within++
		}
		if wantApart {
			apart++
		}
	}
	if within < 500 || apart < 500 {
		t.Errorf("%d within and %d apart: the test shows little", within, apart)
	}
}

func TestWithinSaysWhere(t *testing.T) {
	room := ring(t, "0,0 10,0 10,10 0,10")
	for _, row := range []struct {
		name, ring string
		want       *outline.Flaw
	}{
		{"inside", "2,2 4,2 4,4 2,4", nil},
		{"at a wall", "0,2 4,2 4,4 0,4", nil},
		{"in a corner", "0,0 4,0 4,4 0,4", nil},
		{"all of it", "0,0 10,0 10,10 0,10", nil},
		{"through a wall", "8,2 12,2 12,4 8,4", &outline.Flaw{Kind: outline.Cross, I: 0, J: 1, At: measure.Point{
			X: 10,
			Y: 2,
		}}},
		{"outside", "12,2 14,2 14,4 12,4", &outline.Flaw{Kind: outline.Outside, I: 0, At: measure.Point{X: 13, Y: 2}}},
		{"outside at a wall", "10,2 14,2 14,4 10,4", &outline.Flaw{Kind: outline.Outside, I: 0, At: measure.Point{
			X: 12,
			Y: 2,
		}}},
		{"around", "-1,-1 11,-1 11,11 -1,11", &outline.Flaw{Kind: outline.Outside, I: 0, At: measure.Point{X: 5, Y: -1}}},
	} {
		flaw, ok := outline.Within(ring(t, row.ring), room)
		if ok != (row.want == nil) || row.want != nil && flaw != *row.want {
			t.Errorf("%s: %v %+v, want %+v", row.name, ok, flaw, row.want)
		}
	}
}

func BenchmarkSimple(b *testing.B) {
	for _, teeth := range []int{3, 30, 300, 3000, 15000} {
		r := comb(teeth, rand.New(rand.NewPCG(1, 1)))
		flat := make([]measure.Point, len(r)) // the same with teeth along the sweep: all of them active at once
		for i, p := range r {
			flat[i] = measure.Point{X: p.Y, Y: p.X}
		}
		for name, ring := range map[string][]measure.Point{"upright": r, "flat": flat} {
			b.Run(fmt.Sprintf("%s/%d", name, len(ring)), func(b *testing.B) {
				for b.Loop() {
					if _, ok := outline.Simple(ring); !ok {
						b.Fatal("not simple")
					}
				}
			})
		}
	}
}

// BenchmarkWithin holds a round island of many corners against a round room of as many, just outside it.
func BenchmarkWithin(b *testing.B) {
	circle := func(n int, radius float64) []measure.Point {
		var out []measure.Point
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			out = append(out, measure.Point{X: measure.Length(radius * cos), Y: measure.Length(radius * sin)})
		}
		return out
	}
	for _, n := range []int{4000, 40_000} {
		outer, inner := circle(n, 5000*320), circle(n, 4999*320)
		b.Run(fmt.Sprintf("corners=%d", n), func(b *testing.B) {
			for b.Loop() {
				if f, ok := outline.Within(inner, outer); !ok {
					b.Fatal(f)
				}
			}
		})
	}
}
