// Package runs joins the runs of a cell's text, each in a look of its own, to the text that a person means by them.
//
// Three looks change what a text says. Struck-out characters are no part of it any more. Raised figures behind a number are the mark of a
// footnote, 13.9 with a small 1, and no digits of it: they become the superscripts of Unicode (13.9¹), which whoever reads values knows as
// such. And raised or lowered deviations, or the halves of a fraction, stand apart from the figures before them: 13.6 with a small +0.05 above
// a small -0.1 is 13.6 +0.05/-0.1, and 3 with a small 1, a slash and a small 2 is 3 1/2.
package runs

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/sheet/internal/xmlscan"
)

// Look is how a run stands among the others.
type Look struct{ Raised, Lowered, Struck bool }

// Text gathers the runs of a text. The zero Text is empty and ready to use; a text without any look costs no more than its pieces.
type Text struct {
	plain xmlscan.Pieces
	runs  []run // all of them, from the first that has a look on
}

type run struct {
	text string
	look Look
}

// Add adds a run at the end.
func (t *Text) Add(text string, look Look) {
	switch {
	case text == "":
	case look == Look{} && t.runs == nil:
		t.plain.Add(text)
	case t.runs == nil:
		t.runs = append(t.runs, run{text: t.plain.String()}, run{text, look})
	default:
		t.runs = append(t.runs, run{text, look})
	}
}

// Plain reports whether no run has a look.
func (t *Text) Plain() bool { return t.runs == nil }

// Result returns the text, and what of it is struck out.
func (t *Text) Result() (text, struck string) {
	if t.runs == nil {
		return t.plain.String(), ""
	}
	var left []run
	var gone strings.Builder
	for _, one := range merged(t.runs) {
		if one.look.Struck {
			gone.WriteString(one.text)
		} else {
			left = append(left, one)
		}
	}
	text, struck = join(left), strings.TrimSpace(gone.String())
	if struck != "" {
		text = strings.TrimSpace(text)
	}
	return text, struck
}

// merged makes one run of those that follow each other in one look: programs cut them as people typed.
func merged(runs []run) []run {
	var all []run
	for i := 0; i < len(runs); {
		var text xmlscan.Pieces
		look := runs[i].look
		for ; i < len(runs) && runs[i].look == look; i++ {
			text.Add(runs[i].text)
		}
		all = append(all, run{text.String(), look})
	}
	return all
}

// join puts runs together.
func join(all []run) string {
	var out strings.Builder
	last, deviates := rune(0), false
	for i, one := range all {
		text := one.text
		if one.look != (Look{}) {
			next := ""
			if i+1 < len(all) {
				next = all[i+1].text
			}
			text, deviates = small(one, last, next, deviates)
		} else {
			deviates = false
		}
		out.WriteString(text)
		if text != "" {
			last, _ = utf8.DecodeLastRuneInString(text)
		}
	}
	return out.String()
}

// small returns what a raised or lowered run says between the last character before it and the run behind it, and whether that is a
// deviation; deviates says so of the run before.
func small(one run, last rune, next string, deviates bool) (text string, deviation bool) {
	text = strings.TrimSpace(one.text)
	gap := ""
	if last >= '0' && last <= '9' {
		gap = " "
	}
	signed := strings.ContainsAny(text, "+-−±") && strings.ContainsAny(text, "0123456789")
	switch {
	case deviates && (signed || figures(text)):
		return "/" + text, true
	case signed:
		return gap + text, true
	case !figures(text), strings.Contains(text, "/"):
		if strings.Contains(text, "/") {
			return gap + text, false
		}
		return one.text, false
	case one.look.Raised && isSlash(firstOf(strings.TrimLeft(next, " "))):
		return gap + text, false // the upper half of a fraction
	case one.look.Lowered && isSlash(last):
		return text, false
	case one.look.Raised:
		return superscripts.Replace(text), false
	}
	return subscripts.Replace(text), false
}

// figures reports whether a text has figures and no letters.
func figures(text string) bool {
	return strings.ContainsAny(text, "0123456789") && strings.IndexFunc(text, unicode.IsLetter) < 0
}

func isSlash(r rune) bool { return r == '/' || r == '⁄' }

func firstOf(text string) rune {
	r, _ := utf8.DecodeRuneInString(text)
	return r
}

var (
	superscripts = strings.NewReplacer("0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹", "(", "⁽", ")", "⁾")
	subscripts   = strings.NewReplacer("0", "₀", "1", "₁", "2", "₂", "3", "₃", "4", "₄", "5", "₅", "6", "₆", "7", "₇", "8", "₈", "9", "₉")
)
