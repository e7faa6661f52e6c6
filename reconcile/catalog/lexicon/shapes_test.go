package lexicon

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
)

func TestFormatLiterals(t *testing.T) {
	lex := New(nil)
	for format, want := range map[string]string{
		`0.000"in"`:        "in",
		`0.0" mm"`:         "mm",
		`0.00\ "mm";-0.00`: "mm",
		`#,##0.00`:         "",
		`[Red]0.0`:         "",
		`0.000\"`:          "in",
		"General":          "",
	} {
		if got := lex.FormatUnit(format); got != want {
			t.Errorf("%s: %q, want %q", format, got, want)
		}
	}
}

func TestLooks(t *testing.T) {
	for text, want := range map[string][2]bool{ // numeric, code
		"13.6":     {true, true},
		".535\"":   {true, false},
		"Ø13.6":    {true, true},
		"½\"":      {true, false},
		"KR-20":    {false, true},
		"Hosel OD": {false, false},
		"R6.8":     {true, true},
		"1/2 in":   {true, true},
		"":         {false, false},
	} {
		if got := [2]bool{LooksNumeric(text), LooksLikeCode(text)}; got != want {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}

// TestFormsAreNoNames: the first letter of a name says nothing of a bore.
func TestFormsAreNoNames(t *testing.T) {
	isForm := New(nil).Recogniser(catalog.BoreForm)
	for text, want := range map[string]bool{"parallel": true, "P": true, "taper": true, "P. Gil": false, "J. T. Smith": false, "T. Ōmori": false} {
		if got := isForm(text); got != want {
			t.Errorf("%q: %t, want %t", text, got, want)
		}
	}
}
