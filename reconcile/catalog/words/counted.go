package words

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/internal/pattern"
)

// What counts of pieces are made of, among the words of texts on prices.
var (
	// countedBy are the words for numbers of pieces, which stand behind a number or an article. Those for hundreds and thousands are other words in
	// other languages: a Turkish thousand is a bin.
	countedBy   = []string{classQuote + " gross", classQuote + " score", classQuote + " dozen", classPieces + " dozen", classPieces + " pair"}
	countedHalf = []string{classQuote + " half"}
	countedOne  = []string{classQuote + " the"}
	countedPack = []string{classQuote + " pack", classPieces + " " + aPack}
	countedSets = []string{classPieces + " " + aSet}
	// countedParts are the words for what is counted.
	countedParts = []string{classQuote + " part", classQuote + " single", classPieces + " piece", classKind + " ferrules", classKind + " heads"}
	// countedNumbers are the numbers that counts are said with in words.
	countedNumbers = func() (all []string) {
		for n := 1; n <= mostCounted; n++ {
			all = append(all, classSaid+" "+strconv.Itoa(n), classQuote+" "+strconv.Itoa(n))
		}
		return all
	}()
)

// mostCounted is the greatest of these numbers.
const mostCounted = 12

// aFigure is a number in figures with a fraction, or one with decimals or none.
var aFigure = pattern.Lazy(`^(?:(?:(\d+)[ -]+)?(\d)/(\d)|(\d+(?:[.,]\d{1,2})?))($|[^\d.,/])`)

// plainFractions writes the fractions of counts in plain figures.
var plainFractions = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⁄", "/")

// InPieces returns a count with its dozens and the like worked out: "24" for "2 doz", "28 left" for "two dozen and 4 left", "about 144" for "about
// a gross", 18 for 一打半. Any other text stays as it is.
func (v *Vocabulary) InPieces(text string) string {
	if len(text) > LongestMark || !strings.ContainsFunc(text, unicode.IsLetter) {
		return text
	}
	plain := strings.TrimLeft(plainFractions.Replace(text), " ")
	for at, r := range plain {
		if before, _ := utf8.DecodeLastRuneInString(plain[:at]); at > 0 && !wordEnds(before, r) || unicode.IsSpace(r) {
			continue
		}
		count, behind, counted := v.countedAt(plain[at:])
		switch {
		case counted && count == float64(int(count)):
			shown := strconv.Itoa(int(count))
			if rest := strings.Trim(behind, " ()="); rest == shown { // 2 doz (24)
				behind = ""
			}
			return plain[:at] + shown + spaced(behind)
		case counted, unicode.IsDigit(r):
			return text
		}
	}
	return text
}

// spaced is what stands behind a number, with a blank between where it would go on it.
func spaced(behind string) string {
	if r, _ := utf8.DecodeRuneInString(behind); unicode.IsLetter(r) || unicode.IsDigit(r) {
		return " " + behind
	}
	return behind
}

// countedAt reads the numbers with words for numbers of pieces that a text begins with, and what more is added to them.
func (v *Vocabulary) countedAt(text string) (count float64, behind string, ok bool) {
	count, each, rest := v.countedTerm(text)
	if each < 2 {
		return 0, text, false
	}
	for {
		next, joined := v.cutAnd(rest)
		if half, after := v.leadingCount(next, countedHalf); half != "" && !v.startsWithUnit(after) { // 一打半, "una docena y media"
			count, rest = count+each/2, after
			continue
		}
		more, unit, after := v.countedTerm(next)
		if !joined && unit < 2 || more <= 0 || more >= each || !v.saysNoMore(after) {
			return count, rest, true
		}
		count, rest = count+more, after
		each = max(unit, 1)
	}
}

// saysNoMore reports whether words behind what is added leave it so: "2 doz + 4 left", and not "2 doz + 4 on order".
func (v *Vocabulary) saysNoMore(text string) bool {
	said, count, all := v.said(text)
	return all && count == 0 && !saysElse(said)
}

// countedTerm reads a number, and the word for a number of pieces behind it, of which each is how many that is; 1 where there is no such word, 0
// where there is no number.
func (v *Vocabulary) countedTerm(text string) (count, each float64, behind string) {
	number, rest := v.countedNumber(text)
	if number == 0 {
		return 0, 0, text
	}
	if next, joined := v.cutAnd(rest); joined { // two and a half dozen
		if half, after := v.leadingCount(next, countedHalf); half != "" && v.startsWithUnit(after) {
			number, rest = number+0.5, after
		}
	}
	unit, after := v.leadingCount(rest, countedBy)
	if unit == "" || slices.Contains(v.Written("amount", "other"), strings.ToLower(strings.TrimSpace(rest[:len(rest)-len(after)]))) { // grams
		return number, 1, rest
	}
	_, name, _ := strings.Cut(unit, " ")
	switch each = pieces[name]; name {
	case "gross":
		each = aGross
	case "score":
		each = aScore
	}
	return number * each, each, after
}

// countedNumber reads a number in figures or words, "half a" or an article, which needs a word for a number of pieces behind it.
func (v *Vocabulary) countedNumber(text string) (number float64, behind string) {
	if m := aFigure().FindStringSubmatch(text); m != nil {
		part := func(i int) float64 {
			n, _ := strconv.ParseFloat(strings.Replace(m[i], ",", ".", 1), 64)
			return n
		}
		if number = part(1) + part(4); part(3) > 0 {
			number += part(2) / part(3)
		}
		return number, text[len(m[0])-len(m[5]):]
	}
	if half, rest := v.leadingCount(text, countedHalf); half != "" {
		if _, after := v.leadingCount(rest, countedOne); v.startsWithUnit(after) {
			rest = after
		}
		if v.startsWithUnit(rest) {
			return 0.5, rest
		}
	}
	if said, rest := v.leadingCount(text, countedNumbers); said != "" {
		_, n, _ := strings.Cut(said, " ")
		number, _ = strconv.ParseFloat(n, 64)
		if half, after := v.leadingCount(rest, countedHalf); number == 1 && half != "" && v.startsWithUnit(after) { // ein halbes Dutzend
			return 0.5, after
		}
		return number, rest
	}
	if one, rest := v.leadingCount(text, countedOne); one != "" {
		if half, after := v.leadingCount(rest, countedHalf); half != "" && v.startsWithUnit(after) {
			return 0.5, after
		}
		if v.startsWithUnit(rest) {
			return 1, rest
		}
	}
	return 0, text
}

// startsWithUnit reports whether a text begins with a word for a number of pieces.
func (v *Vocabulary) startsWithUnit(text string) bool {
	unit, _ := v.leadingCount(text, countedBy)
	return unit != ""
}

// leadingCount returns the longest of some words that a text begins with, behind a blank or a hyphen, and what follows.
func (v *Vocabulary) leadingCount(text string, values []string) (value, behind string) {
	trimmed := strings.TrimLeft(text, " -")
	h, length := v.leadingAny(v.classes[classQuoted], trimmed, values)
	if length == 0 {
		return "", text
	}
	return h.Value, strings.TrimPrefix(trimmed[length:], ".")
}

// cutAnd takes the sign or word off a text that says that what follows is added.
func (v *Vocabulary) cutAnd(text string) (rest string, joined bool) {
	text = strings.TrimLeft(text, " ,")
	if rest = strings.TrimLeft(text, "+&"); rest != text {
		return strings.TrimLeft(rest, " "), true
	}
	if word, rest, more := strings.Cut(text, " "); more && slices.Contains(v.Written("amount", "and"), strings.ToLower(word)) {
		return rest, true
	}
	return text, false
}

// CountsPacks reports whether words behind a count say that it is one of bags or boxes: "bags", "VE", 袋.
func (v *Vocabulary) CountsPacks(text string) bool { return v.someCount(text, countedPack) }

// CountsSets reports whether they say that it is one of sets of clubs.
func (v *Vocabulary) CountsSets(text string) bool { return v.someCount(text, countedSets) }

// CountsPieces reports whether some of the words beside a number of pieces are words for pieces or parts, or all say no more of it: "pcs", "of these
// rings here", "just the".
func (v *Vocabulary) CountsPieces(text string) bool {
	unit, known := v.Unit(text)
	return v.SaidBeside(text) || known && unit.Value == "pcs" || v.someCount(text, countedParts) || v.Means("count", text)
}

// someCount reports whether a word of a text is one of some words.
func (v *Vocabulary) someCount(text string, values []string) bool {
	return slices.ContainsFunc(v.segmentsOf(classQuoted, text), func(s segment) bool {
		return slices.ContainsFunc(s.options, func(e entry) bool { return e.weight >= sureWord && slices.Contains(values, e.value) })
	})
}
