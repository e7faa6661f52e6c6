package layout

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	lengths "example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/numberkey"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
)

// A column may give a size once and then by how much it grows from line to line, as a note says: 60, +1, +1, +1.5. Its cells are read as the
// sizes that they come to. Steps of which no note says from where they count are left open: from the line above, or from the first one.

// leastSteps is how many steps a column has at least.
const leastSteps = 2

// readSteps finds the columns of a table that give sizes by steps, and writes the sizes in their place.
func (r *Region) readSteps(lex *lexicon.Lexicon) {
	if !r.Grid.AsDrawn() {
		return
	}
	for i := range r.Columns {
		h := &r.Columns[i]
		if r.gridVirtual(h.Col) || !r.hasSteps(h.Col) || traits.Of[labelled(lex, *h)].Want != traits.Length {
			continue
		}
		note := slices.IndexFunc(r.keys, func(k numberkey.Text) bool { return saysSteps(lex, k.Text) })
		if note < 0 {
			r.leaveSteps(h.Col, r.Body, fmt.Sprintf("%s gives steps, and no note says from which line they count", h.Text))
			continue
		}
		said := r.keys[note]
		h.Order = fmt.Sprintf("%s: each step is added to the size above, by the %s", h.Text, Describe(said.Text, said.At.String()))
		r.addSteps(h)
		r.keys = slices.Delete(slices.Clone(r.keys), note, note+1)
	}
}

// hasSteps reports whether the first cell of a column has a number without a sign, and all others steps.
func (r *Region) hasSteps(col int) bool {
	first, steps, signed := true, 0, false
	for line := r.Body; line <= r.To; line++ {
		text := r.Grid.At(line, col)
		switch {
		case text == "" || r.Aside[line] != "" || countCells(r.Grid, line, span{left: r.Left, right: r.Right}) < 2:
		case first:
			if !lexicon.LooksNumeric(text) || isStep(text) {
				return false
			}
			first = false
		case !isStep(text):
			return false
		default:
			steps++
			signed = signed || strings.Trim(text, "0.,") != ""
		}
	}
	return steps >= leastSteps && signed
}

// isStep reports whether a text is a number with a sign before it, or nought.
func isStep(text string) bool {
	sign, size := utf8.DecodeRuneInString(text)
	if !strings.ContainsRune("+-−–±", sign) {
		return strings.Trim(text, "0.,") == ""
	}
	return len(text) > size && strings.Trim(strings.TrimSpace(text[size:]), "0123456789.,") == ""
}

// saysSteps reports whether a note speaks of steps from what stands above.
func saysSteps(lex *lexicon.Lexicon, text string) bool {
	return len(text) <= lexicon.LongestNote && namesStep(lex, text) && lex.Words.SpeaksOfAbove(text)
}

// namesStep reports whether a text has a word for a step.
func namesStep(lex *lexicon.Lexicon, text string) bool {
	if slices.ContainsFunc(strings.Fields(text), func(word string) bool {
		_, says := lex.Words.Mark(strings.Trim(word, sizetext.AroundNames+"."), "step")
		return says
	}) {
		return true
	}
	signs := []rune(text)
	for i, r := range signs {
		for n := i + 2; lexicon.IsWide(r) && n <= min(i+sizetext.LongestWideName, len(signs)); n++ {
			if _, says := lex.Words.Mark(string(signs[i:n]), "step"); says {
				return true
			}
		}
	}
	return false
}

// addSteps writes in the place of the steps of a column the sizes that they come to, as far as none is missing.
func (r *Region) addSteps(h *Heading) {
	var size lengths.Length
	known, started := false, false
	for line := r.Body; line <= r.To; line++ {
		text := r.Grid.At(line, h.Col)
		if r.Aside[line] != "" || countCells(r.Grid, line, span{left: r.Left, right: r.Right}) < 2 {
			continue
		}
		if text == "" {
			if started {
				r.leaveSteps(h.Col, line, fmt.Sprintf("%s gives steps, and the one of row %d is missing", h.Text, r.Grid.Ref(line, h.Col).Row))
				return
			}
			continue
		}
		own, ok := stepOf(text)
		switch {
		case !started:
			size, known, started = own, ok, true
			continue
		case !known || !ok:
			r.leaveSteps(h.Col, line, fmt.Sprintf("%s gives steps, and %q is none that can be added", h.Text, text))
			return
		}
		size = size.Add(own)
		r.Grid.Retell(line, h.Col, strconv.FormatFloat(size.Millimetres(), 'f', -1, 64))
	}
}

// stepOf reads a number with a sign as a length, in any unit: only sums of such are asked for.
func stepOf(text string) (lengths.Length, bool) {
	digits := strings.TrimSpace(strings.TrimLeft(text, "+-−–±"))
	one := value.Read(digits, value.Context{Want: value.WantLength, Unit: "mm"})
	if strings.HasPrefix(text, "±") && strings.Trim(digits, "0.,") != "" || one.Kind != value.Length {
		return lengths.Length{}, false
	}
	if own := one.Dim.Nominal(); strings.HasPrefix(text, "-") || strings.HasPrefix(text, "−") || strings.HasPrefix(text, "–") {
		return lengths.Length{}.Sub(own), true
	} else {
		return own, true
	}
}

// leaveSteps leaves the steps of a column open from a line on, and says why.
func (r *Region) leaveSteps(col, from int, why string) {
	for line := from; line <= r.To; line++ {
		if text := r.Grid.At(line, col); isStep(text) && text != "" && countCells(r.Grid, line, span{left: r.Left, right: r.Right}) > 1 {
			r.Grid.Retell(line, col, sizetext.OpenText(text))
			r.openAt([]int{col}, []string{why}, line)
		}
	}
}
