package webpage

import (
	"strings"

	"golang.org/x/text/encoding/htmlindex"

	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/text"
)

// declared is where a page names its encoding, within its first bytes (HTML, 13.2.3.2).
var declared = pattern.Lazy(`(?i)<meta[^>]{0,200}charset\s*=\s*["']?\s*([a-z0-9_:.-]+)`)

// headSize is how many bytes of a page may name its encoding.
const headSize = 4096

// decode decodes a page by its byte order mark or by what it says of itself, and otherwise as any text.
func decode(data []byte) (page string, notes []sheet.Note, encoding string, err error) {
	m := declared().FindSubmatch(data[:min(len(data), headSize)])
	if m == nil || strings.HasPrefix(string(data[:min(len(data), 3)]), "\xef\xbb\xbf") {
		return text.Decode(data)
	}
	name := strings.ToLower(string(m[1]))
	known, err := htmlindex.Get(name)
	if err != nil || strings.HasPrefix(name, "utf") || strings.HasPrefix(name, "unicode") {
		return text.Decode(data)
	}
	decoded, err := known.NewDecoder().Bytes(data)
	if err != nil {
		return text.Decode(data)
	}
	if canonical, err := htmlindex.Name(known); err == nil {
		name = canonical
	}
	return string(decoded), []sheet.Note{{Code: text.CodeEncoding, Message: "the page was read as " + name + " (it says so)"}}, name, nil
}
