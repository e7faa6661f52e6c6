package supplier

import (
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

var verdictTones = map[vet.Verdict]report.Tone{vet.Take: report.Good, vet.AskFirst: report.Prepared, vet.Leave: report.Without}

// VetReport is the report about a new supplier's catalogue: the verdict and what carries it on the first sheet, and the rows behind it.
func VetReport(r *vet.Report, inputs []tell.Input, l *say.Language) *report.Report {
	s := report.Summary{
		Name: "Vetting", Title: r.Supplier, Lines: []any{report.Faint{Cell: "A new catalogue against the house's own"}}, Widths: []float64{24, 92, 18},
		Blocks: []report.Block{{Lines: [][]any{{report.Banner{Text: Saying(r.Verdict), Tone: verdictTones[r.Verdict]}}, {report.Wide{Text: r.Why()}}}}},
	}
	facts := report.Block{Title: "What it rests on"}
	for _, f := range r.Facts {
		facts.Lines = append(facts.Lines, []any{report.Strong{Cell: f.Title}, report.Wide{Text: f.Text, Columns: 1}, report.Link{Text: f.Sheet, Section: f.Sheet}})
	}
	s.Blocks = append(s.Blocks, facts)
	if len(r.Changes) > 0 {
		changes := report.Block{Title: "What would change it"}
		for _, c := range r.Changes {
			changes.Lines = append(changes.Lines, []any{report.Wide{Text: c}})
		}
		s.Blocks = append(s.Blocks, changes)
	}
	s.Blocks = append(s.Blocks, report.Cautions(l))
	return &report.Report{Subject: "Vetting", Summary: s, Sections: append(Sections(r), AssumptionSection(r.Assumptions, l), report.FilesRead(inputs))}
}
