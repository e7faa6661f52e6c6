package lexicon

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// FlatPrice is one price for each of all pieces, as a sentence says it.
type FlatPrice struct {
	// Text is the amount with its currency, as it stands there.
	Text string
	// Price is that of one piece, and Per for how many the amount is.
	Price, Per float64
	// Currency is empty where the words alone say that it is money.
	Currency string
	// Of is what the pieces are: heads or ferrules, empty where that is not said.
	Of string
}

// amount is a number in a sentence.
var amount = pattern.Lazy(`\d+(?:[.,]\d+)*|[.,]\d+`)

// percentage is a rate, as that of a tax.
var percentage = pattern.Lazy(`\d+(?:[.,]\d+)? ?[%％]`)

// FlatPrice returns the price that a sentence gives for each of all pieces; false where it gives none, or may speak of some pieces only, of
// several or of something else than pieces. A number that names no currency has to be written as prices are.
func (l *Lexicon) FlatPrice(sentence string) (flat FlatPrice, said bool) {
	flat, saying := l.flatPrice(sentence)
	return flat, saying.Each
}

// PiecePrice is FlatPrice for what is said beside something of all pieces, where a price of a piece is that of each.
func (l *Lexicon) PiecePrice(sentence string) (flat FlatPrice, said bool) {
	flat, saying := l.flatPrice(sentence)
	return flat, saying.Piece
}

// flatPrice returns the one price in a sentence, and what the words beside it say of it, nothing where it is none.
func (l *Lexicon) flatPrice(sentence string) (flat FlatPrice, saying words.FlatPrice) {
	if len(sentence) > LongestNote || strings.ContainsAny(sentence, "±+") {
		return FlatPrice{}, words.FlatPrice{}
	}
	untaxed := percentage().ReplaceAllString(sentence, "")
	rated := untaxed != sentence // "alv 0 %"
	sentence = l.withoutOne(untaxed)
	places := amount().FindAllStringIndex(sentence, 2)
	if len(places) != 1 {
		return FlatPrice{}, words.FlatPrice{}
	}
	from, to := l.withMoney(sentence, places[0])
	text := strings.TrimSpace(sentence[from:to])
	reading := l.Read(text, value.Context{Want: value.WantPrice})
	if reading.Kind != value.Number || reading.Problem.Code != "" || reading.Rest != "" || reading.Number <= 0 {
		return FlatPrice{}, words.FlatPrice{}
	}
	rest, per := l.withoutDozen(sentence[:from] + " " + sentence[to:])
	if per == 0 {
		return FlatPrice{}, words.FlatPrice{}
	}
	saying = l.Words.FlatPrice(rest)
	inHundredths := slices.ContainsFunc(reading.Leniencies, func(l value.Leniency) bool { return l.Code == value.ForgaveHundredths })
	isMoney := words.IsCurrency(reading.Unit) || inHundredths || reading.Unit == "" && (saying.Named || saying.Money && inCents().MatchString(text))
	if !isMoney || rated && !saying.Taxed {
		return FlatPrice{}, words.FlatPrice{}
	}
	return FlatPrice{text, reading.Number / per, per, reading.Unit, saying.Of}, saying
}

// withoutOne is a sentence without the number one before a word for a piece: "1 Stück", 1個.
func (l *Lexicon) withoutOne(sentence string) string {
	sentence = narrowDigits(sentence)
	for _, p := range l.Words.Pieces(sentence) {
		before := strings.TrimRight(p.Before, " ")
		one, found := strings.CutSuffix(before, "1")
		if last, _ := utf8.DecodeLastRuneInString(one); p.Count == 1 && found && !unicode.IsDigit(last) && !strings.ContainsRune(".,/-–", last) {
			return one + sentence[len(before):]
		}
	}
	return sentence
}

// withoutDozen returns what a sentence says beside the words by which its price is for several pieces, "per dozen", and for how many that is: one
// where it does not say, and zero where it says different things. The bags and boxes of which it speaks besides are those of such pieces.
func (l *Lexicon) withoutDozen(sentence string) (rest string, per float64) {
	for _, p := range l.Words.Pieces(sentence) {
		if p.Count <= 1 || !l.saysPer(p.Before, p.After) {
			continue
		}
		before := p.Before[:len(p.Before)-max(0, l.perAtEnd(p.Before))]
		after := p.After
		if len(before) == len(p.Before) {
			after = after[l.perAtStart(after):]
		}
		rest, per = before+" "+after, p.Count
		break
	}
	if per == 0 {
		return sentence, 1
	}
	if l.piecesIn(rest) > 1 || l.SaysPiece(rest) {
		return "", 0
	}
	for packs := l.Words.Packs(rest); len(packs) > 0; packs = l.Words.Packs(rest) {
		shorter := packs[0].Before + " " + packs[0].After
		if len(shorter) >= len(rest) {
			break
		}
		rest = shorter
	}
	return rest, per
}

// inCents is a number as prices are written.
var inCents = pattern.Lazy(`^\d*[.,]\d\d$`)

// withMoney widens the place of a number to the word or sign for a currency behind it or before it, or for its hundredths.
func (l *Lexicon) withMoney(text string, at []int) (from, to int) {
	behind := strings.TrimLeft(text[at[1]:], " \u00a0")
	word := leadingLetters(behind)
	if strings.HasPrefix(behind, "¢") {
		word = "¢"
	}
	if l.Words.Cents(word) {
		return at[0], len(text) - len(behind) + len(word)
	}
	if n := l.moneyBeside(behind, false); n > 0 {
		return at[0], len(text) - len(behind) + n
	}
	before := strings.TrimRight(text[:at[0]], " \u00a0")
	return len(before) - l.moneyBeside(before, true), at[1]
}

// IsMoney reports whether the number at a place of a text stands beside a currency, or its hundredths.
func (l *Lexicon) IsMoney(text string, at []int) bool {
	from, to := l.withMoney(text, at)
	return strings.TrimSpace(text[from:to]) != text[at[0]:at[1]]
}

// longestMoney is how many letters a word for a currency has at most that stands in others without blanks: "2元/件", "45 円".
const longestMoney = 3

// moneyBeside returns the length of the word or sign for a currency at the beginning of a text, or at its end. Where words stand without
// blanks, it is the longest that is one.
func (l *Lexicon) moneyBeside(text string, atEnd bool) int {
	isMoney := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) || unicode.Is(unicode.Sc, r) }
	next, cut := utf8.DecodeRuneInString, func(n int) string { return text[:n] }
	if atEnd {
		next, cut = utf8.DecodeLastRuneInString, func(n int) string { return text[len(text)-n:] }
	}
	var ends []int
	wide := false
	for n := 0; n < len(text); {
		rest := text[n:]
		if atEnd {
			rest = text[:len(text)-n]
		}
		r, size := next(rest)
		if !isMoney(r) {
			break
		}
		wide = wide || WithoutBlanks(r)
		n += size
		ends = append(ends, n)
	}
	for i := len(ends) - 1; i >= 0; i-- {
		if whole := i == len(ends)-1; !whole && (!wide || i >= longestMoney) {
			continue
		}
		if hit, known := l.Words.Unit(cut(ends[i])); known && words.IsCurrency(hit.Value) {
			return ends[i]
		}
	}
	return 0
}
