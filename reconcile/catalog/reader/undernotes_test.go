package reader_test

import (
	"math"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

// TestNotesUnderHeadings gives a tolerance that stands below the heading of a size to that size, and one that is of another size to that.
func TestNotesUnderHeadings(t *testing.T) {
	for notes, want := range map[string]struct{ base, length float64 }{
		"| at the shoulder, ±0.05 | | overall, ±0.25":      {0.05, 0.25},
		"| ±0.05 | before fitting | ±0.25":                 {0.05, 0.25},
		"| at the shoulder, ±0.05 | |":                     {0.05, 0},
		"| as turned, base OD ±0.05 | | ferrule":           {0.05, 0},
		"| all sizes, length ±0.25 | | see drawing number": {0, 0.25},
	} {
		t.Run(notes, func(t *testing.T) {
			c := read(t, grid("Ferrules", "Item | Base OD (mm) | Bore (mm) | Length (mm)\n"+notes+"\nQM-1 | 13.5 | 9.3 | 20\nQM-2 | 13.6 | 9.3 | 25\nQM-3 | 13.5 | 9.0 | 20"))
			defer show(t, c)
			if len(c.Ferrules) != 3 {
				t.Fatalf("%d ferrules", len(c.Ferrules))
			}
			for role, half := range map[catalog.Role]float64{catalog.BaseOD: want.base, catalog.Length: want.length} {
				if got := halfWidth(c.Ferrules[0].Fields.Dim(role)); math.Abs(got-half) > 1e-9 {
					t.Errorf("%s ±%v, want ±%v", role, got, half)
				}
			}
		})
	}
}

// halfWidth is half the width of the limits of a size in mm, zero where it has none.
func halfWidth(d measure.Dim) float64 {
	if !d.HasLimits() {
		return 0
	}
	return traits.MM(d.Width()) / 2
}
