package layout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// Notes is what the free texts of a sheet or book say of its dimensions.
type Notes struct {
	// Unit is the unit that the free texts name, empty where none or several do; unitCell and unitText say where.
	Unit, UnitCell, UnitText string
	// Units are all units named.
	Units []string
	// Clauses are the pieces of the free texts that state a unit or a tolerance.
	Clauses []Clause
	// Supplier is whose sheet it is, by its own words.
	Supplier string
	// Prices are those that say something of all prices.
	Prices []PriceNote
	// Discounts are those that speak of a discount.
	Discounts []PriceNote
	// Flat are those that give one price for each piece.
	Flat []FlatNote
	// Tips are those that say for which tip the parts are, with the words that do.
	Tips []TipNote
	// OfClubs are those with numbers that name several kinds of club.
	OfClubs []SizeNote
	// OfTips are those with numbers that name several tips.
	OfTips []SizeNote
	// Blanks are the notes that say of blank cells that they mean what stands above.
	Blanks []Clause
	// Remarks are those that may say more of a part, by its number.
	Remarks map[string][]Remark
	// OfBlanks are all notes that speak of blank cells, whatever they say of them.
	OfBlanks []Clause
}

// TipNote is a free text that says for which tip the parts are.
type TipNote struct{ Tip, Text, Cell string }

// PriceNote is a free text that says in which currency prices are, or for how many pieces.
type PriceNote struct {
	lexicon.PriceTerms
	Text string
	Cell string
	// OfFerrules is set where the pieces are of ferrules, which no price of a head is for.
	OfFerrules bool
}

// FlatNote is a free text that gives one price for each piece.
type FlatNote struct {
	lexicon.FlatPrice
	Sentence string
	Place    sheet.Ref
}

// PricesOf returns the notes with what they say of the prices of a kind of part.
func (n Notes) PricesOf(kind catalog.Kind) Notes {
	prices := slices.Clone(n.Prices)
	for i, p := range prices {
		if p.OfFerrules && kind == catalog.Heads {
			prices[i].Per, prices[i].Lot = 0, lexicon.LotUnsaid
		}
	}
	n.Prices = prices
	return n
}

// PriceTerms is what the notes say together of all prices; what they say differently they do not say. For how many pieces prices are is said
// by those that speak of prices with it, where some do.
func (n Notes) PriceTerms() lexicon.PriceTerms {
	var all lexicon.PriceTerms
	plain := slices.ContainsFunc(n.Prices, func(p PriceNote) bool { return p.Per > 0 && !p.Alone })
	for _, p := range n.Prices {
		all.Currency = cmp.Or(all.Currency, p.Currency)
		if !p.Alone || !plain {
			all.Per, all.Lot = cmp.Or(all.Per, p.Per), max(all.Lot, p.Lot)
		}
		all.Doubtful = all.Doubtful || p.Doubtful
	}
	for _, p := range n.Prices {
		if p.Currency != "" && p.Currency != all.Currency {
			all.Currency = ""
		}
		if p.Per != 0 && p.Per != all.Per && !(p.Alone && plain) {
			all.Per = 0
		}
	}
	return all
}

// WherePrices names the first note that says one of the terms.
func (n Notes) WherePrices(terms lexicon.PriceTerms) string {
	if p := n.priceNote(terms); p != nil {
		return Describe(p.Text, p.Cell)
	}
	return ""
}

// CellOfPrices is the cell of that note.
func (n Notes) CellOfPrices(terms lexicon.PriceTerms) string {
	if p := n.priceNote(terms); p != nil {
		return p.Cell
	}
	return ""
}

func (n Notes) priceNote(terms lexicon.PriceTerms) *PriceNote {
	for i, p := range n.Prices {
		if terms.Currency != "" && p.Currency == terms.Currency || terms.Per > 0 && p.Per == terms.Per || terms.Lot.Bundles() && p.Lot == terms.Lot || terms.Doubtful && p.Doubtful {
			return &n.Prices[i]
		}
	}
	return nil
}

// Clause is a piece of a free text that states a unit or a tolerance, for all dimensions or for some.
type Clause struct {
	Text  string
	Place sheet.Ref
	// Mark is the footnote mark that it begins with, empty where there is none.
	Mark string
	// Said is the text with amounts in figures, see [lexicon.Lexicon.InFigures].
	Said  string
	Units []string
	// FirstRow and LastRow are the rows of the sheet with the table that it is about by the place where it stands; zeros where that is about all.
	FirstRow, LastRow int
	// tolerates is whether it may state a tolerance, nil where nobody asked: each table of a sheet asks for each of its clauses.
	tolerates *bool
}

// Tolerates reports whether the clause may state a tolerance.
func (c *Clause) Tolerates(lex *lexicon.Lexicon) bool {
	if c.tolerates == nil {
		c.tolerates = new(Tolerates(lex, c.Said))
	}
	return *c.tolerates
}

// part returns a part of the text as a clause of its own, or all of it, with what it states.
func (c Clause) part(lex *lexicon.Lexicon, text string) Clause {
	c.Text, c.tolerates = text, nil
	c.Said, c.Units = lex.Stated(text)
	return c
}

// WithoutNumbers returns the parts of the text between commas that have no numbers: what states a unit for sizes has none, "sizes in mm, bore ±0.05".
func (c *Clause) WithoutNumbers() string {
	parts := partsOf(c.Said)
	return strings.Join(slices.DeleteFunc(parts, lexicon.BearsNumber), ", ")
}

// partsOf divides a text at commas.
func partsOf(text string) []string {
	return betweenParts().Split(beforeWide().ReplaceAllString(text, ", $1"), -1)
}

// mostNotes is how many free texts of a sheet are read as notes: three quarters of them are the first, the others the last. What a list says of
// itself stands around it, and a sheet with more free texts is no list.
const mostNotes = 4000

// FirstAndLast returns the places of free texts that are read as notes.
func FirstAndLast(places []sheet.Ref) []sheet.Ref {
	if len(places) <= mostNotes {
		return places
	}
	return slices.Concat(places[:mostNotes*3/4], places[len(places)-mostNotes/4:])
}

// ReadNotes reads what the free texts of a sheet say of its dimensions.
func ReadNotes(lex *lexicon.Lexicon, g *grid.Grid, places []sheet.Ref) Notes {
	notes := Notes{Remarks: remarks(g, places)}
	var marked struct {
		sheet.Ref
		mark string
	}
	for _, place := range places {
		text := g.At(g.Place(place))
		if text == "" || len(text) > lexicon.LongestNote || lexicon.LooksNumeric(text) && !MayTolerate(text) {
			continue
		}
		text = WithoutColours(lex, text)
		if terms := lex.PriceTerms(text); terms != (lexicon.PriceTerms{}) {
			notes.Prices = append(notes.Prices, PriceNote{terms, text, place.String(), piecesOfFerrules(lex, text)})
		}
		if lexicon.BearsNumber(text) && lex.SeveralCategories(text) {
			notes.OfClubs = append(notes.OfClubs, SizeNote{text, place.String()})
		}
		if namesTips(text) {
			notes.OfTips = append(notes.OfTips, SizeNote{text, place.String()})
		}
		if lex.SpeaksOfDiscount(text) {
			notes.Discounts = append(notes.Discounts, PriceNote{Text: text, Cell: place.String()})
		}
		units := lex.UnitsStated(text)
		if len(units) > 1 {
			text = lex.WithoutException(text)
			units = lex.UnitsStated(text)
		}
		for _, c := range clausesOf(lex, text) {
			c.Place = place
			if c.Mark == "" && place.Row == marked.Row { // the rest of a footnote that was cut at a sign between cells
				c.Mark = marked.mark
			}
			marked.Ref, marked.mark = place, c.Mark
			notes.keep(lex, c)
			if tip := lex.TipForAll(c.Text); tip != "" {
				notes.Tips = append(notes.Tips, TipNote{tip, c.Text, place.String()})
			}
			if _, said := lex.Words.Blanks("", c.Text); said {
				notes.Blanks = append(notes.Blanks, c)
			}
			if _, said := lex.Words.OldStays(c.Text); said {
				notes.OfBlanks = append(notes.OfBlanks, c)
			}
		}
		for _, unit := range units {
			if slices.Contains(notes.Units, unit) {
				continue
			}
			notes.Units = append(notes.Units, unit)
			notes.Unit, notes.UnitCell, notes.UnitText = unit, place.String(), text
		}
	}
	if len(notes.Units) > 1 {
		notes.Unit = ""
	}
	return notes
}

// FlatNotes reads which free texts give one price for each piece.
func FlatNotes(lex *lexicon.Lexicon, g *grid.Grid, places []sheet.Ref) []FlatNote {
	var found []FlatNote
	for _, place := range places {
		text := g.At(g.Place(place))
		if len(text) > lexicon.LongestNote {
			continue
		}
		clauses := clausesOf(lex, text)
		for _, c := range clauses {
			flat, said := flatPriceIn(lex, c.Text)
			if !said {
				flat, said = lex.PiecePrice(c.Text)
				said = said && givesSizeOfAll(lex, clauses)
			}
			if said {
				found = append(found, FlatNote{flat, c.Text, place})
			}
		}
	}
	return found
}

// givesSizeOfAll reports whether one of some clauses gives a size of all parts, so that what the others say of a piece is said of each: "Bore is 9.3 mm for all.
// 55 JPY per piece."
func givesSizeOfAll(lex *lexicon.Lexicon, clauses []Clause) bool {
	return slices.ContainsFunc(clauses, func(c Clause) bool {
		rest, sized := withoutSize(lex, c.Text)
		return sized && lex.Words.SaysEvery(rest)
	})
}

// flatPriceIn returns the price of each piece that a clause gives, or one of its parts between commas and words such as "and". The others have no
// numbers, name packs, or give a size, and what they say beside the size is said of the price as well: "0.38 EUR for any size, bags of 50", "all
// items 25 mm long, 0.42 EUR per piece, in bags of 50", "S$0.55 per piece, all lengths 20 mm".
func flatPriceIn(lex *lexicon.Lexicon, clause string) (flat lexicon.FlatPrice, said bool) {
	if flat, said = lex.FlatPrice(clause); said {
		return flat, true
	}
	parts := saidTogether(lex, clause)
	if len(parts) < 2 {
		return flat, false
	}
	for i, part := range parts {
		beside, sized, explained := besideParts(lex, parts, i)
		if !explained {
			continue
		}
		one, is := lex.FlatPrice(strings.TrimSpace(beside + " " + part))
		if !is && sized && beside == "" {
			one, is = lex.PiecePrice(part) // of all, as the size beside it is
		}
		if !is {
			continue
		}
		if said {
			return lexicon.FlatPrice{}, false // of which one is not sure
		}
		flat, said = one, true
	}
	return flat, said
}

// saidTogether divides a clause at commas, at words that join what stands on both sides of them where both have numbers, "all 20 mm long and
// 0.55 each", and in Thai at the blanks that stand for commas.
func saidTogether(lex *lexicon.Lexicon, clause string) (parts []string) {
	for _, part := range partsOf(clause) {
		said := strings.Fields(part)
		for i := 0; i < len(said); i++ {
			if thaiBlank(said, i) && slices.ContainsFunc(said[:i], lexicon.BearsNumber) {
				parts, said, i = append(parts, strings.Join(said[:i], " ")), said[i:], 0
				continue
			}
			_, or := lex.Words.Mark(said[i], "or")
			_, and := lex.Words.Mark(said[i], "and")
			if (or || and) && slices.ContainsFunc(said[:i], lexicon.BearsNumber) && slices.ContainsFunc(said[i:], lexicon.BearsNumber) {
				parts, said, i = append(parts, strings.Join(said[:i], " ")), said[i+1:], -1
			}
		}
		parts = append(parts, strings.Join(said, " "))
	}
	return parts
}

// thaiBlank reports whether the blank before a word stands between two Thai ones, and so divides what they say.
func thaiBlank(said []string, i int) bool {
	isThai := func(r rune) bool { return unicode.Is(unicode.Thai, r) }
	return i > 0 && strings.ContainsFunc(said[i-1], isThai) && strings.IndexFunc(said[i], isThai) == 0
}

// besideParts returns what the parts of a clause other than one say beside the sizes that they give, and whether they give any. Explained is false
// where one of them has another number than that of a size or a pack.
func besideParts(lex *lexicon.Lexicon, parts []string, but int) (beside string, sized, explained bool) {
	for i, part := range parts {
		if i == but || !lexicon.BearsNumber(part) {
			continue
		}
		if count, packs := lex.PackIn(part); packs && count > 0 {
			continue
		}
		rest, size := withoutSize(lex, part)
		if !size {
			return "", false, false
		}
		beside, sized = strings.TrimSpace(beside+" "+rest), true
	}
	return beside, sized, true
}

// withoutSize is a text without the tips that it names and the one size in it, and without the name of that: one of both is there.
func withoutSize(lex *lexicon.Lexicon, text string) (rest string, sized bool) {
	if tips, saying := lex.TipsIn(text, true); len(tips) > 0 {
		if _, some := lex.Category(saying); some { // "woods .335"
			return text, false
		}
		if text = withoutSaying(text, saying); !lexicon.BearsNumber(text) {
			return text, true
		}
	}
	places := sizetext.Places(text, 2)
	if len(places) != 1 {
		return text, false
	}
	before, after := strings.TrimSpace(text[:places[0][0]]), strings.TrimSpace(text[places[0][1]:])
	reading := lex.Read(text[places[0][0]:places[0][1]], value.Context{Want: value.WantDiameter})
	if reading.Kind != value.Length || !reading.UnitStated {
		if said := spoken.Sizes(lex, text); len(said) == 1 {
			return strings.TrimSpace(strings.Replace(strings.Replace(text, said[0].Text, "", 1), said[0].Name, "", 1)), true
		}
		return text, false
	}
	if name := cmp.Or(nameWithin(lex, before), sizetext.NameAtEnd(lex, before)); name != "" {
		before = strings.TrimSuffix(before, name)
	}
	if name := sizetext.NameAtStart(lex, after); name != "" {
		after = strings.TrimPrefix(after, name)
	}
	before = strings.TrimSpace(before)
	if last := before[strings.LastIndexByte(before, ' ')+1:]; lex.Words.Holds(last) { // "all with 25 mm"
		before = strings.TrimSuffix(before, last)
	}
	return strings.TrimSpace(before) + " " + strings.TrimSpace(after), true
}

// withoutSaying is a text without some words of it, and without the bracket that they stand in where nothing else in it has a number.
func withoutSaying(text, saying string) string {
	before, after, _ := strings.Cut(text, saying)
	from, to := strings.LastIndexAny(before, "(（"), strings.IndexAny(after, ")）")
	if from >= 0 && to >= 0 && !lexicon.BearsNumber(before[from:]+after[:to]) {
		before, after = before[:from], strings.TrimLeft(after[to:], ")）")
	}
	return strings.TrimSpace(strings.TrimSpace(before) + " " + strings.TrimSpace(after))
}

// piecesOfFerrules reports whether the sentence of a text that says for how many pieces prices are speaks of ferrules. Where the word for
// prices stands in another sentence, the whole text has to.
func piecesOfFerrules(lex *lexicon.Lexicon, text string) bool {
	for _, sentence := range sentences(lex, text) {
		if lex.PriceTerms(sentence).Per > 1 {
			text = sentence
			break
		}
	}
	hit, found := lex.Ask("kind", text, lex.Words.Kind)
	return found && kindNamed(hit.Value) == catalog.Ferrules
}

// keep keeps a clause that states a unit or a tolerance, its parts between commas one by one where each names a unit: "All
// sizes in mm, bores in inches".
func (n *Notes) keep(lex *lexicon.Lexicon, c Clause) {
	if rule, otherwise, found := lex.CutException(c.Text); found {
		for _, text := range []string{rule, otherwise} {
			n.Clauses = append(n.Clauses, c.part(lex, text))
		}
		return
	}
	var parts []Clause
	for _, text := range partsOf(c.Text) {
		part := c.part(lex, text)
		if len(part.Units) == 0 {
			parts = nil
			break
		}
		parts = append(parts, part)
	}
	if len(parts) > 1 {
		n.Clauses = append(n.Clauses, parts...)
		return
	}
	c = c.part(lex, c.Text)
	if len(c.Units) > 0 || Tolerates(lex, c.Said) {
		n.Clauses = append(n.Clauses, c)
	}
}

const noteMarks = `[¹²³⁴-⁹]+⁾?|[①-⑳]|[(（](?:\*{1,3}|[†‡§※])\d?[)）]|(?:\*{1,3}|[†‡§※])(?:\d\b\)?)?|\((?:[1-9]|[a-e])\)|（[1-9]）`

var (
	// betweenParts are commas that do not stand between digits.
	betweenParts = pattern.Lazy(`, |、|，`)
	// beforeWide is a comma before a letter of writing without blanks, or with none behind commas.
	beforeWide = pattern.Lazy(`,([\p{Han}\p{Hiragana}\p{Katakana}\p{Hangul}\p{Thai}])`)
	// noteMark is a footnote mark: a raised or circled number, a star, a dagger or a sign of reference, with a number behind it or none, or a number or
	// letter in brackets.
	noteMark = pattern.Lazy(noteMarks)
	// leadingMark is one at the beginning of a text, where also the forms 1) and a) are in use.
	leadingMark = pattern.Lazy(`^(?:` + noteMarks + `|[1-9a-e]\))`)
	// betweenClauses are the signs between pieces of a note that speak of different things.
	betweenClauses = pattern.Lazy(`[;；。|]|\.\s|\s/\s`)
	// beginsTolerance is a deviation at the beginning of a text.
	beginsTolerance = pattern.Lazy(`^\s*(?:±|\+|-)\s*[.,]?\d|^\s*\+\s*/\s*-`)
	// endsDeviation is a deviation at the end of a text.
	endsDeviation = pattern.Lazy(`[+−-] ?[\d.,]+\s?\pL{0,4}$`)
	// endsShort is a number with a short word behind it at the end of a text, and beginsSmall a small letter at the beginning of one.
	endsShort, beginsSmall = pattern.Lazy(`\d\s?\pL{2,3}$`), pattern.Lazy(`^\s*[\p{Ll}\p{Thai}]`)
	// endsInitials are letters with points between them at the end of a text, but for the last point.
	endsInitials = pattern.Lazy(`(?:^|[^\pL])\pL\.\pL$`)
)

// clausesOf divides a note at its footnote marks and at signs between sentences; a piece goes by the mark before it.
func clausesOf(lex *lexicon.Lexicon, text string) []Clause {
	var clauses []Clause
	mark := ""
	for text != "" {
		text = strings.TrimSpace(text)
		if at, rest := CutMark(text); at != "" {
			mark, text = at, rest
			continue
		}
		end := len(text)
		if at := noteMark().FindStringIndex(text); at != nil && clauseBefore(text, at[0]) {
			end = at[0]
		}
		piece := text[:end]
		for _, one := range sentences(lex, piece) {
			if one = strings.TrimSpace(one); one != "" {
				clauses = append(clauses, Clause{Text: one, Mark: mark})
			}
		}
		text = text[end:]
	}
	return clauses
}

// sentences divides a text at the signs between pieces that speak of different things. A point before a tolerance is that of an
// abbreviation, "base dia. ±.002", and so is one behind a short word for what a number counts, before a small letter, "1.00 in. long", and one
// behind initials or before a word such as "and": "hosel O.D. and I.D. within ±0.05", "Ø ext. et Ø int.".
func sentences(lex *lexicon.Lexicon, text string) []string {
	var all []string
	from := 0
	for _, at := range betweenClauses().FindAllStringIndex(text, -1) {
		if text[at[0]] == '.' && (beginsTolerance().MatchString(text[at[1]:]) || abbreviates(lex, text[:at[0]], text[at[1]:])) {
			continue
		}
		if strings.TrimSpace(text[at[0]:at[1]]) == "/" && endsDeviation().MatchString(text[:at[0]]) && beginsTolerance().MatchString(text[at[1]:]) { // +0.05 / -0.02
			continue
		}
		if strings.TrimSpace(text[at[0]:at[1]]) == "/" && beginsPiece(lex, text[at[1]:]) { // 0,55 € / kpl
			continue
		}
		all = append(all, text[from:at[0]])
		from = at[1]
	}
	return append(all, text[from:])
}

// beginsPiece reports whether a text begins with a word for one piece.
func beginsPiece(lex *lexicon.Lexicon, text string) bool {
	word, _, _ := strings.Cut(text, " ")
	return lex.Words.IsPiece(strings.Trim(word, ".,"))
}

// abbreviates reports whether a point between two texts is that of an abbreviation.
func abbreviates(lex *lexicon.Lexicon, before, after string) bool {
	word, _, _ := strings.Cut(strings.TrimSpace(after), " ")
	switch first, _ := utf8.DecodeRuneInString(word); {
	case unicode.IsUpper(first): // no sentence begins with the sign for a diameter alone: "udv. Ø"
		if _, tax := lex.Words.StandsByPrice(strings.TrimRight(word, ".,;:)")); tax { // "zzgl. MwSt"
			return endsByPrice(lex, before)
		}
		return first > unicode.MaxASCII && utf8.RuneCountInString(word) == 1 && endsShortened(lex, before)
	case unicode.IsDigit(first): // "Rs. 42"
		return lex.Words.FlatPrice(before[strings.LastIndexAny(before, " (:")+1:]).Named
	}
	_, or := lex.Words.Mark(word, "or")
	_, and := lex.Words.Mark(word, "and")
	return or || and || beginsSmall().MatchString(after) &&
		(endsShort().MatchString(before) || endsInitials().MatchString(before) || endsShortened(lex, before) || endsByPrice(lex, before))
}

// endsShortened reports whether a text without numbers ends in a short word of headings, which a point behind it shortens: "udv." before "diam.".
func endsShortened(lex *lexicon.Lexicon, text string) bool {
	last := text[strings.LastIndexAny(text, " :.")+1:]
	return last != "" && utf8.RuneCountInString(last) <= longestShortened && !strings.ContainsAny(text, "0123456789") && lex.Words.IsHeadingWord(last)
}

// endsByPrice reports whether a text ends in a short word that stands beside prices, which a point behind it shortens: "pr." and "stk." before "ekskl. moms".
func endsByPrice(lex *lexicon.Lexicon, text string) bool {
	last := text[strings.LastIndexAny(text, " /:.(")+1:]
	stands, _ := lex.Words.StandsByPrice(last)
	return stands && utf8.RuneCountInString(last) <= longestShortened
}

// clauseBefore reports whether a mark within a note begins a new piece: after a space or a sign.
func clauseBefore(text string, at int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at])
	return at > 0 && strings.ContainsRune(" ;,.；，。、|", before)
}

// CutMark divides a text at the footnote mark that it begins with, which is empty where there is none.
func CutMark(text string) (mark, rest string) {
	mark = leadingMark().FindString(text)
	if rest := strings.TrimLeft(text[len(mark):], ".,"); rest != text[len(mark):] && rest != "" && unicode.IsDigit(rune(rest[0])) { // "*1.5 mm"
		mark = strings.TrimRight(mark, "0123456789")
	}
	return mark, strings.TrimSpace(text[len(mark):])
}

// withoutBrackets takes the brackets off a mark, of which a note may have others than a heading: "(*1)" and "*1)".
func withoutBrackets(mark string) string { return strings.Trim(mark, "()（）⁾") }

// Bears reports whether a heading or value carries a footnote mark.
func Bears(text, mark string) bool {
	switch bare := withoutBrackets(mark); {
	case !strings.Contains(text, bare):
		return false
	case bare != mark && (strings.Contains(text, mark) || strings.Contains(text, strings.TrimPrefix(mark, "("))): // 1) or (1): in brackets too
		return true
	}
	for _, found := range noteMark().FindAllString(text, -1) {
		if withoutBrackets(found) == withoutBrackets(mark) {
			return true
		}
	}
	return false
}

// MayTolerate reports whether a free text has a sign or a standard's number that a tolerance needs.
func MayTolerate(text string) bool {
	for _, sign := range []string{"±", "+/-", "+-", "2768", " IT", "+0", "+.", "/-", "土", "－"} {
		if strings.Contains(text, sign) {
			return true
		}
	}
	return false
}

// Tolerates reports whether a free text may state a tolerance: by a sign that only tolerances have, or as less than the size by a number with a
// minus before it, which is a dash in part numbers and between sizes where no word for tolerances stands beside it.
func Tolerates(lex *lexicon.Lexicon, text string) bool {
	return MayTolerate(text) || minusAlone().MatchString(text) && lex.Words.Mentions("tolerance", text)
}

// minusAlone is a small number with a minus of its own.
var minusAlone = pattern.Lazy(`(?:^|[\s(:])[-−–](?:0[.,]\d|[.,]0\d)`)

// Describe says where a general rule stands.
func Describe(text, cell string) string {
	if runes := []rune(text); len(runes) > 60 {
		text = string(runes[:60]) + "…"
	}
	return fmt.Sprintf("note %q in %s", text, cell)
}
