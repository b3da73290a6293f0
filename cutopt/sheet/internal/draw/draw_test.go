package draw_test

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/color"
	"image/png"
	"io"
	"iter"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"plank.example/cutopt/sheet/internal/draw"
	"plank.example/cutopt/sheet/internal/print"
)

// sample is a page with everything the model has.
func sample() *draw.Drawing {
	d := &draw.Drawing{Width: 200, Height: 120, Title: "A & B", Paper: 0xffffff}
	ring := []draw.Point{{X: 20, Y: 20}, {X: 120, Y: 20}, {X: 120, Y: 60}, {X: 20, Y: 60}}
	d.Polygon(0xcfe1f0, draw.Pen{Colour: 0, Width: 1}, ring...)
	d.Hatch(draw.HatchCross, draw.Pen{Colour: 0x808080, Width: 0.5}, 6, ring)
	d.Line(draw.Pen{Colour: 0x800000, Width: 2, Dash: 4}, draw.Point{X: 10, Y: 80}, draw.Point{X: 190, Y: 80})
	d.Arrow(draw.Pen{Colour: 0x0b4f7d, Width: 1.5}, 8, draw.Point{X: 130, Y: 30}, draw.Point{X: 180, Y: 60})
	d.Circle(0xffffff, draw.Pen{Colour: 0, Width: 1}, draw.Point{X: 150, Y: 95}, 12)
	d.Write(draw.Text{At: draw.Point{X: 20, Y: 100}, Str: `S 22 1/4" <b>`, Size: 12, Bold: true, Colour: 0})
	d.Write(draw.Text{At: draw.Point{X: 190, Y: 70}, Str: "134 in", Size: 9, Colour: 0, Up: true, Anchor: draw.Middle})
	d.Add(draw.Clip{Min: draw.Point{X: 0, Y: 105}, Max: draw.Point{X: 50, Y: 115}})
	d.Rect(0x00aa00, draw.Pen{}, 40, 100, 40, 20)
	d.Add(draw.Clip{})
	return d
}

func one(d *draw.Drawing) iter.Seq[*draw.Drawing] {
	return func(yield func(*draw.Drawing) bool) { yield(d) }
}

func TestSameBytesEveryTime(t *testing.T) {
	for name, write := range map[string]func(io.Writer) error{
		"svg": func(w io.Writer) error { return sample().SVG(w) },
		"png": func(w io.Writer) error { return print.PNG(w, sample(), 100) },
		"pdf": func(w io.Writer) error { return print.PDF(w, "t", "en", one(sample())) },
	} {
		var a, b bytes.Buffer
		if err := write(&a); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if err := write(&b); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: two writings of one drawing differ", name)
		}
	}
}

func TestSVGIsXML(t *testing.T) {
	d := sample()
	d.Title = "<script>alert(1)</script>\x00\xff]]>&amp;"
	var buf bytes.Buffer
	if err := d.SVG(&buf); err != nil {
		t.Fatal(err)
	}
	dec, texts := xml.NewDecoder(&buf), ""
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if tok.Name.Local == "script" {
				t.Error("a title became an element")
			}
		case xml.CharData:
			texts += string(tok)
		}
	}
	for _, want := range []string{"<script>alert(1)</script>\ufffd\ufffd]]>&amp;", `S 22 1/4" <b>`} {
		if !strings.Contains(texts, want) {
			t.Errorf("text %q is not in the file", want)
		}
	}
}

// The picture at 72 dots per inch has one pixel a point, so pixels can be named by hand.
func TestPNGPixels(t *testing.T) {
	img := paint(t, sample(), 72)
	for _, c := range []struct {
		x, y int
		want color.RGBA
		why  string
	}{
		{5, 5, color.RGBA{255, 255, 255, 255}, "paper"},
		{60, 19, color.RGBA{127, 127, 127, 255}, "the border is 1 point wide, half of it outside the ring"},
		{45, 110, color.RGBA{0, 170, 0, 255}, "within the clip"},
		{60, 110, color.RGBA{255, 255, 255, 255}, "right of the clip"},
		{45, 102, color.RGBA{255, 255, 255, 255}, "above the clip"},
		{12, 80, color.RGBA{128, 0, 0, 255}, "the first dash"},
		{16, 80, color.RGBA{255, 255, 255, 255}, "the first space"},
	} {
		r, g, b, a := img.At(c.x, c.y).RGBA()
		got := color.RGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), uint8(a >> 8)}
		if far(got.R, c.want.R) || far(got.G, c.want.G) || far(got.B, c.want.B) {
			t.Errorf("pixel %d, %d is %v, want %v: %s", c.x, c.y, got, c.want, c.why)
		}
	}
}

func far(a, b uint8) bool { return max(a, b)-min(a, b) > 3 }

func paint(t *testing.T, d *draw.Drawing, dpi float64) image.Image {
	t.Helper()
	var buf bytes.Buffer
	if err := print.PNG(&buf, d, dpi); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&buf)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func TestPNGIsBounded(t *testing.T) {
	for _, size := range [][2]float64{{1e6, 1e6}, {1e12, 1}, {1, 1e12}} {
		d := &draw.Drawing{Width: size[0], Height: size[1], Paper: 0xffffff}
		d.Line(draw.Pen{Width: 1, Dash: 1}, draw.Point{}, draw.Point{X: size[0], Y: size[1]})
		b := paint(t, d, 300).Bounds()
		if b.Dx()*b.Dy() > print.MaxPixels*11/10 || b.Dx() > print.MaxSide+1 || b.Dy() > print.MaxSide+1 {
			t.Errorf("%v points became %v pixels", size, b)
		}
	}
}

// Every hatch line lies within its ring, whatever the ring; and in a wide rectangle their number is the width's.
func TestHatchStaysInside(t *testing.T) {
	const seed = 7
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	for range 200 {
		ring := make([]draw.Point, 3+rng.IntN(5))
		for i := range ring { // corners in order of their angle: a star-shaped ring
			a := (float64(i) + 0.9*rng.Float64()) / float64(len(ring)) * 2 * math.Pi
			r := 10 + 40*rng.Float64()
			ring[i] = draw.Point{X: 60 + r*math.Cos(a), Y: 60 + r*math.Sin(a)}
		}
		for h := draw.HatchRising; h <= draw.HatchUpright; h++ {
			d := &draw.Drawing{}
			d.Hatch(h, draw.Pen{Width: 1}, 4, ring)
			for _, s := range d.Shapes {
				for _, l := range s.(draw.Path).Lines {
					m := draw.Point{X: (l[0].X + l[1].X) / 2, Y: (l[0].Y + l[1].Y) / 2}
					if !within(ring, m) {
						t.Fatalf("hatch %d leaves the ring %v at %v", h, ring, m)
					}
				}
			}
		}
	}
	d := &draw.Drawing{}
	d.Hatch(
		draw.HatchUpright,
		draw.Pen{Width: 1},
		5,
		[]draw.Point{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 10}, {X: 0, Y: 10}},
	)
	if n := len(d.Shapes[0].(draw.Path).Lines); n != 20 {
		t.Errorf("100 points hatched every 5 have %d lines, want 20", n)
	}
}

func within(ring []draw.Point, p draw.Point) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

func TestHatchIsBounded(t *testing.T) {
	d := &draw.Drawing{}
	d.Hatch(draw.HatchCross, draw.Pen{Width: 1}, 1, []draw.Point{{X: 0, Y: 0}, {X: 1e12, Y: 0}, {X: 1e12, Y: 1e12}})
	if n := len(d.Shapes[0].(draw.Path).Lines); n > 2002 {
		t.Errorf("%d hatch lines", n)
	}
}

// All figures are equally wide, so that columns of them line up, and the fonts have every mark the sheets use.
func TestWidth(t *testing.T) {
	for _, s := range []string{"0", "1", "7", "9"} {
		for _, bold := range []bool{false, true} {
			if w := draw.Width(s, 2048, bold); math.Abs(w-draw.Width("8", 2048, bold)) > 0.5 {
				t.Errorf("figure %s is %v wide, figure 8 %v", s, w, draw.Width("8", 2048, bold))
			}
		}
	}
	if a, b := draw.Width("ab", 10, false), draw.Width("a", 10, false)+draw.Width("b", 10, false); math.Abs(a-b) > 1e-9 {
		t.Errorf("ab is %v wide, a and b %v", a, b)
	}
	for _, r := range "½¼¾⅛″′→·–µ³²°„“äöüß\"\u00a0\ufffd" {
		if !print.Has(r) {
			t.Errorf("the fonts lack %q", r)
		}
	}
}

// poppler, a reader of its own, draws the PDF; the picture must agree with ours.
func TestPDFAgreesWithPNG(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("pdftoppm of poppler-utils is not installed")
	}
	dir := t.TempDir()
	var buf bytes.Buffer
	if err := print.PDF(&buf, "t", "en", one(sample())); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "a.pdf")
	if err := os.WriteFile(file, buf.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", "144", "-png", "-singlefile", file, filepath.Join(dir,
		"a")).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v %s", err, out)
	}
	f, err := os.Open(filepath.Join(dir, "a.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	theirs, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	ours := paint(t, sample(), 144)
	if mean := difference(ours, theirs); mean > 2 {
		t.Errorf("pictures differ by %.2f of 255 on average, want at most 2", mean)
	}
	blank := paint(t, &draw.Drawing{Width: 200, Height: 120, Paper: 0xffffff}, 144)
	if mean := difference(blank, theirs); mean < 8 {
		t.Errorf("a blank page differs by %.2f only: this comparison sees nothing", mean)
	}
}

// difference returns the mean difference of grey values over the area both pictures share.
func difference(a, b image.Image) float64 {
	r := a.Bounds().Intersect(b.Bounds())
	sum := 0.0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			p := color.GrayModel.Convert(a.At(x, y)).(color.Gray).Y
			q := color.GrayModel.Convert(b.At(x, y)).(color.Gray).Y
			sum += math.Abs(float64(p) - float64(q))
		}
	}
	return sum / float64(r.Dx()*r.Dy())
}

// What the fonts have no glyph for is replaced, and takes as much room in every format.
func TestForeignLetters(t *testing.T) {
	const text = "漢字 الغرفة 😀\U0010ffff\u202e\xff"
	if a, b := draw.Width(text, 10, false), draw.Width(strings.Repeat("\ufffd", 2)+" "+strings.Repeat("\ufffd",
		6)+" "+strings.Repeat("\ufffd", 4), 10, false); math.Abs(
		a-b,
	) > 1e-9 {
		t.Errorf("%q is %v wide, its substitutes %v", text, a, b)
	}
	d := &draw.Drawing{Width: 200, Height: 20, Title: text, Paper: 0xffffff}
	d.Write(draw.Text{At: draw.Point{X: 5, Y: 15}, Str: text, Size: 10})
	var buf bytes.Buffer
	if err := print.PDF(&buf, text, "en", one(d)); err != nil {
		t.Error(err)
	}
	if blank := paint(t, &draw.Drawing{Width: 200, Height: 20, Paper: 0xffffff}, 72); difference(
		blank,
		paint(t, d, 72),
	) < 1 {
		t.Error("the picture shows nothing")
	}
}
