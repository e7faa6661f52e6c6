package workbook

import (
	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/report"
)

// fold writes a row that is seen once the row above it is unfolded.
func (p *page) fold(cells ...any) {
	p.putRow(excelize.RowOpts{OutlineLevel: 1, Hidden: true, Height: p.heightOf(cells)}, cells...)
}

// members folds the heads that share the row of a geometry below it, each with where it comes from.
func (p *page) members(class int) {
	if heads := p.result.HeadGeometries()[class]; len(heads) > 1 {
		for _, i := range heads {
			head := &p.result.Catalogue.Heads[i]
			p.member(head.Part, report.HeadIs(head), report.FromHead(head))
		}
	}
}

// memberFerrules does so for ferrules.
func (p *page) memberFerrules(form int) {
	if ferrules := p.result.FerruleGeometries()[form]; len(ferrules) > 1 {
		for _, i := range ferrules {
			ferrule := &p.result.Catalogue.Ferrules[i]
			p.member(ferrule.Part, ferrule.Description, report.FromFerrule(ferrule))
		}
	}
}

// member folds a part, whose name and description stand in the first columns and whose source in the first that has one.
func (p *page) member(part, is string, from finding.Place) {
	if !p.room() {
		return
	}
	cells := make([]any, len(p.section.Columns))
	cells[0], cells[1] = p.as(part, look{under: true, color: faint, indent: 1}), p.as(is, look{under: true, color: faint})
	for i, c := range p.section.Columns {
		if c.Kind == report.KindSource {
			cells[i] = p.source(from, p.placeName(from), look{under: true, color: faint})
			break
		}
	}
	p.fold(cells...)
}
