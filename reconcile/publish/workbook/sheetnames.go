package workbook

import (
	"fmt"
	"strings"
	"unicode/utf16"
)

// sheetNames makes names of sheets from any text, each once.
type sheetNames struct{ taken map[string]bool }

// longestSheetName is how many UTF-16 units the name of a sheet has at most, and forbiddenInName what it may not hold (Excel's limits
// for the format).
const (
	longestSheetName = 31
	forbiddenInName  = `[]:*?/\'`
)

func (n sheetNames) of(text string) string {
	text = strings.TrimSpace(strings.Map(func(r rune) rune {
		if strings.ContainsRune(forbiddenInName, r) || r < ' ' {
			return ' '
		}
		return r
	}, clean(text)))
	if text == "" || strings.EqualFold(text, "history") {
		text = "Supplier"
	}
	name := shorten(text, longestSheetName)
	for i := 2; n.taken[strings.ToLower(name)]; i++ {
		tail := fmt.Sprintf(" %d", i)
		name = shorten(text, longestSheetName-len(tail)) + tail
	}
	n.taken[strings.ToLower(name)] = true
	return name
}

func shorten(text string, units int) string {
	runes := []rune(text)
	for len(utf16.Encode(runes)) > units {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimSpace(string(runes))
}
