package rows

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
)

// clubOf is one club of a row: what stands after the part number, empty for a row that is one part, or the part number of its own
// that a run of them gives it.
type clubOf struct{ suffix, part, assumption string }

// oneClub is the one club of a row that is one part.
var oneClub = []clubOf{{}}

// clubs returns the name of a row's part and its clubs: those of a set that it names in a column of its own or at the
// end of its part number; one club without a suffix where it names none.
func (r *rowReader) clubs(part string) (string, []clubOf) {
	switch {
	case r.t.Kind != catalog.Heads || part == "":
		return part, oneClub
	case r.club != "":
		return part, []clubOf{{suffix: r.club}}
	}
	text := r.fields.Text(catalog.Club)
	var set []string
	if text != "" {
		set = r.t.Lex.SetOf(r.clubCategory(), text)
		if len(set) == 0 {
			set = r.t.Lex.SetOf(r.clubCategory(), r.t.Lex.Words.InOwnLetters(r.t.Language, text))
		}
	}
	switch {
	case len(set) > 1:
		return part, r.expand(set, text, catalog.Club)
	case len(set) == 1 && r.t.clubbed.has(part):
		return part, []clubOf{{suffix: set[0]}}
	case text != "" && r.t.clubbed.has(part):
		return part, []clubOf{{suffix: text}}
	}
	if name, tail := lexicon.SplitSet(r.t.Lex, part); len(tail) > 1 {
		return name, r.expand(tail, part, catalog.Part)
	}
	if r.t.ByRole[catalog.Club] == nil {
		if set, place, found := r.t.Lex.FindSet(r.fields.Text(catalog.Description)); found {
			return part, r.expand(set, place, catalog.Description)
		}
	}
	return part, oneClub
}

// clubCategory is the kind of club by which plain numbers in a column of clubs are read: that of the row, or irons, which
// are the clubs that go by plain numbers.
func (r *rowReader) clubCategory() string {
	if category := r.category(""); category != "" {
		return category
	}
	return "iron"
}

// expand returns the clubs of a set. That a range in a column of clubs names those between its ends is no assumption; that
// one beyond the pitching wedge runs through the wedges in the usual order is, and that a set stands within another text.
func (r *rowReader) expand(set []string, text string, role catalog.Role) []clubOf {
	said := fmt.Sprintf("%q read as %s", text, strings.Join(set, " "))
	assumption := ""
	if last := set[len(set)-1]; role != catalog.Club || last != "PW" && lexicon.ClubCategory(last) == "wedge" && !listsAll(text, set) {
		assumption = said
	}
	if c := r.t.ByRole[role]; c != nil {
		line, col := r.t.Region.Grid.Source(r.line, c.Col)
		r.t.Tell(layout.ToldKey{What: "set", Col: c.Col}, finding.Note, "data.set", line, col, func() string { return said + ", one head for each" })
	}
	clubs := make([]clubOf, len(set))
	for i, club := range set {
		clubs[i] = clubOf{suffix: club, assumption: assumption}
	}
	return clubs
}

// listsAll reports whether a text names each wedge of a set itself.
func listsAll(text string, set []string) bool {
	for _, club := range set {
		if lexicon.ClubCategory(club) == "wedge" && !strings.Contains(text, club) {
			return false
		}
	}
	return true
}
