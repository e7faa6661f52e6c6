package lexicon

import (
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
)

// BoreForm returns whether a text speaks of a parallel or a tapered bore or tip.
func (l *Lexicon) BoreForm(text string) value.Form {
	hit, _ := l.Ask("bore form", text, l.Words.BoreForm)
	switch hit.Value {
	case "parallel":
		return value.FormParallel
	case "taper":
		return value.FormTaper
	}
	return value.FormUnknown
}

// TaperOf reads a rate of taper, on the diameter.
func (l *Lexicon) TaperOf(text string) (measure.Taper, bool) {
	if text == "" {
		return measure.Taper{}, false
	}
	reading := l.Read(text, value.Context{Want: value.WantTaper})
	if reading.Kind != value.Taper && reading.Kind != value.Number || reading.Problem.Code != "" && reading.Problem.Code != "data.unit" {
		return measure.Taper{}, false
	}
	if reading.Number < 0 || reading.Number > 0.2 {
		return measure.Taper{}, false
	}
	return measure.TaperPPB(int64(reading.Number*1e9 + 0.5)), true
}

// question is one that the vocabulary answers about a text.
type question struct{ name, text string }

// TopQuestion asks which form of a hosel's top a text names.
func TopQuestion(text string) question { return question{"top", text} }

// StyleQuestion asks which form of a ferrule's base a text names.
func StyleQuestion(text string) question { return question{"style", text} }

// MaterialQuestion asks which material a text names.
func MaterialQuestion(text string) question { return question{"material", text} }

// Word returns the vocabulary's answer, empty where it has none.
func (l *Lexicon) Word(q question) string {
	if strings.TrimSpace(q.text) == "" {
		return ""
	}
	answer := l.Words.TopForm
	switch q.name {
	case "style":
		answer = l.Words.Style
	case "material":
		answer = l.Words.Material
	}
	hit, _ := l.Ask(q.name, q.text, answer)
	return hit.Value
}
