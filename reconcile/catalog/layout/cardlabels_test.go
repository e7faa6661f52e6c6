package layout

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestSeveralLabels looks at further labels in the value of one, and at colons that follow no label.
func TestSeveralLabels(t *testing.T) {
	for text, want := range map[string]string{
		"9.30, Base: 13.6":                   "Bore=9.30 Base=13.6",
		"9,30 Fuß: 13,6 Länge: 25":           "Bore=9,30 Fuß=13,6 Länge=25",
		"9.30; base OD: 13.6. Price: £0.45":  "Bore=9.30 base OD=13.6 Price=£0.45",
		"9,30 - diamètre extérieur : 13,6":   "Bore=9,30 diamètre extérieur=13,6",
		"9.30 mm, in drawer: 46":             "Bore=9.30 mm in drawer=46",
		"9.30, seen at 12:30":                "Bore=9.30, seen at 12:30",
		"9.30, checked: Bob":                 "Bore=9.30, checked: Bob",
		"9.30 (was 9.35: a new drill)":       "Bore=9.30 (was 9.35: a new drill)",
		"9.30 by the drawing of the base: A": "Bore=9.30 by the drawing of the base: A",
		"9.30":                               "Bore=9.30",
	} {
		var got []string
		for _, e := range severalLabels(lexicon.New(nil), card{{label: "Bore", value: text}}) {
			got = append(got, e.label+"="+e.value)
		}
		if said := strings.Join(got, " "); said != want {
			t.Errorf("%q:\n got %s\nwant %s", text, said, want)
		}
	}
}
