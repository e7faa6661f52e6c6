// Package report is what an output says before it is a workbook, a page, a table in a terminal or CSV: a summary and sections of typed
// cells. Who has results builds a [Report]; who writes it looks at kinds and never at wording, and needs to know nothing of the subject.
//
// Package workbook renders a whole report; this package renders sections as CSV, as text and as cells of a page.
package report

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/finding"
)

// MostRows is how many rows of a section a person scrolls through, headings and all. What is beyond stands in data files, and the section
// says so.
const MostRows = 2000

// Report is a first sheet and the sections behind it.
type Report struct {
	// Subject is what the report is about, in two or three words.
	Subject string
	// Foot and Page stand below each page, in the language of the report: a caution, and which page of how many it is, as {n} and {of}.
	// Where they are empty, they are English.
	Foot, Page string
	Summary    Summary
	Sections   []Section
}

// Summary is the first sheet of a report. One without a name is left out.
type Summary struct {
	Name, Title string
	// Lines stand below the title: the first in bold where it is a [Strong].
	Lines []any
	// Widths are those of the columns, in characters.
	Widths []float64
	Blocks []Block
}

// Block is a part of a summary under a title: lines of cells, or a small table where it has columns. A line's last cells may be left out.
type Block struct {
	Title   string
	Columns []Column
	Lines   [][]any
}

// Section is one table of a report. A row has a cell for each column; what a cell may be says [Kind]. Any cell may be nil, which is one with
// nothing in it, a string in place of a number, or one of [Strong], [Faint], [Marked], [Link] and [Answer].
type Section struct {
	// Name is what links and sheets call the section, Title what stands above it; empty is the name.
	Name, Title string
	Notes       []string
	Columns     []Column
	Rows        [][]any
	// Total stands below the rows, and below a rule. Nil is none.
	Total []any
	// Empty says why there are no rows.
	Empty string
	// Frozen is how many columns stay in view, Printed how many are printed: 0 is those before the first that says where a row comes from.
	Frozen, Printed int
	Tone            Tone
	// All is the file that has every row, where there is one besides.
	All string
	// LookUp is set for a section that is there to be looked up in on the screen: it is not printed.
	LookUp bool
	// Whole is set for a section of which every row is printed, however many pages it takes: one to be filled in.
	Whole bool
	Graph *Graph
}

// Tone tells sections and marked cells apart.
type Tone uint8

// The tones: that of tables like others, of what is as it should be, of what is to be worked on or to be prepared, of what is asked, of what
// goes without, and of what is there to be looked up.
const (
	Usual Tone = iota
	Good
	Work
	Prepared
	Asked
	Without
	Aside
	First
)

// Graph is a graph of lines over the rows of its section, from the row First on.
type Graph struct {
	Title, Across, Up string
	// Labels is the column that says what a row stands for, Series are those of the lines, counted from 0.
	Labels int
	Series []int
	First  int
}

// Kind is what the cells of a column hold, and so how they are shown.
type Kind uint8

// The kinds. A cell of a length is a [Size]; of a verdict a fitcalc.Verdict; of a place a finding.Place, which leads there, or a string; of
// other numbers an int or a float64; of the rest a string.
const (
	// KindText is a short text, KindWord a single word that stands in the middle, KindSentence a text that is wrapped.
	KindText Kind = iota
	KindWord
	KindSentence
	// KindDiameter is a size across, or a difference of two; KindFine the same with a decimal more, and KindAlong a length along the axis.
	KindDiameter
	KindFine
	KindAlong
	// KindCount is a whole number and KindPieces one that may be a mean; KindMinutes and KindHours are times; KindShare is a part of 1;
	// KindMoney is a sum and KindPrice that of one piece.
	KindCount
	KindPieces
	KindMinutes
	KindHours
	KindShare
	KindMoney
	KindPrice
	KindVerdict
	// KindSource says where a row's numbers come from. Such columns stand last and are not printed.
	KindSource
)

// IsLength reports whether a column's cells are lengths, so that its heading names the unit.
func (k Kind) IsLength() bool { return k >= KindDiameter && k <= KindAlong }

// IsNumber reports whether a column's cells stand to the right.
func (k Kind) IsNumber() bool { return k >= KindDiameter && k <= KindPrice }

// Column is one column of a section.
type Column struct {
	Heading string
	Kind    Kind
	// Width is in characters.
	Width float64
	// Strong is set for what a reader looks for first.
	Strong bool
}

// Bold is the column as one that a reader looks for first.
func (c Column) Bold() Column {
	c.Strong = true
	return c
}

func column(kind Kind) func(string, float64) Column {
	return func(heading string, width float64) Column { return Column{Heading: heading, Kind: kind, Width: width} }
}

// The columns of each kind, by heading and width.
var (
	Text, Word, Sentence  = column(KindText), column(KindWord), column(KindSentence)
	Diameter, Fine, Along = column(KindDiameter), column(KindFine), column(KindAlong)
	Count, Pieces         = column(KindCount), column(KindPieces)
	Minutes, Hours        = column(KindMinutes), column(KindHours)
	Share                 = column(KindShare)
	Money, Price          = column(KindMoney), column(KindPrice)
	Verdict, Source       = column(KindVerdict), column(KindSource)
)

// Size is a length that may not be known.
type Size struct {
	Known  bool
	Length measure.Length
}

// Of is a length that is known.
func Of(l measure.Length) Size { return Size{true, l} }

// Nominal is the nominal size of a dimension, where it is given.
func Nominal(d measure.Dim) Size { return Size{d.Given(), d.Nominal()} }

// Limits are the limits of a dimension, where it states them.
func Limits(d measure.Dim) (from, to Size) {
	if !d.HasLimits() {
		return Size{}, Size{}
	}
	return Of(d.Lower()), Of(d.Upper())
}

// Ends are the ends of an interval, each where it has one.
func Ends(i measure.Interval) (from, to Size) {
	if i.Empty() {
		return Size{}, Size{}
	}
	return Size{i.Lower().Bounded(), i.Lower().At()}, Size{i.Upper().Bounded(), i.Upper().At()}
}

// Strong is a cell that stands out, Faint one that stands back, and Begins one of the first row of a group.
type (
	Strong struct{ Cell any }
	Faint  struct{ Cell any }
	Begins struct{ Cell any }
)

// Marked is a cell on a coloured ground.
type Marked struct {
	Cell any
	Tone Tone
}

// Link is a text that leads to a section of the report, to its top or to one of its rows, counted from 1 from the top of the sheet.
type Link struct {
	Text, Section string
	Row           int
}

// Answer is an empty cell to write into.
type Answer struct{}

// Judged is a text that looks as a verdict does.
type Judged struct {
	Text    string
	Verdict fitcalc.Verdict
}

// At is a cell, or else a row, of a sheet that stands beside it, and leads there.
type At struct{ finding.Place }

// String is the cell, or else the row.
func (a At) String() string {
	if a.Cell == "" && a.Row > 0 {
		return fmt.Sprintf("row %d", a.Row)
	}
	return a.Cell
}

// Wide is a text of a summary that goes over some columns, 0 over all that are left, and is wrapped there.
type Wide struct {
	Text    string
	Columns int
}

// Banner is the answer of a whole report, over the whole width.
type Banner struct {
	Text string
	Tone Tone
}

// PrintedColumns is how many columns are printed.
func (s *Section) PrintedColumns() int {
	if s.Printed > 0 {
		return s.Printed
	}
	for i, c := range s.Columns {
		if c.Kind == KindSource {
			return i
		}
	}
	return len(s.Columns)
}

// Heading is what stands above the section.
func (s *Section) Heading() string {
	if s.Title == "" {
		return s.Name
	}
	return s.Title
}

// YesNo is a word for a cell.
func YesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
