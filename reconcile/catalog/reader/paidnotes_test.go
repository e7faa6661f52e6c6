package reader_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/finding"
)

// TestNotesSayWhoPays takes the column that a note around the list says a buyer pays, and asks where notes say that of several, or that an offer is for a time
// or a place.
func TestNotesSayWhoPays(t *testing.T) {
	for name, c := range map[string]struct {
		note, headings string
		cells          [3]string
		below          bool
		want           string
		warned         bool
	}{
		"trade beside an offer":     {"Clubmakers with an account pay Trade. Special is for the fair, 2 to 4 May, at our stand only.", "Retail | Trade | Special", [3]string{"1.80 | 1.00 | 0.90", "2.20 | 1.20 | 1.10", "2.70 | 1.50 | 1.30"}, false, "1 1.2 1.5", false},
		"an offer for a while":      {"Special prices only until 30 June.", "Trade | Special", [3]string{"1.00 | 0.90", "1.20 | 1.10", "1.50 | 1.30"}, false, "1 1.2 1.5", true},
		"an offer alone":            {"Ferrules for clubmakers", "Trade | Special", [3]string{"1.00 | 0.90", "1.20 | 1.10", "1.50 | 1.30"}, false, "0.9 1.1 1.3", false},
		"two currencies":            {"Canadian accounts pay the C$ column, US$ is for south of the line.", "C$ ea | US$ ea", [3]string{"1.00 | 0.75", "1.20 | 0.90", "1.50 | 1.10"}, false, "1 1.2 1.5", false},
		"the other currency":        {"Customers abroad pay in USD. Prices in EUR are ours.", "EUR | USD", [3]string{"1.00 | 1.10", "1.20 | 1.30", "1.50 | 1.60"}, false, "1.1 1.3 1.6", false},
		"each pays another":         {"UK accounts pay GBP, European accounts pay EUR.", "GBP | EUR", [3]string{"0.80 | 1.00", "1.00 | 1.20", "1.30 | 1.50"}, false, "0.8 1 1.3", true},
		"French":                    {"Nos clients ateliers règlent la colonne HT ; le prix public TTC est donné pour l'affichage.", "Public TTC | Atelier HT", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, false, "1 1.2 1.5", false},
		"German, with a fair price": {"Werkstätten zahlen den EK. Der Aktionspreis gilt nur auf der Messe.", "EK € | Aktionspreis €", [3]string{"1,00 | 0,90", "1,20 | 1,10", "1,50 | 1,30"}, false, "1 1.2 1.5", false},
		"Spanish, columns by name":  {"Los talleres pagan la columna Taller. Precio A es para otros.", "Precio A | Precio Taller", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, false, "1 1.2 1.5", false},
		"Italian, below":            {"I laboratori pagano il prezzo B.", "Prezzo A | Prezzo B", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, true, "1 1.2 1.5", false},
		"Dutch":                     {"Klanten met een rekening betalen prijs II.", "Prijs I | Prijs II", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, false, "1 1.2 1.5", false},
		"Swedish":                   {"Medlemmar betalar pris B, övriga pris A.", "Pris A | Pris B", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, false, "1 1.2 1.5", false},
		"what a shop does":          {"Têtes au détail et en gros", "Au détail | Votre prix", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, false, "1 1.2 1.5", false},
		"what it does, in English":  {"Trade and retail ferrules since 1990", "Retail | Your price", [3]string{"1.80 | 1.00", "2.20 | 1.20", "2.70 | 1.50"}, false, "1 1.2 1.5", false},
		"others pay":                {"The public pays Price A.", "Price A | Price B", [3]string{"1.80 | 1.00", "2.20 | 1.20", "2.70 | 1.50"}, false, "1.8 2.2 2.7", true},
		"not so":                    {"Do not use Price B any more.", "Price A | Price B", [3]string{"1.80 | 1.00", "2.20 | 1.20", "2.70 | 1.50"}, false, "1.8 2.2 2.7", true},
		"by number":                 {"Werkstätten zahlen Preis 2", "Preis 1 | Preis 2", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, false, "1 1.2 1.5", false},
		"after a discount":          {"Anilhas", "Preço tabela | Preço c/ desconto", [3]string{"1,80 | 1,00", "2,20 | 1,20", "2,70 | 1,50"}, false, "1 1.2 1.5", false},
		"a share taken off":         {"Ferrules", "Price | less 10 %", [3]string{"1.00 | 0.90", "1.20 | 1.08", "1.50 | 1.35"}, false, "1 1.2 1.5", true},
		"list less a share":         {"Dealers pay List less 40 %.", "List | Net", [3]string{"1.80 | 1.08", "2.20 | 1.32", "2.70 | 1.62"}, false, "1.08 1.32 1.62", false},
	} {
		t.Run(name, func(t *testing.T) {
			lines := pricedLines("Part no | Base OD mm | Bore mm | "+c.headings, c.cells)
			if c.below {
				lines = append(lines, "", c.note)
			} else {
				lines = append([]string{c.note, ""}, lines...)
			}
			got := read(t, grid("Ferrules", strings.Join(lines, "\n")))
			warned := slices.ContainsFunc(got.Findings, func(f finding.Finding) bool { return f.Severity >= finding.Warning && f.Code == "layout.column" })
			if diff := cmp.Diff(c.want, pricesOf(got)); diff != "" || warned != c.warned {
				defer show(t, got)
				t.Errorf("warned %v, want %v; prices (-want +got):\n%s", warned, c.warned, diff)
			}
		})
	}
}

// TestDiscountsAreSaid takes no discount off that a note gives for all, and says so.
func TestDiscountsAreSaid(t *testing.T) {
	for note, want := range map[string]bool{
		"Less 10 % on everything": true, "10% off all prices until May": true, "Auf alle Preise 10 % Rabatt": true, "Remise 15 % sur tout": true, "Descuento del 10% en todo": true,
		"Sconto 10% su tutto": true, "10 % korting op alles": true, "10 % rabatt på allt": true, "全品10%割引": true, "全部9折": true, "Rabat 10 % na wszystko": true, "Sleva 10 % na vše": true,
		"Prices per piece, ex VAT 20 %": false, "Bores ±1 %": false, "100 % nylon": false,
	} {
		got := read(t, grid("Ferrules", note+"\n\nPart | Bore mm | Base OD mm | Price\nF-1 | 9.3 | 13.6 | 1.00\nF-2 | 9.25 | 13.5 | 1.20"))
		said := slices.ContainsFunc(got.Findings, func(f finding.Finding) bool { return strings.Contains(f.Message, "discount") })
		if len(got.Ferrules) != 2 || got.Ferrules[0].Price != 1 || said != want {
			defer show(t, got)
			t.Errorf("%q: the first of %d ferrules costs %g, said %v, want %v", note, len(got.Ferrules), got.Ferrules[0].Price, said, want)
		}
	}
}
