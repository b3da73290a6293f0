package cut_test

import (
	"context"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// A worked example of cutting stock with one stick length, as published, its optimum recomputed by a general solver
// over all patterns. Pieces are length and count.
type worked struct {
	source   string
	capacity int
	optimum  int
	pieces   [][2]int
}

var workedExamples = []worked{
	{"Chvatal, Linear Programming (1983), ch. 13", 100, 453, [][2]int{{45, 97}, {36, 610}, {31, 395}, {14, 211}}},
	{
		"SAS/OR OPTMODEL example 4.5 (35 where Chvatal has 36)",
		100,
		453,
		[][2]int{{45, 97}, {35, 610}, {31, 395}, {14, 211}},
	},
	{
		"Wikipedia: Cutting stock problem",
		5600,
		73,
		[][2]int{
			{2200, 20},
			{2150, 18},
			{2140, 16},
			{2100, 14},
			{2050, 12},
			{2000, 10},
			{1930, 20},
			{1880, 18},
			{1820, 18},
			{1710, 14},
			{1560, 12},
			{1520, 25},
			{1380, 22},
		},
	},
	{
		"Fourer, Gay, Kernighan, AMPL 2nd ed., ch. 15 (cut.dat)",
		110,
		47,
		[][2]int{{75, 8}, {55, 10}, {50, 24}, {45, 35}, {20, 48}},
	},
	{"minizinc-benchmarks cutstock/small_test0.dzn", 10, 4, [][2]int{{7, 2}, {5, 2}, {3, 4}}},
	{
		"PuLP SpongeRollProblem (same numbers as the trim-loss example in Taha)",
		20,
		263,
		[][2]int{{9, 300}, {7, 200}, {5, 150}},
	},
	{"OR-Tools bin_packing_mip sample", 100, 4, [][2]int{{48, 1}, {42, 2}, {36, 3}, {30, 2}, {27, 1}, {24, 1}, {19, 1}}},
	{"Winston, Operations Research (Woodco)", 17, 19, [][2]int{{9, 15}, {5, 20}, {3, 25}}},
	{"Fieldhouse 1990 (nIRUP file of CaPaD): non-IRUP", 30, 6, [][2]int{{15, 3}, {10, 5}, {6, 9}}},
	{
		"Gau/Waescher (nIRUP file of CaPaD), proper patterns LP 2.2",
		10000,
		3,
		[][2]int{{5000, 1}, {3750, 1}, {3250, 1}, {3001, 1}, {2000, 2}},
	},
	{"as above, equivalent small numbers", 60, 3, [][2]int{{30, 1}, {22, 1}, {20, 1}, {19, 1}, {12, 2}}},
	{
		"Rietz (nIRUP file of CaPaD)",
		387,
		8,
		[][2]int{{177, 3}, {145, 2}, {133, 2}, {130, 1}, {129, 5}, {127, 2}, {121, 2}, {113, 1}, {105, 1}, {97, 1}},
	},
	{"Rietz (nIRUP file of CaPaD)", 45, 9, [][2]int{{27, 3}, {23, 3}, {15, 6}, {11, 6}, {9, 10}}},
	{
		"SCIP examples/Binpacking data",
		150,
		9,
		[][2]int{
			{98, 1},
			{96, 1},
			{94, 1},
			{84, 1},
			{83, 1},
			{80, 1},
			{78, 1},
			{70, 1},
			{69, 1},
			{66, 1},
			{60, 1},
			{58, 2},
			{43, 2},
			{42, 1},
			{39, 1},
			{32, 1},
			{25, 1},
			{24, 1},
		},
	},
	{
		"SCIP examples/Binpacking data",
		150,
		17,
		[][2]int{
			{98, 1},
			{96, 1},
			{94, 1},
			{87, 1},
			{84, 2},
			{83, 2},
			{80, 2},
			{78, 3},
			{76, 1},
			{73, 1},
			{71, 1},
			{70, 2},
			{69, 1},
			{66, 1},
			{62, 1},
			{60, 2},
			{58, 2},
			{55, 1},
			{49, 1},
			{44, 1},
			{43, 3},
			{42, 2},
			{41, 1},
			{39, 1},
			{36, 1},
			{32, 1},
			{25, 1},
			{24, 1},
			{23, 1},
		},
	},
	{
		"JuMP cutting-stock tutorial (lengths x10)",
		1000,
		334,
		[][2]int{
			{750, 189},
			{538, 33},
			{530, 36},
			{510, 41},
			{502, 35},
			{322, 37},
			{308, 44},
			{298, 49},
			{201, 37},
			{162, 36},
			{145, 42},
			{110, 33},
			{86, 47},
			{82, 35},
			{66, 49},
			{51, 42},
		},
	},
	{
		// The linear bound is 23.8: no split on pairs comes near, roundings do.
		"Rietz, gap 6/5 (nIRUP file of CaPaD), 25 by a general solver on the arc flow", 1500, 25, [][2]int{
			{1214, 2},
			{1210, 2},
			{1208, 2},
			{910, 2},
			{906, 2},
			{904, 2},
			{774, 2},
			{770, 2},
			{768, 2},
			{504, 2},
			{503, 3},
			{500, 5},
			{498, 3},
			{494, 2},
			{368, 1},
			{366, 3},
			{365, 3},
			{364, 1},
			{363, 3},
			{362, 1},
			{300, 5},
			{298, 3},
			{297, 3},
			{296, 1},
			{295, 3},
			{294, 1},
			{148, 1},
			{146, 3},
			{145, 3},
			{144, 1},
			{143, 3},
			{142, 1},
		},
	},
	{"GLPK examples/bpp.mod", 100, 3, [][2]int{{70, 1}, {60, 1}, {50, 2}, {40, 1}, {30, 1}}},
}

// TestWorkedExamples proves each with a certificate that verifies.
func TestWorkedExamples(t *testing.T) {
	for _, w := range workedExamples {
		job := &stock.Job{Sticks: []stock.Stick{{Length: measure.Length(w.capacity), Price: 1}}}
		for _, p := range w.pieces {
			job.Pieces = append(job.Pieces, stock.Piece{Length: measure.Length(p[0]), Count: p[1]})
		}
		r := solve(t, w.source, job, cut.AimSticks)
		if r.Plan.Sticks != w.optimum || r.Status != cut.StatusProven {
			t.Errorf("%s: %d sticks, %v, want %d", w.source, r.Plan.Sticks, r.Status, w.optimum)
		}
	}
}

// solve solves, verifies the certificate, and holds what it shows against the result.
func solve(t *testing.T, name string, job *stock.Job, aim cut.Aim) *cut.Result {
	t.Helper()
	r, err := cut.Solve(context.Background(), job, &cut.Options{Aim: aim, Effort: cut.EffortQuick})
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	v, err := stock.Verify(context.Background(), job, r.Certificate)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if v.Cost != r.Bound.Cost || aim != cut.AimCost && v.Sticks != r.Bound.Sticks {
		t.Errorf("%s: the certificate shows %+v, the bound is %+v", name, v, r.Bound)
	}
	return r
}

const (
	in = measure.Inch
	ft = measure.Foot
)

// TestTrade: examples of the trade and of textbooks with several sticks.
func TestTrade(t *testing.T) {
	doors := []stock.Piece{{Name: "leg", Length: 84 * in, Count: 64}, {Name: "head", Length: 32 * in, Count: 32}}
	for _, c := range []struct {
		source string
		job    *stock.Job
		cost   int64 // 0: not held
		sticks int   // 0: not held
	}{
		{"Gilmore and Gomory 1961, example: 170", &stock.Job{
			Sticks: []stock.Stick{{Length: 9, Price: 10}, {Length: 6, Price: 7}, {Length: 5, Price: 6}},
			Pieces: []stock.Piece{{Length: 2, Count: 20}, {Length: 3, Count: 10}, {Length: 4, Count: 20}},
		}, 170, 0},
		{"stock 15 and 10, three of each: all used, total 60, no waste", &stock.Job{
			Sticks: []stock.Stick{{Length: 15, Supply: 3}, {Length: 10, Supply: 3}},
			Pieces: []stock.Piece{{Length: 7, Count: 3}, {Length: 6, Count: 2}, {Length: 4, Count: 6}, {Length: 3, Count: 1}},
		}, 60, 5},
		{"16 openings cased on both sides from 16-ft sticks: published puzzle answer, 2010", &stock.Job{
			Sticks: []stock.Stick{{Length: 192 * in}}, Pieces: doors,
		}, 0, 38},
		{"the same with a kerf of 1/8 in [enumerated]", &stock.Job{
			Sticks: []stock.Stick{{Length: 192 * in}}, Pieces: doors, Kerf: in / 8,
		}, 0, 38},
		{"mouldings 8 ft 7 in and 12 ft 11 in make 21 ft 6 in: OpenStax Prealgebra 2e, Systems of Measurement", &stock.Job{
			Sticks: []stock.Stick{{Length: 21*ft + 6*in}},
			Pieces: []stock.Piece{{Length: 8*ft + 7*in, Count: 1}, {Length: 12*ft + 11*in, Count: 1}},
		}, 0, 1},
		{"the same with a kerf: the second piece does not fit [arithmetic]", &stock.Job{
			Sticks: []stock.Stick{{Length: 21*ft + 6*in}}, Kerf: in / 8,
			Pieces: []stock.Piece{{Length: 8*ft + 7*in, Count: 1}, {Length: 12*ft + 11*in, Count: 1}},
		}, 0, 2},
		{"a frame of 10-ft boards: US Army course EN1136, lesson 5, six boards", &stock.Job{
			Sticks: []stock.Stick{{Length: 10 * ft}},
			Pieces: []stock.Piece{{Length: 10 * ft, Count: 2}, {Length: 5*ft + in, Count: 4}, {Length: 3*ft + 7*in, Count: 2}},
		}, 0, 6},
		{"transitions 32 and 28 in from one 72-in stick [arithmetic]", &stock.Job{
			Sticks: []stock.Stick{{Length: 72 * in}}, Kerf: in / 8,
			Pieces: []stock.Piece{{Length: 32 * in, Count: 1}, {Length: 28 * in, Count: 1}},
		}, 0, 1},
		{"underlayment rolls 4 x 25 ft over 174 x 131 in, along: 3 strips [arithmetic]", &stock.Job{
			Sticks: []stock.Stick{{Length: 25 * ft}}, Pieces: []stock.Piece{{Length: 174 * in, Count: 3}},
		}, 0, 3},
		{"across: 4 strips, two a roll [arithmetic]", &stock.Job{
			Sticks: []stock.Stick{{Length: 25 * ft}}, Pieces: []stock.Piece{{Length: 131 * in, Count: 4}},
		}, 0, 2},
		{"offcuts on hand cost nothing and go first [arithmetic]", &stock.Job{
			Sticks: []stock.Stick{{Length: 96 * in, Price: 899}, {Length: 40 * in, OnHand: true, Supply: 2}},
			Pieces: []stock.Piece{{Length: 32 * in, Count: 4}}, Kerf: in / 8,
		}, 899, 3},
	} {
		r := solve(t, c.source, c.job, cut.AimOffcut)
		if c.sticks > 0 && r.Plan.Sticks != c.sticks || r.Status != cut.StatusProven {
			t.Errorf("%s: %d sticks, %v, want %d", c.source, r.Plan.Sticks, r.Status, c.sticks)
		}
		if c.cost > 0 && r.Plan.Cost != c.cost {
			t.Errorf("%s: cost %d, want %d", c.source, r.Plan.Cost, c.cost)
		}
	}
}
