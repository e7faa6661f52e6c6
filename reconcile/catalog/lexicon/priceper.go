package lexicon

import (
	"cmp"
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
}

// PriceTerms reads a title or note. What has no word for prices says nothing of them.
func (l *Lexicon) PriceTerms(text string) PriceTerms {
	if len(text) > LongestNote || !l.Words.SpeaksOfPrices(text) {
		return PriceTerms{}
	}
	text = narrowDigits(text)
	var terms PriceTerms
	if !strings.Contains(text, "%") && !IsPriceBreak(text) { // "10 % off for 100 and more"
		perOne := func(p words.Pieces) bool {
			return (l.saysPer(p.Before, p.After) || l.pricesOne(p)) && !l.endsWithMoney(p.Before)
		}
		if terms.Per = l.piecesIn(text); terms.Per > 0 {
			terms.Lot = OfPieces
		}
		switch {
		case slices.ContainsFunc(l.Words.Sets(text), perOne):
			terms.Per, terms.Lot = countIn(text, mostOfSet), OfSet
		case terms.Lot == LotUnsaid && slices.ContainsFunc(l.Words.Packs(text), perOne):
			terms.Per, terms.Lot = countIn(text, mostInPack), OfPack
		}
	}
	if named := l.Words.Currencies(text); len(named) == 1 {
		terms.Currency = named[0]
	} else if len(named) == 0 && terms.Per > 0 {
		terms.Currency = l.currencyBefore(text)
	}
	return terms
}

// endsWithMoney reports whether the last number of a text is an amount of money: "shipping 12 € per box" is the price of shipping.
func (l *Lexicon) endsWithMoney(text string) bool {
	written := strings.Fields(text)
	for i, word := range slices.Backward(written) {
		if BearsDigits(word) {
			return len(l.Words.Currencies(strings.Join(written[max(0, i-1):min(len(written), i+2)], " "))) > 0
		}
	}
	return false
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

// pricesOne reports whether a word for a set or a pack has a 1 before it that prices are for: "per 1 bag", and in writing without such small
// words one behind a word for prices, 単価は1袋の価格.
func (l *Lexicon) pricesOne(p words.Pieces) bool {
	before, one := strings.CutSuffix(strings.TrimRight(p.Before, " "), "1")
	if !one || !standsAlone(before, "") {
		return false
	}
	if l.saysPer(before, "") {
		return true
	}
	last, _ := utf8.DecodeLastRuneInString(before)
	clause := before[strings.LastIndexAny(before, ",.;:、。，；：")+1:]
	return IsWide(last) && l.Words.SpeaksOfPrices(clause)
}

// currencyBefore is the currency before a slash, in words too short to be sought in prose: "원/다스".
func (l *Lexicon) currencyBefore(text string) string {
	before, _, _ := strings.Cut(text, "/")
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
// "€/1.000", "100個あたり", "per dozen". The word for it has to stand beside the number. They may be for a set of clubs or a pack of pieces, of
// as many as are returned, 1 where that is not said: "set price", "le jeu de 8", "Satzpreis", "€/VE", "Prix HT le sachet".
func (l *Lexicon) PricePer(heading string) (per float64, lot Lot) {
	if len(heading) > LongestHeading {
		return 1, LotUnsaid
	}
	says := func(p words.Pieces) bool { return p.Sure || l.saysPer(p.Before, p.After) }
	per = l.piecesIn(heading)
	switch {
	case l.SaysPiece(heading):
		return cmp.Or(per, 1), OfPieces
	case slices.ContainsFunc(l.Words.Sets(heading), says):
		return max(1, countIn(heading, mostOfSet)), OfSet
	case per <= 1 && slices.ContainsFunc(l.Words.Packs(heading), func(p words.Pieces) bool { return says(p) || l.holdsCount(p) || l.pricesPack(p) }):
		return max(1, countIn(heading, mostInPack)), OfPack
	case per > 1:
		return per, OfPieces
	}
	if count := l.priceForCount(heading); count > 1 {
		return count, OfPieces
	}
	return 1, LotUnsaid
}

// longestOf is how many letters a small word between a price and what it is of has at most: "du", "des", "za".
const longestOf = 3

// pricesPack reports whether a word for a pack ends a heading, and a word for a price and a small word at most stand before it: "Prix du sac".
func (l *Lexicon) pricesPack(p words.Pieces) bool {
	before := strings.Fields(p.Before)
	if n := len(before); n > 1 && utf8.RuneCountInString(before[n-1]) <= longestOf {
		before = before[:n-1]
	}
	return strings.Trim(p.After, " .") == "" && len(before) > 0 && l.isPrice(strings.Join(before, " "))
}

// isPrice reports whether a text is a word for a price, or a currency.
func (l *Lexicon) isPrice(text string) bool {
	if hit, known := l.Words.Unit(text); known && words.IsCurrency(hit.Value) {
		return true
	}
	found := l.Match(text)
	return len(found) > 0 && catalog.Role(found[0].Role) == catalog.Price && found[0].Score >= CertainHeading
}

// priceForCount returns the number with which a heading of a price or a currency ends behind a word for "for", "€ for 6", and 0 for any other.
func (l *Lexicon) priceForCount(heading string) float64 {
	words := strings.Fields(heading)
	if len(words) < 3 {
		return 0
	}
	count, word := words[len(words)-1], words[len(words)-2]
	if _, isFor := l.Words.Mark(word, "fits"); !isFor || !IsDigits(count) || !l.isPrice(strings.Join(words[:len(words)-2], " ")) {
		return 0
	}
	return countIn(count, mostInPack)
}

// holdsCount reports whether a word for a pack has right beside it how many pieces are in it: "pk of 12", "12pk".
func (l *Lexicon) holdsCount(p words.Pieces) bool {
	behind := strings.Fields(p.After)
	if len(behind) > 1 && l.Words.Holds(behind[0]) && countIn(behind[1], mostInPack) > 0 {
		return true
	}
	before := strings.TrimRight(p.Before, " -")
	return before != "" && unicode.IsDigit(rune(before[len(before)-1])) && countIn(before, mostInPack) > 0
}

// PricePerOf is [Lexicon.PricePer] for the cell of a price; how many a set or a pack has stands behind the word for it, and is not the price.
func (l *Lexicon) PricePerOf(cell string) (per float64, lot Lot) {
	if l.SaysPiece(cell) || l.endsWithPiece(cell) {
		return 1, OfPieces
	}
	for _, p := range l.Words.Sets(cell) {
		if p.Sure || l.saysPer(p.Before, p.After) {
			return max(1, countIn(p.After, mostOfSet)), OfSet
		}
	}
	if per = l.piecesIn(cell); per > 1 {
		return per, OfPieces
	}
	for _, p := range l.Words.Packs(cell) {
		if l.saysPer(p.Before, p.After) {
			return max(1, countIn(p.After, mostInPack)), OfPack
		}
	}
	return 1, LotUnsaid
}

const (
	// fewestOfLot is the least number that is said to be sold together: a pair.
	fewestOfLot = 2
	// mostOfSet is how many clubs a set has at most: no bag holds more than fourteen by the rules; with both hands' or a starter's, more are
	// sold together.
	mostOfSet = 30
	// mostInPack is how many pieces the largest bags and boxes hold that have a price of their own; common practice.
	mostInPack = 1000
)

// countIn returns the one number of a text that may be how many are sold together, zero where there is none or there are several.
func countIn(text string, most float64) float64 {
	count := 0.0
	for _, at := range wholeNumber().FindAllStringIndex(text, -1) {
		n, err := strconv.ParseFloat(text[at[0]:at[1]], 64)
		switch {
		case err != nil || n < fewestOfLot || n > most:
		case count != 0 && count != n:
			return 0
		default:
			count = n
		}
	}
	return count
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

// OnlyPer reports whether a heading says for how many pieces its prices are and nothing else: "Per 100".
func (l *Lexicon) OnlyPer(heading string) bool {
	if len(heading) > LongestHeading || l.piecesIn(heading) <= 1 {
		return false
	}
	words := strings.FieldsFunc(heading, func(r rune) bool { return !unicode.IsLetter(r) })
	return len(words) == 1 && l.isPer(words[0])
}

// CountsPacks reports whether a heading is that of a column which counts packs, by their name in brackets: "Qty (bags)", "Menge (Beutel)", 数量（袋）.
func (l *Lexicon) CountsPacks(heading string) bool {
	before, inside, found := CutBrackets(heading)
	if !found || len(heading) > LongestHeading || !l.Words.Means("count", before) {
		return false
	}
	return slices.ContainsFunc(l.Words.Packs(inside), func(p words.Pieces) bool { return p.Before == "" && p.After == "" })
}

// Sells returns what a cell says that is sold: packs, "bolsa 25", or single pieces, "each"; [LotUnsaid] for any other.
func (l *Lexicon) Sells(cell string) Lot {
	switch {
	case cell == "" || len(cell) > LongestHeading:
	case slices.ContainsFunc(l.Words.Packs(cell), func(p words.Pieces) bool { return p.Before == "" }):
		return OfPack
	case !BearsDigits(cell) && slices.ContainsFunc(l.Words.Pieces(cell), func(p words.Pieces) bool { return p.Count == 1 && p.Before == "" }):
		return OfPieces
	}
	return LotUnsaid
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

// SaysPiece reports whether a text about prices says that they are for one piece, or for one head. A number of pieces does not: "set of 8 pcs".
func (l *Lexicon) SaysPiece(text string) bool {
	return l.saysPerHead(text) || slices.ContainsFunc(l.Words.Pieces(text), func(p words.Pieces) bool {
		last, _ := utf8.DecodeLastRuneInString(strings.TrimRight(p.Before, " "))
		return p.Count == 1 && !unicode.IsDigit(last)
	})
}

// endsWithPiece reports whether a word for one piece stands behind the only amount of a cell: "9.60 each".
func (l *Lexicon) endsWithPiece(cell string) bool {
	return slices.ContainsFunc(l.Words.Pieces(cell), func(p words.Pieces) bool {
		return p.Count == 1 && strings.Trim(p.After, " .") == "" && len(amount().FindAllString(p.Before, 2)) == 1
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
