package catalog

import (
	"fmt"
	"maps"
	"slices"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// reportLayout reports a table that lists nothing that matters, one without a heading or part numbers, and what is
// hidden.
func (t *roleTable) reportLayout() {
	switch {
	case t.rules.Kind == noRole:
		return
	case t.kind == UnknownKind:
		t.add(finding.Warning, "layout.kind", 0, 0, "the table lists neither heads, ferrules nor tips as far as its headings tell; all its rows are set aside", t.settle("kind"))
		return
	case t.region.guessed:
		t.add(finding.Error, "layout.heading", 0, 0, "the headings were not understood; what the columns mean was judged by their values", t.settle("heading_rows"))
	}
	if t.byRole[Part] == nil && t.titlePart == "" {
		t.add(finding.Error, "layout.part", 0, 0, "no column of part numbers was found; all rows are held", t.settle("columns"))
	}
	need := needed[t.kind]
	if !slices.ContainsFunc(need, func(role Role) bool { return t.byRole[role] != nil }) {
		t.add(finding.Error, "data.missing", 0, 0, fmt.Sprintf("no column gives the %s; all rows are held", need[0]), t.settle("columns"))
	}
	t.reportHidden()
}

// reportHidden says what is hidden: the sheet, runs of rows, and each column at its heading. All of it is read.
func (t *roleTable) reportHidden() {
	if t.sheet.Hidden {
		t.add(finding.Warning, "layout.hidden", 0, 0, "the sheet is hidden; it was read all the same", t.settle("kind"))
	}
	area := t.region.rangeOf()
	rows := hiddenWithin(t.sheet.HiddenRows, area.From.Row, area.To.Row)
	for from := 0; from < len(rows); {
		to := from
		for to+1 < len(rows) && rows[to+1] == rows[to]+1 {
			to++
		}
		what := fmt.Sprintf("row %d is hidden; it was", rows[from])
		if to > from {
			what = fmt.Sprintf("rows %d to %d are hidden; they were", rows[from], rows[to])
		}
		t.findings.Add(finding.Finding{Severity: finding.Note, Code: "layout.hidden", Place: finding.Place{File: t.file, Sheet: t.sheet.Name, Row: rows[from]},
			Message: what + " read all the same"})
		from = to + 1
	}
	for _, col := range hiddenWithin(t.sheet.HiddenCols, area.From.Col, area.To.Col) {
		place := finding.Place{File: t.file, Sheet: t.sheet.Name}
		for _, row := range t.region.headings {
			if ref := (sheet.Ref{Row: row, Col: col}); !t.region.grid.turned && place.Cell == "" && t.region.grid.at(row, col) != "" {
				place.Row, place.Cell = row, ref.String()
			}
		}
		t.findings.Add(finding.Finding{Severity: finding.Note, Code: "layout.hidden", Place: place,
			Message: fmt.Sprintf("column %s is hidden; it was read all the same", sheet.ColumnName(col))})
	}
}

func hiddenWithin(hidden map[int]bool, from, to int) []int {
	var within []int
	for _, n := range slices.Sorted(maps.Keys(hidden)) {
		if hidden[n] && n >= from && n <= to {
			within = append(within, n)
		}
	}
	return within
}
