package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
)

// TestMarkedLetters reads tips that a list gives by letters and a footnote below it explains, with the list upright and on its side.
func TestMarkedLetters(t *testing.T) {
	for name, sheet := range map[string]string{
		"on its side": `
Parts No. | IK-51 | IK-52 | IK-71 | IK-72
Neck Outer Diameter (mm) | 13.3 | 13.3 | 13.6 | 13.6
Hole Diameter (mm) | 9.1 | 9.1 | 9.5 | 9.5
Shaft Type (*1) | T | T | P | P
Stock | 40 | 36 | 18 | 24
(*1) T = .355 taper tip,  P = .370 parallel tip`,
		"upright, a mark of reference": `
品番 | ネック外径(mm) | 穴径(mm) | シャフト※1 | 在庫
IK-51 | 13.3 | 9.1 | T | 40
IK-52 | 13.3 | 9.1 | T | 36
IK-71 | 13.6 | 9.5 | P | 18
IK-72 | 13.6 | 9.5 | P | 24
※1 T＝.355テーパー、P＝.370パラレル`,
		"upright, raised": `
Artikelnr. | Hosel-Ø (mm) | Bohrung (mm) | Schaftspitze¹⁾ | Bestand
IK-51 | 13,3 | 9,1 | T | 40
IK-52 | 13,3 | 9,1 | T | 36
IK-71 | 13,6 | 9,5 | P | 18
IK-72 | 13,6 | 9,5 | P | 24
¹⁾ T = .355 konisch, P = .370 zylindrisch`,
		"a word with a number, on its side": `
Artikelnr | IK-51 | IK-52 | IK-71 | IK-72
Hosel-Ø utv. (mm) | 13,3 | 13,3 | 13,6 | 13,6
Borrhål (mm) | 9,1 | 9,1 | 9,5 | 9,5
Skaftspets (anm. 1) | T | T | P | P
Lager | 40 | 36 | 18 | 24
Anm. 1: T = .355 konisk, P = .370 parallell`,
		"two notes of the same letters": `
Réf. | Ø ext. hosel (mm) | Perçage (mm) | Tip a) | Finition b) | Stock
IK-51 | 13,3 | 9,1 | T | P | 40
IK-52 | 13,3 | 9,1 | T | P | 36
IK-71 | 13,6 | 9,5 | P | T | 18
IK-72 | 13,6 | 9,5 | P | T | 24
a) T = .355 conique, P = .370 parallèle
b) P = poli, T = brut`,
	} {
		t.Run(name, func(t *testing.T) {
			c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", grid("Spec", sheet))}}, reader.Options{})
			defer show(t, c)
			got := map[string]string{}
			for _, table := range c.Tables {
				for _, row := range table.Rows {
					if row.Part != "" {
						got[row.Part] = row.Fields.Text(catalog.TipTaken)
					}
				}
			}
			for part, want := range map[string]string{"IK-51": ".355", "IK-52": ".355", "IK-71": ".370", "IK-72": ".370"} {
				if len(got[part]) < len(want) || got[part][:len(want)] != want {
					t.Errorf("%s: %q, want %s", part, got[part], want)
				}
			}
		})
	}
}
