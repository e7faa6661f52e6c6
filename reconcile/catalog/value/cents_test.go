package value

import "testing"

// TestCents: a price in hundredths of its currency is read in the currency, with a word on that; other words behind a number make no such price.
func TestCents(t *testing.T) {
	for text, want := range map[string]float64{"45p": 0.45, "45p each": 0.45, "38.5p": 0.385, "80 Cent": 0.8, "80 centimes pièce": 0.8, "65¢": 0.65, "85c": 0.85, "45": 45, "45 pcs": 45, "£45": 45, "1.15 EUR": 1.15} {
		r := Read(text, Context{Want: WantPrice})
		if r.Kind != Number || r.Number < want-1e-9 || r.Number > want+1e-9 {
			t.Errorf("%q: %s %g, want %g", text, r.Kind, r.Number, want)
		}
		said := false
		for _, l := range r.Leniencies {
			said = said || l.Code == ForgaveHundredths
		}
		if said != (want < 1) {
			t.Errorf("%q: said to be hundredths: %t", text, said)
		}
	}
}
