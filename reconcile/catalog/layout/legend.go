package layout

import (
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/internal/pattern"
)

// legendLetter is a letter of a drawing or a short form of capitals with the sign before the words that explain it: A = hosel OD, d1: bore,
// DI = diâmetro interno.
var legendLetter = pattern.Lazy(`(?:^|[\s\x{3000},;.、，；。:(（])([A-Za-zØ]\d?|\p{Lu}{2,4}\d?) ?[=:：＝]`)

// legendEntry is a letter with its words.
type legendEntry struct{ letter, words string }

// legendEntries returns the letters that a text explains; the words of each go on to the next sign or letter.
func legendEntries(text string) []legendEntry {
	if countSigns(text, "=:：＝") < leastLegend {
		return nil // a legend of one letter is none
	}
	var entries []legendEntry
	places := legendLetter().FindAllStringSubmatchIndex(text, -1)
	for i, place := range places {
		end := len(text)
		if i+1 < len(places) {
			end = places[i+1][0]
		}
		words := text[place[1]:end]
		if stop := strings.IndexAny(words, ",;.、，；。()（）"); stop >= 0 {
			words = words[:stop]
		}
		if words = strings.TrimSpace(words); words != "" && !strings.ContainsAny(words, "0123456789") {
			entries = append(entries, legendEntry{text[place[2]:place[3]], words})
		}
	}
	return entries
}

// countSigns counts the signs of a text that are one of several.
func countSigns(text, signs string) int {
	count := 0
	for at := strings.IndexAny(text, signs); at >= 0; at = strings.IndexAny(text, signs) {
		count++
		_, size := utf8.DecodeRuneInString(text[at:])
		text = text[at+size:]
	}
	return count
}

// leastLegend is how many letters a legend explains at least, and how many of them head columns.
const leastLegend = 2

// ExplainLetters writes the words of a legend beside the letters and short forms that stand alone as headings, so that "A" reads as
// "hosel OD [A]".
// Letters that two legends explain differently stay as they are, and so do those in any line but the first that has several.
func ExplainLetters(g *grid.Grid, lex *lexicon.Lexicon) {
	if legend, sizes := legendOf(g, lex); sizes >= leastLegend {
		g.Explain(legend, leastLegend)
	}
}

// legendOf returns what the letters of a sheet's legend stand for, and how many of them for sizes: a legend of none is about something else.
func legendOf(g *grid.Grid, lex *lexicon.Lexicon) (legend map[string]string, sizes int) {
	legend = map[string]string{}
	for text := range g.Texts() {
		if len(text) > lexicon.LongestNote {
			continue
		}
		entries := legendEntries(text)
		if len(entries) < leastLegend {
			continue
		}
		for _, entry := range entries {
			letter, words := entry.letter, entry.words
			found := lex.Match(words)
			switch {
			case len(found) == 0 || found[0].Score < lexicon.HeadingScore || legend[letter] == words:
			case legend[letter] != "":
				return nil, 0
			default:
				legend[letter] = words
				if traits.Of[catalog.Role(found[0].Role)].Want == traits.Length {
					sizes++
				}
			}
		}
	}
	return legend, sizes
}
