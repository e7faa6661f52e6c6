package turnlist

import (
	"encoding/json"
	"io"
)

// WriteJSON writes the list for other software. The error is the writer's.
func (l *List) WriteJSON(w io.Writer) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(l)
}
