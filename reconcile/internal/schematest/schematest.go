// Package schematest holds JSON against the schemas that this module publishes. Only tests import it.
package schematest

import (
	"bytes"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// Parse reads one JSON value, with its numbers as they are written.
func Parse(t testing.TB, text []byte) any {
	t.Helper()
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return value
}

// Compile makes a schema of its text. It is of the 2020-12 draft where it does not say otherwise, and its formats are demanded.
func Compile(t testing.TB, text []byte) *jsonschema.Schema {
	t.Helper()
	return CompileValue(t, Parse(t, text))
}

// CompileValue is [Compile] for a schema that has been read already.
func CompileValue(t testing.TB, value any) *jsonschema.Schema {
	t.Helper()
	compiler := jsonschema.NewCompiler()
	compiler.DefaultDraft(jsonschema.Draft2020)
	compiler.AssertFormat()
	if err := compiler.AddResource("schema.json", value); err != nil {
		t.Fatal(err)
	}
	schema, err := compiler.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// Check fails the test, and says of what, where a text is not as its schema says.
func Check(t testing.TB, what string, schema *jsonschema.Schema, text []byte) {
	t.Helper()
	if err := schema.Validate(Parse(t, text)); err != nil {
		t.Errorf("%s: %v", what, err)
	}
}
