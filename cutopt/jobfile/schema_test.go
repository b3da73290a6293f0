package jobfile_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"

	"plank.example/cutopt/jobfile"
)

func compileSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(jobfile.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("job.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("job.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON turns the values of YAML into those of JSON: keys are strings.
func asJSON(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = asJSON(v[k])
		}
	case map[any]any:
		m := make(map[string]any, len(v))
		for k, item := range v {
			m[fmt.Sprint(k)] = asJSON(item)
		}
		return m
	case []any:
		for i := range v {
			v[i] = asJSON(v[i])
		}
	}
	return v
}

func validate(s *jsonschema.Schema, data []byte) error {
	var v any
	if err := yaml.Load(data, &v); err != nil {
		return err
	}
	return s.Validate(asJSON(v))
}

// Every good file, and every example, fits the schema, as it stands and as Encode writes it.
func TestSchemaAcceptsGoodFiles(t *testing.T) {
	s := compileSchema(t)
	for _, name := range files(t, "testdata/good/*.yaml", "testdata/good/*.json", "../../examples/*.yaml") {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := validate(s, data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		job, err := jobfile.Decode(bytes.NewReader(data), name)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := jobfile.Encode(&out, job); err != nil {
			t.Fatal(err)
		}
		if err := validate(s, out.Bytes()); err != nil {
			t.Errorf("%s as it is written: %v", name, err)
		}
	}
}

// Files with a wrong structure do not fit it.
func TestSchemaRefusesBadFiles(t *testing.T) {
	s := compileSchema(t)
	for _, name := range []string{
		"a-list.yaml", "a-text.yaml", "alias-of-itself.yaml", "bad.json", "many-errors.yaml", "merge.yaml",
		"missing.yaml",
		"missing-inside.yaml", "no-rooms.yaml", "tags-and-aliases.yaml", "doorways.yaml",
	} {
		data, err := os.ReadFile(filepath.Join("testdata/bad", name))
		if err != nil {
			t.Fatal(err)
		}
		if validate(s, data) == nil {
			t.Errorf("%s fits the schema", name)
		}
	}
}

// The schema and the reader know the same keys: the reader lists them when it meets one it does not know.
func TestSchemaHasTheKeysOfTheReader(t *testing.T) {
	var schema map[string]any
	if err := json.Unmarshal(jobfile.Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	at := func(path string) []string {
		v := any(schema)
		for _, step := range strings.Fields(path) {
			if list, ok := v.([]any); ok {
				v = list[1] // the second of oneOf is the mapping
			} else {
				v = v.(map[string]any)[step]
			}
			if v == nil {
				t.Fatalf("the schema has no %s in %s", step, path)
			}
		}
		return slices.Sorted(maps.Keys(v.(map[string]any)))
	}
	const stranger = "qqqqqqqqqqqq: 1"
	for path, text := range map[string]string{
		"properties":                           "unit: in\n" + stranger,
		"$defs plank properties":               "unit: in\nplank: {" + stranger + "}",
		"$defs box properties":                 "unit: in\nbox: {" + stranger + "}",
		"properties products items properties": "unit: in\nproducts: [{" + stranger + "}]",
		"properties rules properties":          "unit: in\nrules: {" + stranger + "}",
		"$defs room properties":                "unit: in\nrooms: [{" + stranger + "}]",
		"$defs wall oneOf 1 properties":        "unit: in\nrooms: [{walls: [{" + stranger + "}]}]",
		"$defs island oneOf 1 properties":      "unit: in\nrooms: [{islands: [{" + stranger + "}]}]",
		"$defs doorway properties":             "unit: in\nrooms: [{doorways: [{" + stranger + "}]}]",
		"$defs rows oneOf 1 properties":        "unit: in\nrooms: [{rows: {" + stranger + "}}]",
		"$defs trim properties":                "unit: in\ntrim: [{" + stranger + "}]",
		"$defs stick properties":               "unit: in\ntrim: [{sticks: [{" + stranger + "}]}]",
		"$defs profile properties":             "unit: in\ntransitions: [{" + stranger + "}]",
		"$defs underlay properties":            "unit: in\nunderlay: {" + stranger + "}",
		"$defs roll properties":                "unit: in\nfilm: {rolls: [{" + stranger + "}]}",
		"$defs film properties":                "unit: in\nfilm: {" + stranger + "}",
		"$defs tape properties":                "unit: in\ntape: {" + stranger + "}",
		"$defs spacers properties":             "unit: in\nspacers: {" + stranger + "}",
		"$defs appliance properties":           "unit: in\nappliances: [{" + stranger + "}]",
	} {
		_, err := jobfile.Read(strings.NewReader(text), "")
		_, list, found := strings.Cut(fmt.Sprint(err), "qqqqqqqqqqqq: unknown key; it may be ")
		if !found {
			t.Errorf("%s: %v", path, err)
			continue
		}
		list, _, _ = strings.Cut(list, "\n")
		known := strings.Split(list, ", ")
		slices.Sort(known)
		if diff := cmp.Diff(at(path), known); diff != "" {
			t.Errorf("%s (-schema +reader):\n%s", path, diff)
		}
	}
}
