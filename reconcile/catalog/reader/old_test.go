package reader_test

import (
	"strings"
	"testing"
)

// TestBlankBesideOld takes the old value where the new one is blank, in its own unit, and asks where a note says something else of blank cells.
func TestBlankBesideOld(t *testing.T) {
	for name, one := range map[string]struct{ title, headings, second string }{
		"no note":             {"Heads", "Part No | Hosel OD old (mm) | Hosel OD new (mm) | Bore (mm)", "assumed TW-2 bore=9.5 hosel_od=13.5 {"},
		"the old stays":       {"Blank: no change", "Part No | Hosel OD old (mm) | Hosel OD new (mm) | Bore (mm)", "assumed TW-2 bore=9.5 hosel_od=13.5 {"},
		"made no more":        {"Blank: discontinued", "Part No | Hosel OD old (mm) | Hosel OD new (mm) | Bore (mm)", "held TW-2"},
		"before the new one":  {"Heads", "Part No | Hosel OD was (mm) | Hosel OD (mm) | Bore (mm)", "assumed TW-2 bore=9.5 hosel_od=13.5 {"},
		"a word that is also": {"Köpfe", "Art.-Nr. | Hosel-Außen-Ø alt (mm) | Hosel-Außen-Ø neu (mm) | Bohrung (mm)", "assumed TW-2 bore=9.5 hosel_od=13.5 {"},
		"in another unit":     {"Heads", "Part No | Hosel OD old (in) | Hosel OD new (mm) | Bore (mm)", "held TW-2"},
	} {
		t.Run(name, func(t *testing.T) {
			old := "13.5"
			if strings.Contains(one.headings, "(in)") {
				old = ".531"
			}
			c := read(t, grid("Heads", one.title+" | | |\n"+one.headings+"\nTW-1 | "+old+" | 13.6 | 9.5\nTW-2 | "+old+" | | 9.5\nTW-3 | "+old+" | 13.4 | 9.5"))
			defer show(t, c)
			if got := rowOf(t, c, "TW-2"); !strings.Contains(got, one.second) {
				t.Errorf("%s, want %s", got, one.second)
			}
		})
	}
}

// TestBeforeAndAfter takes the sizes after a change in groups of two columns, whichever unit the word for it is in another language.
func TestBeforeAndAfter(t *testing.T) {
	const rows = "\nTW-1 | 14.2 | 13.5 | 9.05 | 9.5\nTW-2 | 14.2 | 13.5 | 9.05 | 9.5\nTW-3 | 14.3 | 13.6 | 9.05 | 9.5"
	for name, headings := range map[string]string{
		"en": "Heads, mm | | | |\nHead no. | Hosel OD | | Bore |\n | before | after | before | after",
		"cs": "Hlavy, rozměry v mm | | | |\nČíslo hlavy | Vnější průměr krku | | Průměr otvoru |\n | před | po | před | po",
		"pl": "Główki, wymiary w mm | | | |\nNr główki | Średnica zewnętrzna szyjki | | Średnica otworu |\n | przed | po | przed | po",
		"de": "Köpfe, Maße in mm | | | |\nArtikelnr. | Außendurchmesser | | Bohrung |\n | vor | nach | vor | nach",
		"sv": "Huvuden, mått i mm | | | |\nArtikelnr | Ytterdiameter hosel | | Håldiameter |\n | före | efter | före | efter",
		"fr": "Têtes, cotes en mm | | | |\nRéférence | Ø extérieur hosel | | Alésage |\n | avant | après | avant | après",
		"ja": "ヘッド 寸法 mm | | | |\n品番 | ホーゼル外径 | | 穴径 |\n | 加工前 | 加工後 | 加工前 | 加工後",
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", headings+rows))
			defer show(t, c)
			if got := rowOf(t, c, "TW-3"); !strings.Contains(got, "bore=9.5 hosel_od=13.6") {
				t.Errorf("%s, want what is after", got)
			}
		})
	}
}
