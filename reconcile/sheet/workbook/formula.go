package workbook

import (
	"strconv"

	"example.com/seatline/reconcile/sheet"
)

// shared is a formula that a range of cells has in common. It is written once, for the cell at.
type shared struct {
	at   sheet.Ref
	text string
}

// formula returns the shared formula as it reads in another cell: relative references move along, absolute ones do not.
// A reference that leaves the sheet becomes #REF!.
func (f shared) formula(cell sheet.Ref) string {
	rows, cols := cell.Row-f.at.Row, cell.Col-f.at.Col
	if rows == 0 && cols == 0 {
		return f.text
	}
	out := make([]byte, 0, len(f.text)+16)
	text := f.text
	for len(text) > 0 {
		n := quoted(text)
		if n == 0 {
			n = word(text)
			if r, ok := reference(text, n); ok {
				out = r.appendMoved(out, rows, cols)
				text = text[n:]
				continue
			}
		}
		n = max(n, 1)
		out = append(out, text[:n]...)
		text = text[n:]
	}
	return string(out)
}

// quoted returns the length of a string, a sheet name in quotes or something in brackets at the start of a formula.
func quoted(text string) int {
	switch text[0] {
	case '"', '\'':
		for i := 1; i < len(text); i++ {
			if text[i] != text[0] {
				continue
			}
			if i+1 < len(text) && text[i+1] == text[0] {
				i++
				continue
			}
			return i + 1
		}
		return len(text)
	case '[':
		depth := 0
		for i := 0; i < len(text); i++ {
			switch text[i] {
			case '[':
				depth++
			case ']':
				if depth--; depth == 0 {
					return i + 1
				}
			}
		}
		return len(text)
	}
	return 0
}

// word returns the length of a name, number or reference at the start of a formula.
func word(text string) int {
	i := 0
	for i < len(text) && (text[i] == '$' || text[i] == '_' || text[i] == '.' || text[i] == '\\' || text[i] >= 0x80 ||
		text[i]|0x20 >= 'a' && text[i]|0x20 <= 'z' || text[i] >= '0' && text[i] <= '9') {
		i++
	}
	return i
}

// reference reads a word as a reference to a cell; ok is false for the name of a function or sheet, and for others.
func reference(text string, length int) (r loose, ok bool) {
	if length < len(text) && (text[length] == '(' || text[length] == '!') {
		return loose{}, false
	}
	return parseLoose(text[:length])
}

// loose is a reference with its dollar signs.
type loose struct {
	col, row           int
	fixedCol, fixedRow bool
}

// parseLoose reads a reference such as B7, $B7 or B$7.
func parseLoose(text string) (r loose, ok bool) {
	i := 0
	if i < len(text) && text[i] == '$' {
		r.fixedCol = true
		i++
	}
	letters := i
	for i < len(text) && text[i]|0x20 >= 'a' && text[i]|0x20 <= 'z' {
		r.col = r.col*26 + int(text[i]|0x20-'a') + 1
		i++
	}
	if i == letters || i-letters > 3 || r.col > MaxCols {
		return loose{}, false
	}
	if i < len(text) && text[i] == '$' {
		r.fixedRow = true
		i++
	}
	if i == len(text) || len(text)-i > 7 || text[i] == '0' {
		return loose{}, false
	}
	for ; i < len(text); i++ {
		if text[i] < '0' || text[i] > '9' {
			return loose{}, false
		}
		r.row = r.row*10 + int(text[i]-'0')
	}
	return r, r.row <= MaxRows
}

// appendMoved appends the reference shifted by rows and columns.
func (r loose) appendMoved(out []byte, rows, cols int) []byte {
	if !r.fixedCol {
		r.col += cols
	}
	if !r.fixedRow {
		r.row += rows
	}
	if r.col < 1 || r.col > MaxCols || r.row < 1 || r.row > MaxRows {
		return append(out, "#REF!"...)
	}
	if r.fixedCol {
		out = append(out, '$')
	}
	out = append(out, sheet.ColumnName(r.col)...)
	if r.fixedRow {
		out = append(out, '$')
	}
	return strconv.AppendInt(out, int64(r.row), 10)
}
