package report

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// UnitName is the abbreviation of the unit that lengths are shown in.
func UnitName(u fitcalc.Units) string {
	if u == fitcalc.Metric {
		return "mm"
	}
	return "in"
}

// HeadingText is a column's heading with the unit of its lengths.
func (c Column) HeadingText(u fitcalc.Units) string {
	if c.Kind.IsLength() {
		return c.Heading + ", " + UnitName(u)
	}
	return c.Heading
}

// CellText is a cell as people read it.
func CellText(cell any, kind Kind, u fitcalc.Units) string {
	switch v := bare(cell).(type) {
	case nil:
		return ""
	case string:
		return v
	case Size:
		if !v.Known {
			return ""
		}
		return lengthText(v.Length, kind, u)
	case int:
		return strconv.Itoa(v)
	case float64:
		return numberText(v, kind)
	default:
		return fmt.Sprint(v)
	}
}

func numberText(x float64, kind Kind) string {
	switch kind {
	case KindMinutes, KindHours:
		return strconv.FormatFloat(x, 'f', 1, 64)
	case KindShare:
		return strconv.FormatFloat(100*x, 'f', 1, 64) + " %"
	case KindCount, KindPieces:
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', 2, 64)
}

// lengthText is a length to 0.001 mm or .0001 in without its unit, a decimal less where it is not fine, the inch without a zero before the
// point.
func lengthText(l measure.Length, kind Kind, u fitcalc.Units) string {
	less := 0
	if kind == KindDiameter {
		less = 1
	}
	if u == fitcalc.Metric {
		text, _ := l.FormatMillimetres(3 - less)
		return text
	}
	text, _ := l.FormatInches(4 - less)
	return strings.Replace(text, "0.", ".", 1)
}
