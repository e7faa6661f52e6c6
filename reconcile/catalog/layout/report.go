package layout

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// Table is a table of a sheet, with the person's rules for it and what there is to report of it.
type Table struct {
	Lex    *lexicon.Lexicon
	Region *Region
	Rules  catalog.SheetRules
	// Ruled is the name of the rules in the mapping file, empty where there are none.
	Ruled string
	File  string
	Sheet *sheet.Sheet
	// Key is how the mapping file calls the table.
	Key string
	// Titles are the texts above the table, and the names of its sheet and file.
	Titles []string
	// ForAll are the texts above the first table of the sheet, which lists parts of the same kind, that speak of all parts.
	ForAll   []string
	Findings finding.List
	// told are the findings that are reported once, by what they are about.
	told map[ToldKey]*Told
	// Recorded are those of them that a cell counted that is just being understood, while recording is set.
	Recorded  []*Told
	Recording bool
}

// ofNames is how many of a table's titles are the names of its sheet and file.
const ofNames = 2

// TextTitles returns the texts above the table, the nearest first.
func (t *Table) TextTitles() []string { return t.Titles[:max(0, len(t.Titles)-ofNames)] }

// Add reports something about a cell of the table; column zero means the whole line, line zero the whole table. What is found of cells of
// one column that say the same, but for the numbers among it, has one cause.
func (t *Table) Add(severity finding.Severity, code string, line, col int, message, settle string) {
	cause := ""
	if line > 0 && col > 0 {
		cause = WithoutDigits(t.Region.Grid.At(line, col))
	}
	if strings.Trim(cause, "0.,-") == "" {
		cause = "" // of a bare number only who reports it knows
	}
	t.AddBy(cause, severity, code, line, col, message, settle)
}

// AddBy is Add for what a cause brings about that other cells of the column may share, empty where none may.
func (t *Table) AddBy(cause string, severity finding.Severity, code string, line, col int, message, settle string) {
	if cause != "" {
		cause = fmt.Sprintf("column %s, %s: %s", t.Region.Grid.ColumnName(col), settle[strings.LastIndex(settle, ".")+1:], cause)
	}
	t.Findings.Add(finding.Finding{Severity: severity, Code: code, Place: t.placeOf(line, col), Message: message, Settle: settle, Cause: cause})
}

// WithoutDigits is a text with one zero for each number in it.
func WithoutDigits(text string) string {
	var b strings.Builder
	digits := false
	for _, r := range text {
		switch {
		case !unicode.IsDigit(r):
			b.WriteRune(r)
		case !digits:
			b.WriteByte('0')
		}
		digits = unicode.IsDigit(r)
	}
	return b.String()
}

// placeOf is the place of a cell of the table: column zero means the whole line, line zero the whole table.
func (t *Table) placeOf(line, col int) finding.Place {
	place := finding.Place{File: t.File, Sheet: t.Sheet.Name}
	switch {
	case line > 0 && col > 0:
		ref := t.Region.Grid.Ref(line, col)
		place.Row, place.Cell = ref.Row, ref.String()
	case line > 0 && !t.Region.Grid.Turned:
		place.Row = t.RowOf(line)
	case line > 0:
		place.Cell = sheet.ColumnName(line)
	}
	return place
}

// AddColumn reports something about a column at its heading, and names the cells where that is repeated.
func (t *Table) AddColumn(severity finding.Severity, code string, col int, message, settle string) {
	t.AddColumnBy("", severity, code, col, message, settle)
}

// AddColumnBy is AddColumn for what a cause brings about that other columns of the table may share.
func (t *Table) AddColumnBy(cause string, severity finding.Severity, code string, col int, message, settle string) {
	f := finding.Finding{Severity: severity, Code: code, Place: t.placeOfHeading(col), Message: message, Settle: settle}
	if !t.Region.Grid.Arranged() {
		f.Related = t.repeatedHeadings(col)
	}
	if cause != "" {
		f.Cause = fmt.Sprintf("%s in the table of line %d", cause, t.Region.From)
	}
	t.Findings.Add(f)
}

// HeadingCell is the cell of the heading of a column.
func (t *Table) HeadingCell(col int) string { return t.placeOfHeading(col).Cell }

func (t *Table) placeOfHeading(col int) finding.Place {
	if g := t.Region.Grid; g.Arranged() {
		at := g.HeadingOf(col)
		return finding.Place{File: t.File, Sheet: t.Sheet.Name, Row: at.Row, Cell: at.String()}
	}
	return t.placeOf(t.headingLine(col), col)
}

// mostRepeated is how many of the lines that repeat the headings a finding names: a list may have them on each of its pages.
const mostRepeated = 12

// repeatedHeadings are the cells in which the heading of a column is repeated, from the top.
func (t *Table) repeatedHeadings(col int) []finding.Place {
	var places []finding.Place
	for _, line := range slices.Sorted(maps.Keys(t.Region.Aside)) {
		if t.Region.Aside[line] == RepeatedHeading && t.Region.Grid.At(line, col) != "" && len(places) < mostRepeated {
			places = append(places, t.placeOf(line, col))
		}
	}
	return places
}

// headingLine returns the line with the lowest fragment of a column's heading, the first of the body where there is none.
func (t *Table) headingLine(col int) int {
	n := len(t.Region.Headings)
	if n == 0 {
		return t.Region.Body
	}
	line := t.Region.Headings[n-1]
	for i := n - 1; i >= 0 && t.Region.Grid.At(line, col) == ""; i-- {
		line = t.Region.Headings[i]
	}
	return line
}

// Settle returns a key of the mapping file below the table's own.
func (t *Table) Settle(parts ...string) string {
	return fmt.Sprintf("sheets.%q.%s", t.Key, strings.Join(parts, "."))
}

// LineName is how the mapping file calls a line.
func (t *Table) LineName(line int) string { return t.Region.Grid.LineName(line) }

// RowOf is the row of the sheet that a person finds a line by.
func (t *Table) RowOf(line int) int { return t.Region.Grid.RowOf(line) }

// Beside is the cell with which the part of a line begins, empty where no other part begins in its row.
func (t *Table) Beside(line int) string { return t.Region.Grid.Beside(line) }

// RowRule is the rule of the mapping file for a line.
func (t *Table) RowRule(line int) catalog.RowRule {
	if len(t.Rules.Rows) == 0 {
		return catalog.RowRule{}
	}
	return t.Rules.Rows[t.LineName(line)]
}

// Answered reports whether a person has said what the part of a line has of a role.
func (t *Table) Answered(line int, role catalog.Role) bool {
	_, said := t.RowRule(line).Values[role]
	return said
}

// ToldKey is what a finding that is told once is about: something of a column, or of the table where the column is zero.
type ToldKey struct {
	What string
	Col  int
}

// Told is a finding that is reported once, where it stands first, with how often it occurs.
type Told struct {
	severity  finding.Severity
	code      string
	line, col int
	message   string
	Count     int
	// also are the other places of it, where each is to be named.
	also []finding.Place
	// columns are those in which it occurs, where only the first cell of each is to be named.
	columns []int
}

// Tell notes something that is to be told once for each key. The message is only made for the first.
func (t *Table) Tell(key ToldKey, severity finding.Severity, code string, line, col int, message func() string) {
	one := t.told[key]
	if one == nil {
		if t.told == nil {
			t.told = map[ToldKey]*Told{}
		}
		one = &Told{severity: severity, code: code, line: line, col: col, message: message()}
		t.told[key] = one
	}
	one.Count++
	if t.Recording {
		t.Recorded = append(t.Recorded, one)
	}
}

// TellEach is Tell for something about lines or cells, all of which the finding names.
func (t *Table) TellEach(key ToldKey, severity finding.Severity, code string, line, col int, message func() string) {
	t.Tell(key, severity, code, line, col, message)
	if one := t.told[key]; one.Count > 1 {
		one.also = append(one.also, t.placeOf(line, col))
	}
}

// TellColumns is TellEach for something about a column that others of the table may share: the finding names the first cell of each.
func (t *Table) TellColumns(what string, severity finding.Severity, code string, line, col int, message func() string) {
	key := ToldKey{What: what}
	t.Tell(key, severity, code, line, col, message)
	if one := t.told[key]; !slices.Contains(one.columns, col) {
		if len(one.columns) > 0 {
			one.also = append(one.also, t.placeOf(line, col))
		}
		one.columns = append(one.columns, col)
	}
}

// ReportTold adds the findings of what is told once.
func (t *Table) ReportTold() {
	keys := slices.SortedFunc(maps.Keys(t.told), func(a, b ToldKey) int {
		return cmp.Or(cmp.Compare(a.Col, b.Col), cmp.Compare(a.What, b.What))
	})
	for _, key := range keys {
		one := t.told[key]
		message := one.message
		if one.Count > 1 {
			message = fmt.Sprintf("%s; %d in all", message, one.Count)
		}
		t.Findings.Add(finding.Finding{Severity: one.severity, Code: one.code, Place: t.placeOf(one.line, one.col), Message: message, Related: one.also})
	}
}

// Warn reports a value that is used all the same.
func (t *Table) Warn(line, col int, role catalog.Role, code, message string) {
	fromLine, fromCol := t.Region.Grid.Source(line, col)
	t.Add(finding.Warning, code, fromLine, fromCol, message, t.Settle("rows", t.LineName(line), string(role)))
}

// WarnBy is Warn for what a cause brings about that other cells of the column may share.
func (t *Table) WarnBy(cause string, line, col int, role catalog.Role, code, message string) {
	fromLine, fromCol := t.Region.Grid.Source(line, col)
	t.AddBy(cause, finding.Warning, code, fromLine, fromCol, message, t.Settle("rows", t.LineName(line), string(role)))
}

func (t *Table) OnlyUnits(line int) bool {
	r := t.Region
	found := false
	for col := r.Left; col <= r.Right; col++ {
		text := r.Grid.At(line, col)
		if text == "" {
			continue
		}
		if !t.Lex.IsUnit(text) {
			return false
		}
		found = true
	}
	return found
}

// PlaceOf is the place of a field.
func (t *Table) PlaceOf(f catalog.Field) finding.Place {
	return finding.Place{File: t.File, Sheet: t.Sheet.Name, Cell: f.Cell}
}

// FirstTextOf returns the first text of a line; of one between cards that of the sheet.
func (t *Table) FirstTextOf(line int) string {
	g, from, to := t.Region.Grid, t.Region.Left, t.Region.Right
	if g.Arranged() && g.BlankLine(line, from, to) {
		g, from, to = t.Region.Drawn, 1, t.Region.Drawn.Width
	}
	for col := from; col <= to; col++ {
		if text := g.At(line, col); text != "" {
			return text
		}
	}
	return ""
}
