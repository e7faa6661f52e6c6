package reader_test

import (
	"fmt"
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

// TestFourSizesInDescriptions reads lists of all four sizes of ferrules, in the order that a line says, however that line and the lists are written,
// or in the one that is possible.
func TestFourSizesInDescriptions(t *testing.T) {
	const list = "%s\nKF-11 | %s | 600\nKF-12 | %s | 1150\nKF-13 | %s | 75\nKF-14 | %s | 40"
	for name, test := range map[string]struct{ above, name, between, order string }{
		"es, signs":       {"Medidas en la descripción: Ø base x Ø punta x Ø agujero x largo, todo en mm\nCódigo | Descripción | Existencia", "Casquillo negro", " x ", "base top bore length"},
		"de, slashes":     {"Hülsen. Maße in der Bezeichnung: Fuß/Spitze/Bohrung/Länge in mm\nArtikel | Bezeichnung | Bestand", "Hülse schwarz", "/", "base top bore length"},
		"en, commas":      {"Sizes in the description are length, bore, base and top, in mm\nPart | Description | Stock", "Ferrule black", "x", "length bore base top"},
		"fr, none said":   {"Cotes en mm\nRéf | Désignation | Stock", "Bague noire", " x ", "bore base top length"},
		"ja, none, signs": {"単位mm\n品番 | 品名 | 在庫", "ソケット 黒", "×φ", "base top bore length"},
	} {
		t.Run(name, func(t *testing.T) {
			line := func(sizes ...string) string {
				of := map[string]string{}
				for i, size := range []string{"base", "top", "bore", "length"} {
					of[size] = sizes[i]
				}
				var all []string
				for _, size := range strings.Fields(test.order) {
					all = append(all, of[size])
				}
				return test.name + " " + strings.Join(all, test.between)
			}
			c := read(t, grid("List", fmt.Sprintf(list, test.above, line("13.5", "10.8", "9.3", "19"), line("13.5", "10.8", "9.3", "25"), line("13.8", "11", "9.35", "32"), line("12.2", "9.9", "8.4", "16"))))
			defer show(t, c)
			if got := rowOf(t, c, "KF-13"); !strings.Contains(got, "base_od=13.8 bore=9.35") || !strings.Contains(got, "length=32") || !strings.Contains(got, "top_od=11") {
				t.Error(got)
			}
		})
	}
}
