package catalog

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
)

// lexicon asks the vocabulary each question once for each distinct text: sheets repeat themselves.
type lexicon struct {
	words      *words.Vocabulary
	categories []categoryRule
	matches    map[string][]words.RoleMatch
	readings   map[readingKey]value.Reading
	tolerances map[toleranceKey][]value.Tolerance
	sentences  map[[2]string]string
	hits       map[askKey]words.Hit
	clubs      map[string][]string
	sets       map[string]setAnswer
}

type askKey struct{ question, text string }

type readingKey struct {
	text string
	ctx  value.Context
}

type toleranceKey struct{ text, unit string }

// categoryRule is a word of the user's own for a kind of club.
type categoryRule struct{ word, category string }

func newLexicon() *lexicon {
	return &lexicon{
		words:      words.Load(),
		matches:    map[string][]words.RoleMatch{},
		readings:   map[readingKey]value.Reading{},
		tolerances: map[toleranceKey][]value.Tolerance{},
		sentences:  map[[2]string]string{},
		hits:       map[askKey]words.Hit{},
		clubs:      map[string][]string{},
		sets:       map[string]setAnswer{},
	}
}

// cacheLimit bounds each cache; a sheet of part numbers has no texts that repeat.
const cacheLimit = 20_000

// longestHeading is the length in bytes beyond which a text is no heading.
const longestHeading = 160

// match returns the roles that a heading of one or more fragments may have, the likeliest first.
func (l *lexicon) match(parts ...string) []words.RoleMatch { return l.matchIn(UnknownKind, parts...) }

// matchIn returns the roles that a heading may have in a table that lists a kind.
func (l *lexicon) matchIn(kind Kind, parts ...string) []words.RoleMatch {
	key := strings.Join(parts, "\x00")
	if key == "" || len(key) > longestHeading {
		return nil
	}
	key = kind.String() + "\x00" + key
	found, known := l.matches[key]
	if !known {
		found = l.words.MatchIn(kind.String(), parts...)
		remember(l.matches, key, found)
	}
	return found
}

// read reads the text of a cell.
func (l *lexicon) read(text string, ctx value.Context) value.Reading {
	key := readingKey{text, ctx}
	reading, known := l.readings[key]
	if !known {
		reading = value.Read(text, ctx)
		remember(l.readings, key, reading)
	}
	return reading
}

// readTolerances reads the tolerances in a text, whose numbers are in a unit where they name none.
func (l *lexicon) readTolerances(text, unit string) []value.Tolerance {
	key := toleranceKey{text, unit}
	all, known := l.tolerances[key]
	if !known {
		all = value.ReadTolerances(text, value.Context{Unit: unit})
		remember(l.tolerances, key, all)
	}
	return all
}

// readTolerance reads the first tolerance in a text.
func (l *lexicon) readTolerance(text, unit string) (value.Tolerance, bool) {
	if all := l.readTolerances(text, unit); len(all) > 0 {
		return all[0], true
	}
	return value.Tolerance{Text: text}, false
}

// say puts a text into a sentence.
func (l *lexicon) say(sentence, text string) string {
	key := [2]string{sentence, text}
	said, known := l.sentences[key]
	if !known {
		said = fmt.Sprintf(sentence, text)
		remember(l.sentences, key, said)
	}
	return said
}

// ask asks a question of the vocabulary about a text; the question's name keeps the answers apart.
func (l *lexicon) ask(question, text string, answer func(string) (words.Hit, bool)) (words.Hit, bool) {
	key := askKey{question, text}
	hit, known := l.hits[key]
	if !known {
		hit, _ = answer(text)
		remember(l.hits, key, hit)
	}
	return hit, hit.Value != "" || hit.Score > 0
}

// setOf returns the clubs that a text names; in a column of clubs of a category, plain numbers are clubs too.
func (l *lexicon) setOf(category, text string) []string {
	if text == "" || len(text) > longestHeading {
		return nil
	}
	key := category + "\x00" + text
	set, known := l.clubs[key]
	if !known {
		set, _ = l.words.ClubsIn(category, text)
		remember(l.clubs, key, set)
	}
	return set
}

// category returns the kind of club that a text names; the user's own words come first.
func (l *lexicon) category(text string) (words.Hit, bool) {
	if len(l.categories) > 0 {
		folded := words.Fold(text)
		for _, rule := range l.categories {
			if folded == rule.word || strings.Contains(" "+folded+" ", " "+rule.word+" ") {
				return words.Hit{Value: rule.category, Score: 1, Words: rule.word}, true
			}
		}
	}
	return l.ask("category", text, l.words.Category)
}

// severalCategories reports whether the words of a text name more than one kind of club: "Irons and wedges".
func (l *lexicon) severalCategories(text string) bool {
	first := ""
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		hit, found := l.category(word)
		switch {
		case !found || hit.Score < 0.5:
		case first == "":
			first = hit.Value
		case first != hit.Value:
			return true
		}
	}
	return false
}

func remember[K comparable, V any](cache map[K]V, key K, v V) {
	if len(cache) >= cacheLimit {
		clear(cache)
	}
	cache[key] = v
}

// looksValue reports whether a text looks like a value, also with words before it, where it has a number with a unit: OD 13.5 mm.
func (l *lexicon) looksValue(text string) bool {
	if looksNumeric(text) {
		return true
	}
	if len(text) > 40 || !unitMayFollow(text) || strings.Contains(text, "±") {
		return false
	}
	reading := l.read(text, value.Context{Want: value.WantDiameter})
	return reading.Kind == value.Length && reading.UnitStated
}

// unitMayFollow reports whether a letter or a sign for inches stands behind a digit of a text, with one space between at most.
func unitMayFollow(text string) bool {
	digit := false
	for _, r := range text {
		switch {
		case unicode.IsDigit(r):
			digit = true
		case digit && r == ' ':
		case digit && (unicode.IsLetter(r) || strings.ContainsRune(`"'″”`, r)):
			return true
		default:
			digit = false
		}
	}
	return false
}

// looksNumeric reports whether a text begins like a value: a digit, a point before a digit, a sign for a diameter or
// a sign before a digit, with few letters after it.
func looksNumeric(s string) bool {
	if s == "" || len(s) > 40 {
		return false
	}
	letters, digits, begun := 0, 0, false
	for i, r := range s {
		switch {
		case unicode.IsNumber(r):
			digits++
			begun = true
		case unicode.IsLetter(r) && !isValueSign(r):
			letters += utf8.RuneLen(r)/3 + 1
			if !begun {
				return false
			}
		case !begun && i > 12:
			return false
		}
	}
	return digits > 0 && (letters <= 8 || letters <= digits)
}

// bearsDigits reports whether digits make up a good part of a text, as in a part number; the digits of a tolerance or of
// what stands in brackets do not count against a heading.
func bearsDigits(s string) bool {
	digits, others := 0, 0
	for _, r := range s {
		switch {
		case r >= '0' && r <= '9':
			digits++
		case r == '±' || r == '+' || r == '(' || r == '[' || r == '（':
			return false
		default:
			others++
		}
	}
	return digits*5 > digits+others
}

// isValueSign reports whether a letter stands before values as a sign: Ø, φ, R.
func isValueSign(r rune) bool {
	switch r {
	case 'Ø', 'ø', 'φ', 'Φ', 'ϕ', 'R', 'r', 'D', 'd', '⌀':
		return true
	}
	return false
}

// looksLikeCode reports whether a text may be a part number: no spaces but single ones between pieces with digits, at
// least one digit or only capitals, and not long.
func looksLikeCode(s string) bool {
	if s == "" || len(s) > 40 {
		return false
	}
	digits, lower, spaces := 0, 0, 0
	for _, r := range s {
		switch {
		case unicode.IsDigit(r):
			digits++
		case unicode.IsLower(r) || unicode.Is(unicode.Lo, r):
			lower++
		case r == ' ':
			spaces++
		case unicode.IsUpper(r), strings.ContainsRune("-_/.+#&()*:,'…–~", r):
		default:
			return false
		}
	}
	if digits == 0 {
		return lower == 0 && spaces == 0 && utf8.RuneCountInString(s) <= 12
	}
	return lower <= digits+4 && spaces <= 3
}
