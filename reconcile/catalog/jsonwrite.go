package catalog

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/finding"
)

// WriteJSON writes what [JSON] returns, indented by two spaces, row by row, so that a long list need not stand in memory a second time.
// The rows are written by hand, which goes some ten times as fast; the rest is left to encoding/json. Errors are those of the writer.
func WriteJSON(w io.Writer, c *Catalogue) error {
	out := &jsonWriter{w: bufio.NewWriterSize(w, 1<<16)}
	out.text("{\n  \"sheets\": [")
	for i := range c.Tables {
		out.separate(i, "    ")
		out.table(&c.Tables[i])
	}
	out.end(len(c.Tables), "  ")
	out.text(",\n  \"findings\": [")
	out.findings(c.Elsewhere(), "    ")
	out.text("\n}\n")
	if out.err != nil {
		return out.err
	}
	return out.w.Flush()
}

// jsonWriter writes JSON, each element of a list on lines of its own. After the first error it writes no more.
type jsonWriter struct {
	w   *bufio.Writer
	b   []byte
	err error
}

func (o *jsonWriter) text(text string) {
	if o.err == nil {
		_, o.err = o.w.WriteString(text)
	}
}

// separate writes what stands before the element of a list.
func (o *jsonWriter) separate(at int, indent string) {
	if at > 0 {
		o.text(",")
	}
	o.text("\n" + indent)
}

// end closes a list of n elements.
func (o *jsonWriter) end(n int, indent string) {
	if n > 0 {
		o.text("\n" + indent)
	}
	o.text("]")
}

// value returns a value as encoding/json writes it within lines that begin with an indent.
func (o *jsonWriter) value(v any, indent string) string {
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetIndent(indent, "  ")
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil && o.err == nil {
		o.err = err
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// table writes a table: what is said of it as a whole, with its lists empty, and these in their places.
func (o *jsonWriter) table(t *Table) {
	const rows, findings = "\n      \"rows\": []", "\n      \"findings\": []"
	bare := *t
	bare.Rows, bare.Findings = nil, nil
	head, rest, _ := strings.Cut(o.value(sheetDocument(&bare), "    "), rows)
	middle, tail, _ := strings.Cut(rest, findings)
	o.text(head + strings.TrimSuffix(rows, "]"))
	trust := TrustOf(t)
	for i := range t.Rows {
		o.separate(i, "        ")
		o.row(trust, &t.Rows[i])
	}
	o.end(len(t.Rows), "      ")
	o.text(middle + strings.TrimSuffix(findings, "]"))
	o.findings(t.Findings, "        ")
	o.text(tail)
}

func (o *jsonWriter) findings(list finding.List, indent string) {
	for i, f := range list {
		o.separate(i, indent)
		o.text(o.value(findingDocument(f), indent))
	}
	o.end(len(list), strings.TrimSuffix(indent, "  "))
}

// row writes a row, as a RowDocument.
func (o *jsonWriter) row(trust *Trust, r *Row) {
	const member = ",\n          "
	b := append(o.b[:0], "{\n          \"row\": "...)
	b = strconv.AppendInt(b, int64(r.Row), 10)
	b = o.string(append(b, member+`"outcome": `...), r.Outcome.String())
	b = o.string(append(b, member+`"part": `...), r.Part)
	b = append(b, member+`"fields": {`...)
	var room [32]stated
	fields := append(room[:0], r.Fields.list...)
	slices.SortFunc(fields, func(a, b stated) int { return strings.Compare(string(a.at.role()), string(b.at.role())) })
	for i, f := range fields {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, "\n            \""...)
		b = append(b, f.at.role()...)
		b = append(b, `": `...)
		b = o.field(b, trust, r, f)
	}
	if len(fields) > 0 {
		b = append(b, "\n          "...)
	}
	b = append(b, '}')
	b = o.texts(append(b, member+`"assumptions": `...), r.Assumptions, "\n          ")
	if r.Why != "" {
		b = o.string(append(b, member+`"why": `...), r.Why)
	}
	if len(r.Open) > 0 {
		open := make([]string, len(r.Open))
		for i, role := range r.Open {
			open[i] = string(role)
		}
		b = o.texts(append(b, member+`"open": `...), open, "\n          ")
	}
	b = append(b, "\n        }"...)
	o.b = b
	if o.err == nil {
		_, o.err = o.w.Write(b)
	}
}

// field adds a value, as a FieldDocument.
func (o *jsonWriter) field(b []byte, trust *Trust, r *Row, s stated) []byte {
	const member = ",\n              "
	field := s.what.field()
	doc := fieldDocument(trust, r, s.at.role(), &field)
	b = append(b, "{\n              "...)
	number := func(name string, v *float64) {
		if v != nil {
			b = append(append(append(b, '"'), name...), `": `...)
			b = append(o.number(b, *v), member...)
		}
	}
	number("mm", (*float64)(doc.MM))
	number("least_mm", (*float64)(doc.LeastMM))
	number("most_mm", (*float64)(doc.MostMM))
	if len(doc.ReadingsMM) > 0 {
		b = append(o.numbers(append(b, `"readings_mm": `...), doc.ReadingsMM, "\n              "), member...)
	}
	number("deg", doc.Deg)
	number("number", doc.Number)
	if doc.ForTip != "" {
		b = append(o.string(append(b, `"for_tip": `...), doc.ForTip), member...)
	}
	b = o.string(append(b, `"text": `...), doc.Text)
	b = o.string(append(b, member+`"cell": `...), s.cell())
	b = o.texts(append(b, member+`"assumptions": `...), doc.Assumptions, "\n              ")
	if doc.Confidence != nil {
		b = o.number(append(b, member+`"confidence": `...), *doc.Confidence)
	}
	if next := doc.Next; next != nil {
		b = o.next(append(b, member+`"next": `...), next)
	}
	return append(b, "\n            }"...)
}

// next adds the next best reading of a value.
func (o *jsonWriter) next(b []byte, next *Next) []byte {
	separator := "{\n                \""
	member := func(name string) {
		b = append(append(append(b, separator...), name...), `": `...)
		separator = ",\n                \""
	}
	if next.Role != "" {
		member("role")
		b = o.string(b, string(next.Role))
	}
	if next.MM != nil {
		member("mm")
		b = o.number(b, float64(*next.MM))
	}
	if next.Unit != "" {
		member("unit")
		b = o.string(b, next.Unit)
	}
	return append(b, "\n              }"...)
}

// texts adds a list of texts in lines that begin with a line break and an indent.
func (o *jsonWriter) texts(b []byte, texts []string, indent string) []byte {
	b = append(b, '[')
	for i, text := range texts {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(b, indent...), "  "...)
		b = o.string(b, text)
	}
	if len(texts) > 0 {
		b = append(b, indent...)
	}
	return append(b, ']')
}

// numbers adds a list of numbers, of which there are some, in lines that begin with a line break and an indent.
func (o *jsonWriter) numbers(b []byte, numbers []Millimetres, indent string) []byte {
	b = append(b, '[')
	for i, x := range numbers {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(b, indent...), "  "...)
		b = o.number(b, float64(x))
	}
	return append(append(b, indent...), ']')
}

// string adds a text as encoding/json writes it, but for the signs of HTML, which stay as they are.
func (o *jsonWriter) string(b []byte, text string) []byte {
	for i := 0; i < len(text); i++ {
		if c := text[i]; c < ' ' || c == '"' || c == '\\' || c >= utf8.RuneSelf {
			return o.escaped(b, text)
		}
	}
	b = append(b, '"')
	b = append(b, text...)
	return append(b, '"')
}

func (o *jsonWriter) escaped(b []byte, text string) []byte {
	if !strings.ContainsFunc(text, func(r rune) bool {
		return r < ' ' || r == '"' || r == '\\' || r == '\u2028' || r == '\u2029' || r == utf8.RuneError
	}) {
		b = append(b, '"')
		b = append(b, text...)
		return append(b, '"')
	}
	return append(b, o.value(text, "")...)
}

// number adds a number as encoding/json writes it, which is as ECMAScript does (ECMA-262, Number::toString).
func (o *jsonWriter) number(b []byte, x float64) []byte {
	if size := math.Abs(x); size != 0 && !(size >= 1e-6 && size < 1e21) {
		return append(b, o.value(x, "")...)
	}
	return strconv.AppendFloat(b, x, 'f', -1, 64)
}
