package catalog

import (
	"cmp"
	"strings"

	"example.com/seatline/fitcalc"
)

// category finds the kind of club: from the row, the title above it, its description or a club that names its kind itself, the
// sheet's title. A club's plain number says least: it is an iron's only where nothing else speaks.
func (r *rowReader) category(club string) string {
	number := r.t.lex.plainNumber(cmp.Or(club, r.fields.Text(Club)))
	for _, role := range []Role{Category, Club, Description, Part} {
		if kind := r.kindSaid(role, club); kind != "" {
			return kind
		}
		if role == Description && r.t.sectionCategory != "" {
			return firstWood(r.t.sectionCategory, cmp.Or(number, club))
		}
	}
	if kind := clubCategory(club); kind != "" && number == "" {
		return kind
	}
	if r.t.titleCategory != "" {
		return firstWood(r.t.titleCategory, cmp.Or(number, club))
	}
	return clubCategory(number)
}

// kindSaid returns the kind of club that a cell of the row names, beside a number.
func (r *rowReader) kindSaid(role Role, club string) string {
	lex, text := r.t.lex, r.fields.Text(role)
	if text == "" {
		return ""
	}
	if kind := clubCategory(text); role == Club && club == "" && kind != "" && lex.plainNumber(text) == "" {
		return kind
	}
	if hit, found := lex.category(text); found && hit.Score >= 0.2 && (role != Part || hit.Score >= 0.5) {
		return hit.Value
	}
	if role != Part && lex.plainNumber(text) == "" {
		if set := lex.setOf("", text); len(set) == 1 {
			return clubCategory(set[0])
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

// clubCategory returns the kind of a club in short form.
func clubCategory(club string) string {
	club = strings.ToUpper(strings.TrimSpace(club))
	switch club {
	case "":
		return ""
	case "1W", "DR":
		return "driver"
	case "PW", "GW", "AW", "SW", "LW", "UW":
		return "wedge"
	}
	if isDigits(club) && len(club) == 1 {
		return "iron"
	}
	if len(club) < 2 {
		return ""
	}
	switch digits := club[:len(club)-1]; {
	case strings.Trim(digits, "0123456789") != "":
		return ""
	case club[len(club)-1] == 'W':
		return "fairway"
	case club[len(club)-1] == 'H':
		return "hybrid"
	case club[len(club)-1] == 'I':
		return "iron"
	}
	return ""
}

var categories = map[string]fitcalc.Category{
	"driver": fitcalc.Driver, "fairway": fitcalc.Fairway, "hybrid": fitcalc.Hybrid, "iron": fitcalc.Iron, "wedge": fitcalc.Wedge,
	"putter": fitcalc.Putter, "chipper": fitcalc.Chipper,
}
