package layout

import (
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// A line of a card may say something before its label: "Black. In drawer: 46". What stands there is another on other cards, while the label stays;
// a label of several words, and one with a short form before it, "Best. Menge", is the same on all of them.

// leastSaid is how many different things stand before a label on cards where they are no part of it.
const leastSaid = 2

// betweenCardSayings stands between what a line of a card says first and the label behind that.
var betweenCardSayings = pattern.Lazy(`[.,;!] +|[，；。、]\s*| +[-–—/|·•] +`)

// apartFromLabels gives what stands before labels of cards an entry of its own, the description.
func apartFromLabels(lex *lexicon.Lexicon, all []card) {
	said := map[string]map[string]bool{} // by label, what stands before it
	twice := map[string]bool{}           // labels that a card has several times
	for _, c := range all {
		seen := map[string]bool{}
		for _, e := range c {
			before, label := saidBefore(lex, e.label)
			key := words.Fold(label)
			twice[key] = twice[key] || seen[key]
			seen[key] = true
			if before != "" {
				if said[key] == nil {
					said[key] = map[string]bool{}
				}
				said[key][words.Fold(before)] = true
			}
		}
	}
	for i, c := range all {
		var apart card
		for _, e := range c {
			before, label := saidBefore(lex, e.label)
			if key := words.Fold(label); before == "" || len(said[key]) < leastSaid || twice[key] {
				apart = append(apart, e)
				continue
			}
			role, _ := lex.RoleOfLabel(label)
			apart = append(apart, entry{label: label, value: e.value, at: e.at, valueAt: e.valueAt, role: role})
			apart = append(apart, entry{label: "description", value: before, at: e.at, valueAt: e.at, role: catalog.Description})
		}
		all[i] = apart
	}
}

// saidBefore cuts the text before a value into what it says first and the label, which is known and surer without that; before is empty where all of it
// is the label.
func saidBefore(lex *lexicon.Lexicon, text string) (before, label string) {
	places := betweenCardSayings().FindAllStringIndex(text, -1)
	if len(places) == 0 {
		return "", text
	}
	last := places[len(places)-1]
	head, tail := strings.TrimSpace(text[:last[0]]), strings.TrimSpace(text[last[1]:])
	role, score := lex.RoleOfLabel(tail)
	whole, wholly := lex.RoleOfLabel(text)
	if utf8.RuneCountInString(head) < leastLettersSaid || labelsSize(lex, head) || score < lexicon.Understood || wholly >= score-lexicon.AlikeSure || whole != role && wholly >= lexicon.Understood {
		return "", text
	}
	return head, tail
}

// leastLettersSaid is how many letters what is said before a label has at least; shorter ones are short forms.
const leastLettersSaid = 3
