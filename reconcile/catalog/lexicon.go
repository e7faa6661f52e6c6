package catalog

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet/numfmt"
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

// leftWords are words for the value to the left, which in its language are no ditto mark for the one above.
var leftWords = map[string]bool{"同左": true, "좌동": true, "same as left": true, "wie links": true, "←": true, "idem à gauche": true, "igual izq.": true,
	"come a sinistra": true}

func saysLeft(text string) bool { return len(text) <= 24 && leftWords[strings.ToLower(text)] }

// isDitto reports whether a text refers to the value above it and cannot mean that there is no value.
func (l *lexicon) isDitto(text string) bool {
	if text == "" || len(text) > 16 || strings.ContainsAny(text, "0123456789") || saysLeft(text) {
		return false
	}
	if _, ditto := l.ask("ditto", text, l.words.IsDitto); !ditto {
		return false
	}
	_, none := l.ask("not applicable", text, l.words.IsNotApplicable)
	return !none
}

// clubHeading returns the club that a cell names, as the heading of a column: 3, #5, 7i, PW; empty for anything else.
func (l *lexicon) clubHeading(text string) string {
	if text == "" || len(text) > 12 || countDigits(text) > 2 || strings.ContainsAny(text, ".°,") || isDigits(text) && len(text) > 1 && text > "12" {
		return ""
	}
	if set := l.setOf("iron", text); len(set) == 1 {
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

// wordsBeside returns the words of a text that begins with a number, none of any other text.
func wordsBeside(text string) []string {
	if !looksNumeric(text) {
		return nil
	}
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
}

// priceBreak is a heading that gives a quantity from which a price holds: 1-9 pcs, 10–49, 50+, ab 100 Stk.
var priceBreak = pattern.Lazy(`^(?:\pL{1,5}\.? )?\d+(?: ?[-–~～〜] ?\d+| ?\+| ?以上| ?이상)(?: ?\pL{1,7}\.?)?$`)

func isPriceBreak(text string) bool { return priceBreak().MatchString(text) }

// isWord reports whether a unit was found as a bare word, which at the beginning of a heading is the abbreviation of
// another one: "Ins. depth".
func isWord(place string) bool {
	return strings.Trim(place, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ. ") == ""
}

// recogniser returns the question whether a text is a word of a role, nil where a role's texts can be anything.
func (l *lexicon) recogniser(role Role) func(string) bool {
	ask := func(name string, answer func(string) (words.Hit, bool)) func(string) bool {
		return func(text string) bool {
			hit, found := l.ask(name, text, answer)
			return found && hit.Score >= 0.3
		}
	}
	switch role {
	case Category:
		return func(text string) bool {
			hit, found := l.category(text)
			return found && hit.Score >= 0.3
		}
	case Club:
		return func(text string) bool { return len(l.setOf("iron", text)) > 0 }
	case Top:
		return ask("top", l.words.TopForm)
	case Style:
		return ask("style", l.words.Style)
	case Material:
		return ask("material", l.words.Material)
	case BoreForm, TipForm:
		return ask("bore form", l.words.BoreForm)
	case UnitRole:
		return ask("unit", l.words.Unit)
	}
	return nil
}

// questions is a set of questions about a text, each answered with yes or no.
type questions uint16

const (
	// asNumber: see looksNumeric; asValue: see lexicon.looksValue; asDigits: see bearsDigits; asCode: see looksLikeCode.
	asNumber questions = 1 << iota
	asValue
	asDigits
	asCode
	// asHeading: is it the heading of any role?
	asHeading
	// asClub: see lexicon.clubHeading.
	asClub
	// asDitto: see lexicon.isDitto. asReference: does it refer to another cell, by ditto or another word?
	asDitto
	asReference
)

// answer answers a question about a text.
func (l *lexicon) answer(q questions, text string) bool {
	switch q {
	case asNumber:
		return looksNumeric(text)
	case asValue:
		return l.looksValue(text)
	case asDigits:
		return bearsDigits(text)
	case asCode:
		return looksLikeCode(text)
	case asHeading:
		found := l.match(text)
		return len(found) > 0 && found[0].Score >= headingScore
	case asClub:
		return l.clubHeading(text) != ""
	case asDitto:
		return l.isDitto(text)
	case asReference:
		return saysLeft(text) || l.isDitto(text)
	}
	return false
}

// readFormat finds the unit that a number format shows beside the number, in whatever way the program wrote it.
func (l *lexicon) readFormat(format string) (words.Hit, bool) {
	before, after := numfmt.Parse(format).Affixes()
	for _, text := range []string{after, before} {
		if text == "" {
			continue
		}
		if hit, ok := l.words.Unit(text); ok {
			return hit, true
		}
		if hits := l.words.Units(text); len(hits) == 1 {
			return hits[0], true
		}
	}
	return words.Hit{}, false
}

var (
	// unitFraction is a part of a unit in which sizes are counted: 1/10 mm, 1/16", 1/1000 in.
	unitFraction = pattern.Lazy(`(?i)(?:^|[^\d.,])1 ?/ ?(\d+)(?:st|nd|rd|th|e|er|tel)? ?(?:mm|millim|in\b|inch|zoll|pouce|pulg|poll|["″”]|㎜|毫米|公釐|英|吋|インチ|ミリ)`)
	// tenthWords say the same of a tenth of a millimetre.
	tenthWords = pattern.Lazy(`(?i)\btenths? of (?:a )?(?:mm|millim)|zehntel ?-?(?:mm|millim)|dixièmes? de (?:mm|millim)|décimas? de (?:mm|milím)|decimi di (?:mm|millim)|十分の一ミリ|十分之一(?:毫米|公釐)`)
	// aloneFraction is a unit line's cell with nothing else in it.
	aloneFraction = pattern.Lazy(`(?i)^1 ?/ ?\d+ ?(?:mm|in|inch|["″”])$`)
)

// saysUnit reports whether a text is the heading of units.
func (l *lexicon) saysUnit(text string) bool {
	found := l.match(text)
	return len(found) > 0 && found[0].Role == string(UnitRole) && found[0].Score >= specificHeading
}

// isUnit reports whether a text is a unit and nothing else, or a sign for none.
func (l *lexicon) isUnit(text string) bool {
	if len(text) > 24 {
		return false
	}
	if strings.Trim(text, "-–—/ ") == "" || strings.HasPrefix(text, "1") && aloneFraction().MatchString(text) {
		return true
	}
	_, found := l.ask("unit", text, l.words.Unit)
	return found
}

// isLimit reports whether a text is a word for the least or the greatest, and nothing else.
func (l *lexicon) isLimit(text string) bool {
	if len(text) > 24 || text == "" {
		return false
	}
	for _, mark := range []string{"at_least", "at_most"} {
		if _, found := l.ask(mark, strings.TrimRight(text, ". "), func(text string) (words.Hit, bool) { return l.words.Mark(text, mark) }); found {
			return true
		}
	}
	return false
}

// hasWord reports whether one of the pieces of a text is a word: three letters or more, not all of them capitals.
func hasWord(text string) bool {
	for word := range strings.FieldsSeq(text) {
		if len(word) >= 3 && strings.ToUpper(word) != word && !strings.ContainsAny(word, "0123456789-_/") {
			return true
		}
	}
	return false
}

// lengthUnitsIn returns the units of length that a free text names.
func (l *lexicon) lengthUnitsIn(text string) []string {
	var units []string
	for _, hit := range l.words.Units(text) {
		if isLengthUnit(hit.Value) {
			units = append(units, hit.Value)
		}
	}
	return units
}

// formatUnit returns the unit that a number format shows beside the number: 0.000"in", 0.0" mm", #,##0.00\ "Zoll".
func (l *lexicon) formatUnit(format string) string {
	if format == "" || format == "General" || format == "@" {
		return ""
	}
	hit, _ := l.ask("format", format, l.readFormat)
	return hit.Value
}

// plainNumber returns the number of the club that a text names without its kind: 7, #7, 7番; empty where it names anything else.
func (l *lexicon) plainNumber(text string) string {
	text = strings.TrimSpace(text)
	if set := l.setOf("", text); len(set) == 1 {
		text = set[0]
	}
	if len(text) != 1 || !isDigits(text) {
		return ""
	}
	return text
}

func isDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// splitSet splits a part number that ends in a set of clubs: "KR-20 4-PW".
func splitSet(lex *lexicon, part string) (name string, set []string) {
	at := strings.LastIndexAny(part, " (")
	if at < 1 {
		return part, nil
	}
	set = lex.setOf("", strings.Trim(part[at:], " ()"))
	if len(set) < 2 {
		return part, nil
	}
	return strings.TrimRight(part[:at], " (,:"), set
}

// findSet finds a set of clubs within a description.
func (l *lexicon) findSet(text string) (set []string, place string, found bool) {
	if !mayNameSet(text) {
		return nil, "", false
	}
	answer, known := l.sets[text]
	if !known {
		set, place, _ = l.words.FindClubs(text)
		answer = setAnswer{set, place}
		remember(l.sets, text, answer)
	}
	return answer.set, answer.place, len(answer.set) > 1
}

type setAnswer struct {
	set   []string
	place string
}

// mayNameSet reports whether a text has a sign for a range or a list after a digit, as every set of clubs has; most
// descriptions have none, and are not searched.
func mayNameSet(text string) bool {
	last := rune(0)
	for _, r := range text {
		switch {
		case isClubEnd(last) && strings.ContainsRune("-–—~～〜/,、，至から", r):
			return true
		case r == ' ':
			continue
		case r == 't' && isClubEnd(last) && strings.Contains(text, " to "):
			return true
		}
		last = r
	}
	return false
}

func isClubEnd(r rune) bool {
	switch r {
	case 'i', 'I', 'w', 'W', 'h', 'H', '#', '番', '号', '°':
		return true
	}
	return r >= '0' && r <= '9'
}
