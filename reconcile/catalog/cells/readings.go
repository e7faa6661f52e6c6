package cells

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// leastReadings is how many sizes in a cell are readings where nothing says so: two are limits, or two sizes.
const leastReadings = 3

// readingsIn returns the readings that a list of values in a cell is: three or more sizes near each other, or two under a heading
// that says that they were measured; nothing where it is none.
func (t *Reader) readingsIn(c *Column, list value.Reading) []measure.Length {
	if catalog.FieldOf(t.Kind, c.Role) == fitcalc.NoField {
		return nil
	}
	need := leastReadings
	if c.Hints.Measured {
		need = 2
	}
	if len(list.List) < need || list.Problem.Code != "" || !c.Hints.Measured && AllTips(list.List) {
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
func (t *Reader) readReadings(line int, c *Column, f catalog.Field, list value.Reading, readings []measure.Length, unit, why string) (catalog.Field, Trouble) {
	stated := slices.ContainsFunc(list.List, func(one value.Reading) bool { return one.UnitStated })
	if c.Held != "" && (c.RoleHeld || !stated) {
		return f, Trouble{Severity: finding.Note, Code: "held", Message: c.Held}
	}
	for i, one := range list.List {
		if bad := t.implausible(c, measure.Nominal(readings[i]), one, unit); bad.Any() {
			return f, bad
		}
	}
	if why != "" && !stated {
		f.Assumptions = append(f.Assumptions, why)
	}
	f.Assumptions = append(f.Assumptions, t.forgiven(line, c, list)...)
	f, bad := t.ofReadings(c, f, catalog.Field{}, readings, []finding.Place{t.PlaceOf(f)})
	if !bad.Any() {
		bad = t.slipped(c, f, f.Dim)
	}
	fromLine, fromCol := t.Region.Grid.Source(line, c.Col)
	t.Tell(layout.ToldKey{What: "readings", Col: c.Col}, finding.Note, "data.leniency", fromLine, fromCol, func() string {
		return fmt.Sprintf("%s: several sizes in a cell are readings of pieces of the part, and their mean is used; in %q", c.Name(), list.Text)
	})
	return f, bad
}

// ofReadings makes a field of readings, in the place of a size that is stated elsewhere, if it is. The tolerance beside them is the one
// that is stated, or the usual one: what the shop allows for is not known here, and package samples puts it right.
func (t *Reader) ofReadings(c *Column, f, stated catalog.Field, readings []measure.Length, places []finding.Place) (catalog.Field, Trouble) {
	caliper, usual, field := sample.DefaultCaliper(), fitcalc.DefaultShop(), catalog.FieldOf(t.Kind, c.Role)
	caliper.Inside = field.Inside()
	tolerance := usual.Tolerance(field)
	if stated.Dim.HasLimits() {
		tolerance = stated.Dim.Width().Half()
	}
	size, err := sample.SizeOfPart(readings, caliper, sample.Pool{}, tolerance)
	if err != nil {
		return f, Problem("data.unreadable", "%s: the readings %s cannot be used: %v", c.Name(), f.Text, err)
	}
	f.Dim, f.Measured = size.Dim, &catalog.Measured{Readings: readings, Places: places, Size: size, Stated: stated.Dim}
	return f, Trouble{}
}

// measured are the columns of one size where some say that it was measured: those, the ones that give the mean of readings, those that state
// the size, and the first with its least and its greatest.
type measured struct {
	readings, means, stating []*Column
	least, most              *Column
}

// measuredOf sorts the columns of a role.
func (t *Reader) measuredOf(role catalog.Role) (m measured) {
	for _, c := range t.Columns {
		switch {
		case c.Role != role:
		case c.Aspect == columns.Least:
			m.least = cmp.Or(m.least, c)
		case c.Aspect == columns.Most:
			m.most = cmp.Or(m.most, c)
		case c.Aspect == columns.Mean:
			m.means = append(m.means, c)
		case c.Hints.Measured:
			m.readings = append(m.readings, c)
		default:
			m.stating = append(m.stating, c)
		}
	}
	return m
}

// readMeasured reads the columns that say that a size was measured, where there are several of them or others state it. It reports
// false where it is for the columns that state the size, or the mean of its readings, to say it.
func (t *Reader) readMeasured(line int, c *Column) (catalog.Field, Trouble, bool) {
	if catalog.FieldOf(t.Kind, c.Role) == fitcalc.NoField {
		return catalog.Field{}, Trouble{}, false
	}
	m := t.measuredOf(c.Role)
	if len(m.readings) == 0 || len(m.readings)+len(m.means)+len(m.stating) < 2 {
		return catalog.Field{}, Trouble{}, false
	}
	var first catalog.Field
	var readings []measure.Length
	var places []finding.Place
	var given []*Column
	for _, other := range m.readings {
		f, bad := t.readField(line, other)
		if bad.Any() {
			return f, bad.In(other), true
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
		for range own {
			given = append(given, other)
		}
		readings, places = append(readings, own...), append(places, t.PlaceOf(f))
	}
	if len(readings) == 0 {
		return catalog.Field{}, Trouble{}, false
	}
	if sample.FarApart(readings) {
		if odd := oddOf(readings); odd >= 0 {
			return first, Problem("data.conflict", "%s: of the readings %s, that of %s lies too far from the others to be of one size", c.Name(), first.Text,
				traits.SayMM(traits.MM(readings[odd]))).In(given[odd]), true
		}
		return first, Problem("data.conflict", "%s: the readings %s lie too far apart to be of one size", c.Name(), first.Text), true
	}
	stated := t.statedBeside(line, m)
	f, bad := t.ofReadings(m.readings[0], first, stated, readings, places)
	if !bad.Any() {
		bad = t.checkMean(line, m, f)
	}
	return f, bad, true
}

// oddOf returns which of several readings it is without which the others lie near each other, -1 where that is none or any.
func oddOf(readings []measure.Length) int {
	for i := range readings {
		if others := slices.Delete(slices.Clone(readings), i, i+1); len(others) > 1 && !sample.FarApart(others) {
			return i
		}
	}
	return -1
}

// checkMean compares what the sheet says is the mean of readings with the one that they have: where rounding does not explain the difference,
// nobody knows which of them is wrong.
func (t *Reader) checkMean(line int, m measured, f catalog.Field) Trouble {
	for _, c := range m.means {
		mean, bad := t.readField(line, c)
		if bad.Any() || !mean.Dim.Given() {
			continue
		}
		slack := c.fineness(mean).Add(m.readings[0].fineness(f))
		if own := f.Measured.Size.Dim.Nominal(); Apart(own, mean.Dim.Nominal(), slack) {
			return Problem("data.conflict", "%s: the mean of the readings %s is %s, and not %s", m.readings[0].Name(), f.Text, traits.SayMM(traits.MM(own)), mean.Text).In(c)
		}
	}
	return Trouble{}
}

// statedBeside is the size that the first of the columns beside readings states, or its limits, if they do.
func (t *Reader) statedBeside(line int, m measured) catalog.Field {
	for _, c := range m.stating {
		if f, bad := t.readField(line, c); !bad.Any() && f.Dim.Given() {
			return f
		}
	}
	if m.least == nil || m.most == nil {
		return catalog.Field{}
	}
	lower, bad := t.readField(line, m.least)
	upper, worse := t.readField(line, m.most)
	if bad.Any() || worse.Any() || !lower.Dim.Given() || !upper.Dim.Given() || upper.Dim.Nominal().Less(lower.Dim.Nominal()) {
		return catalog.Field{}
	}
	lower.Dim = measure.Between(lower.Dim.Nominal(), upper.Dim.Nominal()).WithOrigin(measure.Stated)
	return lower
}
