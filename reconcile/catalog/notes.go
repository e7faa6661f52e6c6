package catalog

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/sheet"
)

// general is what a sheet or book says for all its dimensions.
type general struct {
	// unit is the unit that the free texts name, empty where none or several do; unitCell and unitText say where.
	unit, unitCell, unitText string
	// units are all units named.
	units []string
	// tolerance is the tolerance for dimensions that state none.
	tolerance     *value.Tolerance
	toleranceCell string
	toleranceText string
	// supplier is whose sheet it is, by its own words.
	supplier string
}

// longestNote is the length in bytes beyond which a text is not searched.
const longestNote = 600

// readNotes reads what the free texts of a sheet say of its dimensions.
func readNotes(lex *lexicon, g *grid, places []sheet.Ref) general {
	var notes general
	for _, place := range places {
		text := g.at(g.place(place))
		if text == "" || len(text) > longestNote || looksNumeric(text) {
			continue
		}
		for _, hit := range lex.words.Units(text) {
			if !isLengthUnit(hit.Value) || slices.Contains(notes.units, hit.Value) {
				continue
			}
			notes.units = append(notes.units, hit.Value)
			notes.unit, notes.unitCell, notes.unitText = hit.Value, place.String(), text
		}
		notes.readTolerance(text, place)
	}
	if len(notes.units) > 1 {
		notes.unit = ""
	}
	return notes
}

// readTolerance takes the first tolerance that a free text states.
func (n *general) readTolerance(text string, place sheet.Ref) {
	if n.tolerance != nil || !mayTolerate(text) {
		return
	}
	tolerance, found := value.ReadTolerance(text, value.Context{Unit: n.unit})
	if !found || tolerance.Problem.Code != "" {
		return
	}
	n.tolerance, n.toleranceCell, n.toleranceText = &tolerance, place.String(), text
}

// mayTolerate reports whether a free text has a sign or a standard's number that a tolerance needs.
func mayTolerate(text string) bool {
	for _, sign := range []string{"±", "+/-", "+-", "2768", " IT", "+0", "土", "－"} {
		if strings.Contains(text, sign) {
			return true
		}
	}
	return false
}

// freeTexts returns the places of the cells of a sheet that belong to no line of data or heading of a table, and of the
// group headings that say something for several columns.
func freeTexts(g *grid, readers []*tableReader) []sheet.Ref {
	taken := map[int][]span{}
	for _, t := range readers {
		for i, kind := range t.lines {
			if kind != lineData && kind != lineHeading && kind != lineRepeated && kind != lineTotal {
				continue
			}
			line := t.region.from + i
			if t.region.grid.turned {
				for row := t.region.left; row <= t.region.right; row++ {
					taken[row] = append(taken[row], span{left: line, right: line})
				}
				continue
			}
			taken[line] = append(taken[line], span{left: t.region.left, right: t.region.right})
		}
	}
	var places []sheet.Ref
	for i, row := range g.text {
		for j, text := range row {
			if text == "" || slices.ContainsFunc(taken[i+1], func(s span) bool { return j+1 >= s.left && j+1 <= s.right }) {
				continue
			}
			places = append(places, sheet.Ref{Row: i + 1, Col: j + 1})
		}
	}
	return places
}

// describe says where a general rule stands.
func describe(text, cell string) string {
	if runes := []rune(text); len(runes) > 60 {
		text = string(runes[:60]) + "…"
	}
	return fmt.Sprintf("note %q in %s", text, cell)
}
