package words

import (
	"slices"
	"strings"
)

// word returns what a text means as a word or phrase of a class.
func (v *Vocabulary) word(lex *lexicon, text string) []entry {
	if !isPlain(text) {
		return v.lookup(lex, keyOf(text))
	}
	var space [96]byte
	return lex.words[string(appendPlain(space[:0], text, true))]
}

// sign returns what a text means as a sign of a class.
func (lex *lexicon) sign(text string) []entry {
	if !isPlain(text) {
		return lex.signs[signForm(text)]
	}
	var space [96]byte
	return lex.signs[string(appendSign(space[:0], text))]
}

// goesOn reports whether a word or phrase of a class begins with a key, or is one.
func (v *Vocabulary) goesOn(lex *lexicon, key string) bool {
	if begins(lex.keys, key) {
		return true
	}
	if isPlain(key) {
		return false
	}
	folded := v.foldVariants(key)
	return folded != key && begins(lex.keys, folded)
}

// begins reports whether one of several texts in order begins with another.
func begins(sorted []string, start string) bool {
	at, _ := slices.BinarySearch(sorted, start)
	return at < len(sorted) && strings.HasPrefix(sorted[at], start)
}

// walk follows a text byte by byte through texts in order: left are those that begin with the bytes so far.
type walk struct {
	left  []string
	depth int
}

// step goes one byte further.
func (w *walk) step(c byte) {
	from, _ := slices.BinarySearchFunc(w.left, c, w.compare)
	to, _ := slices.BinarySearchFunc(w.left[from:], int(c)+1, func(s string, c int) int { return int(w.at(s)) - c })
	w.left = w.left[from : from+to]
	w.depth++
}

func (w *walk) compare(s string, c byte) int { return w.at(s) - int(c) }

// at returns the next byte of one of the texts, −1 where it ends.
func (w *walk) at(s string) int {
	if len(s) == w.depth {
		return -1
	}
	return int(s[w.depth])
}

// found returns the text that is the bytes so far and no more, empty where there is none.
func (w *walk) found() string {
	if len(w.left) > 0 && len(w.left[0]) == w.depth {
		return w.left[0]
	}
	return ""
}

// leadingPlain is [Vocabulary.LeadingMark] for a text that is plain as far as a small word may reach. It stops where no word and no sign
// goes on, which is mostly at the second or third letter.
func (lex *lexicon) leadingPlain(text string, marks []string) (h Hit, length int) {
	words, signs := walk{left: lex.keys}, walk{left: lex.signKeys}
	gap, last, apostrophe := false, between, false
	for i := 0; i < min(len(text), LongestMark); i++ {
		c := text[i]
		// The key grows as in appendPlain, the sign as in appendSign.
		if is := sortOf(c); is == between {
			gap = true
		} else {
			if (gap || is == alone || is != last) && words.depth > 0 {
				words.step(' ')
			}
			words.step(lower(c))
			gap, last = is == alone, is
		}
		switch {
		case c == '\'' && apostrophe:
			signs = walk{left: lex.signKeys}
			for _, b := range appendSign(nil, text[:i+1]) {
				signs.step(b)
			}
			apostrophe = false
		case c == ' ' || c >= '\t' && c <= '\r':
			apostrophe = false
		default:
			signs.step(lower(c))
			apostrophe = c == '\''
		}
		if len(words.left) == 0 && len(signs.left) == 0 && !apostrophe {
			break
		}
		if i+1 < len(text) && sortOf(c) == aLetter && nextIsLetter(text[i+1:]) {
			continue
		}
		take := func(options []entry) {
			for _, e := range options {
				if e.weight >= 0.7 && slices.Contains(marks, e.value) {
					h, length = Hit{Value: e.value, Score: e.weight, Words: e.words, Language: e.language}, i+1
				}
			}
		}
		if key := words.found(); key != "" && (sortOf(c) == aLetter || sortOf(c) == aDigit) {
			take(lex.words[key])
		}
		if sign := signs.found(); sign != "" && c != ' ' && !(c >= '\t' && c <= '\r') && !(c == '.' && i+1 < len(text) && text[i+1] >= '0' && text[i+1] <= '9') {
			take(lex.signs[sign])
		}
	}
	return h, length
}

// nextIsLetter reports whether a text begins with a letter that goes on with a plain word.
func nextIsLetter(text string) bool { return !wordEnds('a', firstRune(text)) }

// leadOfWord is how many letters of a word are compared by mayKnow: no word of fewer is inflected, see inside.
const leadOfWord = 4

// mayKnow reports whether a word of a text begins as a word of the class does; of a text that is not plain it is not known. Most texts are
// not searched any further.
func (lex *lexicon) mayKnow(text string) bool {
	if !isPlain(text) {
		return true
	}
	var lead [leadOfWord]byte
	n, inside := 0, false
	for i := 0; i <= len(text); i++ {
		if i < len(text) && sortOf(text[i]) == aLetter {
			if inside = true; n < leadOfWord {
				lead[n] = lower(text[i])
				n++
			}
			continue
		}
		if inside && begins(lex.keys, string(lead[:n])) {
			return true
		}
		n, inside = 0, false
	}
	return false
}
