package lexicon_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestSaysNoNumber tells cells of part numbers that say that there is none from part numbers.
func TestSaysNoNumber(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string]bool{
		"no label": true, "ohne Nr.": true, "sans réf.": true, "s/clave": true, "senza codice": true, "bez symbolu": true, "bez čísla": true,
		"geen nummer": true, "mã mờ": true, "品番なし": true, "미정": true, "无料号": true, "TBD": true, "n/a": true, "–": true,
		"": false, "TX-Label": false, "KC 605": false, "NL": false, "LABEL-7": false, "Merlin": false,
	} {
		if got := lex.SaysNoNumber(text); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}
