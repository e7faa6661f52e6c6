package spoken

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
)

// CorrectsAhead reports whether a text begins with words that put right what was said before, and a number.
func CorrectsAhead(lex *lexicon.Lexicon, text string) bool {
	number := strings.IndexFunc(text, unicode.IsNumber)
	return number > 0 && sizetext.Corrects(lex, text[:number])
}

// CorrectedBy reports whether a text ends with a number and words that put it right.
func CorrectedBy(lex *lexicon.Lexicon, text string) bool {
	number := strings.LastIndexFunc(text, unicode.IsNumber)
	if number < 0 {
		return false
	}
	tail := text[number+1:]
	sign := strings.IndexAny(tail, beforeCorrection) // behind the name of the size
	return sizetext.Corrects(lex, tail) || sign >= 0 && sizetext.Corrects(lex, tail[sign:])
}

// beforeCorrection are the signs before words that put right what stands before them.
const beforeCorrection = ",;，；-–—"

// Denies reports whether what stands before a number ends with words that say that it does not hold: "13.6 mm (not". Without a bracket, words that
// put right what was said before may mean the other way round: "13,6, non, 13,4".
func Denies(lex *lexicon.Lexicon, before string) bool {
	sign := strings.LastIndexAny(before, opensDenied)
	if sign < 0 {
		return false
	}
	_, size := utf8.DecodeRuneInString(before[sign:])
	words := strings.TrimSpace(before[sign+size:])
	inBrackets := strings.ContainsAny(before[sign:sign+size], "(（")
	return words != "" && lex.Words.BesideWrong(words) && (inBrackets || !lex.Words.MayCorrect(words))
}

// opensDenied are the signs before words that say that a number does not hold.
const opensDenied = "(（,，;–—"

// deniedClause reports whether a clause begins with words that say that the number behind them does not hold.
func deniedClause(lex *lexicon.Lexicon, clause string) bool {
	number := strings.IndexFunc(clause, unicode.IsNumber)
	if number <= 0 {
		return false
	}
	words := strings.Trim(clause[:number], sizetext.AroundNames+".")
	return lex.Words.BesideWrong(words) && !lex.Words.MayCorrect(words)
}

// SaysCorrection reports whether a clause of a text is made of words that put right what was said before.
func SaysCorrection(lex *lexicon.Lexicon, text string) bool {
	return slices.ContainsFunc(betweenClauses().Split(text, -1), func(clause string) bool { return sizetext.Corrects(lex, clause) })
}

// WordsOfCorrection returns the words by which a text says that it puts something right, at the beginning or the end of one of its clauses.
func WordsOfCorrection(lex *lexicon.Lexicon, text string) string {
	for _, clause := range betweenClauses().Split(text, -1) {
		written := strings.Fields(clause)
		for n := min(longestPhrase, len(written)); n > 0; n-- {
			for _, phrase := range [...]string{strings.Join(written[:n], " "), strings.Join(written[len(written)-n:], " ")} {
				if sizetext.Corrects(lex, phrase) {
					return strings.Trim(phrase, sizetext.AroundNames+".!…")
				}
			}
		}
	}
	return ""
}

// longestPhrase is how many words say at most that something is put right.
const longestPhrase = 4

// namedAndCorrected returns the size of a clause of two numbers, the second of which puts right the first behind its name: "13.2 at the base, I
// mean 13.4".
func namedAndCorrected(lex *lexicon.Lexicon, clause string, numbers []clauseNumber) (s sizetext.Size, ok bool) {
	if len(numbers) != 2 {
		return s, false
	}
	first, second := numbers[0], numbers[1]
	between := clause[first.at[1]:second.at[0]]
	comma := strings.IndexAny(between, beforeCorrection)
	if comma < 0 || !sizetext.Corrects(lex, between[comma:]) {
		return s, false
	}
	if first.after, first.wordsAfter = nameAtStart(lex, nameWords(between[:comma]), true); first.after == "" {
		return s, false
	}
	s = sizeCalled(lex, clause, first, first.after, false)
	s.Text += ", " + strings.Trim(between[comma:], sizetext.AroundNames) + " " + clause[second.at[0]:second.at[1]]
	return s, s.Role != ""
}
