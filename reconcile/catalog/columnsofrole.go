package catalog

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// readRole reads what the columns of a role say together.
func (t *cellReader) readRole(line int, c *cellColumn) (Field, trouble) {
	isLength := traits[c.role].want == wantLength
	if isLength {
		if f, bad, found := t.readMeasured(line, c); found {
			return f, bad
		}
	}
	f, bad := t.readField(line, c)
	switch {
	case c.aspect == least || c.aspect == most:
		return t.readLimits(line, c, f, bad)
	case isLength && !bad.any():
		return t.readRepeats(line, c, f)
	}
	return f, bad
}

// checkForm reports the text of a form that is not known, once for each text.
func (t *cellReader) checkForm(line int, c *cellColumn, text string) {
	ask := topQuestion(text)
	if c.role == Style {
		ask = styleQuestion(text)
	}
	reading := t.lex.read(text, value.Context{Language: t.language})
	if text == "" || t.lex.word(ask) != "" || reading.Kind == value.NotApplicable || reading.Kind == value.Missing {
		return
	}
	fromLine, fromCol := t.region.grid.source(line, c.col)
	t.tell(toldKey{text, c.col}, finding.Warning, "data.unreadable", fromLine, fromCol, func() string {
		return fmt.Sprintf("%s %q is no form that is known, and is left open", c.name(), text)
	})
}

// readLimits joins a least and a greatest size to one dimension.
func (t *cellReader) readLimits(line int, c *cellColumn, f Field, bad trouble) (Field, trouble) {
	for _, other := range t.columns {
		if other == c || other.role != c.role || other.aspect == c.aspect || other.aspect == repeat {
			continue
		}
		second, worse := t.readField(line, other)
		switch {
		case bad.any():
			return f, bad
		case worse.any():
			return second, worse
		case !f.Dim.Given():
			return second, trouble{}
		case !second.Dim.Given():
			return f, trouble{}
		}
		lower, upper := f, second
		if c.aspect == most {
			lower, upper = second, f
		}
		if upper.Dim.Nominal().Less(lower.Dim.Nominal()) {
			return f, problem("data.conflict", "%s is at least %s (%s) and at most %s (%s)", c.role, lower.Text, lower.Cell, upper.Text, upper.Cell)
		}
		f.Dim = measure.Between(lower.Dim.Nominal(), upper.Dim.Nominal()).WithOrigin(measure.Stated)
		f.Text = f.Text + " to " + second.Text
		f.Assumptions = append(f.Assumptions, second.Assumptions...)
	}
	return f, bad
}

// readRepeats compares a size with the other columns that state it again, and with the columns of its limits.
func (t *cellReader) readRepeats(line int, c *cellColumn, f Field) (Field, trouble) {
	var lower, upper measure.Dim
	for _, other := range t.columns {
		if other == c || other.role != c.role {
			continue
		}
		second, bad := t.readField(line, other)
		if bad.any() || !second.Dim.Given() {
			continue
		}
		switch {
		case other.aspect == least:
			lower = second.Dim
		case other.aspect == most:
			upper = second.Dim
		case !f.Dim.Given():
			second.Assumptions = append(second.Assumptions, fmt.Sprintf("%s taken from column %s", c.role, t.region.grid.columnName(other.col)))
			f = second
		default:
			slack := fineness(f.Text, f.Dim.Nominal(), c.profile.digits).Add(fineness(second.Text, second.Dim.Nominal(), other.profile.digits))
			if apart(f.Dim.Nominal(), second.Dim.Nominal(), slack) {
				return f, problem("data.conflict", "%s is %s (%s) in %s but %s (%s) in %s", c.role, f.Text, sayMM(mm(f.Dim.Nominal())), f.Cell, second.Text,
					sayMM(mm(second.Dim.Nominal())), second.Cell)
			}
		}
	}
	if lower.Given() && upper.Given() {
		if !f.Dim.Given() {
			f.Dim = measure.Between(lower.Nominal(), upper.Nominal())
			return f, trouble{}
		}
		n := f.Dim.Nominal()
		if n.Less(lower.Nominal()) || upper.Nominal().Less(n) {
			return f, problem("data.conflict", "%s %s lies outside its own limits of %s to %s", c.role, f.Text, sayMM(mm(lower.Nominal())), sayMM(mm(upper.Nominal())))
		}
		f.Dim = measure.WithDeviations(n, lower.Nominal().Sub(n), upper.Nominal().Sub(n))
	}
	return f, trouble{}
}

// fineness returns half of the last digit with which a size is written: .535" is known to half a thousandth of an inch.
// A plain number is taken to be as fine as the others of its column, with their number of decimals.
func fineness(text string, size measure.Length, others int) measure.Length {
	digits, decimals, point := 0, 0, false
	for _, r := range text {
		switch {
		case r >= '0' && r <= '9':
			digits++
			if point {
				decimals++
			}
		case (r == '.' || r == ',') && !point:
			point = true
		case digits > 0:
			goto counted
		}
	}
counted:
	if strings.Trim(text, "0123456789.,") == "" {
		decimals = max(decimals, others)
	}
	unit := measure.Millimetres(1)
	if written := numberOf(text); written > 0 {
		switch ratio := mm(size) / written; {
		case ratio > 5:
			unit = measure.Inches(1)
		case ratio < 0.1:
			unit = measure.Thou(1)
		}
	}
	for ; decimals > 0; decimals-- {
		unit = unit.DivRound(10)
	}
	return unit.Half()
}

// numberOf returns the first decimal number of a text, zero where there is none.
func numberOf(text string) float64 {
	start := strings.IndexAny(text, "0123456789.,")
	if start < 0 {
		return 0
	}
	x, scale, point := 0.0, 1.0, false
	for _, r := range text[start:] {
		switch {
		case r >= '0' && r <= '9':
			x = x*10 + float64(r-'0')
			if point {
				scale *= 10
			}
		case (r == '.' || r == ',') && !point:
			point = true
		default:
			return x / scale
		}
	}
	return x / scale
}

// apart reports whether two sizes differ by more than their rounding explains; slack is half of the last digit of each, so
// that sizes one digit apart are just too far: .367 and .368.
func apart(a, b, slack measure.Length) bool {
	return a != b && !a.Sub(b).Abs().Less(slack)
}
