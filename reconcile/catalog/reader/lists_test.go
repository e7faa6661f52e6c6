package reader_test

import (
	"strings"
	"testing"
)

// TestListsInDescriptions reads lists of sizes in some of the descriptions of a column, where a sentence says their order, and leaves open what
// stands in the wrong one.
func TestListsInDescriptions(t *testing.T) {
	for name, test := range map[string]struct{ above, heading, ferrule, glue, tape string }{
		"es": {"Los casquillos se describen así: diámetro base x diámetro taladro x largo, todo en milímetros", "Código | Artículo | Precio ud. EUR", "Casquillo negro ", "Adhesivo epoxi 2 x 50 ml", "Cinta doble cara 48 mm x 33 m"},
		"en": {"Ferrules are described as base OD x bore x length, all in mm", "Code | Description | Unit price EUR", "Black ferrule ", "Epoxy adhesive 2 x 50 ml", "Grip tape 48 mm x 33 m"},
		"de": {"Zwingen: Außendurchmesser x Bohrung x Länge, alle Maße in mm", "Artikelnummer | Bezeichnung | Preis EUR", "Zwinge schwarz ", "Epoxidkleber 2 x 50 ml", "Griffband 48 mm x 33 m"},
		"fr": {"Viroles : diamètre extérieur x alésage x longueur, toutes cotes en mm", "Référence | Désignation | Prix EUR", "Virole noire ", "Colle époxy 2 x 50 ml", "Ruban 48 mm x 33 m"},
		"zh": {"套环规格：外径 x 内径 x 长度，单位mm", "编号 | 品名 | 单价", "黑色套环 ", "环氧胶 2 x 50 ml", "双面胶带 48 mm x 33 m"},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Liste", test.above+"\n"+test.heading+"\n"+
				"AR-60112 | "+test.ferrule+"13.5 x 9.25 x 19 | 0.48\n"+
				"AR-60113 | "+test.ferrule+"13.5 x 9.25 x 25 | 0.52\n"+
				"AR-60131 | "+test.ferrule+"13.0 x 19 x 8.85 | 0.48\n"+
				"AR-60140 | "+test.ferrule+"12.0 x 8.4 x 16 | 0.45\n"+
				"AR-80005 | "+test.glue+" | 9.80\nAR-80021 | "+test.tape+" | 7.25"))
			defer func() {
				if t.Failed() {
					show(t, c)
				}
			}()
			for part, want := range map[string]string{
				"AR-60112": "base_od=13.5 bore=9.25 ", "AR-60140": "length=16 ", "AR-60131": "base_od=13 bore=\"?? ",
			} {
				if got := rowOf(t, c, part); !strings.Contains(got, "used "+part) || !strings.Contains(got, want) {
					t.Errorf("%s, want %s", got, want)
				}
			}
			if got := rowOf(t, c, "AR-60131"); !strings.Contains(got, "{open bore} {open length}") {
				t.Errorf("%s: two sizes are in each other's place", got)
			}
			if n := len(c.Ferrules); n != 4 {
				t.Errorf("%d ferrules, want 4: glue and tape are none", n)
			}
		})
	}
}
