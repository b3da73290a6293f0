package jobfile

import (
	"bytes"
	_ "embed" // for the schema
	"encoding/json"
	"strings"

	"plank.example/cutopt"
)

//go:embed schema.json
var schema []byte

// Schema returns the JSON Schema (draft 2020-12) of job files, for editors and for programs that write them. It states
// keys, types and choices; what lengths and areas may look like, and how the values must agree, is for [Read] to say.
func Schema() []byte {
	// The line of the file that stands for the rules.
	const place = `"$rules": "a line for each row of the table of rules"`
	var lines []string
	for _, r := range cutopt.RuleTable() {
		lines = append(lines, ruleSchema(r))
	}
	return bytes.Replace(schema, []byte(place), []byte(strings.Join(lines, ",\n        ")), 1)
}

// ruleSchema returns the schema of a rule, in one line: its key and what it takes.
func ruleSchema(r cutopt.Rule) string {
	takes := `"$ref": "#/$defs/` + r.Kind() + `"`
	text := r.Help
	if r.Zero != "" {
		text += ": " + r.Zero + " or a length"
	}
	text += "; default " + r.Default
	if r.MetricDefault != r.Default {
		text += " | " + r.MetricDefault
	}
	quoted, _ := json.Marshal(text) // of a text never fails
	return `"` + r.Key + `": {` + takes + `, "description": ` + string(quoted) + "}"
}
