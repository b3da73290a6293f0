package outline_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"plank.example/cutopt"
	inner "plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/outline"
)

// simple draws a ring that neither crosses nor touches itself, on a small square in whole millimetres.
func simple(r *rand.Rand, side int) []measure.Point {
	for {
		var ring []measure.Point
		for range 3 + r.IntN(5) {
			ring = append(ring, measure.Point{X: measure.Length(r.IntN(side)) * mm, Y: measure.Length(r.IntN(side)) * mm})
		}
		if _, ok := inner.Simple(ring); ok {
			return ring
		}
	}
}

// texts writes rings, in millimetres, as a polygon with holes of GeoJSON and of WKT.
func texts(rings [][]measure.Point) (geojson, wkt string) {
	var g, w []string
	for _, ring := range rings {
		var gs, ws []string
		for _, c := range append(ring[:len(ring):len(ring)], ring[0]) {
			x, y := c.X.Decimal(measure.UnitMillimetre), c.Y.Decimal(measure.UnitMillimetre)
			gs, ws = append(gs, "["+x+","+y+"]"), append(ws, x+" "+y)
		}
		g, w = append(g, "["+strings.Join(gs, ",")+"]"), append(w, "("+strings.Join(ws, ", ")+")")
	}
	return `{"type":"Polygon","coordinates":[` + strings.Join(g, ",") + "]}", "POLYGON (" + strings.Join(w, ", ") + ")"
}

// drawing writes rings as closed polylines of a DXF drawing in millimetres.
func drawing(rings [][]measure.Point) string {
	var list []string
	for _, ring := range rings {
		var s []string
		for _, c := range ring {
			s = append(s, c.X.Decimal(measure.UnitMillimetre)+" "+c.Y.Decimal(measure.UnitMillimetre))
		}
		list = append(list, strings.Join(s, ";"))
	}
	return dxf("4", list...)
}

// TestFormatsAgree reads the same random rooms with an island from all three formats, at the origin and far from it,
// where they come back moved and otherwise the same.
func TestFormatsAgree(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 1))
		room := []measure.Point{
			{X: 0, Y: 0},
			{X: 9000 * mm, Y: 0},
			{X: measure.Length(5000+r.IntN(4000)) * mm, Y: 9000 * mm},
			{X: 0, Y: 9000 * mm},
		}
		island := simple(r, 3000)
		for i := range island {
			island[i].X += 1000*mm + measure.Length(r.IntN(300)) // off the millimetre
			island[i].Y += 1000 * mm
		}
		want := [][]measure.Point{room, island}
		shift := measure.Length(0)
		if seed%2 == 1 {
			shift = []measure.Length{2000, 1e9, -5e12}[r.IntN(3)] * measure.Metre // beyond a kilometre; the last is 5 billion km
			if shift < 0 {
				shift = -10_000_000_000 * measure.Metre
			}
		}
		var moved [][]measure.Point
		for _, ring := range want {
			var at []measure.Point
			for _, c := range ring {
				at = append(at, measure.Point{X: c.X + shift, Y: c.Y - shift})
			}
			moved = append(moved, at)
		}
		geojson, wkt := texts(moved)
		for format, text := range map[string]string{"GeoJSON": geojson, "WKT": wkt, "DXF": drawing(moved)} {
			rooms, err := outline.Read(strings.NewReader(text), in(measure.UnitMillimetre))
			if err != nil || len(rooms) != 1 || len(rooms[0].Islands) != 1 {
				t.Fatalf("seed %d, %s: %v, %v", seed, format, rooms, err)
			}
			if got := [][]measure.Point{rooms[0].Outline, rooms[0].Islands[0].Outline}; !reflect.DeepEqual(got, want) {
				t.Fatalf("seed %d, %s, moved by %v: %v, want %v", seed, format, shift, got, want)
			}
		}
	}
}

// TestNest holds which polylines are islands against the exact pass over all pairs, on grids small enough that sides
// touch, meet at corners and cross.
func TestNest(t *testing.T) {
	islands, touching := 0, 0
	for seed := range uint64(6000) {
		r := rand.New(rand.NewPCG(seed, 2))
		side := 4 + r.IntN(8)
		big, small := simple(r, side), simple(r, side)
		if r.IntN(3) == 0 {
			w := measure.Length(side) * mm
			big = []measure.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: w}, {X: 0, Y: w}}
		}
		if inner.Area(small) > inner.Area(big) {
			big, small = small, big
		}
		_, want := inner.Within(small, big)
		rooms, err := outline.Read(strings.NewReader(drawing([][]measure.Point{big, small})), nil)
		if err != nil {
			t.Fatal(err)
		}
		if got := len(rooms) == 1; got != want {
			t.Fatalf("seed %d: %v within %v is %v, want %v", seed, small, big, got, want)
		}
		if want {
			islands++
			if _, apart := inner.Apart(small, big); !apart && small[0] != big[0] {
				touching++
			}
		}
	}
	if islands < 500 || touching == 0 {
		t.Errorf("only %d islands: the test shows little", islands)
	}
}

// TestSagitta holds that chords stay within the sagitta and a tick of their arc and that their corners lie on it, for
// bulges from nearly straight to nearly a circle, small and large, near the origin and far from it.
func TestSagitta(t *testing.T) {
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 3))
		bulge := math.Exp(r.Float64()*8-5) * float64(1-2*r.IntN(2)) // 0.007 to 20
		chord := math.Exp(r.Float64() * 6)                          // 1 to 400 m
		sagitta := measure.Length(1 + r.IntN(2000))
		if b := math.Abs(bulge); chord*(1+b*b)/b > 900 {
			continue // the circle is wider than a drawing
		}
		off := []float64{0, 4e6, 9e9}[r.IntN(3)]
		text := dxf("6", fmt.Sprintf("%.4f 0 %.6f;%.4f 0;%.4f 1", off, bulge, off+chord, off+chord/2))
		opt := &outline.Options{Sagitta: sagitta}
		rooms, err := outline.Read(strings.NewReader(text), opt)
		if errors.Is(err, cutopt.ErrTooLarge) && off == 0 {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		ring := rooms[0].Outline
		n := len(ring)
		from, to := ring[0], ring[n-2]
		// The circle through both ends, from the bulge as written.
		b, err := fmt.Sscanf(fmt.Sprintf("%.6f", bulge), "%g", &bulge)
		if b != 1 || err != nil {
			t.Fatal(err)
		}
		d := float64(to.X - from.X)
		radius := d * (1 + bulge*bulge) / (4 * math.Abs(bulge))
		cx, cy := float64(from.X)+d/2, float64(from.Y)+d*(1-bulge*bulge)/(4*bulge)
		for i := range n - 2 {
			p, q := ring[i], ring[i+1]
			if off := math.Hypot(float64(p.X)-cx, float64(p.Y)-cy) - radius; math.Abs(off) > 1 {
				t.Fatalf("seed %d: corner %d lies %.1f ticks off the arc", seed, i, off)
			}
			half := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y)) / 2
			if half > radius {
				half = radius
			}
			if sag := radius - math.Sqrt(radius*radius-half*half); sag > float64(sagitta)+1 {
				t.Fatalf(
					"seed %d: chord %d of %d lies %.1f ticks from the arc of radius %.0f, sagitta %d",
					seed,
					i,
					n,
					sag,
					radius,
					sagitta,
				)
			}
		}
	}
}

// TestArcsAreBounded refuses arcs whose chords would not fit in memory, before they are made.
func TestArcsAreBounded(t *testing.T) {
	var many []string
	for i := range 2000 {
		many = append(many, fmt.Sprintf("0 %d 1;0 %d 1", i, i+1)) // circles 1 m across: some 1,600 chords each at a tick
	}
	_, err := outline.Read(strings.NewReader(dxf("6", strings.Join(many, ";"))), &outline.Options{Sagitta: 1})
	if !errors.Is(err, cutopt.ErrTooLarge) {
		t.Errorf("%v, want too many corners", err)
	}
}

// comb is an outline of n teeth with an island between each two of them, in millimetres.
func comb(n int) string {
	ring := []measure.Point{{X: 0, Y: 0}, {X: measure.Length(n) * 40 * mm, Y: 0}}
	rings := [][]measure.Point{nil}
	for k := n - 1; k >= 0; k-- {
		x := measure.Length(k) * 40 * mm
		ring = append(ring, measure.Point{X: x + 40*mm, Y: 500_000 * mm}, measure.Point{X: x + 20*mm, Y: 100 * mm})
		rings = append(rings, square(measure.Length(k)*40+12, 10, 5))
	}
	rings[0] = append(ring, measure.Point{X: 0, Y: 500_000 * mm})
	return drawing(rings)
}

// TestManyIslands reads an outline of 20,000 corners with 9,999 islands: each island must be found in it, and only in
// it.
func TestManyIslands(t *testing.T) {
	const n = outline.MaxRings - 1
	rooms, err := outline.Read(strings.NewReader(comb(n)), nil)
	if err != nil || len(rooms) != 1 || len(rooms[0].Islands) != n {
		t.Fatalf("%d rooms, %v", len(rooms), err)
	}
}

func BenchmarkRead(b *testing.B) {
	for _, n := range []int{100, 1000, outline.MaxRings - 1} {
		text := comb(n)
		b.Run(fmt.Sprintf("comb-%d", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := outline.Read(strings.NewReader(text), nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	geojson, wkt := texts([][]measure.Point{manyCorners(100_000)})
	for name, text := range map[string]string{"GeoJSON": geojson, "WKT": wkt} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := outline.Read(strings.NewReader(text), in(measure.UnitMillimetre)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func manyCorners(n int) []measure.Point {
	ring := make([]measure.Point, n)
	for i := range ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ring[i] = measure.Point{X: measure.Length(cos * 1e8), Y: measure.Length(sin * 1e8)}
	}
	return ring
}
