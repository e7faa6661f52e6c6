// Package sheettest makes small sheets of cells of text, for tests.
package sheettest

import (
	"strings"

	"example.com/seatline/reconcile/sheet"
)

// Sheet makes a sheet with a row for each line, whose cells are set apart by upright strokes. Blanks around a cell do not count, and a
// cell with nothing in it is empty.
func Sheet(name string, lines ...string) *sheet.Sheet {
	s := &sheet.Sheet{Name: name}
	for _, line := range lines {
		var row []*sheet.Cell
		for text := range strings.SplitSeq(line, "|") {
			text = strings.TrimSpace(text)
			cell := &sheet.Cell{Kind: sheet.Text, Raw: text, Shown: text}
			if text == "" {
				cell = sheet.BlankCell
			}
			row = append(row, cell)
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

// Book makes a book of one such sheet.
func Book(file, name string, lines ...string) *sheet.Book {
	return &sheet.Book{File: file, Sheets: []*sheet.Sheet{Sheet(name, lines...)}}
}

// Texts makes a sheet; equal cells are one and the same where they are shared.
func Texts(name string, rows [][]string, shared bool) *sheet.Sheet {
	s := &sheet.Sheet{Name: name}
	known := map[string]*sheet.Cell{"": sheet.BlankCell}
	for _, texts := range rows {
		var row []*sheet.Cell
		for _, text := range texts {
			cell := known[text]
			if cell == nil {
				kind := sheet.Text
				if strings.Trim(text, "0123456789.") == "" {
					kind = sheet.Number
				}
				cell = &sheet.Cell{Kind: kind, Raw: text, Shown: text}
				if shared {
					known[text] = cell
				}
			}
			row = append(row, cell)
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}
