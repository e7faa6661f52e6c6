package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// A note says in which order sizes stand between different signs, and all of them are taken; a text that lists others is left open with a word.
func TestListsWithDifferentSigns(t *testing.T) {
	want := sizes{catalog.BaseOD: 13.5, catalog.TopOD: 10.8, catalog.Bore: 9.3, catalog.Length: 19}
	for note, list := range map[string]string{
		"Description reads: tip, base dia / top dia / bore x length (mm), colour.":         "13.5/10.8/9.3 x 19",
		"Description: base * top / bore - length":                                          "13.5*10.8/9.3-19",
		"Bezeichnung: Spitze, Ø unten/Ø oben/Bohrung x Länge (mm), Farbe":                  "13,5/10,8/9,3 x 19",
		"Désignation : longueur × Ø base / Ø haut / alésage (mm)":                          "19 × 13,5/10,8/9,3",
		"Descripción: diámetro base / diámetro superior / agujero x largo en mm, en orden": "13.5 10.8 9.3 19",
	} {
		t.Run(note, func(t *testing.T) {
			sheet := note + "\nRef | Description | Price EUR\n"
			for _, row := range []string{"F-1 | Ferrule LIST black", "F-2 | Ferrule LIST brown", "F-3 | Ferrule LIST red", "F-4 | Ferrule 13.5/9.3 x 19 black"} {
				sheet += strings.ReplaceAll(row, "LIST", list) + " | 0.45\n"
			}
			c := read(t, grid("Ferrules", strings.TrimSpace(sheet)))
			defer show(t, c)
			wantRow(t, c, "F-1", catalog.Assumed, want)
			wantFinding(t, c, "data.unreadable", "B6", "lists other sizes than the 4 of most texts")
		})
	}
}
