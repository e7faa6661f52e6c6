// Package lexicon asks the vocabulary and the grammar of values each question once for each distinct text, since sheets repeat themselves,
// and knows what texts look like: values, part numbers, headings, clubs, tips.
package lexicon

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet/numfmt"
)

// Lexicon asks the vocabulary each question once for each distinct text: sheets repeat themselves.
type Lexicon struct {
	Words      *words.Vocabulary
	categories []categoryRule
	matches    map[string][]words.RoleMatch
	readings   map[readingKey]value.Reading
	tolerances map[toleranceKey][]value.Tolerance
	sentences  map[[2]string]string
	hits       map[askKey]words.Hit
	clubs      map[string][]string
	sets       map[string]setAnswer
	subjects   map[subjectKey]words.Subject
	irrelevant map[string]bool
	recalled   map[string]*recalled
}

type subjectKey struct{ kind, language, text string }

type askKey struct{ question, text string }

type readingKey struct {
	text string
	ctx  value.Context
}

type toleranceKey struct{ text, unit string }

// categoryRule is a word of the user's own for a kind of club.
type categoryRule struct{ word, category string }

// New returns a lexicon that knows a person's own words for kinds of clubs too.
func New(categories map[string]string) *Lexicon {
	l := &Lexicon{
		Words:      words.Load(),
		matches:    map[string][]words.RoleMatch{},
		readings:   map[readingKey]value.Reading{},
		tolerances: map[toleranceKey][]value.Tolerance{},
		sentences:  map[[2]string]string{},
		hits:       map[askKey]words.Hit{},
		clubs:      map[string][]string{},
		sets:       map[string]setAnswer{},
		subjects:   map[subjectKey]words.Subject{},
		irrelevant: map[string]bool{},
		recalled:   map[string]*recalled{},
	}
	for _, word := range slices.Sorted(maps.Keys(categories)) {
		l.categories = append(l.categories, categoryRule{words.Fold(word), categories[word]})
	}
	return l
}

// Apart returns another lexicon that gives the same answers, for another goroutine.
func (l *Lexicon) Apart() *Lexicon {
	other := New(nil)
	other.categories = l.categories
	return other
}

// Match returns the roles that a heading of one or more fragments may have, the likeliest first.
func (l *Lexicon) Match(parts ...string) []words.RoleMatch {
	return l.MatchIn(catalog.UnknownKind, parts...)
}

// MatchIn returns the roles that a heading may have in a table that lists a kind.
func (l *Lexicon) MatchIn(kind catalog.Kind, parts ...string) []words.RoleMatch {
	key := strings.Join(parts, "\x00")
	if key == "" || len(key) > LongestHeading {
		return nil
	}
	key = kind.String() + "\x00" + key
	found, known := l.matches[key]
	if !known {
		found = l.Words.MatchIn(kind.String(), parts...)
		remember(l.matches, key, found)
	}
	return found
}

// Read reads the text of a cell.
func (l *Lexicon) Read(text string, ctx value.Context) value.Reading {
	key := readingKey{text, ctx}
	reading, known := l.readings[key]
	if !known {
		reading = value.Read(text, ctx)
		if limited, found := l.limitsInWords(text, ctx, reading); found {
			reading = limited
		}
		remember(l.readings, key, reading)
	}
	return reading
}

// ReadTolerances reads the tolerances in a text, whose numbers are in a unit where they name none.
func (l *Lexicon) ReadTolerances(text, unit string) []value.Tolerance {
	key := toleranceKey{text, unit}
	all, known := l.tolerances[key]
	if !known {
		all = value.ReadTolerances(text, value.Context{Unit: unit})
		remember(l.tolerances, key, all)
	}
	return all
}

// ReadTolerance reads the first tolerance in a text.
func (l *Lexicon) ReadTolerance(text, unit string) (value.Tolerance, bool) {
	if all := l.ReadTolerances(text, unit); len(all) > 0 {
		return all[0], true
	}
	return value.Tolerance{Text: text}, false
}

// Say puts a text into a sentence.
func (l *Lexicon) Say(sentence, text string) string {
	key := [2]string{sentence, text}
	said, known := l.sentences[key]
	if !known {
		said = fmt.Sprintf(sentence, text)
		remember(l.sentences, key, said)
	}
	return said
}

// Ask asks a question of the vocabulary about a text; the question's name keeps the answers apart.
func (l *Lexicon) Ask(question, text string, answer func(string) (words.Hit, bool)) (words.Hit, bool) {
	key := askKey{question, text}
	hit, known := l.hits[key]
	if !known {
		hit, _ = answer(text)
		remember(l.hits, key, hit)
	}
	return hit, hit.Value != "" || hit.Score > 0
}

// SetOf returns the clubs that a text names; in a column of clubs of a category, plain numbers are clubs too.
func (l *Lexicon) SetOf(category, text string) []string {
	if text == "" || len(text) > LongestHeading {
		return nil
	}
	key := category + "\x00" + text
	set, known := l.clubs[key]
	if !known {
		set, _ = l.Words.ClubsIn(category, text)
		remember(l.clubs, key, set)
	}
	return set
}

// Category returns the kind of club that a text names; the user's own words come first.
func (l *Lexicon) Category(text string) (words.Hit, bool) {
	if len(l.categories) > 0 {
		folded := words.Fold(text)
		for _, rule := range l.categories {
			if folded == rule.word || strings.Contains(" "+folded+" ", " "+rule.word+" ") {
				return words.Hit{Value: rule.category, Score: 1, Words: rule.word}, true
			}
		}
	}
	return l.Ask("category", text, l.Words.Category)
}

// SeveralCategories reports whether the words of a text name more than one kind of club: "Irons and wedges".
func (l *Lexicon) SeveralCategories(text string) bool { return len(l.Categories(text)) > 1 }

// Categories returns the kinds of club that the words of a text name.
func (l *Lexicon) Categories(text string) (all []string) {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		if hit, found := l.Category(word); found && hit.Score >= 0.5 && !slices.Contains(all, hit.Value) {
			all = append(all, hit.Value)
		}
	}
	return all
}

// Irrelevant is [words.Vocabulary.Irrelevant] of a text, kept.
func (l *Lexicon) Irrelevant(text string) bool {
	irrelevant, known := l.irrelevant[text]
	if !known {
		irrelevant = l.Words.Irrelevant(text)
		remember(l.irrelevant, text, irrelevant)
	}
	return irrelevant
}

// Subject is [words.Vocabulary.Subject], kept.
func (l *Lexicon) Subject(kind, language, text string) words.Subject {
	key := subjectKey{kind, language, text}
	subject, known := l.subjects[key]
	if !known {
		subject = l.Words.Subject(kind, language, text)
		remember(l.subjects, key, subject)
	}
	return subject
}

func remember[K comparable, V any](cache map[K]V, key K, v V) {
	if len(cache) >= cacheLimit {
		clear(cache)
	}
	cache[key] = v
}

// LooksValue reports whether a text looks like a value, also with words before it, where it has a number with a unit: OD 13.5 mm.
func (l *Lexicon) LooksValue(text string) bool {
	if LooksNumeric(text) {
		return true
	}
	if len(text) > 40 || !unitMayFollow(text) || strings.Contains(text, "±") {
		return false
	}
	reading := l.Read(text, value.Context{Want: value.WantDiameter})
	return reading.Kind == value.Length && reading.UnitStated
}

// UnitBefore reports whether a text is a number with a unit of length before it: mm 13,5.
func (l *Lexicon) UnitBefore(text string) bool {
	unit, number, found := strings.Cut(text, " ")
	if !found || len(unit) > longestUnit || !LooksNumeric(number) {
		return false
	}
	hit, known := l.Ask("unit", unit, l.Words.Unit)
	return known && traits.IsLengthUnit(hit.Value)
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

// IsYear reports whether a text is a year in which a list may have been written.
func IsYear(text string) bool { return len(text) == 4 && YearIn(text) >= firstYear }

// firstYear is the first year that a list may be of.
const firstYear = 1990

// LooksNumeric reports whether a text begins like a value: a digit, a point before a digit, a sign for a diameter or
// a sign before a digit, with few letters after it.
func LooksNumeric(s string) bool {
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

// looksLike are the digits that letters are misread or mistyped for.
var looksLike = [256]byte{'O': '0', 'o': '0', 'I': '1', 'l': '1', 'Z': '2', 'S': '5', 'B': '8'}

// DigitMeant returns the digit that a letter is misread or mistyped for, zero where there is none.
func DigitMeant(letter byte) byte { return looksLike[letter] }

// BearsDigits reports whether digits make up a good part of a text, as in a part number; the digits of a tolerance or of
// what stands in brackets do not count against a heading.
func BearsDigits(s string) bool {
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

// FewLetters reports whether a text has no more letters than digits, as an amount has that a short word for its currency stands before: Rs. 2,100/-.
func FewLetters(text string) bool {
	letters, digits := 0, 0
	for _, r := range text {
		switch {
		case unicode.IsDigit(r):
			digits++
		case unicode.IsLetter(r):
			letters++
		}
	}
	return letters <= digits
}

// isValueSign reports whether a letter stands before values as a sign: Ø, φ, R.
func isValueSign(r rune) bool { return strings.ContainsRune(DiameterSigns+"RrDd", r) }

// LooksLikeCode reports whether a text may be a part number: no spaces but single ones between pieces with digits, at
// least one digit or only capitals, and not long.
func LooksLikeCode(s string) bool {
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

// SaysLeft reports whether a text is a word for the value to the left, which in its language is no ditto mark for the one above.
func SaysLeft(text string) bool {
	if len(text) > longestLeft {
		return false
	}
	_, left := words.Load().Mark(text, "left")
	return left
}

// SaysSet reports whether a text refers to the value of the set that the part is of.
func (l *Lexicon) SaysSet(text string) bool {
	if text == "" || len(text) > longestAsSet || strings.ContainsAny(text, "0123456789") {
		return false
	}
	_, found := l.Ask("as set", text, l.Words.IsAsSet)
	return found
}

// SaysDiscontinued reports whether a text says of a part that it is discontinued.
func (l *Lexicon) SaysDiscontinued(text string) bool {
	return len(text) >= shortestWord && l.Words.LegendMeaning(text) == "discontinued"
}

// SaysNo reports whether a text answers no, or that there is nothing to answer.
func (l *Lexicon) SaysNo(text string) bool {
	if _, none := l.Ask("not applicable", text, l.Words.IsNotApplicable); none {
		return true
	}
	_, no := l.Ask("no", text, l.Words.SaysNo)
	return no
}

// SaysNoNumber reports whether the text of a part number says that there is none, or none yet: in words for that, or as any cell may say so.
func (l *Lexicon) SaysNoNumber(text string) bool {
	if text == "" || len(text) > LongestHeading || BearsDigits(text) {
		return false
	}
	for question, answer := range map[string]func(string) (words.Hit, bool){
		"unnumbered": l.Words.IsUnnumbered, "missing": l.Words.IsMissing, "not applicable": l.Words.IsNotApplicable,
	} {
		if _, none := l.Ask(question, text, answer); none {
			return true
		}
	}
	return false
}

// NamesSet reports whether a text says that it is about a set of clubs: by its clubs, or by a word for one beside none of them or several.
func (l *Lexicon) NamesSet(text string) bool {
	if text == "" || len(text) > LongestHeading {
		return false
	}
	if _, _, several := l.FindSet(text); several {
		return true
	}
	_, named := l.Ask("set", text, l.Words.NamesSet)
	return named && !l.namesOneClub(text)
}

// namesOneClub reports whether a text names a single club: "iron set, #5".
func (l *Lexicon) namesOneClub(text string) bool {
	clubs, _, found := l.Words.FindClubs(text)
	if found && len(clubs) == 1 {
		return true
	}
	_, number, marked := strings.Cut(text, "#")
	return marked && number != "" && IsDigits(number[:1])
}

// isDitto reports whether a text refers to the value above it and cannot mean that there is no value.
func (l *Lexicon) isDitto(text string) bool {
	if text == "" || utf8.RuneCountInString(text) > longestDitto || strings.ContainsAny(text, "0123456789") || SaysLeft(text) {
		return false
	}
	if _, ditto := l.Ask("ditto", text, l.Words.IsDitto); !ditto {
		return false
	}
	_, none := l.Ask("not applicable", text, l.Words.IsNotApplicable)
	return !none
}

func (l *Lexicon) isDoubtfulDitto(text string) bool {
	if text == "" || len(text) > 16 || strings.ContainsAny(text, "0123456789") {
		return false
	}
	_, ditto := l.Ask("ditto", text, l.Words.IsDitto)
	return ditto && !l.isDitto(text) && !SaysLeft(text)
}

// IsDittoIn reports whether a text that refers to the value above it in one language, and says in another that there is none, does the
// first in a language: "s. o." in German.
func (l *Lexicon) IsDittoIn(language, text string) bool {
	ditto, _ := l.Ask("ditto", text, l.Words.IsDitto)
	none, _ := l.Ask("not applicable", text, l.Words.IsNotApplicable)
	return ditto.Language == language && none.Language != language
}

// ClubHeading returns the club that a cell names, as the heading of a column: 3, #5, 7i, PW; empty for anything else.
func (l *Lexicon) ClubHeading(text string) string {
	if text == "" || len(text) > 12 || countDigits(text) > 2 || strings.ContainsAny(text, ".°,") || IsDigits(text) && len(text) > 1 && text > "12" {
		return ""
	}
	if set := l.SetOf("iron", text); len(set) == 1 {
		return set[0]
	}
	return ""
}

func countDigits(text string) int {
	count := 0
	for _, r := range text {
		if r >= '0' && r <= '9' {
			count++
		}
	}
	return count
}

// WordsBeside returns the words of a text that begins with a number, none of any other text.
func WordsBeside(text string) []string {
	if !LooksNumeric(text) {
		return nil
	}
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
}

// priceBreak is a heading that gives a quantity from which a price holds: 1-9 pcs, 10–49, 50+, "100 or more", ab 100 Stk., "under 50".
var priceBreak = sync.OnceValue(func() *regexp.Regexp {
	v := words.Load()
	any := func(value string) string { return `(?:` + v.AnyOf("quantity", value) + `)` }
	from := `(?:` + any("from") + `|` + any("less") + `|` + any("at") + `) ?` + quantity
	to := `(?: ?[-–~～〜] ?| (?:` + v.AnyOf("run", "to") + `) )`
	more := `(?:\pL{1,5}\.? )?` + quantity + `(?:` + to + quantity + `|` + besideQuantity + `(?:[~～〜+]|` + any("more") + `))`
	return regexp.MustCompile(`(?i)^(?:(?:` + from + `|` + more + `)(?: ?[\pL\pM]{1,7}\.?){0,2}(?: ?\+| ?` + any("more") + `)?|` + quantity + besideQuantity + `[-–])$`)
})

// quantity is a number of pieces, its thousands parted or not, and besideQuantity a short word for these behind it.
const (
	quantity       = `(?:\d{1,3}(?:[.,’']\d{3})+|\d+)`
	besideQuantity = ` ?(?:[\pL\pM]{1,5}\.?)? ?`
)

func IsPriceBreak(text string) bool {
	return priceBreak().MatchString(text) && !numberedSize().MatchString(text)
}

// quantityFrom is a quantity in the heading of prices, beside other words.
var quantityFrom = sync.OnceValue(func() *regexp.Regexp {
	v := words.Load()
	any := func(value string) string { return `(?:` + v.AnyOf("quantity", value) + `)` }
	edge := `(?:^|[^\pL\d.,])`
	return regexp.MustCompile(`(?i)` + edge + any("less") + ` ?` + quantity + `|` + edge + `(?:` + any("from") + `|` + any("at") + `) ?(` + quantity + `)|` +
		`(?:^|[^\d.,])(` + quantity + `)(?: ?[-–~～〜] ?` + quantity + `(?:[^\d.,]|$)| ?(?:` + v.AnyOf("run", "to") + `) ?\d|` + besideQuantity + `(?:[-–~～〜+]|` + any("more") + `))`)
})

// QuantityFrom returns the quantity from which prices hold as their heading says, zero where it says none: 10 for "Dealer 10-49", 0 for "under 50".
func QuantityFrom(heading string) float64 {
	if len(heading) > LongestHeading {
		return 0
	}
	m := quantityFrom().FindStringSubmatch(strings.ReplaceAll(heading, "_", " "))
	if m == nil {
		return 0
	}
	n, _ := strconv.ParseFloat(onlyDigits(m[1]+m[2]), 64)
	return n
}

// yearIn is a year that stands by itself.
var yearIn = pattern.Lazy(`(?:^|[^\d.,])((?:19|20)\d\d)(?:[^\d.,]|$)`)

// YearIn returns the year that a heading names, zero where it names none.
func YearIn(heading string) int {
	m := yearIn().FindStringSubmatch(heading)
	if m == nil {
		return 0
	}
	n, _ := strconv.Atoi(m[1])
	return n
}

// numberedSize is the short form of a size with a number right behind it: OD1 is no quantity, though "od" means from in some languages.
var numberedSize = pattern.Lazy(`^\p{Lu}{2} ?\d$`)

// FromOne reports whether the first quantity of a price break is one piece: 1-99 pcs.
func FromOne(text string) bool { return wholeNumber().FindString(text) == "1" }

// IsWord reports whether a unit was found as a bare word, which at the beginning of a heading is the abbreviation of
// another one: "Ins. depth".
func IsWord(place string) bool {
	return strings.Trim(place, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ. ") == ""
}

// initialled is the name of a person, behind the first letters of others: P. Smith has no parallel bore.
var initialled = pattern.Lazy(`^(?:\p{Lu}\. ?)+\p{Lu}\pL+$`)

// Recogniser returns the question whether a text is a word of a role, nil where a role's texts can be anything.
func (l *Lexicon) Recogniser(role catalog.Role) func(string) bool {
	ask := func(name string, answer func(string) (words.Hit, bool)) func(string) bool {
		return func(text string) bool {
			hit, found := l.Ask(name, text, answer)
			return found && hit.Score >= 0.3
		}
	}
	switch role {
	case catalog.Category:
		return func(text string) bool {
			hit, found := l.Category(text)
			return found && hit.Score >= 0.3
		}
	case catalog.Club:
		return func(text string) bool { return len(l.SetOf("iron", text)) > 0 }
	case catalog.Top:
		return ask("top", l.Words.TopForm)
	case catalog.Style:
		return ask("style", l.Words.Style)
	case catalog.Material:
		return ask("material", l.Words.Material)
	case catalog.BoreForm, catalog.TipForm:
		isForm := ask("bore form", l.Words.BoreForm)
		return func(text string) bool {
			return isForm(text) && !initialled().MatchString(text) && !(LooksLikeCode(text) && BearsDigits(text))
		}
	case catalog.UnitRole:
		return func(text string) bool {
			hit, found := l.Ask("unit", text, l.Words.Unit)
			return found && hit.Score >= 0.3 && !words.IsCurrency(hit.Value) // which prices are in
		}
	}
	return nil
}

// Questions is a set of questions about a text, each answered with yes or no.
type Questions uint16

const (
	// AsNumber: see looksNumeric; asValue: see lexicon.looksValue; asDigits: see bearsDigits; asCode: see looksLikeCode.
	AsNumber Questions = 1 << iota
	AsValue
	AsDigits
	asCode
	// AsHeading: is it the heading of any role?
	AsHeading
	// AsClub: see lexicon.clubHeading.
	AsClub
	// AsDitto: see lexicon.isDitto. asReference: does it refer to another cell, by ditto or another word?
	AsDitto
	AsReference
	// AsDoubtfulDitto: does it refer to the value above it in one language, and says in another that there is none?
	AsDoubtfulDitto
	// AsSet: see lexicon.SaysSet.
	AsSet
	// AsDiscontinued: see lexicon.SaysDiscontinued.
	AsDiscontinued
)

// Answer answers a question about a text.
func (l *Lexicon) Answer(q Questions, text string) bool {
	switch q {
	case AsNumber:
		return LooksNumeric(text)
	case AsValue:
		return l.LooksValue(text)
	case AsDigits:
		return BearsDigits(text)
	case asCode:
		return LooksLikeCode(text)
	case AsHeading:
		found := l.Match(text)
		return len(found) > 0 && found[0].Score >= HeadingScore
	case AsClub:
		return l.ClubHeading(text) != ""
	case AsDitto:
		return l.isDitto(text)
	case AsReference:
		return SaysLeft(text) || l.isDitto(text) || l.isDoubtfulDitto(text)
	case AsDoubtfulDitto:
		return l.isDoubtfulDitto(text)
	case AsSet:
		return l.SaysSet(text)
	case AsDiscontinued:
		return l.SaysDiscontinued(text)
	}
	return false
}

// readFormat finds the unit that a number format shows beside the number, in whatever way the program wrote it.
func (l *Lexicon) readFormat(format string) (words.Hit, bool) {
	before, after := numfmt.Parse(format).Affixes()
	for _, text := range []string{after, before} {
		if text == "" {
			continue
		}
		if hit, ok := l.Words.Unit(text); ok {
			return hit, true
		}
		if hits := l.Words.Units(text); len(hits) == 1 {
			return hits[0], true
		}
	}
	return words.Hit{}, false
}

var (
	// UnitFraction is a part of a unit in which sizes are counted: 1/10 mm, 1/16", 1/1000 in.
	UnitFraction = sync.OnceValue(func() *regexp.Regexp {
		v := words.Load()
		return regexp.MustCompile(`(?i)(?:^|[^\d.,])1 ?/ ?(\d+)(?:` + v.AnyOf("fraction", "ordinal") + `)? ?(?:in\b|` + v.AnyOf("fraction", "of") + `)`)
	})
	// TenthWords say the same of a tenth of a millimetre.
	TenthWords = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)(?:` + words.Load().AnyOf("fraction", "tenth") + `)`)
	})
	// AloneFraction is a unit line's cell with nothing else in it.
	AloneFraction = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`(?i)^1 ?/ ?\d+ ?(?:` + words.Load().AnyUnit("mm", "in") + `)$`)
	})
)

// SaysUnit reports whether a text is the heading of units.
func (l *Lexicon) SaysUnit(text string) bool {
	found := l.Match(text)
	return len(found) > 0 && found[0].Role == string(catalog.UnitRole) && found[0].Score >= SpecificHeading
}

// IsUnit reports whether a text is a unit and nothing else, or a sign for none.
func (l *Lexicon) IsUnit(text string) bool {
	if len(text) > 24 {
		return false
	}
	if strings.Trim(text, "-–—/ ") == "" || strings.HasPrefix(text, "1") && AloneFraction().MatchString(text) {
		return true
	}
	_, found := l.Ask("unit", text, l.Words.Unit)
	return found
}

// IsLimit reports whether a text is a word for the least or the greatest, and nothing else.
func (l *Lexicon) IsLimit(text string) bool {
	if len(text) > 24 || text == "" {
		return false
	}
	for _, mark := range []string{"at_least", "at_most"} {
		if _, found := l.Ask(mark, strings.TrimRight(text, ". "), func(text string) (words.Hit, bool) { return l.Words.Mark(text, mark) }); found {
			return true
		}
	}
	return false
}

// Age is what a word of a heading says of the age of what stands below: −1 old, 1 new, 0 nothing.
func (l *Lexicon) Age(word string) int {
	if _, old := l.Words.Mark(word, "old"); old {
		return -1
	}
	if _, fresh := l.Words.Mark(word, "new"); fresh {
		return 1
	}
	return l.Turn(word)
}

// Turn is [Lexicon.Age] for words that are about a change only where nothing stands behind them: "before", but not "before turning".
func (l *Lexicon) Turn(word string) int {
	if _, before := l.Words.Mark(word, "before"); before {
		return -1
	}
	if _, after := l.Words.Mark(word, "after"); after {
		return 1
	}
	return 0
}

// HasWord reports whether one of the pieces of a text is a word: three letters or more, not all of them capitals.
func HasWord(text string) bool {
	for word := range strings.FieldsSeq(text) {
		if len(word) >= 3 && strings.ToUpper(word) != word && !strings.ContainsAny(word, "0123456789-_/") {
			return true
		}
	}
	return false
}

// HasWords reports whether a price has words beside it that are more than the code or the name of a currency in three letters.
func HasWords(price string) bool {
	words, run := 0, 0
	for _, r := range price {
		switch {
		case r >= firstWide || r == '/':
			return true
		case !unicode.IsLetter(r):
			run = 0
		default:
			if run == 0 {
				words++
			}
			run++
		}
		if run > 3 || words > 1 {
			return true
		}
	}
	return false
}

// firstWide is the first of the characters of East Asian writing.
const firstWide = 0x2e80

// IsWide reports whether a sign is of East Asian writing, which has no blanks between words.
func IsWide(sign rune) bool { return sign >= firstWide }

// WithoutBlanks reports whether a sign is of writing that has no blanks between words, East Asian or Thai.
func WithoutBlanks(sign rune) bool { return IsWide(sign) || unicode.Is(unicode.Thai, sign) }

// LengthUnitsIn returns the units of length that a free text names.
func (l *Lexicon) LengthUnitsIn(text string) []string {
	var units []string
	for _, hit := range l.Words.Units(text) {
		if traits.IsLengthUnit(hit.Value) {
			units = append(units, hit.Value)
		}
	}
	return units
}

// exception is the word after which a note speaks of what is otherwise.
var exception = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[^\pL])(?:` + words.Load().AnyOf("exception", "unless") + `)`)
})

// exceptions are these and the words before what is otherwise by itself: "except the bore".
var exceptions = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[^\pL])(?:` + words.Load().AnyOf("exception", "unless") + `|` + words.Load().AnyOf("exception", "but") + `)(?:$|[^\pL])`)
})

// WithoutException returns a note that states a unit without what it says behind that of cells that are marked otherwise: "in thou unless mm is
// written beside". One that names a dimension of its own stays, "in mm except bores, in inches", and so does what comes before the unit:
// "unless otherwise stated dimensions are in mm".
func (l *Lexicon) WithoutException(note string) string {
	at := exception().FindStringIndex(note)
	if at == nil || len(l.LengthUnitsIn(note[:at[0]])) == 0 {
		return l.withoutMarked(note)
	}
	if l.namesSizes(note[at[1]:]) {
		return note
	}
	return note[:at[0]]
}

// namesSizes reports whether a text names sizes, or all of a sort.
func (l *Lexicon) namesSizes(text string) bool {
	said := l.Words.Subject("", "", text)
	return len(said.Roles) > 0 || len(said.Classes) > 0
}

// marked are words for how cells are marked: "where an inch mark is written".
var marked = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[^\pL])(?:` + words.Load().AnyOf("exception", "marked") + `)`)
})

// betweenSayings are signs between what a note says.
var betweenSayings = pattern.Lazy(`[;:,.(]\s|\s[(–—-]|[、。；，（]`)

// withoutMarked leaves out of a note that states a unit the pieces that say in which those sizes are that are marked: "all mm, inches where marked".
func (l *Lexicon) withoutMarked(note string) string {
	var kept []string
	from := 0
	take := func(piece string) {
		if !marked().MatchString(piece) || len(l.LengthUnitsIn(piece)) == 0 || l.namesSizes(piece) {
			kept = append(kept, piece)
		}
	}
	for _, at := range betweenSayings().FindAllStringIndex(note, -1) {
		take(note[from:at[1]])
		from = at[1]
	}
	take(note[from:])
	if rest := strings.Join(kept, ""); len(l.LengthUnitsIn(rest)) == 1 {
		return rest
	}
	return note
}

// CutException divides a note that states a unit and, behind a word such as "except", another one: "in mm except the length, which is in inches".
func (l *Lexicon) CutException(note string) (rule, otherwise string, found bool) {
	at := exceptions().FindStringIndex(note)
	if at == nil || len(l.UnitsStated(note[:at[0]])) != 1 || len(l.UnitsStated(note[at[1]:])) != 1 {
		return "", "", false
	}
	return note[:at[0]], note[at[1]:], true
}

// FormatUnit returns the unit that a number format shows beside the number: 0.000"in", 0.0" mm", #,##0.00\ "Zoll".
func (l *Lexicon) FormatUnit(format string) string {
	if format == "" || format == "General" || format == "@" {
		return ""
	}
	hit, _ := l.Ask("format", format, l.readFormat)
	return hit.Value
}

// PlainNumber returns the number of the club that a text names without its kind: 7, #7, 7番; empty where it names anything else.
func (l *Lexicon) PlainNumber(text string) string {
	text = strings.TrimSpace(text)
	if set := l.SetOf("", text); len(set) == 1 {
		text = set[0]
	}
	if len(text) != 1 || !IsDigits(text) {
		return ""
	}
	return text
}

func IsDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// SplitSet splits a part number that ends in a set of clubs: "KR-20 4-PW".
func SplitSet(lex *Lexicon, part string) (name string, set []string) {
	at := strings.LastIndexAny(part, " (")
	if at < 1 {
		return part, nil
	}
	set = lex.SetOf("", strings.Trim(part[at:], " ()"))
	if len(set) < 2 {
		return part, nil
	}
	return strings.TrimRight(part[:at], " (,:"), set
}

// FindSet finds a set of clubs within a description.
func (l *Lexicon) FindSet(text string) (set []string, place string, found bool) {
	if !l.mayNameSet(text) {
		return nil, "", false
	}
	answer, known := l.sets[text]
	if !known {
		set, place, _ = l.Words.FindClubs(text)
		answer = setAnswer{set, place}
		remember(l.sets, text, answer)
	}
	return answer.set, answer.place, len(answer.set) > 1
}

type setAnswer struct {
	set   []string
	place string
}

// mayNameSet reports whether a text has a sign or a word for a range or a list after a club, as every set of clubs has; most
// descriptions have none, and are not searched.
func (l *Lexicon) mayNameSet(text string) bool {
	last := rune(0)
	for i, r := range text {
		switch {
		case r == ' ':
			continue
		case !l.Words.EndsClub(last):
		case strings.ContainsRune("-–—~～〜/,、，", r), l.Words.StartsRange(text[i:]):
			return true
		}
		last = r
	}
	return false
}
