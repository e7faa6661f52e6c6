package layout

import (
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
)

// Described is a size that the description of one part gives.
type Described struct {
	Role catalog.Role
	// Text is the size as it stands there.
	Text string
	value.Reading
}

// IsTipName reports whether the size is one by which tips are called.
func (d Described) IsTipName() bool {
	_, named := fitcalc.TipNamed(d.Dim.Nominal())
	return named && d.Role != catalog.TipTaken
}

// DescribedSizes returns the sizes that a description gives to a part of a kind by name, with a unit or in the one in which the column of such
// sizes is: "base 13.7, 24 mm long". A name that stands there with two sizes says nothing.
func DescribedSizes(lex *lexicon.Lexicon, kind catalog.Kind, text string, unitOf func(catalog.Role) string) []Described {
	if len(text) > lexicon.LongestNote {
		return nil
	}
	var all []Described
	add := func(role catalog.Role, size string) {
		if role == catalog.TipTaken || !slices.Contains(traits.OfKind[kind], role) || saysOther(lex, text, size) {
			return
		}
		if reading, ok := ReadDescribed(lex, kind, role, size, unitOf(role)); ok {
			all = append(all, Described{role, size, reading})
		}
	}
	for _, one := range TitledSizes(lex, kind, text) {
		add(one.Role, one.Text)
	}
	for _, one := range sizesSpoken(lex, text) {
		add(catalog.Role(one.Role), one.Text)
	}
	return slices.DeleteFunc(all, func(a Described) bool {
		return slices.ContainsFunc(all, func(b Described) bool {
			return a.Role == b.Role && a.Dim.Nominal() != b.Dim.Nominal() || a.Role != b.Role && a.Text == b.Text
		})
	})
}

// SlippedSizes returns the sizes that a description gives to a part of a kind by name and with their units, beside others, and that are impossible:
// "hosel 135 mm".
func SlippedSizes(lex *lexicon.Lexicon, kind catalog.Kind, text string, others []Described) (all []sizetext.Size) {
	if len(text) > lexicon.LongestNote || !slices.ContainsFunc(sizetext.Numbers(text, 24), func(number string) bool {
		return sizetext.HasUnit(number) && !slices.ContainsFunc(others, func(d Described) bool { return d.Text == number })
	}) {
		return nil
	}
	for _, clause := range spoken.Clauses(lex, text) {
		for _, one := range spoken.Slipped(lex, clause, spoken.Sizes(lex, clause)) {
			if sizetext.HasUnit(one.Text) && slices.Contains(traits.OfKind[kind], catalog.Role(one.Role)) && !saysOther(lex, text, one.Text) {
				all = append(all, one)
			}
		}
	}
	return all
}

// ReadDescribed reads a size of a description, in its own unit, in that of its column, or in the first in which it is possible.
func ReadDescribed(lex *lexicon.Lexicon, kind catalog.Kind, role catalog.Role, size, unit string) (value.Reading, bool) {
	b, known := traits.BoundsOf(kind, role)
	for _, unit := range append([]string{unit}, traits.LengthUnits[:2]...) {
		one := lex.Read(size, value.Context{Want: value.WantDiameter, Unit: unit})
		if one.Kind == value.Length && one.Problem.Code == "" && known && b.Possible(traits.MM(one.Dim.Nominal())) {
			return one, true
		}
	}
	return value.Reading{}, false
}

// saysOther reports whether a size of a text stands with words for what no joint depends on, "face height 58 mm", or at a sign by which it is no size.
func saysOther(lex *lexicon.Lexicon, text, size string) bool {
	at := strings.Index(text, size)
	if at < 0 {
		return true
	}
	after := strings.TrimLeft(text[at+len(size):], " ")
	if strings.HasPrefix(after, "°") || strings.HasPrefix(after, "%") {
		return true
	}
	before := text[:at]
	before = before[strings.LastIndexAny(before, ",;(，、；（")+1:]
	return lex.Irrelevant(strings.Trim(before, sizetext.AroundNames))
}
