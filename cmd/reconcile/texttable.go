package main

import (
	"io"
	"strings"

	"github.com/mattn/go-runewidth"
)

// textTable lines up columns for a terminal, where Chinese and Japanese letters are two places wide.
type textTable struct {
	rows   [][]string
	widths []int
}

// newTextTable returns a table with a row of headings, if there are any.
func newTextTable(headings ...string) *textTable {
	t := &textTable{}
	if len(headings) > 0 {
		t.add(headings...)
	}
	return t
}

func (t *textTable) add(cells ...string) {
	t.fit(cells)
	t.rows = append(t.rows, cells)
}

// fit makes the columns wide enough for a row.
func (t *textTable) fit(cells []string) {
	for len(t.widths) < len(cells) {
		t.widths = append(t.widths, 0)
	}
	for i, cell := range cells {
		t.widths[i] = max(t.widths[i], runewidth.StringWidth(cell))
	}
}

// write prints the table; the last column is not filled up.
func (t *textTable) write(out io.StringWriter, indent string) {
	for _, row := range t.rows {
		t.line(out, indent, row)
	}
}

// line prints one row. Errors are left to the flushing of out, if it has any.
func (t *textTable) line(out io.StringWriter, indent string, cells []string) {
	var line strings.Builder
	line.WriteString(indent)
	for i, cell := range cells {
		if i == len(cells)-1 {
			line.WriteString(cell)
			break
		}
		line.WriteString(runewidth.FillRight(cell, t.widths[i]) + "  ")
	}
	line.WriteByte('\n')
	_, _ = out.WriteString(line.String())
}
