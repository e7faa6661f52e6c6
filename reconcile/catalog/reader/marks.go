package reader

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/rows"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// reportMarks reports what is struck out and said in comments on a sheet, as far as the rows of its tables have not said it.
func (s *sheetReader) reportMarks(tables []*rows.Table) {
	s.reportStruck()
	s.reportColours()
	var sizes, others []sheet.Ref
	for _, ref := range sortedRefs(s.sheet.Comments) {
		matters, heard := false, false
		for _, t := range tables {
			m, h := t.Heard[ref]
			matters, heard = matters || m, heard || h
		}
		switch {
		case matters:
		case !heard && cells.SpeaksOfSize(s.lex, s.sheet.Comments[ref]):
			sizes = append(sizes, ref)
		default:
			others = append(others, ref)
		}
	}
	for i, ref := range sizes {
		if i == mostComments {
			s.addMark(finding.Warning, "data.comment", sizes[i:], fmt.Sprintf("%s more that may speak of sizes", phrase.Count(len(sizes)-i, "comment")))
			break
		}
		s.addMark(finding.Warning, "data.comment", sizes[i:i+1], fmt.Sprintf("the comment %q may speak of a size; nothing was changed for it", phrase.Brief(s.sheet.Comments[ref])))
	}
	if len(others) > 0 {
		s.addMark(finding.Note, "data.comment", others, fmt.Sprintf("the comment %q says nothing else of sizes and was not used%s", phrase.Brief(s.sheet.Comments[others[0]]), andMore(len(others), "comment")))
	}
}

// mostComments is how many comments of a sheet that speak of sizes have a finding each.
const mostComments = 20

// reportStruck reports the cells of which something is struck out, but for those in lines that are set aside for it.
func (s *sheetReader) reportStruck() {
	var left []sheet.Ref
	for _, ref := range sortedRefs(s.sheet.Struck) {
		if !slices.ContainsFunc(s.tables, func(t *columns.Table) bool { return t.IsStruck(ref) }) {
			left = append(left, ref)
		}
	}
	if len(left) > 0 {
		s.addMark(finding.Warning, "data.struck", left, fmt.Sprintf("%q is struck out and was not read%s", phrase.Brief(s.sheet.Struck[left[0]]), andMore(len(left), "cell")))
	}
}

func andMore(n int, noun string) string {
	if n == 1 {
		return ""
	}
	return "; so it is of " + phrase.Count(n, noun) + " in all"
}

// addMark reports something about cells, all of which the finding names.
func (s *sheetReader) addMark(severity finding.Severity, code string, refs []sheet.Ref, message string) {
	var places []finding.Place
	for _, ref := range refs {
		places = append(places, finding.Place{File: s.input.Book.File, Sheet: s.sheet.Name, Row: ref.Row, Cell: ref.String()})
	}
	s.findings.Add(finding.Finding{Severity: severity, Code: code, Place: places[0], Message: message, Related: places[1:]})
}

// sortedRefs returns cells row by row.
func sortedRefs(of map[sheet.Ref]string) []sheet.Ref {
	return slices.SortedFunc(maps.Keys(of), compareRefs)
}

func compareRefs(a, b sheet.Ref) int {
	return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col))
}
