package layout

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestTellings looks at the forms in which texts say one thing of parts.
func TestTellings(t *testing.T) {
	for name, c := range map[string]struct {
		text, want string
	}{
		"questions with their answers, German": {
			"Ring AB-10\n1) Für welche Spitze? .370\n2) Durchmesser unten? 13,6 mm\n3) Länge? 12 mm\n\nRing AB-11\n1) Für welche Spitze? .355\n2) Durchmesser unten? 13,1 mm\n3) Länge? 19 mm",
			"1 AB-10: Für welche Spitze=.370 Durchmesser unten=13,6 mm Länge=12 mm; 6 AB-11: Für welche Spitze=.355 Durchmesser unten=13,1 mm Länge=19 mm",
		},
		"questions above their answers": {
			"CD-54\nQ: What is the hosel OD?\nA: 13.6 mm\nQ: And the bore?\nA: 9.5 mm, drilled 35 mm deep\n\nCD-58\nQ: What is the hosel OD?\nA: 13.7 mm\nQ: And the bore?\nA: 9.5 mm, drilled 36 mm deep",
			"1 CD-54: What is the hosel OD=13.6 mm And the bore=9.5 mm drilled deep=35 mm; 7 CD-58: What is the hosel OD=13.7 mm And the bore=9.5 mm drilled deep=36 mm",
		},
		"labels above, Spanish": {
			"Referencia\nEF-1\nDiámetro exterior\n13,6 mm\nLargo\n12 mm\nPrecio\n0,75 €\n\nReferencia\nEF-2\nDiámetro exterior\n13,8 mm\nLargo\n16 mm\nPrecio\n0,85 €",
			"2 EF-1: Diámetro exterior=13,6 mm Largo=12 mm Precio=0,75 €; 11 EF-2: Diámetro exterior=13,8 mm Largo=16 mm Precio=0,85 €",
		},
		"marks of plain text, Italian": {
			"# Ghiere\n\n### GH-335\n- **Punta:** .335\n- **Base:** 12,2 mm\n- **Lunghezza:** 15 mm\n\n### GH-350\n- **Punta:** .350\n- **Base:** 12,6 mm\n- **Lunghezza:** 15 mm",
			"3 GH-335: Punta=.335 Base=12,2 mm Lunghezza=15 mm; 8 GH-350: Punta=.350 Base=12,6 mm Lunghezza=15 mm",
		},
		"a number of letters alone beside its like": {
			"IJ-6\nhosel 13.5 / bore 9.5 / depth 32\n\nIJ-SW\nhosel 13.8 / bore 9.5 / depth 35",
			"1 IJ-6: hosel=13.5 bore=9.5 depth=32; 4 IJ-SW: hosel=13.8 bore=9.5 depth=35",
		},
		"numbers in two pieces, French": {
			"VK 118  noire\n   base 13,7 mm; longueur 9 mm; 0,33 €\n\nVK 119  noire\n   base 13,7 mm; longueur 21 mm; 0,47 €",
			"1 VK 118: base=13,7 mm longueur=9 mm price=0,33 € description=noire; 4 VK 119: base=13,7 mm longueur=21 mm price=0,47 € description=noire",
		},
		"strokes, the last before a price, German": {
			"KL-81: Bohrung 8,9 / unten 13,0 / lang 10 / 0,40 €\nKL-82: Bohrung 8,9 / unten 13,0 / lang 15 / 0,45 €",
			"1 KL-81: Bohrung=8,9 unten=13,0 lang=10 price=0,40 €; 2 KL-82: Bohrung=8,9 unten=13,0 lang=15 price=0,45 €",
		},
		"a receipt": {
			"MN-31 TRIM RING\n.370 TIP 13.6 BASE 12MM LONG\n24 @ 0.55  13.20\nMN-34 TRIM RING\n.370 TIP 13.6 BASE 18MM LONG\n12 @ 0.70  8.40",
			"1 MN-31: TIP=.370 BASE=13.6 LONG=12MM price=0.55 description=TRIM RING; 4 MN-34: TIP=.370 BASE=13.6 LONG=18MM price=0.70 description=TRIM RING",
		},
		"places in an order, Polish": {
			"Poz. 1: główka PQ-52 (wedge)\n  hosel zewn. 13,7 mm; otwór 9,5 mm; głębokość 34 mm\nPoz. 2: główka PQ-56 (wedge)\n  hosel zewn. 13,7 mm; otwór 9,5 mm; głębokość 35 mm",
			"1 PQ-52: hosel zewn.=13,7 mm otwór=9,5 mm głębokość=34 mm description=(wedge); 3 PQ-56: hosel zewn.=13,7 mm otwór=9,5 mm głębokość=35 mm description=(wedge)",
		},
		"two sizes behind a label": {
			"Head RS-21\nHosel OD: 12.0 mm\nBore: 8.6 mm dia x 38 mm deep\nHead RS-22\nHosel OD: 12.0 mm\nBore: 8.6 mm dia x 39 mm deep",
			"1 RS-21: Hosel OD=12.0 mm Bore=8.6 mm deep=38 mm; 4 RS-22: Hosel OD=12.0 mm Bore=8.6 mm deep=39 mm",
		},
		"rands, a letter before them": {
			"Wedge head TU-52: hosel 13.7 mm outside and 75 mm long, bored 9.5 mm to a depth of 34 mm, R 395.00 each\nWedge head TU-60: hosel 13.7 mm outside and 78 mm long, bored 9.5 mm to a depth of 34 mm, R 410.00 each",
			"1 TU-52: hosel=13.7 mm long=75 mm bored=9.5 mm to a depth of=34 mm price=R 395.00 each; 2 TU-60: hosel=13.7 mm long=78 mm bored=9.5 mm to a depth of=34 mm price=R 410.00 each",
		},
	} {
		if diff := cmp.Diff(c.want, plainly(strings.Split(c.text, "\n"))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}
