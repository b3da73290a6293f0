package frozen_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"plank.example/bench/frozen"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

const folder = "../../testdata/instances"

// schema compiles one of the published schemas, with those it refers to.
func schema(t *testing.T, name string) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	for _, file := range []string{"instance.schema.json", "claim.schema.json", "certificate.schema.json"} {
		text, err := os.ReadFile(filepath.Join(folder, file))
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if err := c.AddResource("https://plank.example/"+file, doc); err != nil {
			t.Fatal(err)
		}
	}
	s, err := c.Compile("https://plank.example/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func holds(t *testing.T, s *jsonschema.Schema, v any) error {
	t.Helper()
	text, ok := v.(string)
	if !ok {
		data, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		text = string(data)
	}
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(doc)
}

// TestSchemas holds every instance and certificate of the set against the published schemas, and texts that are wrong.
func TestSchemas(t *testing.T) {
	instance, certificate, claim := schema(
		t,
		"instance.schema.json",
	), schema(
		t,
		"certificate.schema.json",
	), schema(
		t,
		"claim.schema.json",
	)
	for i, e := range set(t) {
		if testing.Short() && i%10 > 0 {
			continue
		}
		if err := holds(t, instance, e.Instance); err != nil {
			t.Errorf("%s: %v", e.ID, err)
		}
		if err := holds(t, certificate, e.Certificate); err != nil {
			t.Errorf("%s: %v", e.ID, err)
		}
		c := frozen.Claim{
			ID:      e.ID,
			Source:  frozen.Source{By: "x", Date: "2026-11-26", Seconds: 0.5},
			Layout:  e.Layout,
			Packing: e.Packing,
		}
		if err := holds(t, claim, c); err != nil {
			t.Errorf("%s: %v", e.ID, err)
		}
	}
	const plain = `"kerf": 0, "min_piece": 2, "stagger": 3, "grid": 1, "touch": []`
	for _, c := range []struct {
		why  string
		by   *jsonschema.Schema
		text string
	}{
		{"no runs", instance, `{"plank": 10, ` + plain + `, "runs": []}`},
		{"half a tick", instance, `{"plank": 10.5, ` + plain + `, "runs": [{"from": 0, "length": 3}]}`},
		{"a tie of three", instance, `{"plank": 10, ` + strings.Replace(plain, "[]", "[[0,1,2]]",
			1) + `, "runs": [{"from": 0, "length": 3}]}`},
		{"an offcut with two ends", instance, `{"plank": 10, ` + plain + `, "runs": [{"from": 0, "length": 3}], ` +
			`"offcuts": [{"length": 3, "end": "both"}]}`},
		{"a leaf and a branch in one", certificate, `{"planks": 1, "tree": {"prices": [{"at": 1, "price": 1}], "split": ` +
			`{"of": "started", "value": 1}}}`},
		{"a figure of its own", certificate, `{"planks": 1, "tree": {"split": {"of": "joints", "value": 1}, "low": ` +
			`{"counts": true}, "high": {"counts": true}}}`},
		{"a branch with one side", certificate, `{"planks": 1, "tree": {"split": {"of": "started", "value": 1}, "low": ` +
			`{"counts": true}}}`},
		{"a price above a plank", certificate, `{"planks": 1, "tree": {"prices": [{"at": 1, "price": 1000000001}]}}`},
		{"a claim of nothing", claim, `{"id": "two", "by": "x"}`},
		{"a claim by nobody", claim, `{"id": "two", "layout": [1]}`},
		{"a date of another kind", claim, `{"id": "two", "by": "x", "date": "today", "layout": [1]}`},
	} {
		if holds(t, c.by, c.text) == nil {
			t.Errorf("%s passes its schema", c.why)
		}
	}
}

// TestVerifierIsShort wants the reference verifier to have fewer than 200 lines, as the specification says.
func TestVerifierIsShort(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(folder, "verify.py"))
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(text, []byte("\n")); n >= 200 {
		t.Errorf("verify.py has %d lines, want fewer than 200", n)
	}
}

// TestWorkedExample takes the instance, the claim and the certificate off the page of the specification and verifies
// them.
func TestWorkedExample(t *testing.T) {
	page, err := os.ReadFile(filepath.Join(folder, "SPECIFICATION.md"))
	if err != nil {
		t.Fatal(err)
	}
	var blocks []string
	for k, part := range strings.Split(string(page), "```") {
		if text, ok := strings.CutPrefix(part, "json\n"); ok && k%2 == 1 {
			blocks = append(blocks, text)
		}
	}
	if len(blocks) != 3 {
		t.Fatalf("%d blocks of JSON, want an instance, a claim and a certificate", len(blocks))
	}
	for k, name := range []string{"instance", "claim", "certificate"} {
		if err := holds(t, schema(t, name+".schema.json"), blocks[k]); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	in, err := rows.Decode(strings.NewReader(blocks[0]))
	if err != nil {
		t.Fatal(err)
	}
	var claim frozen.Claim
	var certificate proof.Certificate
	if err := json.Unmarshal([]byte(blocks[1]), &claim); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal([]byte(blocks[2]), &certificate); err != nil {
		t.Fatal(err)
	}
	if err := in.Check(claim.Layout); err != nil || in.Count(claim.Layout, nil) != 4 {
		t.Errorf("the layout needs %d planks, %v", in.Count(claim.Layout, nil), err)
	}
	if err := certificate.Verify(in); err != nil || certificate.Planks != 4 {
		t.Errorf("a bound of %d: %v", certificate.Planks, err)
	}
}
