package layout

import (
	"strings"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/internal/pattern"
)

// Drawings have the deviations of a size below it, and so have some lists: a line with sizes, and below each its deviations, in one line or
// two, that have no part number. They are read as if they stood behind the size.

// deviation is what stands in such a line: +0.03/0, ±0.02, -0.05.
var deviation = pattern.Lazy(`^(?:(?:±|\+/-) ?\d*[.,]?\d+|[+＋−–-]\d*[.,]?\d+(?: ?[/ ] ?(?:[+＋−–-]\d*[.,]?\d+|0))?|0 ?[/ ] ?[−–-]\d*[.,]?\d+|0)$`)

// IsDeviation reports whether a text is a deviation with its sign, and nothing else.
func IsDeviation(text string) bool {
	return deviation().MatchString(text) && strings.ContainsAny(text, deviationSigns)
}

// deviationSigns are the signs that deviations have.
const deviationSigns = "±+-＋−–"

// deviationProbe is how many lines are looked at for the first of deviations.
const deviationProbe = 12

// joinDeviations puts the deviations that stand in lines of their own behind the sizes above them.
func (r *Region) joinDeviations() {
	if !r.Grid.AsDrawn() || r.Guessed {
		return
	}
	found := false
	for line := r.Body + 1; line <= min(r.To, r.Body+deviationProbe) && !found; line++ {
		found = r.onlyDeviations(line)
	}
	if !found {
		return
	}
	for line := r.Body; line < r.To; line++ {
		if r.onlyDeviations(line) {
			continue
		}
		for below := line + 1; below <= min(r.To, line+2) && r.onlyDeviations(below) && r.Aside[below] == ""; below++ {
			if !r.under(below, line) {
				break
			}
			for col := r.Left; col <= r.Right; col++ {
				if text := r.Grid.At(below, col); text != "" {
					r.Grid.Behind(line, col, text, below > line+1)
				}
			}
			r.Aside[below] = Deviations
		}
	}
}

// onlyDeviations reports whether a line has deviations, at least one of them with a sign, and nothing else.
func (r *Region) onlyDeviations(line int) bool {
	signed := false
	for _, id := range r.Grid.Row(line, r.Left, r.Right) {
		text := r.Grid.Text(id)
		if id == grid.Nothing || text == "" {
			continue
		}
		if !deviation().MatchString(text) {
			return false
		}
		signed = signed || strings.ContainsAny(text, deviationSigns)
	}
	return signed
}

// under reports whether everything in a line stands below something with a digit in the one that it belongs to.
func (r *Region) under(below, line int) bool {
	for col := r.Left; col <= r.Right; col++ {
		if r.Grid.At(below, col) != "" && !strings.ContainsAny(r.Grid.At(line, col), "0123456789") {
			return false
		}
	}
	return true
}
