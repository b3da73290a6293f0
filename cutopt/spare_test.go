package cutopt_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"plank.example/cutopt"
)

// TestSpareTiles is a worked example of the companion text of Math & You, chapter 5: rooms of 8.5 x 8.5 and 9 x 10 ft
// are 162.25 sq ft, with 20 tiles of a foot to spare that is 183 tiles, and at 12 a box 16 boxes.
func TestSpareTiles(t *testing.T) {
	tiles := int(math.Ceil(8.5*8.5 + 9*10))
	s := cutopt.Spare{Planks: 20}
	if kept, boxes := s.Kept(tiles, 12), s.Boxes(tiles, 12); tiles+kept != 183 || boxes != 16 {
		t.Errorf("%d tiles and %d to spare are %d boxes of 12; the book has 183 tiles and 16 boxes", tiles, kept, boxes)
	}
}

func TestKept(t *testing.T) {
	for _, c := range []struct {
		spare             string
		planks, per, kept int
	}{
		{"0", 70, 8, 0},
		{"4", 70, 8, 4},
		{"4", 0, 8, 4},
		{"10 %", 70, 8, 7},        // 7 exactly
		{"10 %", 71, 8, 8},        // 7.1
		{"0.1 %", 1000, 8, 1},     // 1 exactly, though the binary number nearest to 0.1 is above it
		{"0.1 %", 1001, 8, 2},     // 1.001
		{"1.1 %", 1000, 8, 11},    // 11 exactly, and the binary number is above it again
		{"0.3 %", 1000, 8, 3},     // 3 exactly, and the binary number is below
		{"0.3 %", 1001, 8, 4},     // 3.003
		{"100 %", 71, 8, 71},      //
		{"1000 %", 71, 8, 710},    //
		{"0.01 %", 1, 8, 1},       // any part of a plank is a plank
		{"10 %", 0, 8, 0},         //
		{"1 box per 50", 0, 8, 0}, // no box laid, none kept
		{"1 box per 50", 1, 8, 8}, //
		{"1 box per 1", 9, 8, 16}, // two boxes opened
	} {
		s, err := cutopt.ParseSpare(c.spare)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Kept(c.planks, c.per); got != c.kept {
			t.Errorf("%s of %d planks, %d to a box: %d kept, want %d", c.spare, c.planks, c.per, got, c.kept)
		}
		if got, want := s.Boxes(c.planks, c.per), (c.planks+c.kept+c.per-1)/c.per; got != want {
			t.Errorf("%s of %d planks, %d to a box: %d boxes, want %d", c.spare, c.planks, c.per, got, want)
		}
	}
}

// One box for every 50 or fraction thereof: 24, 50, 51 and 101 boxes laid ask for 1, 1, 2 and 3 more. Source: section
// 09 65 19 of a county's project specification, on extra stock.
func TestAtticStock(t *testing.T) {
	attic := cutopt.Spare{BoxPer: 50}
	for _, c := range []struct{ laid, kept int }{{24, 1}, {50, 1}, {51, 2}, {101, 3}} {
		for _, per := range []int{1, 6, 10} {
			// The last box laid is full, or one plank of it is laid.
			for _, planks := range []int{c.laid * per, (c.laid-1)*per + 1} {
				if got, want := attic.Kept(planks, per), c.kept*per; got != want {
					t.Errorf("%d planks, %d to a box: %d planks kept, want %d", planks, per, got, want)
				}
				if got, want := attic.Boxes(planks, per), c.laid+c.kept; got != want {
					t.Errorf("%d planks, %d to a box: %d boxes, want %d", planks, per, got, want)
				}
			}
		}
	}
}

// MostPlanks is held against trying out, and Kept and Boxes against counting by hand.
func TestMostPlanksInvertsBoxes(t *testing.T) {
	const most = 150 // planks
	spares := []cutopt.Spare{{}}
	for _, n := range []int{1, 2, 7, 30} {
		spares = append(spares, cutopt.Spare{Planks: n}, cutopt.Spare{BoxPer: n})
	}
	for _, p := range []float64{0.01, 0.1, 3, 3.3, 7.5, 10, 12.5, 33.33, 50, 99.99, 100, 250, 1000} {
		spares = append(spares, cutopt.Spare{Percent: p})
	}
	for _, s := range spares {
		for per := 1; per <= 12; per++ {
			largest := map[int]int{} // by boxes
			before := 0
			for n := range most {
				kept, boxes := oracle.Kept(s, n, per), s.Boxes(n, per)
				if got := s.Kept(n, per); got != kept {
					t.Errorf("%v of %d planks, %d to a box: %d kept, by hand %d", s, n, per, got, kept)
				}
				if boxes*per < n+kept || (boxes-1)*per >= n+kept {
					t.Errorf("%v of %d planks, %d to a box: %d boxes do not just hold these and %d", s, n, per, boxes, kept)
				}
				if boxes < before {
					t.Errorf("%v, %d to a box: %d boxes for %d planks and %d for one less", s, per, boxes, n, before)
				}
				before, largest[boxes] = boxes, n
			}
			for boxes := 0; boxes < before; boxes++ {
				want := -1 // not even what is kept
				for b, n := range largest {
					if b <= boxes {
						want = max(want, n)
					}
				}
				if got := max(s.MostPlanks(boxes, per), -1); got != want {
					t.Errorf("%v, %d to a box: at most %d planks from %d boxes, by trying %d", s, per, got, boxes, want)
				}
			}
		}
	}
}

func TestParseSpare(t *testing.T) {
	for text, want := range map[string]cutopt.Spare{
		"0": {}, "0 %": {}, "4": {Planks: 4}, " 007 ": {Planks: 7}, "1000000": {Planks: cutopt.MaxSpare},
		"3 %": {Percent: 3}, "3%": {Percent: 3}, "2.50   %": {Percent: 2.5}, "1000 %": {Percent: 1000},
		"1 box per 50": {BoxPer: 50}, "1 box per 1": {BoxPer: 1},
	} {
		got, err := cutopt.ParseSpare(text)
		if err != nil || got != want {
			t.Errorf("ParseSpare(%q) = %+v, %v; want %+v", text, got, err, want)
		}
	}
	for text, says := range map[string]string{
		"": "write them as 4, 3 % or 1 box per 50", "-4": "a number of planks", "2.5": "a number of planks", "4 " +
			"planks": "a number of planks",
		"-3 %": "a percentage of those laid", "3. %": "a percentage of those laid", ".5 %": "a percentage of those laid",
		"1e2 %": "a percentage of those laid",
		"NaN %": "a percentage of those laid", "3 percent": "a percentage of those laid", "1 box": "whole boxes", "2 boxes " +
			"per 50": "whole boxes",
		"1 box per 0": "each 1 to 1,000,000 boxes", "1 box per 1000001": "each 1 to 1,000,000 boxes",
		"1 box per " + strings.Repeat("9", 40): "each 1 to 1,000,000 boxes", "1000001": "at most 1,000,000",
		strings.Repeat("9", 40): "at most 1,000,000",
		"1000.01 %":             "at most 1000 %", strings.Repeat("9", 400) + " %": "at most 1000 %",
	} {
		s, err := cutopt.ParseSpare(text)
		var wrong *cutopt.FieldError
		if !errors.As(err, &wrong) || wrong.Field != "spare" || wrong.Value != text || !strings.Contains(err.Error(), says) ||
			s != (cutopt.Spare{}) {
			t.Errorf("ParseSpare(%q) = %+v, %v; want an error of the field that says %q", text, s, err, says)
		}
	}
}

// What String prints reads back.
func TestSpareReadsBack(t *testing.T) {
	const seed = 5
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 91))
	for range 2000 {
		want := []cutopt.Spare{
			{},
			{Planks: r.IntN(cutopt.MaxSpare + 1)},
			{Percent: r.Float64() * cutopt.MaxAllowance},
			{Percent: 5e-324},
			{BoxPer: 1 + r.IntN(cutopt.MaxSpare)},
		}[r.IntN(5)]
		if got, err := cutopt.ParseSpare(want.String()); err != nil || got != want {
			t.Errorf("%+v prints as %q and reads back as %+v, %v", want, want, got, err)
		}
	}
}
