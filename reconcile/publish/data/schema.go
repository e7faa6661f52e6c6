package data

import _ "embed"

//go:embed schema/fits-line.schema.json
var fitSchema []byte

//go:embed schema/heads-line.schema.json
var headSchema []byte

//go:embed schema/ferrules-line.schema.json
var ferruleSchema []byte

//go:embed schema/summary.schema.json
var summarySchema []byte

// FitSchema returns the JSON Schema (2020-12) of one line of fits.jsonl.
func FitSchema() []byte { return append([]byte(nil), fitSchema...) }

// HeadSchema returns the JSON Schema (2020-12) of one line of heads.jsonl.
func HeadSchema() []byte { return append([]byte(nil), headSchema...) }

// FerruleSchema returns the JSON Schema (2020-12) of one line of ferrules.jsonl.
func FerruleSchema() []byte { return append([]byte(nil), ferruleSchema...) }

// SummarySchema returns the JSON Schema (2020-12) of summary.json.
func SummarySchema() []byte { return append([]byte(nil), summarySchema...) }
