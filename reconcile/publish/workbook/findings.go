package workbook

import (
	"strings"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/publish/tell"
)

// findingsSheet lists what is to be known about the input.
func (b *book) findingsSheet() {
	t := table{
		name: sheetFindings, title: "What is to be known about the input",
		notes: []string{
			"error: not used because of it. warning: used, but a person should look. note: how a value was read. The key in the last column, in the mapping file, settles it.",
		},
		columns: []column{
			{"Severity", 10, texts}, {"Code", 17, texts}, {"File", 20, texts}, {"Sheet", 15, texts}, {"Cell", 9, texts},
			{"Message", 52, sentences}, {"See also", 20, sentences}, {"Settled by", 20, texts},
		},
		frozen: 2, tab: fillAsk,
	}
	p := b.open(t)
	for _, f := range tell.Findings(b.result) {
		p.finding(f)
	}
	if p.row == t.headingRow() {
		p.put(p.as("Nothing was found.", prose))
	}
	p.close()
}

func (p *page) finding(f finding.Finding) {
	var related []string
	for _, at := range f.Related {
		related = append(related, at.String())
	}
	shown := plain
	if file, _ := p.target(f.Place); file != "" {
		shown = plain.linked()
	}
	cell := p.as(f.Place.Cell, shown)
	if f.Place.Cell == "" && f.Place.Row > 0 {
		row := shown
		row.format, row.across = `"row "0`, "left"
		cell = p.as(f.Place.Row, row)
	}
	if !p.room() {
		return
	}
	p.put(
		p.as(f.Severity.String(), severityLook(f.Severity)), p.as(f.Code, plain), p.as(f.Place.File, plain), p.as(f.Place.Sheet, plain),
		cell, p.as(f.Message, wrapped), p.as(strings.Join(related, "; "), wrapped), p.as(f.Settle, plain),
	)
	if f.Place.Cell != "" || f.Place.Row > 0 {
		p.leadTo(5, f.Place)
	}
}

func severityLook(s finding.Severity) look {
	l := plain
	switch s {
	case finding.Error:
		l.bold, l.fill, l.color = true, header, white
	case finding.Warning:
		l.bold, l.fill = true, fillAsk
	}
	return l
}
