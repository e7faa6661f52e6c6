package layout

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog/lexicon"
)

func TestTwoNames(t *testing.T) {
	lex := lexicon.New(nil)
	for heading, want := range map[string][]string{
		"Part # / colour":       {"Part #", "colour"},
		"Art.-Nr./Bezeichnung":  {"Art.-Nr.", "Bezeichnung"},
		"Réf. / Désignation":    {"Réf.", "Désignation"},
		"品番／品名":                 {"品番", "品名"},
		"Description / part no": {"Description", "part no"},
		"Part no.":              nil,
		"OD / ID":               nil,
		"Part no. / price":      nil,
		"Colour / description":  nil,
		"":                      nil,
	} {
		if diff := cmp.Diff(want, twoNames(lex, heading)); diff != "" {
			t.Errorf("%q (-want +got)\n%s", heading, diff)
		}
	}
}
