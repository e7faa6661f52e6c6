package columns

import (
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestAgeIn looks at which headings say how old their values are.
func TestAgeIn(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string]int{
		"Base OD old": -1, "New base OD": 1, "旧外径": -1, "外径（変更後）": 1, "Ø base Antes": -1, "Ø base Ahora": 1, "AD vorher (mm)": -1, "AD jetzt (mm)": 1,
		"Base OD before": -1, "Base OD after": 1, "Base OD before turning": 0, "Base OD after turning": 0, "Ø base avant tournage": 0, "Base OD": 0,
	} {
		if _, got := ageIn(lex, text); got != want {
			t.Errorf("%q: %d, want %d", text, got, want)
		}
	}
}
