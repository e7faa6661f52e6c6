package layout

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
)

func TestKindOfType(t *testing.T) {
	lex := lexicon.New(nil)
	for text, want := range map[string]catalog.Kind{
		"Head": catalog.Heads, "Ferrule": catalog.Ferrules, "Wedge": catalog.Heads, "ferro": catalog.Heads,
		"Testa ferro": catalog.Heads, "Wedge head": catalog.Heads, "Iron ferrule": catalog.Ferrules, "Ghiera": catalog.Ferrules,
		"Head ferrule": catalog.UnknownKind, "Ferrule black": catalog.UnknownKind, "black": catalog.UnknownKind, "": catalog.UnknownKind,
	} {
		if got := kindOfType(lex, text); got != want {
			t.Errorf("%q is %v, want %v", text, got, want)
		}
	}
}
