package spoken

import (
	"fmt"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestAmountsOfItems looks at which words of a letter give a price or a stock, and at such as say something else of a number.
func TestAmountsOfItems(t *testing.T) {
	for text, want := range map[string]string{
		"400 in stock":              "stock=400",
		"2 doz in stock":            "stock=24",
		"half a dozen in stock":     "stock=6",
		"none in stock":             "stock=none",
		"3 Dutzend auf Lager":       "stock=36",
		"une douzaine en stock":     "stock=12",
		"1,200 pcs in stock":        "stock=1,200",
		"8 Stück lieferbar":         "stock=8",
		"250 Stk. auf Lager":        "stock=250",
		"auf Lager 400":             "stock=400",
		"120 en stock":              "stock=120",
		"40 disponibili":            "stock=40",
		"在庫400":                     "stock=400",
		"400個在庫":                    "stock=400",
		"库存400件":                    "stock=400件",
		"price 0.42":                "price=0.42",
		"price .42":                 "price=.42",
		"para .370":                 "",
		"para .355":                 "",
		"R9.80":                     "price=R9.80",
		"kr 9,80":                   "price=kr 9,80",
		"R 45":                      "",
		"400 available from March":  "",
		"400 available in 3 weeks":  "",
		"200 in stock by May":       "",
		"400 pcs":                   "",
		"8 Stück lieferbar ab März": "",
		"12.5 in stock":             "",
		"minimum 100":               "",
		"3 weeks":                   "",
	} {
		got := ""
		if e, ok := AmountIn(lexicon.New(nil), text); ok {
			got = fmt.Sprintf("%s=%s", e.Role, e.Text)
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// A word for "fits" before the name of a tip makes it one, though the word names money elsewhere.
func TestTipBehindFits(t *testing.T) {
	for text, want := range map[string]int{"para .370": 1, "para .335": 1, "para 370": 0} {
		tips := 0
		for _, s := range Sizes(lexicon.New(nil), text) {
			if s.Role == string(catalog.TipTaken) {
				tips++
			}
		}
		if tips != want {
			t.Errorf("%q names %d tips, want %d", text, tips, want)
		}
	}
}
