package layout

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// TestTipBores reads bores that a note gives by tips, before them or behind.
func TestTipBores(t *testing.T) {
	lex := lexicon.New(nil)
	for _, c := range []struct {
		kind catalog.Kind
		text string
		want []string
	}{
		{catalog.Ferrules, "Bored .366 for .370 tips, .350 for .355 tips, .331 for .335 tips.", []string{".370: .366", ".355: .350", ".335: .331"}},
		{catalog.Ferrules, "Prices per dozen. Bore: .370 = 9.3, .355 = 8.9, .335 = 8.4", []string{".370: 9.3", ".355: 8.9", ".335: 8.4"}},
		{catalog.Ferrules, "Bohrung 9,3 für .370 und 8,9 für .355", []string{".370: 9,3", ".355: 8,9"}},
		{catalog.Ferrules, "Perçage 9,3 mm pour .370, 8,9 mm pour .355", []string{".370: 9,3 mm", ".355: 8,9 mm"}},
		{catalog.Ferrules, "内径は.370用9.3、.355用8.9です", []string{".370: 9.3", ".355: 8.9"}},
		{catalog.Heads, ".370 irons have a bore of .373, .355 ones of .358", []string{".370: .373", ".355: .358"}},
		{catalog.Ferrules, "For .370 and .355 tips, 12 and 25 long", nil},
		{catalog.Ferrules, "Bore 9.3 for .370 tips", nil}, // one is a title of all
		{catalog.Ferrules, "Bore ±0.05 for .370, ±0.03 for .355", nil},
		{catalog.Ferrules, "Bore 9.3 for .370 tips, 8.9 for .370 taper", nil},
		{catalog.Ferrules, "Bored .350 for .355, .335 for .350", nil}, // which are the tips?
		{catalog.Ferrules, "Bored 9.3 for .370 and 8.9 for .355?", nil},
	} {
		var got []string
		for _, one := range TipBores(lex, c.kind, c.text, "") {
			got = append(got, fmt.Sprintf(".%.0f: %s", one.Tip.Inches()*1000, one.Text))
		}
		if diff := cmp.Diff(c.want, got, cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%s: (-want +got)\n%s", c.text, diff)
		}
	}
}
