package catalog

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// sheetTable is a table of a sheet, with the person's rules for it and what there is to report of it.
type sheetTable struct {
	lex    *lexicon
	region *region
	rules  SheetRules
	file   string
	sheet  *sheet.Sheet
	// key is how the mapping file calls the table.
	key string
	// titles are the texts above the table, and the names of its sheet and file.
	titles   []string
	findings finding.List
	// told are the findings that are reported once, by what they are about.
	told map[toldKey]*told
	// recorded are those of them that a cell counted that is just being understood, while recording is set.
	recorded  []*told
	recording bool
}

// add reports something about a cell of the table; column zero means the whole line, line zero the whole table.
func (t *sheetTable) add(severity finding.Severity, code string, line, col int, message, settle string) {
	place := finding.Place{File: t.file, Sheet: t.sheet.Name}
	switch {
	case line > 0 && col > 0:
		ref := t.region.grid.ref(line, col)
		place.Row, place.Cell = ref.Row, ref.String()
	case line > 0 && !t.region.grid.turned:
		place.Row = line
	case line > 0:
		place.Cell = sheet.ColumnName(line)
	}
	t.findings.Add(finding.Finding{Severity: severity, Code: code, Place: place, Message: message, Settle: settle})
}

// addColumn reports something about a column at its heading.
func (t *sheetTable) addColumn(severity finding.Severity, code string, col int, message, settle string) {
	t.add(severity, code, t.headingLine(col), col, message, settle)
}

// headingLine returns the line with the lowest fragment of a column's heading, the first of the body where there is none.
func (t *sheetTable) headingLine(col int) int {
	n := len(t.region.headings)
	if n == 0 {
		return t.region.body
	}
	line := t.region.headings[n-1]
	for i := n - 1; i >= 0 && t.region.grid.at(line, col) == ""; i-- {
		line = t.region.headings[i]
	}
	return line
}

// settle returns a key of the mapping file below the table's own.
func (t *sheetTable) settle(parts ...string) string {
	return fmt.Sprintf("sheets.%q.%s", t.key, strings.Join(parts, "."))
}

// lineName is how the mapping file calls a line.
func lineName(line int) string { return fmt.Sprint(line) }

// toldKey is what a finding that is told once is about: something of a column, or of the table where the column is zero.
type toldKey struct {
	what string
	col  int
}

// told is a finding that is reported once, where it stands first, with how often it occurs.
type told struct {
	severity  finding.Severity
	code      string
	line, col int
	message   string
	count     int
}

// tell notes something that is to be told once for each key. The message is only made for the first.
func (t *sheetTable) tell(key toldKey, severity finding.Severity, code string, line, col int, message func() string) {
	one := t.told[key]
	if one == nil {
		if t.told == nil {
			t.told = map[toldKey]*told{}
		}
		one = &told{severity: severity, code: code, line: line, col: col, message: message()}
		t.told[key] = one
	}
	one.count++
	if t.recording {
		t.recorded = append(t.recorded, one)
	}
}

// reportTold adds the findings of what is told once.
func (t *sheetTable) reportTold() {
	keys := slices.SortedFunc(maps.Keys(t.told), func(a, b toldKey) int {
		return cmp.Or(cmp.Compare(a.col, b.col), cmp.Compare(a.what, b.what))
	})
	for _, key := range keys {
		one := t.told[key]
		message := one.message
		if one.count > 1 {
			message = fmt.Sprintf("%s; %d in all", message, one.count)
		}
		t.add(one.severity, one.code, one.line, one.col, message, "")
	}
}

// warn reports a value that is used all the same.
func (t *sheetTable) warn(line, col int, role Role, code, message string) {
	fromLine, fromCol := t.region.grid.source(line, col)
	t.add(finding.Warning, code, fromLine, fromCol, message, t.settle("rows", lineName(line), string(role)))
}

func (t *sheetTable) onlyUnits(line int) bool {
	r := t.region
	found := false
	for col := r.left; col <= r.right; col++ {
		text := r.grid.at(line, col)
		if text == "" {
			continue
		}
		if !t.lex.isUnit(text) {
			return false
		}
		found = true
	}
	return found
}

// placeOf is the place of a field.
func (t *sheetTable) placeOf(f Field) finding.Place {
	return finding.Place{File: t.file, Sheet: t.sheet.Name, Cell: f.Cell}
}

// firstTextOf returns the first text of a line.
func (t *sheetTable) firstTextOf(line int) string {
	for col := t.region.left; col <= t.region.right; col++ {
		if text := t.region.grid.at(line, col); text != "" {
			return text
		}
	}
	return ""
}
