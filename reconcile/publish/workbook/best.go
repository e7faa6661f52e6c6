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
			scope + " Ranked by bench time; turn-down is on the diameter, and per side is half of it. Parts of one geometry share a row. A ferrule leads to its row on “" + sheetFits + "”.",
		},
		Columns: []report.Column{
			report.Text("Head", 19), report.Text("Head is", 26), report.Text("Tip", 16), report.Word("Rank", 6), report.Text("Ferrule", 16), report.Verdict("Verdict", 8),
			report.Minutes("Bench time, min", 8), report.Diameter("Turn-down on the diameter", 11), report.Diameter("at most", 8), report.Fine("per side", 8), report.Sentence("Why", 47),
			report.Text("Ferrule is", 28), report.Source("Head from", 34), report.Source("Ferrule from", 34),
		},
		Frozen: 1, Printed: 11, Tone: report.Good,
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

// alternates lists the geometries of ferrules that fit a geometry of heads.
func (p *page) alternates(class int) {
	rank := 0
	for _, pair := range p.result.HeadPairs(int(p.result.HeadGeometries()[class][0])) {
		if !pair.Verdict.Fits() || !p.opts.Full && rank >= p.limits.alternates {
			return
		}
		if form := p.result.FerruleGeometry(int(pair.Ferrule)); p.firstOf(form) == pair.Ferrule {
			p.alternate(rank, class, form, pair)
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
		report.Size{Known: fit.Flush.Known, Length: turn.PerSide().Nominal}, p.why(&fit), p.ferrulesAre(form), report.FromHead(head), report.FromFerrule(ferrule),
	}
	if !p.opts.Drawings {
		p.put(p.cells(row)...)
		return
	}
	p.drawnAlternate(rank, pair, fit, row)
}

// toFits is a geometry of ferrules, and leads to its row on the sheet of fits where it has one there.
func (p *page) toFits(class, form int) any {
	if row, there := p.rowOf[[2]int{class, form}]; there {
		return report.Link{Text: p.ferruleNames(form), Section: sheetFits, Row: row}
	}
	return p.ferruleNames(form)
}

// drawnAlternate writes a row with room for a drawing where there is to be one, and draws it.
func (p *page) drawnAlternate(rank int, pair matrix.Pair, fit fitcalc.Fit, row []any) {
	var section *drawing.Section
	text := ""
	if p.draws(rank) {
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
