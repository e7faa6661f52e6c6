package lexicon

import (
	"strings"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/internal/pattern"
)

// CutLabel cuts a text at the colon or the dots behind a label; without them, all of it may be a label.
func CutLabel(text string) (label, value string, colon bool) {
	at := strings.IndexAny(text, ":：")
	size := 0
	var dots []int
	if mayLead(text) {
		dots = leader().FindStringIndex(text)
	}
	switch {
	case dots != nil && (at < 0 || dots[0] < at):
		at, size = dots[0], dots[1]-dots[0]
	case at > 0:
		_, size = utf8.DecodeRuneInString(text[at:])
	}
	if at <= 0 || at > LongestLabel {
		return text, "", false
	}
	label = strings.TrimSpace(text[:at])
	if label == "" || LooksNumeric(label) {
		return text, "", false
	}
	return label, strings.TrimSpace(text[at+size:]), true
}

// mayLead reports whether a text has what every line of dots has.
func mayLead(text string) bool {
	return strings.Contains(text, "..") || strings.Contains(text, "__") || strings.Contains(text, "…") || strings.Contains(text, "··")
}

// leader is a line of dots that leads from a label to its value.
var leader = pattern.Lazy(`\s*(?:\.{3,}|…+|_{3,}|·{3,})\s*|\s\.{2}\s+`)

// RoleOfLabel returns the role that a label names best, with how well.
func (l *Lexicon) RoleOfLabel(label string) (catalog.Role, float64) {
	if len(label) > LongestLabel {
		return "", 0
	}
	found := l.Match(label)
	if len(found) == 0 {
		return "", 0
	}
	return catalog.Role(found[0].Role), found[0].Score
}
