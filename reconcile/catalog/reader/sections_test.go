package reader_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestSectionsOfTwoKinds reads a count with heads and ferrules in sections of their own, all sizes in the descriptions, below headings that name
// none and so fit both.
func TestSectionsOfTwoKinds(t *testing.T) {
	for name, test := range map[string]struct{ heads, ferrules, headings, head, ferrule string }{
		"tr": {"KAFALAR", "YÜKSÜKLER", "Stok kodu | Açıklama | Sayılan adet", "Demir kafa 5 numara, boyun dış çapı 13,5 mm, delik çapı 9,5 mm, delik derinliği 34 mm", "Siyah yüksük, iç çap 9,3 mm, taban dış çapı 13,6 mm, boy 25 mm"},
		"en": {"HEADS", "FERRULES", "Stock code | Description | Counted", "Iron head no. 5, hosel OD 13.5 mm, bore 9.5 mm, bore depth 34 mm", "Black ferrule, bore 9.3 mm, base OD 13.6 mm, length 25 mm"},
		"de": {"Köpfe", "Zierringe", "Artikelnummer | Bezeichnung | Bestand", "Eisenkopf 5, Hosel-Außendurchmesser 13,5 mm, Bohrung 9,5 mm, Bohrtiefe 34 mm", "Zierring schwarz, Bohrung 9,3 mm, Außendurchmesser unten 13,6 mm, Länge 25 mm"},
		"fr": {"TÊTES", "VIROLES", "Référence | Désignation | Stock", "Tête de fer 5, Ø extérieur du col 13,5 mm, perçage 9,5 mm, profondeur de perçage 34 mm", "Virole noire, alésage 9,3 mm, Ø bas 13,6 mm, longueur 25 mm"},
		// Of the title above the heads nothing is known.
		"an unknown title": {"What Aoife counted", "FERRULES", "Stock code | Description | Counted", "Iron head no. 5, hosel OD 13.5 mm, bore 9.5 mm, bore depth 34 mm", "Black ferrule, bore 9.3 mm, base OD 13.6 mm, length 25 mm"},
	} {
		t.Run(name, func(t *testing.T) {
			var lines []string
			section := func(title, description string, parts ...string) {
				lines = append(lines, " | | ", title+" | | ", test.headings)
				for _, part := range parts {
					lines = append(lines, part+" | "+description+" | 24")
				}
			}
			section(test.heads, test.head, "SK-1", "SK-2", "SK-3")
			section(test.ferrules, test.ferrule, "SY-1", "SY-2", "SY-3")
			c := read(t, grid("Count", strings.Join(lines, "\n")))
			defer show(t, c)
			if len(c.Tables) != 2 {
				t.Errorf("%d tables, want one of heads and one of ferrules", len(c.Tables))
			}
			if got := rowOf(t, c, "SK-2"); !strings.Contains(got, "bore=9.5 bore_depth=34") || !strings.Contains(got, "hosel_od=13.5") {
				t.Errorf("%s, want the sizes of a head", got)
			}
			if got := rowOf(t, c, "SY-2"); !strings.Contains(got, "base_od=13.6 bore=9.3") || !strings.Contains(got, "length=25") {
				t.Errorf("%s, want the sizes of a ferrule", got)
			}
		})
	}
}

// TestMarkedTitles reads the tips of titles with signs about or before them, which a footnote may have too.
func TestMarkedTitles(t *testing.T) {
	for titles, want := range map[string]string{
		"* PARA HIERRO (.370) * / * PARA MADERA (.335) *":     ".370 parallel / .335 parallel",
		"*Eisen .370* / *Holz .335*":                          ".370 parallel / .335 parallel",
		"* * * Irons .370 * * * / * * * Woods .335 * * *":     ".370 parallel / .335 parallel",
		"※アイアン用 .370 / ※ウッド用 .335":                            ".370 parallel / .335 parallel",
		"† Fers .370 † / † Bois .335 †":                       ".370 parallel / .335 parallel",
		"* Pour fers (.370) / * Pour bois (.335)":             ".370 parallel / .335 parallel",
		"1) Irons .370 / 2) Woods .335":                       ".370 parallel / .335 parallel",
		"=== Irons .370 === / » Woods .335 «":                 ".370 parallel / .335 parallel",
		"Irons .370 / * .355 irons out until June":            ".370 parallel / .370 parallel", // a remark
		"Irons .370 / * for .355 taper with another new bore": ".370 parallel / .370 parallel",
	} {
		t.Run(titles, func(t *testing.T) {
			first, second, _ := strings.Cut(titles, " / ")
			c := read(t, grid("Rings", "Ferrules, sizes in mm | | | | |\n | | | | |\nPart | Finish | Base OD | Top OD | Length | Price\n"+first+" | | | | |\n"+
				"RB-70 | black | 13.5 | 10.4 | 20 | 0.45\nRB-72 | black, long | 13.5 | 10.4 | 30 | 0.55\n"+second+" | | | | |\n"+
				"RB-30 | black | 12 | 9.5 | 20 | 0.42\nRB-33 | black, silver edge | 12 | 9.5 | 25 | 0.85"))
			defer show(t, c)
			var got []string
			for _, part := range []string{"RB-72", "RB-33"} {
				got = append(got, ferruleOf(t, c, part).Ferrule.ForTip.String())
			}
			if diff := cmp.Diff(want, strings.Join(got, " / ")); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}
