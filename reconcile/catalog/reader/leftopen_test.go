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

// Noughts that fill up every number of a column are no digits: 0.5310 is 13.5 mm.
func TestNoughtsThatFillUp(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Hosel OD (in) | Bore (mm)
TR 6144 | 13.20 | 0.5200 | 9.50
TR 6146 | 13.70 | 0.5390 | 9.12
TR 6148 | 12.20 | 0.4800 | 9.10
TR 6152 | 13.80 | 0.5480 | 9.07
`))
	defer show(t, c)
	wantRow(t, c, "TR 6146", catalog.Used, sizes{catalog.HoselOD: 13.7})
	wantFinding(t, c, "data.conflict", "B5", "13.80")
}

// Whole numbers are chosen, not rounded: 25.00 is not one inch.
func TestNoughtsOfWholeNumbers(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (mm) | Bore (mm) | Length (mm) | Length (in)
TR 7138 | 13.5 | 9.35 | 15.00 | 0.5910
TR 7139 | 13.5 | 9.35 | 19.00 | 0.7480
TR 7144 | 13.2 | 9.35 | 22.00 | 0.8660
TR 7146 | 13.7 | 8.97 | 25.00 | 1.0000
TR 7148 | 12.2 | 8.97 | 30.00 | 1.1810
TR 7152 | 12.7 | 8.97 | 32.00 | 1.2600
`))
	defer show(t, c)
	wantRow(t, c, "TR 7148", catalog.Used, sizes{catalog.Length: 30})
	wantFinding(t, c, "data.conflict", "D5", "25.00")
}

// A word below one of two headings that say the same makes them two.
func TestWordBelowOneHeading(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Color | OD | Length | OD | ID
 | | top | | |
AL-34 | black | 10 | 25.4 | 12.9 | 8.97
AL-36 | black | 10.4 | 15 | 12.2 | 8.95
AL-38 | black | 10.4 | 15 | 13 | 9.35
`))
	defer show(t, c)
	wantRow(t, c, "AL-36", catalog.Assumed, sizes{catalog.TopOD: 10.4, catalog.BaseOD: 12.2, catalog.Bore: 8.95})
}

// A heading that could be that of heads does not make a list of ferrules one of both where its sizes are those of no head.
func TestOneHeadingOfAnotherKind(t *testing.T) {
	c := read(t, grid("Lista", `
Nº de pieza | Diám. int. (mm) | Altura (mm) | Diámetro exterior (mm) | Ø superior (mm) | Ø cuello (mm)
AL-15 | 9.32 | 22 | 12.2 | 10.3 | 10.4
AL-06 | 9.35 | 13 | 12.4 | 10.2 | 10.3
AL-30 | 8.97 | 32 | 12.5 | 10.3 | 10.5
AL-01 | 8.94 | 19 | 12.7 | 10 | 10.4
`))
	defer show(t, c)
	if kind := c.Tables[0].Kind; kind != catalog.Ferrules {
		t.Errorf("the table lists %v", kind)
	}
	wantRow(t, c, "AL-30", catalog.Used, sizes{catalog.Bore: 8.97, catalog.BaseOD: 12.5})
}

// Sizes with their units are sizes, whole numbers too.
func TestWholeSizesWithUnits(t *testing.T) {
	c := read(t, grid("List", `
Ref | Length | Ferrule | OD
 | | ID |
ZF-39 | 0.75" | 368 thou | 535 thou
ZF-42 | 0.5" | 367 thou | 510 thou
ZF-45 | 0.875" | 367 thou | 540 thou
`))
	defer show(t, c)
	wantRow(t, c, "ZF-42", catalog.Assumed, sizes{catalog.Bore: 9.3218, catalog.BaseOD: 12.954})
}

// A line of ditto marks is a row, and no heading.
func TestLineOfDittoMarks(t *testing.T) {
	c := read(t, grid("List", `
Ref | Item description | Neck OD [thou] | Bore, thou
N5075 | Irons 1 | 490 | 357
N5111 | Irons 1 | -"- | 375
N5081 | Irons 1 | 500 | -"-
N5089 | Irons 2 | -"- | 358
N5103 | Irons 4 | -"- | -"-
N5086 | Irons 4 | 540 | -"-
`))
	defer show(t, c)
	wantRow(t, c, "N5103", catalog.Assumed, sizes{catalog.HoselOD: 12.7, catalog.Bore: 9.0932})
	wantRow(t, c, "N5086", catalog.Assumed, sizes{catalog.HoselOD: 13.716, catalog.Bore: 9.0932})
}

// A part whose sizes are not known yet goes on with no heading, though its number could be "No." with digits.
func TestPartBelowAHeading(t *testing.T) {
	c := read(t, grid("List", `
Code | Name | ID x OD x Height
N4334 | Irons 1 | ?
N4339 | Irons 1 | 9.35 x 13 x 15
N4342 | Irons 1 | 9.3 x 13.5 x 25.4
N4344 | Irons 2 | 9.3 x 13.8 x 30
`))
	defer show(t, c)
	wantRow(t, c, "N4334", catalog.Held, sizes{catalog.Bore: 0})
	wantFinding(t, c, "data.missing", "C2", "N4334")
}
