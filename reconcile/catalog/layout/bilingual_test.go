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

func TestBilingualHeadings(t *testing.T) {
	lex := lexicon.New(nil)
	for name, test := range map[string]struct {
		rows [][]string
		want []string
	}{
		"a group and its columns in both languages": {
			rows: [][]string{{"Part / Pièce", "Hosel / Manche", "", "", "Remarks / Rem."}, {"", "O.D. / ext.", "Bore / trou", "Depth / prof.", ""}, {"FS-1", "13.5", "9.4", "32", "new"}},
			want: []string{"part", "hosel_od", "bore", "bore_depth", "note"},
		},
		"the second language is the clearer one": {
			rows: [][]string{{"Code / Code", "Ø ext. | Hosel OD", "Trou | Bore", "Prof. | Depth", "Prix | Price"}, {"FS-1", "13.5", "9.4", "32", "11"}},
			want: []string{"part", "hosel_od", "bore", "bore_depth", "price"},
		},
		"a unit in the half that goes": {
			rows: [][]string{{"Nr / No", "Ø Hals / Ø manche mm", "Bohrung / Bore", "Tiefe / Depth"}, {"FS-1", "13.5", "9.4", "32"}},
			want: []string{"part", "hosel_od mm", "bore", "bore_depth"},
		},
		"two sizes in one language": {
			rows: [][]string{{"Part", "Hosel OD / bore", "Bore / depth", "Price / each"}, {"FS-1", "13.5", "9.4", "11"}},
			want: []string{"part", "hosel_od several", "bore_depth several", "price"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			tables := Tables(grid.New(sheettest.Texts("Heads", append(test.rows, test.rows[len(test.rows)-1]), true)), lex, catalog.SheetRules{})
			if len(tables) != 1 {
				t.Fatalf("%d tables, want 1", len(tables))
			}
			var got []string
			for _, h := range tables[0].Columns {
				said := []string{lex.Match(h.Parts...)[0].Role}
				if h.Several {
					said = append(said, "several")
				}
				if unit := HeadingUnit(lex, h); unit != "" {
					said = append(said, unit)
				}
				got = append(got, strings.Join(said, " "))
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("roles (-want +got):\n%s", diff)
			}
		})
	}
}
