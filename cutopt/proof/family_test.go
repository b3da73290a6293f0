package proof_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// lying is the three runs of 25 as the only placement of one floor, and as a second placement four of them: one more
// row for the same floor. Beside it stands a floor of one run of 15, or of 12 and 5.
func lying() *proof.Family {
	in := three()
	four := append([]rows.Run{{Length: 25}}, in.Runs...)
	return &proof.Family{
		Plank: in.Plank, MinPiece: in.MinPiece, Stagger: in.Stagger, Grid: in.Grid,
		Floors: [][]proof.Placement{
			{{Runs: in.Runs, Touch: in.Touch}, {Runs: four, Touch: [][2]int{{0, 1}, {1, 2}, {2, 3}}}},
			{{Runs: []rows.Run{{Length: 15}}}, {Runs: []rows.Run{{Length: 12}, {Length: 5}}}},
		},
	}
}

// familyByHand proves 8 planks. With C = 1 from 5 on the three runs cost 7, as three says, and the four 2 + 3 + 2 + 3 =
// 10. The run of 15 is a starter s from 5 to 10, worth 1, and an ender that leaves s - 5, worth 1 where that is below
// 5: 2, or 1 + 0 with s = 10. Of 12 and 5 the first is s from 3 to 9 and the ender 12 - s, which leaves s - 2: with s =
// 3 or 4 worth 0 + 1, with 5 or 6 1 + 1, from 7 on 1 + 0; so 1. The 5 in one piece fits at u = 0 below 5, C(5) - C(0) =
// 1, and at 5 for nothing, C(10) - C(5) = 0. So the floors cost 7 + 1.
func familyByHand() *proof.FamilyCertificate {
	prices := []proof.Step{{At: 5, Price: proof.Denominator}, {At: 10, Price: proof.Denominator}}
	return &proof.FamilyCertificate{Planks: 8, Tree: proof.FamilyNode{
		Floor: 1, Of: []int{1}, In: &proof.FamilyNode{Prices: prices}, Out: &proof.FamilyNode{Prices: prices},
	}}
}

func TestFamilyByHand(t *testing.T) {
	if err := familyByHand().Verify(lying()); err != nil {
		t.Error(err)
	}
	data, err := json.Marshal(familyByHand())
	if err != nil {
		t.Fatal(err)
	}
	var back proof.FamilyCertificate
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	if err := back.Verify(lying()); err != nil {
		t.Errorf("read back: %v", err)
	}
}

// TestFamilyRefuses changes one thing of a certificate that holds, or of its family.
func TestFamilyRefuses(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(c *proof.FamilyCertificate, f *proof.Family)
	}{
		{"a plank more", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Planks++ }},
		{"a claim beyond what billionths of a plank can be summed to", func(c *proof.FamilyCertificate, _ *proof.Family) {
			c.Planks = math.MaxInt64/proof.Denominator + 2
		}},
		{"a branch with one side", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Tree.Out = nil }},
		{"a branch with prices", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Tree.Prices = c.Tree.In.Prices }},
		{"a floor there is not", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Tree.Floor = 2 }},
		{"a floor below 0", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Tree.Floor = -1 }},
		{"a placement there is not", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Tree.Of = []int{2} }},
		{"placements twice", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Tree.Of = []int{1, 1} }},
		{"a leaf of nothing", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Tree.In = &proof.FamilyNode{} }},
		{"a leaf that names placements", func(c *proof.FamilyCertificate, _ *proof.Family) { c.Tree.In.Of = []int{1} }},
		{"prices that fall", func(c *proof.FamilyCertificate, _ *proof.Family) {
			c.Tree.In.Prices = []proof.Step{{At: 3, Price: 5}, {At: 4, Price: 1}, {At: 10, Price: proof.Denominator}}
		}},
		{"a certificate where two placements are left", func(c *proof.FamilyCertificate, _ *proof.Family) {
			c.Tree.In = &proof.FamilyNode{Certificate: &proof.Certificate{Planks: 8, Tree: proof.Node{Prices: c.Tree.In.Prices}}}
		}},
		{"a placement less", func(_ *proof.FamilyCertificate, f *proof.Family) { f.Floors[1] = f.Floors[1][:1] }},
		{"a run less", func(_ *proof.FamilyCertificate, f *proof.Family) { f.Floors[1][1].Runs = f.Floors[1][1].Runs[1:] }},
		{"a looser rule", func(_ *proof.FamilyCertificate, f *proof.Family) { f.Stagger = 0 }},
		{"a placement that needs fewer", func(_ *proof.FamilyCertificate, f *proof.Family) {
			f.Floors[0] = append(f.Floors[0], proof.Placement{Runs: []rows.Run{{Length: 25}}})
		}},
	} {
		c, f := familyByHand(), lying()
		test.change(c, f)
		if err := c.Verify(f); !errors.Is(err, proof.ErrUnproven) {
			t.Errorf("%s: %v", test.name, err)
		}
	}
}

// TestFamilyLeafByCertificate proves one more plank of two placements by themselves than prices do: the three runs take
// 8, as splitByHand shows, and a certificate of them stands where nothing else is left. It is refused for other
// placements, and with fewer planks than the claim.
func TestFamilyLeafByCertificate(t *testing.T) {
	f := lying()
	f.Floors = f.Floors[:1]
	prices := familyByHand().Tree.In.Prices
	c := &proof.FamilyCertificate{Planks: 8, Tree: proof.FamilyNode{
		Of: []int{0}, In: &proof.FamilyNode{Certificate: splitByHand()}, Out: &proof.FamilyNode{Prices: prices},
	}}
	if err := c.Verify(f); err != nil {
		t.Error(err)
	}
	c.Tree.Of = []int{1}
	if err := c.Verify(f); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("of the other placement: %v", err)
	}
	c.Tree.Of, c.Tree.In = []int{0}, &proof.FamilyNode{Certificate: byHand()}
	if err := c.Verify(f); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("of fewer planks: %v", err)
	}
}

// TestFamilyOfNothing refuses a floor without a placement and takes a claim of nothing.
func TestFamilyOfNothing(t *testing.T) {
	f := lying()
	f.Floors[1] = nil
	if err := familyByHand().Verify(f); err == nil {
		t.Error("a floor without a placement is taken")
	}
	if err := (&proof.FamilyCertificate{}).Verify(lying()); err != nil {
		t.Error(err)
	}
}
