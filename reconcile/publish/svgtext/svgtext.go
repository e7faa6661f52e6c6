// Package svgtext writes what stands inside the elements of a drawing in SVG, so that equal drawings have equal bytes on all machines and
// no text of a supplier can be more than text.
package svgtext

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// Number writes a number of the drawing's own units with at most two decimals, and never a minus before nothing.
func Number(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		v = 0 // not -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Escape writes a text for the inside of an element or a quoted attribute. Control characters, for some of which XML has no room, become
// spaces.
func Escape(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, text)
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a strings.Builder takes everything
	return b.String()
}
