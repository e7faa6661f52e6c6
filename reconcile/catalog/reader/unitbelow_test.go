package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestUnitBelowWhatIsIrrelevant takes no unit in the second line of headings for the role of a column whose first line speaks of what no joint depends on.
func TestUnitBelowWhatIsIrrelevant(t *testing.T) {
	for name, c := range map[string]struct {
		table string
		want  catalog.Role
	}{
		"least order, English": {"Item | HOSEL | | Price | MOQ\n | O.D. mm | Bore mm | USD | pcs", ""},
		"least order, German":  {"Art.-Nr. | Hals | | Preis | Mindestbestellmenge\n | Außen-Ø mm | Bohrung mm | EUR | Stück", ""},
		"least order, French":  {"Réf. | Col | | Prix | Minimum de commande\n | Ø ext. mm | Perçage mm | EUR | pcs", ""},
		"a stock":              {"Item | HOSEL | | Price | Stock\n | O.D. mm | Bore mm | USD | pcs", catalog.Stock},
	} {
		t.Run(name, func(t *testing.T) {
			got := read(t, grid("Heads", c.table+"\nHB-1 | 13.5 | 9.5 | 14.80 | 50\nHB-2 | 13.4 | 9.5 | 14.80 | 50\nHB-3 | 13.6 | 9.1 | 8.90 | 100"))
			if role := got.Tables[0].Columns[4].Role; role != c.want {
				defer show(t, got)
				t.Errorf("the last column is %q, want %q", role, c.want)
			}
		})
	}
}
