package words_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog/words"
)

func TestAccessory(t *testing.T) {
	v := words.Load()
	for text, want := range map[string]bool{
		"Weight screw 8 g": true, "Screw for driver head": true, "10 g weight": true, "Driver adapter .335": true, "Torque wrench": true, "Steel shaft .370": true, "Medallion, sole": true,
		"Gewichtsschraube 8 g": true, "Schraube für Driverkopf": true, "Zubehör": true, "Vis de lestage": true, "Goupille": true, "Tornillo M5": true, "Contrapesos 10 g": true,
		"Vite per adattatore": true, "Medaglione fondo": true, "Parafuso do peso": true, "Schroef M5": true, "Skruv till adapter": true, "Skrue": true, "Ruuvi M5": true, "Śruba ciężarka": true,
		"Šroub M5": true, "Ağırlık vidası": true, "Ốc vít": true, "สกรู": true, "ウェイトスクリュー": true, "ドライバー用ウェイト": true, "ウェイト 10g": true, "무게추 10g": true, "螺丝": true,
		"配重块 10克": true, "螺絲": true, "徽章": true,

		"Iron 7, weight 268 g, RH": false, "Driver head with weight": false, "Forged iron head, pin sole": false, "Eisen 7 geschmiedet": false, "Kopf mit Gewicht": false, "Wedge 56": false,
		"Pinnacle 7": false, "Fer 7": false, "": false, "Weighted iron 7": false,
	} {
		if _, got := v.Accessory(text); got != want {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}
