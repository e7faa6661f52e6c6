package catalog

import (
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
)

// boreForm returns whether a text speaks of a parallel or a tapered bore or tip.
func (l *lexicon) boreForm(text string) value.Form {
	hit, _ := l.ask("bore form", text, l.words.BoreForm)
	switch hit.Value {
	case "parallel":
		return value.FormParallel
	case "taper":
		return value.FormTaper
	}
	return value.FormUnknown
}

// taperOf reads a rate of taper, on the diameter.
func (l *lexicon) taperOf(text string) (measure.Taper, bool) {
	if text == "" {
		return measure.Taper{}, false
	}
	reading := l.read(text, value.Context{Want: value.WantTaper})
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

// topQuestion asks which form of a hosel's top a text names.
func topQuestion(text string) question { return question{"top", text} }

// styleQuestion asks which form of a ferrule's base a text names.
func styleQuestion(text string) question { return question{"style", text} }

// materialQuestion asks which material a text names.
func materialQuestion(text string) question { return question{"material", text} }

// word returns the vocabulary's answer, empty where it has none.
func (l *lexicon) word(q question) string {
	if strings.TrimSpace(q.text) == "" {
		return ""
	}
	answer := l.words.TopForm
	switch q.name {
	case "style":
		answer = l.words.Style
	case "material":
		answer = l.words.Material
	}
	hit, _ := l.ask(q.name, q.text, answer)
	return hit.Value
}
