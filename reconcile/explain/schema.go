package explain

import _ "embed"

//go:embed schema/explanation.schema.json
var schema []byte

// Schema returns the JSON Schema (2020-12) of a [Document].
func Schema() []byte { return append([]byte(nil), schema...) }
