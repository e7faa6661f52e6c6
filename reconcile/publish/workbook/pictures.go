package workbook

import (
	"fmt"
	"math"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/publish/picture"
	"example.com/seatline/reconcile/publish/report"
)

// pictureWidths: the graph, and beside it its table: the labels, then the series.
var pictureWidths = []float64{128, 28, 13, 13, 13, 13, 13, 13, 13}

// tableColumn is the first of a graph's table, counted from 1.
const tableColumn = 2

const (
	pictureHigh  = 12.5 // points of the rows under a graph; a point is 4/3 of a pixel
	pictureWide  = 900  // pixels
	columnsHigh  = 330
	barsBesides  = 110
	barHigh      = 26
	pixelsPerRow = pictureHigh * 4 / 3
	plotGround   = "E9EDF0"
)

// picturesSheet has the three graphs of the catalogue, each above its table.
func (b *book) picturesSheet() {
	p := b.page(sheetPictures, layout{widths: pictureWidths, printColumns: 1, tab: fillTurn})
	p.putRow(excelize.RowOpts{Height: 24}, p.as("The catalogue in three pictures", title))
	for _, c := range picture.All(b.result, b.opts.Units) {
		for i, s := range c.Series {
			if c.Kind == picture.Shares { // of verdicts
				c.Series[i].Name = b.word(s.Verdict)
			}
		}
		p.counts(c)
	}
	p.done()
}

// counts writes what a graph shows, and below that its table beside the room for it, and draws it.
func (p *page) counts(c picture.Graph) {
	p.skip(1)
	cells := make([]any, len(pictureWidths))
	for i := range cells {
		cells[i] = p.as("", section)
	}
	cells[0] = p.as(c.Title, section)
	p.putRow(excelize.RowOpts{Height: 18}, cells...)
	p.put(p.as(c.Said, look{}))
	p.put(p.as(c.Note, note))
	if len(c.Labels) == 0 {
		p.put(p.as("Nothing to show.", prose))
		return
	}
	high := barsBesides + barHigh*len(c.Labels)
	if c.Kind == picture.Opposed {
		high = columnsHigh
	}
	at := p.row + 1
	p.countsTable(c)
	for p.row < at+int(math.Ceil(float64(high)/pixelsPerRow)) {
		p.putRow(excelize.RowOpts{Height: pictureHigh})
	}
	p.draw(c, at, high)
}

// countsTable writes the numbers of a graph. Of opposed columns the last series stands there twice: as it is, and as it is drawn,
// below nothing.
func (p *page) countsTable(c picture.Graph) {
	headings := []any{nil, p.as(c.LabelsAre, heading)}
	for _, s := range c.Series {
		headings = append(headings, p.as(s.Name, headingLook(report.KindCount)))
	}
	if c.Kind == picture.Opposed {
		headings = append(headings, p.as("drawn downward", headingLook(report.KindCount)))
	}
	p.putRow(excelize.RowOpts{Height: 2 * pictureHigh}, headings...)
	for i, label := range c.Labels {
		cells := []any{nil, p.as(label, strong)}
		for _, s := range c.Series {
			cells = append(cells, p.as(s.Values[i], plain.number(`#,##0;-#,##0;"–"`)))
		}
		if c.Kind == picture.Opposed {
			cells = append(cells, p.as(-c.Series[len(c.Series)-1].Values[i], look{under: true, color: faint}.number(`#,##0;#,##0;"–"`)))
		}
		p.putRow(excelize.RowOpts{Height: pictureHigh}, cells...)
	}
}

var graphForms = map[picture.Kind]excelize.ChartType{
	picture.Opposed: excelize.ColStacked, picture.Stacked: excelize.BarStacked, picture.Shares: excelize.BarPercentStacked,
}

// draw puts a graph on the rows from at on, beside its table.
func (p *page) draw(c picture.Graph, at, high int) {
	first, last := at+1, at+len(c.Labels)
	column := func(n int) string {
		return fmt.Sprintf("%s!%s:%s", quoted(p.name), absolute(n, first), absolute(n, last))
	}
	letters := func(size float64, color string) excelize.Font {
		return excelize.Font{Family: fontFamily, Size: size, Color: color}
	}
	small := letters(9, ink)
	count := "#,##0;#,##0;" // nothing is not worth a number
	graph := &excelize.Chart{
		Type:      graphForms[c.Kind],
		Dimension: excelize.ChartDimension{Width: pictureWide, Height: uint(high)},
		Legend:    excelize.ChartLegend{Position: "top", Font: &small},
		Format:    excelize.GraphicOptions{AltText: c.Title + ". " + c.Describe(), Positioning: "oneCell"},
		PlotArea: excelize.ChartPlotArea{
			ShowVal: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: count},
			Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{plotGround}}, // white bars have no outline: the library draws none
		},
		XAxis:    excelize.ChartAxis{Font: small},
		YAxis:    excelize.ChartAxis{Font: small, MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "#,##0;#,##0"}},
		GapWidth: pointer(uint(40)), Overlap: pointer(100),
		Border: excelize.LineOptions{Type: excelize.LineNone},
	}
	switch c.Kind {
	case picture.Opposed:
		graph.XAxis.TickLabelSkip = max(1, (len(c.Labels)+19)/20)
		graph.XAxis.TickLabelPosition = excelize.ChartTickLabelLow
		graph.XAxis.Title = excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: c.LabelsAre, Font: &small}}}
	case picture.Shares:
		graph.XAxis.ReverseOrder = true // the first label on top
		graph.YAxis.NumFmt.CustomNumFmt = "0%"
	default:
		graph.XAxis.ReverseOrder = true
	}
	for i, s := range c.Series {
		values := tableColumn + 1 + i
		if c.Kind == picture.Opposed && i == len(c.Series)-1 {
			values++
		}
		graph.Series = append(graph.Series, excelize.ChartSeries{
			Name:       quoted(p.name) + "!" + absolute(tableColumn+1+i, first-1),
			Categories: column(tableColumn), Values: column(values),
			Fill:      excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{s.Fill}},
			DataLabel: excelize.ChartDataLabel{Font: letters(8, onFill(s.Fill))},
		})
	}
	p.do(func() error { return p.file.AddChart(p.name, address(1, at), graph) })
}

// onFill is the colour of letters on a fill.
func onFill(fill string) string {
	if picture.Dark(fill) {
		return white
	}
	return ink
}
