package reader_test

import (
	"math"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestTolerancesOfSections keeps a tolerance in the title of a section to what stands below it, and one above the table to all the others.
func TestTolerancesOfSections(t *testing.T) {
	const heading = "Code | What | Hosel OD (mm) | Bore (mm) | Bore depth (mm)\n"
	rows := func(first, second string) string {
		return first + "\nKC-605 | 5 iron | 13.5 | 9.5 | 32\nKC-606 | 6 iron | 13.5 | 9.5 | 32\n" + second + "\nVM-301 | 3 wood | 13.5 | 9.5 | 32\nVM-305 | 5 wood | 13.5 | 9.5 | 32\n"
	}
	for name, test := range map[string]struct {
		table         string
		first, second float64
	}{
		"second":          {heading + rows("KAROO CASTINGS", "VAAL, mm again, hosel OD is +/-0.1 on all of these"), 0, 0.1},
		"first":           {heading + rows("Eisen, Hals-Ø ±0,1", "Hölzer"), 0.1, 0},
		"both":            {heading + rows("Hosel OD ±0.1", "Hosel OD ±0.05"), 0.1, 0.05},
		"below the first": {heading + strings.Replace(rows("Irons", "Woods"), "Woods", "Hosel OD of these ±0.1\nWoods", 1), 0, 0},
		"above":           {"Hosel OD ±0.2\n\n" + heading + rows("Irons", "Woods, hosel OD ±0.05"), 0.2, 0.05},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", test.table))
			defer show(t, c)
			if len(c.Heads) != 4 {
				t.Fatalf("%d heads", len(c.Heads))
			}
			for i, want := range []float64{test.first, test.first, test.second, test.second} {
				if got := halfWidth(c.Heads[i].Fields.Dim(catalog.HoselOD)); math.Abs(got-want) > 1e-9 {
					t.Errorf("%s ±%v, want ±%v", c.Heads[i].Part, got, want)
				}
			}
		})
	}
}
