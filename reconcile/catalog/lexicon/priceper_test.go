package lexicon

import "testing"

func TestPricePer(t *testing.T) {
	l := New(nil)
	for heading, want := range map[string]float64{
		"Price": 1, "Price per 100": 100, "Price/1000": 1000, "EUR/1.000 Stk": 1000, "Preis je 100": 100, "Preis je 1.000 Stück": 1000, "Prix les 100": 100, "Precio por 100": 100,
		"Prezzo al 100": 100, "100個あたりの価格": 100, "100개당 가격": 100, "每100個價格": 100,
		"Price 100+": 1, "Price 100-499": 1, "Price per piece, pack of 100": 1, "Price per 1.25": 1, "Price (100 pcs)": 1, "per 1005": 1, "Price list 2100": 1,
	} {
		if got, lot := l.PricePer(heading); got != want || lot.Bundles() {
			t.Errorf("%q is for %g pieces, of a %s, want %g", heading, got, lot, want)
		}
	}
}

// Headings of prices of sets and pairs; common practice, and written before the code that reads them.
func TestPricePerSet(t *testing.T) {
	l := New(nil)
	type want struct {
		per float64
		set bool
	}
	for heading, want := range map[string]want{
		"Price per set (8 pcs)": {8, true}, "Set price": {1, true}, "Price/set": {1, true}, "Price per set of 8": {8, true}, "Price each (set of 8)": {1, false},
		"Satzpreis": {1, true}, "Preis je Satz (7 Stück)": {7, true}, "Prix le jeu de 8": {8, true}, "Precio por juego de 9": {9, true}, "Prezzo al set": {1, true},
		"セット価格（8本）": {8, true}, "セット価格": {1, true}, "세트 가격": {1, true}, "每套价格": {1, true}, "套管价格": {1, false}, "Preço por jogo": {1, true},
		"Price per pair": {2, false}, "Paarpreis": {2, false}, "Preis je Paar": {2, false}, "Prix la paire": {2, false}, "Prix par pièce": {1, false}, "Precio por par": {2, false},
		"Prix par 100": {100, false}, "Preço por dúzia": {12, false}, "Cena za tisíc": {1000, false}, "Price per set or half set of 8 or 4": {1, true},
	} {
		if per, lot := l.PricePer(heading); per != want.per || (lot == OfSet) != want.set {
			t.Errorf("%q is for %g pieces, of a %s, want %v", heading, per, lot, want)
		}
	}
}

// Headings of prices of packs; common practice, and written before the code that reads them.
func TestPricePerPack(t *testing.T) {
	l := New(nil)
	type want struct {
		per float64
		lot Lot
	}
	for heading, want := range map[string]want{
		"Pack price": {1, OfPack}, "Ask ($)": {1, LotUnsaid}, "Ask": {1, LotUnsaid}, "Pris/ask": {1, OfPack}, "Price per bag": {1, OfPack}, "$/pk": {1, OfPack}, "Price/pack of 25": {25, OfPack}, "USD per box": {1, OfPack}, "price pk of 12": {12, OfPack}, "Price 12pk": {12, OfPack}, "Price 12-pack": {12, OfPack}, "Bag price": {1, OfPack},
		"€/VE": {1, OfPack}, "Preis je VE": {1, OfPack}, "VE-Preis": {1, OfPack}, "Packungspreis": {1, OfPack}, "EUR/Beutel": {1, OfPack}, "Prix HT le sachet": {1, OfPack}, "Prix du sac": {1, OfPack}, "Price a bag": {1, OfPack},
		"€ for 6": {6, OfPieces}, "Price for 12": {12, OfPieces}, "Preis für 20": {20, OfPieces}, "Price for .370": {1, LotUnsaid},
		"Prix du lot": {1, OfPack}, "Prezzo conf.": {1, OfPack}, "€/conf.": {1, OfPack}, "Precio por bolsa": {1, OfPack}, "Preço por pacote": {1, OfPack}, "Prijs per zakje": {1, OfPack},
		"Pris per förpackning": {1, OfPack}, "Pris pr. pose": {1, OfPack}, "Hinta/pss": {1, OfPack}, "Cena za op.": {1, OfPack}, "Cena za balení": {1, OfPack}, "Paket fiyatı": {1, OfPack},
		"袋単価": {1, OfPack}, "円/袋": {1, OfPack}, "元/包": {1, OfPack}, "每袋價格": {1, OfPack}, "팩당 가격": {1, OfPack}, "ราคาต่อถุง": {1, OfPack}, "Giá/gói": {1, OfPack},
		"Price each (bag of 12)": {1, OfPieces}, "Price per piece, pack of 100": {1, OfPieces}, "Price per 100": {100, OfPieces}, "Preis/St. (VE 50)": {1, OfPieces}, "Price ea": {1, OfPieces},
		"Price": {1, LotUnsaid}, "Price excl. packing": {1, LotUnsaid}, "KDV ve kargo dahil fiyat": {1, LotUnsaid}, "価格(包装込み)": {1, LotUnsaid}, "价格（含包装）": {1, LotUnsaid},
		"Price per 100 (bags of 100)": {100, OfPieces}, "": {1, LotUnsaid},
	} {
		if per, lot := l.PricePer(heading); per != want.per || lot != want.lot {
			t.Errorf("%q is for %g pieces, of a %q, want %g of a %q", heading, per, lot, want.per, want.lot)
		}
	}
}

// Notes that name the currency instead of the price: what it is for is said of the prices, but not where an amount stands.
func TestCurrencyForPrice(t *testing.T) {
	l := New(nil)
	type want struct {
		per float64
		lot Lot
	}
	for note, want := range map[string]want{
		"RM is for one packet of 25 pcs.": {25, OfPack}, "Diameter in mm, length in inch. RM is for one packet of 25 pcs.": {25, OfPack}, "USD is for one bag of 12": {12, OfPack},
		"EUR gelten für einen Beutel mit 25 Stück": {25, OfPack}, "EUR pour un sachet de 25 pièces": {25, OfPack}, "EUR por bolsa de 10": {10, OfPack}, "EUR per 100": {100, OfPieces},
		"EUR 3 for one packet of 25 pcs": {}, "RM, packets of 25": {}, "Pay RM later": {},
	} {
		if got := l.PriceTerms(note); got.Per != want.per || got.Lot != want.lot {
			t.Errorf("%q is for %g pieces, of a %q, want %g of a %q", note, got.Per, got.Lot, want.per, want.lot)
		}
	}
}

func TestHeadsPieces(t *testing.T) {
	l := New(nil)
	for heading, want := range map[string][2]bool{ // a column of numbers of pieces, and one of prices
		"Per": {true, false}, "PRZ_PER": {true, false}, "Preiseinheit": {true, false}, "価格単位": {true, false},
		"Per 100": {false, true}, "je 1.000": {false, true}, "les 100": {false, true},
		"Price per 100": {false, false}, "Weight per 100": {false, false}, "Pack": {false, false}, "100": {false, false}, "": {false, false},
	} {
		if got := [2]bool{l.HeadsPieces(heading), l.OnlyPer(heading)}; got != want {
			t.Errorf("%q: %v, want %v", heading, got, want)
		}
	}
	for text, want := range map[string]float64{"1": 1, "100": 100, "1000": 1000, "12": 12, "17": 0, "1,5": 0, "": 0, "100+": 0} {
		if got := PiecesOf(text); got != want {
			t.Errorf("%q: %g pieces, want %g", text, got, want)
		}
	}
}

// TestLettersOfCurrencies tells the letter of a currency, C$, from one for a number of pieces, $/C. Where a letter stands beside the sign for one, nobody knows.
func TestLettersOfCurrencies(t *testing.T) {
	l := New(nil)
	for heading, want := range map[string]struct {
		per      float64
		doubtful bool
	}{
		"C$": {1, false}, "C$ ea": {1, false}, "Price C$": {1, false}, "Preis C$": {1, false}, "CDN$": {1, false}, "A$ each": {1, false}, "R$": {1, false},
		"Precio por pieza en M.N.": {1, false}, "Precio M.N.": {1, false}, "$ M.N. c/u": {1, false}, "C$/C": {100, false}, "$/C": {100, false}, "US$/M": {1000, false}, "Price/C": {100, false}, "C$ / 100": {100, false},
		"$ C": {1, true}, "Prix $ C": {1, true}, "C $": {1, true}, "M$": {1, true},
	} {
		per, _, doubtful := l.PricePerOrDoubt(heading)
		if per != want.per || doubtful != want.doubtful {
			t.Errorf("%q is for %g pieces, doubtful %v; want %v", heading, per, doubtful, want)
		}
	}
}
