package layout

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/sheet"
)

// Letters say once what all parts have: "every one of them is bored 9.5 mm", above the lines of the parts or below them.

// OfAll is a sentence of a letter, beside what it says of single parts, with sizes and a word by which they are those of all parts.
type OfAll struct {
	Text string
	At   sheet.Ref
	// Below is set where it stands below the first part.
	Below bool
}

// SaidOfAll returns the sentences of a letter that say something of all its parts; none for other tables.
func (r *Region) SaidOfAll(lex *lexicon.Lexicon) (all []OfAll) {
	if !r.letter {
		return nil
	}
	for line := r.From; line <= min(r.To, r.Drawn.Lines); line++ {
		for i, id := range r.Drawn.Row(line, 1, r.Drawn.Width) {
			text := r.Drawn.Text(id)
			at := r.Drawn.Ref(line, i+1)
			if text == "" || len(text) > lexicon.LongestNote || r.Grid.Takes(at) {
				continue
			}
			for _, one := range sentences(lex, text) {
				if lex.Words.SpeaksOfEvery(one) && len(sizesSaidOfAll(lex, one)) > 0 {
					all = append(all, OfAll{one, at, line > r.Body})
				}
			}
		}
	}
	return all
}

// sizesSaidOfAll returns the numbers of a sentence that can be sizes, by their decimals or units.
func sizesSaidOfAll(lex *lexicon.Lexicon, text string) (all []string) {
	text = spoken.WithoutAmounts(lex, text)
	for _, at := range sizetext.Places(text, 2*spoken.MostNumbers) {
		number := text[at[0]:at[1]]
		if lexicon.StandsFree(text, at[0], at[1]) && (sizetext.HasUnit(number) || strings.ContainsAny(number, sizetext.DecimalMarks) && mayBeSize(lex, number)) {
			all = append(all, number)
		}
	}
	return all
}

// NotUnderstood returns the sizes of the sentence of which it is not known what they are of parts of a kind.
func (o OfAll) NotUnderstood(lex *lexicon.Lexicon, kind catalog.Kind) []string {
	sizes := TitledSizes(lex, kind, o.Text)
	_, tips := lex.TipsIn(o.Text, true)
	if o.Below && lex.TipForAll(o.Text) == "" {
		tips = ""
	}
	return slices.DeleteFunc(sizesSaidOfAll(lex, o.Text), func(number string) bool {
		return strings.Contains(tips, number) || slices.ContainsFunc(sizes, func(t Titled) bool { return strings.Contains(t.Text, number) })
	})
}
