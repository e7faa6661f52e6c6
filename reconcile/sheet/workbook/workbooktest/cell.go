package workbooktest

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/seatline/reconcile/sheet"
)

// cell is one cell of a description.
type cell struct {
	line    int
	at      sheet.Ref
	value   value
	format  string
	formula string
}

// value is what a cell stores.
type value struct {
	kind sheet.Kind
	text string
	date bool
}

var (
	number = regexp.MustCompile(`^-?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$`)
	zeros  = regexp.MustCompile(`^-?0\d`)
	date   = regexp.MustCompile(`^\d{4}-\d\d-\d\d$`)

	errorValues = []string{"#N/A", "#DIV/0!", "#REF!", "#VALUE!", "#NAME?", "#NUM!", "#NULL!"}
)

// row reads a row of cells.
func (p *page) row(line int, text string, dates1904 bool) error {
	if p.next > maxRow {
		return fmt.Errorf("the sheet has more than %d rows", maxRow)
	}
	row := p.next
	p.next++
	if text == "|" {
		return nil
	}
	parts, err := split(text)
	if err != nil {
		return err
	}
	if len(parts) > maxColumn {
		return fmt.Errorf("the row has %d cells, more than %d", len(parts), maxColumn)
	}
	for i, part := range parts {
		at := sheet.Ref{Row: row, Col: i + 1}
		cell, err := parseCell(part, dates1904)
		if err != nil {
			return fmt.Errorf("cell %v: %w", at, err)
		}
		if cell == nil {
			continue
		}
		cell.line, cell.at = line, at
		p.cells = append(p.cells, *cell)
		p.filled[at] = true
	}
	return nil
}

// split cuts a row at each | that has no backslash before it.
func split(text string) ([]string, error) {
	var parts []string
	start := 1
	for i := 1; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '|':
			parts = append(parts, strings.Trim(text[start:i], " \t"))
			start = i + 1
		}
	}
	if start != len(text) {
		return nil, errors.New("the row does not end with |")
	}
	return parts, nil
}

// parseCell reads one cell; nil is a blank one.
func parseCell(text string, dates1904 bool) (*cell, error) {
	content, format, err := cutFormat(text)
	if err != nil || content == "" && format == "" {
		return nil, err
	}
	c := &cell{format: format}
	if strings.HasPrefix(content, "=") {
		formula, result, stored := strings.Cut(content+" ", " -> ")
		if c.formula, err = unescape(strings.Trim(formula[1:], " \t")); err != nil {
			return nil, err
		}
		if c.formula == "" {
			return nil, errors.New("the formula is empty; text that begins with = is written with an apostrophe before it")
		}
		if content = strings.Trim(result, " \t"); !stored {
			return c, nil
		}
		if content == "" || content[0] == '=' {
			return nil, errors.New("the formula has no result after ->")
		}
	}
	if c.value, err = parseValue(content, dates1904); err != nil {
		return nil, err
	}
	if c.value.date && c.format == "" {
		c.format = "yyyy-mm-dd"
	}
	return c, nil
}

// cutFormat takes the number format in braces off the end of a cell.
func cutFormat(text string) (content, format string, err error) {
	if !strings.HasSuffix(text, "}") || strings.HasSuffix(text, `\}`) {
		return text, "", nil
	}
	open := strings.LastIndex(text, "{")
	if open < 0 {
		return "", "", errors.New(`the cell ends with } but has no {; write \} for the sign itself`)
	}
	if format, err = unescape(text[open+1 : len(text)-1]); err == nil && format == "" {
		err = errors.New("the number format between the braces is empty")
	}
	return strings.Trim(text[:open], " \t"), format, err
}

func parseValue(text string, dates1904 bool) (value, error) {
	switch {
	case text == "":
		return value{}, nil
	case text[0] == '\'':
		plain, err := unescape(text[1:])
		return value{kind: sheet.Text, text: plain}, err
	case text == "TRUE" || text == "FALSE":
		return value{kind: sheet.Bool, text: text}, nil
	case slices.Contains(errorValues, text):
		return value{kind: sheet.Error, text: text}, nil
	case number.MatchString(text):
		return parseNumber(text)
	case date.MatchString(text):
		return parseDate(text, dates1904)
	}
	plain, err := unescape(text)
	return value{kind: sheet.Text, text: plain}, err
}

func parseNumber(text string) (value, error) {
	if zeros.MatchString(text) {
		return value{}, fmt.Errorf("%s is a number with leading zeros, which no workbook stores; write '%[1]s for text", text)
	}
	if _, err := strconv.ParseFloat(text, 64); err != nil {
		return value{}, fmt.Errorf("%s is no number that a workbook can store: %w", text, err)
	}
	text = strings.Replace(text, "-.", "-0.", 1)
	if text[0] == '.' {
		text = "0" + text
	}
	return value{kind: sheet.Number, text: text}, nil
}

// parseDate turns a date into the count of days that workbooks store: day 1 is 1 January 1900, and 29 February 1900,
// which never was, counts as day 60 (ECMA-376 part 1, 18.17.4.1); with the 1904 system day 0 is 1 January 1904.
func parseDate(text string, dates1904 bool) (value, error) {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return value{}, fmt.Errorf("%s is no date: %w", text, err)
	}
	zero := time.Date(1899, time.December, 30, 0, 0, 0, 0, time.UTC)
	first := time.Date(1900, time.March, 1, 0, 0, 0, 0, time.UTC)
	if dates1904 {
		zero = time.Date(1904, time.January, 1, 0, 0, 0, 0, time.UTC)
		first = zero
	}
	if day.Before(first) {
		return value{}, fmt.Errorf("%s lies before %s, the first date that can be written here", text, first.Format(time.DateOnly))
	}
	days := int(day.Sub(zero).Hours()) / 24
	return value{kind: sheet.Number, text: strconv.Itoa(days), date: true}, nil
}

var escapes = map[byte]byte{'|': '|', '}': '}', '\\': '\\', 's': ' ', 'n': '\n', 't': '\t'}

func unescape(text string) (string, error) {
	var out strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] != '\\' {
			out.WriteByte(text[i])
			continue
		}
		if i++; i == len(text) {
			return "", errors.New(`a backslash stands at the end; write \\ for the sign itself`)
		}
		sign, known := escapes[text[i]]
		if !known {
			return "", fmt.Errorf(`\%c is not known; use \| \} \\ \s \n \t`, text[i])
		}
		out.WriteByte(sign)
	}
	return out.String(), nil
}
