package layout

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
)

// "Tip" is the word for the ends of shafts, and in many languages for the thin end of a ferrule, too: "base 13.6 mm, tip 10.5 mm". It means the latter
// where the number is none by which tips are called, stands with an outer diameter that is greater, and is greater than the bore.

// withThinEnd adds to an item of which sentences give the outer diameter the one at its thin end, where they give one as that of a tip.
func (c card) withThinEnd(lex *lexicon.Lexicon, said []saidAt) card {
	if hasRole(c, catalog.TopOD) || hasRole(c, catalog.BoreDepth) {
		return c
	}
	var found []entry
	for _, one := range said {
		for _, clause := range spoken.Clauses(lex, one.text) {
			for _, text := range spoken.EndsCalledTips(lex, clause) {
				e := entry{label: sizetext.NameOf(catalog.TopOD), value: text, at: one.at, valueAt: one.at, role: catalog.TopOD}
				if c.between(lex, text) {
					found = append(found, e)
				}
			}
		}
	}
	if len(found) != 1 {
		return c
	}
	c = slices.DeleteFunc(c, func(e entry) bool { return e.role == catalog.Description && strings.Contains(e.value, found[0].value) })
	return append(c, found[0])
}

// endsAsThinEnds takes the diameter at the mouth of parts, or at their head, for that of their thin end, where one at the base is given and it lies between
// that and the bore of most of them: a countersink has its mouth in a head, "boca 10,6 mm" beside "base 13,5 mm" is the upper end of a ferrule, and "testa
// 10,8" is no head, but that end.
func endsAsThinEnds(lex *lexicon.Lexicon, all []card) {
	named, ends := 0, 0
	for _, c := range all {
		if hasRole(c, catalog.TopOD) || hasRole(c, catalog.BoreDepth) || hasRole(c, catalog.CountersinkDepth) || hasRole(c, catalog.CountersinkAngle) {
			return
		}
		own := 0
		for _, e := range c {
			if e.mayBeThinEnd(lex) {
				own++
				if hasRole(c, catalog.Bore) && c.namesBase(lex) && c.between(lex, e.value) {
					ends++
				}
			}
		}
		if named += own; own > 1 {
			return // which of them
		}
	}
	if ends == 0 || ends*3 < named*2 {
		return
	}
	for _, c := range all {
		for i := range c {
			if c[i].mayBeThinEnd(lex) {
				c[i].role, c[i].label = catalog.TopOD, sizetext.NameOf(catalog.TopOD)
			}
		}
	}
}

// mayBeThinEnd reports whether what an item says is a size at a mouth or a head.
func (e entry) mayBeThinEnd(lex *lexicon.Lexicon) bool {
	if e.role == catalog.CountersinkMouth {
		return true
	}
	_, number := sizetext.Number(lex, e.value)
	return number && lex.Words.Means("head", e.label)
}

// namesBase reports whether an outer diameter of an item is called that at its base.
func (c card) namesBase(lex *lexicon.Lexicon) bool {
	return slices.ContainsFunc(c, func(e entry) bool { return e.role == catalog.BaseOD && lex.Words.Mentions("base", e.label) })
}

// between reports whether a number is less than the outer diameter of an item and more than its bore, where that is given.
func (c card) between(lex *lexicon.Lexicon, text string) bool {
	size, ok := sizetext.Number(lex, text)
	below := false
	for _, e := range c {
		other, known := sizetext.Number(lex, e.value)
		switch {
		case outside(e.role) == catalog.HoselOD:
			below = known && size < other
		case e.role == catalog.Bore && known && size <= other:
			return false
		}
	}
	return ok && below
}
