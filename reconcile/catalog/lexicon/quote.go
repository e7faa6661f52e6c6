package lexicon

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// For how many pieces a price is stands in headings, in cells, in titles and notes: "Price per 100", "4.80 a dozen", "12 to a bag, price is for the bag". A
// text is taken apart into what its words may be. Of the numbers of pieces in it some say how many a pack holds, and some are none that prices are for: the
// least that is sold, what lies in stock, that from which there is a discount. Among the others the one counts that is nearest to the word for prices.

// quoteOf is where a text on prices stands.
type quoteOf uint8

const (
	ofNote quoteOf = iota
	ofHeading
	ofCell
)

// quote is for how many pieces prices are, as a text says it.
type quote struct {
	// per is zero where it is not said, or where it is a pack of a number that is not.
	per float64
	lot Lot
	// doubtful is set where a number of pieces stands beside a word for prices, and it is not sure that they are for so many.
	doubtful bool
	// unexplained is set where a number stands there that says nothing of all this.
	unexplained bool
	strength    int
}

// token is a word or a sign of a text on prices.
type token struct {
	words.Quoted
	// sign is that of a sign, and amount for a sum of money.
	sign rune
	// tight is set where nothing but a hyphen stands before it.
	tight bool
	// clause is the number of the piece between signs that it is in.
	clause int
}

const amountSign = '$'

func (t token) is(kind words.QuoteKind) bool { return t.sign == 0 && t.Kind&kind != 0 }

// isWord reports whether it is a word that says nothing here.
func (t token) isWord() bool { return t.sign == 0 && t.Kind&^words.QuoteAlso == 0 }

// quoteIn reads a text on prices; of a cell without its amount.
func (l *Lexicon) quoteIn(text string, of quoteOf) quote {
	r := quoteReader{of: of, tokens: l.quoteTokens(text)}
	unknown := of == ofNote && l.takeCurrencies(r.tokens)
	r.readClauses()
	r.findPacks()
	q := r.choose()
	q.doubtful = q.doubtful || unknown && q.strength == 0
	q.unexplained = r.unexplained() || q.strength == 0 && of == ofCell && (r.tiered() || !r.speaks())
	return q
}

// tiered reports whether the text says from which quantity on a price holds, and speaks of no discount.
func (r *quoteReader) tiered() bool {
	tiered := false
	for i, t := range r.tokens {
		if t.sign == '%' {
			return false
		}
		tiered = tiered || t.is(words.QuoteFrom) || (t.is(words.QuoteMore) || t.sign == '+') && r.at(i-1).is(words.QuoteNumber|words.QuoteUnit|words.QuotePart|words.QuoteSingle)
	}
	return tiered
}

// speaks reports whether a word of the text says something here.
func (r *quoteReader) speaks() bool {
	for _, t := range r.tokens {
		if t.sign == 0 && !t.isWord() {
			return true
		}
	}
	return false
}

// unexplained reports whether a number stands in the text that counts no pieces and is none of those that say something else.
func (r *quoteReader) unexplained() bool {
	said := map[int]bool{}
	for i := range r.tokens {
		if q, is := r.lotAt(i); is {
			for k := q.from; k < q.to; k++ {
				said[k] = true
			}
		}
	}
	for i, t := range r.tokens {
		if (t.is(words.QuoteNumber) || t.sign == amountSign) && !said[i] && !r.taken[i] && r.aside[t.clause] < 0 && r.at(i-1).sign != '(' {
			return true
		}
	}
	return false
}

var (
	// partedNumber is a whole number whose thousands are parted, brokenNumber one with decimals, a date or another number that counts no pieces.
	partedNumber = pattern.Lazy(`(^|[^\d.,])(\d{1,3})[.,’' ](000)($|[^\d.,])`)
	brokenNumber = pattern.Lazy(`\d+(?:[.,:/]\d+)+|[.,]\d+|(?:19|20)\d\d($|[^\d])`)
	// kiloNumber is a number of thousands.
	kiloNumber = pattern.Lazy(`(\d)[kK]($|[^\pL])`)
)

// endingBehindColon is the ending of a word behind a colon, as in Finnish: kpl:n.
var endingBehindColon = pattern.Lazy(`(\pL):\pL{1,3}($|[^\pL])`)

// quoteTokens takes a text apart.
func (l *Lexicon) quoteTokens(text string) []token {
	text = narrowDigits(text)
	text = partedNumber().ReplaceAllString(text, "$1$2$3$4")
	text = kiloNumber().ReplaceAllString(text, "${1}000$2")
	text = endingBehindColon().ReplaceAllString(text, "$1$2")
	var spans []string
	var tokens []token // the words of a span stand where a token of no sign does
	clause, tightNext := 0, false
	var span strings.Builder
	flush := func() {
		if strings.TrimSpace(span.String()) != "" {
			spans = append(spans, span.String())
			tokens = append(tokens, token{clause: clause, tight: tightNext})
		}
		span.Reset()
		tightNext = false
	}
	sign := func(r rune) { flush(); tokens = append(tokens, token{sign: r, clause: clause}) }
	broken := brokenNumber().FindAllStringIndex(text, -1)
	for at := 0; at < len(text); {
		for len(broken) > 0 && at > broken[0][0] {
			broken = broken[1:]
		}
		if len(broken) > 0 && at == broken[0][0] {
			sign(amountSign)
			at = broken[0][1]
			continue
		}
		r, size := utf8.DecodeRuneInString(text[at:])
		next, _ := utf8.DecodeRuneInString(text[at+size:])
		at += size
		switch {
		case r == '.' && at < len(text) && !(next == ' ' && startsSentence(text[at:])):
			span.WriteByte(' ')
		case strings.ContainsRune(".。!！?？;；,，、–—・", r), r == '-' && (next == ' ' || strings.TrimSpace(span.String()) == ""):
			sign(',')
			clause++
		case strings.ContainsRune("(（[【", r):
			flush()
			clause++
			sign('(')
		case strings.ContainsRune(")）]】", r):
			sign(')')
			clause++
		case (r == '-' || r == '\'' || r == '’') && endsInDigit(span.String()):
			flush()
			tightNext = true
		case r == '-' || r == '\'' || r == '’', r == '/' && inInitials(text, at-1):
			span.WriteByte(' ')
		case r == ':' || r == '：':
			sign(':')
			clause++
		case r == '@':
			sign('@')
		case strings.ContainsRune("/／=＝%％+×", r):
			sign(narrowSign(r))
		case unicode.Is(unicode.Sc, r):
			before := span.String()
			span.Reset()
			span.WriteString(l.withoutSigned(before, text[at-size:at]))
			sign('€')
		default:
			span.WriteRune(r)
		}
	}
	flush()
	return l.withWords(tokens, spans)
}

// takeCurrencies takes a currency with which a clause begins that says what it is for, and no amount, for a word for prices: "RM is for one packet",
// "zł/opak.". It reports whether what one is for is a word that is not known: "Rp per bungkus".
func (l *Lexicon) takeCurrencies(tokens []token) (unknown bool) {
	for i, t := range tokens {
		if i > 0 && tokens[i-1].clause == t.clause || t.sign != '€' && (t.sign != 0 || !l.isMoneyWord(t.Text)) {
			continue
		}
		for k := i + 1; k < len(tokens) && k <= i+farOfCurrency && tokens[k].clause == t.clause; k++ {
			per := tokens[k].is(words.QuotePer) || tokens[k].sign == '/'
			switch {
			case per && k+2 == len(tokens) && tokens[k+1].clause == t.clause && tokens[k+1].isWord():
				unknown = true
			case per && (t.sign == 0 || k > i+1): // "$/doz" is one by itself
				tokens[i] = token{Quoted: words.Quoted{Text: t.Text, Kind: t.Kind | words.QuotePrice}, tight: t.tight, clause: t.clause}
			}
			if per || !tokens[k].isWord() {
				break
			}
		}
	}
	return unknown
}

// isMoneyWord reports whether a word is that of a currency, or one that several countries have for their own.
func (l *Lexicon) isMoneyWord(word string) bool {
	return l.NamesCurrency(word) || word != "" && l.Words.FlatPrice(word).Named
}

// farOfCurrency is how many words behind a currency the one stands at most that says what it is for.
const farOfCurrency = 2

// withWords puts the words of the spans between the signs.
func (l *Lexicon) withWords(signs []token, spans []string) (tokens []token) {
	lists := l.Words.Quote(spans)
	for _, t := range signs {
		if t.sign != 0 {
			tokens = append(tokens, t)
			continue
		}
		for i, q := range lists[0] {
			if q.Text == "x" && len(tokens) > 0 && tokens[len(tokens)-1].is(words.QuoteNumber) && i+1 < len(lists[0]) {
				tokens = append(tokens, token{sign: '×', clause: t.clause})
				continue
			}
			if name := strings.ToUpper(q.Text); letterCounts[name] > 0 && strings.Contains(" "+spans[0]+" ", " "+name+" ") && !besideLetter(lists[0], i) {
				q.Kind, q.Count = words.QuoteUnit, letterCounts[name]
			}
			tokens = append(tokens, token{Quoted: q, clause: t.clause, tight: t.tight && i == 0})
		}
		lists, spans = lists[1:], spans[1:]
	}
	return tokens
}

// besideLetter reports whether another letter stands beside one of some words: the M of "M.N." is no thousand.
func besideLetter(all []words.Quoted, i int) bool {
	isLetter := func(i int) bool {
		if i < 0 || i >= len(all) {
			return false
		}
		r, size := utf8.DecodeRuneInString(all[i].Text)
		return size == len(all[i].Text) && unicode.IsLetter(r)
	}
	return isLetter(i-1) || isLetter(i+1)
}

// isLetter reports whether a number of pieces is called by a letter.
func (t token) isLetter() bool {
	return t.is(words.QuoteUnit) && letterCounts[strings.ToUpper(t.Text)] > 0
}

// letterCounts are the letters by which hundreds and thousands are called.
var letterCounts = map[string]float64{"C": 100, "M": 1000}

// withoutSigned takes the letters off the end of a text that make a currency with the sign behind it: C$ is no hundred.
func (l *Lexicon) withoutSigned(text, sign string) string {
	letters := text[strings.LastIndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })+1:]
	if letters != "" && l.NamesCurrency(letters+sign) {
		return strings.TrimSuffix(text, letters)
	}
	return text
}

func endsInDigit(s string) bool {
	return s != "" && unicode.IsDigit(rune(s[len(s)-1]))
}

// inInitials reports whether the slash at a place stands between two single small letters: c/u, s/n.
func inInitials(text string, at int) bool {
	letter := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= 'a' && text[i] <= 'z' }
	return letter(at-1) && letter(at+1) && !letter(at-2) && !letter(at+2)
}

func narrowSign(r rune) rune {
	switch r {
	case '／':
		return '/'
	case '＝':
		return '='
	case '％':
		return '%'
	case '*':
		return '×'
	}
	return r
}

// startsSentence reports whether a text begins a sentence, behind a blank.
func startsSentence(text string) bool {
	first, _ := utf8.DecodeRuneInString(strings.TrimLeft(text, " "))
	return !unicode.IsLower(first) && !unicode.IsDigit(first)
}

// quoteReader finds what a text says.
type quoteReader struct {
	of     quoteOf
	tokens []token
	// priced are the clauses with a word for prices, aside where the first word stands in each that speaks of something else, −1 for none.
	priced []bool
	aside  []int
	// packs are how many the packs hold that the text speaks of, and taken the words that say so and nothing of prices.
	packs []packed
	taken map[int]bool
}

// packed is how many a pack holds.
type packed struct {
	pack  words.Quoted
	count float64
}

func (r *quoteReader) at(i int) token {
	if i < 0 || i >= len(r.tokens) {
		return token{sign: '\n', clause: -1}
	}
	return r.tokens[i]
}

// readClauses finds what the clauses speak of.
func (r *quoteReader) readClauses() {
	later := 0
	for i := range r.tokens { // "packed by 25, but priced each"
		if r.tokens[i].is(words.QuoteBut) {
			later++
		}
		r.tokens[i].clause += later
	}
	n := 1
	if len(r.tokens) > 0 {
		n = r.tokens[len(r.tokens)-1].clause + 2
	}
	r.priced, r.aside, r.taken = make([]bool, n), make([]int, n), map[int]bool{}
	for i := range r.aside {
		r.aside[i] = -1
	}
	for i, t := range r.tokens {
		r.priced[t.clause] = r.priced[t.clause] || t.is(words.QuotePrice)
		if (t.is(words.QuoteAside|words.QuoteFrom) || t.sign == '%' || (t.sign == '+' || t.is(words.QuoteMore)) && r.at(i-1).is(words.QuoteNumber|words.QuoteUnit|words.QuotePart|words.QuoteSingle) || r.ranges(i) || t.is(words.QuoteMultiply) || t.sign == '×') && r.aside[t.clause] < 0 {
			r.aside[t.clause] = i
		}
	}
}

// ranges reports whether a number ends a range: "1 to 49".
func (r *quoteReader) ranges(i int) bool {
	between := r.at(i - 1)
	return r.at(i).is(words.QuoteNumber) && r.at(i-2).is(words.QuoteNumber) && r.at(i-2).Count < r.at(i).Count && !between.is(words.QuoteUnit|words.QuotePack|words.QuoteSet|words.QuotePart) && between.sign != '(' && between.sign != '='
}

// number reports whether a token is a number that may be one of pieces.
func (r *quoteReader) number(i int) (n float64, is bool) {
	t := r.at(i)
	if !t.is(words.QuoteNumber) || t.Count <= 0 || t.is(words.QuoteThe) && t.Count == 1 && !r.at(i+1).isPiece() || r.at(i+1).sign == '%' || r.of != ofCell && (r.at(i-1).sign == '€' || r.at(i+1).sign == '€') {
		return 0, false
	}
	return t.Count, t.Count <= 100 || t.Count <= mostQuoted && (int(t.Count)%50 == 0 || int(t.Count)%12 == 0 || int(t.Count)%25 == 0)
}

// mostQuoted is the greatest number of pieces that prices are quoted for.
const mostQuoted = 10000

// isPiece reports whether a token is a word for a piece, and no other number of them.
func (t token) isPiece() bool {
	return t.is(words.QuoteSingle|words.QuotePart) || t.is(words.QuoteUnit) && t.Count == 1
}

// lot is a number of pieces that a text names, or a pack of a number that it may name elsewhere.
type lot struct {
	from, to int
	count    float64
	of       Lot
	// bare is set where nothing but a number stands there.
	bare bool
	pack words.Quoted
}

// lotAt reads a number of pieces that begins at a token.
func (r *quoteReader) lotAt(i int) (q lot, is bool) {
	t := r.at(i)
	q = lot{from: i, to: i + 1, of: OfPieces}
	if t.is(words.QuotePer) && t.is(words.QuoteSingle|words.QuoteUnit) && r.at(i+1).is(words.QuotePrice) && !r.at(i-1).is(words.QuotePrice) {
		return lot{}, false // each price
	}
	if t.is(words.QuoteHalf) && r.at(i+1).is(words.QuoteUnit) && r.at(i+1).Count > 1 {
		q.to, q.count = i+2, r.at(i+1).Count/2
		return q, true
	}
	if n, is := r.number(i); is {
		return r.numbered(i, n)
	}
	switch {
	case t.sign == '@' && r.of == ofCell:
		q.count = 1
		return q, true
	case t.is(words.QuotePack | words.QuoteSet):
		return r.packAt(i), true
	case t.is(words.QuoteUnit) && t.Count > 1 && r.at(i+1).is(words.QuotePack) && !r.at(i+1).is(words.QuotePer):
		return r.packOf(i, i+1, t.Count), true // dozen packs
	case t.is(words.QuoteUnit) && t.Count > 0:
		if q.count = t.Count; t.Count > 1 && r.at(i+1).isPiece() { // a thousand pieces
			q.to++
		}
		return q, true
	case t.is(words.QuoteSingle):
		q.count = 1
		return q, true
	case t.is(words.QuoteGross) && (r.perBefore(i) > 0 || r.at(i+1).sign == '(' && r.at(i+2).Count == t.Count):
		q.count = t.Count
		return q, true
	case t.is(words.QuotePart) && r.perBefore(i) > 0 && !r.at(i+1).is(words.QuoteNumber):
		q.count = 1
		return q, true
	}
	return lot{}, false
}

// numbered reads what a number counts.
func (r *quoteReader) numbered(i int, n float64) (q lot, is bool) {
	q = lot{from: i, to: i + 1, of: OfPieces, count: n}
	j := i + 1
	if r.at(j).is(words.QuoteBehind) && r.at(j+1).is(words.QuotePack|words.QuoteSet) && r.at(j+1).clause == r.at(i).clause {
		return r.packOf(i, j+1, n), true // 12er-Beutel, 25'li poşet
	}
	switch next := r.at(j); {
	case next.is(words.QuoteGross), next.is(words.QuoteUnit) && next.Count > 1:
		q.to, q.count = j+1, n*next.Count
		return q, n*next.Count <= mostQuoted
	case next.isPiece():
		q.to = j + 1
		for k := j + 1; k <= j+2; k++ { // 10-stks pakker, 36-pc assortment box, 25個入り1袋
			if after := r.at(k); after.is(words.QuotePack|words.QuoteSet) && !after.is(words.QuotePer) && n > 1 {
				return r.packOf(i, k, n), true
			} else if !after.is(words.QuoteBehind) && !after.isWord() && !(after.is(words.QuoteNumber) && after.Count == 1) || after.is(words.QuotePer|words.QuoteThe) {
				break
			}
		}
		return q, true
	case next.is(words.QuotePack|words.QuoteSet) && n == 1:
		q = r.packAt(j)
		q.from = i
		return q, true
	case next.is(words.QuotePack|words.QuoteSet) && (next.tight || next.is(words.QuoteBehind)):
		return r.packOf(i, j, n), true
	case next.is(words.QuotePack | words.QuoteSet): // 40 bags
		return lot{}, false
	}
	q.bare = true
	return q, n > 1 && (int(n)%2 == 0 || int(n)%5 == 0) || n == 1 && r.perBefore(i) > 0 // but not "les 7"
}

// packOf is a pack of a number that stands before the word for it.
func (r *quoteReader) packOf(from, pack int, n float64) lot {
	return lot{from: from, to: pack + 1, count: n, of: r.at(pack).lot(), pack: r.at(pack).Quoted}
}

// lot is what a word for a pack or a set stands for.
func (t token) lot() Lot {
	if t.is(words.QuoteSet) {
		return OfSet
	}
	return OfPack
}

// packAt reads a word for a pack, and behind it how many it holds.
func (r *quoteReader) packAt(i int) lot {
	q := lot{from: i, to: i + 1, of: r.at(i).lot(), pack: r.at(i).Quoted}
	said := false
	for k := i + 1; k <= i+4; k++ {
		t := r.at(k)
		if n, is := r.number(k); is && n > 1 {
			behind := r.at(k + 1)
			if r.either(k) {
				break
			}
			if !behind.is(words.QuotePack) && (said || behind.isPiece()) {
				q.count, q.to = n, k+1
				if behind.isPiece() {
					q.to++
				}
			}
			break
		}
		if t.is(words.QuoteHolds) || t.sign != 0 && strings.ContainsRune("(/:=", t.sign) {
			said = true
			continue
		}
		break
	}
	return q
}

// either reports whether another number stands behind one and a word: 8 or 4.
func (r *quoteReader) either(i int) bool {
	_, two := r.number(i + 2)
	return two && r.at(i+1).sign == 0 && !r.at(i+1).isPiece()
}

// perBefore returns how many tokens before one say that prices are for what follows, zero where none do.
func (r *quoteReader) perBefore(i int) int {
	t := r.at(i - 1)
	switch {
	case t.sign == '/' || t.sign == '=':
		return 1
	case t.is(words.QuotePer | words.QuoteThe):
		if r.at(i - 2).is(words.QuotePer) {
			return 2
		}
		return 1
	case (t.isWord() || t.is(words.QuoteHolds)) && (r.at(i-2).is(words.QuotePer) || r.at(i-2).sign == '/'): // for a full bag, for qty 25
		return 2
	}
	return 0
}

// findPacks finds how many the packs hold of which the text speaks.
func (r *quoteReader) findPacks() {
	for i := range r.tokens {
		if n, is := r.number(i); is && n > 1 {
			r.countPacked(i, n)
			if r.at(i+1).is(words.QuoteBehind) && !r.at(i+2).is(words.QuotePack|words.QuoteSet) {
				r.packs = append(r.packs, packed{count: n})
			}
		}
		if q, is := r.lotAt(i); is && q.of.Bundles() && q.count > 0 && !r.at(i).is(words.QuotePack|words.QuoteSet) {
			r.packs = append(r.packs, packed{q.pack, q.count})
		}
		if !r.at(i).is(words.QuotePack | words.QuoteSet) {
			continue
		}
		if q := r.packAt(i); q.count > 0 {
			r.packs = append(r.packs, packed{q.pack, q.count})
			continue
		}
		for k := i + 1; k <= i+4 && (r.at(k).clause == r.at(i).clause || r.at(k).clause == r.at(i).clause+1 && r.at(k).sign != ','); k++ { // a jar holds 250, Rasiassa on 50 rengasta
			if n, is := r.number(k); is && n > 1 {
				if !r.either(k) && !r.at(k+1).is(words.QuotePack) && (r.at(k+1).isPiece() || r.at(k-1).is(words.QuoteHolds) || r.at(k-1).sign == ':') {
					r.packs = append(r.packs, packed{r.at(i).Quoted, n})
				}
				break
			}
			if r.at(k).sign != 0 && r.at(k).sign != ':' && r.at(k).sign != '(' || r.at(k).is(words.QuotePrice) {
				break
			}
		}
	}
}

// countPacked reads a number that a word for a pack follows, with a word for per or in between: "12 per bag", "40 ferrules in a bag".
func (r *quoteReader) countPacked(i int, n float64) {
	between := false
	for k := i + 1; k <= i+5; k++ {
		t := r.at(k)
		if t.is(words.QuotePack|words.QuoteSet) && between {
			r.packs = append(r.packs, packed{t.Quoted, n})
			for ; i <= k; i++ {
				r.taken[i] = true
			}
			return
		}
		if t.sign == '/' || t.is(words.QuotePer|words.QuoteThe|words.QuoteHolds) && !t.is(words.QuoteNumber|words.QuoteBehind) {
			between = true
			continue
		}
		if !t.isPiece() && !t.isWord() || t.clause != r.at(i).clause {
			return
		}
	}
}

// Strengths of what a text says, from the surest.
const (
	sayPer      = 5 // per 100, beside a word for prices
	sayBeside   = 4 // dozen price
	sayInClause = 3 // the price covers the whole bag
	sayLabel    = 2 // unit of sale: dozen
	sayAlone    = 1
)

// choose returns what the text says most surely.
func (r *quoteReader) choose() quote {
	if n := r.divided(); n > 0 {
		return quote{per: n, lot: OfPieces, strength: sayPer}
	}
	var best lot
	strength, doubtful, several, perSet := 0, false, false, false
	ofOne := r.saysOfOne()
	for i := 0; i < len(r.tokens); i++ {
		q, is := r.lotAt(i)
		if !is || r.taken[q.from] || r.negated(q) || ofOne && r.also(q) {
			continue
		}
		s := r.strength(q)
		perSet = perSet || q.of == OfSet && s > 0 && r.at(q.from-1).is(words.QuotePer)
		switch {
		case s > strength || s == strength && s > 0 && r.far(q) < r.far(best):
			several = several && s == strength
			best, strength = q, s
		case s == strength && s == sayPer && q.of == OfPieces && best.of == OfPieces && q.count > 1 && best.count > 1 && q.count != best.count && q.from >= best.to && !r.restated(q):
			several = true
		case s == 0 && q.count > 1 && r.at(q.from).clause >= 0 && r.aside[r.at(q.from).clause] < 0 && (r.priced[r.at(q.from).clause] && !q.bare || r.of == ofHeading):
			doubtful = true
		}
		i = max(i, q.to-1)
	}
	switch {
	case several, perSet && strength == sayBeside && r.at(best.from).is(words.QuotePart): // per head for irons, wedges per set
		return quote{doubtful: true}
	case strength == 0:
		return quote{doubtful: doubtful}
	case best.of.Bundles():
		return quote{per: r.held(best), lot: best.of, strength: strength}
	}
	return quote{per: best.count, lot: OfPieces, strength: strength}
}

// far is how many words stand between a number of pieces and the nearest word for prices.
func (r *quoteReader) far(q lot) int {
	far := 2 * len(r.tokens)
	for i, t := range r.tokens {
		if !t.is(words.QuotePrice) || t.clause != r.at(q.from).clause {
			continue
		}
		behind := 2 * (i - q.to + 1)
		if first, _ := utf8.DecodeRuneInString(t.Text); i >= q.to && !(IsWide(first) && !unicode.Is(unicode.Thai, first)) {
			behind++ // "price per piece" rather than "bag, price"
		}
		far = min(far, max(2*(q.from-i), behind, 0))
	}
	return far
}

// restated reports whether a number of pieces says again what stands before it: "per gross (144)".
func (r *quoteReader) restated(q lot) bool { return r.at(q.from-1).sign == '(' }

// divided returns by how many prices are to be divided, as the text says, zero where it does not.
func (r *quoteReader) divided() float64 {
	for i, t := range r.tokens {
		if !t.is(words.QuoteDivide) {
			continue
		}
		for k := i + 1; k <= i+5; k++ {
			if n, is := r.number(k); is && n > 1 {
				return n
			}
		}
	}
	return 0
}

// held returns how many a pack holds, zero where that is not known.
func (r *quoteReader) held(q lot) float64 {
	if q.count > 0 {
		return q.count
	}
	only, several := 0.0, false
	for _, p := range r.packs {
		if p.pack.SameThing(q.pack) {
			return p.count
		}
		several = several || only > 0 && only != p.count
		only = p.count
	}
	if only == 0 && q.of == OfPack || q.of == OfSet && len(r.packs) == 0 { // the only number of pieces: "Price per bag (50 pcs)", "set price (8 pcs)"
		for i := range r.tokens {
			if n, is := r.number(i); is && n > 1 && r.aside[r.at(i).clause] < 0 && (r.at(i+1).isPiece() || r.at(i-1).sign == '(' || r.of != ofNote && i >= q.to) {
				several = several || only > 0 && only != n
				only = n
			}
		}
	}
	if several {
		return 0
	}
	return only
}

// saysOfOne reports whether the text says that prices are for one piece.
func (r *quoteReader) saysOfOne() bool {
	for i := range r.tokens {
		if q, is := r.lotAt(i); is && q.of == OfPieces && q.count == 1 && !r.negated(q) && r.strength(q) > sayAlone {
			return true
		}
	}
	return false
}

// also reports whether words beside a set in its clause say that something holds for it too: "also when you take the whole set", "sets as well".
func (r *quoteReader) also(q lot) bool {
	if q.of != OfSet {
		return false
	}
	for i, t := range r.tokens {
		if t.is(words.QuoteAlso) && t.clause == r.at(q.from).clause && (i < q.from || r.at(i+1).clause != t.clause) {
			return true
		}
	}
	return false
}

// negated reports whether a word before a number of pieces in its clause says that it is not so.
func (r *quoteReader) negated(q lot) bool {
	for i := q.from - 1; i >= 0 && i >= q.from-6 && r.at(i).clause == r.at(q.from).clause; i-- {
		switch t := r.at(i); {
		case t.is(words.QuoteBut):
			return false
		case t.is(words.QuoteNot):
			return true
		}
	}
	return false
}

// strength returns how surely prices are for a number of pieces, zero where they are not.
func (r *quoteReader) strength(q lot) int {
	clause := r.at(q.from).clause
	if r.at(q.from).isLetter() && (r.at(q.from-1).sign == '€' || r.at(q.to).sign == '€') { // "$ C" may be of a hundred or of Canada
		return 0
	}
	if aside := r.aside[clause]; aside >= 0 && !(q.from < aside && (q.count == 1 && q.of == OfPieces || r.at(aside).sign == '%' && r.perBefore(q.from) > 0)) {
		return 0
	}
	if r.of == ofNote && q.count == 1 && r.at(q.from).Kind&(words.QuoteSingle|words.QuoteUnit|words.QuoteNumber) == 0 && r.at(q.from).sign == 0 && q.of == OfPieces { // a part, or parts
		if r.priced[clause] && r.at(q.from-1).is(words.QuotePer) && !r.at(q.from-2).is(words.QuoteUnit|words.QuoteNumber|words.QuotePack|words.QuoteSet) { // a dozen of ferrules
			return sayBeside // price per head, those of sets too where these have none of their own
		}
		return sayAlone
	}
	priced := r.priced[clause]
	switch n := r.perBefore(q.from); {
	case n > 0 && r.counted(q.from-n-1):
		return 0 // 12 per bag
	case n > 0 || r.at(q.to).is(words.QuoteAfter):
		from := q.from - n
		leads := from == 0 || r.at(from-1).isWord() && r.at(from-2).is(words.QuoteUnit|words.QuotePack|words.QuoteSet|words.QuoteNumber) || // by the dozen or per hundred
			r.at(from-1).clause != clause || r.at(from-1).sign != 0 && r.at(from-1).sign != '€' || r.at(from-1).is(words.QuoteBut)
		articled := n == 1 && r.at(q.from-1).is(words.QuoteThe)
		if q.bare && r.at(q.from-1).is(words.QuoteThe) && !r.at(q.from-1).is(words.QuotePer) {
			return 0
		}
		switch {
		case priced, r.of != ofNote && clause == 0:
			return sayPer
		case leads && clause > 0 && r.pricedBefore(clause) && !(articled && (q.bare || q.of.Bundles())):
			return sayPer
		case r.of != ofNote:
			return sayAlone
		case r.at(from-1).sign == '€': // $/doz
			return sayInClause
		case articled:
			return 0
		case r.speaksOfPrices() && !q.bare:
			return sayLabel
		case leads && r.at(from).is(words.QuotePer) && q.count > 1:
			return sayAlone
		}
		return 0
	case r.of == ofCell && q.bare && r.at(q.to).is(words.QuotePer):
		return sayPer // 10 for
	case !q.bare && (r.at(q.from-1).is(words.QuotePrice) || r.at(q.to).is(words.QuotePrice) || r.at(q.to-1).is(words.QuotePrice)):
		return sayBeside
	case priced && r.at(q.to).is(words.QuotePer|words.QuoteThe) && r.priceBehind(q.to):
		return sayPer // 12 for the price shown
	case priced && !q.bare:
		return sayInClause
	case r.labelled(q.from):
		return sayLabel
	case r.of == ofCell && !q.bare, r.of == ofHeading && !q.bare && (q.of.Bundles() || q.count > 1 && r.at(q.from).Kind&words.QuoteNumber == 0):
		return sayAlone
	case r.of == ofHeading && q.count == 1 && q.of == OfPieces:
		return sayAlone
	}
	return 0
}

// counted reports whether a token, or that before a word for a piece, is a number of pieces or an amount of money.
func (r *quoteReader) counted(i int) bool {
	if r.at(i).isPiece() && !r.at(i).is(words.QuotePrice) || r.at(i).is(words.QuotePart) {
		i--
	}
	if r.at(i).sign == '€' {
		i--
	}
	_, is := r.number(i)
	return is || r.at(i).sign == amountSign && r.of == ofNote || r.at(i).is(words.QuoteNumber) && (r.at(i-1).sign == '€' || r.at(i+1).sign == '€') && r.of == ofNote
}

// pricedBefore reports whether a clause before one that says nothing else speaks of prices.
func (r *quoteReader) pricedBefore(clause int) bool {
	for c := clause - 1; c >= 0 && c >= clause-2; c-- {
		if r.priced[c] {
			return true
		}
	}
	return false
}

// priceBehind reports whether a word for prices stands behind a token in its clause.
func (r *quoteReader) priceBehind(i int) bool {
	for k := i; k <= i+4 && r.at(k).clause == r.at(i).clause; k++ {
		if r.at(k).is(words.QuotePrice) {
			return true
		}
	}
	return false
}

// labelled reports whether a word for the unit of sale stands before a token, with a sign or two between.
func (r *quoteReader) labelled(i int) bool {
	for k := i - 1; k >= i-3; k-- {
		switch t := r.at(k); {
		case t.is(words.QuoteLabel):
			return true
		case t.sign != ':' && t.sign != '=' && !t.is(words.QuoteHolds|words.QuoteThe):
			return false
		}
	}
	return false
}

// speaksOfPrices reports whether a word for prices stands anywhere.
func (r *quoteReader) speaksOfPrices() bool {
	for _, priced := range r.priced {
		if priced {
			return true
		}
	}
	return false
}
