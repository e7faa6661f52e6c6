package lexicon

import (
	"fmt"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog/value"
)

// Cells of sizes may state limits in words, as remarks do: "13.5 plus or minus 0.05", "between 13.4 and 13.6", "11.9, plus nothing, minus 0.1".

// limitsInWords reads a size whose limits its cell says in words. It is asked of what is no size without more.
func (l *Lexicon) limitsInWords(text string, ctx value.Context, reading value.Reading) (value.Reading, bool) {
	plain := reading.Kind == value.Length && reading.Problem.Code == "" && reading.Rest == ""
	if ctx.Want != value.WantLength && ctx.Want != value.WantDiameter || plain || len(text) > LongestHeading || !strings.ContainsFunc(text, unicode.IsLetter) || !BearsNumber(text) {
		return reading, false
	}
	a := amountsOnce()
	if reading.Kind == value.Length && a.isSign(strings.ToLower(reading.Rest)) {
		reading.Problem = value.Problem{Code: "data.unreadable", Message: fmt.Sprintf("%q says that it may be more or less, and not by how much", text)}
		return reading, true
	}
	said := a.withBounds(l.InFigures(text))
	if said == text {
		return reading, false
	}
	inFigures := value.Read(said, ctx)
	if inFigures.Kind != value.Length || !inFigures.Dim.HasLimits() {
		return reading, false
	}
	inFigures.Text = text
	return inFigures, true
}

// withBounds returns a text with the words for what two sizes bound in signs, "13.4~13.6" for "between 13.4 and 13.6", and with a sign before what
// is to be added or taken off to one side.
func (a *amounts) withBounds(text string) string {
	lower := strings.ToLower(text)
	if len(lower) != len(text) {
		return text
	}
	for at := range text {
		if first, second, end := a.boundsAt(text, lower, at); end > at {
			return text[:at] + first + "~" + second + text[end:]
		}
		for _, one := range [...]sign{{"+", a.plus}, {"-", a.minus}} {
			if _, end, found := one.said.at(lower, at); found && at > 0 && a.isSmall(text, lower, skipBlank(lower, end)) {
				return text[:at] + one.written + text[skipBlank(lower, end):]
			}
		}
	}
	return text
}

// isSign reports whether a text in small letters is words for signs alone: "plus", "plus minus".
func (a *amounts) isSign(lower string) bool {
	signs := 0
	for at := skipBlank(lower, 0); at < len(lower); at = skipBlank(lower, at) {
		end := at
		for _, said := range [...]phrases{a.plusMinus, a.plus, a.minus, a.joins} {
			if _, past, found := said.at(lower, at); found && end == at {
				end = past
			}
		}
		if end == at {
			return false
		}
		at = end
		signs++
	}
	return signs > 0
}

// boundsAt finds two sizes with words for what is between them, before or behind them, at a place of a text.
func (a *amounts) boundsAt(text, lower string, at int) (first, second string, end int) {
	_, from, before := a.between.at(lower, at)
	if !before {
		from = at
	}
	from = skipBlank(lower, from)
	firstEnd := a.sizeEnd(lower, from)
	joined := a.joinedAt(lower, firstEnd)
	secondEnd := a.sizeEnd(lower, joined)
	if firstEnd == from || joined == firstEnd || secondEnd == joined {
		return "", "", at
	}
	_, end, behind := a.betweenBehind.at(lower, skipBlank(lower, secondEnd))
	switch {
	case !behind && !before:
		return "", "", at
	case !behind:
		end = secondEnd
	}
	return text[from:firstEnd], text[joined:secondEnd], end
}

// sizeEnd returns the end of a number with its unit at a place of a text, or the place where there is none.
func (a *amounts) sizeEnd(lower string, at int) int {
	end := figureEnd(lower, at)
	if end == at {
		return at
	}
	_, unitEnd, _ := a.units.behind(lower, end)
	return unitEnd
}

// joinedAt returns where the second of two sizes begins behind the first and what joins them, or the place where nothing does.
func (a *amounts) joinedAt(lower string, at int) int {
	from := skipBlank(lower, at)
	if _, end, found := a.joins.at(lower, from); found {
		return skipBlank(lower, end)
	}
	if from < len(lower) && strings.ContainsRune("-–~/&", rune(lower[from])) {
		return skipBlank(lower, from+1)
	}
	return at
}

// saidBounds returns the two sizes of a text that says what is between them, with the words before.
func (a *amounts) saidBounds(text, lower string) (least, most, before string) {
	for at := range text {
		if first, second, end := a.boundsAt(text, lower, at); end > at {
			if strings.ContainsFunc(text[end:], unicode.IsDigit) || strings.ContainsFunc(text[:at], unicode.IsDigit) {
				return "", "", ""
			}
			return first, second, text[:at]
		}
	}
	return "", "", ""
}
