package spoken

import (
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
)

// EndsCalledTips returns the numbers of a clause that are called those of tips and can be none, but outer diameters.
func EndsCalledTips(lex *lexicon.Lexicon, clause string) []string {
	var all []string
	taken := 0
	for _, at := range placesOf(lex, clause) {
		text := clause[at[0]:at[1]]
		before := nameWords(clause[taken:at[0]])
		taken = at[1]
		name, _ := nameAtEnd(lex, before, true)
		if nameScoreOf(lex, name).role != string(catalog.TipTaken) || isTipName(lex, text) || !lexicon.StandsFree(clause, at[0], at[1]) {
			continue
		}
		if (sizetext.Size{Role: string(catalog.TopOD), Text: text}).Possible(lex) {
			all = append(all, text)
		}
	}
	return all
}
