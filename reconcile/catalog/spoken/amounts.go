package spoken

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// AmountIn returns the price or the count that a text gives behind its name, or the price that its currency shows it to be.
func AmountIn(lex *lexicon.Lexicon, text string) (amount Value, ok bool) {
	if price := lex.Read(text, value.Context{Want: value.WantPrice}); price.Kind == value.Number && words.IsCurrency(price.Unit) {
		if _, lot := lex.PricePerOf(text); price.Rest == "" || lot != lexicon.LotUnsaid {
			return Value{Label: "price", Text: text, Role: catalog.Price}, true
		}
	}
	if first, rest, more := strings.Cut(text, " "); more && lex.Words.JoinsNames(first) && CountFirst(rest) != "" {
		text = rest // "and 12 in stock"
	}
	if found := bought().FindStringSubmatch(text); found != nil {
		return Value{Label: "price", Text: found[1], Role: catalog.Price}, true
	}
	if sign, _ := cutSign(text); sign != "" && lex.Words.Coin(sign) {
		if price, said := PriceIn(lex, text); said {
			return price, true
		}
	}
	if none, is := noneOf(lex, text); is {
		return none, true
	}
	inPieces := lex.Words.InPieces(text) // "two dozen in stock"
	number := strings.IndexFunc(text, unicode.IsNumber)
	if number > 1 && text[number-1] == '.' && text[number-2] == ' ' {
		number-- // "price .85"
	}
	switch {
	case number == 0, inPieces != text && CountFirst(inPieces) != "":
		return stockBefore(lex, inPieces)
	case number < 0:
		return Value{}, false
	}
	label := strings.Trim(text[:number], sizetext.AroundNames)
	if IsForTip(lex, label, text[number:]) {
		return Value{}, false
	}
	role, score := lex.RoleOfLabel(label)
	want := traits.Of[role].Want
	return Value{Label: label, Text: text[number:], Role: role}, score >= lexicon.HeadingScore && (want == traits.Price || want == traits.Count && !sizetext.HasUnit(text[number:]))
}

// noneOf returns the stock of which a text says, before the word for it, that nothing is left: "none in stock".
func noneOf(lex *lexicon.Lexicon, text string) (stock Value, ok bool) {
	none, label, more := strings.Cut(text, " ")
	if !more || strings.ContainsFunc(text, unicode.IsNumber) || !lex.NoneLeft(none) || !lex.Words.Means(string(catalog.Stock), label) {
		return Value{}, false
	}
	return Value{Label: label, Text: none, Role: catalog.Stock}, true
}

// IsMoney reports whether a text is a number with hundredths and nothing else.
func IsMoney(text string) bool { return withCents().MatchString(text) }

// PriceIn returns the price that a text is, with its currency and what says for what it is: "R 395.00 each".
func PriceIn(lex *lexicon.Lexicon, text string) (price Value, ok bool) {
	price, before, ok := priceOf(lex, text)
	return price, ok && before == ""
}

// bought is how receipts say how many were bought of something, at which price each: "24 @ 0.55". Neither is a stock.
var bought = pattern.Lazy(`^\d{1,5} ?[@＠] ?([^\d@＠]{0,4}\d+(?:[.,]\d{2})?)$`)

// IsBought reports whether a text is such a line of a receipt.
func IsBought(text string) bool { return bought().MatchString(text) }

// CountFirst returns the whole number, perhaps of pieces, that a text begins with; empty where it begins with none.
func CountFirst(text string) string {
	if found := countFirst().FindStringSubmatch(text); found != nil {
		return found[1]
	}
	return ""
}

var countFirst = pattern.Lazy(`^(\d{1,3}(?:[.,’' ]\d{3})+|\d+)(?:\D|$)`)

// stockBefore returns the stock that a text gives before the word for it: "400 in stock", "8 Stück lieferbar". What is said besides, such as
// a date, makes it another number.
func stockBefore(lex *lexicon.Lexicon, text string) (stock Value, ok bool) {
	count := CountFirst(text)
	if count == "" {
		return Value{}, false
	}
	label := strings.Trim(text[len(count):], sizetext.AroundNames)
	for n, next := range label { // the word for pieces between
		if hit, known := lex.Words.Unit(label[:n]); n > 0 && !lexicon.InWord(next) && known && hit.Value == "pcs" {
			label = strings.TrimLeft(label[n:], " .")
			break
		}
	}
	return Value{Label: label, Text: count, Role: catalog.Stock}, lex.Words.Means(string(catalog.Stock), label)
}

// CountsPieces reports whether a clause is a number of pieces and nothing else: "8 pcs", "only two pieces". "The 8" is a club.
func CountsPieces(lex *lexicon.Lexicon, clause string) bool {
	first, _ := utf8.DecodeRuneInString(clause)
	written := strings.Fields(clause)
	if len(written) == 0 || lex.Words.CountOf(clause) == 0 {
		return false
	}
	hit, pieces := lex.Words.Unit(written[len(written)-1])
	return unicode.IsDigit(first) || pieces && hit.Value == "pcs"
}

// amountOf is AmountIn for one number, whose name stands before it or is one for a stock.
func amountOf(lex *lexicon.Lexicon, text string) (amount Value, ok bool) {
	amount, ok = AmountIn(lex, text)
	if none, is := noneOf(lex, text); is {
		return none, true
	}
	return amount, ok && sizetext.CountNumbers(amount.Text) == 1 && (amount.Role != catalog.Price || amount.Text != text)
}

// cutAmount cuts a clause at a word or a dash behind which it gives a price or a count: "22 long and 75 in stock".
func cutAmount(lex *lexicon.Lexicon, clause string) (head, tail string, ok bool) {
	written := strings.Fields(clause)
	lasting := lexicon.BearsNumber(clause) && lex.Words.SaysLasting(clause)
	for i, word := range written {
		if i == 0 || i+1 == len(written) {
			continue
		}
		if tail = strings.Join(written[i:], " "); lasting && lex.Words.SaysLasting(tail) && lex.Words.CountSaid(tail) > 0 {
			return strings.Join(written[:i], " "), tail, true // "£9.00 while the remaining 40 last"
		}
		if !lex.Words.JoinsNames(word) && strings.Trim(word, sizetext.Dashes) != "" {
			continue
		}
		tail = strings.Join(written[i+1:], " ")
		if _, before, priced := priceOf(lex, tail); priced && before == "" || lex.Words.CountSaid(tail) > 0 {
			return strings.Join(written[:i], " "), tail, true
		}
		if _, given := amountOf(lex, tail); given {
			return strings.Join(written[:i], " "), tail, true
		}
	}
	return "", "", false
}

// priceOf returns the one price of a clause, with what says for what it is, and what stands before it. Words that nothing is known of make
// it the price of something else: "20 EUR tooling".
func priceOf(lex *lexicon.Lexicon, clause string) (price Value, before string, ok bool) {
	written := strings.Fields(clause)
	for i := range written {
		if !lexicon.BearsNumber(written[i]) {
			continue
		}
		from, to, money := moneyAt(lex, written, i)
		name := 0
		if lead := leadToPrice(lex, written[:max(from, 0)]); to > 0 && lead > 0 {
			name, money = lead, true
		} else if i > 0 && to-from < 2 && namesPrice(lex, written[i-1]) && isAmount(written[i]) && !IsForTip(lex, written[i-1], written[i]) { // Rs 38
			from, to, money, name = i, i+1, true, 1
		}
		if to == 0 {
			continue
		}
		text, behind := strings.Join(written[from:to], " "), written[to:]
		per := perPiece(lex, text, behind)
		if per == 0 && lex.Words.LeadsToPrice(strings.Join(behind, " ")) {
			behind = nil // "27.00 for it"
		}
		before = strings.Join(withoutJoiner(lex, written[:from-name]), " ")
		sure := money && len(behind) == 0 || per > 0
		if !sure && !money {
			continue // a size may have two decimals, too
		}
		if !sure || lexicon.BearsNumber(strings.Join(behind[per:], " ")) || // "0.38 each from 500"
			!mayPrecedePrice(lex, before, per+name > 0) {
			return Value{}, "", false
		}
		text = strings.Join(written[from:to+per], " ")
		return Value{Label: "price", Text: strings.TrimRight(text, "."), Role: catalog.Price}, before, true
	}
	return Value{}, "", false
}

// WithoutAmounts returns a text without the amounts of money in it, as far as their currency, the words before them or those behind say that they
// are such.
func WithoutAmounts(lex *lexicon.Lexicon, text string) string {
	written := strings.Fields(text)
	for i := 0; i < len(written); i++ {
		if !lexicon.BearsNumber(written[i]) {
			continue
		}
		from, to, money := moneyAt(lex, written, i)
		if to > 0 && (money || leadToPrice(lex, written[:from]) > 0 || perPiece(lex, strings.Join(written[from:to], " "), written[to:]) > 0) {
			written = slices.Delete(written, from, to)
			i = from - 1
		}
	}
	return strings.Join(written, " ")
}

// LastClause is the last clause of a text.
func LastClause(lex *lexicon.Lexicon, text string) string {
	all := Clauses(lex, text)
	return all[len(all)-1]
}

// leadToPrice returns how many of the words before an amount say that it is a price: "you can have it at".
func leadToPrice(lex *lexicon.Lexicon, before []string) int {
	for n := min(mostLeadToPrice, len(before)); n > 0; n-- {
		if lex.Words.LeadsToPrice(strings.Join(before[len(before)-n:], " ")) {
			return n
		}
	}
	return 0
}

// mostLeadToPrice is how many words lead to a price at most: "I could let you have it for".
const mostLeadToPrice = 7

// moneyAt returns the words of a text that are an amount of money about one of them, those of none where it is no such; money is set where a
// currency says so, or the sign of one that is as often something else and its cents together, and not just that it has cents.
func moneyAt(lex *lexicon.Lexicon, written []string, at int) (from, to int, money bool) {
	for _, span := range [][2]int{{at, at + 1}, {at, at + 2}, {at - 1, at + 1}} {
		if span[0] < 0 || span[1] > len(written) {
			continue
		}
		one := lex.Read(strings.Join(written[span[0]:span[1]], " "), value.Context{Want: value.WantPrice})
		if one.Kind == value.Number && one.Rest == "" && (words.IsCurrency(one.Unit) || inHundredths(one)) {
			return span[0], span[1], true
		}
	}
	if at > 0 && lex.Words.Coin(written[at-1]) && isAmount(written[at]) {
		return at - 1, at + 1, withCents().MatchString(written[at]) // "kr 9,80"; but not R 45
	}
	if withCents().MatchString(written[at]) {
		if at+1 < len(written) && lex.Words.Coin(strings.TrimRight(written[at+1], ".")) {
			return at, at + 2, true // "7,00 kr"
		}
		return at, at + 1, false
	}
	sign, number := cutSign(written[at])
	switch {
	case !isAmount(number):
	case sign != "" && (lex.Words.Coin(sign) || namesPrice(lex, sign)):
		return at, at + 1, lex.Words.Coin(sign) && withCents().MatchString(number)
	case sign == "" && at+1 < len(written) && lex.Words.Coin(written[at+1]):
		return at, at + 2, false
	case sign == "" && at+1 < len(written) && lex.Words.Coin(beforeSlash(written[at+1])): // what is behind it has to be a piece: "12 kr/st"
		return at, at + 1, false
	}
	return 0, 0, false
}

// beforeSlash is a word up to the slash in it, empty where there is none.
func beforeSlash(word string) string {
	before, _, slash := strings.Cut(word, "/")
	if !slash {
		return ""
	}
	return strings.TrimRight(before, ".")
}

// cutSign takes the letters off a number that they stand before without a blank: R410.
func cutSign(word string) (sign, number string) {
	number = strings.TrimLeftFunc(word, unicode.IsLetter)
	return word[:len(word)-len(number)], number
}

// withoutJoiner leaves out a word that joins what it leads with what stands before: "and 45p each".
func withoutJoiner(lex *lexicon.Lexicon, written []string) []string {
	if len(written) > 0 && lex.Words.JoinsNames(written[0]) {
		return written[1:]
	}
	return written
}

// inHundredths reports whether a price was said in hundredths of a currency, "45p".
func inHundredths(price value.Reading) bool {
	return slices.ContainsFunc(price.Leniencies, func(l value.Leniency) bool { return l.Code == value.ForgaveHundredths })
}

// namesPrice reports whether a word is a name for prices.
func namesPrice(lex *lexicon.Lexicon, word string) bool {
	role, score := lex.RoleOfLabel(strings.Trim(word, sizetext.AroundNames+"."))
	return role == catalog.Price && score >= lexicon.HeadingScore
}

// isAmount reports whether a word is a number, with decimals or none.
func isAmount(word string) bool {
	return sizetext.First(word) == strings.TrimRight(word, ".") && word != ""
}

// IsForTip reports whether a label is a word such as "fits" or "for" and what stands behind it begins with the name of a tip: "para .370" is no money,
// whatever "para" is elsewhere.
func IsForTip(lex *lexicon.Lexicon, label, value string) bool {
	_, isFor := lex.Words.Mark(label, "fits")
	return isFor && strings.HasPrefix(value, ".") && isTipName(lex, sizetext.First(value))
}

// withCents is an amount with two decimals.
var withCents = pattern.Lazy(`^\d*[.,]\d\d$`)

// perPiece returns how many of the words behind an amount say that it is for one piece.
func perPiece(lex *lexicon.Lexicon, amount string, behind []string) int {
	for n := 1; n <= min(len(behind), mostPerWords); n++ {
		if per, lot := lex.PricePerOf(amount + " " + strings.Join(behind[:n], " ")); lot == lexicon.OfPieces && per == 1 {
			return n
		}
	}
	return 0
}

// mostPerWords is how many words say that a price is for one piece: "for each one".
const mostPerWords = 3

// mayPrecedePrice reports whether what stands before a price in its clause leaves it that of the part: nothing, a word for prices, a count, or
// sizes where the price is said to be one, by its name or for a piece.
func mayPrecedePrice(lex *lexicon.Lexicon, before string, said bool) bool {
	if before == "" || lex.Words.SaidBeside(before) || lex.Words.CountSaid(before) > 0 {
		return true
	}
	if role, score := lex.RoleOfLabel(before); role == catalog.Price && score >= lexicon.HeadingScore {
		return true
	}
	if amount, ok := AmountIn(lex, before); ok && amount.Role == catalog.Stock {
		return true
	}
	return said && len(Sizes(lex, before)) > 0
}
