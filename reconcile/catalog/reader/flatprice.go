package reader

import (
	"cmp"
	"slices"

	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/sheet"
)

// flatPrices returns the notes that give one price for each part of a table: one for all of them, or one above each group of parts. Others
// leave open which parts they are about.
func (s *sheetReader) flatPrices(table *columns.Table) []layout.FlatNote {
	var found []layout.FlatNote
	for i := range s.notes.Flat {
		note := &s.notes.Flat[i]
		switch {
		case !s.speaksOf(note, table), len(found) > 0 && found[len(found)-1].Price == note.Price && found[len(found)-1].Currency == note.Currency:
		case len(found) > 0 && found[0].Currency != note.Currency:
			return nil
		default:
			found = append(found, *note)
		}
	}
	if len(found) > 1 && !standAbove(found, table) {
		return nil
	}
	return found
}

// standAbove reports whether the first of some notes stands above all parts of a table, and each other one between parts.
func standAbove(notes []layout.FlatNote, table *columns.Table) bool {
	first, last := 0, 0
	for i, kind := range table.Lines {
		if kind == columns.LineData {
			last = table.Region.Grid.Ref(table.Region.From+i, table.Region.Left).Row
			if first == 0 {
				first = last
			}
		}
	}
	return notes[0].Place.Row < first && notes[1].Place.Row > first && notes[len(notes)-1].Place.Row < last
}

// speaksOf reports whether a note is about a table: the one that it stands in or above, or the only one of the sheet or of the kind of parts that
// it names, of which there may be several columns of one cross table.
func (s *sheetReader) speaksOf(note *layout.FlatNote, table *columns.Table) bool {
	if note.Of != "" && note.Of != table.Kind.String() {
		return false
	}
	others := 0
	for _, t := range s.tables {
		if t.Kind != table.Kind {
			if note.Of == "" {
				return false
			}
			continue
		}
		if !t.Region.Second {
			others++
		}
	}
	area := table.Region.RangeOf()
	return others <= 1 || note.Place.Row >= area.From.Row && note.Place.Row <= area.To.Row && note.Place.Col >= area.From.Col && note.Place.Col <= area.To.Col
}

// withTitles are places with those of titles that tables have sizes from, in the order of the sheet.
func (s *sheetReader) withTitles(places []sheet.Ref) []sheet.Ref {
	places = slices.Clone(places)
	for i := range s.regions {
		places = append(places, s.regions[i].Above...)
	}
	slices.SortFunc(places, func(a, b sheet.Ref) int { return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col)) })
	return slices.Compact(places)
}
