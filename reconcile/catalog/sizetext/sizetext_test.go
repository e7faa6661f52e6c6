package sizetext

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
	"github.com/google/go-cmp/cmp"
)

func TestSizesInTexts(t *testing.T) {
	lex := lexicon.New(nil)
	tests := []struct {
		text   string
		behind bool
		want   string
	}{
		{"Ferrule black ID 9.35 mm OD 13.60 mm L 12.7 mm", false, "ID=9.35 mm OD=13.60 mm L=12.7 mm"},
		{`Ferrule, .368 ID, .540 OD, 1/2" long, black`, true, `ID=.368 OD=.540 long=1/2"`},
		{`Black ID .368±.001, length 1-1/4"`, false, `ID=.368±.001 length=1-1/4"`},
		{"Iron 7, ID9 code H-13.6-2, 460 cc", false, ""},
		{"ID 4ct", false, ""},
		{"bore 9.35 or 9.5, OD 13.4 - 13.6", false, "bore=9.35 or 9.5 OD=13.4 - 13.6"},
		{"9.35 or 9.5 mm bore, .370/.355 tip", true, "bore=9.35 or 9.5 mm tip=.370/.355"},
		{"Iron 7 - 13.6 mm OD", true, "OD=13.6 mm"},
		{"黑色：内径9.35mm，外径13.6mm、长度18mm", false, "内径=9.35mm 外径=13.6mm 长度=18mm"},
		{"9.35mm内径，13.6mm外径", true, "内径=9.35mm 外径=13.6mm"},
	}
	for _, test := range tests {
		var got []string
		for _, s := range In(lex, test.text, test.behind) {
			got = append(got, s.Name+"="+s.Text)
		}
		if diff := cmp.Diff(test.want, strings.Join(got, " ")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.text, diff)
		}
	}
}

func TestListNamed(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string]string{
		"FERRULE BLK ID/OD/L 9.35/13.60/18.0 MM":    "ID=9.35 MM OD=13.60 MM L=18.0 MM",
		"Zierring Innen-Ø / Länge: 9,35 / 18":       "Innen-Ø=9,35 Länge=18",
		"Ring ID/L .333/.500 IN, clear":             "ID=.333 IN L=.500 IN",
		"Ring ID/OD/L 9.35/13.60":                   "", // two sizes for three names
		"Ring ID/ID/L 9.35/13.60/18":                "", // one name twice
		"Ring ID/OD 9.35/13.60, ID/OD 8.50/12.20":   "", // which of them
		"Ring ID/OD 9.35/13.60x2":                   "", // within a longer word
		"Black/white ring 9.35/13.60":               "",
		"Ring and/or cap 9.35/13.6":                 "",
		"Ferrule 9.35/13.60/18.0 MM":                "",
		"Iron heads 3/4/5 in steps of 1/2/3 inches": "",
	} {
		var got []string
		for _, s := range listNamed(lex, text) {
			got = append(got, s.Name+"="+s.Text)
		}
		if diff := cmp.Diff(want, strings.Join(got, " ")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", text, diff)
		}
	}
}

func TestListWithin(t *testing.T) {
	tests := []struct {
		text string
		want []string
	}{
		{"Ferrule schwarz/silber 9,35x13,9x25", []string{"9,35", "13,9", "25"}},
		{`.368" x .540" x 1" black`, []string{`.368"`, `.540"`, `1"`}},
		{"tape 2 x 36", nil},         // two are none
		{"A 1x2x3 and B 4x5x6", nil}, // which of them
		{"9x9x9x9x9", nil},           // five
		{"Casquillo negro 13,5 x 10,8 x 9,3 x 19", []string{"13,5", "10,8", "9,3", "19"}},
		{"ソケット 黒 φ13.5×φ10.8×φ9.3×19", []string{"13.5", "φ10.8", "φ9.3", "19"}},
		{"code 7/9x13x25", nil}, // within another number
		{"AB9.35x13.6x25", nil}, // within a word
		{"9.35 mm x 13.6 mm x 25 mm", []string{"9.35 mm", "13.6 mm", "25 mm"}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, ListWithin(test.text)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", test.text, diff)
		}
	}
}
