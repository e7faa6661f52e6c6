package reader_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
)

// Two sizes of a row that are each what the other should be are left open, whichever columns they stand in, and nothing else is.
func TestExchangedCells(t *testing.T) {
	for name, test := range map[string]struct {
		sheet string
		open  []string
	}{
		"bore deeper than the hosel is long": {`
Artikel-Nr. | Hosel-Ø außen mm | Bohrung mm | Bohrtiefe mm | Hosellänge mm
EK-5 | 13,5 | 9,5 | 32 | 65
EK-6 | 13,5 | 9,5 | 32 | 66
EK-7 | 13,5 | 9,5 | 67 | 32
EK-8 | 13,5 | 9,5 | 33 | 68
`, []string{"D4", "E4"}},
		"on its side": {`
Référence | TF-5 | TF-6 | TF-7 | TF-8
Ø ext. du hosel (mm) | 13,5 | 13,5 | 13,5 | 13,6
Perçage (mm) | 9,5 | 9,5 | 9,5 | 9,5
Profondeur de perçage (mm) | 32 | 32 | 68 | 33
Longueur du hosel (mm) | 66 | 67 | 32 | 69
`, []string{"D4", "D5"}},
		"base and length, the size of the length an unremarkable one": {`
Varenr. | Utv. diameter nede, mm | Hull, mm | Lengde, mm
K-1 | 13.5 | 9.3 | 13
K-2 | 13.5 | 9.3 | 19
K-3 | 22 | 9.3 | 13.5
K-4 | 13.5 | 9.3 | 25
K-5 | 11.9 | 8.4 | 19
`, []string{"B4", "D4"}},
		"a base beyond what ferrules have, and a length that no other has": {`
Part No | Base OD (in) | Bore (in) | Length (in)
F-1 | .535 | .366 | 1
F-2 | .535 | .366 | .75
F-3 | 1 | .366 | .540
F-4 | .535 | .366 | .75
`, []string{"B4", "D4"}},
		"top and bore": {`
品番 | 根元外径(mm) | 先端外径(mm) | 内径(mm) | 全長(mm)
F-1 | 13.5 | 10.8 | 9.3 | 19
F-2 | 13.5 | 9.3 | 10.8 | 25
F-3 | 13.5 | 10.8 | 9.3 | 32
`, []string{"C3", "D3"}},
		"a card of three": {`
Ref.: AB-1 | | Ref.: AB-2 | | Ref.: AB-3 |
Ø exterior base | 13,5 mm | Ø exterior base | 13,5 mm | Ø exterior base | 25 mm
Ø interior | 9,3 mm | Ø interior | 9,3 mm | Ø interior | 9,3 mm
Largo | 19 mm | Largo | 25 mm | Largo | 13,5 mm
`, []string{"F2", "F4"}},
		"twice among many": {`
Part No | Hosel OD (mm) | Bore depth (mm) | Hosel length (mm)
H-1 | 13.5 | 32 | 65
H-2 | 13.5 | 32 | 65
H-3 | 13.5 | 66 | 32
H-4 | 13.5 | 32 | 66
H-5 | 13.5 | 32 | 66
H-6 | 13.5 | 32 | 67
H-7 | 13.5 | 67 | 32
H-8 | 13.5 | 33 | 67
H-9 | 13.5 | 33 | 68
H-10 | 13.5 | 33 | 69
H-11 | 13.5 | 33 | 69
`, []string{"C4", "C8", "D4", "D8"}},
		"a straight ring, shorter than it is wide": {`
Part No | Base OD (mm) | Top OD (mm) | Bore (mm) | Length (mm)
F-1 | 13.5 | 10.0 | 9.3 | 12.7
F-2 | 13.7 | 10.1 | 9.3 | 19
F-3 | 13.2 | 9.8 | 8.95 | 25.4
F-4 | 13.0 | 13.0 | 8.8 | 9.5
F-5 | 12.7 | 9.4 | 8.4 | 16
`, nil},
		"short ferrules for woods": {`
Part No | Base OD (mm) | Bore (mm) | Length (mm)
F-1 | 13.5 | 9.3 | 25.4
F-2 | 13.6 | 9.3 | 25.4
F-3 | 13.5 | 8.9 | 19
F-4 | 12.2 | 8.4 | 12.7
`, nil},
		"drivers with bores through a short hosel": {`
Part No | Hosel OD (mm) | Bore (mm) | Bore depth (mm) | Hosel length (mm)
H-1 | 13.5 | 9.5 | 32 | 65
H-2 | 13.5 | 9.5 | 32 | 66
H-3 | 12.2 | 8.6 | 36 | 28
H-4 | 13.5 | 9.5 | 32 | 67
`, nil},
	} {
		t.Run(name, func(t *testing.T) {
			c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", grid("List", test.sheet))}}, reader.Options{})
			defer show(t, c)
			var open []string
			for _, f := range c.Findings {
				if f.Code == "data.implausible" && f.Severity == finding.Error {
					open = append(open, f.Place.Cell)
				}
			}
			slices.Sort(open)
			if diff := cmp.Diff(test.open, slices.Compact(open)); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}
