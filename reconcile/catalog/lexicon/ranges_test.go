package lexicon

import (
	"strings"
	"testing"
)

// Sets and quantities with the words of several languages in them, as lists have them; common practice, and written before the words came
// from the language files.
func TestWordsBetweenClubs(t *testing.T) {
	l := New(nil)
	for text, want := range map[string]string{
		"Forged irons 4 to PW": "4 5 6 7 8 9 PW", "Eisen 4 bis PW": "4 5 6 7 8 9 PW", "Fers 5 à 9": "5 6 7 8 9", "Hierros 5 a 9": "5 6 7 8 9", "アイアン 5番から9番": "5 6 7 8 9",
		"铁杆 5号至9号": "5 6 7 8 9", "Forged blade 7 tour": "", "Wedge 56 total": "",
	} {
		set, _, _ := l.FindSet(text)
		if got := strings.Join(set, " "); got != want {
			t.Errorf("%q names the clubs %q, want %q", text, got, want)
		}
	}
}

func TestPriceBreaks(t *testing.T) {
	for text, want := range map[string]bool{
		"1-9 pcs": true, "50+": true, "ab 100 Stk": true, "from 100 pcs": true, "dès 50": true, "da 10": true, "100 or more": true, "100 und mehr": true, "100以上": true, "100個以上": true, "100 이상": true, "100 et plus": true,
		"Bore 370 min": false, "100": false, "Price": false,
	} {
		if got := IsPriceBreak(text); got != want {
			t.Errorf("%q is a quantity from which a price holds: %v, want %v", text, got, want)
		}
	}
}
