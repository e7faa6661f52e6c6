package workbook

import (
	"fmt"
	"math"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/publish/report"
)

var lineFills = []string{fillFlush, fillPrep, faint, "4E8FC2", "8A4E10", ink}

// graph leaves rows below the last for a graph of lines over the rows of the sheet, and draws it there.
func (p *page) graph(g *report.Graph) {
	first, last := p.headingRow+1+g.First, p.headingRow+len(p.section.Rows)
	if last < first || len(g.Series) == 0 {
		return
	}
	const high = 340
	at := p.row + 2
	if last-first >= 12 { // so that a printed page does not cut it
		p.do(func() error { return p.file.InsertPageBreak(p.name, address(1, at)) })
	}
	p.skip(1)
	for range int(math.Ceil(high/pixelsPerRow)) + 1 {
		p.putRow(excelize.RowOpts{Height: pictureHigh})
	}
	rows := func(column int) string {
		return fmt.Sprintf("%s!%s:%s", quoted(p.name), absolute(column, first), absolute(column, last))
	}
	small := excelize.Font{Family: fontFamily, Size: 9, Color: ink}
	axis := func(text string) excelize.ChartTitle {
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: text, Font: &small}}}
	}
	graph := &excelize.Chart{
		Type:      excelize.Line,
		Dimension: excelize.ChartDimension{Width: pictureWide, Height: high},
		Legend:    excelize.ChartLegend{Position: "none"},
		Format:    excelize.GraphicOptions{AltText: g.Title + ". The numbers stand in the table above.", Positioning: "oneCell"},
		XAxis:     excelize.ChartAxis{Font: small, Title: axis(g.Across)},
		YAxis:     excelize.ChartAxis{Font: small, MajorGridLines: true, Title: axis(g.Up), NumFmt: excelize.ChartNumFmt{CustomNumFmt: "#,##0"}},
		Border:    excelize.LineOptions{Type: excelize.LineNone},
	}
	if len(g.Series) > 1 {
		graph.Legend = excelize.ChartLegend{Position: "top", Font: &small}
	}
	for i, column := range g.Series {
		color := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{lineFills[i%len(lineFills)]}}
		graph.Series = append(graph.Series, excelize.ChartSeries{
			Name: quoted(p.name) + "!" + absolute(column+1, p.headingRow), Categories: rows(g.Labels + 1), Values: rows(column + 1),
			Fill: color, Line: excelize.LineOptions{Width: 1.75}, Marker: excelize.ChartMarker{Symbol: "circle", Size: 6, Fill: color},
		})
	}
	p.do(func() error { return p.file.AddChart(p.name, address(1, at), graph) })
}
