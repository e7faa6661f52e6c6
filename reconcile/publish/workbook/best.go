package workbook

import (
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/drawing"
	"example.com/seatline/reconcile/publish/tell"
)

// bestSheet lists for each head the ferrules that fit, the least bench work first.
func (b *book) bestSheet() {
	unit := ", " + b.reader.name()
	scope := fmt.Sprintf("The best ferrule and up to %d alternates of each head.", b.limits.alternates-1)
	if b.opts.Full {
		scope = "All ferrules that fit each head."
	}
	t := table{
		name: sheetBest, title: "The best ferrule for each head", all: "fits.csv",
		notes: []string{
			scope + " Ranked by bench time; turn-down is on the diameter, and per side is half of it. Parts of one geometry share a row. A ferrule leads to its row on “" + sheetFits + "”.",
		},
		columns: []column{
			{"Head", 19, texts}, {"Head is", 26, texts}, {"Tip", 16, texts}, {"Rank", 6, words}, {"Ferrule", 16, texts},
			{"Verdict", 8, words}, {"Bench time, min", 8, numbers}, {"Turn-down on the diameter" + unit, 11, numbers},
			{"at most" + unit, 8, numbers}, {"per side" + unit, 8, numbers}, {"Why", 47, sentences},
			{"Ferrule is", 28, texts}, {"Head from", 34, texts}, {"Ferrule from", 34, texts},
		},
		frozen: 1, printed: 11, tab: fillFlush,
	}
	if b.opts.Drawings {
		t.notes = append(t.notes, b.drawingsNote())
		t.columns = slices.Insert(t.columns, t.printed, column{"In section", drawingColumn, texts})
		t.printed++
	}
	p := b.open(t)
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
	headFrom, ferruleFrom := sourceOf(&head.Item, odRole(head)), sourceOf(&ferrule.Item, catalog.BaseOD)
	name, first := look{under: true, color: faint}, plain
	if rank == 0 {
		name, first = look{under: true, over: true, bold: true}, strong
	}
	cells := []any{
		p.as(p.headNames(class), name), p.as(p.headsAre(class), name.light()), p.as(p.result.Tips[pair.Tip].Name, name.light()),
		p.as(rank+1, first.centred()), p.as(p.ferruleNames(form), first.linked()), p.verdict(pair.Verdict),
		p.minutes(&fit), p.length(fit.Flush.Known, turn.Nominal, first), p.length(fit.Flush.Known, turn.Most, plain),
		p.perSide(fit.Flush.Known, turn), p.as(p.why(&fit), wrapped),
		p.as(p.ferrulesAre(form), plain),
		p.source(headFrom), p.source(ferruleFrom),
	}
	section := p.putAlternate(rank, pair, fit, cells)
	if row, there := p.rowOf[[2]int{class, form}]; there {
		p.link(5, p.row, place{sheetFits, 1, row})
	}
	columns := len(p.table.columns)
	p.leadTo(columns-1, headFrom)
	p.leadTo(columns, ferruleFrom)
	if section != nil {
		p.drawSection(p.table.printed, section, pair.Verdict)
	}
}

// putAlternate writes a row, with room for a drawing where there is to be one, and returns what is to be drawn.
func (p *page) putAlternate(rank int, pair matrix.Pair, fit fitcalc.Fit, cells []any) *drawing.Section {
	if !p.opts.Drawings {
		p.put(cells...)
		return nil
	}
	var section *drawing.Section
	text, height := "", p.heightOf(cells) // the cell of the drawing, still left out, is not the widest text
	if p.draws(rank) {
		if section, text = p.crossSection(pair, fit); section != nil {
			height = max(height, drawingHigh)
		}
	}
	cells = slices.Insert(cells, p.table.printed-1, any(p.as(text, wrapped)))
	p.putRow(excelize.RowOpts{Height: height}, cells...)
	return section
}
