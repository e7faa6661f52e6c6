package catalog

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// deviationsFor returns the tolerance that a pair of columns gives to a size, with the place of its first.
func (t *cellReader) deviationsFor(line int, c *cellColumn) (value.Tolerance, string, bool) {
	for _, pair := range t.columns {
		if !pair.deviatesFrom(c.role) {
			continue
		}
		first, okFirst := t.deviation(line, pair, c.unit)
		second, okSecond := t.deviation(line, pair.partner, c.unit)
		if !okFirst || !okSecond {
			if okFirst != okSecond {
				t.warn(line, pair.col, pair.role, "data.tolerance", fmt.Sprintf("one of the two deviations of %s is missing or cannot be read; the other is not used", c.name()))
			}
			return value.Tolerance{}, "", false
		}
		upper, lower := first, second
		if pair.deviation < 0 {
			upper, lower = second, first
		}
		if upper.Less(lower) {
			t.warn(line, pair.col, pair.role, "data.tolerance", fmt.Sprintf("the upper deviation of %s is below its lower one; neither is used", c.name()))
			return value.Tolerance{}, "", false
		}
		text := t.region.grid.filled(line, pair.col) + " " + t.region.grid.filled(line, pair.partner.col)
		return value.Tolerance{Lower: lower, Upper: upper, Text: text}, t.region.grid.ref(line, pair.col).String(), true
	}
	return value.Tolerance{}, "", false
}

// deviation reads one deviation. A number without a sign has that of its heading: 0.05 under "-" is -0.05.
func (t *cellReader) deviation(line int, c *cellColumn, unit string) (measure.Length, bool) {
	if c.unit != "" {
		unit = c.unit
	}
	text := strings.TrimSpace(deviationSigns.Replace(t.region.grid.at(t.valueCell(line, c))))
	if text == "" {
		return measure.Length{}, false
	}
	sign := c.deviation
	switch text[0] {
	case '+':
		sign, text = 1, text[1:]
	case '-':
		sign, text = -1, text[1:]
	}
	if text != "" && strings.Trim(text, "0., ") == "" && strings.Contains(text, "0") {
		return measure.Length{}, true
	}
	reading := t.lex.read(strings.TrimSpace(text), value.Context{Want: value.WantLength, Unit: unit, Mark: c.mark})
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
func (t *cellReader) toleranceFor(line int, c *cellColumn) (value.Tolerance, measure.Origin, string, bool) {
	if tolerance, where, found := t.deviationsFor(line, c); found {
		return tolerance, measure.Stated, where, true
	}
	for _, other := range t.columns {
		if !other.tolerates(c.role) {
			continue
		}
		text := t.region.grid.at(t.valueCell(line, other))
		unit := other.unit
		if unit == "" {
			unit = c.unit
		}
		if tolerance, ok := t.readTolerance(text, unit); ok {
			return tolerance, measure.Stated, t.region.grid.ref(line, other.col).String(), true
		}
		if reading := t.lex.read(text, value.Context{Want: value.WantLength, Unit: unit}); strings.ContainsAny(text, "123456789") && reading.Kind != value.NotApplicable {
			t.tell(toldKey{"tolerance " + text, other.col}, finding.Warning, "data.tolerance", line, other.col, func() string {
				return fmt.Sprintf("the tolerance %q under %q cannot be read; it is not used", text, other.name())
			})
		}
	}
	if c.tolerance != nil {
		return *c.tolerance, measure.Stated, "the heading", true
	}
	if text := t.rules.Tolerance; text != "" {
		if tolerance, ok := t.readTolerance(text, c.unit); ok {
			return tolerance, measure.General, "the mapping file", true
		}
	}
	return t.notedTolerance(line, c)
}

// notedTolerance returns the tolerance that a note gives to a value, by the value's footnote mark or for its column.
func (t *cellReader) notedTolerance(line int, c *cellColumn) (value.Tolerance, measure.Origin, string, bool) {
	note := c.note
	for _, mark := range t.valueMarks() {
		if n := t.valueNotes[mark]; bears(t.region.grid.filled(line, c.col), mark) {
			note = &n
			break
		}
	}
	if note == nil {
		return value.Tolerance{}, measure.Stated, "", false
	}
	all := t.lex.readTolerances(note.clause.text, c.unit)
	if note.index >= len(all) || all[note.index].Problem.Code != "" {
		return value.Tolerance{}, measure.Stated, "", false
	}
	origin := measure.Stated
	if note.rank == forAll {
		origin = measure.General
	}
	return all[note.index], origin, note.clause.place.String(), true
}

// valueMarks returns the marks of the notes for single values, in order.
func (t *cellReader) valueMarks() []string {
	if len(t.valueNotes) == 0 {
		return nil
	}
	return slices.Sorted(maps.Keys(t.valueNotes))
}

// readTolerance reads a tolerance, also one written as a bare number: .05 for ±.05.
func (t *cellReader) readTolerance(text, unit string) (value.Tolerance, bool) {
	if text == "" {
		return value.Tolerance{}, false
	}
	tolerance, ok := t.lex.readTolerance(text, unit)
	if ok && tolerance.Problem.Code == "" {
		return tolerance, true
	}
	reading := t.lex.read(text, value.Context{Want: value.WantLength, Unit: unit})
	if reading.Kind == value.Length && reading.Problem.Code == "" && reading.Dim.Nominal().Sign() > 0 {
		size := reading.Dim.Nominal()
		return value.Tolerance{Lower: size.Neg(), Upper: size, Text: text}, true
	}
	return value.Tolerance{}, false
}
