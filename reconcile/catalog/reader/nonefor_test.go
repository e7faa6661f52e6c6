package reader_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestTipsThatTheBoresAreNoneFor says where the tip and the bore of a head contradict each other, at both, and leaves the stranger one open. It holds where
// there are few heads too, and is silent where a sleeve goes between.
func TestTipsThatTheBoresAreNoneFor(t *testing.T) {
	for name, test := range map[string]struct {
		sheet string
		cells []string
		open  string // of the part X-2
	}{
		"a tip far thinner, among three": {`
Part | Hosel OD (mm) | Bore (mm) | Tip
X-1 | 13.5 | 9.5 | .370
X-2 | 13.5 | 9.5 | .335
X-3 | 13.5 | 9.5 | .370
`, []string{"C3", "D3"}, "tip"},
		"of two heads, German": {`
Art.-Nr. | Hosel Ø außen (mm) | Bohrung (mm) | Schaftspitze
X-1 | 13,5 | 9,5 | .370
X-2 | 13,5 | 9,5 | .335
`, []string{"C3", "D3"}, "tip"},
		"a tip that does not go in, Spanish": {`
Código | Ø exterior hosel (mm) | Perforación (mm) | Punta
X-1 | 12,0 | 8,6 | .335
X-2 | 12,0 | 8,6 | .370
X-3 | 13,5 | 9,5 | .370
`, []string{"C3", "D3"}, "tip"},
		"the bore is the stranger one, French": {`
Réf. | Ø ext. hosel (mm) | Alésage (mm) | Pointe
X-1 | 12,0 | 8,6 | .335
X-2 | 12,0 | 9,6 | .335
X-3 | 12,0 | 8,6 | .335
`, []string{"C3", "D3"}, "bore"},
		"bores that are the names of tips": {`
Part | Hosel OD (in) | Bore (in) | Tip
X-1 | .530 | .370 | .370
X-2 | .530 | .370 | .335
X-3 | .480 | .335 | .335
`, []string{"C3", "D3"}, "tip"},
		"two tips, none of which is that of the bore": {`
Part | Hosel OD (mm) | Bore (mm) | Tip
X-1 | 13.5 | 9.5 | .370
X-2 | 13.5 | 9.5 | .335/.350
X-3 | 13.5 | 9.5 | .370
`, []string{"C3", "D3"}, "tip"},
		"a little off, among many": {`
Part | Hosel OD (mm) | Bore (mm) | Tip
X-1 | 13.5 | 9.1 | .355 taper
X-2 | 13.5 | 9.5 | .355 taper
X-3 | 13.5 | 9.1 | .355 taper
X-4 | 13.5 | 9.1 | .355 taper
`, []string{"C3", "D3"}, ""},
		"a little off, among few": {`
Part | Hosel OD (mm) | Bore (mm) | Tip
X-1 | 13.5 | 9.1 | .355 taper
X-2 | 13.5 | 9.5 | .355 taper
`, nil, ""},
		"all of them": {`
Part | Hosel OD (mm) | Bore (mm) | Tip
X-1 | 13.5 | 9.5 | .335
X-2 | 13.5 | 9.5 | .335
X-3 | 13.5 | 9.5 | .335
`, []string{"D1"}, ""},
		"all of them, with shims": {`
Woods, each with a shim for the .335 tip
Part | Hosel OD (mm) | Bore (mm) | Tip
X-1 | 13.5 | 9.5 | .335
X-2 | 13.5 | 9.5 | .335
`, nil, ""},
		"a shim for one of them": {`
Part | Hosel OD (mm) | Bore (mm) | Tip | Remark
X-1 | 13.5 | 9.5 | .370 |
X-2 | 13.5 | 9.5 | .335 | with shim sleeve
X-3 | 13.5 | 9.5 | .370 |
`, nil, ""},
		"a shim for one of them, German": {`
Art.-Nr. | Hosel Ø außen (mm) | Bohrung (mm) | Schaftspitze | Bemerkung
X-1 | 13,5 | 9,5 | .370 |
X-2 | 13,5 | 9,5 | .335 | mit Reduzierhülse
X-3 | 13,5 | 9,5 | .370 |
`, nil, ""},
		"names of tips rounded to a tenth of a millimetre": {`
Part | Hosel OD (mm) | Bore (mm) | Tip
X-1 | 13.5 | 9.4 | .370
X-2 | 12.0 | 8.5 | .335
X-3 | 13.5 | 9.4 | .370
X-4 | 13.5 | 9.4 | .370
`, nil, ""},
		"a ferrule": {`
Ferrules | | | |
Part | Tip | Bore (mm) | Base OD (mm) | Length (mm)
X-1 | .370 | 9.35 | 13.5 | 25
X-2 | .335 | 9.35 | 13.5 | 25
X-3 | .370 | 9.35 | 13.5 | 25
`, []string{"B4", "C4"}, ""},
		"a ferrule with the bore of another tip, which its own may take": {`
Ferrules | | | |
Part | Tip | Bore (in) | Base OD (in) | Length (in)
X-1 | .355 taper | .350 | .540 | 1.00
X-2 | .355 taper | .366 | .540 | 1.00
X-3 | .355 taper | .350 | .530 | .500
X-4 | .370 | .366 | .540 | 1.00
X-5 | .370 | .366 | .530 | .500
`, []string{"B4", "C4"}, ""},
		"a head with the bore of another tip, which its own may take, French": {`
Réf. | Ø ext. hosel (mm) | Alésage (mm) | Pointe
X-1 | 13,5 | 9,05 | .355 conique
X-2 | 13,5 | 9,45 | .355 conique
X-3 | 13,5 | 9,1 | .355 conique
X-4 | 13,5 | 9,5 | .370
X-5 | 13,5 | 9,45 | .370
`, []string{"C3", "D3"}, ""},
		"a bore of which the other tip has one only": {`
Ferrules | | | |
Part | Tip | Bore (in) | Base OD (in) | Length (in)
X-1 | .355 taper | .350 | .540 | 1.00
X-2 | .355 taper | .366 | .540 | 1.00
X-3 | .355 taper | .350 | .530 | .500
X-4 | .370 | .366 | .540 | 1.00
`, nil, ""},
		"two bores for one tip": {`
Ferrules | | | |
Part | Tip | Bore (in) | Base OD (in) | Length (in)
X-1 | .355 taper | .350 | .540 | 1.00
X-2 | .355 taper | .366 | .540 | 1.00
X-3 | .355 taper | .350 | .530 | .500
X-4 | .355 taper | .366 | .530 | .500
X-5 | .370 | .366 | .540 | 1.00
X-6 | .370 | .366 | .530 | .500
`, nil, ""},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Sheet1", test.sheet))
			defer show(t, c)
			if diff := cmp.Diff(test.cells, warnedCells(c)); diff != "" {
				t.Errorf("warnings (-want +got)\n%s", diff)
			}
			_, got, _ := strings.Cut(rowOf(t, c, "X-2"), "{open ")
			if diff := cmp.Diff(test.open, strings.TrimSuffix(got, "}")); diff != "" {
				t.Errorf("open (-want +got)\n%s", diff)
			}
		})
	}
}
