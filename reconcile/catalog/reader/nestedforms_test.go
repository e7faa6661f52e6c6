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
