package columns

import (
	"fmt"
	"maps"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// ReportLayout reports a table that lists nothing that matters, one without a heading or part numbers, and what is
// hidden.
func (t *Table) ReportLayout() {
	switch {
	case t.Rules.Kind == catalog.NoRole:
		return
	case t.Kind == catalog.UnknownKind:
		t.reportNone()
		return
	case t.Region.Guessed:
		t.Add(finding.Error, "layout.heading", 0, 0, "the headings were not understood; what the columns mean was judged by their values", t.Settle("heading_rows"))
	}
	if t.ByRole[catalog.Part] == nil && t.TitlePart == "" && t.NamedBy == "" {
		t.Add(finding.Error, "layout.part", 0, 0, "no column of part numbers was found; all rows are held", t.Settle("columns"))
	}
	need := traits.Needed[t.Kind]
	if !t.Adds && !slices.ContainsFunc(need, func(role catalog.Role) bool { return t.ByRole[role] != nil || t.titled(role) }) {
		t.Add(finding.Error, "data.missing", 0, 0, fmt.Sprintf("no column gives the %s; all rows are held", need[0]), t.Settle("columns"))
	}
	t.reportOrders()
	t.reportHidden()
}

// titled reports whether a title above the table gives a size.
func (t *Table) titled(role catalog.Role) bool {
	return slices.ContainsFunc(t.TextTitles(), func(title string) bool {
		return slices.ContainsFunc(layout.TitledSizes(t.Lex, t.Kind, title), func(one layout.Titled) bool { return one.Role == role })
	})
}

// reportNone reports a table that lists nothing that matters. Where it has the numbers of parts, and the file was said to list such or the
// table's texts give sizes, the finding stands upon all its rows.
func (t *Table) reportNone() {
	one := finding.Finding{
		Severity: finding.Note, Code: "layout.kind", Place: finding.Place{File: t.File, Sheet: t.Sheet.Name}, Settle: t.Settle("kind"),
		Message: fmt.Sprintf("the table lists neither heads, ferrules nor tips as far as its headings tell%s; all its rows are set aside", t.seems()),
	}
	inTexts := t.textsGiveSizes()
	if t.maySize() || inTexts {
		one.Severity = finding.Warning
	}
	if inTexts {
		one.Message += ", although its texts give sizes"
	}
	if t.given != catalog.UnknownKind && t.numbersParts() {
		one.Severity = finding.Warning
		one.Message += fmt.Sprintf(", although the file was given as %s", t.given)
	}
	if (t.given != catalog.UnknownKind || inTexts) && t.numbersParts() {
		one.Place.Cell = t.Region.RangeOf().String()
	}
	t.Findings.Add(one)
}

// textsGiveSizes reports whether most texts of a column have sizes with their units in them, or list sizes.
func (t *Table) textsGiveSizes() bool {
	return slices.ContainsFunc(t.Columns, func(c *Column) bool {
		count := 0
		for _, text := range c.Profile.Texts {
			if len(text) <= lexicon.LongestNote && sizetext.Gives(text) {
				count++
			}
		}
		return count*2 > c.Profile.Filled
	})
}

// numbersParts reports whether a column of the table has part numbers, by its heading or its values.
func (t *Table) numbersParts() bool {
	return slices.ContainsFunc(t.Columns, func(c *Column) bool {
		return c.headed(catalog.UnknownKind, catalog.Part) >= lexicon.HeadingScore || c.uniqueCodes()
	})
}

// reportOrders says of sizes that stand together in one column from where it is known which is which.
func (t *Table) reportOrders() {
	told := map[string]bool{}
	for _, c := range t.Columns {
		if c.Order == "" || told[c.Order] {
			continue
		}
		told[c.Order] = true
		severity := finding.Note
		if c.Inferred {
			severity = finding.Warning
		}
		t.AddColumn(severity, "layout.sizes", c.Col, c.Order, t.Settle("columns"))
	}
}

// reportHidden says what is hidden: the sheet, runs of rows, and each column at its heading. All of it is read.
func (t *Table) reportHidden() {
	if t.Sheet.Hidden {
		t.Add(finding.Warning, "layout.hidden", 0, 0, "the sheet is hidden; it was read all the same", t.Settle("kind"))
	}
	area := t.Region.RangeOf()
	rows := hiddenWithin(t.Sheet.HiddenRows, area.From.Row, area.To.Row)
	for from := 0; from < len(rows); {
		to := from
		for to+1 < len(rows) && rows[to+1] == rows[to]+1 {
			to++
		}
		what := fmt.Sprintf("row %d is hidden; it was", rows[from])
		if to > from {
			what = fmt.Sprintf("rows %d to %d are hidden; they were", rows[from], rows[to])
		}
		t.Findings.Add(finding.Finding{Severity: finding.Note, Code: "layout.hidden", Place: finding.Place{File: t.File, Sheet: t.Sheet.Name, Row: rows[from]},
			Message: what + " read all the same"})
		from = to + 1
	}
	for _, col := range hiddenWithin(t.Sheet.HiddenCols, area.From.Col, area.To.Col) {
		place := finding.Place{File: t.File, Sheet: t.Sheet.Name}
		for _, row := range t.Region.Headings {
			if ref := (sheet.Ref{Row: row, Col: col}); !t.Region.Grid.Turned && place.Cell == "" && t.Region.Grid.At(row, col) != "" {
				place.Row, place.Cell = row, ref.String()
			}
		}
		t.Findings.Add(finding.Finding{Severity: finding.Note, Code: "layout.hidden", Place: place,
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
