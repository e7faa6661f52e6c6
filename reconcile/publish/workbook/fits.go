package workbook

import (
	"fmt"
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
		{"Head", 12, texts}, {"Ferrule", 12, texts}, {"Tip", 16, texts}, {"Verdict", 8, words}, {"Bench time, min", 8, numbers},
		{"Turn-down on the diameter" + unit, 11, numbers}, {"least", 8, numbers}, {"most", 8, numbers}, {"per side" + unit, 9, numbers},
		{"Oversize on the diameter" + unit, 11, numbers}, {"Chance of a step under", 9, numbers},
		{"Interference at the tightest" + unit, 13, numbers}, {"Why", 47, sentences},
		{"Also", 60, texts}, {"Grip length" + unit, 9, numbers}, {"Stands off" + unit, 9, numbers}, {"Bore clearance" + unit, 11, numbers},
		{"Hosel OD" + unit, 9, numbers}, {"Base OD" + unit, 9, numbers}, {"Head is", 28, texts}, {"Ferrule is", 28, texts},
		{"Assumed", 46, texts}, {"Head from", 34, texts}, {"Ferrule from", 34, texts},
	}
	t := table{
		name:  sheetFits,
		title: "Every listed pair",
		notes: []string{
			"Turn-down is what must come off the base on the diameter; per side is half of it. Least and most are worst case, limit against limit.",
			"Pairs plainly out of range are not listed, only counted on “Read first”. Columns to the right of “Why” are not printed.",
		},
		columns: columns, frozen: 2, printed: 13, tab: faint,
	}
	if b.opts.Sources != nil && 2*len(b.result.Pairs) > b.limits.links {
		t.notes[1] += fmt.Sprintf(" The first %d cells of each sheet that say where a part comes from lead there.", b.limits.links)
	}
	return t
}

// fitsPlace is where the pair of an index stands.
func (b *book) fitsPlace(pair int) place {
	const headings = 4 // TestMatrix follows every link
	per := b.limits.rows - headings
	return place{numbered(sheetFits, pair/per), 1, pair%per + headings + 1}
}

func (b *book) fitsSheets() {
	p := b.open(b.fitsTable())
	for _, pair := range b.result.Pairs {
		p.fitRow(pair)
	}
	p.close()
}

func (p *page) fitRow(pair matrix.Pair) {
	r := p.result
	fit := r.Fit(pair)
	head, ferrule := &r.Catalogue.Heads[pair.Head], &r.Catalogue.Ferrules[pair.Ferrule]
	flush, grip := &fit.Flush, &fit.Grip
	headFrom, ferruleFrom := sourceOf(&head.Item, odRole(head)), sourceOf(&ferrule.Item, catalog.BaseOD)
	turn := plain
	if fit.Verdict.Fits() {
		turn = strong
	}
	p.put(
		p.as(head.Part, strong), p.as(ferrule.Part, strong), p.as(r.Tips[pair.Tip].Name, plain), p.verdict(fit.Verdict),
		p.minutes(&fit),
		p.length(flush.Known, flush.TurnDown.Nominal, turn), p.length(flush.Known, flush.TurnDown.Least, plain),
		p.length(flush.Known, flush.TurnDown.Most, plain), p.perSide(flush.Known, flush.TurnDown),
		p.length(flush.Known, flush.Oversize.Nominal, plain), p.share(flush.Known, flush.VisibleUndersize),
		p.length(grip.Known, grip.Interference.Nominal, plain),
		p.as(p.why(&fit), wrapped), p.as(p.also(&fit), plain),
		p.along(grip.Known && ferrule.Ferrule.Length.Given(), grip.Length, plain),
		p.length(fit.Seat.Known, fit.Seat.StandOff.Nominal, plain), p.length(fit.Bore.Known, fit.Bore.Clearance.Nominal, plain),
		p.size(head.Head.JointOD(), plain), p.size(ferrule.Ferrule.BaseOD, plain),
		p.as(describe(&head.Item, head.Category), plain), p.as(ferrule.Description, plain),
		p.as(assumed(r, pair, &fit), plain),
		p.source(headFrom), p.source(ferruleFrom),
	)
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

// describe is what a head is: its description, or at least its category.
func describe(item *catalog.Item, category fitcalc.Category) string {
	if item.Description != "" {
		return item.Description
	}
	return category.String()
}
