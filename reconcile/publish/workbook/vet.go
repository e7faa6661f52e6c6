package workbook

import (
	"io"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/decision"
	"example.com/seatline/reconcile/publish/tell"
)

// sheetVetting is the sheet with the verdict.
const sheetVetting = "Vetting"

var vettingWidths = []float64{24, 92, 18}

// WriteVet writes the workbook about a new supplier's catalogue: the verdict and what carries it on the first sheet, which prints on one
// page, and the rows behind it on the others. The error is the writer's, or that of a report beyond what a workbook can hold.
func WriteVet(w io.Writer, r *vet.Report, opts Options) error {
	return writeBook(w, opts, "Vetting", func(b *book) {
		sections := decision.Sections(r)
		b.vettingSheet(r)
		for _, s := range sections {
			b.section(s)
		}
		b.assumptionSheet(r.Assumptions)
		b.filesSheet()
	})
}

var verdictFills = map[vet.Verdict]look{
	vet.Take:     {bold: true, size: 14, fill: fillFlush, color: white, down: "center", indent: 1},
	vet.AskFirst: {bold: true, size: 14, fill: fillPrep, color: ink, down: "center", indent: 1},
	vet.Leave:    {bold: true, size: 14, fill: fillBare, color: ink, down: "center", indent: 1},
}

func (b *book) vettingSheet(r *vet.Report) {
	p := b.page(sheetVetting, layout{widths: vettingWidths, tab: ink})
	p.putRow(excelize.RowOpts{Height: 26}, p.as(r.Supplier, title))
	p.put(p.as("A new catalogue against the house's own", note))
	p.skip(1)
	verdict := verdictFills[r.Verdict]
	p.putRow(excelize.RowOpts{Height: 24}, p.as(decision.Saying(r.Verdict), verdict), p.as("", verdict), p.as("", verdict))
	p.merge(1, len(vettingWidths))
	p.across(p.as(r.Why(), prose), r.Why())
	p.vettingHeading("What it rests on")
	for _, f := range r.Facts {
		p.put(p.as(f.Title, strong), p.as(f.Text, wrapped), p.as(f.Sheet, look{under: true, color: header}))
		p.link(len(vettingWidths), p.row, place{f.Sheet, 1, 1})
	}
	if len(r.Changes) > 0 {
		p.vettingHeading("What would change it")
		for _, c := range r.Changes {
			p.across(p.as(c, prose), c)
		}
	}
	p.vettingHeading("Cautions")
	for _, c := range tell.Cautions() {
		p.put(p.as(c.Title, look{bold: true}), p.as(c.Text, prose))
	}
	p.done()
}

// filesSheet lists the files that were read, with the digests by which a reader can tell whether one has changed since.
func (b *book) filesSheet() {
	p := b.open(table{
		name: "Files read", title: "Files read", tab: band,
		columns: []column{{"Lists", 16, texts}, {"File", 70, sentences}, {"Bytes", 12, numbers}, {"SHA-256", 72, texts}},
	})
	for _, in := range b.opts.Inputs {
		p.put(p.as(in.Kind, plain), p.as(in.Name, wrapped), p.as(in.Bytes, plain.number(formatCount)), p.as(in.SHA256, plain))
	}
	p.close()
}

func (p *page) vettingHeading(text string) {
	p.skip(1)
	p.putRow(excelize.RowOpts{Height: 18}, p.as(text, section), p.as("", section), p.as("", section))
}

// across writes a text over all columns, as high as it needs.
func (p *page) across(cell excelize.Cell, text string) {
	width := 0.0
	for _, w := range p.layout.widths {
		width += w
	}
	p.putRow(excelize.RowOpts{Height: heightFor(linesIn(text, width))}, cell)
	p.merge(1, len(p.layout.widths))
}

var sectionKinds = map[decision.Kind]kind{
	decision.Text: texts, decision.Sentence: sentences, decision.Diameter: numbers, decision.Along: numbers, decision.Count: numbers,
	decision.Minutes: numbers, decision.Share: numbers, decision.Money: numbers, decision.Verdict: words, decision.Source: texts,
}

const formatMoney = "#,##0.00"

// section writes one table of a report as a sheet.
func (b *book) section(s decision.Section) {
	t := table{name: s.Title, title: s.Title, notes: []string{s.Note}, frozen: 1, printed: s.Printed(), tab: band}
	for _, c := range s.Columns {
		heading := c.Heading
		if c.Kind.IsLength() {
			heading += ", " + b.reader.name()
		}
		t.columns = append(t.columns, column{heading, c.Width, sectionKinds[c.Kind]})
	}
	p := b.open(t)
	for _, row := range s.Rows {
		cells := make([]any, len(row))
		for i, v := range row {
			cells[i] = p.sectionCell(v, s.Columns[i].Kind)
		}
		p.put(cells...)
	}
	if len(s.Rows) == 0 {
		p.put(p.as(s.Empty, look{}))
	}
	p.close()
}

func (p *page) sectionCell(v any, kind decision.Kind) any {
	switch v := v.(type) {
	case nil:
		return p.as("", plain)
	case string:
		if kind == decision.Sentence {
			return p.as(v, wrapped)
		}
		return p.as(v, plain)
	case decision.Size:
		if kind == decision.Along {
			return p.along(v.Known, v.Length, plain)
		}
		if !v.Known {
			return p.as("", plain)
		}
		return p.as(p.reader.value(v.Length), plain.number(p.reader.format()+"0"))
	case fitcalc.Verdict:
		return p.verdict(v)
	case float64:
		return p.as(v, plain.number(numberFormat(kind)))
	}
	return p.as(v, plain.number(formatCount))
}

func numberFormat(kind decision.Kind) string {
	switch kind {
	case decision.Minutes:
		return formatMinutes
	case decision.Share:
		return formatShare
	case decision.Money:
		return formatMoney
	}
	return formatCount
}
