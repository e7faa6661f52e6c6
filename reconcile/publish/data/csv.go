package data

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
)

// WriteFitsCSV writes fits.csv: a header and one record for each listed pair, in the order of the result. With [fitcalc.Metric]
// the lengths are millimetres and their columns end in _mm, otherwise decimal inches and _in. The error is the writer's.
func WriteFitsCSV(w io.Writer, r *matrix.Result, units fitcalc.Units) error {
	columns := fitColumns(units)
	record := make([]string, len(columns))
	for i, c := range columns {
		record[i] = c.name
	}
	out := newRecords(w)
	out.write(record)
	for _, p := range r.Pairs {
		f := newFitRow(r, p, units)
		for i, c := range columns {
			record[i] = c.value(f)
		}
		out.write(record)
	}
	return out.done("fits")
}

var findingColumns = []string{
	"severity", "code", "file", "sheet", "row", "cell", "message", "settle", "related",
}

// WriteFindingsCSV writes findings.csv: a header and one record for each finding, in the order given. The error is the writer's,
// or that of a finding without a severity.
func WriteFindingsCSV(w io.Writer, findings finding.List) error {
	out := newRecords(w)
	out.write(findingColumns)
	for _, f := range findings {
		severity, err := f.Severity.MarshalText()
		if err != nil {
			return fmt.Errorf("writing the findings as CSV: %s: %w", f.Code, err)
		}
		row := ""
		if f.Place.Row > 0 {
			row = strconv.Itoa(f.Place.Row)
		}
		var related []string
		for _, place := range f.Related {
			related = append(related, place.String())
		}
		out.write([]string{
			string(severity), neutral(f.Code), neutral(f.Place.File), neutral(f.Place.Sheet), row, neutral(f.Place.Cell),
			neutral(f.Message), neutral(f.Settle), neutral(strings.Join(related, "; ")),
		})
	}
	return out.done("findings")
}

// records writes CSV by RFC 4180. The first error is kept and reported once, by done.
type records struct {
	csv *csv.Writer // buffers by itself
	err error
}

func newRecords(w io.Writer) *records {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	return &records{csv: out}
}

func (r *records) write(record []string) {
	if r.err == nil {
		r.err = r.csv.Write(record)
	}
}

func (r *records) done(what string) error {
	if r.err == nil {
		r.csv.Flush()
		r.err = r.csv.Error()
	}
	if r.err != nil {
		return fmt.Errorf("writing the %s as CSV: %w", what, r.err)
	}
	return nil
}

// neutral returns text so that no spreadsheet program takes it for a formula: one that begins like a formula, blanks before it
// not counted, gets an apostrophe in front. Characters that are no text (NUL and its like) are left out, and bytes that are no
// UTF-8 are replaced.
func neutral(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r' {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, string(utf8.RuneError)))
	if text == "" {
		return ""
	}
	first, _ := utf8.DecodeRuneInString(strings.TrimLeft(text, " \u00a0"))
	// The second four are the full-width forms, which some programs fold to the first.
	if strings.ContainsRune("=+-@\t\r\n＝＋－＠", first) {
		return "'" + text
	}
	return text
}
