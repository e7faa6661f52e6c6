package lexicon

import "testing"

func TestPricePer(t *testing.T) {
	l := New(nil)
	for heading, want := range map[string]float64{
		"Price": 1, "Price per 100": 100, "Price/1000": 1000, "EUR/1.000 Stk": 1000, "Preis je 100": 100, "Preis je 1.000 Stück": 1000, "Prix les 100": 100, "Precio por 100": 100,
		"Prezzo al 100": 100, "100個あたりの価格": 100, "100개당 가격": 100, "每100個價格": 100,
		"Price 100+": 1, "Price 100-499": 1, "Price per piece, pack of 100": 1, "Price per 1.25": 1, "Price (100 pcs)": 1, "per 1005": 1, "Price list 2100": 1,
	} {
		if got := l.PricePer(heading); got != want {
			t.Errorf("%q is for %g pieces, want %g", heading, got, want)
		}
	}
}
