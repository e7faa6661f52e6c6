package cells

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// deviationsFor returns the tolerance that a pair of columns gives to a size, with the place of its first.
func (t *Reader) deviationsFor(line int, c *Column) (value.Tolerance, string, bool) {
	for _, pair := range t.Columns {
		if !pair.DeviatesFrom(c.Role) {
			continue
		}
		if t.tellDamaged(line, pair) || t.tellDamaged(line, pair.partner) {
			return value.Tolerance{}, "", false
		}
		unit, _ := t.unitOf(line, c, sheet.Cell{})
		first, okFirst := t.deviation(line, pair, unit)
		second, okSecond := t.deviation(line, pair.partner, unit)
		if !okFirst || !okSecond {
			if okFirst != okSecond {
				t.Warn(line, pair.Col, pair.Role, "data.tolerance", fmt.Sprintf("one of the two deviations of %s is missing or cannot be read; the other is not used", c.Name()))
			}
			return value.Tolerance{}, "", false
		}
		upper, lower := first, second
		if pair.Deviation < 0 {
			upper, lower = second, first
		}
		if upper.Less(lower) {
			t.Warn(line, pair.Col, pair.Role, "data.tolerance", fmt.Sprintf("the upper deviation of %s is below its lower one; neither is used", c.Name()))
			return value.Tolerance{}, "", false
		}
		text := t.Region.Grid.Filled(line, pair.Col) + " " + t.Region.Grid.Filled(line, pair.partner.Col)
		return value.Tolerance{Lower: lower, Upper: upper, Text: text}, t.Region.Grid.Ref(line, pair.Col).String(), true
	}
	return value.Tolerance{}, "", false
}

// tellDamaged reports that a spreadsheet program has left no value in a cell of tolerances, and whether it is so.
func (t *Reader) tellDamaged(line int, c *Column) bool {
	bad := damaged(t.Region.Grid.Cell(t.valueCell(line, c)), c)
	if bad.Any() {
		t.Tell(layout.ToldKey{What: "tolerance " + t.LineName(line), Col: c.Col}, finding.Warning, bad.Code, line, c.Col, func() string {
			return bad.Message + "; it is not used"
		})
	}
	return bad.Any()
}

// deviation reads one deviation. A number without a sign has that of its heading: 0.05 under "-" is -0.05. Business software writes
// the minus behind the number: 0,050-.
func (t *Reader) deviation(line int, c *Column, unit string) (measure.Length, bool) {
	if c.Unit != "" {
		unit = c.Unit
	}
	text := strings.TrimSpace(columns.DeviationSigns.Replace(t.Region.Grid.At(t.valueCell(line, c))))
	if text == "" {
		return measure.Length{}, false
	}
	sign := c.Deviation
	switch text[0] {
	case '+':
		sign, text = 1, text[1:]
	case '-':
		sign, text = -1, text[1:]
	default:
		if number, behind := strings.CutSuffix(text, "-"); behind && !strings.Contains(number, "-") {
			sign, text = -1, number
		}
	}
	if text != "" && strings.Trim(text, "0., ") == "" && strings.Contains(text, "0") {
		return measure.Length{}, true
	}
	reading := t.Lex.Read(strings.TrimSpace(text), value.Context{Want: value.WantLength, Unit: unit, Mark: c.Mark})
	if reading.Kind != value.Length || reading.Problem.Code != "" || reading.Dim.HasLimits() {
		return measure.Length{}, false
	}
	size := reading.Dim.Nominal()
	if sign < 0 {
		size = size.Neg()
	}
	return size, true
}

// toleranceFor returns the tolerance that holds for a value of a column that states none, with where it comes from.
func (t *Reader) toleranceFor(line int, c *Column, size measure.Length) (value.Tolerance, measure.Origin, string, bool) {
	if tolerance, where, found := t.deviationsFor(line, c); found {
		return tolerance, measure.Stated, where, true
	}
	for _, other := range t.Columns {
		if !other.Tolerates(c.Role) {
			continue
		}
		if t.tellDamaged(line, other) {
			continue
		}
		text := t.Region.Grid.At(t.valueCell(line, other))
		unit := other.Unit
		if unit == "" {
			unit = c.Unit
		}
		if tolerance, ok := t.readTolerance(text, unit); ok {
			return tolerance, measure.Stated, t.Region.Grid.Ref(line, other.Col).String(), true
		}
		if reading := t.Lex.Read(text, value.Context{Want: value.WantLength, Unit: unit}); strings.ContainsAny(text, "123456789") && reading.Kind != value.NotApplicable {
			t.Tell(layout.ToldKey{What: "tolerance " + text, Col: other.Col}, finding.Warning, "data.tolerance", line, other.Col, func() string {
				return fmt.Sprintf("the tolerance %q under %q cannot be read; it is not used", text, other.Name())
			})
		}
	}
	if tolerance, where, found := t.remarkedTolerance(line, c, size); found {
		return tolerance, measure.Stated, where, true
	}
	if c.Tolerance != nil {
		return *c.Tolerance, measure.Stated, "the heading", true
	}
	if text := t.Rules.Tolerance; text != "" {
		if tolerance, ok := t.readTolerance(text, c.Unit); ok {
			return tolerance, measure.General, "the mapping file", true
		}
	}
	return t.notedTolerance(line, c)
}

// notedTolerance returns the tolerance that a note gives to a value, by the value's footnote mark or for its column.
func (t *Reader) notedTolerance(line int, c *Column) (value.Tolerance, measure.Origin, string, bool) {
	note := t.NoteFor(c.Column, line)
	for _, mark := range t.valueMarks() {
		if n := t.ValueNotes[mark]; layout.Bears(t.Region.Grid.Filled(line, c.Col), mark) {
			note = &n
			break
		}
	}
	if note == nil {
		return value.Tolerance{}, measure.Stated, "", false
	}
	all := t.Lex.ReadTolerances(note.Clause.Said, c.Unit)
	if note.Index >= len(all) || all[note.Index].Problem.Code != "" {
		return value.Tolerance{}, measure.Stated, "", false
	}
	origin := measure.Stated
	if note.Rank == units.ForAll {
		origin = measure.General
	}
	return all[note.Index], origin, note.Clause.Place.String(), true
}

// valueMarks returns the marks of the notes for single values, in order.
func (t *Reader) valueMarks() []string {
	if len(t.ValueNotes) == 0 {
		return nil
	}
	return slices.Sorted(maps.Keys(t.ValueNotes))
}

// readTolerance reads a tolerance, also one written as a bare number: .05 for ±.05.
func (t *Reader) readTolerance(text, unit string) (value.Tolerance, bool) {
	if text == "" {
		return value.Tolerance{}, false
	}
	tolerance, ok := t.Lex.ReadTolerance(text, unit)
	if ok && tolerance.Problem.Code == "" {
		return tolerance, true
	}
	reading := t.Lex.Read(text, value.Context{Want: value.WantLength, Unit: unit})
	if reading.Kind == value.Length && reading.Problem.Code == "" && reading.Dim.Nominal().Sign() > 0 {
		if tolerance, ok := t.Lex.ReadTolerance("±"+text, unit); ok && tolerance.Problem.Code == "" {
			tolerance.Text = text
			return tolerance, true
		}
		size := reading.Dim.Nominal()
		return value.Tolerance{Lower: size.Neg(), Upper: size, Text: text}, true
	}
	return value.Tolerance{}, false
}
