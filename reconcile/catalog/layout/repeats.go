package layout

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
)

// likeness is how a heading that comes later stands to the one above the same column.
type likeness uint8

const (
	// unlike says that it cannot be told whether the two mean the same.
	unlike likeness = iota
	// missing says that there is nothing above the column: it means what it meant.
	missing
	// alike says that the two mean the same, in whatever words.
	alike
	// contrary says that the column has another role or another unit from there on.
	contrary
)

// repeatedBy reports whether headings further down are those of this table again, as on the next page of a printed list: in the same words
// or in others, with the units or without, all of them or some. A single column that means something else makes them those of another table,
// and so does a title above them that names another kind of part: what stands below would be read with the wrong role or unit.
func (r *Region) repeatedBy(lex *lexicon.Lexicon, again *Region) bool {
	same, different := 0, 0
	for _, other := range again.Columns {
		switch r.heading(other.Col).likenessOf(lex, other) {
		case contrary:
			return false
		case alike:
			same++
		case unlike:
			different++
		}
	}
	return same > 0 && different*4 <= same && !r.otherKind(lex, again)
}

// otherKind reports whether the title of headings further down names another kind of part than this table lists, and they may head that kind.
// Headings that name no size, as those of a count have them, may head any kind: then a title that names one begins a list of its own, whatever the
// one above the first headings says.
func (r *Region) otherKind(lex *lexicon.Lexicon, again *Region) bool {
	named := again.kindTitled(lex)
	if named == catalog.UnknownKind || !again.mayList(lex, named) {
		return false
	}
	if own := r.kindTitled(lex); own != catalog.UnknownKind {
		return own != named
	}
	return !r.mayList(lex, named) || !r.hasDimension(lex) && r.From < r.Headings[0]
}

// kindTitled is the kind of part that the titles of a table name, the nearest first.
func (r *Region) kindTitled(lex *lexicon.Lexicon) catalog.Kind {
	if len(r.Headings) == 0 {
		return catalog.UnknownKind
	}
	for line := r.Headings[0] - 1; line >= r.From; line-- {
		if hit, found := lex.Ask("kind", firstText(r.Grid, line, span{left: r.Left, right: r.Right}), lex.Words.Kind); found && hit.Value != "" {
			return kindNamed(hit.Value)
		}
	}
	return catalog.UnknownKind
}

// mayList reports whether all headings that name a role have one in tables of a kind.
func (r *Region) mayList(lex *lexicon.Lexicon, kind catalog.Kind) bool {
	return !slices.ContainsFunc(r.Columns, func(h Heading) bool {
		return names(lex.Match(h.Parts...)) && len(lex.MatchIn(kind, h.Parts...)) == 0
	})
}

// likenessOf compares a heading with one further down its column.
func (h Heading) likenessOf(lex *lexicon.Lexicon, other Heading) likeness {
	if unit, own := HeadingUnit(lex, other), HeadingUnit(lex, h); unit != "" && unit != own && (own != "" || traits.IsLengthUnit(unit)) {
		return contrary
	}
	if other.Text == "" {
		return missing
	}
	lowest := h.Parts[max(len(h.Parts)-1, 0):]
	if words.Fold(h.Text) == words.Fold(other.Text) || slices.Contains(lowest, other.Text) {
		return alike
	}
	if h.saysLess(lex, other) {
		return contrary
	}
	own, later := lex.Match(h.Parts...), lex.Match(other.Parts...)
	size := len(later) > 0 && traits.Of[catalog.Role(later[0].Role)].Want == traits.Length
	switch {
	case !names(later), !names(own) && !size:
		return unlike
	case !names(own), size && len(likely(own)) > 1 && len(likely(later)) == 1: // "OD", of whatever, and "Base OD"
		return contrary
	case slices.ContainsFunc(likely(own), func(role string) bool { return slices.Contains(likely(later), role) }):
		return alike
	case within(h.Text, other.Text) && slices.ContainsFunc(later, func(m words.RoleMatch) bool { return m.Role == own[0].Role }):
		return alike
	}
	return contrary
}

// saysLess reports whether a heading further down says of its values what this one does not, apart from their role: a tolerance, or another
// one, for how many pieces prices are, that diameters are radii. What the later one leaves out still holds.
func (h Heading) saysLess(lex *lexicon.Lexicon, other Heading) bool {
	per, lot := lex.PricePer(h.Text)
	if later, laterLot := lex.PricePer(other.Text); (later != per || laterLot != lot) && laterLot != lexicon.LotUnsaid {
		return true
	}
	own, later := lex.Words.Hints(h.Text), lex.Words.Hints(other.Text)
	for _, said := range [...][2]bool{
		{own.Radius, later.Radius}, {own.PerSide, later.PerSide}, {own.HalfAngle, later.HalfAngle}, {own.Max, later.Max}, {own.Min, later.Min},
		{own.Reference, later.Reference}, {own.Measured, later.Measured}, {own.Sample, later.Sample},
	} {
		if said[1] && !said[0] {
			return true
		}
	}
	figures := figuresIn(h.Text)
	return slices.ContainsFunc(figuresIn(other.Text), func(one string) bool { return !slices.Contains(figures, one) })
}

// figuresIn are the numbers of a text, without their decimal signs.
func figuresIn(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsDigit(r) })
}

// names reports whether the best of the roles that a heading may have is one that it names.
func names(found []words.RoleMatch) bool {
	return len(found) > 0 && found[0].Score >= lexicon.HeadingScore
}

// asGood is by how much the score of a role may be below that of the best for the heading to name either.
const asGood = 0.1

// likely are the roles that a heading names as well as any other: OD names several.
func likely(found []words.RoleMatch) []string {
	var roles []string
	for _, m := range found {
		if m.Score >= found[0].Score-asGood {
			roles = append(roles, m.Role)
		}
	}
	return roles
}

// within reports whether all words of a heading are among those of a longer one: "Length" and "Hosel length".
func within(longer, text string) bool {
	all := strings.Fields(words.Fold(longer))
	return !slices.ContainsFunc(strings.Fields(words.Fold(text)), func(word string) bool { return !slices.Contains(all, word) })
}
