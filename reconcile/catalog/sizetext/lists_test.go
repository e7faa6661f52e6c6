package sizetext

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog/lexicon"
)

func TestSplitTimes(t *testing.T) {
	for text, want := range map[string][]string{
		"9.35 x 13.7 x 19":  {"9.35", "13.7", "19"},
		"9.35×13.7×19mm":    {"9.35", "13.7", "19mm"},
		`.368"x.540"x3/4"`:  {`.368"`, `.540"`, `3/4"`},
		"9.35*13.7":         {"9.35", "13.7"},
		"hex":               nil,
		"9.35 x":            {"9.35 x"},
		"9.35 x black x 19": nil,
	} {
		if diff := cmp.Diff(want, SplitTimes(text, false)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", text, diff)
		}
	}
}

func TestMixedWithin(t *testing.T) {
	for text, want := range map[string][]string{
		"Ferrule .370 13.5/10.8/9.3 x 19 BLK": {"13.5", "10.8", "9.3", "19"},
		"Virole 13,5×10,8 / 9,3 × 19 mm":      {"13,5", "10,8", "9,3", "19 mm"},
		"Ferrule 13.5/10.8/9.3-19 black":      {"13.5", "10.8", "9.3", "19"},
		"Zierring 19*13.5/9.3 schwarz":        {"19", "13.5", "9.3"},
		"Ferrule 13.5 10.8 9.3 19 black":      {"13.5", "10.8", "9.3", "19"},
		"Ferrule 13.5/10.8/9.3 x 19 x 2 x 3":  nil,
		"13.5/10.8/9.3 or 13.2/10.4/8.9":      nil,
		"Order 12/11/25 - 30":                 nil,
	} {
		if diff := cmp.Diff(want, MixedWithin(text)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", text, diff)
		}
	}
	if got := ListWithin("Ferrule 13.5/10.8/9.3 x 19"); got != nil {
		t.Errorf("a part of a list: %q", got)
	}
}

func TestNamesListed(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string][]string{
		"ITEM_DESC reads: tip, base dia / top dia / bore x length (mm), colour": {"base dia", "top dia", "bore", "length"},
		"Bezeichnung: Spitze, Ø unten/Ø oben/Bohrung x Länge":                   {"Ø unten", "Ø oben", "Bohrung", "Länge"},
		"désignation : longueur × Ø base / Ø haut / alésage":                    {"longueur", "Ø base", "Ø haut", "alésage"},
		"base OD / top OD / bore - length":                                      {"base OD", "top OD", "bore", "length"},
	} {
		if diff := cmp.Diff(want, NamesListed(lex, text, 4)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", text, diff)
		}
		if got := NamesListed(lex, text, 3); got != nil && !strings.Contains(text, " - ") { // a dash may as well begin a remark
			t.Errorf("%s: three of four: %q", text, got)
		}
	}
}
