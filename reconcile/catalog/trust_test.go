package catalog_test

import (
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// TestTrust holds the order of confidences: each thing that speaks against a reading makes it less sure.
func TestTrust(t *testing.T) {
	sure := catalog.Weighed{Margin: 16, Heading: 1, Fitting: 1, Common: 1}
	with := func(change func(*catalog.Weighed)) catalog.Weighed {
		w := sure
		change(&w)
		return w
	}
	taken := catalog.Field{Dim: measure.Nominal(measure.Millimetres(13)), Cell: "B2", Assumptions: []string{"unit taken as mm"}}
	plain := catalog.Field{Dim: measure.Nominal(measure.Millimetres(13)), Cell: "B2"}
	of := func(w catalog.Weighed, f catalog.Field, findings ...finding.Finding) float64 {
		table := catalog.Table{HeadingRows: []int{1}, Columns: []catalog.Column{{Column: "B", Role: catalog.BaseOD, Weighed: w}}, Findings: findings}
		confidence, _ := catalog.TrustOf(&table).Of(&catalog.Row{Row: 2}, catalog.BaseOD, &f)
		return confidence
	}
	best := of(sure, plain)
	if best >= 1 || best < .998 {
		t.Errorf("the surest value has the confidence %v", best)
	}
	warned := func(place finding.Place) finding.Finding {
		return finding.Finding{Severity: finding.Warning, Place: place}
	}
	for name, worse := range map[string]float64{
		"a heading that says little":  of(with(func(w *catalog.Weighed) { w.Heading = .3 }), plain),
		"another reading near":        of(with(func(w *catalog.Weighed) { w.Margin = 2 }), plain),
		"sizes that do not fit":       of(with(func(w *catalog.Weighed) { w.Fitting = .9 }), plain),
		"sizes that are rare":         of(with(func(w *catalog.Weighed) { w.Common = .5 }), plain),
		"a unit from a note":          of(with(func(w *catalog.Weighed) { w.UnitNoted = true }), plain),
		"a unit that is inferred":     of(with(func(w *catalog.Weighed) { w.UnitTaken = "unit taken as mm" }), taken),
		"a kind by the columns alone": of(with(func(w *catalog.Weighed) { w.KindInferred = true }), plain),
		"an assumption":               of(sure, taken),
		"a warning on the cell":       of(sure, plain, warned(finding.Place{Row: 2, Cell: "B2"})),
		"a warning on the row":        of(sure, plain, warned(finding.Place{Row: 2})),
		"a warning at the heading":    of(sure, plain, warned(finding.Place{Row: 1, Cell: "B1"})),
		"a warning on a related cell": of(sure, plain, finding.Finding{Severity: finding.Warning, Place: finding.Place{Cell: "C9"}, Related: []finding.Place{{Row: 2, Cell: "B2"}}}),
		"no margin at all":            of(with(func(w *catalog.Weighed) { w.Margin = 0 }), plain),
		"a column of which none fits": of(with(func(w *catalog.Weighed) { w.Fitting = 0 }), plain),
	} {
		if worse >= best || worse <= 0 {
			t.Errorf("%s: %v, and without it %v", name, worse, best)
		}
	}
	for name, same := range map[string]float64{
		"a note on the cell":        of(sure, plain, finding.Finding{Severity: finding.Note, Place: finding.Place{Row: 2, Cell: "B2"}}),
		"a warning on another cell": of(sure, plain, warned(finding.Place{Row: 3, Cell: "B3"})),
		"a person's word":           of(with(func(w *catalog.Weighed) { w.Ruled, w.Margin, w.Heading = true, 0, 0 }), plain),
	} {
		if same != best {
			t.Errorf("%s: %v, and without it %v", name, same, best)
		}
	}
}

// TestNextReading holds what is offered in a value's place: the other unit where the unit was inferred, the other role otherwise.
func TestNextReading(t *testing.T) {
	field := catalog.Field{Dim: measure.Nominal(measure.Millimetres(25)), Cell: "B2", Assumptions: []string{"unit taken as mm"}}
	of := func(c catalog.Column) *catalog.Next {
		c.Column, c.Role = "B", catalog.Length
		_, next := catalog.TrustOf(&catalog.Table{Columns: []catalog.Column{c}}).Of(&catalog.Row{Row: 2}, catalog.Length, &field)
		return next
	}
	inferred := catalog.Weighed{Margin: 16, Heading: 1, Fitting: 1, Common: 1, UnitTaken: "unit taken as mm", OtherUnit: "in", OtherOver: 25.4}
	if next := of(catalog.Column{Weighed: inferred}); next == nil || next.MM == nil || *next.MM != 635 || next.Unit != "in" {
		t.Errorf("the next reading is %+v, want 635 mm by inches", next)
	}
	if next := of(catalog.Column{RunnerUp: "top_od"}); next == nil || next.Role != catalog.TopOD || next.MM != nil {
		t.Errorf("the next reading is %+v, want top_od", next)
	}
	if next := of(catalog.Column{}); next != nil {
		t.Errorf("the next reading is %+v, want none", next)
	}
}
