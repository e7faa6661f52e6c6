package workbook

import (
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell"
)

// fitsTable is the sheet of all listed pairs. Its last columns, the sources, are there for looking up and are not printed.
func (b *book) fitsTable() table {
	unit := ", " + b.reader.name()
	columns := []column{
		{"Head", 19, texts}, {"Ferrule", 16, texts}, {"Tip", 16, texts}, {"Verdict", 8, words}, {"Bench time, min", 8, numbers},
		{"Turn-down on the diameter" + unit, 11, numbers}, {"least", 8, numbers}, {"most", 8, numbers}, {"per side" + unit, 9, numbers},
		{"Oversize on the diameter" + unit, 11, numbers}, {"Chance of a step under", 9, numbers},
		{"Interference at the tightest" + unit, 13, numbers}, {"Why", 47, sentences},
		{"Also", 60, texts}, {"Grip length" + unit, 9, numbers}, {"Stands off" + unit, 9, numbers}, {"Bore clearance" + unit, 11, numbers},
		{"Hosel OD" + unit, 9, numbers}, {"Base OD" + unit, 9, numbers}, {"Head is", 28, texts}, {"Ferrule is", 28, texts},
		{"Assumed", 46, texts},
	}
	if b.result.Catalogue.Measurements.Any() {
		columns = append(columns, column{"Measured", 24, texts})
	}
	columns = append(columns, column{"Head from", 34, texts}, column{"Ferrule from", 34, texts})
	t := table{
		name:  sheetFits,
		title: "Every listed pair", all: "fits.csv", forLookup: true,
		notes: []string{
			"Turn-down is what must come off the base on the diameter; per side is half of it. Least and most are worst case, limit against limit.",
			"Listed are pairs that fit, and the nearest of what fits nothing; the others are counted on “Read first”. Parts of one geometry share a row. Columns to the right of “Why” are not printed, and of the rows the first " + strconv.Itoa(mostPrinted) + ".",
		},
		columns: columns, frozen: 2, printed: 13, tab: faint,
	}
	return t
}

// planFits finds the rows of the sheet of fits: one for each listed pair of two geometries, as far as the sheet goes.
func (b *book) planFits() {
	b.rowOf = map[[2]int]int{}
	headings := b.fitsTable().headingRow()
	for class := range b.result.HeadGeometries() {
		for _, pair := range b.pairsOf(class) {
			if headings+len(b.rowOf) >= b.limits.rows-1 {
				return
			}
			b.rowOf[[2]int{class, b.result.FerruleGeometry(int(pair.Ferrule))}] = headings + len(b.rowOf) + 1
		}
	}
}

// pairsOf are the listed pairs of a geometry of heads, of each geometry of ferrules the first.
func (b *book) pairsOf(class int) []matrix.Pair {
	var pairs []matrix.Pair
	for _, pair := range b.result.HeadPairs(int(b.result.HeadGeometries()[class][0])) {
		if b.firstOf(b.result.FerruleGeometry(int(pair.Ferrule))) == pair.Ferrule {
			pairs = append(pairs, pair)
		}
	}
	return pairs
}

func (b *book) fitsSheet() {
	p := b.open(b.fitsTable())
	for class := range b.result.HeadGeometries() {
		for _, pair := range b.pairsOf(class) {
			if p.room() {
				p.fitRow(class, pair)
			}
		}
	}
	p.close()
}

func (p *page) fitRow(class int, pair matrix.Pair) {
	r := p.result
	fit := r.Fit(pair)
	form := r.FerruleGeometry(int(pair.Ferrule))
	head, ferrule := &r.Catalogue.Heads[pair.Head], &r.Catalogue.Ferrules[pair.Ferrule]
	flush, grip := &fit.Flush, &fit.Grip
	headFrom, ferruleFrom := sourceOf(&head.Item, odRole(head)), sourceOf(&ferrule.Item, catalog.BaseOD)
	turn := plain
	if fit.Verdict.Fits() {
		turn = strong
	}
	cells := []any{
		p.as(p.headNames(class), strong), p.as(p.ferruleNames(form), strong), p.as(r.Tips[pair.Tip].Name, plain), p.verdict(fit.Verdict),
		p.minutes(&fit),
		p.length(flush.Known, flush.TurnDown.Nominal, turn), p.length(flush.Known, flush.TurnDown.Least, plain),
		p.length(flush.Known, flush.TurnDown.Most, plain), p.perSide(flush.Known, flush.TurnDown),
		p.length(flush.Known, flush.Oversize.Nominal, plain), p.share(flush.Known, flush.VisibleUndersize),
		p.length(grip.Known, grip.Interference.Nominal, plain),
		p.as(p.why(&fit), wrapped), p.as(p.also(&fit), plain),
		p.along(grip.Known && ferrule.Ferrule.Length.Given(), grip.Length, plain),
		p.length(fit.Seat.Known, fit.Seat.StandOff.Nominal, plain), p.length(fit.Bore.Known, fit.Bore.Clearance.Nominal, plain),
		p.size(head.Head.JointOD(), plain), p.size(ferrule.Ferrule.BaseOD, plain),
		p.as(p.headsAre(class), plain), p.as(p.ferrulesAre(form), plain),
		p.as(assumed(r, pair, &fit), plain),
	}
	if r.Catalogue.Measurements.Any() {
		cells = append(cells, p.as(measured(r, pair), plain))
	}
	p.put(append(cells, p.source(headFrom), p.source(ferruleFrom))...)
	columns := len(p.table.columns)
	p.leadTo(columns-1, headFrom)
	p.leadTo(columns, ferruleFrom)
}

// minutes is the bench time of a joint that can be built.
func (p *page) minutes(fit *fitcalc.Fit) any {
	if !fit.Work.Known || !fit.Verdict.Fits() {
		return p.as("", plain)
	}
	return p.as(fit.Work.Minutes, plain.number(formatMinutes))
}

func (p *page) share(known bool, share float64) any {
	if !known {
		return p.as("", plain)
	}
	return p.as(share, plain.number(formatShare))
}

// also are the reasons of a fit besides the one that decides it.
func (p *page) also(fit *fitcalc.Fit) string {
	var all []string
	for reason := range fit.Reasons() {
		all = append(all, reason.Sentence(p.opts.Units))
	}
	return strings.Join(all[min(1, len(all)):], "; ")
}

func assumed(r *matrix.Result, pair matrix.Pair, fit *fitcalc.Fit) string {
	var all []string
	for _, a := range tell.Assumptions(r, pair, fit) {
		all = append(all, a.String())
	}
	return strings.Join(all, "; ")
}

// measured names the sizes of a pair that come from readings.
func measured(r *matrix.Result, pair matrix.Pair) string {
	var all []string
	for _, field := range tell.MeasuredFields(r, pair) {
		all = append(all, field.String())
	}
	return strings.Join(all, "; ")
}

// describe is what a head is: its description, or at least its category.
func describe(item *catalog.Item, category fitcalc.Category) string {
	if item.Description != "" {
		return item.Description
	}
	return category.String()
}
