package layout

import (
	"strings"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// A text outside a table may take back what the table says of a part: "sorry, the base OD of VK-32 is 13.55 and not 13.50".

// Remark is a free text that names a part and holds other numbers.
type Remark struct {
	// Text is the whole of it, and Rest what is left without the numbers of parts.
	Text, Rest string
	Place      sheet.Ref
	// Reading is set where it says what was measured, which lies about what is stated, and not what holds from now on.
	Reading bool
}

// inText is what may be a part number in a text, "KX 9" too.
var inText = pattern.Lazy(`\b\p{Lu}{1,5} \d+[A-Za-z0-9]*(?:[.,]\d+)?|[A-Za-z0-9][A-Za-z0-9./_-]*[A-Za-z0-9]`)

// remarks returns the texts that may say more of parts, by the numbers of these as [words.Fold] has them.
func remarks(g *grid.Grid, places []sheet.Ref) map[string][]Remark {
	all := map[string][]Remark{}
	for _, place := range places {
		text := g.At(g.Place(place))
		if len(text) > lexicon.LongestNote || !strings.ContainsAny(text, "0123456789") || !strings.Contains(text, " ") && !strings.ContainsFunc(text, lexicon.IsWide) {
			continue
		}
		var numbers []string
		rest := inText().ReplaceAllStringFunc(text, func(token string) string {
			if !lexicon.IsItemNumber(token) && !isLongNumber(token) {
				return token
			}
			numbers = append(numbers, words.Fold(token))
			return " "
		})
		if len(numbers) == 0 || !strings.ContainsAny(rest, "0123456789") {
			continue
		}
		for _, number := range numbers {
			all[number] = append(all[number], Remark{Text: text, Rest: rest, Place: place})
		}
	}
	return all
}
