package spoken

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/internal/pattern"
)

// TimeOfDay returns when something was said, alone or before the name of who said it, as talks are written down: "09:43",
// "[5/11/2027, 09:43] J. Orr:", "[오전 9:12] 김:", "[Tue 09:43] J. Orr:", "[김 과장] [오후 2:12]", "Trev 8:10 am - "; empty where a text does not begin with that. A day's name is one within
// brackets only: elsewhere any word may stand there.
func TimeOfDay(text string) string { return timeOfDay().FindString(text) }

var timeOfDay = pattern.Lazy(`^(?:\[[^\[\]]{1,40}\] )?(?:\[(?:\p{L}{1,12}\.?,? )?)?(?:\d[\d./-]{2,9},? )?(?:\p{Lo}{2} ?)?\d{1,2}:\d{2}(?::\d{2})?(?: ?\p{Lu}{2}\b)?\]?(?: ?[-–])?(?: [^:：\d]{1,30}[:：])?|^\pL[\pL .'’]{0,30},? \d{1,2}:\d{2}(?: ?\pL\.?\pL\.?)? ?(?:[-–]|:) `)

// nameAndTime is a line of who said something and when: "Anna, 09:43", "J. Orr [5/11/2027, 09:43]".
var nameAndTime = pattern.Lazy(`^[^\d:：]{1,40}[\[(]?(?:\d[\d./-]{2,9},? )?(?:\p{Lo}{2} ?)?\d{1,2}:\d{2}(?::\d{2})?(?: ?\p{Lu}{2})?[\])]?:?$`)

// SaysWhen reports whether a line of a talk says only when something was said, or by whom, too.
func SaysWhen(text string) bool {
	time := TimeOfDay(text)
	return time != "" && len(time) == len(text) || nameAndTime().MatchString(text)
}

// IsIdle reports whether a line of a talk has no number but the time.
func IsIdle(text string) bool {
	time := TimeOfDay(text)
	return time != "" && len(time) < len(text) && !lexicon.BearsNumber(text[len(time):])
}

// GoesOn reports whether a sentence goes on in the next line: it has not ended, and the line begins with no capital.
func GoesOn(text, next string) bool {
	first, _ := utf8.DecodeRuneInString(next)
	return !Ends(text) && !unicode.IsUpper(first) && !strings.ContainsRune(bullets, first)
}

// Ends reports whether a text ends as sentences do.
func Ends(text string) bool {
	last, _ := utf8.DecodeLastRuneInString(text)
	return strings.ContainsRune(sentenceEnds, last)
}

// sentenceEnds are the signs at the end of a sentence.
const sentenceEnds = ".!?:。！？："
