package reader_test

import (
	"strings"
	"testing"
)

// TestNestedForms reads forms whose labels say only below a title what they are, indented or not.
func TestNestedForms(t *testing.T) {
	for name, test := range map[string]struct{ sheet, part, want string }{
		"en indented": {"Data sheet for approval | |\n | |\nArticle no. | JP-701 |\nArticle name | Iron no. 7 |\nHOSEL | |\n | Outside diameter | 13.5 mm\n | Length | 66 mm\nBORE | |\n | Diameter | 9.5 mm\n | Depth | 32 mm\nUnit price USD | | 6.80\nSignature of customer | |",
			"JP-701", "bore=9.5 bore_depth=32"},
		"en below titles": {"Data sheet for approval | |\n | |\nArticle no. | JP-701 |\nArticle name | Iron no. 7 |\nHosel | |\nOutside diameter | 13.5 mm |\nLength | 66 mm |\nBore | |\nDiameter | 9.5 mm |\nDepth | 32 mm |",
			"JP-701", "bore=9.5 bore_depth=32"},
		"de indented": {"Datenblatt Kopf | |\n | |\nArtikelnummer | JP-701 |\nBezeichnung | Eisen 7 |\nHosel | |\n | Außendurchmesser | 13,5 mm\n | Länge | 66 mm\nBohrung | |\n | Durchmesser | 9,5 mm\n | Tiefe | 32 mm",
			"JP-701", "bore=9.5 bore_depth=32"},
		"fr indented": {"Fiche de tête | |\n | |\nRéférence | JP-701 |\nDésignation | Fer 7 |\nHosel | |\n | Diamètre extérieur | 13,5 mm\n | Longueur | 66 mm\nAlésage | |\n | Diamètre | 9,5 mm\n | Profondeur | 32 mm",
			"JP-701", "bore=9.5 bore_depth=32"},
		"zh indented": {"球头资料 | |\n | |\n品号 | JP-701 |\n品名 | 7号铁 |\n插孔 | |\n | 直径 | 9.5 mm\n | 深度 | 32 mm\n颈部 | |\n | 外径 | 13.5 mm\n | 长度 | 66 mm",
			"JP-701", "bore=9.5 bore_depth=32"},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Form", test.sheet))
			defer show(t, c)
			if got := rowOf(t, c, test.part); !strings.Contains(got, test.want) || !strings.Contains(got, "hosel_length=66") || !strings.Contains(got, "hosel_od=13.5") {
				t.Errorf("%s, want %s", got, test.want)
			}
		})
	}
}

// TestFormsToCutOut reads small forms beside and below each other, with a blank column between: labels for a shelf. The last line has fewer.
func TestFormsToCutOut(t *testing.T) {
	for language, labels := range map[string][5]string{
		"sv": {"Hylletiketter, klipp ut", "Artikelnr", "Hosel utv. diameter", "Hål", "Pris"},
		"de": {"Regaletiketten", "Artikelnr.", "Außen-Ø Hosel", "Bohrung", "Preis"},
		"fi": {"Hyllylaput", "Tuotenro", "Hosel ulkohalkaisija", "Reikä", "Hinta"},
		"fr": {"Étiquettes", "Référence", "Diamètre extérieur hosel", "Alésage", "Prix"},
		"ja": {"棚札", "品番", "ホーゼル外径", "内径", "価格"},
	} {
		t.Run(language, func(t *testing.T) {
			lines := []string{labels[0] + " | | | |", " | | | |"}
			for _, forms := range [][2]string{{"LA-1", "LA-2"}, {"LA-3", "LA-4"}, {"LA-5", ""}} {
				for i, values := range [][2]string{forms, {"13,5 mm", "13,6 mm"}, {"9,5 mm", "9,06 mm"}, {"289", "315"}} {
					line := labels[i+1] + " | " + values[0] + " | | "
					if forms[1] != "" {
						line += labels[i+1] + " | " + values[1]
					}
					lines = append(lines, line)
				}
				lines = append(lines, " | | | |")
			}
			c := read(t, grid("Labels", strings.Join(lines, "\n")))
			defer show(t, c)
			for part, want := range map[string]string{
				"LA-1": "bore=9.5 hosel_od=13.5", "LA-2": "bore=9.06 hosel_od=13.6", "LA-3": "bore=9.5 hosel_od=13.5",
				"LA-4": "bore=9.06 hosel_od=13.6", "LA-5": "bore=9.5 hosel_od=13.5",
			} {
				if got := rowOf(t, c, part); !strings.Contains(got, want) {
					t.Errorf("%s, want %s", got, want)
				}
			}
		})
	}
}
