package layout

import (
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	lengths "example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/words"
)

// A note may give the bores by the tips that they are for: "Bored .366 for .370 tips, .350 for .355 tips", ".370: hole 9.3; .355: hole 8.9".

// TipBore is the bore that a note gives to the parts for a tip.
type TipBore struct {
	Tip lengths.Length
	// Text is the bore as it stands there.
	Text string
	Bore lengths.Dim
}

// Bores by tips come in pairs of numbers, of which a sentence has so many.
const fewestTipBores, mostTipBores = 2, 6

// namesTips reports whether a text names several tips and has as many numbers more.
func namesTips(text string) bool {
	if !strings.Contains(text, "3") && !strings.Contains(text, "9") { // .370, 9.4
		return false
	}
	tips := 0
	places := sizetext.Places(text, 4*mostTipBores)
	for _, at := range places {
		if size, err := fitcalc.ParseTipSize(text[at[0]:at[1]]); err == nil {
			if _, standard := fitcalc.TipNamed(size.Diameter); standard {
				tips++
			}
		}
	}
	return tips >= fewestTipBores && len(places) >= 2*fewestTipBores
}

// TipBores returns the bores that a sentence of a text gives by tips, to parts of a kind whose bare bores are in a unit; nil where it gives none.
func TipBores(lex *lexicon.Lexicon, kind catalog.Kind, text, unit string) []TipBore {
	if len(text) > lexicon.LongestNote || strings.ContainsAny(text, "?？±") {
		return nil
	}
	for _, c := range clausesOf(lex, text) {
		if all := tipBoresIn(lex, kind, c.Text, unit); all != nil {
			return all
		}
	}
	return nil
}

// tipBoresIn reads one sentence. In all pairs the tip stands on the same side; where both sides may be the tips, nothing tells which are.
func tipBoresIn(lex *lexicon.Lexicon, kind catalog.Kind, text, unit string) []TipBore {
	places := sizetext.Places(text, 2*mostTipBores+1)
	if len(places) < 2*fewestTipBores || len(places) > 2*mostTipBores || len(places)%2 > 0 || !namesBore(lex, kind, text, places) {
		return nil
	}
	behind, ahead := tipPairs(lex, kind, text, places, 1, unit), tipPairs(lex, kind, text, places, 0, unit)
	switch {
	case behind != nil && ahead != nil:
		return nil
	case behind != nil:
		return behind
	}
	return ahead
}

// namesBore reports whether a piece of text about numbers names the bore.
func namesBore(lex *lexicon.Lexicon, kind catalog.Kind, text string, places [][]int) bool {
	from := 0
	for _, at := range append(slices.Clone(places), []int{len(text), len(text)}) {
		piece := text[from:at[0]]
		for _, name := range []string{strings.Trim(piece, sizetext.AroundNames), sizetext.NameAtEnd(lex, piece), sizetext.NameAtStart(lex, piece)} {
			if slices.ContainsFunc(lex.MatchIn(kind, name), namesTheBore) {
				return true
			}
		}
		from = at[1]
	}
	return false
}

func namesTheBore(m words.RoleMatch) bool {
	return m.Score >= lexicon.HeadingScore && catalog.Role(m.Role) == catalog.Bore
}

// tipPairs reads the numbers of a sentence in pairs of which one is a tip, each another, and the other a bore: the first where tip is 0, the second where
// it is 1. It returns nil where one is not.
func tipPairs(lex *lexicon.Lexicon, kind catalog.Kind, text string, places [][]int, tip int, unit string) (all []TipBore) {
	for i := 0; i < len(places); i += 2 {
		named, bore := places[i+tip], places[i+1-tip]
		size, err := fitcalc.ParseTipSize(text[named[0]:named[1]])
		if _, standard := fitcalc.TipNamed(size.Diameter); err != nil || !standard {
			return nil
		}
		reading, possible := ReadDescribed(lex, kind, catalog.Bore, text[bore[0]:bore[1]], unit)
		last, _ := utf8.DecodeLastRuneInString(text[:bore[0]])
		if !possible || strings.ContainsRune("+-−", last) || !lexicon.StandsFree(text, bore[0], bore[1]) ||
			slices.ContainsFunc(all, func(other TipBore) bool { return other.Tip == size.Diameter }) {
			return nil
		}
		all = append(all, TipBore{Tip: size.Diameter, Text: text[bore[0]:bore[1]], Bore: reading.Dim})
	}
	return all
}
