package mill

import (
	"encoding/csv"
	"fmt"
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/workbook/workbooktest"
)

// Data is the file as it is sent.
func (s *Sheet) Data() ([]byte, error) {
	if s.Habits["file"] == "xlsx" {
		return workbooktest.Build(s.Text)
	}
	return []byte(s.Text), nil
}

func (m *maker) write() {
	s := m.sheet
	s.Name = fmt.Sprintf("mill-%06d", s.Seed)
	switch m.habits.file {
	case "xlsx":
		s.Name, s.Text = s.Name+".xlsx", m.book()
	case "csv":
		s.Name, s.Text = s.Name+".csv", m.csv()
	default:
		s.Name, s.Text = s.Name+".txt", m.aligned()
	}
}

var bookEscapes = strings.NewReplacer(`\`, `\\`, `|`, `\|`, `}`, `\}`)

func (m *maker) book() string {
	var b strings.Builder
	b.WriteString("sheet List\n")
	where := map[*cell]sheet.Ref{}
	for r, line := range m.sheet.cells {
		b.WriteString("|")
		for c, one := range line {
			where[one] = sheet.Ref{Row: r + 1, Col: c + 1}
			text := one.text
			if !one.number && text != "" {
				text = "'" + bookEscapes.Replace(text)
			}
			if one.format != "" {
				text += " {" + one.format + "}"
			}
			b.WriteString(" " + text + " |")
		}
		b.WriteString("\n")
	}
	for _, pair := range m.merges {
		fmt.Fprintf(&b, "merge %v\n", sheet.Range{From: where[pair[0]], To: where[pair[1]]})
	}
	for _, one := range m.hidden {
		fmt.Fprintf(&b, "hide columns %s\n", sheet.ColumnName(where[one].Col))
	}
	return b.String()
}

func (m *maker) csv() string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.Comma = pick(m.Rand, ',', ';', '\t')
	if m.habits.number == "decimal comma" {
		w.Comma = ';'
	}
	widest := 0
	for _, line := range m.sheet.cells {
		widest = max(widest, len(line))
	}
	for _, line := range m.sheet.cells {
		texts := make([]string, widest)
		for c, one := range line {
			texts[c] = one.text
		}
		// A strings.Builder takes everything.
		_ = w.Write(texts)
	}
	w.Flush()
	return b.String()
}

// aligned writes columns apart by blanks, as text copied out of a document is.
func (m *maker) aligned() string {
	var widths []int
	for _, line := range m.sheet.cells {
		for c, one := range line {
			for len(widths) <= c {
				widths = append(widths, 0)
			}
			if len(line) > 1 {
				widths[c] = max(widths[c], utf8.RuneCountInString(one.text))
			}
		}
	}
	var b strings.Builder
	for _, line := range m.sheet.cells {
		text := ""
		for c, one := range line {
			text += one.text + strings.Repeat(" ", max(0, widths[c]-utf8.RuneCountInString(one.text))+3)
		}
		b.WriteString(strings.TrimRight(text, " ") + "\n")
	}
	return b.String()
}
