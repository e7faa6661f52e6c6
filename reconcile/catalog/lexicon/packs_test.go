package lexicon

import "testing"

// TestCountsPacks tells columns that count packs from those that say how many pieces one has.
func TestCountsPacks(t *testing.T) {
	lex := New(nil)
	for heading, want := range map[string]bool{
		"Qty (bags)": true, "数量（袋）": true, "数量(袋)": true, "Cantidad (bolsas)": true, "Menge (Beutel)": true, "Aantal (zakjes)": true,
		"Qty (per bag)": false, "Qty/bag": false, "Bag": false, "袋": false, "入数": false, "Pack (pcs)": false,
	} {
		if got := lex.CountsPacks(heading); got != want {
			t.Errorf("%q: %v", heading, got)
		}
	}
}

// TestPerSet tells columns that say how many pieces a set has from those of prices, stocks and the sets themselves.
func TestPerSet(t *testing.T) {
	lex := New(nil)
	for heading, want := range map[string]bool{
		"Stk./Satz": true, "Stück je Satz": true, "Köpfe im Satz": true, "pcs/set": true, "Heads per set": true, "# in set": true, "pz/set": true, "n. teste per serie": true,
		"pièces/jeu": true, "Nb têtes par jeu": true, "uds. por juego": true, "peças/jogo": true, "stuks/set": true, "stk. pr. sæt": true, "antal/sats": true, "kpl/sarja": true,
		"ks/sada": true, "szt./zestaw": true, "takım başına adet": true, "本/セット": true, "セット本数": true, "세트당 개수": true, "每套件数": true, "ชิ้น/ชุด": true,
		"Preis/Satz": false, "Price per set": false, "£/set": false, "Prix par jeu": false, "Stock (sets)": false, "Sets in stock": false, "Sätze auf Lager": false, "Satz": false,
		"per set": false, "Set": false, "Stück": false, "Stk./VE": false, "Price per head, in sets": false,
	} {
		if got := lex.PerSet(heading); got != want {
			t.Errorf("%q: %v", heading, got)
		}
	}
}

// TestPricesOfOnePack reads notes that say that prices are for one pack, with the pieces in it or without.
func TestPricesOfOnePack(t *testing.T) {
	lex := New(nil)
	for note, want := range map[string]PriceTerms{
		"寸法はすべて直径・mm、単価は１袋(10個入)の価格です。": {Per: 10, Lot: OfPack},
		"单价为1袋(50个)价格":                                         {Per: 50, Lot: OfPack},
		"Priser i kr. pr. pose med 10 stk., ekskl. moms.":      {Per: 10, Lot: OfPack},
		"Prisen er pr. pose med 25 stk, uden moms.":            {Per: 25, Lot: OfPack},
		"Prisene gjelder per pose med 10":                      {Per: 10, Lot: OfPack},
		"prices are per 1 bag of 25":                           {Per: 25, Lot: OfPack},
		"Preise je 1 Beutel":                                   {Lot: OfPack},
		"Preise je Beutel zu 12":                               {Per: 12, Lot: OfPack},
		"Versand 12 € je Paket":                                {Currency: "EUR"}, // the price of something else
		"Shipping £8 per box":                                  {Currency: "GBP"},
		"spedizione 9 € per pacco":                             {Currency: "EUR"},
		"minimum 1 bag, prices net":                            {},
		"Prices valid from 1 bag":                              {},
		"最低1袋から、単価は税別":                                         {},
		"Prices net. Mold charge US$2,800/set, sample cost x2": {Currency: "USD"},
		"Werkzeugkosten 2.800 € je Satz, Preise netto":         {Currency: "EUR"},
		"Preise in € je Satz":                                  {Currency: "EUR", Lot: OfSet},
	} {
		if got := lex.PriceTerms(note); got != want {
			t.Errorf("%q: %+v, want %+v", note, got, want)
		}
	}
}

// TestSells tells cells that name a pack from such as name a piece, and both from numbers.
func TestSells(t *testing.T) {
	lex := New(nil)
	for cell, want := range map[string]Lot{
		"bolsa 25": OfPack, "bag of 50": OfPack, "Beutel à 10": OfPack, "sachet de 12": OfPack, "袋(10個)": OfPack, "bolsa": OfPack,
		"pieza": OfPieces, "each": OfPieces, "Stück": OfPieces, "pièce": OfPieces, "pz": OfPieces,
		"25": LotUnsaid, "25 pcs": LotUnsaid, "lata": LotUnsaid, "": LotUnsaid,
	} {
		if got := lex.Sells(cell); got != want {
			t.Errorf("%q: %v, want %v", cell, got, want)
		}
	}
}

// TestPricesPerHeadOfSets reads notes that say that prices are for one head, whatever they say of sets too.
func TestPricesPerHeadOfSets(t *testing.T) {
	lex := New(nil)
	one, set := PriceTerms{Per: 1, Lot: OfPieces}, PriceTerms{Lot: OfSet}
	for note, want := range map[string]PriceTerms{
		"Mål i mm, pris per hode eks. mva. også når dere tar hele settet": one,
		"Prices per head, also in sets":                                   one,
		"Prices are per head, even when you take the whole set":           one,
		"Prices per head (sets as well)":                                  one,
		"Preise je Kopf, auch im Satz":                                    one,
		"Alle Preise je Stück, auch für Sätze":                            one,
		"prix par tête, même pour le jeu complet":                         one,
		"prezzi per testa, anche per la serie completa":                   one,
		"precio por cabeza, también en juego completo":                    one,
		"Preços por cabeça, mesmo no jogo completo":                       one,
		"Pris per huvud, även om ni tar hela setet":                       one,
		"Prijs per kop, ook bij een complete set":                         one,
		"価格は1個あたり、セットでも同じ":                                                one,
		"Prices per head for irons, wedges per set":                       {Doubtful: true},
		"Prices per head; sets priced per set":                            set,
		"Price per set, not per head":                                     set,
		"Prices are not per head but per set":                             set,
		"Also by post. Prices per set":                                    set,
		"Preise je Satz, auch für Linkshänder":                            set,
	} {
		if got := lex.PriceTerms(note); got != want {
			t.Errorf("%q: %+v, want %+v", note, got, want)
		}
	}
}
