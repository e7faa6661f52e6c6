// Package spoken reads what people say of parts in letters and talks, sentence by sentence: sizes, prices and counts with their names, the part
// number that a text begins with or comes to, and what puts right something said before. It knows texts alone, and not where they stand.
package spoken

import (
	"cmp"
	"math"
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
	"example.com/seatline/reconcile/internal/pattern"
)

// People say of a part what it is as they speak: "13.5 across the top of the hosel, hole 9.5 and 32 deep. Four of them, £11.50 each." The name of
// one size stands before it and that of the next behind it, and what is said ends at commas, dashes and the ends of sentences. Each such clause
// is taken by itself, and a size is read where there is one way only to give the names of the clause to its numbers.

const (
	// longestSpoken is how many words a name has at most that stands behind its size: "across the top of the hosel".
	longestSpoken = 7
	// MostNumbers is how many numbers of a clause are held against its names.
	MostNumbers = 6
	// formSure is the score from which a word is one for a form of tips.
	formSure = 0.8
	// farthestForm is how many words before the size of a tip the word for its form is looked for.
	farthestForm = 4
)

// Clauses divides what is said of a part at commas, colons and dashes, and where sentences end. A comma before words that put right what was
// said divides nothing.
func Clauses(lex *lexicon.Lexicon, text string) []string {
	return slices.Clip(lexicon.Recall(lex, "clauses", text, func() []string { return cutClauses(lex, text) }))
}

func cutClauses(lex *lexicon.Lexicon, text string) []string {
	var all []string
	from := 0
	for _, at := range placesBetween(text) {
		if at[0] > from && !goesOnBehind(lex, text[from:at[0]], text[at[0]:at[1]], text[at[1]:]) {
			all = append(all, text[from:at[0]])
			from = at[1]
		}
	}
	return append(all, text[from:])
}

// betweenClauses is what may stand between two clauses.
var betweenClauses = pattern.Lazy(`[,;:] +|[，；、：。]\s*|[.!?]+ +| +[-–—] +| *[()（）] *`)

// placesBetween returns where in a text that stands, without the expression, which is slow at finding the next place.
func placesBetween(text string) (all [][]int) {
	for at := 0; at < len(text); {
		if end := betweenEnd(text, at); end > at {
			all = append(all, []int{at, end})
			at = end
			continue
		}
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	return all
}

// betweenEnd returns where what stands between two clauses ends that begins at a place of a text, 0 where nothing such does.
func betweenEnd(text string, at int) int {
	behind := func(at int, of string) int { return len(text) - len(strings.TrimLeft(text[at:], of)) }
	from := behind(at, " ")
	sign, size := utf8.DecodeRuneInString(text[from:])
	switch end := behind(from+size, " "); {
	case strings.ContainsRune("()（）", sign):
		return end
	case from > at:
		if strings.ContainsRune(sizetext.Dashes, sign) && end > from+size {
			return end
		}
	case strings.ContainsRune("，；、：。", sign):
		return behind(from+size, " \t\n\f\r")
	case sign == ',' || sign == ';' || sign == ':':
		if end > from+size {
			return end
		}
	case sign == '.' || sign == '!' || sign == '?':
		stop := behind(from, ".!?")
		if end := behind(stop, " "); end > stop {
			return end
		}
	}
	return 0
}

// goesOnBehind reports whether a clause goes on behind a sign: a point may be that of a short form, "ext. 13,6", and a dash that of a range.
func goesOnBehind(lex *lexicon.Lexicon, before, sign, behind string) bool {
	next, _ := utf8.DecodeRuneInString(behind)
	last, _ := utf8.DecodeLastRuneInString(before)
	switch strings.TrimSpace(sign) {
	case ".":
		short := strings.Fields(before)
		return unicode.IsNumber(next) && (!lexicon.BearsNumber(before) || sizetext.RoleNamed(lex, short[len(short)-1]) != "")
	case "-", "–", "—":
		return unicode.IsNumber(last) && unicode.IsNumber(next) || CorrectsAhead(lex, behind)
	case ":", "：":
		return !lexicon.BearsNumber(before) && unicode.IsNumber(next) && namesNext(lex, before, behind)
	case ",", ";", "，", "；":
		return CorrectsAhead(lex, behind) || unicode.IsNumber(next) && CorrectedBy(lex, before)
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
	next := betweenClauses().Split(behind, 3)
	if len(next) > 1 && lexicon.IsBare(strings.TrimSpace(next[1])) || sizetext.CountNumbers(next[0]) != 1 {
		return false
	}
	_, amount := amountOf(lex, next[0])
	_, _, priced := priceOf(lex, next[0])
	return !amount && !priced
}

// Value is what a text says under a name: a size, a price, a count, a description.
type Value struct {
	Label, Text string
	Role        catalog.Role
}

// Values returns what a text says in sentences, in their order: values, and as a description the first words that say something else.
func Values(lex *lexicon.Lexicon, text string) (all []Value) {
	described := false
	for _, clause := range Clauses(lex, text) {
		if deniedClause(lex, clause) {
			continue
		}
		said, left := valuesOf(lex, strings.TrimRight(strings.Trim(clause, sizetext.AroundNames), ".!"))
		all = append(all, said...)
		if left != "" && !described && !lexicon.IsBare(left) {
			all = append(all, Value{Label: "description", Text: left, Role: catalog.Description})
			described = true
		}
	}
	return all
}

// valuesOf returns what a clause gives: sizes, a price, a count; and the words that it begins with, where these say something else.
func valuesOf(lex *lexicon.Lexicon, clause string) (said []Value, left string) {
	if head, tail, ok := cutAmount(lex, clause); ok {
		said, left = valuesOf(lex, head)
		amount, _ := valuesOf(lex, tail)
		return append(said, amount...), left
	}
	rest := clause
	if price, before, ok := priceOf(lex, clause); ok {
		said, rest = append(said, price), before
	}
	if rest == "" || lex.Words.SaidBeside(rest) || len(said) > 0 && namesPrice(lex, rest) {
		return said, ""
	}
	if amount, ok := amountOf(lex, rest); ok && !lex.Words.SaysLasting(rest) {
		return append(said, amount), ""
	}
	if count := lex.Words.CountSaid(rest); count > 0 {
		return append(said, Value{Label: "stock", Text: strconv.Itoa(count), Role: catalog.Stock}), ""
	}
	sizes := Sizes(lex, rest)
	sizes = append(sizes, Slipped(lex, rest, sizes)...)
	slices.SortFunc(sizes, func(a, b sizetext.Size) int { return cmp.Compare(a.From, b.From) })
	for _, s := range sizes {
		said = append(said, Value{Label: s.Name, Text: s.Text, Role: catalog.Role(s.Role)})
	}
	if len(sizes) > 0 {
		rest = rest[:sizes[0].From]
	}
	return said, Saying(lex, rest)
}

// Slipped returns the sizes of a clause, beside others of it, whose name stands before or behind a number that is impossible, and would be possible with its point elsewhere:
// "bore 95" among others of 9.5. They are no less said, and where they are read they are held.
func Slipped(lex *lexicon.Lexicon, clause string, sizes []sizetext.Size) (all []sizetext.Size) {
	numbers := numbersOf(lex, clause)
	if len(numbers) > MostNumbers {
		return nil
	}
	for i, n := range numbers {
		var s sizetext.Size
		if isNameAhead(lex, numbers, i) {
			s = sizeCalled(lex, clause, n, n.before, true)
		} else if isNameBehind(lex, clause, numbers, i) {
			s = sizeCalled(lex, clause, n, n.after, false)
		}
		if !isSlip(lex, s) || slices.ContainsFunc(slices.Concat(sizes, all), func(o sizetext.Size) bool { return o.Role == s.Role || o.From == n.at[0] }) {
			continue
		}
		all = append(all, s)
	}
	return all
}

// isNameAhead reports whether the name before one of some numbers is its own, and none of that before: "9.5 hole 95".
func isNameAhead(lex *lexicon.Lexicon, numbers []clauseNumber, i int) bool {
	n := numbers[i]
	alone := len(numbers) == 1 && n.wordsBefore == n.gapBefore
	return n.before != "" && !nameTaken(numbers, i) && (alone || nameScoreOf(lex, n.before).score >= lexicon.HeadingScore)
}

// nameTaken reports whether the name before one of some numbers is that of the number before, which has no other.
func nameTaken(numbers []clauseNumber, i int) bool {
	return i > 0 && numbers[i-1].after != "" && (numbers[i-1].before == "" || nameTaken(numbers, i-1)) && numbers[i].wordsBefore+numbers[i-1].wordsAfter > numbers[i].gapBefore
}

// isNameBehind reports whether the name behind one of some numbers with a unit is its own, where it has none before, and no number behind may have that
// one: "95 mm bore".
func isNameBehind(lex *lexicon.Lexicon, clause string, numbers []clauseNumber, i int) bool {
	n := numbers[i]
	if n.before != "" && !nameTaken(numbers, i) || n.after == "" || !sizetext.HasUnit(clause[n.at[0]:n.at[1]]) {
		return false
	}
	if i+1 == len(numbers) {
		return true
	}
	next := numbers[i+1]
	return next.before == "" || next.wordsBefore+n.wordsAfter <= next.gapBefore || next.after != ""
}

// isSlip reports whether a size is impossible, and would be possible with its point elsewhere or its first digits the other way round, or has its unit
// and a sure name.
func isSlip(lex *lexicon.Lexicon, s sizetext.Size) bool {
	number, ok := sizetext.Number(lex, s.Text)
	if !ok || s.Role == "" || catalog.Role(s.Role) == catalog.TipTaken || s.Possible(lex) {
		return false
	}
	possible := sizetext.PossibleNumber
	if sizetext.HasUnit(s.Text) {
		if nameScoreOf(lex, s.Name).score >= lexicon.HeadingScore {
			return true
		}
		possible = sizetext.PossibleAs
	}
	numbers := []float64{number / 100, number / 10, number * 10}
	if exchanged, ok := exchangedDigits(number); ok {
		numbers = append(numbers, exchanged)
	}
	return slices.ContainsFunc(numbers, func(n float64) bool { return possible(catalog.Role(s.Role), n) })
}

// exchangedDigits returns a number of two digits before its point with these the other way round: 13.2 for 31.2.
func exchangedDigits(number float64) (exchanged float64, ok bool) {
	whole := math.Trunc(number)
	tens, ones := math.Trunc(whole/10), math.Mod(whole, 10)
	return ones*10 + tens + number - whole, tens >= 1 && tens < 10 && number != whole
}

// MayMean reports whether a number may be meant for a size of a role that a text gives: it is possible, and of about the same size.
func MayMean(lex *lexicon.Lexicon, role catalog.Role, size, number string) bool {
	a, _ := sizetext.Number(lex, sizetext.First(size))
	b, _ := sizetext.Number(lex, number)
	return (sizetext.Size{Role: string(role), Text: number}).Possible(lex) && max(a, b) < mostApart*min(a, b)
}

// mostApart is how many times as much one of two numbers is at most that may be meant for one size.
const mostApart = 1.5

// Saying returns what the words before a size say, without one at the end that leads to it; nothing where they are words that names are made of.
func Saying(lex *lexicon.Lexicon, text string) string {
	written := strings.Fields(strings.Trim(text, sizetext.AroundNames))
	for len(written) > 0 && lex.Words.JoinsNames(written[len(written)-1]) {
		written = written[:len(written)-1]
	}
	if text = strings.Join(written, " "); lex.Words.Means("filler", text) || lex.Words.LeadsToSizes(text) {
		return ""
	}
	return text
}

// clauseNumber is a number of a clause with what may be its name, before it and behind it, each with how many words it has.
type clauseNumber struct {
	at            []int
	before, after string
	wordsBefore   int
	wordsAfter    int
	// gapBefore is how many words stand between it and the number before.
	gapBefore int
}

// Sizes returns the sizes of a clause with their names, each before or behind its size. Where the names can be given to the numbers in
// several ways, only what all of these say alike is returned.
func Sizes(lex *lexicon.Lexicon, clause string) []sizetext.Size {
	numbers := numbersOf(lex, clause)
	if len(numbers) == 0 || len(numbers) > MostNumbers {
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

// numbersOf returns the numbers of a clause with their names.
func numbersOf(lex *lexicon.Lexicon, clause string) []clauseNumber {
	places := placesOf(lex, clause)
	var numbers []clauseNumber
	from := 0
	for i, at := range places {
		n := clauseNumber{at: at}
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

// placesOf returns where the sizes of a clause stand. Two that a word makes one, "9.35 or 9.5", are two where each has a name of its own:
// "hole 9.5 and 32 deep".
func placesOf(lex *lexicon.Lexicon, clause string) [][]int {
	raw := sizetext.Places(clause, 2*MostNumbers)
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
	if name, count = bestName(lex, len(written), tip, func(n int) string { return strings.Join(written[len(written)-n:], " ") }); count > 0 {
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
	if name, count = bestName(lex, len(written), tip, func(n int) string { return strings.Join(written[:n], " ") }); count > 0 {
		count += led
	}
	return name, count
}

// bestName returns the surest of the names of one word and more, and how many words it has: of several that are as sure the one that says
// most, without words that add nothing. "Bout" is French for the tip and "petit bout" for the thin end: what is no size of tips has the name
// of another.
func bestName(lex *lexicon.Lexicon, words int, tip bool, name func(n int) string) (best string, count int) {
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
		if names[n].role != "" && names[n].score >= most-lexicon.AlikeSure {
			role = names[n].role
		}
	}
	for n := 1; n < len(names); n++ {
		if role != "" && names[n].role == role && names[n].score >= most-lexicon.AlikeSure {
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
func waysToName(lex *lexicon.Lexicon, clause string, numbers []clauseNumber, taken int) [][]sizetext.Size {
	if len(numbers) == 0 {
		return [][]sizetext.Size{nil}
	}
	n := numbers[0]
	var ways [][]sizetext.Size
	with := func(s sizetext.Size, taken int) {
		if first := sizetext.First(s.Text); s.Role != "" && !s.Possible(lex) && !(sizetext.Size{Role: s.Role, Text: first}).Possible(lex) {
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
func sizeCalled(lex *lexicon.Lexicon, clause string, n clauseNumber, name string, before bool) sizetext.Size {
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
// de .355", or one for "fits" before it; one without a role otherwise.
func tipOfForm(lex *lexicon.Lexicon, clause string, n clauseNumber) sizetext.Size {
	form := cmp.Or(formBehind(lex, clause[n.at[1]:]), formBefore(lex, clause[:n.at[0]]))
	text := clause[n.at[0]:n.at[1]]
	before := nameWords(clause[:n.at[0]])
	isFor := len(before) > 0 && IsForTip(lex, before[len(before)-1], text)
	if form == "" && !isFor || !isTipName(lex, text) {
		return sizetext.Size{}
	}
	return sizetext.Size{Role: string(catalog.TipTaken), Name: sizetext.NameOf(catalog.TipTaken), Text: text + form, From: n.at[0]}
}

// formBefore returns one of the last words of a text that is for the form of a tip, with a blank before it; empty where none is.
func formBefore(lex *lexicon.Lexicon, text string) string {
	written := nameWords(text)
	for _, word := range written[max(0, len(written)-farthestForm):] {
		if hit, found := lex.Words.BoreForm(word); found && hit.Score >= formSure && !lexicon.BearsNumber(text) {
			return " " + word
		}
	}
	return ""
}

// isTipName reports whether a number is one by which tips are called.
func isTipName(lex *lexicon.Lexicon, text string) bool {
	return sizetext.IsTipName(lex.Read(text, value.Context{Want: value.WantLength}))
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

// BearsSize reports whether a text has a number that looks like a size and is none by which tips are called.
func BearsSize(lex *lexicon.Lexicon, text string) bool {
	return slices.ContainsFunc(sizetext.Numbers(text, MostNumbers), func(number string) bool {
		return (strings.ContainsAny(number, sizetext.DecimalMarks) || sizetext.HasUnit(number)) && !isTipName(lex, number)
	})
}

// BearsTip reports whether a text has a number with decimals by which tips are called.
func BearsTip(lex *lexicon.Lexicon, text string) bool {
	return slices.ContainsFunc(sizetext.Numbers(text, MostNumbers), func(number string) bool {
		return strings.ContainsAny(number, sizetext.DecimalMarks) && isTipName(lex, number)
	})
}
