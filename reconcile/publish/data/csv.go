package data

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/csvtext"
)

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
			string(severity), csvtext.Neutral(f.Code), csvtext.Neutral(f.Place.File), csvtext.Neutral(f.Place.Sheet), row, csvtext.Neutral(f.Place.Cell),
			csvtext.Neutral(f.Message), csvtext.Neutral(f.Settle), csvtext.Neutral(strings.Join(related, "; ")),
		})
	}
	return out.done("findings")
}

// records writes CSV by RFC 4180. The first error is kept and reported once, by done.
type records struct {
	csv *csvtext.Writer // buffers by itself
	err error
}

func newRecords(w io.Writer) *records {
	return &records{csv: csvtext.NewWriter(w)}
}

func (r *records) write(record []string) {
	if r.err == nil {
		r.err = r.csv.Write(record)
	}
}

func (r *records) done(what string) error {
	if r.err == nil {
		r.err = r.csv.Flush()
	}
	if r.err != nil {
		return fmt.Errorf("writing the %s as CSV: %w", what, r.err)
	}
	return nil
}
