package lexicon

import "testing"

// TestFlatPrice looks at which sentences give the price of each piece, and at those beside that give another amount of money.
func TestFlatPrice(t *testing.T) {
	lex := New(nil)
	for sentence, want := range map[string]FlatPrice{
		"Price for every item $0.38 each":                {"$0.38", 0.38, "USD", ""},
		"Price each: 0.38 USD":                           {"0.38 USD", 0.38, "USD", ""},
		"alle Stück 0,45 EUR":                            {"0,45 EUR", 0.45, "EUR", ""},
		"Preis für alle Größen: 0,45 € netto":            {"0,45 €", 0.45, "EUR", ""},
		"Stückpreis für alle 0,45 EUR zzgl. MwSt":        {"0,45 EUR", 0.45, "EUR", ""},
		"Cena każdej 1,80 zł netto":                      {"1,80 zł", 1.80, "PLN", ""},
		"Prix de chaque pièce 0,42 € HT":                 {"0,42 €", 0.42, "EUR", ""},
		"Prezzo 0,40 € al pezzo per tutte le misure":     {"0,40 €", 0.40, "EUR", ""},
		"Todas las piezas a 0,50 €":                      {"0,50 €", 0.50, "EUR", ""},
		"Preço de cada peça 0,50 EUR":                    {"0,50 EUR", 0.50, "EUR", ""},
		"Prijs per stuk 0,48 EUR voor alle maten":        {"0,48 EUR", 0.48, "EUR", ""},
		"Pris 4,50 SEK för samtliga storlekar":           {"4,50 SEK", 4.50, "SEK", ""},
		"Alle varer 3,50 DKK pr. stk":                    {"3,50 DKK", 3.50, "DKK", ""},
		"Kaikki tuotteet 0,55 EUR":                       {"0,55 EUR", 0.55, "EUR", ""},
		"Cena za každý kus 12,50 Kč bez DPH":             {"12,50 Kč", 12.50, "CZK", ""},
		"Birim fiyat: 14,50 TL, tüm ürünler":             {"14,50 TL", 14.50, "TRY", ""},
		"価格はすべて45円":                                      {"45円", 45, "JPY", ""},
		"모든 제품 단가 500원":                                  {"500원", 500, "KRW", ""},
		"所有规格单价均为2.5元":                                   {"2.5元", 2.5, "CNY", ""},
		"Minimum order $0.38 each":                       {},
		"Shipping $9.50 flat for all":                    {},
		"Shipping for all pieces $9.50":                  {},
		"Versand 6,90 EUR für alle Artikel":              {},
		"Mindestbestellwert je Artikel 25 EUR":           {},
		"MwSt 0,09 EUR je Stück":                         {},
		"Price of the black ones $0.38 each":             {},
		"Every second piece $0.19":                       {},
		"Price per 100 pieces $38":                       {},
		"Price per dozen $4.50 each":                     {},
		"Preis ab 0,45 EUR je Stück":                     {},
		"Price for every item $0.38 to $0.45 each":       {},
		"Price for every item 0.38 each":                 {"0.38", 0.38, "", ""},
		"All ferrules $0.45 each":                        {"$0.45", 0.45, "USD", "ferrules"},
		"$45 per head":                                   {},
		"All heads $45.00 each":                          {"$45.00", 45, "USD", "heads"},
		"Alle Zierringe 0,45 EUR":                        {"0,45 EUR", 0.45, "EUR", "ferrules"},
		"Jede Ferrule 0,45 €":                            {"0,45 €", 0.45, "EUR", "ferrules"},
		"Toutes les viroles 0,45 €":                      {"0,45 €", 0.45, "EUR", "ferrules"},
		"所有套环每个2.5元":                                     {"2.5元", 2.5, "CNY", "ferrules"},
		"Alle sierringen 0,48 EUR":                       {"0,48 EUR", 0.48, "EUR", "ferrules"},
		"All irons $45.00 each":                          {},
		"All black ferrules $0.45 each":                  {},
		"All heads and ferrules $0.45 each":              {},
		"Stückpreis 0,45 EUR":                            {"0,45 EUR", 0.45, "EUR", ""},
		"Unit price: $0.45":                              {"$0.45", 0.45, "USD", ""},
		"prix unitaire 0,45 €":                           {"0,45 €", 0.45, "EUR", ""},
		"Precio unitario: 0,50 €":                        {"0,50 €", 0.50, "EUR", ""},
		"Cena jednostkowa 1,80 zł":                       {"1,80 zł", 1.80, "PLN", ""},
		"単価45円":                                          {"45円", 45, "JPY", ""},
		"Stückpreis ab 0,45 EUR":                         {},
		"Stückpreis 0,45 EUR ab 100 Stück":               {},
		"Unit price in USD":                              {},
		"jede 0,45":                                      {"0,45", 0.45, "", ""},
		"all at 18.50":                                   {"18.50", 18.50, "", ""},
		"each .45":                                       {".45", 0.45, "", ""},
		"à 0,45 chacune":                                 {"0,45", 0.45, "", ""},
		"all at 18.5":                                    {},
		"all at 18.50 mm":                                {},
		"all 18.50":                                      {},
		"All sizes 18.50":                                {},
		"je 0,5":                                         {},
		"MwSt je 0,45":                                   {},
		"10 % off the price of each piece":               {},
		"All pieces $0.38 + tax":                         {},
		"Price $0.38":                                    {},
		"Engraving of each piece $1.50":                  {},
		"Cena wysyłki każdej paczki 18 zł":               {},
		"送料は全品500円":                                      {},
		"Frais de port 9,50 € pour toutes les commandes": {},
	} {
		got, said := lex.FlatPrice(sentence)
		if !said {
			got = FlatPrice{}
		}
		if got != want {
			t.Errorf("%q: %+v, want %+v", sentence, got, want)
		}
	}
}
