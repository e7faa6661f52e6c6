package cells

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
)

// A remark may put a size of its line right, and name the wrong one, so that nothing is left to ask: "ERRATA: collo 13,6 non 13,4" beside 13,4.

// putRight returns the size that the remark of a line gives in place of that of a column, where it says that the one of the cell does not hold. Where
// other words stand beside it, or other columns have that size, it asks.
func (t *Reader) putRight(line int, c *Column, stated measure.Dim) Trouble {
	note := t.ByRole[catalog.Note]
	if note == nil || !t.Searched(line) {
		return Trouble{}
	}
	text := t.TextOf(line, catalog.Note)
	said := t.readPutRight(text, c, stated)
	if said.right == "" {
		return Trouble{}
	}
	if role := t.SizeNamed(said.named); role != "" && role != c.Role {
		return Trouble{}
	}
	mm, ref := traits.SayMM(traits.MM(stated.Nominal())), t.Region.Grid.Ref(line, note.Col)
	if !t.understood(said.beside, c) || !t.named(said.beside, c) && t.stand(line, c, stated) {
		return speaksOfAnother(c, traits.MM(stated.Nominal()), ref, text)
	}
	instead := said.dim
	if !instead.HasLimits() {
		instead = stated.Shift(instead.Nominal().Sub(stated.Nominal()))
	}
	return Trouble{Severity: finding.Warning, Code: "data.remark", Instead: instead, InsteadText: said.right,
		Message: fmt.Sprintf("%s is %s, and the text in %s says that it is %s and not that: %q; that is used", c.Name(), mm, ref, said.right, phrase.Brief(text))}
}

// puttingRight is what a text puts in place of a wrong size.
type puttingRight struct {
	right string
	dim   measure.Dim
	// beside are the other words, between signs, and named those right before the first size.
	beside []string
	named  string
}

// readPutRight reads a text of two sizes, of which one is that of a cell and said not to hold, and the other lies near.
func (t *Reader) readPutRight(text string, c *Column, stated measure.Dim) (said puttingRight) {
	places := sizetext.Places(text, 3)
	if len(places) != 2 || strings.ContainsAny(text, "?？%±+") {
		return said
	}
	var dims [2]measure.Dim
	for i, at := range places {
		reading, possible := layout.ReadDescribed(t.Lex, t.Kind, c.Role, text[at[0]:at[1]], c.Unit)
		if !possible {
			return said
		}
		dims[i] = reading.Dim
	}
	off := func(d measure.Dim) float64 { return math.Abs(traits.MM(d.Nominal().Sub(stated.Nominal()))) }
	before, between, after := text[:places[0][0]], text[places[0][1]:places[1][0]], text[places[1][1]:]
	right := 0
	switch words := strings.Trim(between, " ,()（）-–"); {
	case off(dims[1]) <= SameSize && t.Lex.Words.BesideWrong(words) && !(t.Lex.Words.MayCorrect(words) && strings.HasSuffix(strings.TrimRight(between, " "), ",")):
	case off(dims[0]) <= SameSize && (t.Lex.Words.Becomes(words) || len(strings.Fields(words)) == 1 && t.Lex.Words.SaysBut(words)):
		right = 1
		if length := t.wrongAtEnd(before); length > 0 {
			before = strings.TrimRight(before, " ")[:len(strings.TrimRight(before, " "))-length]
		} else if !t.Lex.Words.Becomes(words) {
			return said
		}
	default:
		return said
	}
	if near := off(dims[right]); near <= SameSize || near > remarkReach*traits.MM(stated.Nominal()) {
		return said
	}
	said = puttingRight{right: text[places[right][0]:places[right][1]], dim: dims[right]}
	for _, piece := range strings.FieldsFunc(before+";"+after, func(r rune) bool { return strings.ContainsRune(",;:.!()，、；：。（）–", r) }) {
		if piece = strings.TrimSpace(piece); strings.ContainsFunc(piece, unicode.IsLetter) {
			said.beside = append(said.beside, piece)
		}
	}
	said.named = strings.TrimSpace(before[strings.LastIndexAny(before, ",;:.!()")+1:])
	return said
}

// wrongAtEnd returns how many bytes at the end of a text are words that say of the size behind them that it does not hold.
func (t *Reader) wrongAtEnd(text string) int {
	written := strings.Fields(text)
	for n := min(3, len(written)); n > 0; n-- {
		if words := strings.Join(written[len(written)-n:], " "); t.Lex.Words.BesideWrong(words) {
			return len(words)
		}
	}
	return 0
}

// understood reports whether texts beside sizes only name a size of a column, and say that something is put right.
func (t *Reader) understood(texts []string, c *Column) bool {
	for _, text := range texts {
		rest := t.withoutName(text, c)
		if rest != "" && !t.Lex.Words.SaysChange(rest) && !t.Lex.Words.HoldsNow(rest) {
			return false
		}
	}
	return true
}

// named reports whether one of some texts names the size of a column.
func (t *Reader) named(texts []string, c *Column) bool {
	for _, text := range texts {
		if t.withoutName(text, c) != text {
			return true
		}
	}
	return false
}

// stand reports whether another size of a line is the same as that of a column.
func (t *Reader) stand(line int, c *Column, stated measure.Dim) bool {
	for role, other := range t.ByRole {
		if other == c || other.Trait().Want != traits.Length {
			continue
		}
		reading, possible := layout.ReadDescribed(t.Lex, t.Kind, role, t.TextOf(line, role), other.Unit)
		if possible && math.Abs(traits.MM(reading.Dim.Nominal().Sub(stated.Nominal()))) <= SameSize {
			return true
		}
	}
	return false
}
