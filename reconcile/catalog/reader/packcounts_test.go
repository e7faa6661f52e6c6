package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog/reader"
)

// Where one column says how many pieces are in a pack, another one may count the packs.
func TestCountsOfPacksBeside(t *testing.T) {
	const rows = "\nF-1 | 9.35 | 13.6 | 19 | 20 | 24 | 9.60\nF-2 | 9.35 | 13.8 | 25 | 15 | 24 | 9.60\nF-3 | 9.35 | 13.8 | 25 | 8 | 12 | 4.80"
	for _, headings := range []string{
		"Réf. | Trou | Ø bas | Long. | Nb sachets | Pièces par sachet | € HT le sachet",
		"Part | ID (mm) | OD (mm) | Length (mm) | Bags | Pcs/bag | Price per bag",
		"Part | ID (mm) | OD (mm) | Length (mm) | No. of bags | Pcs per bag | Price per bag",
		"Teil | Bohrung | Ø unten | Länge | Packungen | Inhalt Packung | Preis/Packung",
		"Artikel | Gat | Ø onder | Lengte | Aantal zakjes | Stuks per zakje | Prijs per zakje",
		"品番 | 内径 | 下外径 | 長さ | 袋数 | 1袋入数 | 1袋価格",
	} {
		got := reader.Read([]reader.Input{{Book: book("orrin.csv", grid("", "Ferrules, mm\n"+headings+rows))}}, reader.Options{})
		if len(got.Ferrules) != 3 || got.Ferrules[0].Pack != 24 || got.Ferrules[2].Pack != 12 {
			t.Errorf("%s: %+v", headings, got.Ferrules)
		}
	}
}
