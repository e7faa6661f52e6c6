package workbook

import (
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/drawing"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// bestSheet lists for each head the ferrules that fit, the least bench work first.
func (b *book) bestSheet() {
	scope := fmt.Sprintf("The best ferrule and up to %d alternates of each head.", b.limits.alternates-1)
	if b.opts.Full {
		scope = "All ferrules that fit each head."
	}
	t := report.Section{
		Name: sheetBest, Title: "The best ferrule for each head", All: "fits.csv",
		Notes: []string{
			scope + " Ranked by bench time; turn-down is on the diameter, and per side is half of it. A ferrule leads to its row on “" + sheetFits + "”.",
			"Heads of the same sizes share a row. The + beside a row unfolds the heads that share it, and the alternates. Why is said where numbers do not say it.",
		},
		Columns: []report.Column{
			report.Text("Head", 19), report.Text("Head is", 26), report.Text("Tip", 15), report.Word("Rank", 5), report.Text("Ferrule", 16), report.Verdict("Verdict", 8),
			report.Minutes("Bench time, min", 8), report.Diameter("Turn-down on the diameter", 11), report.Diameter("at most", 8), report.Fine("per side", 8), report.Sentence("Why", 36),
			report.Text("Ferrule is", 28), report.Source("Head from", 34), report.Source("Ferrule from", 34),
		},
		Frozen: 1, Printed: 11, Tone: report.Good, Whole: b.opts.Drawings,
	}
	if b.opts.Drawings {
		t.Notes = append(t.Notes, b.drawingsNote())
		t.Columns = slices.Insert(t.Columns, t.Printed, report.Sentence("In section", drawingColumn))
		t.Printed++
	}
	p := b.open(t.Name, &t, columns{})
	for class, members := range b.result.HeadGeometries() {
		if s := b.account.Standings[members[0]]; s == tell.Served || s == tell.Selective {
			p.alternates(class)
		}
	}
	p.close()
}

// alternates lists the geometries of ferrules that fit a geometry of heads: the best, and folded below it the heads and the others.
func (p *page) alternates(class int) {
	rank := 0
	for _, pair := range p.result.HeadPairs(int(p.result.HeadGeometries()[class][0])) {
		if !pair.Verdict.Fits() || !p.opts.Full && rank >= p.limits.alternates {
			return
		}
		if form := p.result.FerruleGeometry(int(pair.Ferrule)); p.firstOf(form) == pair.Ferrule {
			p.alternate(rank, class, form, pair)
			if rank == 0 {
				p.members(class)
			}
			rank++
		}
	}
}

func (p *page) alternate(rank, class, form int, pair matrix.Pair) {
	if !p.room() {
		return
	}
	head, ferrule := &p.result.Catalogue.Heads[pair.Head], &p.result.Catalogue.Ferrules[pair.Ferrule]
	fit := p.result.Fit(pair)
	turn := fit.Flush.TurnDown
	named, first := func(cell any) any { return report.Faint{Cell: cell} }, func(cell any) any { return cell }
	if rank == 0 {
		named, first = func(cell any) any { return report.Begins{Cell: cell} }, func(cell any) any { return report.Strong{Cell: cell} }
	}
	row := []any{
		first(named(p.headNames(class))), named(p.headsAre(class)), named(p.result.Tips[pair.Tip].Name), first(rank + 1),
		first(p.toFits(class, form)), pair.Verdict, minutes(&fit),
		first(report.Size{Known: fit.Flush.Known, Length: turn.Nominal}), report.Size{Known: fit.Flush.Known, Length: turn.Most},
		report.Size{Known: fit.Flush.Known, Length: turn.PerSide().Nominal}, p.whyBesides(&fit), p.ferrulesAre(form), report.FromHead(head), report.FromFerrule(ferrule),
	}
	if rank > 0 {
		if p.opts.Drawings {
			row = slices.Insert(row, p.section.Printed-1, any(nil))
		}
		p.fold(p.cells(row)...)
		return
	}
	if !p.opts.Drawings {
		p.put(p.cells(row)...)
		return
	}
	p.drawnBest(pair, fit, row)
}

// toFits is a geometry of ferrules, and leads to its row on the sheet of fits where it has one there.
func (p *page) toFits(class, form int) any {
	if row, there := p.rowOf[[2]int{class, form}]; there {
		return report.Link{Text: p.ferruleNames(form), Section: sheetFits, Row: row}
	}
	return p.ferruleNames(form)
}

// whyBesides is the reason that decides a fit, where the numbers of its row do not say it.
func (p *page) whyBesides(fit *fitcalc.Fit) string {
	if fit.Verdict == fitcalc.Flush || fit.Verdict == fitcalc.Turn {
		return ""
	}
	return p.why(fit)
}

// drawnBest writes a row with room for a drawing where there is to be one, and draws it.
func (p *page) drawnBest(pair matrix.Pair, fit fitcalc.Fit, row []any) {
	var section *drawing.Section
	text := ""
	if p.drawn < p.limits.drawings {
		section, text = p.crossSection(pair, fit)
	}
	cells := p.cells(slices.Insert(row, p.section.Printed-1, any(text)))
	height := p.heightOf(cells)
	if section != nil {
		height = max(height, drawingHigh)
	}
	p.putRow(excelize.RowOpts{Height: height}, cells...)
	if section != nil {
		p.drawSection(p.section.Printed, section, pair.Verdict)
	}
}
