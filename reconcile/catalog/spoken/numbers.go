package spoken

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/internal/pattern"
)

// bullets are the signs before items.
const bullets = "-–—•·*◦▪■●○→»>‣"

// WithoutLead takes off what stands before an item: when it was said and by whom, its number in the list, a bullet.
func WithoutLead(text string) string {
	text = strings.TrimLeft(text[len(TimeOfDay(text)):], " ")
	text = text[len(counted().FindString(text)):]
	if first, size := utf8.DecodeRuneInString(text); strings.ContainsRune(bullets, first) && strings.HasPrefix(text[size:], " ") {
		text = strings.TrimLeft(text[size:], " ")
	}
	return text
}

// counted is the number of an item in its list.
var counted = pattern.Lazy(`^\(?\d{1,2}[.)] +`)

// ItemNumber returns the part number with which an item begins, and what stands behind it; the number is empty where the text is none. A
// name may stand behind the number, before the colon or dash: two blanks or more tell one from the other, or the words of the name.
func ItemNumber(lex *lexicon.Lexicon, text string) (number, rest string) {
	text = Parted(lex, WithoutLead(text))
	if first, behind, found := strings.Cut(text, " "); found && lex.Words.Means("filler", first) { // "the FM-21 is"
		if number, _, _ := strings.Cut(behind, " "); lexicon.IsItemNumber(number) {
			text = behind
		}
	}
	if at := wideGap().FindStringIndex(text); at != nil && !strings.ContainsAny(text[:at[0]], ":：") && lexicon.IsItemNumber(text[:at[0]]) {
		return text[:at[0]], strings.Join(strings.Fields(text[at[1]:]), " ")
	}
	text = strings.Join(strings.Fields(text), " ")
	if numbers, rest := Together(text); numbers != "" {
		return numbers, rest
	}
	if number, rest, colon := lexicon.CutLabel(text); colon && lexicon.IsItemNumber(number) && !LeadsToNumber(number) && !SaysWhen(text) && len(sizetext.In(lex, number, false)) == 0 {
		return numberAndName(lex, number, rest)
	}
	for _, dash := range sizetext.Dashes {
		if number, rest, found := strings.Cut(text, " "+string(dash)+" "); found && lexicon.IsItemNumber(number) && !LeadsToNumber(number) {
			return numberAndName(lex, number, strings.TrimSpace(rest))
		}
	}
	if number, rest, blank := strings.Cut(text, " "); blank && lexicon.IsItemNumber(number) {
		return strings.TrimRight(number, ",;:"), strings.TrimSpace(rest)
	}
	return "", ""
}

// Parted sets blanks between the part numbers of a text and the words of East Asian writing beside them: "ソケットKB-204は外径13.6mm".
func Parted(lex *lexicon.Lexicon, text string) string {
	if !strings.ContainsFunc(text, lexicon.IsWide) {
		return text
	}
	var b strings.Builder
	from := 0
	for _, at := range codeWithin().FindAllStringIndex(text, -1) {
		code := text[at[0]:at[1]]
		before, _ := utf8.DecodeLastRuneInString(text[:at[0]])
		after, _ := utf8.DecodeRuneInString(text[at[1]:])
		letters := strings.TrimRightFunc(code, func(r rune) bool { return !unicode.IsLetter(r) })
		if !lexicon.IsItemNumber(code) || sizetext.RoleNamed(lex, letters) != "" || at[0] > 0 && before != ' ' && !lexicon.IsWide(before) || at[1] < len(text) && !lexicon.IsWide(after) {
			continue
		}
		b.WriteString(text[from:at[0]])
		if at[0] > 0 && before != ' ' {
			b.WriteByte(' ')
		}
		b.WriteString(code)
		if at[1] < len(text) && after != '：' {
			b.WriteByte(' ')
		}
		from = at[1]
	}
	return b.String() + text[from:]
}

// codeWithin is what may be a part number within a text without blanks.
var codeWithin = pattern.Lazy(`[A-Z][A-Z0-9]{0,7}(?:[-/][A-Z0-9]{1,7}){0,2}`)

// LeadsToNumber reports whether a text before a colon is words of a sentence that come to a part number: "then the GT-4".
func LeadsToNumber(text string) bool {
	if first, _, more := strings.Cut(text, " "); more && strings.ContainsFunc(first, lexicon.IsWide) {
		return true // "挖起杆头 WQ-56 清库存"
	}
	at := strings.LastIndexByte(text, ' ')
	first, _ := utf8.DecodeRuneInString(text[at+1:])
	return at > 0 && unicode.IsUpper(first) && lexicon.IsItemNumber(text[at+1:]) && strings.ContainsFunc(text[:at], unicode.IsLower) && !lexicon.BearsNumber(text[:at])
}

// Together returns the part numbers that a text begins with, where several share what is said behind them, as they are written.
func Together(text string) (numbers, rest string) {
	if parts := lexicon.PartsOf(text); parts != nil && lexicon.IsItemNumber(parts[0]) {
		return text, ""
	}
	if first, _, _ := strings.Cut(text, " "); !lexicon.LooksLikeCode(strings.TrimRight(first, sizetext.AroundNames)) {
		return "", "" // most texts begin with a word
	}
	for end := range text[:min(len(text), lexicon.LongestLabel)] {
		behind := text[end:]
		if end == 0 || !strings.HasPrefix(behind, " ") && !strings.HasPrefix(behind, ":") && !strings.HasPrefix(behind, "：") && !strings.HasPrefix(behind, ",") {
			continue
		}
		if parts := lexicon.PartsOf(text[:end]); parts != nil && lexicon.IsItemNumber(parts[0]) {
			numbers, rest = text[:end], strings.TrimLeft(behind, sizetext.AroundNames)
		}
	}
	return numbers, rest
}

// HasWideGap reports whether a text has the blanks that set a number apart from what is said of it.
func HasWideGap(text string) bool { return wideGap().MatchString(text) }

var wideGap = pattern.Lazy(`[ \x{a0}]{2,}|[ \x{a0}]*[\t\x{3000}]\s*`)

// numberAndName takes the name of a part off its number: "KD-5 Iron 5" has one, and "KD-5 B" may all be number.
func numberAndName(lex *lexicon.Lexicon, text, rest string) (number, behind string) {
	number, name, found := strings.Cut(text, " ")
	if !found || !lexicon.IsItemNumber(number) || !lexicon.HasWord(name) && !strings.ContainsFunc(name, lexicon.IsWide) && lex.ClubHeading(name) == "" {
		return text, rest
	}
	return number, name + ": " + rest
}

// CutIntroduced returns the first part number in a sentence, which begins with a capital, and what stands before it and behind it: one with digits,
// or else one of letters alone, "HK-S". Without one, all stands before.
func CutIntroduced(text string) (before, number, behind string) {
	for _, is := range [...]func(string) bool{lexicon.IsItemNumber, isLettered} {
		from := 0
		for word := range strings.FieldsSeq(text) {
			at := from + strings.Index(text[from:], word)
			from = at + len(word)
			trimmed := strings.Trim(word, sizetext.AroundNames+".")
			if first, _ := utf8.DecodeRuneInString(trimmed); unicode.IsUpper(first) && len(trimmed) <= longestIntroduced && is(trimmed) {
				return strings.TrimSpace(text[:at]), trimmed, strings.TrimLeft(text[from:], sizetext.AroundNames+".")
			}
		}
	}
	return text, "", ""
}

// longestIntroduced is how many bytes a number has at most that a sentence comes to.
const longestIntroduced = 24

// lettered is a part number of letters alone, with a dash before what tells it from those like it.
var lettered = pattern.Lazy(`^\p{Lu}{1,6}(?:-\p{Lu}{1,6})?-\p{Lu}{1,3}$`)

// isLettered reports whether a text is a part number of letters alone.
func isLettered(text string) bool { return lettered().MatchString(text) }

// FamilyOf is the letters that a part number begins with, before a sign: those of KR-31 and of KR-D9; empty where it begins otherwise.
func FamilyOf(number string) string {
	rest := strings.TrimLeftFunc(number, unicode.IsUpper)
	if letters := number[:len(number)-len(rest)]; len(letters) > 1 && rest != "" && strings.ContainsAny(rest[:1], "-/._") {
		return letters
	}
	return ""
}

// ShapeOf is what a part number has in common with those like it: all but its last number, or but its last letters where it has no number.
func ShapeOf(number string) (string, bool) {
	if isLettered(number) {
		return number[:strings.LastIndexByte(number, '-')+1] + "#", true
	}
	return lexicon.ShapeOf(number)
}
