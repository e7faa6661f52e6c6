package explain

import (
	"encoding/json"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/joint"
)

// Document is an explanation for other software.
type Document struct {
	Title   string   `json:"title,omitempty"`
	Verdict string   `json:"verdict"`
	Meaning string   `json:"meaning"`
	Do      []string `json:"do"`
	// Fit has all numbers of the answer, with the keys of fits.jsonl.
	Fit        json.RawMessage  `json:"fit"`
	Inputs     []Input          `json:"inputs"`
	Derivation []Topic          `json:"derivation"`
	Windows    []WindowDocument `json:"windows"`
	Changes    []ChangeDocument `json:"changes"`
	Cautions   []string         `json:"cautions"`
}

// WindowDocument is a range of hosel ODs, From in it and To not; To is null for the last, which goes on for ever.
type WindowDocument struct {
	Verdict string          `json:"verdict"`
	From    measure.Length  `json:"from"`
	To      *measure.Length `json:"to"`
}

// ChangeDocument is the smallest shift of one field that changes the verdict.
type ChangeDocument struct {
	Field string         `json:"field"`
	Shift measure.Length `json:"shift"`
	To    string         `json:"to"`
}

// JSON returns an explanation for [encoding/json].
func JSON(e *Explanation, cautions []string) Document {
	doc := Document{
		Title: e.Title, Verdict: e.Fit.Verdict.String(), Meaning: e.Meaning, Do: e.Do,
		Fit:    joint.AppendAnswer(nil, 1, "", &e.Fit, e.Doubts, e.Measured, e.Language, e.Units),
		Inputs: append([]Input{}, e.Inputs...), Derivation: []Topic{},
		Windows: []WindowDocument{}, Changes: []ChangeDocument{}, Cautions: append([]string{}, cautions...),
	}
	for _, t := range e.Topics {
		if len(t.Steps) > 0 {
			doc.Derivation = append(doc.Derivation, t)
		}
	}
	for _, w := range e.Windows {
		doc.Windows = append(doc.Windows, window(w))
	}
	for _, c := range e.Changes {
		doc.Changes = append(doc.Changes, ChangeDocument{Field: joint.PathOf(c.Field), Shift: c.Shift, To: c.To.String()})
	}
	return doc
}

func window(w fitcalc.Window) WindowDocument {
	doc := WindowDocument{Verdict: w.Verdict.String(), From: w.HoselOD.Lower().At()}
	if upper := w.HoselOD.Upper(); upper.Bounded() {
		to := upper.At()
		doc.To = &to
	}
	return doc
}
