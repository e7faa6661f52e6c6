package lexicon

import (
	"iter"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// manyPieces is a number of pieces for which a price is quoted.
var manyPieces = value.ManyPieces

// Lot is what a price is for.
type Lot uint8

const (
	// LotUnsaid is not said; one piece is meant as a rule.
	LotUnsaid Lot = iota
	// OfPieces is so many pieces, or one.
	OfPieces
	// OfSet is a set of clubs.
	OfSet
	// OfPack is a bag or box of pieces.
	OfPack
)

// String names it.
func (l Lot) String() string { return [...]string{"", "piece", "set", "pack"}[l] }

// Bundles reports whether how many pieces it is does not follow from the word for it.
func (l Lot) Bundles() bool { return l == OfSet || l == OfPack }

// PriceTerms is what a title or note says of all prices of a sheet.
type PriceTerms struct {
	// Currency is the one that it names, by ISO 4217, empty where it names none or several.
	Currency string
	// Per is for how many pieces they are, zero where it does not say.
	Per float64
	// Lot is what they are for: sets or packs, of as many as Per says, or pieces.
	Lot Lot
	// Alone is set where nothing around the number of pieces speaks of prices: "the overall length of the part".
	Alone bool
	// Doubtful is set where it speaks of a number of pieces beside prices, and it is not sure that they are for so many.
	Doubtful bool
}

// PriceTerms reads a title or note.
func (l *Lexicon) PriceTerms(text string) PriceTerms {
	if len(text) > LongestNote {
		return PriceTerms{}
	}
	var terms PriceTerms
	q := l.quoteIn(text, ofNote)
	terms.Per, terms.Lot, terms.Doubtful, terms.Alone = q.per, q.lot, q.doubtful, q.strength == sayAlone
	if !l.Words.SpeaksOfPrices(text) {
		if terms.Lot != LotUnsaid && strings.ContainsAny(text, "/／") { // 元/袋
			terms.Currency = l.currencyBefore(text)
		}
		return terms
	}
	if named := l.Words.Currencies(text); len(named) == 1 {
		terms.Currency = named[0]
	} else if len(named) == 0 && terms.Per > 0 {
		terms.Currency = l.currencyBefore(text)
	}
	return terms
}

// narrowDigits is a text with its full-width digits as any others.
func narrowDigits(text string) string {
	return strings.Map(func(r rune) rune {
		if r >= '０' && r <= '９' {
			return r - '０' + '0'
		}
		return r
	}, text)
}

// currencyBefore is the currency before a slash, in words too short to be sought in prose: "원/다스".
func (l *Lexicon) currencyBefore(text string) string {
	before, _, _ := strings.Cut(strings.ReplaceAll(text, "／", "/"), "/")
	written := strings.FieldsFunc(before, func(r rune) bool { return strings.ContainsRune(" :：(（", r) })
	if len(written) == 0 {
		return ""
	}
	if hit, known := l.Words.Unit(written[len(written)-1]); known && words.IsCurrency(hit.Value) {
		return hit.Value
	}
	return ""
}

// PricePer returns for how many pieces a heading of prices says that they are, 1 where it says nothing: "Price per 100", "les 100",
// "€/1.000", "100個あたり", "per dozen". They may be for a set of clubs or a pack of pieces, of as many as are returned, 1 where that is not said: "set price",
// "le jeu de 8", "Satzpreis", "€/VE", "Prix HT le sachet".
func (l *Lexicon) PricePer(heading string) (per float64, lot Lot) {
	per, lot, _ = l.PricePerOrDoubt(heading)
	return per, lot
}

// PricePerOrDoubt is PricePer; doubtful is set where the heading names a number of pieces, and it is not sure that the prices are for so many.
func (l *Lexicon) PricePerOrDoubt(heading string) (per float64, lot Lot, doubtful bool) {
	if len(heading) > LongestHeading {
		return 1, LotUnsaid, false
	}
	q := l.quoteIn(heading, ofHeading)
	if q.lot.Bundles() && l.onlyPrice(heading) {
		return 1, LotUnsaid, false
	}
	return max(1, q.per), q.lot, q.doubtful
}

// onlyPrice reports whether the one word of a heading, beside a currency, is one for prices, whatever it is in another language: "Ask ($)" is no
// Swedish box.
func (l *Lexicon) onlyPrice(heading string) bool {
	word := ""
	for _, w := range strings.FieldsFunc(heading, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) }) {
		if l.NamesCurrency(w) {
			continue
		}
		if word != "" {
			return false
		}
		word = w
	}
	return word != "" && !strings.ContainsFunc(word, IsWide) && l.Words.Means(string(catalog.Price), word)
}

// PricePerOf is [Lexicon.PricePer] for the cell of a price.
func (l *Lexicon) PricePerOf(cell string) (per float64, lot Lot) {
	_, rest, found := l.SplitAmount(cell)
	if !found {
		return 1, LotUnsaid
	}
	q := l.quoteIn(rest, ofCell)
	return max(1, q.per), q.lot
}

// PriceBeside returns the amount of a cell in which numbers of pieces stand beside it, and words that say what these are: "10 for $4.80", "4.80 each (min. 20)".
// It is not sure of an amount beside a number that it cannot explain.
func (l *Lexicon) PriceBeside(cell string) (amount string, found bool) {
	amount, rest, found := l.SplitAmount(cell)
	if !found || strings.TrimSpace(rest) == "" {
		return "", false
	}
	q := l.quoteIn(rest, ofCell)
	return amount, !q.doubtful && !q.unexplained
}

// anyAmount is a number that may be an amount of money, and fineAmount one with two decimals.
var anyAmount, fineAmount = pattern.Lazy(`\d{1,3}(?: \d{3})+(?:[.,]\d{1,2})?|[.,]?\d+(?:[.,’':]\d+)*`), pattern.Lazy(`^\d*[.,]\d{2}$`)

// SplitAmount takes the amount of money out of the cell of a price: the only number beside a currency, the only one with two decimals, or the only one.
func (l *Lexicon) SplitAmount(cell string) (amount, rest string, found bool) {
	all := anyAmount().FindAllStringIndex(cell, -1)
	for _, is := range []func(at []int) bool{
		func(at []int) bool { return l.besideCurrency(cell[:at[0]], cell[at[1]:]) },
		func(at []int) bool { return fineAmount().MatchString(cell[at[0]:at[1]]) },
		func([]int) bool { return true },
	} {
		if those := slices.DeleteFunc(slices.Clone(all), func(at []int) bool { return !is(at) }); len(those) > 0 {
			if at := those[0]; len(those) == 1 {
				rest = cell[at[1]:]
				if word := leadingLetters(strings.TrimLeft(rest, " ")); word != "" && l.Words.Cents(word) {
					rest = strings.TrimLeft(rest, " ")[len(word):]
				}
				return cell[at[0]:at[1]], cell[:at[0]] + " " + rest, true
			}
			return "", "", false
		}
	}
	return "", "", false
}

// besideCurrency reports whether one of two texts ends, or the other begins, with a currency.
func (l *Lexicon) besideCurrency(before, after string) bool {
	before, after = strings.TrimRight(before, " "), strings.TrimLeft(after, " ")
	last, _ := utf8.DecodeLastRuneInString(before)
	first, size := utf8.DecodeRuneInString(after)
	switch {
	case unicode.Is(unicode.Sc, last), unicode.Is(unicode.Sc, first), IsWide(first) && l.NamesCurrency(after[:size]):
		return true
	}
	return l.NamesCurrency(before[strings.LastIndexFunc(strings.TrimRight(before, "."), func(r rune) bool { return !unicode.IsLetter(r) })+1:]) || l.NamesCurrency(leadingLetters(after))
}

// NamesCurrency reports whether a word is that of a currency.
func (l *Lexicon) NamesCurrency(word string) bool {
	hit, known := l.Ask("unit", strings.TrimRight(word, "."), l.Words.Unit)
	return word != "" && known && words.IsCurrency(hit.Value)
}

var wholeNumber = pattern.Lazy(`\d+`)

// SpeaksOfPrice reports whether a heading speaks of a price or of what one is for: "each", "per 10", "incl. VAT".
func (l *Lexicon) SpeaksOfPrice(heading string) bool {
	if per, lot := l.PricePer(heading); per > 1 || lot != LotUnsaid {
		return true
	}
	found := l.Match(heading)
	return len(found) > 0 && catalog.Role(found[0].Role) == catalog.Price || l.Words.Paid("", heading).Alone
}

// OnlyPer reports whether a heading says for how many pieces its prices are and nothing else but a currency: "Per 100", "Kr/100 st."
func (l *Lexicon) OnlyPer(heading string) bool {
	if len(heading) > LongestHeading || !strings.ContainsAny(narrowDigits(heading), anyDigit) {
		return false
	}
	r := quoteReader{of: ofHeading, tokens: l.quoteTokens(heading)}
	if slices.ContainsFunc(r.tokens, func(t token) bool {
		return t.isWord() && !l.NamesCurrency(t.Text) && !l.NamesCurrency(strings.ToUpper(t.Text))
	}) {
		return false
	}
	q := l.quoteIn(heading, ofHeading)
	return q.lot == OfPieces && q.per > 1 && q.strength == sayPer && !slices.ContainsFunc(r.tokens, func(t token) bool { return t.is(words.QuotePrice) && len(l.Match(t.Text)) > 0 })
}

// CountsPacks reports whether a heading is that of a column which counts packs, by their name in brackets: "Qty (bags)", "Menge (Beutel)", 数量（袋）.
func (l *Lexicon) CountsPacks(heading string) bool {
	before, inside, found := CutBrackets(heading)
	if !found || len(heading) > LongestHeading || !l.Words.Means("count", before) {
		return false
	}
	return l.NamesPack(inside)
}

// NamesPack reports whether a text names a pack, and says nothing else: "Bags".
func (l *Lexicon) NamesPack(text string) bool {
	return slices.ContainsFunc(l.Words.Packs(text), func(p words.Pieces) bool { return p.Before == "" && p.After == "" })
}

// Sells returns what a cell says that is sold: packs, "bolsa 25", or single pieces, "each"; [LotUnsaid] for any other.
func (l *Lexicon) Sells(cell string) Lot {
	switch {
	case cell == "" || len(cell) > LongestHeading:
	case l.isPackCode(cell):
		return OfPack
	case slices.ContainsFunc(l.Words.Packs(cell), func(p words.Pieces) bool { return p.Before == "" }):
		return OfPack
	case !BearsDigits(cell) && slices.ContainsFunc(l.Words.Pieces(cell), func(p words.Pieces) bool { return p.Count == 1 && p.Before == "" }):
		return OfPieces
	}
	return LotUnsaid
}

// isPackCode reports whether a cell is the code of a packaging as business software writes it: BX.
func (l *Lexicon) isPackCode(cell string) bool {
	_, is := l.Words.Mark(cell, "pack_code")
	return is
}

// NumbersPacks reports whether a heading may be that of a column which counts packs where another one says how many pieces are in one: "Bags", "Nb
// sachets", "No. of bags", 袋数.
func (l *Lexicon) NumbersPacks(heading string) bool {
	if len(heading) > LongestHeading {
		return false
	}
	return l.CountsPacks(heading) || slices.ContainsFunc(l.Words.Packs(heading), func(p words.Pieces) bool {
		before, after := strings.Trim(p.Before, " .:"), strings.Trim(p.After, " .:")
		return (before == "" || l.Words.Means("count", before) || l.Words.Means("number", before)) && (after == "" || l.Words.Means("count", after)) && (before == "" || after == "")
	})
}

// PerPack reports whether a heading says with a word or a sign that it is of what is in one pack: "Pièces par sachet", "Stück je Beutel", "pcs/bag",
// 袋入数.
func (l *Lexicon) PerPack(heading string) bool {
	if len(heading) > LongestHeading {
		return false
	}
	return slices.ContainsFunc(l.Words.Packs(heading), func(p words.Pieces) bool {
		before := strings.TrimRight(p.Before, " ")
		if strings.HasSuffix(before, "/") {
			return true
		}
		last := before[strings.LastIndexFunc(before, func(r rune) bool { return !unicode.IsLetter(r) })+1:]
		switch {
		case last == "":
			after := strings.Trim(p.After, " .:")
			return before == "" && after != "" && !l.Words.Means("count", after)
		}
		return l.isPer(last) || l.Words.Holds(last)
	})
}

// HeadsPieces reports whether a heading is that of a column that says for how many pieces the prices beside it are: "Per", "Preiseinheit".
func (l *Lexicon) HeadsPieces(heading string) bool {
	if heading == "" || len(heading) > LongestHeading {
		return false
	}
	if before, inside, found := CutBrackets(heading); found && (l.HeadsPieces(before) || l.HeadsPieces(inside)) {
		return true
	}
	_, found := l.Words.Mark(heading, "price_pieces")
	return found || l.isPer(heading)
}

// PiecesOf returns the number of pieces for which prices may be that a cell gives, zero where it gives none.
func PiecesOf(text string) float64 {
	if text == "1" {
		return 1
	}
	if at := manyPieces().FindStringIndex(text); at == nil || at[0] > 0 || at[1] < len(text) || !IsDigits(text) {
		return 0
	}
	n, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0
	}
	return n
}

// PiecesNamed returns the number of pieces that a cell names, and nothing else: 12 for 12, "DZ" and "per 12", 1 for "ea", zero for any other.
func (l *Lexicon) PiecesNamed(text string) float64 {
	if n := PiecesOf(text); n > 0 || text == "" || len(text) > LongestHeading {
		return n
	}
	for _, p := range l.Words.Pieces(text) {
		before := strings.Trim(p.Before, " /.")
		if strings.Trim(p.After, " .") != "" {
			continue
		}
		switch n := PiecesOf(before); {
		case before == "" || l.isPer(before):
			return p.Count
		case n > 0 && p.Count == 1:
			return n
		}
	}
	if at := l.perAtEnd(strings.TrimRight(text, "0123456789")); at > 0 {
		return PiecesOf(strings.TrimLeftFunc(text, func(r rune) bool { return !unicode.IsDigit(r) }))
	}
	return 0
}

// NamesPieces reports whether cells say in words for how many pieces something is, and that differs: one says a dozen or more, most name some number.
func (l *Lexicon) NamesPieces(texts []string) bool {
	named, many := 0, false
	for _, text := range texts {
		if n := l.PiecesNamed(text); n > 0 {
			named++
			many = many || n > 1 && !IsDigits(text)
		}
	}
	return many && named*2 > len(texts)
}

// SaysPiece reports whether a text about prices says that they are for one piece, or for one head. A number of pieces does not: "set of 8 pcs".
func (l *Lexicon) SaysPiece(text string) bool {
	return l.saysPerHead(text) || slices.ContainsFunc(l.Words.Pieces(text), func(p words.Pieces) bool {
		last, _ := utf8.DecodeLastRuneInString(strings.TrimRight(p.Before, " "))
		return p.Count == 1 && !unicode.IsDigit(last)
	})
}

// saysPerHead reports whether a word for heads stands right behind one for per: "EP je Kopf". One for what prices are quoted by will not do: "for
// heads, per set".
func (l *Lexicon) saysPerHead(text string) bool {
	words := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })
	for i := range max(len(words)-1, 0) {
		if _, per := l.Words.Mark(words[i], "per"); per && l.Words.Means("head", words[i+1]) {
			return true
		}
	}
	return false
}

// piecesIn returns for how many pieces a text says that prices are, zero where it does not say, or says different things.
func (l *Lexicon) piecesIn(text string) float64 {
	said := 0.0
	for count := range l.allPiecesIn(text) {
		switch {
		case said > 1 && count > 1 && count != said:
			return 0
		case count > said: // "100個あたり" has the word for a piece too
			said = count
		}
	}
	return said
}

func (l *Lexicon) allPiecesIn(text string) iter.Seq[float64] {
	return func(yield func(float64) bool) {
		for _, at := range manyPieces().FindAllStringIndex(text, -1) {
			before, after := text[:at[0]], text[at[1]:]
			if !standsAlone(before, after) || !l.saysPer(before, after) {
				continue
			}
			if n, err := strconv.ParseFloat(onlyDigits(text[at[0]:at[1]]), 64); err == nil && !yield(n) {
				return
			}
		}
		for _, p := range l.Words.Pieces(text) {
			if (p.Sure || l.saysPer(p.Before, p.After)) && !yield(p.Count) {
				return
			}
		}
	}
}

func onlyDigits(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return r
		}
		return -1
	}, text)
}

// standsAlone reports whether a number between two texts is no part of a longer one.
func standsAlone(before, after string) bool {
	last, _ := utf8.DecodeLastRuneInString(before)
	next, size := utf8.DecodeRuneInString(after)
	if unicode.IsDigit(last) || strings.ContainsRune(".,-–", last) || unicode.IsDigit(next) || strings.ContainsRune("+-–%/", next) { // and of a date: 01/12/2027
		return false
	}
	following, _ := utf8.DecodeRuneInString(after[size:])
	return !(next == '.' || next == ',') || !unicode.IsDigit(following)
}

// saysPer reports whether a slash or a word for per stands before or, in languages that do so, behind a number.
func (l *Lexicon) saysPer(before, after string) bool {
	n := l.perAtEnd(before)
	return n > 0 || n == 0 && l.perAtStart(after) > 0
}

// perAtEnd returns how much of the end of a text is a slash or a word for per, with the blanks behind it: zero where there is none, less where a
// word says that a number is the least.
func (l *Lexicon) perAtEnd(text string) int {
	before := strings.TrimRight(text, " .") // the point shortens the word: "pr. pose"
	if strings.HasSuffix(before, "/") {
		return len(text) - len(before) + 1
	}
	words := strings.FieldsFunc(before, func(r rune) bool { return !unicode.IsLetter(r) })
	for n := min(3, len(words)); n > 0; n-- { // "per", "by the", but not "à partir de"
		per := strings.Join(words[len(words)-n:], " ")
		if !strings.HasSuffix(before, per) {
			continue
		}
		if _, from := l.Words.Mark(per, "at_least"); from {
			return -1
		}
		if l.isPer(per) {
			return len(text) - len(before) + len(per)
		}
	}
	last, size := utf8.DecodeLastRuneInString(before)
	if l.isPer(string(last)) && !unicode.Is(unicode.Latin, last) {
		return len(text) - len(before) + size
	}
	return 0
}

// perAtStart returns how much of the beginning of a text is a word for per in a script other than ours, with a sign before it at most; zero
// where there is none.
func (l *Lexicon) perAtStart(text string) int {
	after := strings.TrimLeft(text, " ")
	behind := []rune(after)
	for skip := range 2 {
		for n := 1; n <= 4 && skip+n <= len(behind); n++ {
			if piece := behind[skip : skip+n]; unicode.IsLetter(piece[0]) && !unicode.Is(unicode.Latin, piece[0]) && l.isPer(string(piece)) {
				return len(text) - len(after) + len(string(behind[:skip+n]))
			}
		}
	}
	return 0
}

func (l *Lexicon) isPer(word string) bool {
	_, found := l.Words.Mark(word, "per_many")
	return found
}

// SpeaksOfDiscount reports whether a note says that a share is taken off prices: "less 10 % on everything", 全品2割引.
func (l *Lexicon) SpeaksOfDiscount(note string) bool {
	return (strings.ContainsAny(note, "%％") || strings.ContainsFunc(note, IsWide)) && strings.ContainsAny(narrowDigits(note), anyDigit) && l.Words.SpeaksOfDiscount(note)
}
