package words

import (
	"slices"
	"strings"
)

// pieces are how many a word of prices is for.
var pieces = map[string]float64{"piece": 1, "dozen": 12, "hundred": 100, "thousand": 1000}

// Pieces is a word of a text that says for how many pieces a price may be.
type Pieces struct {
	Word  string // in small letters
	Count float64
}

// Pieces returns the words of a text that may say for how many pieces prices are: dozen, "Hundert", 打. Whether they do is said by
// the word beside.
func (v *Vocabulary) Pieces(text string) []Pieces {
	var all []Pieces
	for _, s := range v.segments(classPieces, tokensOf(text)) {
		if len(s.options) > 0 && s.options[0].weight >= 0.9 { // slips of the pen are too many among words this short
			all = append(all, Pieces{strings.ReplaceAll(s.text, " ", ""), pieces[s.options[0].value]})
		}
	}
	return all
}

// SpeaksOfPrices reports whether a title or note has a word for prices; "per dozen" alone may speak of a pack.
func (v *Vocabulary) SpeaksOfPrices(text string) bool {
	price := v.concepts["price"]
	for _, s := range v.segments(classConcept, tokensOf(text)) {
		if slices.ContainsFunc(s.options, func(e entry) bool { return e.weight >= 0.7 && e.concepts.has(price) }) && len(v.Pieces(s.text)) == 0 {
			return true
		}
	}
	return false
}

// Currencies returns the currencies that a title or note names, by ISO 4217, each once.
func (v *Vocabulary) Currencies(text string) []string {
	var all []string
	for _, hit := range v.Units(text) {
		if IsCurrency(hit.Value) {
			all = append(all, hit.Value)
		}
	}
	return all
}
