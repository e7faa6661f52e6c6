package report

import (
	"io"
	"strings"

	"github.com/mattn/go-runewidth"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/phrase"
)

// WriteText writes a section as lines for a terminal: its headings, where it has any, and its rows, in columns as wide as they need to be,
// where Chinese and Japanese letters are two places wide. The last column is not filled up. Every line begins with the indent.
func WriteText(w io.Writer, s *Section, units fitcalc.Units, indent string) error {
	lines := make([][]string, 0, len(s.Rows)+1)
	headings := make([]string, len(s.Columns))
	for i, c := range s.Columns {
		headings[i] = c.HeadingText(units)
	}
	if strings.Join(headings, "") != "" {
		lines = append(lines, headings)
	}
	for _, row := range s.Rows {
		line := make([]string, len(row))
		for i, cell := range row {
			line[i] = shown(CellText(cell, s.Columns[i].Kind, units))
		}
		lines = append(lines, line)
	}
	widths := make([]int, len(s.Columns))
	for _, line := range lines {
		for i, text := range line {
			widths[i] = max(widths[i], runewidth.StringWidth(text))
		}
	}
	var text strings.Builder
	for _, line := range lines {
		text.WriteString(indent)
		for i, cell := range line {
			if i < len(line)-1 {
				cell = runewidth.FillRight(cell, widths[i]) + "  "
			}
			text.WriteString(cell)
		}
		text.WriteByte('\n')
	}
	_, err := io.WriteString(w, text.String())
	return err
}

// mostShown is how many characters of a cell are shown: more than any sentence of ours has.
const mostShown = 600

// shown keeps a text from steering a terminal and from filling it.
func shown(text string) string {
	return phrase.Shorten(strings.Map(func(r rune) rune {
		if phrase.Steers(r) {
			return ' '
		}
		return r
	}, text), mostShown)
}

// Listing is a section of texts for a terminal, with a heading for each column; empty headings are not shown.
func Listing(headings ...string) *Section {
	s := &Section{}
	for _, heading := range headings {
		s.Columns = append(s.Columns, Text(heading, 0))
	}
	return s
}

// Add adds a row.
func (s *Section) Add(cells ...any) { s.Rows = append(s.Rows, cells) }
