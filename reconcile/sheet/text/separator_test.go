package text_test

import "testing"

// TestCommasOfLetters cuts the sentences of letters at no comma within a number.
func TestCommasOfLetters(t *testing.T) {
	for name, letter := range map[string]string{
		"whole amounts":        "Hallo Jens,\n\nWK-9, Hals 13,6, Bohrung 9,1, Stückpreis 38,- €\nLO-66, Basis 12,7, Bohrung 8,9, St. -,35 €\nFZ-12, Basis 13,2, Bohrung 8,9, noch 40 da\n",
		"numbers in sentences": "Ahoj,\n\nta ferule FE-1 ma dole 13,5 a diru 9,3\nBAL-9 ma dole 13,4 a diru 9,25 za 13 Kc\nVZ-40, dole 13,45, dira 9,1, delka 24\n",
	} {
		rows, _ := grid(t, letter)
		for _, row := range rows {
			for _, cell := range row {
				if cell == "6" || cell == "- €" || cell == "35 €" || cell == "5 a diru 9" || cell == "3" {
					t.Errorf("%s: cut to %q", name, row)
				}
			}
		}
	}
}
