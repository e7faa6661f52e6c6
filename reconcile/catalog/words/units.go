package words

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"example.com/seatline/reconcile/internal/pattern"
)

// span is a stretch of a text, from its first byte to behind its last.
type span [2]int

// brackets returns the groups in brackets, without others in them, in which a heading may carry its unit. Brackets of any two kinds
// make a group.
func brackets(text string) []span {
	var groups []span
	open := -1
	for i, r := range text {
		switch r {
		case '(', '[', '{', '（', '［', '【', '〔', '〈', '<':
			open = i
		case ')', ']', '}', '）', '］', '】', '〕', '〉', '>':
			if open >= 0 {
				groups = append(groups, span{open, i + utf8.RuneLen(r)})
			}
			open = -1
		}
	}
	return groups
}

// bracketed returns what stands in brackets where a text is one group of them and nothing else.
func bracketed(text string) (inner string, whole bool) {
	first, open := utf8.DecodeRuneInString(text)
	if !strings.ContainsRune("([{（［【〔〈<", first) {
		return "", false
	}
	if groups := brackets(text); len(groups) == 0 || groups[0] != (span{0, len(text)}) {
		return "", false
	}
	_, end := utf8.DecodeLastRuneInString(text)
	return text[open : len(text)-end], true
}

// chunks returns the stretches of a heading between spaces and separators.
func chunks(text string) []span {
	var list []span
	start := -1
	for i, r := range text {
		switch r {
		case ' ', '\t', '\n', '\f', '\r', ',', ';', ':', '/', '|', '_', '、', '，', '；', '：', '／', '・', '-', '–', '—':
			if start >= 0 {
				list = append(list, span{start, i})
			}
			start = -1
		default:
			if start < 0 {
				start = i
			}
		}
	}
	if start >= 0 {
		list = append(list, span{start, len(text)})
	}
	return list
}

// unitChunks returns the stretches of a heading, those of initials that are a unit together as one: "m. m.", "m/m".
func (v *Vocabulary) unitChunks(text string) []span {
	list := chunks(text)
	for i := len(list) - 1; i > 0; i-- {
		if !isInitial(text[list[i-1][0]:list[i-1][1]]) || !isInitial(text[list[i][0]:list[i][1]]) {
			continue
		}
		if _, _, known := v.unitWord(text[list[i-1][0]:list[i][1]]); known {
			list[i-1][1] = list[i][1]
			list = slices.Delete(list, i, i+1)
		}
	}
	return list
}

// isInitial reports whether a text is one letter, with or without a full stop.
func isInitial(text string) bool {
	r, size := utf8.DecodeRuneInString(text)
	return unicode.IsLetter(r) && (text[size:] == "" || text[size:] == ".")
}

// SplitUnit takes the unit off a heading: "Hosel OD (mm)" gives "Hosel OD", "mm" and "(mm)". The unit is one of mm cm m
// um in thou deg rad pcs % and a currency code such as USD, empty where the heading has none. Place is the text that
// was taken off. Where a heading names two units ("in/mm") the unit is empty and place holds both; the cells must then
// say which.
func (v *Vocabulary) SplitUnit(heading string) (rest, unit, place string) {
	for _, at := range brackets(heading) {
		group := heading[at[0]:at[1]]
		_, open := utf8.DecodeRuneInString(group)
		_, end := utf8.DecodeLastRuneInString(group)
		found, all := v.unitsIn(group[open : len(group)-end])
		if len(found) == 0 || !all {
			continue
		}
		if len(found) == 1 {
			unit = found[0]
		}
		return tidy(heading[:at[0]] + " " + heading[at[1]:]), unit, group
	}
	if v.isPhrase(heading) { // "U.M." is one, and its M no metre; "N°" is one, and no angle; "inc. angle" is one, and no Turkish inch
		return strings.TrimSpace(heading), "", ""
	}
	if rest, unit, place = v.splitLoose(heading); place != "" {
		return rest, unit, place
	}
	return strings.TrimSpace(heading), "", ""
}

// isPhrase reports whether a heading is as a whole one of the vocabulary, and is of initials or does not end with a unit.
func (v *Vocabulary) isPhrase(heading string) bool {
	list := tokensOf(heading)
	if len(list) < 2 {
		return false
	}
	if slices.ContainsFunc(list, func(word string) bool { return utf8.RuneCountInString(word) > 1 }) {
		if _, _, unit := v.unitWord(list[len(list)-1]); unit {
			return false
		}
	}
	if lex := v.classes[classConcept]; len(list) > lex.maxTokens || len(v.lookup(lex, strings.Join(list, " "))) == 0 {
		return false
	}
	segments := v.segmentsOf(classConcept, heading)
	return len(segments) == 1 && len(segments[0].options) > 0
}

// splitLoose takes off a unit that stands without brackets: at the end, glued to the end, or, where it can be nothing
// else, between.
func (v *Vocabulary) splitLoose(heading string) (rest, unit, place string) {
	at := v.unitChunks(heading)
	for i := len(at) - 1; i >= 0; i-- {
		word := heading[at[i][0]:at[i][1]]
		last := i == len(at)-1
		u, beside, known := v.unitWord(word)
		if !known && last {
			if stem, glued := v.gluedUnit(word); glued != "" {
				return tidy(heading[:at[i][0]] + stem), glued, word[len(stem):]
			}
		}
		switch {
		case !known || u == "pcs" && len(at) > 1, beside && !last, shortWide(word) && !(last && i > 0), v.inTax(heading, slices.Index(tokensOf(heading), keyOf(word))):
			continue
		}
		from := at[i][0]
		if i > 0 {
			// A second unit before it: "OD in/mm". A preposition before it: "OD in mm".
			previous := heading[at[i-1][0]:at[i-1][1]]
			between := heading[at[i-1][1]:at[i][0]]
			if other, _, also := v.unitWord(previous); also && i > 1 {
				switch {
				case strings.TrimSpace(between) != "" && other != u:
					return tidy(heading[:at[i-1][0]] + " " + heading[at[i][1]:]), "", heading[at[i-1][0]:at[i][1]]
				case strings.TrimSpace(between) == "" && other == "in":
					from = at[i-1][0]
				}
			}
		}
		return tidy(heading[:from] + " " + heading[at[i][1]:]), u, heading[from:at[i][1]]
	}
	return heading, "", ""
}

// gluedUnit takes a unit off the end of a word: 外径mm, 外径毫米, ODmm, Ø".
func (v *Vocabulary) gluedUnit(word string) (stem, unit string) {
	if len(brackets(word)) > 0 || v.isShortWord(word) {
		return word, ""
	}
	var previous rune
	for i, r := range word {
		boundary := i > 0 && (isWide(previous) != isWide(r) || unicode.IsUpper(previous) && unicode.IsLower(r) ||
			!unicode.IsLetter(r) && !unicode.IsDigit(r) || isWide(r) && utf8.RuneCountInString(word[i:]) >= 2 || previous == 'Ø' || previous == '.')
		previous = r
		if !boundary || unicode.IsUpper(r) && !unicode.IsUpper(rune(word[0])) {
			continue
		}
		u, _, known := v.unitWord(word[i:])
		if known && u != "pcs" && u != "%" && !shortWide(word[i:]) {
			return word[:i], u
		}
	}
	return word, ""
}

// isShortWord reports whether a word is one of the vocabulary that happens to end as a unit does: "Cins", "Einh.".
func (v *Vocabulary) isShortWord(word string) bool {
	key := keyOf(word)
	return plainWord(key) && len(v.classes[classConcept].words[key]) > 0
}

// shortWide reports whether a unit is a single wide character, which ends many other words: 度 in 深度, 寸 in 尺寸, 도 in 별도.
func shortWide(word string) bool {
	word = strings.TrimRightFunc(word, unicode.IsPunct)
	r, size := utf8.DecodeRuneInString(word)
	return isWide(r) && size == len(word)
}

// tidy removes what taking a unit out leaves behind.
func tidy(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	return strings.TrimSpace(strings.Trim(s, ",;:/|_-–—、，；： "))
}

// moneySign returns the currency that a text stands for as it is written, in no other letters and no other case: đ, TL.
func (v *Vocabulary) moneySign(text string) (Hit, bool) {
	code, known := v.money[text]
	return Hit{Value: code, Score: 1, Words: text}, known
}

// unitWord returns the unit that a word is, and whether it is one only beside a number or in brackets.
func (v *Vocabulary) unitWord(word string) (unit string, beside, known bool) {
	if money, found := v.moneySign(word); found {
		return money.Value, true, true
	}
	for _, class := range []string{classUnit, classUnitBeside} {
		if e, found := v.whole(class, word); found {
			return e.value, class == classUnitBeside && unicode.IsLetter(firstRune(word)), true
		}
	}
	return "", false, false
}

func firstRune(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}

// whole looks a text up as one word or sign of a class.
func (v *Vocabulary) whole(class, text string) (entry, bool) {
	lex := v.classes[class]
	if lex == nil {
		return entry{}, false
	}
	options := lex.sign(text)
	if len(options) == 0 {
		options = lex.signs[strings.TrimSuffix(signForm(text), ".")]
	}
	if len(options) == 0 {
		options = v.word(lex, text)
	}
	if len(options) == 0 {
		return entry{}, false
	}
	best := options[0]
	for _, e := range options[1:] {
		if e.weight > best.weight {
			best = e
		}
	}
	return best, true
}

// unitsIn returns the different units that a text names, and whether it says nothing else: "in mm", "mm, ±0.05",
// "unit: mm", "inch / mm".
func (v *Vocabulary) unitsIn(text string) (units []string, all bool) {
	if u, known := v.Unit(text); known {
		return []string{u.Value}, true
	}
	all = true
	var pending string
	for _, at := range v.unitChunks(text) {
		word := text[at[0]:at[1]]
		u, beside, known := v.unitWord(word)
		if _, n := v.LeadingMark(word, "per"); !known && n > 0 && n < len(word) { // 每吋
			u, beside, known = v.unitWord(word[n:])
		}
		switch {
		case known && beside:
			pending = u // "in" counts unless a unit follows after a space, as in "in mm"
			if at[1] < len(text) && text[at[1]] != ' ' || at[1] == len(text) {
				units, pending = appendNew(units, u), ""
			}
		case known:
			units, pending = appendNew(units, u), ""
		case !v.neutralWord(word):
			all = false
		}
	}
	if pending != "" && len(units) == 0 {
		units = append(units, pending)
	}
	return units, all
}

func appendNew(list []string, s string) []string {
	if slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}

// neutralWord reports whether a word beside a unit in brackets says nothing about the role: a number, "unit", "max".
func (v *Vocabulary) neutralWord(word string) bool {
	for _, s := range v.segmentsOf(classConcept, word) {
		if isNumber(s.text) {
			continue
		}
		if !slices.ContainsFunc(s.options, func(e entry) bool { return v.neutral.has(e.concepts) || e.concepts == v.concepts["tolerance"] }) {
			return false
		}
	}
	return true
}

func isNumber(token string) bool {
	return token != "" && !strings.ContainsFunc(token, func(r rune) bool { return !unicode.IsDigit(r) })
}

// statedTolerance is a tolerance that a heading states: "Hosel OD ±0.05 mm". It is no word of the heading.
var statedTolerance = pattern.Lazy(`(±|\+/-|\+-|＋/－)\s*[.\d]+[\d.,]*`)

func dropTolerance(heading string) string {
	if !strings.ContainsAny(heading, "±+＋") {
		return heading
	}
	return statedTolerance().ReplaceAllString(heading, " ")
}

// Unit returns the unit that a text names and nothing else: "mm", "Zoll", `"`, "[インチ]".
func (v *Vocabulary) Unit(text string) (Hit, bool) {
	text = strings.TrimSpace(text)
	if inner, whole := bracketed(text); whole {
		text = inner
	}
	if money, found := v.moneySign(text); found {
		return money, true
	}
	for _, class := range []string{classUnit, classUnitBeside} {
		if e, found := v.whole(class, text); found {
			return Hit{Value: e.value, Score: e.weight, Words: e.words, Language: e.language}, true
		}
	}
	return Hit{}, false
}

// afterColon finds what a note names as its unit: "Unit: in", "单位：mm", "Units = inches".
var afterColon = pattern.Lazy(`[:=：＝]\s*([^\s,;.()（）。，、]+)`)

// mostOfSlips is how many letters a word has at most in which one that is off makes it another word.
const mostOfSlips = 4

// inTax reports whether a word of a text is in a phrase that speaks of taxes: "inc" in "inc VAT".
func (v *Vocabulary) inTax(text string, at int) bool {
	return slices.ContainsFunc(v.segmentsOf(classConcept, text), func(s segment) bool {
		return s.from <= at && at <= s.from+strings.Count(s.text, " ") && slices.ContainsFunc(s.options, func(e entry) bool { return e.concepts.has(v.concepts["tax"]) })
	})
}

// Units returns all units that a note or a title names, each once: "All dimensions in mm", "単位：mm". Words that are
// units only beside a number (in, po, ") count only where they stand in brackets or after a colon.
func (v *Vocabulary) Units(text string) []Hit {
	var hits []Hit
	add := func(h Hit) {
		if !slices.ContainsFunc(hits, func(known Hit) bool { return known.Value == h.Value }) {
			hits = append(hits, h)
		}
	}
	for _, at := range brackets(text) {
		group := text[at[0]:at[1]]
		if units, all := v.unitsIn(strings.Trim(group, "()[]{}（）［］【】〔〕〈〉<>")); all {
			for _, u := range units {
				add(Hit{Value: u, Score: 0.9, Words: group})
			}
		}
	}
	if strings.ContainsAny(text, ":=：＝") {
		for _, match := range afterColon().FindAllStringSubmatch(text, -1) {
			if h, known := v.Unit(match[1]); known {
				add(h)
			}
		}
	}
	lower := norm.NFC.String(strings.ToLower(text))
	for _, s := range v.segmentsOf(classUnit, text) {
		if _, exact := v.whole(classUnit, s.text); !exact && utf8.RuneCountInString(s.text) <= mostOfSlips {
			continue // a plug gauges bores, and is no slip of the pen for pulg
		}
		for _, e := range s.options {
			written := strings.Contains(lower, strings.ToLower(e.words)) || !isPlain(e.words) && strings.Contains(lower, s.text)
			if !isPlain(text) && !written && utf8.RuneCountInString(s.text) <= mostOfSlips {
				continue // "tüm" is no inch, and "đóng" no đồng: nobody puts other marks on a word than it has
			}
			if !shortWide(s.text) && e.value != "pcs" && e.value != "%" && !v.inTax(text, s.from) {
				add(Hit{Value: e.value, Score: 0.8 * e.weight, Words: e.words, Language: e.language})
				break
			}
		}
	}
	return hits
}
