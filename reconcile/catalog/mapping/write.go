package mapping

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// Write writes how a catalogue's tables were understood as a mapping file. What the sheets say themselves stands as
// rules; what was inferred, and every open question, stands as a comment, ready to be answered by taking the # away. The
// same catalogue gives the same bytes. The error is that of the writer.
func Write(w io.Writer, c *catalog.Catalogue) error {
	var b bytes.Buffer
	b.WriteString("# How the sheets were understood. Lines that begin with # are open: take the # away to decide them.\n")
	for i := range c.Tables {
		if table := &c.Tables[i]; table.Kind != catalog.UnknownKind || len(table.Findings) > 0 {
			writeTable(&b, table)
		}
	}
	_, err := w.Write(b.Bytes())
	return err
}

func writeTable(b *bytes.Buffer, t *catalog.Table) {
	key := "sheets." + Quote(t.Key)
	fmt.Fprintf(b, "\n# %s, %s: %d rows, %d used, %d with assumptions, %d held, %d set aside\n", oneLine(t.File), oneLine(t.Sheet), t.Ledger.Rows, t.Ledger.Used,
		t.Ledger.Assumed, t.Ledger.Held, t.Ledger.SetAside)
	fmt.Fprintf(b, "[%s]\n", key)
	switch {
	case t.Kind == catalog.UnknownKind:
		b.WriteString("# kind = \"none\"\n")
	case hasFinding(t, "layout.kind"):
		fmt.Fprintf(b, "# kind = %s\n", Quote(t.Kind.String()))
	default:
		fmt.Fprintf(b, "kind = %s\n", Quote(t.Kind.String()))
	}
	for _, f := range t.Findings.Each() {
		if f.Settle == key+".ferrule_bores" {
			fmt.Fprintf(b, "# # %s: %s\n# ferrule_bores = %s\n", f.Code, oneLine(f.Message), Quote(catalog.BoresAreTips))
		}
	}
	if len(t.HeadingRows) > 0 {
		fmt.Fprintf(b, "# heading_rows = %s\n", strings.Join(strings.Fields(fmt.Sprint(t.HeadingRows)), ", "))
	}
	for _, column := range t.Columns {
		writeColumn(b, t, key, column)
	}
	writeQuestions(b, t, key)
}

func hasFinding(t *catalog.Table, code string) bool {
	return slices.ContainsFunc(t.Findings, func(f finding.Finding) bool { return f.Code == code })
}

// writeColumn writes a column; its role or unit is a comment where a finding asks for it.
func writeColumn(b *bytes.Buffer, t *catalog.Table, key string, c catalog.Column) {
	at := key + ".columns." + c.Column
	fmt.Fprintf(b, "\n[%s]\nheading = %s\n", at, Quote(c.Heading))
	if c.Evidence != "" {
		fmt.Fprintf(b, "# %s\n", oneLine(c.Evidence))
	}
	if c.RunnerUp != "" {
		fmt.Fprintf(b, "# could also be: %s\n", oneLine(c.RunnerUp))
	}
	role := string(c.Role)
	if role == "" {
		role = none
	}
	fmt.Fprintf(b, "%srole = %s\n", open(t, at+".role", c.Role == ""), Quote(role))
	if traits.IsLengthUnit(c.Unit) {
		fmt.Fprintf(b, "%sunit = %s\n", open(t, at+".unit", false), Quote(c.Unit))
	}
}

// open returns the # of a line that is a question.
func open(t *catalog.Table, settle string, unsettled bool) string {
	if unsettled || slices.ContainsFunc(t.Findings.Each(), func(f finding.Finding) bool { return f.Settle == settle }) {
		return "# "
	}
	return ""
}

// writeQuestions writes a place for the answer to every finding about a row.
func writeQuestions(b *bytes.Buffer, t *catalog.Table, key string) {
	prefix := key + ".rows."
	parts := map[string]string{}
	for _, row := range t.Rows {
		parts[row.Name()] = row.Part
	}
	last := ""
	for _, f := range t.Findings.Each() {
		name, role, ok := strings.Cut(strings.TrimPrefix(f.Settle, prefix), ".")
		if !ok || !strings.HasPrefix(f.Settle, prefix) {
			continue
		}
		if name != last {
			fmt.Fprintf(b, "\n# [%s%s]\n", prefix, name)
			if parts[name] != "" {
				fmt.Fprintf(b, "# for = %s\n", Quote(parts[name]))
			}
			last = name
		}
		fmt.Fprintf(b, "# # %s: %s\n# %s = \"\"\n", f.Code, oneLine(f.Message), role)
	}
}

// Quote writes a text as a basic string of TOML.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// oneLine keeps a text within a comment.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, s)
}
