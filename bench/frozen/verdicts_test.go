package frozen_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os/exec"
	"strings"
	"testing"

	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// three is the instance of three touching runs that package proof's tests work out by hand: it takes 8 planks.
const three = `{"plank": 10, "kerf": 0, "min_piece": 3, "stagger": 2, "grid": 1,
	"runs": [{"from": 0, "length": 25}, {"from": 0, "length": 25}, {"from": 0, "length": 25}], "touch": [[0, 1], [1, 2]]}`

// lying is a family: three of those runs or two, beside a run of 15.
const lying = `{"plank": 10, "kerf": 0, "min_piece": 3, "stagger": 2, "grid": 1, "floors": [[
	{"runs": [{"from": 0, "length": 25}, {"from": 0, "length": 25}, {"from": 0, "length": 25}], "touch": [[0, 1], [1, 2]]},
	{"runs": [{"from": 0, "length": 25}, {"from": 0, "length": 25}], "touch": [[0, 1]]}],
	[{"runs": [{"from": 0, "length": 15}], "touch": []}]]}`

// A verdict is a certificate, in which PRICES stands for a leaf's prices, and whether it holds.
type verdict struct {
	why, certificate string
	holds            bool
}

const prices = `"prices": [{"at": 5, "price": 1000000000}, {"at": 10, "price": 1000000000}]`

var ofThree = []verdict{
	{"as it is", `{"planks": 7, "tree": {PRICES}}`, true},
	{"a plank more", `{"planks": 8, "tree": {PRICES}}`, false},
	{"nothing claimed, nothing shown", `{"planks": 0, "tree": {}}`, true},
	{"a leaf of nothing", `{"planks": 1, "tree": {}}`, false},
	{"all 75 of material", `{"planks": 8, "tree": {"counts": true}}`, true},
	{"counts and prices", `{"planks": 7, "tree": {"counts": true, PRICES}}`, false},
	{"counts with something free", `{"planks": 7, "tree": {"counts": true, "free_ender": 3}}`, false},
	{"more than two planks a run and those between", `{"planks": 13, "tree": {"split": {"of": "place", "run": 0, ` +
		`"value": 9}, "low": {PRICES}, "high": {PRICES}}}`, false},
	{"starters that cost nothing", `{"planks": 7, "tree": {PRICES, "free_starter": 5}}`, false},
	{"starters that cannot be", `{"planks": 7, "tree": {PRICES, "free_starter": 2}}`, true},
	{"whole planks that cost nothing", `{"planks": 1, "tree": {PRICES, "free_starter": 10}}`, false},
	{"a pair that need not be left out", `{"planks": 7, "dropped": [[0, 1]], "tree": {PRICES}}`, true},
	{"a pair left out, a plank too many", `{"planks": 8, "dropped": [[0, 1]], "tree": {PRICES}}`, false},
	{"a pair left out twice", `{"planks": 7, "dropped": [[0, 1], [0, 1]], "tree": {PRICES}}`, true},
	{"a pair turned round", `{"planks": 7, "dropped": [[1, 0]], "tree": {PRICES}}`, false},
	{"no step at the plank", `{"planks": 1, "tree": {"prices": [{"at": 5, "price": 1000000000}]}}`, false},
	{"a step at 0", `{"planks": 6, "tree": {"prices": [{"at": 0, "price": 1}, {"at": 10, "price": 1000000000}]}}`, true},
	{
		"a step below 0", `{"planks": 1, "tree": {"prices": [{"at": -1, "price": 1}, {"at": 10, "price": 1000000000}]}}`,
		false,
	},
	{"sides without a split", `{"planks": 7, "tree": {PRICES, "low": {PRICES}, "high": {PRICES}}}`, false},
	{"one side", `{"planks": 7, "tree": {"split": {"of": "starter", "value": 9}, "low": {PRICES}}}`, false},
	{"a sum", `{"planks": 7, "tree": {"split": {"of": "started", "value": 5}, "low": {PRICES, "multipliers": [0]}, ` +
		`"high": {PRICES, "multipliers": [0]}}}`, true},
	{"a sum without its multipliers", `{"planks": 7, "tree": {"split": {"of": "started", "value": 5}, "low": {PRICES}, ` +
		`"high": {PRICES}}}`, false},
	{"a multiplier for a starter", `{"planks": 7, "tree": {"split": {"of": "starter", "value": 9}, "low": {PRICES, ` +
		`"multipliers": [0]}, "high": {PRICES, "multipliers": [0]}}}`, false},
	{"a multiplier beyond a thousand planks", `{"planks": 1, "tree": {"split": {"of": "started", "value": 5}, "low": ` +
		`{PRICES, "multipliers": [0]}, "high": {PRICES, "multipliers": [1000000000001]}}}`, false},
	{"the last value of a sum", `{"planks": 7, "tree": {"split": {"of": "deficit", "below": 5, "value": -25}, ` +
		`"low": {PRICES, "multipliers": [0]}, "high": {PRICES, "multipliers": [0]}}}`, true},
	{"a value of a sum beyond it", `{"planks": 7, "tree": {"split": {"of": "deficit", "below": 5, "value": -26}, "low": ` +
		`{PRICES, "multipliers": [0]}, "high": {PRICES, "multipliers": [0]}}}`, false},
	{"a length of planks started", `{"planks": 7, "tree": {"split": {"of": "started", "below": 5, "value": 5}, "low": ` +
		`{PRICES, "multipliers": [0]}, "high": {PRICES, "multipliers": [0]}}}`, false},
	{"a run of a sum", `{"planks": 7, "tree": {"split": {"of": "enders", "below": 5, "run": 1, "value": 5}, "low": ` +
		`{PRICES, "multipliers": [0]}, "high": {PRICES, "multipliers": [0]}}}`, false},
	{"prices in a branch", `{"planks": 7, "tree": {PRICES, "split": {"of": "starter", "value": 9}, "low": {PRICES}, ` +
		`"high": {PRICES}}}`, false},
	{"a starter beyond the plank", `{"planks": 7, "tree": {"split": {"of": "starter", "value": 11}, "low": {PRICES}, ` +
		`"high": {PRICES}}}`, false},
	{"1000 splits above one another", deep(1000), true},
	{"1001 of them", deep(1001), false},
}

var ofLying = []verdict{
	{"as it is", `{"planks": 6, "tree": {PRICES}}`, true},
	{"a plank more", `{"planks": 7, "tree": {PRICES}}`, false},
	{"nothing claimed, nothing shown", `{"planks": 0, "tree": {}}`, true},
	{"a claim that no sum of prices reaches", `{"planks": 9223372038, "tree": {PRICES}}`, false},
	{"both placements, one by one", `{"planks": 6, "tree": {"of": [0], "in": {PRICES}, "out": {PRICES}}}`, true},
	{"three runs by a certificate", `{"planks": 6, "tree": {"of": [0], "in": {"certificate": {"planks": 8, ` +
		`"tree": {PRICES}}}, "out": {PRICES}}}`, true},
	{"a certificate of fewer planks", `{"planks": 6, "tree": {"of": [0], "in": {"certificate": {"planks": 5, ` +
		`"tree": {PRICES}}}, "out": {PRICES}}}`, false},
	{"a certificate of two placements", `{"planks": 6, "tree": {"certificate": {"planks": 6, "tree": {PRICES}}}}`, false},
	{"nothing where no placement is left", `{"planks": 6, "tree": {"of": [0, 1], "in": {PRICES}, "out": {}}}`, true},
	{"nothing in a set", `{"planks": 6, "tree": {"in": {}, "out": {PRICES}}}`, true},
	{"nothing where one is left", `{"planks": 6, "tree": {"of": [0], "in": {PRICES}, "out": {}}}`, false},
	{"a leaf that names placements", `{"planks": 6, "tree": {"of": [0], PRICES}}`, false},
	{"placements that fall", `{"planks": 6, "tree": {"of": [1, 0], "in": {PRICES}, "out": {PRICES}}}`, false},
	{"a placement there is not", `{"planks": 6, "tree": {"of": [2], "in": {PRICES}, "out": {PRICES}}}`, false},
	{"a floor there is not", `{"planks": 6, "tree": {"floor": 2, "of": [0], "in": {PRICES}, "out": {PRICES}}}`, false},
	{"prices in a branch", `{"planks": 6, "tree": {"of": [0], PRICES, "in": {PRICES}, "out": {PRICES}}}`, false},
}

// deep splits so often that run 0 is laid in one piece, which it never is, on the last of sides without end.
func deep(splits int) string {
	split := `{"split": {"of": "place", "value": 10}, "high": {PRICES}, "low": `
	return `{"planks": 7, "tree": ` + strings.Repeat(split, splits) + `{PRICES}` + strings.Repeat("}", splits) + `}`
}

// TestVerdictsAgree holds the verdicts of package proof and of the verifier in Python against each other and against
// what the text of package proof says of what a certificate may hold.
func TestVerdictsAgree(t *testing.T) {
	var lines bytes.Buffer
	check := func(of string, list []verdict, verify func(certificate []byte) error) {
		for k := range list {
			v := &list[k]
			certificate := strings.ReplaceAll(v.certificate, "PRICES", prices)
			fmt.Fprintf(&lines, "[%s, %s]\n", strings.Join(strings.Fields(of), " "), certificate)
			if err := verify([]byte(certificate)); (err == nil) != v.holds {
				t.Errorf("%s: %v, want it to hold: %v", v.why, err, v.holds)
			}
		}
	}
	check(three, ofThree, func(certificate []byte) error {
		var in rows.Instance
		var c proof.Certificate
		read(t, []byte(three), &in)
		read(t, certificate, &c)
		return c.Verify(&in)
	})
	check(lying, ofLying, func(certificate []byte) error {
		var f proof.Family
		var c proof.FamilyCertificate
		read(t, []byte(lying), &f)
		read(t, certificate, &c)
		return c.Verify(&f)
	})
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not installed")
	}
	cmd := exec.Command(python, "-B", "-c", pythonVerdicts)
	cmd.Dir, cmd.Stdin = folder, &lines
	out, err := cmd.CombinedOutput()
	said := strings.Fields(string(out))
	if all := len(ofThree) + len(ofLying); err != nil || len(said) != all {
		t.Fatalf("%v: %d verdicts of %d: %s", err, len(said), all, out)
	}
	for k, v := range append(ofThree[:len(ofThree):len(ofThree)], ofLying...) {
		if said[k] != fmt.Sprint(v.holds) {
			t.Errorf("in Python, %s: %s, want %v", v.why, said[k], v.holds)
		}
	}
}

// pythonVerdicts reads pairs of a problem and a certificate, a line each.
const pythonVerdicts = `
import json, sys, family, verify
for line in sys.stdin:
    problem, certificate = json.loads(line, parse_float=str)
    try:
        if "floors" in problem:
            family.Family(problem, certificate)
        else:
            verify.Certificate(verify.Problem(problem), certificate)
        print("true")
    except (ValueError, KeyError, TypeError, IndexError, RecursionError):
        print("false")
`

func read(t *testing.T, data []byte, v any) {
	t.Helper()
	if err := json.Unmarshal(data, v); err != nil {
		t.Fatal(err)
	}
}
