package columns

import (
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/words"
)

// Notes may say which of several columns of money a buyer pays: "Clubmakers with an account pay Trade", "Nos clients ateliers règlent la colonne HT". What is for
// a time or a place only, "Special is for the fair", is not what everybody pays.

// mostPaidNotes is how many lines below a table are looked at for such notes.
const mostPaidNotes = 12

// paidNotes returns the texts around the table that may say so.
func (t *Table) paidNotes() []string {
	texts := slices.Clone(t.TextTitles())
	for line := t.Region.To; line > max(t.Region.Body, t.Region.To-mostPaidNotes); line-- {
		texts = append(texts, t.FirstTextOf(line))
	}
	return slices.DeleteFunc(texts, func(text string) bool {
		return strings.Count(text, " ") < 2 && !strings.ContainsFunc(text, lexicon.IsWide) || len(text) > lexicon.LongestNote
	})
}

// tellByNotes returns the one column that notes say a buyer pays, with the note, −1 where none or several are said to be. Columns that a note says are for a
// time or a place only are marked.
func (t *Table) tellByNotes(prices []money) (best int, note string) {
	if len(prices) < 2 {
		return -1, ""
	}
	names := distinctNames(prices)
	language := languageOf(t.Columns, catalog.UnknownKind)
	var paid, meant []int
	said := map[int]string{}
	for _, text := range t.paidNotes() {
		for _, sentence := range strings.FieldsFunc(strings.ReplaceAll(text, ". ", "\n"), func(r rune) bool { return strings.ContainsRune("\n;；。", r) }) {
			limited := t.Lex.Words.Payment(language, sentence).Limited || strings.ContainsAny(sentence, "%％")
			for _, clause := range strings.FieldsFunc(sentence, func(r rune) bool { return strings.ContainsRune(",:，、：()（）", r) }) {
				p := t.Lex.Words.Payment(language, clause)
				named := namedIn(p.Behind, names)
				if len(named) != 1 {
					named = namedIn(clause, names)
				}
				if len(named) != 1 {
					continue
				}
				at := named[0]
				p.Payer = t.Lex.Words.Payment(language, without(clause, names[at])).Payer
				switch {
				case limited:
					prices[at].limited = prices[at].limited || prices[at].Offer && slices.Contains(namedIn(firstWords(clause), names), at)
				case p.Payer < words.Anyone:
				case p.Pays:
					paid, said[at] = append(paid, at), text
				case p.Payer == words.Trade && prices[at].Payer >= words.Anyone: // but "heads, retail and wholesale" is no note on "Retail"
					meant, said[at] = append(meant, at), text
				}
			}
		}
	}
	for _, those := range [][]int{paid, meant} {
		if len(those) > 0 && !slices.ContainsFunc(those, func(at int) bool { return at != those[0] }) {
			return those[0], said[those[0]]
		}
		if len(those) > 0 {
			break
		}
	}
	return -1, ""
}

// nameWords are the words of a text, with the signs of currencies.
func nameWords(text string) []string {
	return strings.FieldsFunc(words.Fold(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.Is(unicode.Sc, r) })
}

// distinctNames returns of the heading of each column the words that no other has.
func distinctNames(prices []money) [][]string {
	names := make([][]string, len(prices))
	for i, m := range prices {
		for _, word := range nameWords(m.Text) {
			elsewhere := slices.ContainsFunc(prices, func(other money) bool {
				return other.Column != m.Column && slices.Contains(nameWords(other.Text), word)
			})
			if !elsewhere && strings.ContainsFunc(word, func(r rune) bool { return !unicode.IsDigit(r) }) {
				names[i] = append(names[i], word)
			}
		}
		if phrase := strings.Join(nameWords(m.Text), " "); len(names[i]) == 0 && strings.Contains(phrase, " ") { // "Preis 2" beside "Preis 1"
			names[i] = append(names[i], phrase)
		}
	}
	return names
}

// namedIn returns the columns that a text names.
func namedIn(text string, names [][]string) (named []int) {
	list := nameWords(text)
	for i, name := range names {
		if slices.ContainsFunc(name, func(word string) bool {
			return slices.Contains(list, word) || strings.Contains(word, " ") && strings.Contains(" "+strings.Join(list, " ")+" ", " "+word+" ") || strings.ContainsFunc(word, lexicon.IsWide) && strings.Contains(text, word)
		}) {
			named = append(named, i)
		}
	}
	return named
}

// firstWords returns the words of a clause of which one has to name a column for the clause to be about it, "The Special is for the fair": farther on it may
// be another word, "Hills Club, closeout heads, no returns".
func firstWords(clause string) string {
	list := strings.Fields(clause)
	if len(list) < 2 {
		return clause
	}
	return strings.Join(list[:2], " ")
}

// without returns a text without the words of a name.
func without(text string, name []string) string {
	list := slices.DeleteFunc(nameWords(text), func(word string) bool { return slices.Contains(name, word) })
	rest := strings.Join(list, " ")
	for _, word := range name {
		if strings.ContainsFunc(word, lexicon.IsWide) {
			rest = strings.ReplaceAll(rest, word, " ")
		}
	}
	return rest
}
