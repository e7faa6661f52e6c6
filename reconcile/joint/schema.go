package joint

import _ "embed"

//go:embed schema/joint-answer.schema.json
var answerSchema []byte

// AnswerSchema returns the JSON Schema (2020-12) of one line that [Answer] writes.
func AnswerSchema() []byte { return append([]byte(nil), answerSchema...) }

//go:embed schema/joint.schema.json
var jointSchema []byte

// Schema returns the JSON Schema (2020-12) of one line that [Answer] reads.
func Schema() []byte { return append([]byte(nil), jointSchema...) }
