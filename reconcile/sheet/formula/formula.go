// Package formula works out formulas whose results a file does not store, as programs write them that make workbooks without a spreadsheet
// program: sums, differences, products and quotients of numbers and cells, SUM and PRODUCT, and cells that repeat another one. Anything else
// is left as it is, and so is what refers to it, to text in a sum, or to itself.
//
// The library by which workbooks are read has a calculator of hundreds of functions. It needs the workbook opened by it, has no bound, and is
// wrong where functions stand in sums that are given to functions; for what price lists hold this is enough.
package formula

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/sheet"
)

// Fill puts the results of such formulas into the cells of a workbook.
func Fill(book *sheet.Book) {
	w := &worker{book: book, left: mostVisits}
	for _, s := range book.Sheets {
		for row := range s.Rows {
			for col, cell := range s.Rows[row] {
				if cell.Kind == sheet.Blank && cell.Formula != "" {
					w.cell(s, sheet.Ref{Row: row + 1, Col: col + 1}, 0)
				}
			}
		}
	}
}

const (
	// mostVisits is how many cells are looked at for the formulas of a workbook: a sum over a whole column in each of its rows would look at
	// each of them as often.
	mostVisits = 5_000_000
	// deepest is how many formulas may lead from one to the next, or brackets stand within each other.
	deepest = 500
)

// worker works out the formulas of one workbook.
type worker struct {
	book *sheet.Book
	left int
	// sheet is where references without the name of a sheet lead.
	sheet *sheet.Sheet
	text  string
	depth int
}

// errLeft is why a formula is left as it is. Nobody is told: the cell stays without a result, which its reader reports.
var errLeft = errors.New("the formula is not worked out")

// cell returns a cell with its formula worked out, which is put in its place.
func (w *worker) cell(s *sheet.Sheet, at sheet.Ref, depth int) (sheet.Cell, error) {
	w.left--
	cell := s.Cell(at)
	if cell.Kind != sheet.Blank || cell.Formula == "" {
		return cell, nil
	}
	if depth > deepest || w.left < 0 {
		return cell, errLeft
	}
	result, err := (&worker{book: w.book, left: w.left, sheet: s, text: cell.Formula, depth: depth}).whole(&w.left)
	if err != nil {
		return cell, err
	}
	result.Formula, result.WorkedOut = cell.Formula, true
	if cell.Format != "" {
		result.Format = cell.Format
	}
	s.Rows[at.Row-1][at.Col-1] = &result
	return result, nil
}

// whole works out a formula to its end. One that only repeats another cell has all that this has.
func (w *worker) whole(left *int) (sheet.Cell, error) {
	defer func() { *left = w.left }()
	text := w.text
	if s, r, ok := w.reference(); ok && w.text == "" && r.From == r.To {
		return w.repeated(s, r.From)
	}
	w.text = text
	x, err := w.sum()
	if w.skip(); err != nil || w.text != "" {
		return sheet.Cell{}, errLeft
	}
	raw := strconv.FormatFloat(x, 'g', 15, 64) // the digits that spreadsheet programs keep
	if math.IsNaN(x) || math.IsInf(x, 0) || strings.ContainsRune(raw, 'e') {
		return sheet.Cell{}, errLeft
	}
	return sheet.Cell{Kind: sheet.Number, Raw: raw, Shown: raw}, nil
}

// repeated returns what a cell has that only repeats another one.
func (w *worker) repeated(s *sheet.Sheet, at sheet.Ref) (sheet.Cell, error) {
	cell, err := w.cell(s, at, w.depth+1)
	if err != nil || cell.Kind == sheet.Blank || cell.Kind == sheet.Struck {
		return sheet.Cell{}, errLeft
	}
	return cell, nil
}

func (w *worker) skip() { w.text = strings.TrimLeft(w.text, " ") }

// sign takes one of some signs, zero where none of them comes next.
func (w *worker) sign(signs string) byte {
	w.skip()
	if w.text == "" || !strings.Contains(signs, w.text[:1]) {
		return 0
	}
	sign := w.text[0]
	w.text = w.text[1:]
	return sign
}

func (w *worker) sum() (float64, error) {
	x, err := w.product()
	for err == nil {
		sign := w.sign("+-")
		if sign == 0 {
			return x, nil
		}
		var y float64
		if y, err = w.product(); sign == '-' {
			y = -y
		}
		x += y
	}
	return 0, err
}

func (w *worker) product() (float64, error) {
	x, err := w.factor()
	for err == nil {
		sign := w.sign("*/")
		if sign == 0 {
			return x, nil
		}
		var y float64
		if y, err = w.factor(); sign == '/' {
			y = 1 / y // by zero it is no number, which whole refuses
		}
		x *= y
	}
	return 0, err
}

// factor is a number, a cell, a function, or a sum in brackets, with a sign before it.
func (w *worker) factor() (float64, error) {
	if w.depth++; w.depth > deepest {
		return 0, errLeft
	}
	defer func() { w.depth-- }()
	switch sign := w.sign("+-("); sign {
	case '+', '-':
		x, err := w.factor()
		if sign == '-' {
			x = -x
		}
		return x, err
	case '(':
		x, err := w.sum()
		if err != nil || w.sign(")") == 0 {
			return 0, errLeft
		}
		return x, nil
	}
	for name, f := range functions {
		if rest, found := cutFold(w.text, name+"("); found {
			w.text = rest
			return w.apply(f)
		}
	}
	if s, r, ok := w.reference(); ok {
		if r.From != r.To {
			return 0, errLeft
		}
		x, _, err := w.number(s, r.From)
		return x, err
	}
	return w.literal()
}

// literal is a number as it stands in the formula.
func (w *worker) literal() (float64, error) {
	n := 0
	for n < len(w.text) && (w.text[n] >= '0' && w.text[n] <= '9' || w.text[n] == '.') {
		n++
	}
	x, err := strconv.ParseFloat(w.text[:n], 64)
	if err != nil {
		return 0, errLeft
	}
	w.text = w.text[n:]
	return x, nil
}

// functions are those that are worked out, each by how it takes in one more number, and from what it starts.
var functions = map[string]function{
	"SUM":     {0, func(all, x float64) float64 { return all + x }},
	"PRODUCT": {1, func(all, x float64) float64 { return all * x }},
}

type function struct {
	from float64
	take func(all, x float64) float64
}

// apply works out a function of numbers, cells and ranges behind its bracket. Of ranges it takes the numbers only, as spreadsheet programs do.
func (w *worker) apply(f function) (float64, error) {
	all := f.from
	for {
		text := w.text
		if s, r, ok := w.reference(); ok && r.From != r.To {
			if err := w.each(s, r, func(x float64) { all = f.take(all, x) }); err != nil {
				return 0, err
			}
		} else {
			w.text = text
			x, err := w.sum()
			if err != nil {
				return 0, err
			}
			all = f.take(all, x)
		}
		switch w.sign(",;)") {
		case ')':
			return all, nil
		case 0:
			return 0, errLeft
		}
	}
}

// each calls take for the numbers of a range.
func (w *worker) each(s *sheet.Sheet, r sheet.Range, take func(float64)) error {
	for row := r.From.Row; row <= min(r.To.Row, len(s.Rows)); row++ {
		for col := r.From.Col; col <= min(r.To.Col, len(s.Rows[row-1])); col++ {
			switch s.Rows[row-1][col-1].Kind {
			case sheet.Text, sheet.Bool:
				w.left--
				continue
			}
			x, given, err := w.number(s, sheet.Ref{Row: row, Col: col})
			if err != nil {
				return err
			}
			if given {
				take(x)
			}
		}
	}
	return nil
}

// number returns the number in a cell; an empty one counts as zero where it is named.
func (w *worker) number(s *sheet.Sheet, at sheet.Ref) (x float64, given bool, err error) {
	if w.left < 0 {
		return 0, false, errLeft
	}
	cell, err := w.cell(s, at, w.depth+1)
	switch {
	case err != nil:
		return 0, false, err
	case cell.Kind == sheet.Blank:
		return 0, false, nil
	case cell.Kind != sheet.Number:
		return 0, false, errLeft
	}
	if x, err = strconv.ParseFloat(cell.Raw, 64); err != nil {
		return 0, false, errLeft
	}
	return x, true, nil
}

// reference takes a cell or a range, with the name of its sheet before it where that is another one. What follows may be a bracket, of a
// function with such a name, or the sign of another sheet's name: then it is none.
func (w *worker) reference() (*sheet.Sheet, sheet.Range, bool) {
	w.skip()
	s, text := w.sheet, w.text
	if at := strings.IndexByte(text, '!'); at > 0 {
		if named := w.named(text[:at]); named != nil {
			s, text = named, text[at+1:]
		}
	}
	n := 0
	for n < len(text) && (text[n] == '$' || text[n] == ':' || text[n] >= '0' && text[n] <= '9' || text[n] >= 'A' && text[n] <= 'Z') {
		n++
	}
	if n < len(text) && (text[n] == '(' || text[n] == '.' || text[n] == '_') {
		return nil, sheet.Range{}, false
	}
	r, err := sheet.ParseRange(strings.ReplaceAll(text[:n], "$", ""))
	if err != nil {
		return nil, sheet.Range{}, false
	}
	w.text = text[n:]
	return s, r, true
}

// named returns the sheet of a name as it stands in a formula, with the marks around it where it has blanks; nil where there is none.
func (w *worker) named(name string) *sheet.Sheet {
	if len(name) > 1 && name[0] == '\'' && name[len(name)-1] == '\'' {
		name = strings.ReplaceAll(name[1:len(name)-1], "''", "'")
	}
	for _, s := range w.book.Sheets {
		if strings.EqualFold(s.Name, name) {
			return s
		}
	}
	return nil
}

// cutFold cuts off what a text begins with, whatever the case.
func cutFold(text, prefix string) (rest string, found bool) {
	if len(text) < len(prefix) || !strings.EqualFold(text[:len(prefix)], prefix) {
		return text, false
	}
	return text[len(prefix):], true
}
