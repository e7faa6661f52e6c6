package reader

import (
	"cmp"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
)

// A note at one of several tables of a sheet is about that: within it, between its title and its headings, or below it and above the next one. What
// stands above all tables or below all may be about all.

// tableRows are the rows of a table, or of those side by side: those with its titles, and those from its headings to its last part.
type tableRows struct {
	from, first, last int
	kind              catalog.Kind
}

// placeNotes tells of each note about sizes at which table it stands.
func (s *sheetReader) placeNotes() {
	all := s.rowsOfTables()
	if len(all) < 2 {
		return
	}
	for i := range s.notes.Clauses {
		c := &s.notes.Clauses[i]
		if at := s.noteAt(all, c.Place.Row, c.Text); at >= 0 {
			c.FirstRow, c.LastRow = all[at].first, all[at].last
		}
	}
}

// rowsOfTables returns the rows of the tables of parts, from the top.
func (s *sheetReader) rowsOfTables() []tableRows {
	var all []tableRows
	for _, t := range s.tables {
		if t.Kind == catalog.UnknownKind || t.Rules.Kind == catalog.NoRole {
			continue
		}
		area := t.Region.RangeOf()
		own := tableRows{area.From.Row, area.From.Row, area.To.Row, t.Kind}
		if r := t.Region; !r.Grid.Arranged() && !r.Grid.Turned {
			own.first, own.last = r.Body, r.Body
			if len(r.Headings) > 0 {
				own.first = r.Headings[0]
			}
			for i, kind := range t.Lines {
				if kind == columns.LineData || kind == columns.LineTotal {
					own.last = max(own.last, r.From+i)
				}
			}
		}
		all = append(all, own)
	}
	slices.SortStableFunc(all, func(a, b tableRows) int { return cmp.Compare(a.first, b.first) })
	var apart []tableRows
	for _, own := range all {
		if n := len(apart) - 1; n >= 0 && own.first <= apart[n].last {
			apart[n].last = max(apart[n].last, own.last)
			if own.kind != apart[n].kind {
				apart[n].kind = catalog.UnknownKind
			}
			continue
		}
		apart = append(apart, own)
	}
	return apart
}

// noteAt returns which of the tables a note in a row is about, −1 where it may be all. Between two, it is the one right above or below which it
// stands, without a blank line between, and else the one above, unless it names the kind of the other's parts.
func (s *sheetReader) noteAt(all []tableRows, row int, text string) int {
	at, within := slices.BinarySearchFunc(all, row, func(t tableRows, row int) int {
		switch {
		case t.last < row:
			return -1
		case t.first > row:
			return 1
		}
		return 0
	})
	if within {
		return at
	}
	if at == 0 || at == len(all) {
		return -1
	}
	above, below := all[at-1], all[at]
	if hit, named := s.lex.Ask("kind", text, s.lex.Words.Kind); named && above.kind != below.kind {
		switch hit.Value {
		case above.kind.String():
			return at - 1
		case below.kind.String():
			return at
		}
	}
	if joined := s.unbroken(row, below.first); joined && !s.unbroken(above.last, row) {
		return at
	}
	return at - 1
}

// unbroken reports whether no blank line stands between two rows.
func (s *sheetReader) unbroken(from, to int) bool {
	for row := from + 1; row < to; row++ {
		if s.grid.BlankLine(row, 1, s.grid.Width) {
			return false
		}
	}
	return true
}
