package words

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"example.com/seatline/reconcile/internal/pattern"
)

// Clubs returns the clubs that a text names, as a set or singly: "4-PW" gives 4 5 6 7 8 9 PW, "3,5,7W" gives 3W 5W 7W,
// "Hybrid 3-5" 3H 4H 5H, "7番アイアン" 7, "50/54/58" the lofts of three wedges. An i is kept as the text writes it: "5i-7i"
// gives 5i 6i 7i, "5I-7I" 5I 6I 7I. It reports false where the text says anything else: a number alone, a part number, a range of plain
// numbers, which may be anything; see [Vocabulary.ClubsIn].
//
// A range that ends in a wedge runs through PW; SW and LW include the wedges before them but no gap wedge, which sets
// count differently: "4-SW" gives 4 5 6 7 8 9 PW SW (common practice).
func (v *Vocabulary) Clubs(text string) ([]string, bool) { return v.ClubsIn("", text) }

// ClubsIn is [Vocabulary.Clubs] for a text that is known to name clubs of a category, so that plain numbers are clubs.
func (v *Vocabulary) ClubsIn(category, text string) ([]string, bool) {
	if len(text) > 120 {
		return nil, false
	}
	if before, count := countBehind(text); count > 0 {
		if set, ok := v.ClubsIn(category, before); ok && len(set) == count {
			return set, true
		}
	}
	r := clubReader{v: v, category: category, marked: category != "", to: v.letterForTo(text)}
	if !r.lex(text) || !r.parse() {
		return nil, false
	}
	if strings.Contains(text, "I") && capitalIron().MatchString(text) {
		for i, club := range r.clubs {
			if number, found := strings.CutSuffix(club, "i"); found {
				r.clubs[i] = number + "I"
			}
		}
	}
	r.clubs = saidOnce(r.clubs)
	return r.clubs, len(r.clubs) > 0
}

// saidOnce returns the clubs that a text names in each of its languages once: "Fer 5 / 5 iron" is one club, "Eisen 5-9 / 5-9 irons" one set.
func saidOnce(clubs []string) []string {
	for n := 1; n <= len(clubs)/2; n++ {
		same := len(clubs)%n == 0
		for i := n; same && i < len(clubs); i++ {
			same = strings.TrimRight(clubs[i], "iI") == strings.TrimRight(clubs[i-n], "iI")
		}
		if same {
			return clubs[:n]
		}
	}
	return clubs
}

// countBehind returns what stands before a number of pieces in brackets at the end of a text, and the number, zero where there is none: "4-PW (7 pcs)".
func countBehind(text string) (before string, count int) {
	found := countInBrackets().FindStringSubmatch(text)
	if found == nil {
		return text, 0
	}
	count, err := strconv.Atoi(found[2])
	if err != nil {
		return text, 0
	}
	return strings.TrimSpace(found[1]), count
}

var countInBrackets = pattern.Lazy(`^(.+?)[(（\[](?:\D{0,12} )?(\d{1,2})\D{0,12}[)）\]]$`)

// letterForTo returns the word of one letter for "to" that stands between spaces in a text, as it is looked up; empty where none does.
func (v *Vocabulary) letterForTo(text string) string {
	for _, to := range v.Written("run", "to") {
		if utf8.RuneCountInString(to) == 1 && strings.Contains(text, " "+to+" ") {
			return keyOf(to)
		}
	}
	return ""
}

// EndsClub reports whether a character may be the last of a club with its number: a digit, the letter or word behind it, a degree sign.
func (v *Vocabulary) EndsClub(r rune) bool {
	return r >= '0' && r <= '9' || r == '#' || r == '°' || v.clubEnds[unicode.ToLower(r)]
}

// StartsRange reports whether a text begins with a word that stands between the first and the last club of a set.
func (v *Vocabulary) StartsRange(text string) bool {
	return slices.ContainsFunc(v.rangeWords, func(to string) bool { return strings.HasPrefix(text, to) })
}

// findClubSigns prepares what EndsClub and StartsRange look for: words of scripts without spaces as they are, others with one behind them.
func (v *Vocabulary) findClubSigns() {
	v.clubEnds = map[rune]bool{}
	for _, code := range []string{"i", "W", "H", "U"} {
		for _, letter := range v.phrases(classClubCode, code) {
			if len(letter) == 1 {
				v.clubEnds[rune(letter[0])] = true
			}
		}
	}
	for _, number := range v.phrases(classClubWord, "number") {
		if last, _ := utf8.DecodeLastRuneInString(number); isWide(last) {
			v.clubEnds[last] = true
		}
	}
	for _, to := range v.phrases(classMark, "to") {
		switch last, _ := utf8.DecodeLastRuneInString(to); {
		case isWide(last):
			v.rangeWords = append(v.rangeWords, to)
		case unicode.IsLetter(last) || strings.HasSuffix(to, "."):
			v.rangeWords = append(v.rangeWords, to+" ")
		}
	}
}

// capitalIron is an iron with its letter in capitals, which is kept: 6I.
var capitalIron = pattern.Lazy(`[0-9] ?I\b`)

// ownLetter is a letter before the number of a club.
var ownLetter = pattern.Lazy(`\b[A-Za-z][0-9]{1,2}\b`)

// InOwnLetters puts the letters that stand before the numbers of clubs in one language into those of all: "F4–F9" is 4–9 in a French
// list, and may be five fairway woods in another.
func (v *Vocabulary) InOwnLetters(language, text string) string {
	return ownLetter().ReplaceAllStringFunc(text, func(club string) string {
		for _, e := range v.lookup(v.classes[classClubOwn], strings.ToLower(club[:1])) {
			switch {
			case e.language != language:
			case e.value == "iron":
				return club[1:]
			default:
				return club[1:] + e.value
			}
		}
		return club
	})
}

// FindClubs finds an unmistakable set or club within a longer text, such as a description: "Forged iron heads 4-PW".
// Place is the part of the text that names it.
func (v *Vocabulary) FindClubs(text string) (clubs []string, place string, found bool) {
	if len(text) > maxText {
		text = text[:maxText]
	}
	var starts, ends []int
	inside := false
	for i, r := range text {
		if blank := unicode.IsSpace(r) || strings.ContainsRune("()[];:（）", r); blank == inside {
			if inside {
				ends = append(ends, i)
			} else {
				starts = append(starts, i)
			}
			inside = !inside
		}
	}
	if inside {
		ends = append(ends, len(text))
	}
	for n := min(len(starts), 12); n > 0; n-- {
		for i := 0; i+n <= len(starts); i++ {
			place := strings.Trim(text[starts[i]:ends[i+n-1]], ",. ")
			if i+n < len(starts) && v.measuresLast(place, text[starts[i+n]:ends[i+n]]) {
				continue // AW, 50 deg
			}
			if wedge, _, found := strings.Cut(place, ", "); found && strings.HasSuffix(place, "°") && v.isOneClub(wedge) {
				continue // AW, 50°
			}
			if clubs, ok := v.Clubs(place); ok && (len(clubs) > 1 || n > 1 || !strings.HasPrefix(place, "#")) {
				return clubs, place, true
			}
		}
	}
	return nil, "", false
}

// ClubWithin finds the one club that a longer text names, such as a name: "Forged 9 iron".
func (v *Vocabulary) ClubWithin(text string) (Hit, bool) {
	clubs, place, _ := v.FindClubs(text)
	if len(clubs) != 1 {
		return Hit{}, false
	}
	return Hit{Value: clubs[0], Score: 1, Words: place}, true
}

// isOneClub reports whether a text names a single club.
func (v *Vocabulary) isOneClub(text string) bool {
	clubs, ok := v.Clubs(text)
	return ok && len(clubs) == 1
}

// measuresLast reports whether a word is a unit of the number that the text before it ends in.
func (v *Vocabulary) measuresLast(text, word string) bool {
	last := text[len(text)-min(1, len(text)):]
	if last < "0" || last > "9" {
		return false
	}
	_, isUnit := v.Unit(strings.Trim(word, ",. "))
	return isUnit
}

type clubKind uint8

const (
	clubNumber clubKind = iota
	clubCode            // a club without a number: PW
	clubLetter          // P, S: a club only beside others
	clubRange           // the sign between the ends of a range
	clubComma           // the sign between clubs
)

type clubToken struct {
	kind   clubKind
	number int
	name   string // PW, or the letter of a numbered club: i W H U
	loft   bool
}

type clubReader struct {
	v        *Vocabulary
	category string
	marked   bool   // something says that the numbers are clubs
	to       string // the word for "to" of one letter that stands between spaces, and is no club: "5 à PW"
	tokens   []clubToken
	clubs    []string
	apart    bool // something stands between clubs
	glued    bool // the last that was read is a letter or word, and nothing stands behind it yet
}

// lex divides the text into clubs and the signs between them. It reports false for anything else.
func (r *clubReader) lex(text string) bool {
	rest := unifySigns.Replace(strings.ToLower(norm.NFKC.String(replaceSigns.Replace(text))))
	for rest != "" {
		first := firstRune(rest)
		var ok bool
		switch {
		case unicode.IsSpace(first):
			rest = rest[len(string(first)):]
			r.apart, r.glued = true, false
			continue
		case first >= '0' && first <= '9':
			rest, ok = r.number(rest)
		case first == '#':
			r.marked = true
			rest, ok = rest[1:], len(rest) > 1
		case first == '°' || first == '*' || first == '.':
			rest, ok = r.afterNumber(rest, first)
		case strings.ContainsRune("-~～〜", first):
			rest, ok = rest[len(string(first)):], true
			r.tokens = append(r.tokens, clubToken{kind: clubRange})
		case strings.ContainsRune(",/+&、，・", first):
			rest, ok = rest[len(string(first)):], true
			r.tokens = append(r.tokens, clubToken{kind: clubComma})
		default:
			rest, ok = r.word(rest)
		}
		if !ok {
			return false
		}
		r.glued = unicode.IsLetter(first)
	}
	return len(r.tokens) > 0
}

func (r *clubReader) number(rest string) (string, bool) {
	n := 0
	for n < len(rest) && rest[n] >= '0' && rest[n] <= '9' {
		n++
	}
	number, err := strconv.Atoi(rest[:n])
	if err != nil || number < 1 || number > 64 || rest[0] == '0' {
		return rest, false
	}
	token := clubToken{kind: clubNumber, number: number, loft: number >= 44}
	if number > 12 && !token.loft {
		return rest, false
	}
	// A letter before the number: W3, H5. It was kept as a comma-less code token.
	if last := len(r.tokens) - 1; last >= 0 && r.tokens[last].kind == clubNumber && r.tokens[last].number == 0 {
		token.name = r.tokens[last].name
		r.tokens = r.tokens[:last]
	} else if last >= 0 && r.tokens[last].kind == clubLetter && r.glued && !token.loft {
		return rest, false // S2/3 is a shelf, and no sand wedge with two irons
	}
	r.tokens = append(r.tokens, token)
	return rest[n:], true
}

// afterNumber reads the degree sign of a loft and the full stop of an abbreviation.
func (r *clubReader) afterNumber(rest string, sign rune) (string, bool) {
	last := len(r.tokens) - 1
	rest = rest[len(string(sign)):]
	if sign == '.' {
		return rest, rest == "" || firstRune(rest) == ' '
	}
	if last < 0 || !r.tokens[last].loft {
		return rest, false
	}
	r.marked = true
	return rest, true
}

// word reads the longest known word at the beginning: a code, a letter, the name of a club, a word for iron or wood, a
// word for number or range.
func (r *clubReader) word(rest string) (string, bool) {
	ends := wordEnd(rest)
	for _, end := range slices.Backward(ends) {
		key := keyOf(rest[:end])
		if r.known(key, rest[end:]) {
			return rest[end:], true
		}
	}
	return rest, false
}

// wordEnd returns where words may end in a text that begins with a letter: after each wide character, or each run of
// letters up to four of them.
func wordEnd(s string) []int {
	var ends []int
	words := 0
	previous := rune(0)
	for i, r := range s {
		if i > 0 && (isWide(previous) || unicode.IsLetter(previous) && !(unicode.IsLetter(r) && !isWide(r))) {
			ends = append(ends, i)
			words++
		}
		if words > 12 || !unicode.IsLetter(r) && !strings.ContainsRune(" -/°ー", r) {
			return ends
		}
		previous = r
	}
	if unicode.IsLetter(previous) || previous == 'ー' {
		ends = append(ends, len(s))
	}
	return ends
}

func (r *clubReader) known(key, after string) bool {
	v := r.v
	if last := len(r.tokens) - 1; key == r.to && key != "" && last >= 0 && r.tokens[last].kind < clubRange && strings.TrimSpace(after) != "" {
		r.tokens = append(r.tokens, clubToken{kind: clubRange})
		return true
	}
	if options := v.lookup(v.classes[classClubName], key); len(options) > 0 {
		r.marked = true
		r.tokens = append(r.tokens, clubToken{kind: clubCode, name: options[0].value})
		return true
	}
	if options := v.lookup(v.classes[classClubWord], key); len(options) > 0 {
		r.marked = true
		if options[0].value != "number" && r.category == "" {
			r.category = options[0].value
		}
		// The hyphen of "7-iron" is no range.
		if last := len(r.tokens) - 1; options[0].value != "number" && last >= 0 && r.tokens[last].kind == clubRange {
			r.tokens = r.tokens[:last]
		}
		return true
	}
	if options := v.lookup(v.classes[classClubCode], key); len(options) > 0 {
		return r.codeLetter(options[0].value, after)
	}
	if options := v.lookup(v.classes[classClubLetter], key); len(options) > 0 {
		r.tokens = append(r.tokens, clubToken{kind: clubLetter, name: options[0].value})
		return true
	}
	if len(r.tokens) == 0 {
		return false
	}
	for _, e := range v.lookup(v.classes[classMark], key) {
		switch e.value {
		case "to":
			r.tokens = append(r.tokens, clubToken{kind: clubRange})
			return true
		case "or":
			r.tokens = append(r.tokens, clubToken{kind: clubComma})
			return true
		}
	}
	return false
}

// codeLetter reads the letter after or before the number of a club.
func (r *clubReader) codeLetter(name, after string) bool {
	r.marked = true
	if last := len(r.tokens) - 1; last >= 0 && r.tokens[last].kind == clubNumber && r.tokens[last].name == "" && !r.tokens[last].loft {
		r.tokens[last].name = name
		return true
	}
	if after == "" || after[0] < '1' || after[0] > '9' {
		return false
	}
	r.tokens = append(r.tokens, clubToken{kind: clubNumber, name: name})
	return true
}

// parse makes clubs of the tokens.
func (r *clubReader) parse() bool {
	list := r.tokens
	if list[len(list)-1].kind >= clubRange {
		return false
	}
	if len(list) == 2 && list[0].kind == clubNumber && list[1].kind == clubLetter && !r.apart {
		return false // 3A is a place on a shelf, or anything
	}
	list = slices.CompactFunc(withoutLofts(list), func(a, b clubToken) bool { return a == b && a.kind == clubCode }) // sand wedge SW
	numbers, lofts, singles := 0, 0, 0
	for _, t := range list {
		switch {
		case t.loft:
			lofts++
		case t.kind == clubNumber:
			numbers++
		case t.kind == clubLetter:
			singles++
		}
	}
	switch {
	case lofts > 0 && numbers > 0:
		return false
	case singles > 0 && numbers == 0 && !r.marked:
		return false
	case singles > 0 && numbers > 0:
		r.marked = true
	case !r.marked && (lofts < 2 || slices.ContainsFunc(list, func(t clubToken) bool { return t.kind == clubRange })):
		return false
	}
	r.nameNumbers(list)
	for i := 0; i < len(list); i++ {
		switch {
		case list[i].kind == clubComma:
			if i == 0 || list[i-1].kind >= clubRange {
				return false
			}
		case list[i].kind == clubRange:
			return false
		case i+2 < len(list) && list[i+1].kind == clubRange:
			if !r.span(list[i], list[i+2]) {
				return false
			}
			i += 2
		default:
			r.clubs = append(r.clubs, clubName(list[i]))
		}
	}
	return len(r.clubs) <= 20
}

// loftsOf are the lofts that a wedge with a name of its own has (common practice).
var loftsOf = map[string][2]int{"PW": {44, 49}, "GW": {48, 54}, "AW": {48, 54}, "UW": {48, 54}, "SW": {53, 58}, "LW": {57, 64}}

// withoutLofts leaves out what says the loft of the wedge before it, with no sign between: "SW 56" is one club. "PW 52 56" is three.
func withoutLofts(list []clubToken) []clubToken {
	var kept []clubToken
	for i, t := range list {
		if i > 0 && t.loft && (i+1 == len(list) || !list[i+1].loft) && isLoftOf(t, list[i-1]) {
			continue
		}
		kept = append(kept, t)
	}
	return kept
}

// isLoftOf reports whether a number is a loft that a wedge has.
func isLoftOf(t, wedge clubToken) bool {
	within, named := loftsOf[wedge.name]
	return named && wedge.kind < clubRange && t.loft && t.number >= within[0] && t.number <= within[1]
}

// nameNumbers gives plain numbers their letter: that of the category, or that of the numbers after them ("3,5,7W"), or
// of those before them ("3W, 5, 7").
func (r *clubReader) nameNumbers(list []clubToken) {
	letter := map[string]string{"fairway": "W", "driver": "W", "hybrid": "H"}[r.category]
	next := ""
	for i, t := range slices.Backward(list) {
		switch {
		case t.kind == clubCode || t.kind == clubLetter:
			next = "-"
		case t.kind == clubNumber && t.name != "":
			next = t.name
		case t.kind == clubNumber && !t.loft && next != "":
			list[i].name = strings.Trim(next, "-")
		}
	}
	previous := letter
	for i, t := range list {
		switch {
		case t.kind == clubNumber && t.name != "":
			previous = t.name
		case t.kind == clubNumber && !t.loft && !(i+2 < len(list) && list[i+2].kind != clubNumber) && previous != "":
			list[i].name = previous
		}
	}
}

// wedges in the order of their lofts; the gap wedge has several names.
var wedges = []string{"PW", "SW", "LW"}

// span expands a range.
func (r *clubReader) span(from, to clubToken) bool {
	if from.loft || to.loft || to.kind >= clubRange {
		return false
	}
	if to.kind == clubNumber {
		if from.kind != clubNumber || from.name != to.name || from.number >= to.number {
			return false
		}
		for n := from.number; n <= to.number; n++ {
			r.clubs = append(r.clubs, clubName(clubToken{number: n, name: to.name}))
		}
		return true
	}
	passed := 0
	if from.kind == clubNumber {
		if from.name != "" && from.name != "i" || from.number > 9 {
			return false
		}
		for n := from.number; n <= 9; n++ {
			r.clubs = append(r.clubs, clubName(clubToken{number: n, name: from.name}))
		}
	} else {
		r.clubs = append(r.clubs, from.name)
		passed = max(1, slices.Index(wedges, from.name)+1)
	}
	end := slices.Index(wedges, to.name)
	if end < 0 { // a gap wedge comes after PW
		end = 0
	}
	if end < passed && slices.Contains(wedges, to.name) {
		return false
	}
	r.clubs = append(r.clubs, wedges[min(passed, end+1):end+1]...)
	if !slices.Contains(wedges, to.name) {
		r.clubs = append(r.clubs, to.name)
	}
	return true
}

func clubName(t clubToken) string {
	if t.number == 0 {
		return t.name
	}
	return strconv.Itoa(t.number) + t.name
}
