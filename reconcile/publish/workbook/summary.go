package workbook

import (
	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/publish/report"
)

// summary writes the first sheet.
func (b *book) summary(s *report.Summary) {
	p := b.page(s.Name, layout{widths: s.Widths, tab: ink})
	p.putRow(excelize.RowOpts{Height: 26}, p.as(s.Title, title))
	for _, line := range s.Lines {
		l := note
		if _, is := line.(report.Strong); is {
			l = look{size: 11}
		}
		p.put(p.cell(line, report.KindText, l))
	}
	for i := range s.Blocks {
		p.block(&s.Blocks[i])
	}
	p.done()
}

func (p *page) block(b *report.Block) {
	p.skip(1)
	if b.Title != "" {
		p.band(b.Title, section, 18)
	}
	if len(b.Columns) > 0 {
		p.headings(b.Columns)
	}
	for _, line := range b.Lines {
		if len(line) == 0 {
			p.skip(1)
			continue
		}
		if banner, is := line[0].(report.Banner); is {
			p.banner(banner)
			continue
		}
		p.line(b.Columns, line)
	}
}

// band writes a text in a look that goes over the whole width.
func (p *page) band(text string, l look, height float64) {
	cells := make([]any, len(p.layout.widths))
	for i := range cells {
		cells[i] = p.as("", l)
	}
	cells[0] = p.as(text, l)
	p.putRow(excelize.RowOpts{Height: height}, cells...)
}

func (p *page) banner(b report.Banner) {
	l := look{bold: true, size: 14, fill: toneFills[b.Tone], color: ink, down: "center", indent: 1}
	if b.Tone == report.Good {
		l.color = white
	}
	p.band(b.Text, l, 24)
	p.merge(1, len(p.layout.widths))
}

// headings writes the headings of a small table, those of columns of numbers to the right.
func (p *page) headings(columns []report.Column) {
	cells := make([]any, len(p.layout.widths))
	for i := range cells {
		cells[i] = p.as("", group)
		if i < len(columns) {
			l := group
			if columns[i].Kind.IsNumber() {
				l.across, l.indent = "right", 1
			}
			cells[i] = p.as(columns[i].Heading, l)
		}
	}
	p.put(cells...)
}

// line writes a line of a block, as high as its texts need.
func (p *page) line(columns []report.Column, line []any) {
	cells := make([]any, len(line))
	lines, wide := 1, [2]int{}
	for i, v := range line {
		kind, l := report.KindText, look{}
		if i < len(columns) {
			kind, l = columns[i].Kind, plain
		}
		switch v := v.(type) {
		case report.Wide:
			to := i + v.Columns
			if v.Columns == 0 {
				to = len(p.layout.widths)
			}
			wide = [2]int{i + 1, to}
			l.wrap = true
			cells[i] = p.as(v.Text, l)
			lines = max(lines, linesIn(v.Text, p.across(i, to)))
		case report.Faint:
			cells[i] = p.cell(v.Cell, kind, note)
		default:
			cells[i] = p.cell(v, kind, l)
			if text, is := v.(string); is && kind == report.KindSentence {
				lines = max(lines, linesIn(text, p.layout.widths[i]))
			}
		}
	}
	height := 0.0
	if wide[1] > 0 || lines > 1 {
		height = heightFor(lines)
	}
	p.putRow(excelize.RowOpts{Height: height}, cells...)
	if wide[1] > wide[0] {
		p.merge(wide[0], wide[1])
	}
}

// across is the width of some columns together, from one to before another, counted from 0.
func (p *page) across(from, to int) float64 {
	width := 0.0
	for _, w := range p.layout.widths[from:to] {
		width += w
	}
	return width
}
