package data

import _ "embed"

//go:embed schema/fits-line.schema.json
var fitSchema []byte

//go:embed schema/summary.schema.json
var summarySchema []byte

// FitSchema returns the JSON Schema (2020-12) of one line of fits.jsonl.
func FitSchema() []byte { return append([]byte(nil), fitSchema...) }

// SummarySchema returns the JSON Schema (2020-12) of summary.json.
func SummarySchema() []byte { return append([]byte(nil), summarySchema...) }
