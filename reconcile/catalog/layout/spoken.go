package layout

import (
	"cmp"
	"slices"
	"strconv"
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
	"example.com/seatline/reconcile/sheet"
)

// People say of a part what it is as they speak: "13.5 across the top of the hosel, hole 9.5 and 32 deep. Four of them, £11.50 each." The name of
// one size stands before it and that of the next behind it, and what is said ends at commas, dashes and the ends of sentences. Each such clause
// is taken by itself, and a size is read where there is one way only to give the names of the clause to its numbers.

const (
	// longestSpoken is how many words a name has at most that stands behind its size: "across the top of the hosel".
	longestSpoken = 7
	// mostSpoken is how many numbers of a clause are held against its names.
	mostSpoken = 6
	// alikeSure is the difference of two scores that says nothing.
	alikeSure = 0.02
	// formSure is the score from which a word is one for a form of tips.
	formSure = 0.8
	// farthestForm is how many words before the size of a tip the word for its form is looked for.
	farthestForm = 4
)

// spokenClauses divides what is said of a part at commas, colons and dashes, and where sentences end. A comma before words that put right what was
// said divides nothing.
func spokenClauses(lex *lexicon.Lexicon, text string) []string {
	var all []string
	from := 0
	for _, at := range betweenSpoken().FindAllStringIndex(text, -1) {
		if at[0] > from && !goesOnBehind(lex, text[from:at[0]], text[at[0]:at[1]], text[at[1]:]) {
			all = append(all, text[from:at[0]])
			from = at[1]
		}
	}
	return append(all, text[from:])
}

// betweenSpoken is what may stand between two clauses.
var betweenSpoken = pattern.Lazy(`[,;:] +|[，；、：。]\s*|[.!?]+ +| +[-–—] +| *[()（）] *`)

// goesOnBehind reports whether a clause goes on behind a sign: a point may be that of a short form, "ext. 13,6", and a dash that of a range.
func goesOnBehind(lex *lexicon.Lexicon, before, sign, behind string) bool {
	next, _ := utf8.DecodeRuneInString(behind)
	last, _ := utf8.DecodeLastRuneInString(before)
	switch strings.TrimSpace(sign) {
	case ".":
		short := strings.Fields(before)
		return unicode.IsNumber(next) && (!bearsNumber(before) || sizetext.RoleNamed(lex, short[len(short)-1]) != "")
	case "-", "–", "—":
		return unicode.IsNumber(last) && unicode.IsNumber(next) || correctsAhead(lex, behind)
	case ":", "：":
		return !bearsNumber(before) && unicode.IsNumber(next) && namesNext(lex, before, behind)
	case ",", ";", "，", "；":
		return correctsAhead(lex, behind) || unicode.IsNumber(next) && correctedBy(lex, before)
	}
	return false
}

// namesNext reports whether what stands before a colon ends with the name of one size, and what stands behind begins with one number that may be
// it: "thicker at the hosel: 13.8 mm". A price, several sizes and a list of numbers are no such.
func namesNext(lex *lexicon.Lexicon, before, behind string) bool {
	written := nameWords(before)
	if name, _ := nameAtEnd(lex, written, false); name == "" {
		return false
	}
	for i, word := range written {
		if lex.Words.JoinsNames(word) {
			if other, _ := nameAtEnd(lex, written[:i], false); other != "" {
				return false // "hosel and bore: 13.5"
			}
		}
	}
	next := betweenSpoken().Split(behind, 3)
	if len(next) > 1 && isBare(strings.TrimSpace(next[1])) || countNumbers(next[0]) != 1 {
		return false
	}
	_, amount := spokenAmount(lex, next[0])
	_, _, priced := spokenPrice(lex, next[0])
	return !amount && !priced
}

// correctsAhead reports whether a text begins with words that put right what was said before, and a number.
func correctsAhead(lex *lexicon.Lexicon, text string) bool {
	number := strings.IndexFunc(text, unicode.IsNumber)
	return number > 0 && sizetext.Corrects(lex, text[:number])
}

// correctedBy reports whether a text ends with a number and words that put it right.
func correctedBy(lex *lexicon.Lexicon, text string) bool {
	number := strings.LastIndexFunc(text, unicode.IsNumber)
	if number < 0 {
		return false
	}
	tail := text[number+1:]
	sign := strings.IndexAny(tail, beforeCorrection) // behind the name of the size
	return sizetext.Corrects(lex, tail) || sign >= 0 && sizetext.Corrects(lex, tail[sign:])
}

// beforeCorrection are the signs before words that put right what stands before them.
const beforeCorrection = ",;，；-–—"

// saysCorrection reports whether a clause of a text is made of words that put right what was said before.
func saysCorrection(lex *lexicon.Lexicon, text string) bool {
	return slices.ContainsFunc(betweenSpoken().Split(text, -1), func(clause string) bool { return sizetext.Corrects(lex, clause) })
}

// speak adds to an item what a text says of it in sentences.
func (c card) speak(lex *lexicon.Lexicon, text string, at sheet.Ref) card {
	for _, clause := range spokenClauses(lex, text) {
		said, left := spokenIn(lex, strings.TrimRight(strings.Trim(clause, sizetext.AroundNames), ".!"))
		for _, e := range said {
			e.at, e.valueAt = at, at
			c = append(c, e)
		}
		if left != "" && !hasRole(c, catalog.Description) {
			c = append(c, entry{label: "description", value: left, at: at, valueAt: at, role: catalog.Description})
		}
	}
	return c
}

// spokenIn returns what a clause gives: sizes, a price, a count; and the words that it begins with, where these say something else.
func spokenIn(lex *lexicon.Lexicon, clause string) (said []entry, left string) {
	if head, tail, ok := cutAmount(lex, clause); ok {
		said, left = spokenIn(lex, head)
		amount, _ := spokenIn(lex, tail)
		return append(said, amount...), left
	}
	rest := clause
	if price, before, ok := spokenPrice(lex, clause); ok {
		said, rest = append(said, price), before
	}
	if rest == "" || lex.Words.SaidBeside(rest) || len(said) > 0 && namesPrice(lex, rest) {
		return said, ""
	}
	if amount, ok := spokenAmount(lex, rest); ok {
		return append(said, amount), ""
	}
	if count := lex.Words.CountSaid(rest); count > 0 {
		return append(said, entry{label: "stock", value: strconv.Itoa(count), role: catalog.Stock}), ""
	}
	sizes := spokenSizes(lex, rest)
	for _, s := range sizes {
		said = append(said, entry{label: s.Name, value: s.Text, role: catalog.Role(s.Role)})
	}
	if len(sizes) > 0 {
		rest = rest[:sizes[0].From]
	}
	return said, saying(lex, rest)
}

// spokenAmount is amountIn for one number, whose name stands before it or is one for a stock.
func spokenAmount(lex *lexicon.Lexicon, text string) (amount entry, ok bool) {
	amount, ok = amountIn(lex, text)
	return amount, ok && countNumbers(amount.value) == 1 && (amount.role != catalog.Price || amount.value != text)
}

// cutAmount cuts a clause at a word behind which it gives a price or a count: "22 long and 75 in stock".
func cutAmount(lex *lexicon.Lexicon, clause string) (head, tail string, ok bool) {
	written := strings.Fields(clause)
	for i, word := range written {
		if i == 0 || i+1 == len(written) || !lex.Words.JoinsNames(word) {
			continue
		}
		tail = strings.Join(written[i+1:], " ")
		if _, before, priced := spokenPrice(lex, tail); priced && before == "" || lex.Words.CountSaid(tail) > 0 {
			return strings.Join(written[:i], " "), tail, true
		}
		if _, given := spokenAmount(lex, tail); given {
			return strings.Join(written[:i], " "), tail, true
		}
	}
	return "", "", false
}

// leaves returns the numbers in a text about a part that can be sizes, by their decimals or units, and stand in nothing that the item has. One
// that follows another size, and can be of its kind too, makes that doubtful: it is put beside it, for what they mean together.
func (c card) leaves(lex *lexicon.Lexicon, text string, at sheet.Ref) []string {
	var left []string
	before := c.sizeBefore(at)
	for _, place := range sizetext.Measure().FindAllStringIndex(text, 2*mostSpoken) {
		number := text[place[0]:place[1]]
		if !lexicon.StandsFree(text, place[0], place[1]) || !strings.ContainsAny(number, sizetext.DecimalMarks) && !sizetext.HasUnit(number) || !mayBeSize(lex, number) {
			continue
		}
		near, from := -1, -1
		has := false
		for i := range c {
			if c[i].valueAt != at || i == 0 || c[i].role == catalog.Description {
				continue
			}
			if has = strings.Contains(c[i].value, number); has {
				break
			}
			if size := strings.LastIndex(text[:place[0]], c[i].value); size > from && traits.Of[c[i].role].Want == traits.Length {
				near, from = i, size
			}
		}
		switch {
		case has:
		case near >= 0 && c[near].mayBe(lex, number):
			c[near].value = text[from:place[1]]
		case near < 0 && before >= 0 && c[before].mayBe(lex, number):
			c[before].value += ", " + text[:place[1]]
		default:
			left = append(left, number)
		}
	}
	return left
}

// mayBe reports whether another number may be meant for a size: it is possible, and of about the same size.
func (e entry) mayBe(lex *lexicon.Lexicon, number string) bool {
	one, other := lex.Read(sizetext.Measure().FindString(e.value), value.Context{Want: value.WantLength}), lex.Read(number, value.Context{Want: value.WantLength})
	size := func(r value.Reading) float64 {
		if r.Kind == value.Length {
			return traits.MM(r.Dim.Nominal())
		}
		return r.Number
	}
	a, b := size(one), size(other)
	return (sizetext.Size{Role: string(e.role), Text: number}).Possible(lex) && max(a, b) < mostApart*min(a, b)
}

// mostApart is how many times as much one of two numbers is at most that may be meant for one size.
const mostApart = 1.5

// sizeBefore returns the entry of the last size of an item that stands in the cell before one, -1 where that has none.
func (c card) sizeBefore(at sheet.Ref) int {
	for i, e := range slices.Backward(c) {
		if e.valueAt.Row == at.Row && e.valueAt.Col == at.Col-1 && traits.Of[e.role].Want == traits.Length {
			return i
		}
	}
	return -1
}

// saying returns what the words before a size say, without one at the end that leads to it; nothing where they are words that names are made of.
func saying(lex *lexicon.Lexicon, text string) string {
	written := strings.Fields(strings.Trim(text, sizetext.AroundNames))
	for len(written) > 0 && lex.Words.JoinsNames(written[len(written)-1]) {
		written = written[:len(written)-1]
	}
	if text = strings.Join(written, " "); lex.Words.Means("filler", text) {
		return ""
	}
	return text
}

// bearsNumber reports whether a text has a number.
func bearsNumber(text string) bool { return strings.ContainsFunc(text, unicode.IsNumber) }

// countNumbers counts the numbers in a text.
func countNumbers(text string) int { return len(sizetext.Measure().FindAllStringIndex(text, 3)) }

// spokenPrice returns the one price of a clause, with what says for what it is, and what stands before it. Words that nothing is known of make
// it the price of something else: "20 EUR tooling".
func spokenPrice(lex *lexicon.Lexicon, clause string) (price entry, before string, ok bool) {
	written := strings.Fields(clause)
	for i := range written {
		if !bearsNumber(written[i]) {
			continue
		}
		from, to, money := moneyAt(lex, written, i)
		name := 0
		if lead := leadToPrice(lex, written[:max(from, 0)]); to > 0 && lead > 0 {
			name, money = lead, true
		} else if i > 0 && to-from < 2 && namesPrice(lex, written[i-1]) && isAmount(written[i]) { // Rs 38
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
		if !sure || bearsNumber(strings.Join(behind[per:], " ")) || // "0.38 each from 500"
			!mayPrecedePrice(lex, before, per+name > 0) {
			return entry{}, "", false
		}
		text = strings.Join(written[from:to+per], " ")
		return entry{label: "price", value: strings.Trim(text, "."), role: catalog.Price}, before, true
	}
	return entry{}, "", false
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
// currency says so, and not just that it has cents.
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
	if withCents().MatchString(written[at]) {
		return at, at + 1, false
	}
	return 0, 0, false
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
	role, score := roleOfLabel(lex, strings.Trim(word, sizetext.AroundNames+"."))
	return role == catalog.Price && score >= lexicon.HeadingScore
}

// isAmount reports whether a word is a number, with decimals or none.
func isAmount(word string) bool {
	return sizetext.Measure().FindString(word) == strings.TrimRight(word, ".") && word != ""
}

// withCents is an amount with two decimals.
var withCents = pattern.Lazy(`^\d*[.,]\d\d$`)

// perPiece returns how many of the words behind an amount say that it is for one piece.
func perPiece(lex *lexicon.Lexicon, amount string, behind []string) int {
	for n := 1; n <= min(len(behind), mostPerWords); n++ {
		if _, lot := lex.PricePerOf(amount + " " + strings.Join(behind[:n], " ")); lot == lexicon.OfPieces {
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
	if role, score := roleOfLabel(lex, before); role == catalog.Price && score >= lexicon.HeadingScore {
		return true
	}
	if amount, ok := amountIn(lex, before); ok && amount.role == catalog.Stock {
		return true
	}
	return said && len(spokenSizes(lex, before)) > 0
}

// spokenNumber is a number of a clause with what may be its name, before it and behind it, each with how many words it has.
type spokenNumber struct {
	at            []int
	before, after string
	wordsBefore   int
	wordsAfter    int
	// gapBefore is how many words stand between it and the number before.
	gapBefore int
}

// spokenSizes returns the sizes of a clause with their names, each before or behind its size. Where the names can be given to the numbers in
// several ways, only what all of these say alike is returned.
func spokenSizes(lex *lexicon.Lexicon, clause string) []sizetext.Size {
	numbers := spokenNumbers(lex, clause)
	if len(numbers) == 0 || len(numbers) > mostSpoken {
		return nil
	}
	if len(numbers) == 1 && numbers[0].before != "" && numbers[0].after != "" { // "the hosel is 13.5 across"
		both := numbers[0].before + " " + numbers[0].after
		if s := sizeCalled(lex, clause, numbers[0], both, true); s.Role != "" && s.Possible(lex) {
			return []sizetext.Size{s}
		}
	}
	if s, ok := namedAndCorrected(lex, clause, numbers); ok {
		return []sizetext.Size{s}
	}
	unnameDepths(lex, clause, numbers)
	return withDepth(lex, clause, numbers, surelyNamed(waysToName(lex, clause, numbers, 0)))
}

// surelyNamed returns the sizes that all of the ways say alike which give names to most numbers.
func surelyNamed(ways [][]sizetext.Size) []sizetext.Size {
	most := 0
	for _, way := range ways {
		most = max(most, len(way))
	}
	ways = slices.DeleteFunc(ways, func(way []sizetext.Size) bool { return len(way) < most })
	var sizes []sizetext.Size
	for _, s := range ways[0] {
		if !slices.ContainsFunc(ways[1:], func(way []sizetext.Size) bool {
			return !slices.ContainsFunc(way, func(o sizetext.Size) bool { return o.Role == s.Role && o.Text == s.Text })
		}) {
			sizes = append(sizes, s)
		}
	}
	return sizes
}

// namedAndCorrected returns the size of a clause of two numbers, the second of which puts right the first behind its name: "13.2 at the base, I
// mean 13.4".
func namedAndCorrected(lex *lexicon.Lexicon, clause string, numbers []spokenNumber) (s sizetext.Size, ok bool) {
	if len(numbers) != 2 {
		return s, false
	}
	first, second := numbers[0], numbers[1]
	between := clause[first.at[1]:second.at[0]]
	comma := strings.IndexAny(between, beforeCorrection)
	if comma < 0 || !sizetext.Corrects(lex, between[comma:]) {
		return s, false
	}
	if first.after, first.wordsAfter = nameAtStart(lex, nameWords(between[:comma]), true); first.after == "" {
		return s, false
	}
	s = sizeCalled(lex, clause, first, first.after, false)
	s.Text += ", " + strings.Trim(between[comma:], sizetext.AroundNames) + " " + clause[second.at[0]:second.at[1]]
	return s, s.Role != ""
}

// spokenNumbers returns the numbers of a clause with their names.
func spokenNumbers(lex *lexicon.Lexicon, clause string) []spokenNumber {
	places := spokenPlaces(lex, clause)
	var numbers []spokenNumber
	from := 0
	for i, at := range places {
		n := spokenNumber{at: at}
		end := len(clause)
		if i+1 < len(places) {
			end = places[i+1][0]
		}
		before, after := nameWords(clause[from:at[0]]), nameWords(clause[at[1]:end])
		from = at[1]
		n.gapBefore = len(before)
		if !lexicon.StandsFree(clause, at[0], at[1]) {
			numbers = append(numbers, n)
			continue
		}
		tip := isTipName(lex, clause[at[0]:at[1]])
		n.before, n.wordsBefore = nameAtEnd(lex, before, tip)
		n.after, n.wordsAfter = nameAtStart(lex, after, tip)
		numbers = append(numbers, n)
	}
	return numbers
}

// nameWords are the words of what stands beside a size.
func nameWords(gap string) []string {
	return strings.Fields(strings.TrimRight(strings.Trim(gap, sizetext.AroundNames), "."))
}

// spokenPlaces returns where the sizes of a clause stand. Two that a word makes one, "9.35 or 9.5", are two where each has a name of its own:
// "hole 9.5 and 32 deep".
func spokenPlaces(lex *lexicon.Lexicon, clause string) [][]int {
	raw := sizetext.Measure().FindAllStringIndex(clause, 2*mostSpoken)
	var all [][]int
	for i, at := range raw {
		if i == 0 || !sizetext.Joins(lex, clause[raw[i-1][0]:raw[i-1][1]], clause[raw[i-1][1]:at[0]], clause[at[0]:at[1]]) {
			all = append(all, slices.Clone(at))
			continue
		}
		last := all[len(all)-1]
		end := len(clause)
		if i+1 < len(raw) {
			end = raw[i+1][0]
		}
		between := strings.TrimSpace(clause[raw[i-1][1]:at[0]])
		before, after := nameWords(clause[:last[0]]), nameWords(clause[at[1]:end])
		_, own := nameAtEnd(lex, before, true)
		_, other := nameAtStart(lex, after, true)
		if strings.ContainsFunc(between, unicode.IsLetter) && !sizetext.Corrects(lex, between) && own > 0 && other > 0 {
			all = append(all, slices.Clone(at))
			continue
		}
		last[1] = at[1]
	}
	return all
}

// nameAtEnd returns the name of a size that some words end with, behind the last that joins names, and of how many of them it is. Tip says
// whether it may be that of a tip.
func nameAtEnd(lex *lexicon.Lexicon, written []string, tip bool) (name string, count int) {
	for i, word := range slices.Backward(written) {
		if lex.Words.JoinsNames(word) {
			written = written[i+1:]
			break
		}
	}
	led := 0
	for led+1 < len(written) && leadsToName(lex, written[len(written)-1-led]) {
		led++
	}
	written = written[:len(written)-led]
	if name, count = spokenName(lex, len(written), tip, func(n int) string { return strings.Join(written[len(written)-n:], " ") }); count > 0 {
		count += led
	}
	return name, count
}

// leadsToName reports whether a word that goes with names means a size by itself in some language, as "di" does.
func leadsToName(lex *lexicon.Lexicon, word string) bool {
	return sizetext.RoleNamed(lex, word) != "" && lex.Words.Means("filler", word)
}

// nameAtStart returns the name of a size that some words begin with, before the first that joins names, and of how many of them it is. Tip says
// whether it may be that of a tip.
func nameAtStart(lex *lexicon.Lexicon, written []string, tip bool) (name string, count int) {
	if i := slices.IndexFunc(written, func(word string) bool { return lex.Words.JoinsNames(word) }); i >= 0 {
		written = written[:i]
	}
	led := 0
	for led+1 < len(written) && leadsToName(lex, written[led]) {
		led++
	}
	written = written[led:]
	if name, count = spokenName(lex, len(written), tip, func(n int) string { return strings.Join(written[:n], " ") }); count > 0 {
		count += led
	}
	return name, count
}

// spokenName returns the surest of the names of one word and more, and how many words it has: of several that are as sure the one that says
// most, without words that add nothing. "Bout" is French for the tip and "petit bout" for the thin end: what is no size of tips has the name
// of another.
func spokenName(lex *lexicon.Lexicon, words int, tip bool, name func(n int) string) (best string, count int) {
	most := 0.0
	names := make([]nameScore, min(longestSpoken, words)+1)
	for n := 1; n < len(names); n++ {
		if names[n] = nameScoreOf(lex, name(n)); !tip && names[n].role == string(catalog.TipTaken) {
			names[n] = nameScore{}
		}
		most = max(most, names[n].score)
	}
	role := ""
	for n := len(names) - 1; n > 0 && role == ""; n-- {
		if names[n].role != "" && names[n].score >= most-alikeSure {
			role = names[n].role
		}
	}
	for n := 1; n < len(names); n++ {
		if role != "" && names[n].role == role && names[n].score >= most-alikeSure {
			return name(n), n
		}
	}
	return "", 0
}

// nameScore is the role of a size that a text names, and how sure that is.
type nameScore struct {
	role  string
	score float64
}

// oftenSpoken are the sizes that letters speak of; words for others have to be surer.
var oftenSpoken = map[catalog.Role]bool{catalog.HoselOD: true, catalog.HoselLength: true, catalog.Bore: true, catalog.BoreDepth: true, catalog.TipTaken: true,
	catalog.BaseOD: true, catalog.TopOD: true, catalog.Length: true}

// leastRare is the least score of the name of any other size.
const leastRare = lexicon.Understood

// nameScoreOf is that of a text beside a number: a word for a form of hosels, "at the top", is one for a size there.
func nameScoreOf(lex *lexicon.Lexicon, text string) nameScore {
	for _, m := range lex.Match(text) {
		switch traits.Of[catalog.Role(m.Role)].Want {
		case traits.Text:
		case traits.Length:
			if m.Score < leastRare && !oftenSpoken[catalog.Role(m.Role)] {
				return nameScore{}
			}
			return nameScore{m.Role, m.Score}
		default:
			return nameScore{}
		}
	}
	return nameScore{}
}

// waysToName returns all ways to give names to the numbers of a clause from one on, each name to one number and each role once; taken is how
// many words of what stands before the first of them are the name of the number before.
func waysToName(lex *lexicon.Lexicon, clause string, numbers []spokenNumber, taken int) [][]sizetext.Size {
	if len(numbers) == 0 {
		return [][]sizetext.Size{nil}
	}
	n := numbers[0]
	var ways [][]sizetext.Size
	with := func(s sizetext.Size, taken int) {
		if first := sizetext.Measure().FindString(s.Text); s.Role != "" && !s.Possible(lex) && !(sizetext.Size{Role: s.Role, Text: first}).Possible(lex) {
			return
		}
		for _, way := range waysToName(lex, clause, numbers[1:], taken) {
			switch {
			case s.Role == "":
				ways = append(ways, way)
			case !slices.ContainsFunc(way, func(o sizetext.Size) bool { return o.Role == s.Role }):
				ways = append(ways, append([]sizetext.Size{s}, way...))
			}
		}
	}
	if n.before != "" && taken+n.wordsBefore <= n.gapBefore {
		with(sizeCalled(lex, clause, n, n.before, true), 0)
	}
	if n.after != "" {
		with(sizeCalled(lex, clause, n, n.after, false), n.wordsAfter)
	}
	if s := tipOfForm(lex, clause, n); s.Role != "" && n.before == "" {
		with(s, 1)
	}
	with(sizetext.Size{}, 0)
	return ways
}

// sizeCalled is a number of a clause with a name. The form of a tip belongs to its size: ".355 taper".
func sizeCalled(lex *lexicon.Lexicon, clause string, n spokenNumber, name string, before bool) sizetext.Size {
	s := sizetext.Size{Role: nameScoreOf(lex, name).role, Name: name, Text: clause[n.at[0]:n.at[1]], From: n.at[0]}
	if at := strings.LastIndex(clause[:n.at[0]], name); before && at >= 0 {
		s.From = at
	}
	if sizetext.RoleNamed(lex, name) != s.Role {
		s.Name = cmp.Or(sizetext.NameOf(catalog.Role(s.Role)), name)
	}
	if catalog.Role(s.Role) == catalog.TipTaken {
		s.Text += formBehind(lex, clause[n.at[1]:])
	}
	return s
}

// tipOfForm is a number of a clause that is one by which tips are called, with the word for their form behind it or before it, "pointes coniques
// de .355"; one without a role otherwise.
func tipOfForm(lex *lexicon.Lexicon, clause string, n spokenNumber) sizetext.Size {
	form := cmp.Or(formBehind(lex, clause[n.at[1]:]), formBefore(lex, clause[:n.at[0]]))
	text := clause[n.at[0]:n.at[1]]
	if form == "" || !isTipName(lex, text) {
		return sizetext.Size{}
	}
	return sizetext.Size{Role: string(catalog.TipTaken), Name: sizetext.NameOf(catalog.TipTaken), Text: text + form, From: n.at[0]}
}

// formBefore returns one of the last words of a text that is for the form of a tip, with a blank before it; empty where none is.
func formBefore(lex *lexicon.Lexicon, text string) string {
	written := nameWords(text)
	for _, word := range written[max(0, len(written)-farthestForm):] {
		if hit, found := lex.Words.BoreForm(word); found && hit.Score >= formSure && !bearsNumber(text) {
			return " " + word
		}
	}
	return ""
}

// isTipName reports whether a number is one by which tips are called.
func isTipName(lex *lexicon.Lexicon, text string) bool {
	switch one := lex.Read(text, value.Context{Want: value.WantLength}); one.Kind {
	case value.Length:
		return traits.IsTipName(traits.MM(one.Dim.Nominal()))
	case value.Number:
		return slices.ContainsFunc(traits.LengthUnits[:3], func(unit string) bool { return traits.IsTipName(one.Number * traits.UnitMM[unit]) })
	}
	return false
}

// formBehind returns the word for the form of a tip that a text begins with, with the blank before it; empty where there is none.
func formBehind(lex *lexicon.Lexicon, text string) string {
	written := strings.Fields(text)
	if len(written) == 0 || !strings.HasPrefix(text, " ") {
		return ""
	}
	word := strings.Trim(written[0], sizetext.AroundNames+".")
	if hit, found := lex.Words.BoreForm(word); !found || hit.Score < formSure {
		return ""
	}
	return " " + word
}
