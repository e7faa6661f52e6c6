package value

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// noWhole is a price of less than one, whose nought is written as a dash: -,40, CHF -.60.
var noWhole = pattern.Lazy(`^((?:\pL{2,3}\.? ?|€ ?)?)-+([.,]\d\d)\b`)

// abbreviated is a currency cut short, its point and the price: Rs.15. The point of a code of three capitals is that of the decimals.
var abbreviated = pattern.Lazy(`^(\pL{1,4})\.(\d)`)

// byColon and bySign are prices whose decimals stand behind a colon, as in Sweden, and behind the sign of the currency: 12:50 kr, 12€50.
var byColon, bySign = pattern.Lazy(`^([^\d:]*\d+):(\d\d)([^\d:]*)$`), pattern.Lazy(`^(\d+) ?(\p{Sc}) ?(\d\d)$`)

// apostrophes part the thousands of a price or a count in Switzerland: 1'250.00.
var apostrophes = pattern.Lazy(`(\d)'(\d{3})`)

// withoutApostrophes takes them out.
func withoutApostrophes(text string) string {
	if !strings.Contains(text, "'") {
		return text
	}
	return apostrophes().ReplaceAllString(text, "$1$2")
}

// plainPrice makes one of the ways in which the parts of a price are written.
func plainPrice(text string) string {
	text = noWhole().ReplaceAllString(text, "${1}0$2")
	if m := abbreviated().FindStringSubmatch(text); m != nil && !words.IsCurrency(m[1]) {
		if meant := words.Load().Match(m[1]); len(meant) > 0 && meant[0].Role == "price" { // as a heading it would be one of prices
			text = m[1] + " " + text[len(m[1])+1:]
		}
	}
	if strings.Contains(text, ":") {
		return byColon().ReplaceAllString(text, "$1.$2$3")
	}
	return bySign().ReplaceAllString(text, "$1.$3 $2")
}

// times is a number with a word right behind it that may multiply it.
var times = pattern.Lazy(`^([^\d]*)(\d+(?:[.,]\d{1,2})?) ?(\pL{1,3}\.?)(.*)$`)

// multiplied works out what a word behind a number makes of it: 2.5k, 1.2万元, 3 tys.
func multiplied(text string) string {
	m := times().FindStringSubmatch(text)
	if m == nil {
		return text
	}
	word, rest := m[3], m[4]
	v := words.Load()
	if first, size := utf8.DecodeRuneInString(word); v.Times(word) == 0 && !unicode.Is(unicode.Latin, first) { // 万元 is two words in one
		word, rest = word[:size], word[size:]+rest
	}
	number, err := strconv.ParseFloat(strings.Replace(m[2], ",", ".", 1), 64)
	if v.Times(word) == 0 || err != nil {
		return text
	}
	return m[1] + strconv.FormatFloat(number*float64(v.Times(word)), 'f', -1, 64) + rest
}

// smallCoins is a number with a word or sign behind it that may be one for hundredths of a currency.
var smallCoins = pattern.Lazy(`^(\d{1,3}(?:[.,]\d)?) ?(\pL{1,9}|¢)(\P{L}.*)?$`)

// cents takes the word for hundredths of a currency off a price: 45p, 80 Cent each.
func cents(text string) (number, rest string, ok bool) {
	m := smallCoins().FindStringSubmatch(text)
	if m == nil || !words.Load().Cents(m[2]) {
		return "", "", false
	}
	return m[1], m[3], true
}

// inWhole is a price that was read in hundredths of its currency.
func inWhole(r Reading, text string) Reading {
	if r.Text = text; r.Kind == Number {
		r.Number, r.Decimals = r.Number/100, r.Decimals+2
		r.Leniencies = append(r.Leniencies, Leniency{ForgaveHundredths, fmt.Sprintf("%s are hundredths of the currency", text)})
	}
	return r
}
