package explain

import (
	"math"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// mmText and inText are a length as a bare number for reading, as [fitcalc.Units.Show] rounds it.
func mmText(l measure.Length) string {
	text, _ := l.FormatMillimetres(3)
	return minus(trim(text, 2))
}

func inText(l measure.Length) string {
	text, _ := l.FormatInches(4)
	text = trim(text, 3)
	if rest, found := strings.CutPrefix(text, "0."); found {
		return "." + rest
	}
	if rest, found := strings.CutPrefix(text, "-0."); found {
		return "−." + rest
	}
	return minus(text)
}

// minus writes the sign as a minus and not as a hyphen.
func minus(text string) string {
	if rest, found := strings.CutPrefix(text, "-"); found {
		return "−" + rest
	}
	return text
}

// trim drops zeros beyond the decimals to keep.
func trim(text string, keep int) string {
	point := strings.IndexByte(text, '.')
	if point < 0 {
		return text
	}
	for len(text) > point+1+keep && text[len(text)-1] == '0' {
		text = text[:len(text)-1]
	}
	return text
}

// both fills the numbers of an expression in, once for each unit: "{} − {} = {}".
func both(expression string, lengths ...measure.Length) (mm, in string) {
	parts := strings.Split(expression, "{}")
	var m, i strings.Builder
	for n, part := range parts {
		m.WriteString(part)
		i.WriteString(part)
		if n < len(lengths) && n < len(parts)-1 {
			m.WriteString(mmText(lengths[n]))
			i.WriteString(inText(lengths[n]))
		}
	}
	return m.String() + " mm", i.String() + " in"
}

// percent writes a share so that a positive one is never nothing and a part never all.
func percent(share float64) string {
	p := share * 100
	switch {
	case share <= 0:
		return "0%"
	case p < 0.1:
		return "under 0.1%"
	case p > 99.9 && share < 1:
		return "over 99.9%"
	case p < 10 || p > 99 && share < 1:
		return strings.TrimSuffix(strconv.FormatFloat(p, 'f', 1, 64), ".0") + "%"
	}
	return strconv.FormatFloat(p, 'f', 0, 64) + "%"
}

// significant writes a number with that many digits, without an exponent.
func significant(x float64, digits int) string {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	place := digits - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	if place < 0 {
		unit := math.Pow10(-place)
		return minus(strconv.FormatFloat(math.Round(x/unit)*unit, 'f', 0, 64))
	}
	return minus(strconv.FormatFloat(x, 'f', place, 64))
}

// ShowDim writes a dimension for reading, in both units, with its limits where it has any. Limits in the other unit are those
// of the dimension, rounded for reading: work to the unit that the source states. With limits on one side of the nominal size it
// says what the size usually is, which is what all numbers are worked out with.
func ShowDim(d measure.Dim, u fitcalc.Units) string {
	if !d.Given() {
		return "not given"
	}
	text := u.Show(d.Nominal())
	if !d.HasLimits() {
		return text
	}
	above, below := d.Upper().Sub(d.Nominal()), d.Nominal().Sub(d.Lower())
	if above == below {
		return text + " ± " + u.Show(above)
	}
	text += ", " + u.Show(d.Lower()) + " to " + u.Show(d.Upper())
	if above.Sign() <= 0 || below.Sign() <= 0 { // the nominal size is what no part usually has
		text += ", usually " + u.Show(d.Middle())
	}
	return text
}
