package words

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// QuoteKind is what a word of a text on prices is. A word may be several things, in one language and in others.
type QuoteKind uint32

const (
	// QuotePrice is a word for prices.
	QuotePrice QuoteKind = 1 << iota
	// QuotePer may stand before what prices are for, "per", "je", QuoteThe before it too, "the gross", and QuoteAfter behind it: 당.
	QuotePer
	QuoteThe
	QuoteAfter
	// QuoteHolds may stand between a word for a pack and the number of pieces in it.
	QuoteHolds
	// QuoteBehind stands behind the number of pieces in a pack, whether a word for one follows or not: "12 count", 12er, 10入.
	QuoteBehind
	// QuoteNumber is a number, in digits or words.
	QuoteNumber
	// QuoteUnit is a word for a number of pieces: "dozen", "pcs", "each".
	QuoteUnit
	// QuoteSingle is a word for one piece which needs no number: "each", "individually".
	QuoteSingle
	// QuotePart is a word for the parts themselves, which are pieces beside a number.
	QuotePart
	// QuoteGross is a word for twelve dozens, which may mean with tax as well.
	QuoteGross
	// QuotePack and QuoteSet are words for a pack and for a set of clubs.
	QuotePack
	QuoteSet
	// QuoteAside is a word in whose clause a number of pieces is none that prices are for: "minimum", "discount", "in stock".
	QuoteAside
	// QuoteMore is one of those behind a number: "or more".
	QuoteMore
	// QuoteFrom is one before a number from which on prices hold.
	QuoteFrom
	// QuotePlain is a phrase that says nothing here, though its words do.
	QuotePlain
	// QuoteNot says that something is not so, QuoteBut what is instead.
	QuoteNot
	QuoteBut
	// QuoteAlso stands beside what something holds for too: "also in sets".
	QuoteAlso
	// QuoteDivide and QuoteMultiply say what is to be done with prices.
	QuoteDivide
	QuoteMultiply
	// QuoteLabel stands before the unit in which parts are sold.
	QuoteLabel
	// QuoteHalf is a half.
	QuoteHalf
)

// Quoted is a word or phrase of a text on prices.
type Quoted struct {
	Text string
	Kind QuoteKind
	// Count is a number, or how many pieces a unit is.
	Count float64
}

// quoteKinds are the classes and values of words that say what they do in texts on prices.
var quoteKinds = map[[2]string]QuoteKind{
	{classQuote, "aside"}: QuoteAside, {classQuote, "more"}: QuoteMore, {classQuote, "from"}: QuoteFrom, {classQuote, "plain"}: QuotePlain, {classQuote, "not"}: QuoteNot, {classQuote, "but"}: QuoteBut, {classQuote, "also"}: QuoteAlso, {classQuote, "divide"}: QuoteDivide, {classQuote, "multiply"}: QuoteMultiply,
	{classQuote, "label"}: QuoteLabel, {classQuote, "gross"}: QuoteGross, {classQuote, "score"}: QuoteUnit, {classQuote, "half"}: QuoteHalf, {classQuote, "pack"}: QuotePack,
	{classQuote, "part"}: QuotePart, {classQuote, "single"}: QuoteSingle, {classQuote, "price"}: QuotePrice, {classQuote, "per"}: QuotePer, {classQuote, "the"}: QuoteThe, {classQuote, "after"}: QuoteAfter, {classQuote, "holds"}: QuoteHolds,
	{classQuote, "dozen"}: QuoteUnit, {classQuote, "hundred"}: QuoteUnit, {classQuote, "thousand"}: QuoteUnit,
	{classPieces, "piece"}: QuoteUnit, {classPieces, "pair"}: QuoteUnit, {classPieces, "dozen"}: QuoteUnit, {classPieces, "hundred"}: QuoteUnit, {classPieces, "thousand"}: QuoteUnit,
	{classPieces, aSet}: QuoteSet, {classPieces, aPack}: QuotePack, {classPacking, "holds"}: QuoteHolds, {classPacking, "behind"}: QuoteBehind, {classQuote, "behind"}: QuoteBehind,
	{classKind, "ferrules"}: QuotePart, {classKind, "heads"}: QuotePart, {classMark, "per"}: QuotePer, {classMark, "per_many"}: QuotePer,
}

// aScore and aGross are numbers of pieces of old.
const aScore, aGross = 20, 144

// mergeQuotes makes one class of all words that say something in texts on prices.
func (v *Vocabulary) mergeQuotes() {
	all := &lexicon{words: map[string][]entry{}, signs: map[string][]entry{}}
	for _, class := range []string{classQuote, classPieces, classPacking, classMark, classSaid, classKind} {
		for key, entries := range v.classes[class].words {
			for _, e := range entries {
				n, err := strconv.Atoi(e.value)
				isNumber := (class == classSaid || class == classQuote) && err == nil && n > 0
				if kind := quoteKinds[[2]string{class, e.value}]; kind == 0 && !isNumber || e.weight < sureWord {
					continue
				}
				e.value = class + " " + e.value
				all.words[key] = append(all.words[key], e)
				all.maxTokens = max(all.maxTokens, strings.Count(key, " ")+1)
			}
		}
	}
	all.order()
	v.namePrices(all)
	v.classes[classQuoted] = all
}

// namePrices marks the words for packs and sets that have one for prices in them: "Satzpreis", 袋単価.
func (v *Vocabulary) namePrices(all *lexicon) {
	var prices []string
	for key, entries := range v.classes[classQuote].words {
		if len(key) > 2 && slices.ContainsFunc(entries, func(e entry) bool { return e.value == "price" }) {
			prices = append(prices, key)
		}
	}
	for key, entries := range all.words {
		if slices.ContainsFunc(prices, func(price string) bool {
			return key != price && (strings.HasSuffix(key, price) || strings.HasPrefix(key, price))
		}) {
			for i, e := range entries {
				if kind := quoteKinds[[2]string{classPieces, strings.TrimPrefix(e.value, classPieces+" ")}]; kind&(QuotePack|QuoteSet|QuoteUnit) != 0 {
					entries[i].concepts = v.concepts["price"] // no word of this class has any other
				}
			}
		}
	}
}

// Quote returns the words of a text on prices, of each piece of it in which no sign stands. They mean what they do in the language of most of them
// where they mean something in it.
func (v *Vocabulary) Quote(texts []string) (lists [][]Quoted) {
	all := make([][]segment, len(texts))
	votes := map[string]int{}
	for i, text := range texts {
		all[i] = v.segmentsOf(classQuoted, text)
		for _, s := range all[i] {
			spoken := map[string]bool{}
			for _, e := range s.options {
				if !spoken[e.language] {
					spoken[e.language] = true
					votes[e.language] += s.weight
				}
			}
		}
	}
	language := ""
	for _, l := range slices.Sorted(maps.Keys(votes)) {
		if votes[l] > votes[language] || votes[l] == votes[language] && l == "en" {
			language = l
		}
	}
	for _, segments := range all {
		var list []Quoted
		for _, s := range segments {
			list = append(list, quotedOf(s, language))
		}
		lists = append(lists, list)
	}
	return lists
}

// mostSlightQuote is how many letters a word has at most that means too many things in other languages.
const mostSlightQuote = 4

// mostSlightAside is the same for one that would make a number of pieces one of something else.
const mostSlightAside = 6

// quotedOf is what a word does in a language.
func quotedOf(s segment, language string) Quoted {
	q := Quoted{Text: s.text}
	if isNumber(s.text) {
		q.Kind = QuoteNumber
		q.Count, _ = strconv.ParseFloat(s.text, 64)
	}
	native := slices.ContainsFunc(s.options, func(e entry) bool { return e.language == language })
	slight := utf8.RuneCountInString(s.text) <= mostSlightQuote && isLatin(s.text)
	for _, e := range s.options {
		if e.language != language && (native || slight && e.language != "en" && e.language != signs) {
			continue
		}
		class, value, _ := strings.Cut(e.value, " ")
		kind := quoteKinds[[2]string{class, value}]
		if e.language != language && e.language != "en" && kind&(QuoteAside|QuoteMore|QuoteFrom|QuoteNot|QuoteBut) != 0 && utf8.RuneCountInString(s.text) <= mostSlightAside && isLatin(s.text) {
			continue
		}
		switch {
		case kind == 0: // the classes of numbers
			kind = QuoteNumber
			q.Count, _ = strconv.ParseFloat(value, 64)
		case pieces[value] > 0:
			q.Count = pieces[value]
		case value == "score":
			q.Count = aScore
		case value == "gross":
			q.Count = aGross
		}
		q.Kind |= kind
		if e.concepts != (concepts{}) {
			q.Kind |= QuotePrice
		}
	}
	return q
}

// SameThing reports whether two words begin alike, as those for one thing do in all their forms.
func (q Quoted) SameThing(other Quoted) bool {
	shared := 0
	a, b := q.Text, other.Text
	for a != "" && b != "" {
		r, size := utf8.DecodeRuneInString(a)
		s, other := utf8.DecodeRuneInString(b)
		if r != s {
			break
		}
		a, b = a[size:], b[other:]
		if shared++; isWide(r) {
			shared += 2
		}
	}
	return shared >= 3 || a == "" && b == ""
}
