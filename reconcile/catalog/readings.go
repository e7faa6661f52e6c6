package catalog

import (
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// leastReadings is how many sizes in a cell are readings where nothing says so: two are limits, or two sizes.
const leastReadings = 3

// readingsIn returns the readings that a list of values in a cell is: three or more sizes near each other, or two under a heading
// that says that they were measured; nothing where it is none.
func (t *cellReader) readingsIn(c *cellColumn, list value.Reading) []measure.Length {
	if FieldOf(t.kind, c.role) == fitcalc.NoField {
		return nil
	}
	need := leastReadings
	if c.hints.Measured {
		need = 2
	}
	if len(list.List) < need || list.Problem.Code != "" || !c.hints.Measured && allTips(list.List) {
		return nil
	}
	readings := make([]measure.Length, len(list.List))
	for i, one := range list.List {
		if one.Kind != value.Length || one.Problem.Code != "" || one.Dim.HasLimits() || one.Qualifier != value.Exact || one.Form != value.FormUnknown {
			return nil
		}
		readings[i] = one.Dim.Nominal().MulInt(t.scaleOf(c, one))
	}
	if sample.FarApart(readings) {
		return nil
	}
	return readings
}

// readReadings reads a cell that holds several readings of one size, which are of pieces of the part.
func (t *cellReader) readReadings(line int, c *cellColumn, f Field, list value.Reading, readings []measure.Length, unit, why string) (Field, trouble) {
	stated := slices.ContainsFunc(list.List, func(one value.Reading) bool { return one.UnitStated })
	if c.held != "" && !stated {
		return f, trouble{finding.Note, "held", c.held}
	}
	for i, one := range list.List {
		if bad := t.implausible(c, measure.Nominal(readings[i]), one, unit); bad.any() {
			return f, bad
		}
	}
	if why != "" && !stated {
		f.Assumptions = append(f.Assumptions, why)
	}
	f.Assumptions = append(f.Assumptions, t.forgiven(line, c, list)...)
	f, bad := t.ofReadings(c, f, Field{}, readings, []finding.Place{t.placeOf(f)})
	if !bad.any() {
		bad = t.outlying(line, c, f, f.Dim)
	}
	fromLine, fromCol := t.region.grid.source(line, c.col)
	t.tell(toldKey{"readings", c.col}, finding.Note, "data.leniency", fromLine, fromCol, func() string {
		return fmt.Sprintf("%s: several sizes in a cell are readings of pieces of the part, and their mean is used; in %q", c.name(), list.Text)
	})
	return f, bad
}

// ofReadings makes a field of readings, in the place of a size that is stated elsewhere, if it is. The tolerance beside them is the one
// that is stated, or the usual one: what the shop allows for is not known here, and package samples puts it right.
func (t *cellReader) ofReadings(c *cellColumn, f, stated Field, readings []measure.Length, places []finding.Place) (Field, trouble) {
	caliper, usual, field := sample.DefaultCaliper(), fitcalc.DefaultShop(), FieldOf(t.kind, c.role)
	caliper.Inside = field.Inside()
	tolerance := usual.Tolerance(field)
	if stated.Dim.HasLimits() {
		tolerance = stated.Dim.Width().Half()
	}
	size, err := sample.SizeOfPart(readings, caliper, sample.Pool{}, tolerance)
	if err != nil {
		return f, problem("data.unreadable", "%s: the readings %s cannot be used: %v", c.name(), f.Text, err)
	}
	f.Dim, f.Measured = size.Dim, &Measured{Readings: readings, Places: places, Size: size, Stated: stated.Dim}
	return f, trouble{}
}

// readMeasured reads the columns that say that a size was measured, where there are several of them or others state it. It reports
// false where it is for the columns that state the size to say it.
func (t *cellReader) readMeasured(line int, c *cellColumn) (Field, trouble, bool) {
	if FieldOf(t.kind, c.role) == fitcalc.NoField {
		return Field{}, trouble{}, false
	}
	var measuring, stating []*cellColumn
	for _, other := range t.columns {
		switch {
		case other.role != c.role || other.aspect == least || other.aspect == most:
		case other.hints.Measured:
			measuring = append(measuring, other)
		default:
			stating = append(stating, other)
		}
	}
	if len(measuring) == 0 || len(measuring)+len(stating) < 2 {
		return Field{}, trouble{}, false
	}
	var first Field
	var readings []measure.Length
	var places []finding.Place
	for _, other := range measuring {
		f, bad := t.readField(line, other)
		if bad.any() {
			return f, bad, true
		}
		if !f.Dim.Given() {
			continue
		}
		if len(readings) == 0 {
			first = f
		} else {
			first.Text += "; " + f.Text
			first.Assumptions = append(slices.Clip(first.Assumptions), f.Assumptions...)
		}
		own := []measure.Length{f.Dim.Nominal()}
		if f.Measured != nil {
			own = f.Measured.Readings
		}
		readings, places = append(readings, own...), append(places, t.placeOf(f))
	}
	if len(readings) == 0 {
		return Field{}, trouble{}, false
	}
	if sample.FarApart(readings) {
		return first, problem("data.conflict", "%s: the readings %s lie too far apart to be of one size", c.name(), first.Text), true
	}
	stated := t.statedBeside(line, stating)
	f, bad := t.ofReadings(measuring[0], first, stated, readings, places)
	return f, bad, true
}

// statedBeside is the size that the first of some columns states, if one does.
func (t *cellReader) statedBeside(line int, columns []*cellColumn) Field {
	for _, c := range columns {
		if f, bad := t.readField(line, c); !bad.any() && f.Dim.Given() {
			return f
		}
	}
	return Field{}
}
