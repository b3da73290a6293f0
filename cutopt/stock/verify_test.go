package stock_test

import (
	"context"
	"encoding/json"
	"errors"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
	"plank.example/cutopt/stock/internal/tiny"
)

// proven solves tiny jobs and gives each with its optimum and its certificate as JSON.
func proven(t *testing.T, n uint64, use func(seed uint64, job *stock.Job, best tiny.Best, text []byte)) {
	for seed := range n {
		job := tiny.Job(rand.New(rand.NewPCG(seed, 21)))
		best := tiny.Brute(job)
		if !best.Found {
			continue
		}
		r, err := cut.Solve(context.Background(), job, nil)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		text, err := json.Marshal(r.Certificate)
		if err != nil {
			t.Fatal(err)
		}
		use(seed, job, best, text)
	}
}

func decode(t *testing.T, text []byte) *stock.Certificate {
	t.Helper()
	c := new(stock.Certificate)
	if err := json.Unmarshal(text, c); err != nil {
		t.Fatal(err)
	}
	return c
}

// untrue says what a verified certificate shows that is not so, "" where all is.
func untrue(v *stock.Proven, best tiny.Best) string {
	switch {
	case v.Cost > best.Cost:
		return "cost"
	case v.Within >= best.Cost && v.Sticks > best.Sticks:
		return "sticks"
	case v.OffcutShown && v.OffcutWithin >= best.Cost && v.OffcutSticks >= best.Sticks && best.Offcut >= v.Offcut:
		return "offcut"
	}
	return ""
}

// TestForged changes figures of sound certificates, one to three at a time: whatever still verifies must be true, by
// every way to cut the job. Claims of one more must always be refused.
func TestForged(t *testing.T) {
	refused, held := 0, 0
	proven(t, 150, func(seed uint64, job *stock.Job, best tiny.Best, text []byte) {
		v, err := stock.Verify(context.Background(), job, decode(t, text))
		if err != nil || untrue(v, best) != "" {
			t.Fatalf("seed %d: the certificate itself: %v", seed, err)
		}
		r := rand.New(rand.NewPCG(seed, 22))
		for range 60 {
			c := decode(t, text)
			var fields []reflect.Value
			figures(reflect.ValueOf(c), &fields)
			for range 1 + r.IntN(3) {
				f := fields[r.IntN(len(fields))]
				x := f.Int()
				switch r.IntN(6) {
				case 0:
					x++
				case 1:
					x--
				case 2:
					x = -x
				case 3:
					x *= 2
				case 4:
					x = 0
				case 5:
					x = r.Int64()>>r.IntN(63) - 1
				}
				f.SetInt(x)
			}
			v, err := stock.Verify(context.Background(), job, c)
			var wrong *stock.CertificateError
			switch {
			case err == nil:
				held++
				if what := untrue(v, best); what != "" {
					t.Fatalf("seed %d: a forged certificate shows a wrong %s: %+v, the best is %+v", seed, what, v, best)
				}
			case errors.As(err, &wrong) || errors.Is(err, stock.ErrTooLarge):
				refused++
			default:
				t.Fatalf("seed %d: %v", seed, err)
			}
		}
		for i, one := range decode(t, text).Refutations {
			c := decode(t, text)
			c.Refutations = c.Refutations[i : i+1]
			switch k := &c.Refutations[0].Claim; {
			case one.Claim.Offcut > 0:
				k.Offcut = max(best.Offcut, 1)
			case one.Claim.Sticks > 0:
				k.Sticks = best.Sticks
			default:
				k.Cost = best.Cost
			}
			if c.Refutations[0].Claim.Offcut > 0 && best.Offcut == 0 ||
				c.Refutations[0].Claim.Sticks > 0 && one.Claim.Cost < best.Cost {
				continue // such a claim may be refuted
			}
			if _, err := stock.Verify(context.Background(), job, c); err == nil {
				t.Fatalf("seed %d: refutation %d refutes what there is: %+v", seed, i, c.Refutations[0].Claim)
			}
		}
	})
	if refused < 4000 {
		t.Errorf("only %d forged certificates were refused, %d hold", refused, held)
	}
}

// figures lists every whole number of a certificate.
func figures(v reflect.Value, out *[]reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			figures(v.Elem(), out)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			figures(v.Field(i), out)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			figures(v.Index(i), out)
		}
	case reflect.Int, reflect.Int64:
		*out = append(*out, v)
	}
}

// leaf refutes a claim of the shelf job with one leaf.
func leaf(claim stock.Claim, n *stock.Node) *stock.Certificate {
	return &stock.Certificate{Refutations: []*stock.Refutation{{Claim: claim, Root: n}}}
}

// TestVerify: the shelf needs 3 x 42 + 32 = 158 of stick, has 52 on hand and buys 102 for 7, so one stick bought is too
// little with what is on hand wasting 10 [arithmetic].
func TestVerify(t *testing.T) {
	values := []int64{42, 32}
	one := []stock.Step{{Values: values, Cost: 15, Sticks: []int64{0, 52}, Roundings: []int64{1}}}
	two := []stock.Step{{Values: values, Cost: 15, Sticks: []int64{0, 52}, Roundings: []int64{0, 1}}}
	// Two sticks bought and two on hand refute nothing by themselves.
	shortlist := func(s stock.Shortlist) *stock.Certificate {
		return leaf(stock.Claim{Cost: 14}, &stock.Node{Values: values, Cost: 15, Sticks: []int64{0, 52}, Shortlist: &s})
	}
	for _, c := range []struct {
		name string
		c    *stock.Certificate
		want string // part of the error, "" for none
	}{
		{"nothing is shown by nothing", &stock.Certificate{}, ""},
		{
			"less than one stick", leaf(stock.Claim{Cost: 0}, &stock.Node{Values: values, Cost: 15, Sticks: []int64{0, 52}}),
			"",
		},
		{"one stick and 52 make 154", leaf(stock.Claim{Cost: 7}, &stock.Node{Values: values, Cost: 15, Sticks: []int64{
			0,
			52,
		}}), ""},
		{"two sticks do", leaf(stock.Claim{Cost: 14}, &stock.Node{Values: values, Cost: 15, Sticks: []int64{0, 52}}), "are " +
			"worth 158"},
		{"no root", leaf(stock.Claim{}, nil), "there is none"},
		{"a value below 0", leaf(stock.Claim{}, &stock.Node{Values: []int64{-1}}), "out of range"},
		{"three values", leaf(stock.Claim{}, &stock.Node{Values: []int64{1, 1, 1}}), "more than there are"},
		{"a multiplier below 0", leaf(stock.Claim{}, &stock.Node{Values: values, Cost: -1}), "below 0"},
		{
			"a multiplier on sticks that are not counted", leaf(stock.Claim{}, &stock.Node{Values: values, Count: 1}),
			"leaves open",
		},
		{
			"nothing limits sticks that are bought", leaf(stock.Claim{}, &stock.Node{Values: values, Sticks: []int64{1}}),
			"nothing limits",
		},
		{"a pattern over its limit", leaf(stock.Claim{Cost: 14}, &stock.Node{Values: values, Cost: 7, Sticks: []int64{
			0,
			52,
		}}), "a pattern"},
		{"worth too much", leaf(stock.Claim{}, &stock.Node{Values: []int64{1 << 61, 1 << 61}}), "more than can be added"},
		{"a claim below 0", leaf(stock.Claim{Sticks: -1}, &stock.Node{}), "out of range"},
		{"a split without sides", leaf(stock.Claim{}, &stock.Node{Split: &stock.Split{}}), "missing"},
		{"kinds that there are not", leaf(stock.Claim{}, &stock.Node{Split: &stock.Split{Pair: [2]int{0, 2}}}), "no kinds"},
		{"one piece with itself", leaf(stock.Claim{}, &stock.Node{Split: &stock.Split{Pair: [2]int{1, 1}}}), "no two pieces"},
		{"a shortlist that ends too soon", shortlist(stock.Shortlist{}), "after the last step"},
		{"a rounding of no kind", shortlist(stock.Shortlist{
			Roundings: []stock.Rounding{{By: 2, Of: []stock.Multiple{{Kind: 2, Times: 1}}}}, Steps: one,
		}), "rounding 0 is out of range"},
		{"a rounding of itself", shortlist(stock.Shortlist{
			Roundings: []stock.Rounding{{By: 2, Of: []stock.Multiple{{Kind: 1, Times: 1}}}, {By: 2, Of: []stock.Multiple{
				{Kind: 3, Times: 1},
			}}}, Steps: two,
		}), "rounding 1 is out of range"},
		{"a rounding by nothing", shortlist(stock.Shortlist{
			Roundings: make([]stock.Rounding, 1), Steps: one,
		}), "rounding 0 is out of range"},
		{"a rounding that is added", shortlist(stock.Shortlist{
			Roundings: []stock.Rounding{{By: 2, Of: []stock.Multiple{{Kind: 0, Times: 1}}}},
			Steps:     []stock.Step{{Values: values, Cost: 15, Sticks: []int64{0, 52}, Roundings: []int64{-1}}},
		}), "subtracts -1 times"},
		{"more roundings than there are", shortlist(stock.Shortlist{
			Steps: []stock.Step{{Values: values, Cost: 15, Sticks: []int64{0, 52}, Roundings: []int64{1}}},
		}), "1 roundings, there are 0"},
		{"a pattern of a step over its limit", shortlist(stock.Shortlist{
			Steps: []stock.Step{{Values: values, Cost: 7, Sticks: []int64{0, 52}}},
		}), "a pattern of step 0"},
		{"more sticks than there are", leaf(stock.Claim{}, &stock.Node{Split: &stock.Split{Kind: 2, Most: 1}}), "no " +
			"question"},
	} {
		job, _ := shelf()
		_, err := stock.Verify(context.Background(), job, c.c)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// TestProvenCostIsASum: of sticks of 10 for 6 and of 15 for 10, pieces of 20 need two for 12; one for 10 is too short
// [arithmetic]. Sticks on hand, and a supply, count. Of four prices only their common measure does.
func TestProvenCostIsASum(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*stock.Job)
		want   int64
	}{
		{"two of 10", func(*stock.Job) {}, 12},
		{"one of 10 only: with one of 15", func(j *stock.Job) { j.Sticks[0].Supply = 1 }, 16},
		{"5 on hand: one of 15", func(j *stock.Job) {
			j.Sticks = append(j.Sticks, stock.Stick{Length: 5, OnHand: true, Supply: 1})
		}, 10},
		{"four kinds: the next even figure", func(j *stock.Job) {
			j.Sticks = append(j.Sticks, stock.Stick{Length: 9, Price: 60}, stock.Stick{Length: 8, Price: 60})
		}, 8},
	} {
		job := &stock.Job{
			Sticks: []stock.Stick{{Length: 10, Price: 6}, {Length: 15, Price: 10}},
			Pieces: []stock.Piece{{Length: 4, Count: 5}},
		}
		c.change(job)
		v, err := stock.Verify(context.Background(), job, leaf(stock.Claim{Cost: 7}, &stock.Node{Values: []int64{1}}))
		if err != nil || v.Cost != c.want {
			t.Errorf("%s: %+v, %v, want %d", c.name, v, err, c.want)
		}
	}
}

// TestVerifyBounded: a tree that contains itself, knapsacks and shortlists without end are refused in time.
func TestVerifyBounded(t *testing.T) {
	job, _ := shelf()
	loop := &stock.Node{Split: &stock.Split{Pair: [2]int{0, 0}}}
	loop.Yes, loop.No = loop, loop
	if _, err := stock.Verify(context.Background(), job, leaf(stock.Claim{}, loop)); err == nil {
		t.Error("a tree that contains itself was verified")
	}
	// Sizes of no common measure whose values almost follow them: every pattern is near the limit.
	r := rand.New(rand.NewPCG(1, 1))
	hard := &stock.Job{Sticks: []stock.Stick{{Length: 100_000_000}}}
	n := &stock.Node{Cost: 1}
	for i := range 60 {
		hard.Pieces = append(
			hard.Pieces,
			stock.Piece{Length: measure.Length(1_000_003 + 100_000*i + r.IntN(90_000)), Count: 9},
		)
	}
	for i := range hard.Pieces {
		n.Values = append(n.Values, int64(hard.Pieces[len(hard.Pieces)-1-i].Length)+int64(r.IntN(3)))
	}
	long := &stock.Node{Values: []int64{1}, Cost: 9, Shortlist: &stock.Shortlist{Steps: []stock.Step{{}}}}
	if _, err := stock.Verify(context.Background(), hard, leaf(stock.Claim{Cost: 1e11}, long)); !errors.Is(err,
		stock.ErrTooLarge) {
		t.Errorf("a shortlist without end gave %v", err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := stock.Verify(ctx, hard, leaf(stock.Claim{Cost: 1_000_000_000}, n)); !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled context gave %v", err)
	}
}

// FuzzVerify: no certificate makes Verify panic or run on, and what verifies is true.
func FuzzVerify(f *testing.F) {
	job, _ := shelf()
	best := tiny.Brute(job)
	for _, s := range []string{
		`{"refutations":[{"claim":{"cost":0},"root":{"values":[42,32],"cost":15,"sticks":[0,52]}}]}`,
		`{"refutations":[{"claim":{"cost":14,"sticks":1},` +
			`"root":{"split":{"pair":[0,0]},"yes":{"values":[1]},"no":{"values":[1,1],"count":1}}}]}`,
		`{"refutations":[{"claim":{"cost":14,"sticks":2,"offcut":60},` +
			`"root":{"split":{"pair":[0,0],"kind":1,"most":0},"yes":{},"no":{}}}]}`,
		`{"refutations":[{"claim":{"cost":14},"root":{"values":[42,32],"cost":15,"sticks":[0,52],"shortlist":{"roundings":` +
			`[{"of":[{"kind":0,"times":1}],"by":2}],"steps":[{"values":[42,-32],"cost":15,"roundings":[1]}]}}}]}`,
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		c := new(stock.Certificate)
		if json.Unmarshal(text, c) != nil {
			return
		}
		v, err := stock.Verify(context.Background(), job, c)
		if err == nil && untrue(v, best) != "" {
			t.Errorf("a wrong %s is shown: %+v", untrue(v, best), v)
		}
	})
}

// FuzzCheck: no plan makes Check panic, and one that passes cuts every piece.
func FuzzCheck(f *testing.F) {
	job, plan := shelf()
	text, err := json.Marshal(plan)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Fuzz(func(t *testing.T, text []byte) {
		p := new(stock.Plan)
		if json.Unmarshal(text, p) != nil || stock.Check(job, p) != nil {
			return
		}
		if p.Cost != 14 && p.Cost != 7 && p.Cost%7 != 0 || p.Sticks < 2 {
			t.Errorf("%+v passes", p)
		}
	})
}
