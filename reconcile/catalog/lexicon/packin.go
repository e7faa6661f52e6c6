package lexicon

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// PackIn returns how many pieces a description says are sold together: "bag of 12", "Beutel à 25", "12 per bag", "10個入", "x 10 pcs". Found is
// set, and the count zero, where it speaks of a pack and it is not sure of how many: "VE 25" may be a box by its number, and "black x12" the
// twelfth.
func (l *Lexicon) PackIn(text string) (count float64, found bool) {
	text = narrowDigits(text)
	if len(text) > LongestNote || !strings.ContainsAny(text, anyDigit) {
		return 0, false
	}
	packs := l.packsIn(text)
	if len(packs) == 0 {
		packs = l.piecesTogether(text)
	}
	if len(packs) == 0 {
		return 0, l.endsInTimes(text)
	}
	if slices.ContainsFunc(packs, func(n float64) bool { return n != packs[0] }) {
		return 0, true
	}
	return packs[0], true
}

// packsIn returns the counts of the packs that a text names, zero for one that is not sure.
func (l *Lexicon) packsIn(text string) []float64 {
	var all []float64
	for _, p := range l.Words.Packs(text) {
		n, surely := l.countBehind(p.After)
		if n == 0 {
			n, surely = l.countBefore(p.Before)
		}
		switch {
		case n == 0:
		case surely:
			all = append(all, n)
		default:
			all = append(all, 0)
		}
	}
	if len(all) > 0 && slices.Max(all) > 0 { // "bag 3, pack of 12": what is sure counts
		return slices.DeleteFunc(all, func(n float64) bool { return n == 0 })
	}
	for _, at := range wholeNumber().FindAllStringIndex(text, -1) {
		if n, rest := countAt(text[:at[0]], text[at[0]:]); n > 0 && l.isPacked(l.withoutPiece(strings.TrimLeft(rest, " -"))) {
			return []float64{n}
		}
	}
	return all
}

// countBehind returns the number that stands behind the word for a pack, zero where none does; surely is set where a word or sign between them,
// or a word for pieces behind it, says that it is how many the pack holds.
func (l *Lexicon) countBehind(after string) (count float64, surely bool) {
	rest := strings.TrimLeft(after, " .")
	if held := strings.TrimLeft(rest, "(（[/:：=×*-– "); held != rest {
		rest, surely = held, true
	}
	for range 2 { // "zu je"
		end := strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) })
		if end <= 0 {
			break
		}
		if !l.Words.Holds(rest[:end]) {
			break
		}
		rest, surely = strings.TrimLeft(rest[end:], " ./:"), true
	}
	count, behind := countAt("", rest)
	if count == 0 || l.measures(behind) {
		return 0, false
	}
	return count, surely || l.withoutPiece(strings.TrimLeft(behind, " -")) != strings.TrimLeft(behind, " -")
}

// countBefore returns the number that stands before the word for a pack, as countBehind does: "12 per bag", "25er-Beutel", "10 st/påse".
func (l *Lexicon) countBefore(before string) (count float64, surely bool) {
	rest := strings.TrimRight(before, " ")
	for range 3 { // "12 pcs per"
		cut := strings.TrimRight(rest, "/-–'’")
		if cut == rest {
			start := strings.LastIndexFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) }) + 1
			word := rest[lastRune(rest, start):]
			if word == "" || !l.Words.Holds(word) && !l.isPer(word) && !l.Words.IsPiece(word) {
				break
			}
			cut = rest[:len(rest)-len(word)]
		}
		rest, surely = strings.TrimRight(cut, " "), true
	}
	digits := len(strings.TrimRightFunc(rest, func(r rune) bool { return r >= '0' && r <= '9' }))
	count, behind := countAt(rest[:digits], rest[digits:])
	if behind != "" {
		return 0, false
	}
	return count, surely
}

// lastRune is where the last word of a text begins that starts at a place: that place, but for writing without blanks, of which it is the
// last sign.
func lastRune(text string, start int) int {
	if last, size := utf8.DecodeLastRuneInString(text); start < len(text) && IsWide(last) {
		return len(text) - size
	}
	return min(start, len(text))
}

// countAt returns the whole number at the beginning of a text that may be how many are sold together, and what stands behind it; zero where
// there is none, or it is part of another.
func countAt(before, text string) (count float64, rest string) {
	last, _ := utf8.DecodeLastRuneInString(before)
	if before != "" && (strings.ContainsRune(".,/#-", last) || unicode.IsDigit(last) || unicode.IsLetter(last) && !IsWide(last) && last != 'x' && last != 'X') {
		return 0, text
	}
	rest = strings.TrimLeft(text, "0123456789")
	digits := text[:len(text)-len(rest)]
	n, err := strconv.ParseFloat(digits, 64)
	if err != nil || n < fewestOfLot || n > mostInPack || digits[0] == '0' || goesOn(rest) {
		return 0, text
	}
	return n, rest
}

// goesOn reports whether a number goes on where a text begins: with decimals, or thousands.
func goesOn(text string) bool {
	return len(text) > 1 && (text[0] == '.' || text[0] == ',') && text[1] >= '0' && text[1] <= '9'
}

// measures reports whether what stands behind a number makes it a size, a weight or a sum, and no count: a unit, a sign, another number.
func (l *Lexicon) measures(behind string) bool {
	rest := strings.TrimLeft(behind, " ")
	first, _ := utf8.DecodeRuneInString(rest)
	if rest != "" && strings.ContainsRune(`"″”'′%°/x×*+±$€£¥`, first) && l.withoutPiece(strings.TrimLeft(rest, "/ ")) == strings.TrimLeft(rest, "/ ") {
		return true
	}
	word := leadingLetters(rest)
	return word != "" && !l.Words.IsPiece(word) && !IsWide(first) && (l.IsUnit(word) || utf8.RuneCountInString(word) <= 2)
}

// anyDigit are the digits of numbers once they are narrow.
const anyDigit = "0123456789"

func leadingLetters(text string) string {
	end := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) }) // Thai vowels are marks
	if end < 0 {
		return text
	}
	return text[:end]
}

// withoutPiece is a text without the word for a piece that it begins with.
func (l *Lexicon) withoutPiece(text string) string {
	if first, size := utf8.DecodeRuneInString(text); IsWide(first) {
		if l.Words.IsPiece(string(first)) {
			return text[size:]
		}
		return text
	}
	if word := leadingLetters(text); word != "" && l.Words.IsPiece(word) {
		return strings.TrimLeft(text[len(word):], " .")
	}
	return text
}

// isPacked reports whether a text begins with a word that says of the number before it that it is how many are packed together: "count", "pk", 入.
func (l *Lexicon) isPacked(text string) bool {
	if text == "" {
		return false
	}
	first, size := utf8.DecodeRuneInString(text)
	word := leadingLetters(text)
	if IsWide(first) {
		word = text[:size]
	}
	return l.Words.IsPacked(word)
}

// piecesTogether returns the counts that stand by themselves in a text before a word for pieces: "black, 10 pcs", "(25 Stück)".
func (l *Lexicon) piecesTogether(text string) []float64 {
	var all []float64
	for _, p := range l.Words.Pieces(text) {
		before := strings.TrimRight(p.Before, " ")
		digits := len(strings.TrimRightFunc(before, func(r rune) bool { return r >= '0' && r <= '9' }))
		n, behind := countAt(before[:digits], before[digits:])
		if p.Count != 1 || behind != "" || n < fewestTogether || !opensClause(before[:digits]) || !closesClause(p.After) {
			continue
		}
		all = append(all, n)
	}
	return all
}

// opensClause reports whether a text ends where something new is said: at its beginning, behind a comma or a bracket, behind a sign of times.
func opensClause(before string) bool {
	before = strings.TrimRight(before, " ")
	if last, _ := utf8.DecodeLastRuneInString(before); before == "" || strings.ContainsRune(",;:(（[|–-、，*×", last) {
		return true
	}
	return endsInCross(before)
}

// endsInCross reports whether a text ends in an x that stands by itself.
func endsInCross(before string) bool {
	word := before[strings.LastIndexByte(before, ' ')+1:]
	return word == "x" || word == "X"
}

// closesClause reports whether nothing more is said where a text begins.
func closesClause(after string) bool {
	after = strings.TrimLeft(after, " .")
	first, _ := utf8.DecodeRuneInString(after)
	return after == "" || strings.ContainsRune(",;)）]|–、，/", first)
}

// endsInTimes reports whether a text ends in a sign of times and a number, behind a word that is no unit.
func (l *Lexicon) endsInTimes(text string) bool {
	before := strings.TrimRight(text, "0123456789")
	n, _ := countAt(before, text[len(before):])
	before = strings.TrimRight(before, " ")
	cut := strings.TrimRight(before, "xX×*")
	if n < fewestTogether || len(before)-len(cut) == 0 || !strings.HasSuffix(cut, " ") {
		return false
	}
	fields := strings.Fields(cut)
	if len(fields) == 0 {
		return false
	}
	word := fields[len(fields)-1]
	return !strings.ContainsAny(word, anyDigit) && strings.IndexFunc(word, unicode.IsLetter) == 0 && !l.IsUnit(word) && utf8.RuneCountInString(word) > 2
}

const (
	// fewestOfLot is the least number that is said to be sold together: a pair.
	fewestOfLot = 2
	// mostInPack is how many pieces the largest bags and boxes hold that have a price of their own; common practice.
	mostInPack = 1000
)
