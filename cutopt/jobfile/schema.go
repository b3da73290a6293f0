package jobfile

import (
	_ "embed" // for the schema
	"slices"
)

//go:embed schema.json
var schema []byte

// Schema returns the JSON Schema (draft 2020-12) of job files, for editors and for programs that write them. It states
// keys, types and choices; what lengths and areas may look like, and how the values must agree, is for [Read] to say.
func Schema() []byte { return slices.Clone(schema) }
