package numberkey

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
)

// A sentence may say where in the part numbers each size stands: "the first four digits give the base OD in hundredths of mm, the next four the
// bore", "signs 5 to 8: bore", "second group: length in mm".

// ahead and behind are the places about the one dash of part numbers.
const ahead, behind = "ahead", "behind"

// numberPlace is where in part numbers something stands.
type numberPlace struct {
	// of is what is counted: digit, sign, group or letter; or on which side of the dash it is.
	of string
	// from and to are the first and the last, counted from 1, or from the end where last is set.
	from, to int
	last     bool
}

// countWords are the words for numbers in the order of these.
var countWords = []string{"one", "two", "three", "four", "five", "six", "seven", "eight"}

// placeWords finds the words of places by what they mean.
var placeWords = sync.OnceValue(func() map[string]*regexp.Regexp {
	all := map[string]*regexp.Regexp{}
	for _, value := range slices.Concat([]string{"digit", "sign", "group", "letter", "first", "next", "last", "dash", ahead, behind}, countWords) {
		all[value] = regexp.MustCompile(`(?i)` + words.Load().AnyOf("place", value))
	}
	return all
})

// placeWord returns where the first word of a meaning stands in a text, −1 where none does: a word of its own, but for languages without blanks.
func placeWord(text, value string) (from, to int) {
	for _, at := range placeWords()[value].FindAllStringIndex(text, 8) {
		before, _ := utf8.DecodeLastRuneInString(text[:at[0]])
		after, _ := utf8.DecodeRuneInString(text[at[1]:])
		first, _ := utf8.DecodeRuneInString(text[at[0]:])
		if lexicon.IsWide(first) || (at[0] == 0 || !lexicon.InWord(before)) && (at[1] == len(text) || !lexicon.InWord(after)) {
			return at[0], at[1]
		}
	}
	return -1, -1
}

// ExplainsPlace reports whether a text says what stands at a place of part numbers: "next four digits = bore".
func ExplainsPlace(text string) bool {
	at := strings.IndexAny(text, "=＝")
	if at < 0 || len(text) > lexicon.LongestNote {
		return false
	}
	_, ok := placeIn(text[:at], numberPlace{of: "digit", to: 1})
	return ok
}

// NamesPlace reports whether a text is the name of a place of part numbers and not much more, such as stands in a cell of its own.
func NamesPlace(text string) bool {
	if len(text) > lexicon.LongestLabel || strings.ContainsAny(text, PairSigns) {
		return false
	}
	_, ok := placeIn(text, numberPlace{of: "digit", to: 1})
	return ok
}

// placeNumber is a whole number in a text.
var placeNumber = pattern.Lazy(`\d+`)

// placeIn returns the place that a clause says, its scale already taken out; before is the place of the clause before.
func placeIn(clause string, before numberPlace) (p numberPlace, ok bool) {
	has := func(value string) bool { from, _ := placeWord(clause, value); return from >= 0 }
	if has("dash") {
		for _, side := range []string{behind, ahead} {
			if has(side) {
				return numberPlace{of: side, from: 1, to: 1}, true
			}
		}
	}
	unit := -1
	for _, of := range []string{"digit", "letter", "group", "sign"} {
		if from, _ := placeWord(clause, of); from >= 0 && p.of == "" {
			p.of, unit = of, from
		}
	}
	first, next, last := has("first"), has("next"), has("last")
	if p.of == "" {
		if before.of == "" || !first && !next && !last {
			return p, false
		}
		p.of = before.of
	}
	numbers, at := numbersIn(clause)
	if unit > 0 && len(numbers) == 1 && !first && !next && !last {
		if ends := endsInWords(clause[:unit]); len(ends) == 2 {
			numbers = ends // "third to fifth digit"
		}
	}
	switch {
	case len(numbers) > 2:
		return p, false
	case len(numbers) == 2:
		p.from, p.to = numbers[0], numbers[1]
		return p, (!first || p.from == 1) && !next && !last && p.from >= 1 && p.from <= p.to // "1st and 2nd digit"
	case p.of == "group" && len(numbers) == 1:
		p.from, p.to = numbers[0], numbers[0]
		return p, p.from >= 1
	}
	count := 1
	if len(numbers) == 1 {
		count = numbers[0]
	}
	switch {
	case count < 1:
		return p, false
	case last:
		p.from, p.to, p.last = 1, count, true
	case first:
		p.from, p.to = 1, count
	case next, len(numbers) == 1 && at < unit && before.of == p.of && !before.last:
		if before.of != p.of || before.last {
			return p, false
		}
		p.from, p.to = before.to+1, before.to+count
	case len(numbers) == 1 && at > unit:
		p.from, p.to = count, count
	default:
		return p, false
	}
	return p, true
}

// numbersIn returns the numbers of a clause, in figures or, where it has none, one in words, and where the first stands.
func numbersIn(clause string) (numbers []int, at int) {
	for _, place := range placeNumber().FindAllStringIndex(clause, 4) {
		n, err := strconv.Atoi(clause[place[0]:place[1]])
		if err != nil || n > longestNumber {
			return []int{0, 0, 0}, 0
		}
		if numbers == nil {
			at = place[0]
		}
		numbers = append(numbers, n)
	}
	if numbers != nil {
		return numbers, at
	}
	for i, word := range countWords {
		if from, _ := placeWord(clause, word); from >= 0 && (numbers == nil || from < at || i > 0 && numbers[0] == 1) {
			numbers, at = []int{i + 1}, from
		}
	}
	return numbers, at
}

// endsInWords returns the numbers over one that stand in words in a text, in their order.
func endsInWords(text string) (numbers []int) {
	places := map[int]int{}
	for i, word := range countWords[1:] {
		if from, _ := placeWord(text, word); from >= 0 {
			places[from] = i + 2
		}
	}
	for _, from := range slices.Sorted(maps.Keys(places)) {
		numbers = append(numbers, places[from])
	}
	return numbers
}

// byPlaces finds what sentences of a key say of places in some numbers.
func byPlaces(s *sayings, numbers []string) (k *Key, seen *Text) {
	k = &Key{}
	var places []numberPlace
	for i := range s.texts {
		var before numberPlace
		if len(places) > 0 {
			before = places[len(places)-1]
		}
		for _, clause := range clausesOutside(s.texts[i].Text) {
			said, codes := codesWithin(clause)
			sc, rest, known := scaleIn(s.lex, said)
			if !known {
				sc, rest = unsaid, said
			}
			p, ok := placeIn(rest, before)
			if !ok {
				continue
			}
			f := Field{scale: sc, codes: codes}
			if f.Name, f.Role, ok = s.spokenOf(rest); !ok {
				return nil, &s.texts[i]
			}
			if k.Text == "" && f.IsSize() {
				k.At, k.Text, seen = s.texts[i].At, s.texts[i].Text, &s.texts[i]
			}
			before = p
			k.Fields, places = append(k.Fields, f), append(places, p)
		}
	}
	if k.sizes() < 1 {
		return nil, nil
	}
	if k.cut = cutByPlaces(k, places, s.kind, numbers); k.cut == nil {
		return nil, seen
	}
	return k, seen
}

// clausesOutside divides a text at the signs between clauses that stand in no brackets.
func clausesOutside(text string) (all []string) {
	start, depth := 0, 0
	ends := clauseEnds().FindAllStringIndex(text, -1)
	for i, r := range text {
		switch r {
		case '(', '（', '[':
			depth++
		case ')', '）', ']':
			depth--
		}
		for len(ends) > 0 && ends[0][0] < i {
			ends = ends[1:]
		}
		if depth <= 0 && len(ends) > 0 && ends[0][0] == i && i >= start && !(r == '.' && aroundDigit(text, ends[0])) {
			all = append(all, text[start:i])
			start = ends[0][1]
		}
	}
	return append(all, text[start:])
}

// aroundDigit reports whether a point stands behind a number or before one, as that of a short form does: "Pos. 3-6", "2. group".
func aroundDigit(text string, point []int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:point[0]])
	after, _ := utf8.DecodeRuneInString(text[point[1]:])
	return unicode.IsDigit(before) || unicode.IsDigit(after)
}

// ways are how signs of a number are counted: digits alone, letters and digits, all of them. A digit is one as a rule; of signs nobody knows
// whether those between the pieces count.
var ways = []func(r rune) bool{
	func(r rune) bool { return r >= '0' && r <= '9' },
	func(r rune) bool { return !strings.ContainsRune(numberSeparators, r) },
	func(rune) bool { return true },
}

// cutByPlaces returns what cuts numbers at places, nil where several ways to count are possible and lead to other sizes, or none is.
func cutByPlaces(k *Key, places []numberPlace, kind catalog.Kind, numbers []string) func(string) []string {
	ofDigits := !slices.ContainsFunc(places, func(p numberPlace) bool { return p.of == "sign" })
	var found func(string) []string
	for _, counts := range ways {
		cut := func(number string) []string { return cutAt(places, number, counts) }
		if !k.possibleWith(cut, kind, numbers) {
			continue
		}
		if found == nil {
			if found = cut; ofDigits {
				break
			}
			continue
		}
		if slices.ContainsFunc(numbers, func(number string) bool { return !slices.Equal(found(number), cut(number)) }) {
			return nil
		}
	}
	return found
}

// possibleWith reports whether most numbers, cut in a way, have digits for all sizes, and such as are possible where the scale is said.
func (k *Key) possibleWith(cut func(string) []string, kind catalog.Kind, numbers []string) bool {
	fitting := 0
	for _, number := range numbers {
		pieces := cut(number)
		fits := pieces != nil
		for i := range k.Fields {
			f := &k.Fields[i]
			if !fits || !f.IsSize() || f.codes != nil {
				continue
			}
			fits = lexicon.IsDigits(pieces[i])
			if mm, ok := f.scale.millimetres(pieces[i]); fits && f.scale.counts() && f.scale.unit != "" {
				fits = ok && sizetext.PossibleIn(kind, f.Role, mm)
			}
		}
		if fits {
			fitting++
		}
	}
	return 100*fitting >= LeastOfKey*len(numbers)
}

// cutAt cuts a number at places, nil where it is too short for one.
func cutAt(places []numberPlace, number string, counts func(rune) bool) []string {
	pieces := strings.FieldsFunc(number, func(r rune) bool { return strings.ContainsRune(numberSeparators, r) })
	cut := make([]string, len(places))
	for i, p := range places {
		list := pieces
		if p.of == ahead || p.of == behind {
			if cut[i] = besideDash(pieces, p.of); cut[i] == "" {
				return nil
			}
			continue
		}
		if p.of != "group" {
			list = signsOf(number, p.of, counts)
		}
		from, to := p.from-1, p.to
		if p.last {
			from, to = len(list)-p.to, len(list)
		}
		if from < 0 || to > len(list) {
			return nil
		}
		cut[i] = strings.Join(list[from:to], "")
	}
	return cut
}

// besideDash returns what stands before the one dash of a number, or the digits or letters directly behind it; empty where it has none or
// several.
func besideDash(pieces []string, side string) string {
	if len(pieces) != 2 {
		return ""
	}
	if side == ahead {
		return pieces[0]
	}
	first, _ := utf8.DecodeRuneInString(pieces[1])
	end := strings.IndexFunc(pieces[1], func(r rune) bool { return unicode.IsDigit(r) != unicode.IsDigit(first) })
	if end < 0 {
		return pieces[1]
	}
	return pieces[1][:end]
}

// signsOf returns the signs of a number that are counted.
func signsOf(number, of string, counts func(rune) bool) (all []string) {
	for _, r := range number {
		isDigit := r >= '0' && r <= '9'
		if of == "letter" && (isDigit || strings.ContainsRune(numberSeparators, r)) || of != "letter" && !counts(r) {
			continue
		}
		all = append(all, string(r))
	}
	return all
}
