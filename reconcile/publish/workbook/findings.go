package workbook

import (
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// findingsSheet lists what is to be known about the input.
func (b *book) findingsSheet() {
	t := report.Section{
		Name: sheetFindings, Title: "What is to be known about the input",
		Notes: []string{
			"error: not used because of it. warning: used, but a person should look. note: how a value was read. The key in the last column, which is not printed, settles it in the mapping file.",
		},
		Columns: []report.Column{
			report.Text("Severity", 9), report.Text("Code", 17), report.Text("File", 26), report.Text("Sheet", 10), report.Text("Cell", 7), report.Sentence("Message", 56),
			report.Sentence("See also", 20), report.Text("Settled by", 34),
		},
		Frozen: 2, Printed: 7, Tone: report.Asked, Empty: "Nothing was found.",
	}
	p := b.open(t.Name, &t, columns{})
	for _, f := range tell.Findings(b.result) {
		var related []string
		for _, at := range f.Related {
			related = append(related, p.placeName(at))
		}
		p.add(f.Severity, f.Code, p.fileName(f.Place.File), f.Place.Sheet, report.At{Place: f.Place}, f.Message, phrase.Some(related, mostRelated), f.Settle)
	}
	p.close()
}

// mostRelated is how many of the other places of a finding its cell names: a cell holds no more than 32,767 characters.
const mostRelated = 100

// severityLook is the fill and colour of a severity.
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
