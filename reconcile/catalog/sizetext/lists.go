package sizetext

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TimesSigns are the signs that stand between the sizes; the letter x counts only between spaces or numbers.
const TimesSigns = "×✕*＊⨯╳"

// SplitTimes splits a text at signs for times; nil where a piece is empty. In a heading the letter x must stand between
// spaces, in a value between numbers.
func SplitTimes(text string, isHeading bool) []string {
	runes := []rune(text)
	var pieces []string
	start := 0
	for i, r := range runes {
		if strings.ContainsRune(TimesSigns, r) || (r == 'x' || r == 'X') && isTimes(runes, i, isHeading) {
			pieces = append(pieces, strings.TrimSpace(string(runes[start:i])))
			start = i + 1
		}
	}
	pieces = append(pieces, strings.TrimSpace(string(runes[start:])))
	for _, piece := range pieces {
		if piece == "" || !isHeading && !lexicon.LooksNumeric(piece) {
			return nil
		}
	}
	return pieces
}

// isTimes reports whether the letter x at a place means times.
func isTimes(runes []rune, at int, isHeading bool) bool {
	if at == 0 || at == len(runes)-1 {
		return false
	}
	before, after := runes[at-1], runes[at+1]
	if before == ' ' && after == ' ' {
		return true
	}
	return !isHeading && (unicode.IsDigit(before) || before == '"' || before == ' ' || before == 'm') && (unicode.IsDigit(after) || after == '.' || after == ' ' || unicode.IsSymbol(after))
}

// ShareUnit gives the unit after the last size to those before it: 9.35 x 13.7 x 19 mm.
func ShareUnit(pieces []string) {
	last := pieces[len(pieces)-1]
	number := strings.TrimRightFunc(last, func(r rune) bool { return !unicode.IsNumber(r) })
	unit := strings.TrimSpace(last[len(number):])
	if number == "" || unit == "" {
		return
	}
	for i, piece := range pieces[:len(pieces)-1] {
		if r, _ := utf8.DecodeLastRuneInString(piece); unicode.IsNumber(r) {
			pieces[i] = piece + " " + unit
		}
	}
}

// LeastListed and MostListed are how many sizes a list within a text has: three, or four where both ends of a ferrule are given.
const LeastListed, MostListed = 3, 4

// timesList is a list of sizes within a text.
var timesList = sync.OnceValue(func() *regexp.Regexp {
	unit := anyUnit()
	return regexp.MustCompile(fmt.Sprintf(`(?i)(?:\d*[.,]\d+|\d+)%s(?: ?[x%s] ?[%s]? ?(?:\d*[.,]\d+|\d+(?:[- ]\d+/\d+|/\d+)?)%s){%d,}`, unit, TimesSigns, lexicon.DiameterSigns, unit, LeastListed-1))
})

// mayList reports whether some signs stand between three numbers of a text, as they do in lists. The expressions for lists are slow at finding out that
// a text has none.
func mayList(text, signs string) bool {
	count := 0
	for at, r := range text {
		if r < utf8.RuneSelf && !isSign[r] || !strings.ContainsRune(signs, r) {
			continue
		}
		rest := strings.TrimPrefix(text[at+utf8.RuneLen(r):], " ")
		if next, size := utf8.DecodeRuneInString(rest); next >= utf8.RuneSelf { // the sign of a diameter
			rest = strings.TrimPrefix(rest[size:], " ")
		}
		if nextNumber(rest[:min(len(rest), 2)], 0) == 0 {
			if count++; count >= LeastListed-1 {
				return true
			}
		}
	}
	return false
}

// isSign are the signs of ASCII that stand between the sizes of lists.
var isSign = [utf8.RuneSelf]bool{'x': true, 'X': true, '*': true, '/': true}

// ListWithin returns the sizes of the one list within a text, nil where there is none or several.
func ListWithin(text string) []string {
	var found [][]int
	if mayList(text, "xX"+TimesSigns) {
		found = timesList().FindAllStringIndex(text, 2)
	}
	if len(found) == 0 {
		return slashed(text)
	}
	if len(found) != 1 || !lexicon.StandsFree(text, found[0][0], found[0][1]) {
		return nil
	}
	pieces := SplitTimes(text[found[0][0]:found[0][1]], false)
	if len(pieces) > MostListed {
		return nil
	}
	return pieces
}

// slashList is a list of sizes within a text, between which slashes stand.
var slashList = sync.OnceValue(func() *regexp.Regexp {
	size := `(?:\d*[.,]\d+|\d+)` + anyUnit()
	return regexp.MustCompile(fmt.Sprintf(`(?i)%s(?: ?/ ?[%s]? ?%s){%d,}`, size, lexicon.DiameterSigns, size, LeastListed-1))
})

// slashed returns the sizes of the one list with slashes within a text, nil where there is none or several. Half of them have decimals: a date has none.
func slashed(text string) []string {
	if !mayList(text, "/") {
		return nil
	}
	found := slashList().FindAllStringIndex(text, 2)
	if len(found) != 1 || !lexicon.StandsFree(text, found[0][0], found[0][1]) {
		return nil
	}
	if goesOn().MatchString(text[found[0][1]:]) {
		return nil // a part of a longer list
	}
	pieces := strings.Split(text[found[0][0]:found[0][1]], "/")
	for i, piece := range pieces {
		pieces[i] = strings.TrimSpace(piece)
	}
	if len(pieces) > MostListed || !mostDecimals(pieces) {
		return nil
	}
	return pieces
}

// goesOn is what stands behind a list that goes on with another sign.
var goesOn = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(fmt.Sprintf(`(?i)^ ?[x%s-] ?[%s]? ?(?:\d*[.,]\d+|\d)`, TimesSigns, lexicon.DiameterSigns))
})

// mixedList is a list of sizes within a text between which different signs stand, and spacedList one with blanks as well.
var (
	mixedList  = sync.OnceValue(func() *regexp.Regexp { return listWith(`(?: ?[x/` + TimesSigns + `] ?| ?[-–—] ?)`) })
	spacedList = sync.OnceValue(func() *regexp.Regexp { return listWith(`(?: ?[x/` + TimesSigns + `] ?| ?[-–—] ?| )`) })
)

// listWith is an expression for lists of sizes between which signs stand.
func listWith(sign string) *regexp.Regexp {
	size := `(?:\d*[.,]\d+|\d+)` + anyUnit()
	return regexp.MustCompile(fmt.Sprintf(`(?i)%s(?:%s(?:[%s] ?)?%s){%d,}`, size, sign, lexicon.DiameterSigns, size, LeastListed-1))
}

// MixedWithin returns the sizes of the one list within a text whatever signs stand between them, "13.5/10.8/9.3 x 19", with blanks too where there is no
// other; nil where it has none or several. Half of them have decimals. It may as well be of something else, unless somebody says in which order such sizes are.
func MixedWithin(text string) []string {
	if CountNumbers(text) < LeastListed {
		return nil
	}
	for _, list := range [...]*regexp.Regexp{mixedList(), spacedList()} {
		found := list.FindAllStringIndex(text, 2)
		if len(found) == 0 {
			continue
		}
		if len(found) > 1 || !lexicon.StandsFree(text, found[0][0], found[0][1]) {
			return nil
		}
		pieces := Numbers(text[found[0][0]:found[0][1]], MostListed+1)
		if len(pieces) > MostListed || !mostDecimals(pieces) {
			return nil
		}
		return pieces
	}
	return nil
}

// listsDecimals reports whether a text has a list of sizes, however many, between which different signs stand and most of which have decimals.
func listsDecimals(text string) bool {
	if !mayList(text, "xX/"+TimesSigns) {
		return false
	}
	at := mixedList().FindStringIndex(text)
	return at != nil && lexicon.StandsFree(text, at[0], at[1]) && mostDecimals(Numbers(text[at[0]:at[1]], 24))
}

// mostDecimals reports whether at least half of some numbers have decimals: a date has none.
func mostDecimals(pieces []string) bool {
	count := 0
	for _, piece := range pieces {
		if strings.ContainsAny(piece, DecimalMarks) {
			count++
		}
	}
	return 2*count >= len(pieces)
}

// anyList is a list of three or four sizes within a text between which signs of times or strokes stand, one of them with decimals.
var anyList = sync.OnceValue(func() *regexp.Regexp {
	unit := anyUnit()
	return regexp.MustCompile(`(?i)(\d*[.,]\d+|\d+)` + unit + `(?: ?[x×*/] ?(?:\d*[.,]\d+|\d+(?:[- ]\d+/\d+)?)` + unit + `){2,3}`)
})

// AnyListWithin is ListWithin for a list with strokes between its sizes too, "13.5/9.3 x 20". It may as well be of something else: only what is
// known of the part tells.
func AnyListWithin(text string) []string {
	if pieces := ListWithin(text); pieces != nil {
		return pieces
	}
	if !mayList(text, "xX/"+TimesSigns) {
		return nil
	}
	found := anyList().FindAllStringIndex(text, 2)
	if len(found) != 1 || !lexicon.StandsFree(text, found[0][0], found[0][1]) || goesOn().MatchString(text[found[0][1]:]) {
		return nil
	}
	list := text[found[0][0]:found[0][1]]
	if !strings.ContainsAny(list, DecimalMarks) {
		return nil
	}
	return SplitTimes(strings.ReplaceAll(list, "/", "×"), false)
}

// NamesListed returns the names of as many sizes that a sentence lists, between signs for times, slashes, dashes or commas.
func NamesListed(lex *lexicon.Lexicon, text string, count int) []string {
	for _, split := range [...]func(*lexicon.Lexicon, string) []string{atTimes, atSlashes, atDashes, atCommas, atMixed, atMixedDashes} {
		pieces := split(lex, text)
		for from := range max(0, len(pieces)-count+1) {
			to := from + count
			if names := namesOf(lex, pieces[from:to]); names != nil && !listsOn(lex, pieces[from], names[0], pieces[to-1], names[count-1]) && (from == 0 || NameAtEnd(lex, pieces[from-1]) == "") && (to == len(pieces) || NameAtStart(lex, pieces[to]) == "") {
				return names
			}
		}
	}
	return nil
}

// listsOn reports whether a list of names goes on at one of its ends with another sign: "bore x length" behind "base / top /".
func listsOn(lex *lexicon.Lexicon, first, firstName, last, lastName string) bool {
	before, _, _ := strings.Cut(last, lastName)
	behind := strings.TrimSpace(last[min(len(last), len(before)+len(lastName)):])
	if sign := signAt(behind); sign > 0 && NameAtStart(lex, behind[sign:]) != "" {
		return true
	}
	ahead := strings.TrimSpace(first[:max(0, strings.LastIndex(first, firstName))])
	for sign := range ahead {
		if rest := ahead[sign:]; signAt(rest+" ") == len(rest) && NameAtEnd(lex, ahead[:sign]) != "" {
			return true
		}
	}
	return false
}

// signAt returns the length of the sign between the sizes of lists with which a text begins, 0 where it begins with none.
func signAt(text string) int {
	sign, size := utf8.DecodeRuneInString(text)
	if strings.ContainsRune("/／"+TimesSigns, sign) || (sign == 'x' || sign == 'X') && strings.HasPrefix(text[size:], " ") {
		return size
	}
	return 0
}

// atMixed splits a list at signs for times and slashes, and atMixedDashes at dashes too.
func atMixed(_ *lexicon.Lexicon, text string) []string {
	return SplitTimes(strings.NewReplacer("/", "×", "／", "×").Replace(text), true)
}

func atMixedDashes(lex *lexicon.Lexicon, text string) (pieces []string) {
	for _, piece := range atDashes(lex, text) {
		pieces = append(pieces, atMixed(lex, piece)...)
	}
	return pieces
}

func atTimes(_ *lexicon.Lexicon, text string) []string { return SplitTimes(text, true) }

func atSlashes(_ *lexicon.Lexicon, text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == '/' || r == '／' })
}

func atDashes(_ *lexicon.Lexicon, text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(Dashes, r) })
}

// atCommas splits a list at its commas, and at the word before the last.
func atCommas(lex *lexicon.Lexicon, text string) (pieces []string) {
	for _, piece := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(",，、", r) }) {
		written := strings.Fields(piece)
		if and := slices.IndexFunc(written, lex.Words.JoinsNames); and >= 0 && len(pieces) > 0 {
			pieces = append(pieces, strings.Join(written[:and], " "))
			piece = strings.Join(written[and+1:], " ")
		}
		pieces = append(pieces, piece)
	}
	return slices.DeleteFunc(pieces, func(piece string) bool { return piece == "" })
}

// namesOf returns the names of sizes between which a sentence was split: the first ends with one, the last begins with one, and each other is one.
// It returns nil where one is none, or comes twice.
func namesOf(lex *lexicon.Lexicon, pieces []string) []string {
	names := make([]string, len(pieces))
	for i, piece := range pieces {
		names[i] = strings.TrimSpace(piece)
	}
	count := len(names)
	first, last := names[0], names[count-1]
	if at := strings.LastIndexAny(first, ",;:–-([，；：。（"); at >= 0 {
		first = first[at:]
	}
	if at := strings.IndexAny(last, ",;:)]，；：。、）"); at > 0 {
		last = last[:at]
	}
	names[0], names[count-1] = NameAtEnd(lex, first), NameAtStart(lex, last)
	roles := map[string]bool{}
	for i, name := range names {
		if rest, _, place := lex.Words.SplitUnit(name); place != "" && rest != "" {
			names[i] = rest
		}
		role := RoleNamed(lex, names[i])
		if role == "" || roles[role] {
			return nil
		}
		roles[role] = true
	}
	return names
}

// namedList is a list of names of sizes before a list of as many sizes: ID/OD/L 9.35/13.60/18.0 MM.
var namedList = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[\s,;(])((?:[\pL.Øø-]{1,12} ?/ ?){1,3}[\pL.Øø-]{1,12})[ :=]+((?:\d*[.,]?\d+ ?/ ?){1,3}\d*[.,]?\d+)(` + anyUnit() + `)`)
})

// listNamed returns the sizes of a text that stand in a list behind the list of their names, none where there is not one such list.
func listNamed(lex *lexicon.Lexicon, text string) []Size {
	if !strings.Contains(text, "/") {
		return nil
	}
	places := namedList().FindAllStringSubmatchIndex(text, 2)
	if len(places) != 1 || !lexicon.StandsFree(text, places[0][2], places[0][1]) {
		return nil
	}
	found := namedList().FindStringSubmatch(text)
	names, values, unit := strings.Split(found[1], "/"), strings.Split(found[2], "/"), strings.TrimSpace(found[3])
	if len(names) != len(values) {
		return nil
	}
	var sizes []Size
	for i, name := range names {
		name = strings.TrimSpace(name)
		role := RoleNamed(lex, name)
		if role == "" || slices.ContainsFunc(sizes, func(s Size) bool { return s.Role == role }) {
			return nil
		}
		sizes = append(sizes, Size{role, name, strings.TrimSpace(strings.TrimSpace(values[i]) + " " + unit), places[0][2]})
	}
	return sizes
}

// ListedInMost is NamedInMost for texts that list the sizes behind their names, most of them the same ones.
func ListedInMost(lex *lexicon.Lexicon, texts []string) (roles, names []string, sizes Finder) {
	count := 0
	for _, text := range texts {
		list := listNamed(lex, text)
		if len(list) == 0 {
			continue
		}
		if roles == nil {
			for _, s := range list {
				roles, names = append(roles, s.Role), append(names, s.Name)
			}
		}
		if slices.EqualFunc(list, roles, func(s Size, role string) bool { return s.Role == role }) {
			count++
		}
	}
	if count*5 < len(texts)*3 {
		return nil, nil, nil
	}
	return roles, names, listNamed
}
