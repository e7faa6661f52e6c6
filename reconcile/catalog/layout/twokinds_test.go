package layout

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// tablesOfLetter are the tables that are made of a letter, each with its parts and what is said of them, one below the other.
func tablesOfLetter(lines ...string) string {
	var rows [][]string
	for _, line := range lines {
		rows = append(rows, []string{line})
	}
	var tables []string
	for _, r := range items(grid.New(sheettest.Texts("letter", rows, false)), lexicon.New(nil)) {
		var parts []string
		for line := r.Body; line <= r.To; line++ {
			if part := said(&r, line); part != "" {
				parts = append(parts, part)
			}
		}
		tables = append(tables, strings.Join(parts, "; "))
	}
	return strings.Join(tables, "\n")
}

// TestLettersOfTwoKinds looks at letters in whole sentences, in several languages, that speak of heads and then of ferrules, with a title between, a
// sentence, or nothing.
func TestLettersOfTwoKinds(t *testing.T) {
	for language, lines := range map[string][]string{
		"pt": {
			"Cabeças de ferro:",
			"A LM-5 tem hosel de 13.5 mm por fora e furo de 9.5 mm com 33 mm de fundo; custa 21,50 €.",
			"A LM-6 tem hosel de 13.6 mm por fora e furo de 9.5 mm com 34 mm de fundo; custa 21,50 €.",
			"",
			"Virolas:",
			"A VR-1 tem furo de 9.3 mm, base de 13.6 mm, ponta de 10.5 mm e comprimento de 25 mm; custa 0,48 €.",
			"A VR-2 tem furo de 8.9 mm, base de 13.2 mm, ponta de 10.2 mm e comprimento de 19 mm; custa 0,48 €.",
		},
		"en, without a title": {
			"The LM-5 has a hosel of 13.5 mm outside and a bore of 9.5 mm with a depth of 33 mm; it costs £21.50.",
			"The LM-6 has a hosel of 13.6 mm outside and a bore of 9.5 mm with a depth of 34 mm; it costs £21.50.",
			"As for the ferrules, the VR-1 has a hole of 9.3 mm, a base of 13.6 mm, a tip of 10.5 mm and a length of 25 mm; it costs £0.48.",
			"The VR-2 has a hole of 8.9 mm, a base of 13.2 mm, a tip of 10.2 mm and a length of 19 mm; it costs £0.48.",
		},
		"de": {
			"Eisenköpfe:",
			"Der LM-5 hat einen Hosel von 13.5 mm außen und eine Bohrung von 9.5 mm bei 33 mm Tiefe; er kostet 21,50 €.",
			"Der LM-6 hat einen Hosel von 13.6 mm außen und eine Bohrung von 9.5 mm bei 34 mm Tiefe; er kostet 21,50 €.",
			"Und nun die Zierringe.",
			"Der VR-1 hat eine Bohrung von 9.3 mm, unten 13.6 mm, oben 10.5 mm und eine Länge von 25 mm; er kostet 0,48 €.",
			"Der VR-2 hat eine Bohrung von 8.9 mm, unten 13.2 mm, oben 10.2 mm und eine Länge von 19 mm; er kostet 0,48 €.",
		},
		"fr": {
			"Têtes :",
			"La LM-5 a un hosel de 13.5 mm à l'extérieur et un perçage de 9.5 mm avec 33 mm de profondeur ; elle coûte 21,50 €.",
			"La LM-6 a un hosel de 13.6 mm à l'extérieur et un perçage de 9.5 mm avec 34 mm de profondeur ; elle coûte 21,50 €.",
			"Viroles :",
			"La VR-1 a un trou de 9.3 mm, une base de 13.6 mm, une pointe de 10.5 mm et une longueur de 25 mm ; elle coûte 0,48 €.",
			"La VR-2 a un trou de 8.9 mm, une base de 13.2 mm, une pointe de 10.2 mm et une longueur de 19 mm ; elle coûte 0,48 €.",
		},
		"it": {
			"Teste:",
			"La LM-5 ha un hosel di 13.5 mm all'esterno e un foro di 9.5 mm con 33 mm di profondità; costa 21,50 €.",
			"La LM-6 ha un hosel di 13.6 mm all'esterno e un foro di 9.5 mm con 34 mm di profondità; costa 21,50 €.",
			"Ghiere:",
			"La VR-1 ha un foro di 9.3 mm, base di 13.6 mm, punta di 10.5 mm e lunghezza di 25 mm; costa 0,48 €.",
			"La VR-2 ha un foro di 8.9 mm, base di 13.2 mm, punta di 10.2 mm e lunghezza di 19 mm; costa 0,48 €.",
		},
		"es": {
			"Cabezas:",
			"La LM-5 tiene un hosel de 13.5 mm por fuera y un agujero de 9.5 mm con 33 mm de fondo; cuesta 21,50 €.",
			"La LM-6 tiene un hosel de 13.6 mm por fuera y un agujero de 9.5 mm con 34 mm de fondo; cuesta 21,50 €.",
			"Férulas:",
			"La VR-1 tiene agujero de 9.3 mm, base de 13.6 mm, punta de 10.5 mm y largo de 25 mm; cuesta 0,48 €.",
			"La VR-2 tiene agujero de 8.9 mm, base de 13.2 mm, punta de 10.2 mm y largo de 19 mm; cuesta 0,48 €.",
		},
		"nl": {
			"Koppen:",
			"De LM-5 heeft een hosel van 13.5 mm buiten en een boring van 9.5 mm met 33 mm diepte; hij kost € 21,50.",
			"De LM-6 heeft een hosel van 13.6 mm buiten en een boring van 9.5 mm met 34 mm diepte; hij kost € 21,50.",
			"Sierringen:",
			"De VR-1 heeft een gat van 9.3 mm, een onderkant van 13.6 mm, een bovenkant van 10.5 mm en een lengte van 25 mm; hij kost € 0,48.",
			"De VR-2 heeft een gat van 8.9 mm, een onderkant van 13.2 mm, een bovenkant van 10.2 mm en een lengte van 19 mm; hij kost € 0,48.",
		},
		"sv": {
			"Huvuden:",
			"LM-5 har en hosel på 13.5 mm utvändigt och ett hål på 9.5 mm med 33 mm djup; den kostar 21,50 kr.",
			"LM-6 har en hosel på 13.6 mm utvändigt och ett hål på 9.5 mm med 34 mm djup; den kostar 21,50 kr.",
			"Ferruler:",
			"VR-1 har ett hål på 9.3 mm, en bas på 13.6 mm, en topp på 10.5 mm och en längd på 25 mm; den kostar 0,48 kr.",
			"VR-2 har ett hål på 8.9 mm, en bas på 13.2 mm, en topp på 10.2 mm och en längd på 19 mm; den kostar 0,48 kr.",
		},
		"da": {
			"Hoveder:",
			"LM-5 har en hosel på 13.5 mm udvendigt og et hul på 9.5 mm med 33 mm dybde; den koster 21,50 kr.",
			"LM-6 har en hosel på 13.6 mm udvendigt og et hul på 9.5 mm med 34 mm dybde; den koster 21,50 kr.",
			"Pynteringe:",
			"VR-1 har et hul på 9.3 mm, en base på 13.6 mm, en top på 10.5 mm og en længde på 25 mm; den koster 0,48 kr.",
			"VR-2 har et hul på 8.9 mm, en base på 13.2 mm, en top på 10.2 mm og en længde på 19 mm; den koster 0,48 kr.",
		},
		"pl": {
			"Główki:",
			"LM-5 ma hosel 13.5 mm na zewnątrz i otwór 9.5 mm o głębokości 33 mm; kosztuje 21,50 zł.",
			"LM-6 ma hosel 13.6 mm na zewnątrz i otwór 9.5 mm o głębokości 34 mm; kosztuje 21,50 zł.",
			"Skuwki:",
			"VR-1 ma otwór 9.3 mm, podstawę 13.6 mm, górę 10.5 mm i długość 25 mm; kosztuje 0,48 zł.",
			"VR-2 ma otwór 8.9 mm, podstawę 13.2 mm, górę 10.2 mm i długość 19 mm; kosztuje 0,48 zł.",
		},
	} {
		got := tablesOfLetter(lines...)
		for _, unit := range []string{" €", " kr", " zł", "€ ", "£"} {
			got = strings.ReplaceAll(got, unit, "")
		}
		got = strings.NewReplacer(",", ".", " top=", " top_od=").Replace(got) // "oben" and "top" alone name no size of ferrules only
		tables := strings.Split(got, "\n")
		want := [][]string{
			{"LM-5: ", "hosel_od=13.5 mm", "bore=9.5 mm", "bore_depth=33 mm", "price=21.50", "LM-6: ", "hosel_od=13.6 mm", "bore_depth=34 mm"},
			{"VR-1: ", "bore=9.3 mm", "base_od=13.6 mm", "top_od=10.5 mm", "length=25 mm", "price=0.48", "VR-2: ", "bore=8.9 mm", "base_od=13.2 mm", "top_od=10.2 mm", "length=19 mm"},
		}
		if len(tables) != len(want) {
			t.Errorf("%s: %d tables, want %d:\n%s", language, len(tables), len(want), got)
			continue
		}
		for i, words := range want {
			rest := tables[i]
			for _, word := range words {
				if !strings.Contains(rest, word) {
					t.Errorf("%s: no %q in %s", language, word, tables[i])
				}
			}
			if strings.Contains(rest, "description") {
				t.Errorf("%s: words that lead to sizes are taken for a description: %s", language, tables[i])
			}
		}
	}
}

// TestLettersOfOneKind looks at letters that name the other kind in passing, or divide parts of one kind by titles: they stay one table.
func TestLettersOfOneKind(t *testing.T) {
	heads := []string{"X-1: hosel 13.5, bore 9.5, 32 deep", "X-2: hosel 13.6, bore 9.5, 32 deep", "X-3: hosel 13.6, bore 9.5, 33 deep", "X-4: hosel 13.7, bore 9.5, 33 deep"}
	for _, between := range []string{"The ferrules are extra.", "Wedge heads:", "And what ferrules do you want for these?", "Ferrules:"} {
		lines := append(append([]string{"Our iron heads:"}, heads[:2]...), append([]string{between}, heads[2:]...)...)
		if got := tablesOfLetter(lines...); strings.Contains(got, "\n") || strings.Count(got, "X-") != 4 {
			t.Errorf("%q between:\n%s\nwant one table", between, got)
		}
	}
}

// TestThinEnd looks at what "tip" means of ferrules: their thin end where no shaft has such a tip and it is between bore and base, and else nothing more.
func TestThinEnd(t *testing.T) {
	for text, want := range map[string]string{
		"bore 9.3 mm, base 13.6 mm, a tip of 10.5 mm, 25 mm long":      "top_od=10.5 mm",
		"a tip of 10.5 mm, base 13.6 mm, 25 mm long":                   "top_od=10.5 mm",
		"base 13.6 mm, tip .370, 25 mm long":                           "",
		"base 13.6 mm, a tip of 14.5 mm, 25 mm long":                   "", // greater than the base
		"bore 11.3 mm, base 13.6 mm, a tip of 10.5 mm, 25 mm long":     "",
		"a tip of 10.5 mm, 25 mm long":                                 "",
		"hosel 13.6 mm, a tip of 10.5 mm, 32 mm deep":                  "", // of a head
		"base 13.6 mm, a tip of 10.5 mm, a tip of 10.8 mm, 25 mm long": "",
	} {
		all, _ := itemsOf(lexicon.New(nil), []begun{{number: "X-1", said: []saidAt{{text: text}}}}, naming{spoken: true})
		got := ""
		for _, e := range all[0] {
			if e.role == "top_od" {
				got = "top_od=" + e.value
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
