package cutopt_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"plank.example/cutopt"
)

// keptByHand counts planks and boxes one by one. A percentage has at most two decimals.
func keptByHand(s cutopt.Spare, planks, per int) int {
	kept := s.Planks
	for hundredths := int(math.Round(s.Percent * 100)); kept*10_000 < hundredths*planks; {
		kept++
	}
	if s.BoxPer > 0 {
		opened, left := 0, 0 // left of the last box, in which lay one plank after the other
		for range planks {
			if left == 0 {
				if opened%s.BoxPer == 0 {
					kept += per
				}
				opened, left = opened+1, per
			}
			left--
		}
	}
	return kept
}

// TestSpareTiles is a worked example of the companion text of Math & You, chapter 5: rooms of 8.5 x 8.5 and 9 x 10 ft are
// 162.25 sq ft, with 20 tiles of a foot to spare that is 183 tiles, and at 12 a box 16 boxes.
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
				kept, boxes := keptByHand(s, n, per), s.Boxes(n, per)
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
		"": "write them as 4, 3 % or 1 box per 50", "-4": "a number of planks", "2.5": "a number of planks", "4 planks": "a number of planks",
		"-3 %": "a percentage of those laid", "3. %": "a percentage of those laid", ".5 %": "a percentage of those laid", "1e2 %": "a percentage of those laid",
		"NaN %": "a percentage of those laid", "3 percent": "a percentage of those laid", "1 box": "whole boxes", "2 boxes per 50": "whole boxes",
		"1 box per 0": "each 1 to 1,000,000 boxes", "1 box per 1000001": "each 1 to 1,000,000 boxes",
		"1 box per " + strings.Repeat("9", 40): "each 1 to 1,000,000 boxes", "1000001": "at most 1,000,000", strings.Repeat("9", 40): "at most 1,000,000",
		"1000.01 %": "at most 1000 %", strings.Repeat("9", 400) + " %": "at most 1000 %",
	} {
		s, err := cutopt.ParseSpare(text)
		var wrong *cutopt.FieldError
		if !errors.As(err, &wrong) || wrong.Field != "spare" || wrong.Value != text || !strings.Contains(err.Error(), says) || s != (cutopt.Spare{}) {
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
			{}, {Planks: r.IntN(cutopt.MaxSpare + 1)}, {Percent: r.Float64() * cutopt.MaxAllowance}, {Percent: 5e-324}, {BoxPer: 1 + r.IntN(cutopt.MaxSpare)},
		}[r.IntN(5)]
		if got, err := cutopt.ParseSpare(want.String()); err != nil || got != want {
			t.Errorf("%+v prints as %q and reads back as %+v, %v", want, want, got, err)
		}
	}
}

// TestSpareNeverCostsABox plans rooms with spares of every kind, without and with aims. The boxes follow from the fewest
// planks, aims never cost one, and what is proven without aims is proven with them.
func TestSpareNeverCostsABox(t *testing.T) {
	spares := []cutopt.Spare{{Planks: 5}, {Percent: 2}, {Percent: 10}, {Percent: 33.3}, {BoxPer: 50}, {BoxPer: 3}, {BoxPer: 1}}
	quick := &cutopt.Options{Effort: cutopt.EffortQuick}
	more := 0 // plans whose aims take planks that the boxes hold
	for seed := range uint64(4) {
		for _, s := range spares {
			job := plainRoom(rand.New(rand.NewPCG(seed, 92)))
			job.Spare, job.Aims = s, []cutopt.Aim{}
			plain, err := cutopt.Solve(context.Background(), job, quick)
			if err != nil {
				t.Fatalf("seed %d, %v: %v", seed, s, err)
			}
			job.Aims = []cutopt.Aim{cutopt.AimHJoints, cutopt.AimFigures, cutopt.AimStagger}
			better, err := cutopt.Solve(context.Background(), job, quick)
			if err != nil {
				t.Fatalf("seed %d, %v: %v", seed, s, err)
			}
			for _, plan := range []*cutopt.Plan{plain.Plan, better.Plan} {
				o, b := plan.Order, plan.Bound
				kept := keptByHand(s, o.Planks, o.PlanksPerBox)
				if want := (o.Planks + kept + o.PlanksPerBox - 1) / o.PlanksPerBox; o.Boxes != want || o.Kept != kept || o.SparePlanks < kept {
					t.Errorf("seed %d, %v: %+v; want %d boxes and %d planks kept", seed, s, o, want, kept)
				}
				least := b.Planks + keptByHand(s, b.Planks, o.PlanksPerBox)
				if want := (least + o.PlanksPerBox - 1) / o.PlanksPerBox; b.Boxes != want || b.Proven != (b.Boxes == o.Boxes) {
					t.Errorf("seed %d, %v: the bound is %+v of %d boxes; want %d boxes", seed, s, b, o.Boxes, want)
				}
				if err := cutopt.Verify(job, plan); err != nil {
					t.Errorf("seed %d, %v: %v", seed, s, err)
				}
			}
			if better.Plan.Order.Boxes != plain.Plan.Order.Boxes || better.Plan.Bound.Proven != plain.Plan.Bound.Proven {
				t.Errorf("seed %d, %v: %d boxes, without aims %d", seed, s, better.Plan.Order.Boxes, plain.Plan.Order.Boxes)
			}
			if better.Plan.Order.Planks > plain.Plan.Order.Planks {
				more++
			}
		}
	}
	if more == 0 {
		t.Error("no aim took a plank that the boxes hold: the test says nothing")
	}
}

// A plan whose bound claims a box more than its planks and spares fill does not verify.
func TestVerifyRecountsSpares(t *testing.T) {
	job := plainRoom(rand.New(rand.NewPCG(1, 21)))
	job.Spare = cutopt.Spare{BoxPer: 50}
	result, err := cutopt.Solve(context.Background(), job, &cutopt.Options{Effort: cutopt.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	if err := cutopt.Verify(job, result.Plan); err != nil {
		t.Fatal(err)
	}
	result.Plan.Bound.Boxes++
	if err := cutopt.Verify(job, result.Plan); err == nil || !strings.Contains(err.Error(), "spares of 1 box per 50") {
		t.Errorf("a bound of a box more: %v", err)
	}
	// The job need not be in order for an error instead of a panic.
	for _, s := range []cutopt.Spare{{Percent: math.Inf(1)}, {Percent: math.NaN()}, {BoxPer: -1}, {BoxPer: math.MaxInt}, {Planks: math.MinInt}} {
		job.Spare = s
		_ = cutopt.Verify(job, result.Plan)
	}
}
