package spoken

import (
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestWholeCrowns reads whole amounts in a currency of several countries where they are for a piece, and none where they are not.
func TestWholeCrowns(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string]string{
		"12 kr/st":    "12 kr/st",
		"13 kr/stk":   "13 kr/stk",
		"12 kr./stk.": "12 kr./stk",
		"9,50 kr/st":  "9,50 kr/st",
		"2 €/Stk":     "2 €/Stk",
		"12 kr/order": "",
		"12 mm/st":    "",
	} {
		got, ok := PriceIn(lex, text)
		if !ok {
			got.Text = ""
		}
		if got.Text != want {
			t.Errorf("%q: %q, want %q", text, got.Text, want)
		}
	}
}
