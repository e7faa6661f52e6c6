package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestBaseNotKnown holds a ferrule that says in place of its base OD that it is not known, and no other: one without a word has a bore for what
// is cut to size anyway, and at the thin end nothing hangs on it.
func TestBaseNotKnown(t *testing.T) {
	for says, held := range map[string]bool{
		"card torn here": true, "nicht lesbar": true, "illisible": true, "non misurato": true, "no medido": true, "ikke målt": true, "nie zmierzono": true, "TBA": true, "": false,
	} {
		c := read(t, grid("Ferrules", "Item | Bore (mm) | Base OD (mm) | Top OD (mm) | Length (mm)\nTG-1 | 9.3 | 13.5 | 10.5 | 25\nTG-2 | 9.3 | "+says+" | 10.5 | 25\n"+
			"TG-3 | 9.3 | 13.6 | not measured | 25\nTG-4 | 9.4 | 13.6 | 10.5 | 25"))
		if got := c.Tables[0].Rows[2].Outcome == catalog.Held; got != held || c.Tables[0].Rows[3].Outcome == catalog.Held {
			show(t, c)
			t.Errorf("%q: held %v, want %v", says, got, held)
		}
	}
}

// TestGoesOn takes what a ferrule goes on for the tip that it fits, on cards of shop words and above columns in several languages.
func TestGoesOn(t *testing.T) {
	for _, label := range []string{"Goes on", "Sitzt auf", "Va sur", "Va su", "Va en", "Vai em", "Gaat op", "Sitter på", "Sidder på", "Wchodzi na"} {
		c := read(t, grid("Ferrules", "Item | "+label+" | Bore (in) | Base OD (in) | Length (in)\nTG-1 | .370 | .364 | .540 | 1\nTG-2 | .355 | .350 | .530 | 1\nTG-3 | .335 | .331 | .475 | 1"))
		if text := rowOf(t, c, "TG-2"); !strings.Contains(text, "tip=.355") && !strings.Contains(text, "tip=9.017") {
			show(t, c)
			t.Errorf("%s: %s", label, text)
		}
	}
}
