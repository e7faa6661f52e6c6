package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// Each of these is the least of the made-up sheets (reconcile/internal/mill) whose sizes a person reads without asking and the reader left
// open, by its cause.

// Sizes beside which each row has its unit are compared in that unit, where those of another would be possible too.
func TestUsualSizesBesideTheirUnits(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Countersink dia. | Hosel OD | Countersink depth | Bore | Unit
QH-22 | 0.425 | 0.505 | 0.060 | 0.375 | inch
QH-26 | 0.410 | 0.525 | 0.050 | 0.359 | inch
QH-28 | 0.410 | 0.545 | 0.030 | 0.358 | in
QH-31 | 0.415 | 0.500 | 0.040 | 0.373 | inch
QH-34 | 0.430 | 0.530 | 0.050 | 0.375 | in
QH-38 | 0.410 | 0.480 | 0.060 | 0.372 | inch
QH-41 | 0.415 | 0.530 | 0.060 | 0.359 | in
QH-44 | 0.415 | 0.535 | 0.060 | 0.359 | in
QH-46 | 0.415 | 0.535 | 0.050 | 0.372 | inch
QH-50 | 0.420 | 0.530 | 0.060 | 0.375 | inch
`))
	defer show(t, c)
	for part, depth := range map[string]float64{"QH-22": 1.524, "QH-28": 0.762, "QH-34": 1.27} {
		wantRow(t, c, part, catalog.Assumed, sizes{catalog.CountersinkDepth: depth})
	}
}
