package words

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Fold brings a text to the form in which words are compared: compatibility forms unified (full width to half width,
// ligatures to letters; NFKC), lower case, accents and umlaut dots removed, ß as ss, zero-width and control characters
// removed, and every run of spaces and punctuation made one space. The signs # % ° ± $ and those of other currencies
// remain, each as a word of its own, and so does the diameter sign in all its forms, as ø. Chinese, Japanese, Korean
// and Thai characters stay as they are. Fold(Fold(s)) == Fold(s).
func Fold(s string) string {
	switch {
	case isPlain(s):
		return foldPlain(s)
	case isSimple(s):
		return foldSimple(s)
	}
	return foldAny(s)
}

// foldAny is Fold for a text of any characters.
func foldAny(s string) string {
	var b strings.Builder
	b.Grow(len(s))
	gap := false
	put := func(r rune, alone bool) {
		if (gap || alone) && b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
		gap = alone
	}
	for _, r := range norm.NFKC.String(replaceSigns.Replace(s)) {
		switch {
		case r == '\u00ad' || unicode.Is(unicode.Cf, r) || r >= 0x300 && r <= 0x36f || unicode.Is(unicode.Variation_Selector, r):
		case strings.ContainsRune("#%°±∠∑", r) || unicode.Is(unicode.Sc, r):
			put(r, true)
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Mn, r):
			for _, letter := range plainLetter(r) {
				put(letter, letter == 'ø')
			}
		default:
			gap = true
		}
	}
	return b.String()
}

// replaceSigns makes one diameter sign of those in use, before compatibility forms are unified: the slashed zero and
// the empty set, the two forms of phi, and the sign itself. A degree sign stays one: NFKC would make two characters
// of ℃, and an o of º.
var replaceSigns = strings.NewReplacer("⌀", "ø", "∅", "ø", "φ", "ø", "Φ", "ø", "ϕ", "ø", "Ф", "ø", "ф", "ø", "º", "°", "˚", "°", "№", "#", "＃", "#", "♯", "#", "−", "-", "゜", "°")

// plainLetter returns a letter in lower case without its accents. Only Latin, Greek and Cyrillic letters lose marks: in
// Japanese and Korean they are part of the letter.
func plainLetter(r rune) string {
	r = unicode.ToLower(r)
	if r < 0x80 || !unicode.In(r, unicode.Latin, unicode.Greek, unicode.Cyrillic) {
		return string(r)
	}
	var letters strings.Builder
	for _, part := range norm.NFD.String(string(r)) {
		if spelt, known := speltOut[part]; known {
			letters.WriteString(spelt)
		} else if !unicode.Is(unicode.Mn, part) {
			letters.WriteRune(part)
		}
	}
	return letters.String()
}

// speltOut are letters that have no accent to lose, and those that stand for a diameter in whatever form they come.
var speltOut = map[rune]string{'ß': "ss", 'æ': "ae", 'œ': "oe", 'ı': "i", 'ł': "l", 'đ': "d", 'φ': "ø", 'ф': "ø"}

// firstWide is the first character of a script that is written so: one of Thai.
const firstWide = 0x0e01

// isWide reports whether a character belongs to a script that is written without spaces between words, or, as Korean,
// with spaces that may be left out.
func isWide(r rune) bool {
	return r >= firstWide && (isWideLetter(r) || unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul, unicode.Thai) || r == 'ー' || r == '々')
}

// tokensOf returns the tokens of a text: see [tokens].
func tokensOf(text string) []string {
	if isPlain(text) {
		return strings.Fields(keyPlain(text))
	}
	return tokens(Fold(text))
}

// keyOf returns the tokens of a text joined by spaces, as the words of the vocabulary are entered.
func keyOf(text string) string {
	if isPlain(text) {
		return keyPlain(text)
	}
	return strings.Join(tokens(Fold(text)), " ")
}

// tokens splits a folded text: at spaces, between letters and digits, and around every wide character, so that spaces
// between those never matter.
func tokens(folded string) []string {
	var list []string
	const space, wide, digit, letter = 0, 1, 2, 3
	start, last := 0, space
	for i, r := range folded {
		kind := letter
		switch {
		case r == ' ':
			kind = space
		case isWide(r):
			kind = wide
		case unicode.IsDigit(r):
			kind = digit
		}
		if kind != last || kind == wide {
			if last != space {
				list = append(list, folded[start:i])
			}
			start = i
		}
		last = kind
	}
	if last != space {
		list = append(list, folded[start:])
	}
	return list
}

// splitCamel puts a space into words run together with capitals: HoselOD, BoreDepth. A single capital between is left
// alone.
func splitCamel(s string) string {
	if !runsTogether(s) {
		return s
	}
	return splitAnyCamel(s)
}

// splitAnyCamel is splitCamel for a text of any characters.
func splitAnyCamel(s string) string {
	var b strings.Builder
	lowers := 0
	for _, r := range s {
		if unicode.IsUpper(r) && lowers >= 3 {
			b.WriteByte(' ')
		}
		if unicode.IsLower(r) {
			lowers++
		} else {
			lowers = 0
		}
		b.WriteRune(r)
	}
	return b.String()
}
