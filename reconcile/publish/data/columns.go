package data

import (
	"encoding/json"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/csvtext"
	"example.com/seatline/reconcile/publish/decimal"
	"example.com/seatline/reconcile/publish/tell"
)

// fitRow is one pair and all that its record needs.
type fitRow struct {
	head    *catalog.Head
	ferrule *catalog.Ferrule
	tip     string
	fit     fitcalc.Fit
	assumed []string
	units   fitcalc.Units
}

func newFitRow(r *matrix.Result, p matrix.Pair, units fitcalc.Units) *fitRow {
	f := &fitRow{
		head: &r.Catalogue.Heads[p.Head], ferrule: &r.Catalogue.Ferrules[p.Ferrule], tip: r.Tips[p.Tip].Name,
		fit: r.Fit(p), units: units,
	}
	f.assumed = assumptionCodes(r, p, &f.fit)
	return f
}

func (f *fitRow) flushKnown() bool { return f.fit.Flush.Known }
func (f *fitRow) gripKnown() bool  { return f.fit.Grip.Known }
func (f *fitRow) workKnown() bool  { return f.fit.Work.Known }

func (f *fitRow) reasons(separator string, in func(fitcalc.Reason) string) string {
	var all []string
	for r := range f.fit.Reasons() {
		all = append(all, in(r))
	}
	return strings.Join(all, separator)
}

// column is one column of fits.csv. A value is empty where nothing is known.
type column struct {
	name  string
	value func(*fitRow) string
}

// columns collects columns in one unit of length.
type columns struct {
	all    []column
	unit   func(measure.Length) json.Number
	suffix string
}

// fitColumns returns the columns of fits.csv in their order.
func fitColumns(units fitcalc.Units) []column {
	c := &columns{unit: decimal.Millimetres, suffix: "_mm"}
	if units != fitcalc.Metric {
		c.unit, c.suffix = decimal.Inches, "_in"
	}
	c.text("head", func(f *fitRow) string { return f.head.Part })
	c.text("ferrule", func(f *fitRow) string { return f.ferrule.Part })
	c.text("tip", func(f *fitRow) string { return f.tip })
	c.text("verdict", func(f *fitRow) string { return f.fit.Verdict.String() })
	c.amount("turn_down", (*fitRow).flushKnown, func(f *fitRow) fitcalc.Amount { return f.fit.Flush.TurnDown })
	c.amount("turn_down_per_side", (*fitRow).flushKnown, func(f *fitRow) fitcalc.Amount { return f.fit.Flush.TurnDown.PerSide() })
	c.number("minutes", (*fitRow).workKnown, func(f *fitRow) json.Number { return decimal.Of(f.fit.Work.Minutes, 2) })
	c.text("reasons", func(f *fitRow) string {
		return f.reasons(" ", func(r fitcalc.Reason) string { return r.Code.String() })
	})
	c.text("why", func(f *fitRow) string {
		return f.reasons("; ", func(r fitcalc.Reason) string { return r.Sentence(f.units) })
	})
	c.amount("oversize", (*fitRow).flushKnown, func(f *fitRow) fitcalc.Amount { return f.fit.Flush.Oversize })
	c.number("undersize_probability", (*fitRow).flushKnown, func(f *fitRow) json.Number { return decimal.Share(f.fit.Flush.Undersize) })
	c.number("visible_undersize_probability", (*fitRow).flushKnown,
		func(f *fitRow) json.Number { return decimal.Share(f.fit.Flush.VisibleUndersize) })
	c.amount("interference", (*fitRow).gripKnown, func(f *fitRow) fitcalc.Amount { return f.fit.Grip.Interference })
	c.length("grip_length", func(f *fitRow) bool { return f.gripKnown() && f.ferrule.Ferrule.Length.Given() },
		func(f *fitRow) measure.Length { return f.fit.Grip.Length })
	c.amount("stand_off", func(f *fitRow) bool { return f.fit.Seat.Known },
		func(f *fitRow) fitcalc.Amount { return f.fit.Seat.StandOff })
	c.amount("bore_clearance", func(f *fitRow) bool { return f.fit.Bore.Known },
		func(f *fitRow) fitcalc.Amount { return f.fit.Bore.Clearance })
	c.length("insertion", func(f *fitRow) bool { return f.fit.Bore.KnownInsertion },
		func(f *fitRow) measure.Length { return f.fit.Bore.Insertion })
	c.length("wall_left_per_side", (*fitRow).workKnown, func(f *fitRow) measure.Length { return f.fit.Work.WallLeft })
	c.size("hosel_od", func(f *fitRow) measure.Dim { return hoselOD(&f.head.Head, &f.fit) })
	c.size("base_od", func(f *fitRow) measure.Dim { return f.ferrule.Ferrule.BaseOD })
	c.size("ferrule_bore", func(f *fitRow) measure.Dim { return f.ferrule.Ferrule.Bore })
	c.size("ferrule_length", func(f *fitRow) measure.Dim { return f.ferrule.Ferrule.Length })
	c.text("assumptions", func(f *fitRow) string { return strings.Join(f.assumed, "; ") })
	c.item("head", func(f *fitRow) *catalog.Item { return &f.head.Item })
	c.item("ferrule", func(f *fitRow) *catalog.Item { return &f.ferrule.Item })
	return c.all
}

func (c *columns) text(name string, value func(*fitRow) string) {
	c.all = append(c.all, column{name, func(f *fitRow) string { return csvtext.Neutral(value(f)) }})
}

func (c *columns) number(name string, known func(*fitRow) bool, value func(*fitRow) json.Number) {
	c.all = append(c.all, column{name, func(f *fitRow) string {
		if !known(f) {
			return ""
		}
		return string(value(f))
	}})
}

func (c *columns) length(name string, known func(*fitRow) bool, value func(*fitRow) measure.Length) {
	c.number(name+c.suffix, known, func(f *fitRow) json.Number { return c.unit(value(f)) })
}

func (c *columns) amount(name string, known func(*fitRow) bool, value func(*fitRow) fitcalc.Amount) {
	c.length(name, known, func(f *fitRow) measure.Length { return value(f).Nominal })
	c.length(name+"_least", known, func(f *fitRow) measure.Length { return value(f).Least })
	c.length(name+"_most", known, func(f *fitRow) measure.Length { return value(f).Most })
}

func (c *columns) size(name string, value func(*fitRow) measure.Dim) {
	c.length(name, func(f *fitRow) bool { return value(f).Given() }, func(f *fitRow) measure.Length { return value(f).Nominal() })
}

// item adds what is known of a part, and where it comes from.
func (c *columns) item(which string, of func(*fitRow) *catalog.Item) {
	c.text(which+"_description", func(f *fitRow) string { return of(f).Description })
	c.text(which+"_supplier", func(f *fitRow) string { return of(f).Supplier })
	c.text(which+"_source", func(f *fitRow) string { return sourceText(of(f).Source) })
}

// sourceText names the cell where a table on its side has many parts in one row.
func sourceText(s catalog.Source) string {
	place := tell.Place(s)
	place.Cell = s.Cell
	return place.String()
}
