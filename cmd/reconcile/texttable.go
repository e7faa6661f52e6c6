package main

import (
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
	for len(t.widths) < len(cells) {
		t.widths = append(t.widths, 0)
	}
	for i, cell := range cells {
		t.widths[i] = max(t.widths[i], runewidth.StringWidth(cell))
	}
	t.rows = append(t.rows, cells)
}

// write prints the table; the last column is not filled up.
func (t *textTable) write(out *strings.Builder, indent string) {
	for _, row := range t.rows {
		out.WriteString(indent)
		for i, cell := range row {
			if i == len(row)-1 {
				out.WriteString(cell)
				break
			}
			out.WriteString(runewidth.FillRight(cell, t.widths[i]) + "  ")
		}
		out.WriteByte('\n')
	}
}
