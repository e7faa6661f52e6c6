package words

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// TestCurrencies finds the currencies that titles name. The codes are those of ISO 4217.
func TestCurrencies(t *testing.T) {
	v := Load()
	for text, want := range map[string][]string{
		"prices in Canadian dollars":        {"CAD"},
		"all prices $ Canadian":             {"CAD"},
		"Prices in $ (CAD)":                 {"CAD"},
		"Prix en dollars canadiens, chaque": {"CAD"},
		"Australian dollars ex GST":         {"AUD"},
		"New Zealand dollars":               {"NZD"},
		"Hong Kong dollars":                 {"HKD"},
		"prices in NT dollars":              {"TWD"},
		"kanadische Dollar":                 {"CAD"},
		"dollars":                           {"USD"},
		"US$ and C$":                        {"USD", "CAD"},
		"norske kroner":                     {"NOK"},
		"danske kroner":                     {"DKK"},
		"kroner":                            nil, // Danish, Norwegian or Swedish
		"kronor":                            {"SEK"},
		"Schweizer Franken":                 {"CHF"},
		"pesos":                             nil,
		"pesos mexicanos":                   {"MXN"},
		"Sterling silver ring":              nil,
	} {
		if diff := cmp.Diff(want, v.Currencies(text), cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%q: (-want +got)\n%s", text, diff)
		}
	}
}

// TestMayMean tells a sign that several currencies share from one that is plain.
func TestMayMean(t *testing.T) {
	for _, c := range []struct {
		text, named, other string
		want               bool
	}{
		{"$14.25", "USD", "CAD", true},
		{"14.25 $", "USD", "AUD", true},
		{"$ each", "USD", "NZD", true},
		{"US$14.25", "USD", "CAD", false},
		{"14.25 USD", "USD", "CAD", false},
		{"$14.25 USD", "USD", "CAD", false},
		{"$14.25", "USD", "EUR", false},
		{"14.25", "USD", "CAD", false},
		{"¥120", "JPY", "CNY", true},
		{"¥120", "JPY", "CAD", false},
	} {
		if got := MayMean(c.text, c.named, c.other); got != c.want {
			t.Errorf("%q for %s, as %s: %v, want %v", c.text, c.named, c.other, got, c.want)
		}
	}
}

// TestCoinsInOtherWords takes a character for a coin where it comes first, and not within the name of another currency.
func TestCoinsInOtherWords(t *testing.T) {
	for text, want := range map[string]string{"元/包": "CNY", "元每包": "CNY", "美元价": "", "円/袋": "JPY", "税込円": "", "R per pkt": "ZAR", "Price R": "ZAR"} {
		if coin, _ := Load().CoinIn("zh-Hans", text); coin.Currency != want {
			t.Errorf("%s: %q, want %q", text, coin.Currency, want)
		}
	}
}
