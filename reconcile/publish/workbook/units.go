package workbook

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// Number formats. Inches stand without the zero before the point, as the trade writes them.
const (
	formatMM       = "0.00"
	formatInch     = "#.000"
	formatFraction = "# ??/64"
	formatCount    = "#,##0"
	formatMinutes  = "0.0"
	formatShare    = "0.0%"
)

// reader is how lengths are shown to the reader.
type reader struct{ units fitcalc.Units }

// name is the unit's abbreviation.
func (r reader) name() string {
	if r.units == fitcalc.Metric {
		return "mm"
	}
	return "in"
}

// long is the unit in words.
func (r reader) long() string {
	if r.units == fitcalc.Metric {
		return "millimetres"
	}
	return "inches"
}

// shown is a length in the unit as people read it: to 0.0001 mm or .00001 in, so that no cell holds what nobody measures.
func (r reader) shown(l measure.Length) float64 {
	if r.units == fitcalc.Metric {
		return rounded(l.Millimetres(), 4)
	}
	return rounded(l.Inches(), 5)
}

// rounded is a number to some decimals.
func rounded(x float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(x*scale) / scale
}

// value is a length in the unit, exactly.
func (r reader) value(l measure.Length) float64 {
	if r.units == fitcalc.Metric {
		return l.Millimetres()
	}
	return l.Inches()
}

// format is the number format of diameters and of differences between them.
func (r reader) format() string {
	if r.units == fitcalc.Metric {
		return formatMM
	}
	return formatInch
}

// along is the number format of a length along the axis, which some readers want in sixty-fourths where it is one exactly.
func (r reader) along(l measure.Length) string {
	if r.units == fitcalc.Fractions {
		if f, err := l.FormatFraction(64); err == nil && f.Exact() {
			return formatFraction
		}
	}
	return r.format()
}

// mostText is how many characters a cell holds, counted as UTF-16 units (ECMA-376; Excel's limits for the format).
const mostText = 32_767

const cutShort = " … (cut: too long for a cell)"

// clean returns text so that a cell can hold it: characters that XML has no room for are left out, bytes that are no UTF-8 are
// replaced, and what is too long is cut and says so.
func clean(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t' || r == '\r':
			return ' '
		case unicode.IsControl(r) || r == 0xFFFE || r == 0xFFFF:
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, string(utf8.RuneError)))
	return cut(text)
}

// cut shortens what is too long for a cell.
func cut(text string) string {
	if len(text) <= mostText { // bytes are never fewer than UTF-16 units
		return text
	}
	units, end := 0, 0 // end is where the text has to end to leave room for saying so
	for i, r := range text {
		if units <= mostText-len(cutShort) {
			end = i
		}
		units += utf16Units(r)
	}
	if units <= mostText {
		return text
	}
	return text[:end] + cutShort
}

func utf16Units(r rune) int {
	if r > 0xFFFF {
		return 2
	}
	return 1
}
