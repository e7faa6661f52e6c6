package words

import (
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/internal/pattern"
)

// What one of several columns gives of a size that was read several times, as the keys of its class are called: what stands with the number of
// a reading, a mean, what says how the readings spread, a place between the ends of a part, and one of these.
const (
	ReadingCounted = "counted"
	ReadingMean    = "mean"
	ReadingSpread  = "spread"
	ReadingMiddle  = "middle"
	ReadingEnd     = "end"
)

// OfReadings reports whether a text is as a whole one of the words for a key of these.
func (v *Vocabulary) OfReadings(key, text string) bool {
	lex := v.classes[classReading]
	return slices.ContainsFunc(slices.Concat(lex.sign(text), v.word(lex, text)), func(e entry) bool { return e.value == key })
}

// ReadingCount is how a text counts one of several readings. Letter is set where a letter does so, and Degrees where the text is the angle at
// which a part was turned.
type ReadingCount struct {
	// Word is what stands with the number, empty where nothing does.
	Word            string
	Number          int
	Letter, Degrees bool
	// Behind is set where the word stands behind the number only, as in 1st, 2nd.
	Behind bool
}

// countingNumber and countingLetter are a number and a letter of a folded text, with what stands beside them.
var (
	countingNumber = pattern.Lazy(`^([^0-9]*)([0-9]{1,3})([^0-9]*)$`)
	countingLetter = pattern.Lazy(`^(?:(.+) )?([a-j])$`)
)

// CountsReading tells how a text counts one of several readings: 1, #1, X1, pin 1, 1回目, sample A, 90°. It reports false where it does not.
func (v *Vocabulary) CountsReading(text string) (ReadingCount, bool) {
	if len(text) > maxText {
		return ReadingCount{}, false
	}
	folded := Fold(text)
	if m := countingNumber().FindStringSubmatch(folded); m != nil {
		number, err := strconv.Atoi(m[2])
		before, after := strings.TrimSpace(m[1]), strings.TrimSpace(m[3])
		if unit, found := v.Unit(after); found && before == "" && unit.Value == "deg" {
			return ReadingCount{Number: number, Degrees: true}, err == nil
		}
		known := (before == "" || v.OfReadings(ReadingCounted, before)) && (after == "" || v.OfReadings(ReadingCounted, after))
		return ReadingCount{Word: strings.TrimSpace(before + " " + after), Number: number, Behind: before == "" && after != ""}, err == nil && known
	}
	m := countingLetter().FindStringSubmatch(folded)
	if m == nil || m[1] != "" && !v.OfReadings(ReadingCounted, m[1]) {
		return ReadingCount{}, false
	}
	return ReadingCount{Word: m[1], Number: int(m[2][0]-'a') + 1, Letter: true}, true
}
