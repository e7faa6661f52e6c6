package reader_test

import (
	"strings"
	"testing"
)

// TestOtherEnd knows the base of ferrules by a heading that is that of their thin end but for one word, limits in it too.
func TestOtherEnd(t *testing.T) {
	const rows = "\nK-4 | 13.4-13.5 | 10.7 | 9.3 | 16\nK-5 | 13.5-13.6 | 10.6 | 9.3 | 20\nK-6 | 13.1-13.2 | 10.6 | 8.9 | 25"
	for name, test := range map[string]struct{ headings, rows, want string }{
		"sv":                             {"Art.nr | Ø mot klubba | Ø mot skaft | Hål | Längd", rows, "base_od=13.45[13.4..13.5] bore=9.3 length=16 top_od=10.7"},
		"de":                             {"Art.-Nr. | Ø zum Schläger | Ø zum Schaft | Bohrung | Länge", rows, "base_od=13.45[13.4..13.5] bore=9.3 length=16 top_od=10.7"},
		"it":                             {"Codice | Ø verso la testa | Ø verso la canna | Foro | Lunghezza", rows, "base_od=13.45[13.4..13.5] bore=9.3 length=16 top_od=10.7"},
		"en":                             {"Item | Ø towards the head | Ø towards the shaft | Bore | Length", rows, "base_od=13.45[13.4..13.5] bore=9.3 length=16 top_od=10.7"},
		"a word that is of no end":       {"Art.nr | Ø mot järnklubba | Ø mot skaft | Hål | Längd", rows, "base_od=13.45[13.4..13.5] bore=9.3 length=16 top_od=10.7"},
		"a kind of club":                 {"Réf. | Ø fer | Ø canne | Perçage | Longueur", rows, "base_od=13.45[13.4..13.5] bore=9.3 length=16 top_od=10.7"},
		"such a word over narrower ones": {"Art.nr | Ø mot järnklubba | Ø mot skaft | Hål | Längd", strings.NewReplacer("13.4-13.5", "10.5", "13.5-13.6", "10.6", "13.1-13.2", "10.4").Replace(rows), "held"},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", "Ferrules, mm | | | |\n"+test.headings+test.rows))
			defer show(t, c)
			if got := rowOf(t, c, "K-4"); !strings.Contains(got, test.want) {
				t.Errorf("%s, want %s", got, test.want)
			}
		})
	}
}
