package lexicon

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Titles and notes as price lists have them. Common practice; written before the code that reads them.
func TestPriceTerms(t *testing.T) {
	l := New(nil)
	for text, want := range map[string]PriceTerms{
		"All prices in EUR per dozen ex works":                    {Currency: "EUR", Per: 12},
		"Prices in US$, per 100":                                  {Currency: "USD", Per: 100},
		"Trade price list 2027 (GBP)":                             {Currency: "GBP"},
		"Price per hundred, net 30 days":                          {Per: 100},
		"Prices quoted in euros":                                  {Currency: "EUR"},
		"Preisliste Ferrulen - Preise je 100 Stück in €":          {Currency: "EUR", Per: 100},
		"Alle Preise in Euro je Dutzend":                          {Currency: "EUR", Per: 12},
		"Prix HT en euros, la douzaine":                           {Currency: "EUR", Per: 12},
		"Tarif 2027 - prix les 100 en EUR":                        {Currency: "EUR", Per: 100},
		"Precios en USD por docena":                               {Currency: "USD", Per: 12},
		"Prezzi in euro per dozzina":                              {Currency: "EUR", Per: 12},
		"価格は1ダースあたり（円）":                                           {Currency: "JPY", Per: 12},
		"单价：人民币/打":                                                {Currency: "CNY", Per: 12},
		"단가: 원/다스":                                                {Currency: "KRW", Per: 12},
		"Alle Preise je Satz (7 Stück) in EUR":                    {Currency: "EUR", Per: 7, Lot: OfSet},
		"Prices in USD per set":                                   {Currency: "USD", Lot: OfSet},
		"Prices per bag of 25":                                    {Per: 25, Lot: OfPack},
		"All prices in EUR per pack":                              {Currency: "EUR", Lot: OfPack},
		"Alle prijzen per zakje van 10":                           {Per: 10, Lot: OfPack},
		"Preise je VE, netto":                                     {Lot: OfPack},
		"Sold in packs of 10, prices per piece":                   {Per: 1},
		"Prices per 100, in bags of 25":                           {Per: 100},
		"Packing: bags of 100. Prices in USD":                     {Currency: "USD"},
		"Price list: iron sets and wedges":                        {},
		"Prices in USD and EUR":                                   {},
		"All dimensions in mm":                                    {},
		"Prices per piece":                                        {Per: 1},
		"Minimum order EUR 100":                                   {},
		"Dozen colours available":                                 {},
		"Packed per dozen":                                        {},
		"Price valid from 12.01.2027":                             {},
		"Free shipping from 100 EUR":                              {},
		"Prices include VAT of 10 %":                              {},
		"Prices: 10% discount for 100 and more":                   {},
		"Prices in EUR each, from 01/12/2027":                     {Currency: "EUR", Per: 1},
		"$ is per pack of 10":                                     {Currency: "USD", Per: 10, Lot: OfPack},
		"€ gilt je Beutel zu 10":                                  {Currency: "EUR", Per: 10, Lot: OfPack},
		"Rs. are per packet":                                      {Lot: OfPack},
		"zł/opak.":                                                {Currency: "PLN", Lot: OfPack},
		"元/袋":                                                     {Currency: "CNY", Lot: OfPack},
		"Rp per bungkus":                                          {Doubtful: true},
		"円／袋":                                                     {Currency: "JPY", Lot: OfPack},
		"$ are US dollars":                                        {Currency: "USD"},
		"Price list no. 100":                                      {},
		"Prix unitaires hors taxes. Franco à partir de 250 € HT.": {Currency: "EUR", Per: 1},
		"Dealer price from the first piece. Freight prepaid over $500. Prices": {Currency: "USD"},
	} {
		if want.Per > 0 && want.Lot == LotUnsaid {
			want.Lot = OfPieces
		}
		if diff := cmp.Diff(want, l.PriceTerms(text)); diff != "" {
			t.Errorf("%q (-want +got)\n%s", text, diff)
		}
	}
}
