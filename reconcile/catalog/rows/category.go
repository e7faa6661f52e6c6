package rows

import (
	"cmp"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// category finds the kind of club: from the row, the title above it, its description or a club that names its kind itself, the
// sheet's title. A club's plain number says least: it is an iron's only where nothing else speaks.
func (r *rowReader) category(club string) string {
	number := r.t.Lex.PlainNumber(cmp.Or(club, r.fields.Text(catalog.Club)))
	for _, role := range []catalog.Role{catalog.Category, catalog.Club, catalog.Description, catalog.Part} {
		if kind := r.kindSaid(role, club); kind != "" {
			return kind
		}
		if role == catalog.Description && r.t.sectionCategory != "" {
			return firstWood(r.t.sectionCategory, cmp.Or(number, club))
		}
	}
	if kind := lexicon.ClubCategory(club); kind != "" && number == "" {
		return kind
	}
	if r.t.titleCategory != "" {
		return firstWood(r.t.titleCategory, cmp.Or(number, club))
	}
	return lexicon.ClubCategory(number)
}

// kindSaid returns the kind of club that a cell of the row names, beside a number.
func (r *rowReader) kindSaid(role catalog.Role, club string) string {
	lex, text := r.t.Lex, r.fields.Text(role)
	if text == "" {
		return ""
	}
	if kind := lexicon.ClubCategory(text); role == catalog.Club && club == "" && kind != "" && lex.PlainNumber(text) == "" {
		return kind
	}
	if hit, found := r.t.categoryIn(r.line, text); found && hit.Score >= 0.2 && (role != catalog.Part || hit.Score >= 0.5) {
		return hit.Value
	}
	if role != catalog.Part && lex.PlainNumber(text) == "" {
		if set := lex.SetOf("", text); len(set) == 1 {
			return lexicon.ClubCategory(set[0])
		}
		if first, _, more := strings.Cut(text, " "); more && role == catalog.Description { // "3W, 15 deg"
			if set := lex.SetOf("", strings.TrimRight(first, ",")); len(set) == 1 {
				return lexicon.ClubCategory(set[0])
			}
		}
	}
	return ""
}

// firstWood makes the first of the woods the driver, which it is in every language.
func firstWood(category, club string) string {
	if category == "fairway" && (club == "1" || club == "1W") {
		return "driver"
	}
	return category
}

var categories = map[string]fitcalc.Category{
	"driver": fitcalc.Driver, "fairway": fitcalc.Fairway, "hybrid": fitcalc.Hybrid, "iron": fitcalc.Iron, "wedge": fitcalc.Wedge,
	"putter": fitcalc.Putter, "chipper": fitcalc.Chipper,
}
