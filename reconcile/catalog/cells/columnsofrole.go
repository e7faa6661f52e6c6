package cells

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// readRole reads what the columns of a role say together.
func (t *Reader) readRole(line int, c *Column) (catalog.Field, Trouble) {
	isLength := traits.Of[c.Role].Want == traits.Length
	if isLength {
		if f, bad, found := t.readMeasured(line, c); found {
			return f, bad
		}
	}
	f, bad := t.readField(line, c)
	switch {
	case c.Aspect == columns.Least || c.Aspect == columns.Most:
		return t.readLimits(line, c, f, bad)
	case isLength && !bad.Any():
		return t.readRepeats(line, c, f)
	}
	return f, bad
}

// checkForm reports the text of a form that is not known, once for each text.
func (t *Reader) checkForm(line int, c *Column, text string) {
	ask := lexicon.TopQuestion(text)
	if c.Role == catalog.Style {
		ask = lexicon.StyleQuestion(text)
	}
	reading := t.Lex.Read(text, value.Context{Language: t.Language})
	if c.Role == catalog.Style && t.Lex.BoreForm(text) != value.FormUnknown {
		return // "tapered" is its outline, and nothing of its base
	}
	if text == "" || t.Lex.SaysSet(text) || t.Lex.Word(ask) != "" || reading.Kind == value.NotApplicable || reading.Kind == value.Missing {
		return
	}
	fromLine, fromCol := t.Region.Grid.Source(line, c.Col)
	t.Tell(layout.ToldKey{What: text, Col: c.Col}, finding.Warning, "data.unreadable", fromLine, fromCol, func() string {
		return fmt.Sprintf("%s %q is no form that is known, and is left open", c.Name(), text)
	})
}

// readLimits joins a least and a greatest size to one dimension.
func (t *Reader) readLimits(line int, c *Column, f catalog.Field, bad Trouble) (catalog.Field, Trouble) {
	for _, other := range t.Columns {
		if other == c || other.Role != c.Role || other.Aspect == c.Aspect || other.Aspect == columns.Repeat {
			continue
		}
		second, worse := t.readField(line, other)
		switch {
		case bad.Any():
			return f, bad
		case worse.Any():
			return second, worse
		case !f.Dim.Given():
			return second, Trouble{}
		case !second.Dim.Given():
			return f, Trouble{}
		}
		lower, upper := f, second
		if c.Aspect == columns.Most {
			lower, upper = second, f
		}
		if upper.Dim.Nominal().Less(lower.Dim.Nominal()) {
			return f, Problem("data.conflict", "%s is at least %s (%s) and at most %s (%s)", catalog.RoleName(t.Kind, c.Role), lower.Text, lower.Cell, upper.Text, upper.Cell)
		}
		f.Dim = measure.Between(lower.Dim.Nominal(), upper.Dim.Nominal()).WithOrigin(measure.Stated)
		if c.Trait().Diameter && value.TooWide(f.Dim) {
			f.Dim = measure.Dim{}
			return f, Problem("data.implausible", "%s is at least %s (%s) and at most %s (%s), which is too far apart for one diameter: are they of two ends?",
				catalog.RoleName(t.Kind, c.Role), lower.Text, lower.Cell, upper.Text, upper.Cell)
		}
		f.Text = f.Text + " to " + second.Text
		f.Assumptions = append(f.Assumptions, second.Assumptions...)
	}
	return f, bad
}

// readRepeats compares a size with the other columns that state it again, and with the columns of its limits.
func (t *Reader) readRepeats(line int, c *Column, f catalog.Field) (catalog.Field, Trouble) {
	var lower, upper measure.Dim
	for _, other := range t.Columns {
		if other == c || other.Role != c.Role {
			continue
		}
		second, bad := t.readField(line, other)
		if bad.Any() || !second.Dim.Given() {
			continue
		}
		switch {
		case other.Aspect == columns.Least:
			lower = second.Dim
		case other.Aspect == columns.Most:
			upper = second.Dim
		case !f.Dim.Given():
			second.Assumptions = append(second.Assumptions, fmt.Sprintf("%s taken from column %s", catalog.RoleName(t.Kind, c.Role), t.Region.Grid.ColumnName(other.Col)))
			f = second
		default:
			slack := c.fineness(f).Add(other.fineness(second))
			if Apart(f.Dim.Nominal(), second.Dim.Nominal(), slack) {
				return f, Problem("data.conflict", "%s is %s (%s) in %s but %s (%s) in %s", catalog.RoleName(t.Kind, c.Role), f.Text, traits.SayMM(traits.MM(f.Dim.Nominal())), f.Cell, second.Text,
					traits.SayMM(traits.MM(second.Dim.Nominal())), second.Cell)
			}
		}
	}
	if lower.Given() && upper.Given() {
		if !f.Dim.Given() {
			f.Dim = measure.Between(lower.Nominal(), upper.Nominal())
			return f, Trouble{}
		}
		n := f.Dim.Nominal()
		if n.Less(lower.Nominal()) || upper.Nominal().Less(n) {
			return f, Problem("data.conflict", "%s %s lies outside its own limits of %s to %s", catalog.RoleName(t.Kind, c.Role), f.Text, traits.SayMM(traits.MM(lower.Nominal())), traits.SayMM(traits.MM(upper.Nominal())))
		}
		f.Dim = measure.WithDeviations(n, lower.Nominal().Sub(n), upper.Nominal().Sub(n))
	}
	return f, Trouble{}
}

// fineness returns half of the last digit with which a size of the column is written: .535" is known to half a thousandth of an inch.
// A plain number is taken to be as fine as the others of its column, with their number of decimals but for the noughts that all of them end
// in: these fill up tenths of a millimetre or thousandths of an inch.
func (c *Column) fineness(f catalog.Field) measure.Length {
	return fineness(f.Text, f.Dim.Nominal(), c.Profile.Digits, c.Profile.Padded())
}

func fineness(text string, size measure.Length, others, padded int) measure.Length {
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
	} else {
		padded = 0
	}
	unit, coarsest := measure.Millimetres(1), 1
	if written := NumberOf(text); written > 0 {
		switch ratio := traits.MM(size) / written; {
		case ratio > 5:
			unit, coarsest = measure.Inches(1), 3
		case ratio < 0.1:
			unit, coarsest = measure.Thou(1), 0
		}
	}
	decimals = max(decimals-padded, min(decimals, coarsest))
	for ; decimals > 0; decimals-- {
		unit = unit.DivRound(10)
	}
	return unit.Half()
}

// NumberOf returns the first decimal number of a text, zero where there is none.
func NumberOf(text string) float64 {
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

// Apart reports whether two sizes differ by more than their rounding explains; slack is half of the last digit of each, so
// that sizes one digit apart are just too far: .367 and .368.
func Apart(a, b, slack measure.Length) bool {
	return a != b && !a.Sub(b).Abs().Less(slack)
}
