// Package demand reads how many of each head are made in a year, from a sheet like any other: a column of part numbers and one of
// numbers, below headings in any of the nine languages, in any format that package sheet/open reads.
//
// # What is read
//
// The heading row is the first that has a heading for part numbers and one for numbers. Where only one of the two is known by its heading,
// the other is known by what stands below it: part numbers of the catalogue, or numbers. A heading that names a month, quarter or week
// makes a number twelve, four or fifty-two times as many a year; one that names no period is taken to mean a year. Both are assumptions
// with their words.
//
// A part number is that of a head of the catalogue, however its letters are written; that of a set without a club stands for each of its
// clubs; one without its separators, or without the leading zeros that a spreadsheet program took off, is found where only one part can
// be meant. Rows of one part are added up.
//
// # What comes out
//
// Every row ends as exactly one of used, used with assumptions, held or set aside ([catalog.Ledger]), and the findings say in which cell what
// is wrong. A row is held where its number is none, negative, or not given, and where its part is no head of the catalogue, or that of
// several; parts with nearly that number are named.
//
//	data.unknown-part  no head has the part number
//	data.several       several heads have it
//	data.repeated      the part stands in several rows, which are added up
//	data.missing       there is no number, or no part number
//	data.unreadable    what stands there is no number
//	data.implausible   a negative number, or one beyond all measure
//	data.damaged       a date, an error, or a formula without a result where a number was
//	data.leniency      what was forgiven in reading a number or part number
//	data.period        what the numbers count for is assumed, or not a year
//	data.unlisted      heads that the sheet has no number for
//	layout.no-table    a sheet has no such columns
//	layout.hidden      rows are hidden; they are read
package demand

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// Row is one row of a sheet.
type Row struct {
	// Place is that of the number, or of the row where there is none.
	Place finding.Place
	Part  string
	// Text is the number as the sheet shows it, and Number what it comes to in a year.
	Text   string
	Number float64
	// Heads are those it is for, by index into the catalogue. It holds for each of them.
	Heads       []int
	Outcome     catalog.Outcome
	Assumptions []string
	// Why says why the row is held or set aside.
	Why string
}

// Table is a table as it was understood.
type Table struct {
	Sheet string
	// PartColumn and NumberColumn are letters, Heading is that of the numbers.
	PartColumn, NumberColumn, Heading string
	// Times is what a number is taken by to be that of a year.
	Times float64
}

// Demand is what a file says.
type Demand struct {
	File   string
	Tables []Table
	// Rows are all rows of all sheets, in order.
	Rows     []Row
	Ledger   catalog.Ledger
	Findings finding.List
	// Yearly has the number of each head of the catalogue, and Stated whether the file has one for it.
	Yearly []float64
	Stated []bool
}

// Numbers returns the yearly number of each head; those that the file has none for get each.
func (d *Demand) Numbers(each float64) []float64 {
	numbers := slices.Clone(d.Yearly)
	for i, stated := range d.Stated {
		if !stated {
			numbers[i] = each
		}
	}
	return numbers
}

// RowsOf returns the rows that a head's number comes from.
func (d *Demand) RowsOf(head int) []*Row {
	var rows []*Row
	for i := range d.Rows {
		if r := &d.Rows[i]; slices.Contains(r.Heads, head) {
			rows = append(rows, r)
		}
	}
	return rows
}

// NoTableError reports that no sheet of a file has the two columns.
type NoTableError struct{ File string }

func (e *NoTableError) Error() string {
	return fmt.Sprintf(`%s: no sheet has a column of part numbers and one of yearly numbers; head the two, for example, "part" and "per year"`, e.File)
}

// AmbiguousError reports that several columns may hold the numbers.
type AmbiguousError struct {
	Place finding.Place
	// Headings are those of the columns, each with its letter.
	Headings []string
}

func (e *AmbiguousError) Error() string {
	return fmt.Sprintf(`%v: any of %s may be the yearly numbers; leave one, or head it "per year"`, e.Place, strings.Join(e.Headings, ", "))
}

// Read reads the yearly numbers for the heads of a catalogue. The error is a [*NoTableError] or an [*AmbiguousError]; everything else that is
// wrong is a finding.
func Read(book *sheet.Book, c *catalog.Catalogue) (*Demand, error) {
	d := &Demand{File: book.File, Yearly: make([]float64, len(c.Heads)), Stated: make([]bool, len(c.Heads))}
	d.Findings = catalog.FileNotes(book)
	heads := newParts(c)
	for _, s := range book.Sheets {
		t, found, err := find(book.File, s, heads)
		if err != nil {
			return nil, err
		}
		if !found {
			d.setAsideSheet(s)
			continue
		}
		d.Tables = append(d.Tables, t.described())
		t.read(d)
	}
	if len(d.Tables) == 0 {
		return nil, &NoTableError{File: book.File}
	}
	d.repeated(c)
	d.count(c)
	d.Findings.Sort()
	return d, nil
}

func (d *Demand) setAsideSheet(s *sheet.Sheet) {
	for i := range s.Rows {
		d.Rows = append(d.Rows, Row{Place: finding.Place{File: d.File, Sheet: s.Name, Row: i + 1}, Outcome: catalog.SetAside, Why: "belongs to no table"})
	}
	if len(s.Rows) > 0 {
		d.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "layout.no-table", Place: finding.Place{File: d.File, Sheet: s.Name},
			Message: "the sheet has no column of part numbers with one of numbers beside it; all its rows are set aside"})
	}
}

// repeated names the parts that stand in several rows.
func (d *Demand) repeated(c *catalog.Catalogue) {
	first := map[int]int{}
	told := map[int]bool{}
	for i := range d.Rows {
		r := &d.Rows[i]
		for _, h := range r.Heads {
			at, seen := first[h]
			if !seen {
				first[h] = i
				continue
			}
			one := &d.Rows[at]
			text := fmt.Sprintf("%s stands in %s and in %s; the numbers are added up", phrase.OneLine(c.Heads[h].Part), cellOrRow(one.Place), cellOrRow(r.Place))
			for _, row := range [...]*Row{one, r} {
				if !slices.Contains(row.Assumptions, text) {
					row.Outcome, row.Assumptions = catalog.Assumed, append(row.Assumptions, text)
				}
			}
			if !told[i] {
				told[i] = true
				d.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.repeated", Place: r.Place, Related: []finding.Place{one.Place}, Message: text})
			}
		}
	}
}

func cellOrRow(p finding.Place) string {
	if p.Cell != "" {
		return p.Cell
	}
	return fmt.Sprintf("row %d", p.Row)
}

// count adds up the numbers of the heads and the outcomes of the rows.
func (d *Demand) count(c *catalog.Catalogue) {
	for i := range d.Rows {
		r := &d.Rows[i]
		d.Ledger.Rows++
		switch r.Outcome {
		case catalog.Used:
			d.Ledger.Used++
		case catalog.Assumed:
			d.Ledger.Assumed++
		case catalog.Held:
			d.Ledger.Held++
		default:
			d.Ledger.SetAside++
		}
		for _, h := range r.Heads {
			d.Stated[h] = true
			d.Yearly[h] += r.Number
		}
	}
	var left []string
	for h, stated := range d.Stated {
		if !stated {
			left = append(left, phrase.OneLine(c.Heads[h].Part))
		}
	}
	if len(left) > 0 {
		d.Findings.Add(finding.Finding{Severity: finding.Note, Code: "data.unlisted", Place: finding.Place{File: d.File},
			Message: fmt.Sprintf("of %d heads of the catalogue there is no number for %d: %s", len(d.Stated), len(left), phrase.Some(left, mostNamed))})
	}
}

// mostNamed is how many parts a sentence names.
const mostNamed = 6
