package words

import (
	"slices"
	"strings"
)

// pieces are how many a word of prices is for.
var pieces = map[string]float64{"piece": 1, "pair": 2, "dozen": 12, "hundred": 100, "thousand": 1000}

// aSet and aPack are the words for a set of clubs and for a bag or box of pieces: numbers of pieces that the words do not say.
const (
	aSet  = "set"
	aPack = "pack"
)

// surely is the weight from which such a word means nothing else, so that no other need stand beside it.
const surely = 0.95

// Pieces is a word of a text that says for how many pieces a price may be.
type Pieces struct {
	// Before and After are what stands around it.
	Before, After string
	Count         float64
	// Sure is set where the word says so by itself, beside a word for prices.
	Sure bool
}

// Pieces returns the words of a text that may say for how many pieces prices are: dozen, "Hundert", 打. Whether they do is said by
// the word beside.
func (v *Vocabulary) Pieces(text string) []Pieces {
	var all []Pieces
	v.eachPieces(text, func(e entry, before, after string) {
		if count := pieces[e.value]; count > 0 {
			all = append(all, Pieces{before, after, count, count == 2 && e.weight >= surely})
		}
	})
	return all
}

// IsPiece reports whether a text is a word for one piece and nothing else: "pc", "Stk".
func (v *Vocabulary) IsPiece(text string) bool {
	return slices.ContainsFunc(v.Pieces(text), func(p Pieces) bool { return p.Count == 1 && p.Before == "" && p.After == "" })
}

// Sets returns the words of a text for a set of clubs, "set", "Satz", "jeu", セット, which do not say their number.
func (v *Vocabulary) Sets(text string) []Pieces { return v.uncounted(aSet, text) }

// Packs returns the words of a text for a pack, "bag", "VE", "sachet", 袋, which do not say how many pieces are in it.
func (v *Vocabulary) Packs(text string) []Pieces { return v.uncounted(aPack, text) }

// Holds reports whether a word stands between one for a pack and the number of pieces in it: "of", "à", "com".
func (v *Vocabulary) Holds(word string) bool { return v.packing("holds", word) }

// IsPacked reports whether a word says of the number before it that so many pieces are packed together: "count", 入.
func (v *Vocabulary) IsPacked(word string) bool { return v.packing("behind", word) }

func (v *Vocabulary) packing(value, word string) bool {
	e, found := v.whole(classPacking, word)
	return found && e.value == value && !anotherShort(word, e.words)
}

func (v *Vocabulary) uncounted(word, text string) []Pieces {
	var all []Pieces
	v.eachPieces(text, func(e entry, before, after string) {
		if e.value == word {
			all = append(all, Pieces{Before: before, After: after, Sure: e.weight >= surely})
		}
	})
	return all
}

// NamesSet finds a word that means a set of clubs and nothing else.
func (v *Vocabulary) NamesSet(text string) (Hit, bool) {
	if !slices.ContainsFunc(v.Sets(text), func(p Pieces) bool { return p.Sure }) {
		return Hit{}, false
	}
	return Hit{Value: aSet, Score: 1}, true
}

// eachPieces calls a function with each word of a text for a number of pieces, and what stands around it.
func (v *Vocabulary) eachPieces(text string, f func(e entry, before, after string)) {
	var letters string
	var starts []int
	for _, s := range v.segmentsOf(classPieces, text) {
		if len(s.options) == 0 || s.options[0].weight < 0.9 { // slips of the pen are too many among words this short
			continue
		}
		if starts == nil {
			letters, starts = plainLetters(text)
		}
		for _, word := range []string{s.text, strings.ReplaceAll(s.text, " ", ""), strings.ReplaceAll(s.text, " ", "-"), strings.ReplaceAll(s.text, " ", "'"), strings.ReplaceAll(s.text, " ", "’")} {
			if at := wordAt(letters, word); at >= 0 {
				f(s.options[0], text[:starts[at]], text[starts[at+len(word)]:])
				break
			}
		}
	}
}

// wordAt returns where a word stands in a text, and not within a longer one where it is written in letters that make longer ones; −1 where it
// does not.
func wordAt(text, word string) int {
	inner := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= 'a' && text[i] <= 'z' }
	for from := 0; word != "" && from+len(word) <= len(text); {
		at := strings.Index(text[from:], word)
		if at < 0 {
			return -1
		}
		at += from
		end := at + len(word)
		if (!inner(at) || !inner(at-1)) && (!inner(end-1) || !inner(end)) {
			return at
		}
		from = at + 1
	}
	return -1
}

// plainLetters returns a text in small letters without their accents, and where in the text each byte of it comes from.
func plainLetters(text string) (plain string, starts []int) {
	var b strings.Builder
	for at, r := range text {
		letters := plainLetter(r)
		b.WriteString(letters)
		for len(starts) < b.Len() {
			starts = append(starts, at)
		}
	}
	return b.String(), append(starts, len(text))
}

// SpeaksOfPrices reports whether a title or note has a word for prices; "per dozen" alone may speak of a pack.
func (v *Vocabulary) SpeaksOfPrices(text string) bool { return v.speaksOf("price", text) }

// SpeaksOfStock reports whether a title or note has a word for what lies in stock.
func (v *Vocabulary) SpeaksOfStock(text string) bool { return v.speaksOf("stock", text) }

// SpeaksOfFit reports whether a text has a word for what heads and ferrules are fitted by: a bore, a hosel.
func (v *Vocabulary) SpeaksOfFit(text string) bool {
	return v.speaksOf("bore", text) || v.speaksOf("hosel", text)
}

func (v *Vocabulary) speaksOf(concept, text string) bool {
	subject := v.concepts[concept]
	for _, s := range v.segmentsOf(classConcept, text) {
		if slices.ContainsFunc(s.options, func(e entry) bool { return e.weight >= 0.7 && e.concepts.has(subject) }) && len(v.Pieces(s.text)) == 0 {
			return true
		}
	}
	return false
}

// IsHome reports whether a currency is that of a country where a language is spoken.
func (v *Vocabulary) IsHome(language, currency string) bool {
	return slices.Contains(v.Written(classHomeCurrency, language), currency)
}

// Currencies returns the currencies that a title or note names, by ISO 4217, each once.
func (v *Vocabulary) Currencies(text string) []string {
	var all []string
	for _, hit := range v.Units(text) {
		if IsCurrency(hit.Value) {
			all = append(all, hit.Value)
		}
	}
	return slices.DeleteFunc(slices.Clone(all), func(one string) bool { // "$ (CAD)"
		return slices.ContainsFunc(all, func(other string) bool { return MayMean(text, one, other) })
	})
}
