package oracle

import (
	"bytes"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"plank.example/cutopt"
	"plank.example/cutopt/planfile"
)

func Clone(t testing.TB, p *cutopt.Plan) *cutopt.Plan {
	t.Helper()
	q, err := planfile.Decode(bytes.NewReader(Encode(t, p)))
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func Encode(t testing.TB, p *cutopt.Plan) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := planfile.Encode(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// PlanSchema compiles the schema of plan files.
func PlanSchema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(planfile.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("plan.json", doc); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("plan.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}
