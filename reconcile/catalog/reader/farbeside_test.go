package reader_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
)

// TestSizesAcross questions a size across a cross table, at its heading, which no part has or which is far from the others.
func TestSizesAcross(t *testing.T) {
	for name, test := range map[string]struct {
		sheet string
		said  []string
	}{
		"no length": {`
Furo de 9,3 mm em todos
Ø da base | Comprimento
 | 12 | 18 | 254 | 32
12,5 | T-1201 | T-1202 | T-1203 |
13,0 | T-1301 | T-1302 | T-1303 | T-1304
13,5 | T-1351 | T-1352 | T-1353 | T-1354
`, []string{"D3"}},
		"no base": {`
Trous de 9,3 mm
Longueur | Ø base
 | 13,0 | 135 | 13,8
20 | T-12 | T-13 | T-14
25 | T-22 | T-23 | T-24
`, []string{"C3"}},
		"a length that few have": {`
All bores 9.3 mm
Base OD (mm) | Length (mm)
 | 12 | 18 | 92 | 32
12.5 | T-1201 | T-1202 | T-1203 | T-1204
13.0 | T-1301 | T-1302 | T-1303 | T-1304
`, []string{"D3"}},
		"nothing strange": {`
All bores 9.3 mm
Base OD (mm) | Length (mm)
 | 12 | 18 | 25.4 | 38
12.5 | T-1201 | T-1202 | T-1203 | T-1204
13.0 | T-1301 | T-1302 | T-1303 | T-1304
`, nil},
		"German, in inches": {`
Bohrung .366 in
Ø unten (in) | Länge (in)
 | .5 | .75 | 10 | 1.25
.530 | T-1201 | T-1202 | T-1203 | T-1204
.540 | T-1301 | T-1302 | T-1303 | T-1304
`, []string{"D3"}},
	} {
		t.Run(name, func(t *testing.T) {
			c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", grid("List", test.sheet))}}, reader.Options{})
			defer show(t, c)
			var said []string
			for _, f := range c.Findings {
				if f.Severity >= finding.Warning {
					said = append(said, f.Place.Cell)
				}
			}
			slices.Sort(said)
			if diff := cmp.Diff(test.said, slices.Compact(said)); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			if len(c.Ferrules) < 6 {
				t.Errorf("%d ferrules", len(c.Ferrules))
			}
		})
	}
}
