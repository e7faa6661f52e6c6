package spoken

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
)

// Of a bore people say with one word between how wide and how deep it is: "percé à 9,5 mm sur 32 mm", "9,5 auf 32 gebohrt", "drilled 9.5 x 32". The
// second number has no name. It is the depth where it can be that and no bore, and the clause says nothing else behind it.

// depthName is the name of the depth that has none.
const depthName = "bore depth"

// withDepth adds to the sizes of a clause the depth of its bore, where that is said so; and the bore, where its name stands behind both.
func withDepth(lex *lexicon.Lexicon, clause string, numbers []clauseNumber, sizes []sizetext.Size) []sizetext.Size {
	if slices.ContainsFunc(sizes, func(s sizetext.Size) bool { return s.Role == string(catalog.BoreDepth) }) {
		return sizes
	}
	for i := range sizes {
		if bore, depth, ok := wideAndDeep(lex, sizes[i]); ok {
			sizes[i] = bore
			return append(sizes, depth)
		}
	}
	for i := range max(len(numbers)-1, 0) {
		first, second := numbers[i], numbers[i+1]
		if !leadsToDepth(lex, clause, first, second) {
			continue
		}
		bore, depth := boreAt(clause, first), depthAt(clause, second)
		named := slices.ContainsFunc(sizes, func(s sizetext.Size) bool { return s.Role == bore.Role && s.Text == bore.Text })
		switch behind := behindNumber(clause, numbers, i+1); {
		case named && saysNothing(lex, behind):
			return append(sizes, depth)
		case !named && nameScoreOf(lex, strings.Join(behind, " ")).role == bore.Role && !slices.ContainsFunc(sizes, func(s sizetext.Size) bool { return s.Role == bore.Role }):
			return append(sizes, bore, depth)
		}
	}
	return sizes
}

// unnameDepths takes off the numbers of a clause the names that are no more than the word between how wide a bore is and how deep.
func unnameDepths(lex *lexicon.Lexicon, clause string, numbers []clauseNumber) {
	for i := range max(len(numbers)-1, 0) {
		first, second := &numbers[i], &numbers[i+1]
		if nameScoreOf(lex, first.before).role == string(catalog.Bore) && leadsToDepth(lex, clause, *first, *second) {
			first.after, first.wordsAfter, second.before, second.wordsBefore = "", 0, "", 0
		}
	}
}

// leadsToDepth reports whether between two numbers of a clause stands nothing but a word that makes them a bore and its depth.
func leadsToDepth(lex *lexicon.Lexicon, clause string, first, second clauseNumber) bool {
	_, leads := lex.Words.Mark(strings.TrimSpace(clause[first.at[1]:second.at[0]]), "to_depth")
	return leads && boreAndDepth(lex, boreAt(clause, first), depthAt(clause, second))
}

// boreAt is a number of a clause as a bore.
func boreAt(clause string, n clauseNumber) sizetext.Size {
	return sizetext.Size{Role: string(catalog.Bore), Name: sizetext.NameOf(catalog.Bore), Text: clause[n.at[0]:n.at[1]], From: n.at[0]}
}

// depthAt is a number of a clause as the depth of a bore.
func depthAt(clause string, n clauseNumber) sizetext.Size {
	return sizetext.Size{Role: string(catalog.BoreDepth), Name: depthName, Text: clause[n.at[0]:n.at[1]], From: n.at[0]}
}

// wideAndDeep returns how wide and how deep a bore is of which a list says both: "9.5 x 32 mm".
func wideAndDeep(lex *lexicon.Lexicon, s sizetext.Size) (bore, depth sizetext.Size, ok bool) {
	if s.Role != string(catalog.Bore) || sizetext.CountNumbers(s.Text) != 2 {
		return bore, depth, false
	}
	pieces := sizetext.SplitTimes(s.Text, false)
	if len(pieces) != 2 {
		return bore, depth, false
	}
	sizetext.ShareUnit(pieces)
	bore, depth = s, sizetext.Size{Role: string(catalog.BoreDepth), Name: depthName, Text: pieces[1], From: s.From}
	bore.Text = pieces[0]
	return bore, depth, boreAndDepth(lex, bore, depth)
}

// boreAndDepth reports whether of two sizes the first can be a bore and the second its depth, and no bore.
func boreAndDepth(lex *lexicon.Lexicon, bore, depth sizetext.Size) bool {
	return bore.Possible(lex) && depth.Possible(lex) && !(sizetext.Size{Role: bore.Role, Text: depth.Text}).Possible(lex)
}

// behindNumber returns the words between a number of a clause and the next one, or the end.
func behindNumber(clause string, numbers []clauseNumber, i int) []string {
	end := len(clause)
	if i+1 < len(numbers) {
		end = numbers[i+1].at[0]
	}
	return nameWords(clause[numbers[i].at[1]:end])
}

// saysNothing reports whether words behind a number say nothing of it: there are none, or the first goes on to something else.
func saysNothing(lex *lexicon.Lexicon, written []string) bool {
	return len(written) == 0 || lex.Words.JoinsNames(written[0])
}
