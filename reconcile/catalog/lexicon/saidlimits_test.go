package lexicon

import (
	"fmt"
	"testing"

	"example.com/seatline/reconcile/catalog/value"
)

// TestLimitsInWords reads cells of sizes whose limits are said in words, and leaves in question what says no limits or only one.
func TestLimitsInWords(t *testing.T) {
	lex := New(nil)
	for unit, cells := range map[string]map[string]string{
		"mm": {
			"13.5 plus or minus 0.05":         "13.45 13.5 13.55",
			"13,5 plus oder minus 0,05":       "13.45 13.5 13.55",
			"13,5 più o meno 0,05":            "13.45 13.5 13.55",
			"13,5 más o menos 5 centésimas":   "13.45 13.5 13.55",
			"13,5 plus of min 0,05":           "13.45 13.5 13.55",
			"13.5プラスマイナス0.05":                 "13.45 13.5 13.55",
			"13.5正负0.05":                      "13.45 13.5 13.55",
			"13.5 mm plus or minus a tenth":   "13.4 13.5 13.6",
			"13.5 (tolerance 0.1)":            "13.4 13.5 13.6",
			"13.5 within a tenth":             "13.4 13.5 13.6",
			"13.5, 0.05 either way":           "13.45 13.5 13.55",
			"11.9, plus nothing, minus 0.1":   "11.8 11.9 11.9",
			"11,9 plus null, minus 0,1":       "11.8 11.9 11.9",
			"11,9 plus 0,05 moins rien":       "11.9 11.9 11.95",
			"13.5 plus 0.1":                   "13.5 13.5 13.6",
			"13.5 minus a tenth":              "13.4 13.5 13.5",
			"13.5 plus 2 thou":                "13.5 13.5 13.5508",
			"13.5 (0/-0.1)":                   "13.4 13.5 13.5",
			"between 13.5 and 13.7":           "13.5 13.6 13.7",
			"betw. 13.5 - 13.7":               "13.5 13.6 13.7",
			"zwischen 13,4 und 13,6":          "13.4 13.5 13.6",
			"entre 13,4 et 13,6 mm":           "13.4 13.5 13.6",
			"compreso tra 13,4 e 13,6":        "13.4 13.5 13.6",
			"tussen 13,4 en 13,6":             "13.4 13.5 13.6",
			"między 13,4 a 13,6":              "13.4 13.5 13.6",
			"13,4 ja 13,6 välillä":            "13.4 13.5 13.6",
			"13,4 ile 13,6 arasında":          "13.4 13.5 13.6",
			"13.4と13.6の間":                     "13.4 13.5 13.6",
			"介于13.4和13.6之间":                   "13.4 13.5 13.6",
			"13.4에서 13.6 사이":                  "13.4 13.5 13.6",
			"13.5 (between 13.4 and 13.6)":    "13.4 13.5 13.6",
			"13.5 nominal, 13.4 to 13.6":      "13.4 13.5 13.6",
			"13.5 up to 13.7":                 "13.5 13.6 13.7",
			"from 13.4 up to 13.6":            "13.4 13.5 13.6",
			"13.4以上13.6以下":                    "13.4 13.5 13.6",
			"最小13.4最大13.6":                    "13.4 13.5 13.6",
			"13.5 tops":                       "?",
			"13.5 and up":                     "?",
			"13.5 plus":                       "?",
			"13.5 plus or minus":              "?",
			"13,5 plus ou moins":              "?",
			"13.5 less 0.1":                   "?",
			"13.5 plus 0.9":                   "?",
			"9.3 min 9.4":                     "?",
			"13.5 and 13.7":                   "?",
			"between 13.5 and 14.0 and 12":    "?",
			"between 9 and 13":                "?",
			"13.5 plus or minus a bit":        "?",
			"between 13.5 and the one before": "?",
		},
		"in": {
			".530 plus or minus two thou":   "13.4112 13.462 13.5128",
			"between .530 and .535":         "13.462 13.5255 13.589",
			".530, plus nothing, minus 3/4": "?",
		},
	} {
		for text, want := range cells {
			reading, got := lex.Read(text, value.Context{Want: value.WantDiameter, Unit: unit}), "?"
			if d := reading.Dim; reading.Kind == value.Length && reading.Problem.Code == "" && reading.Qualifier == value.Exact {
				got = fmt.Sprint(d.Lower().Millimetres(), d.Nominal().Millimetres(), d.Upper().Millimetres())
			}
			if got != want {
				t.Errorf("%q in %s: want %s, got %s (%s)", text, unit, want, got, reading.Problem.Message)
			}
		}
	}
	for text, want := range map[string][3]string{
		"hosel OD between 13.4 and 13.6":       {"13.4", "13.6", "hosel OD "},
		"Bohrung zwischen 9,25 und 9,35":       {"9,25", "9,35", "Bohrung "},
		"between 2 and 3 weeks, bore up to 10": {},
	} {
		least, most, before := lex.LeastAndMost(text)
		if got := [3]string{least, most, before}; got != want {
			t.Errorf("%q: want %q, got %q", text, want, got)
		}
	}
}
