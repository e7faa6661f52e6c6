package layout

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestNotUnderstoodOfAll looks at which sizes that a letter gives to all parts are for a person to say.
func TestNotUnderstoodOfAll(t *testing.T) {
	lex := lexicon.New(nil)
	parts := [][]string{{"TK-1: base 13.6 mm, length 18 mm"}, {"TK-2: base 13.6 mm, length 25 mm"}, {"TK-3: base 13.8 mm, length 25 mm"}}
	for text, want := range map[string]string{
		"Every one of them is bored 9.3 mm.":      "",
		"Alle sind 9,3 mm gebohrt.":               "",
		"Sie sind alle für .370.":                 "",
		"Todas para punta .370":                   "",
		"They are all 9.3 mm somewhere.":          "9.3 mm",
		"Tutte forate 93 mm.":                     "93 mm",
		"都是.370的":                                 ".370",
		"Alle Preise ab 50 Stück, je 1,20 Euro":   "",
		"The parcel is 300 mm long, and no more.": "",
	} {
		var got []string
		for _, r := range items(grid.New(sheettest.Texts("letter", append(parts[:3:3], []string{text}), false)), lex) {
			r.To++
			for _, one := range r.SaidOfAll(lex) {
				got = append(got, one.NotUnderstood(lex, catalog.Ferrules)...)
			}
		}
		if diff := cmp.Diff(want, strings.Join(got, "; ")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
}
