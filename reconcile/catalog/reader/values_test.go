package reader_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

func TestUnitByPhysics(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD | Bore | Bore depth
KR-20 | 13.6 | 9.5 | 32
KR-21 | 13.4 | 9.5 | 30
`), grid("Heads US", `
Part No | Hosel OD | Bore | Bore depth
KS-20 | .535 | .373 | 1.25
KS-21 | .530 | .373 | 1.375
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-20", catalog.Assumed, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.5, catalog.BoreDepth: 32})
	wantRow(t, c, "KS-20", catalog.Assumed, sizes{catalog.HoselOD: 13.589, catalog.Bore: 9.4742, catalog.BoreDepth: 31.75})
	wantFinding(t, c, "data.unit", "B1", "unit of Hosel OD taken as mm: 13.6 in would be 345.44 mm")
}

func TestUnitFromFormatAndNote(t *testing.T) {
	s := grid("Heads", `
Part No | Hosel OD | Bore
KR-20 | 0.535 | 9.5
KR-21 | 0.530 | 9.5
All other dimensions in millimetres
`)
	for r := 1; r <= 2; r++ {
		s.Rows[r][1].Format = `0.000"in"`
	}
	c := read(t, s)
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-20", catalog.Used, sizes{catalog.HoselOD: 13.589, catalog.Bore: 9.5})
}

func TestUnitHeld(t *testing.T) {
	// Counterbore depths of 0.3 to 0.5 are possible in both units, and no other column helps.
	c := read(t, grid("Heads", `
Part No | Hosel OD | Countersink depth
KR-20 | 13.6 mm | 0.3
KR-21 | 13.4 mm | 0.4
`))
	defer show(t, c)
	wantFinding(t, c, "data.unit", "C1", "nothing says in which unit")
	wantOpen(t, c, "KR-20", catalog.CountersinkDepth)
	wantRow(t, c, "KR-20", catalog.Assumed, sizes{catalog.HoselOD: 13.6, catalog.CountersinkDepth: 0}) // assumed: the top is countersunk
}

func TestMixedUnits(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
KR-20 | 13.6 | 9.5
KR-21 | .535 | 9.5
KR-22 | .530 in | 9.5
KR-23 | 13.4 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "KR-21", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 9.5})
	wantFinding(t, c, "data.unit", "B3", "in inches it would be 13.589 mm")
	wantRow(t, c, "KR-22", catalog.Used, sizes{catalog.HoselOD: 13.462})
	if len(c.Heads) != 4 {
		t.Errorf("%d heads, want the held one too", len(c.Heads))
	}
}

func TestHeadingUnitThatCannotBe(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
KR-20 | .536 | 9.5
KR-21 | .535 | 9.5
`))
	defer show(t, c)
	wantFinding(t, c, "data.unit", "B1", "in inches it would be")
	wantRow(t, c, "KR-20", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 9.5})
}

func TestImplausible(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
KR-20 | 13.6 | 9.5
KR-21 | 6.8 | 9.5
KR-22 | 136 | 9.5
KR-23 | 345.4 | 9.5
KR-24 | 13.4 | 4.75
`))
	defer show(t, c)
	wantRow(t, c, "KR-21", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 9.5})
	wantFinding(t, c, "data.implausible", "B3", "13.6 mm (a radius")
	wantFinding(t, c, "data.implausible", "B4", "13.6 mm (a decimal point")
	wantFinding(t, c, "data.implausible", "B5", "13.598 mm (millimetres among inches")
	wantFinding(t, c, "data.implausible", "C6", "9.5 mm (a radius")
}

func TestOutliers(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Bore (mm) | Base OD (mm) | Length (mm)
F-1 | 9.35 | 13.6 | 25
F-2 | 9.35 | 13.7 | 25
F-3 | 9.35 | 13.6 | 2.54
F-4 | 9.35 | 13.7 | 19
F-5 | 9.35 | 13.6 | 19
F-6 | 9.35 | 19.2 | 25
F-7 | 9.35 | 13.6 | 6.35
F-8 | 9.35 | 13.6 | 25
F-9 | 9.35 | 13.6 | 85
F-10 | 9.35 | 16.3 | 25
`))
	defer show(t, c)
	wantFinding(t, c, "data.implausible", "D4", "25.4 mm (a decimal point")
	wantOpen(t, c, "F-3", catalog.Length)
	wantRow(t, c, "F-3", catalog.Used, sizes{catalog.Length: 0})
	wantFinding(t, c, "data.implausible", "C7", "hardly any part has such a size; it is left open")
	wantRow(t, c, "F-6", catalog.Held, sizes{catalog.BaseOD: 0})
	wantFinding(t, c, "data.implausible", "D10", "hardly any part has such a size; it is left open")
	wantOpen(t, c, "F-9", catalog.Length)
	wantFinding(t, c, "data.implausible", "C11", "used as it stands")
	wantRow(t, c, "F-10", catalog.Used, sizes{catalog.BaseOD: 16.3})
	wantRow(t, c, "F-7", catalog.Used, sizes{catalog.Length: 6.35})
}

// A diameter beyond all others that would be among them with two digits exchanged is said, one of another sort of club is not.
func TestDigitsExchanged(t *testing.T) {
	for name, test := range map[string]struct{ heading, size, want string }{
		"mm":                   {"Ø ext. du hosel (mm)", "13,5 13,6 15,3 13,4 13,5", "B4"},
		"inches":               {"Hosel OD (in)", ".535 .540 .450 .545 .535", "B4"},
		"the first":            {"Hosel-Ø außen mm", "15,20 12,10 13,50 12,40 12,20", "B2"},
		"none else is so":      {"Hosel OD (mm)", "12.0 12.1 15.2 12.1 12.0", ""},
		"an iron among woods":  {"Hosel OD (mm)", "12.3 12.2 12.3 13.2 12.1", ""},
		"digits of a fraction": {"Hosel OD (in)", "1/2 1/2 17/32 9/16 1/2", ""},
	} {
		list := "Ref. | " + test.heading + " | Loft\n"
		for i, size := range strings.Fields(test.size) {
			list += fmt.Sprintf("KR-%d | %s | %d\n", i, size, 20+4*i)
		}
		c := read(t, grid("Heads", list))
		if got := strings.Join(of(c, "data.implausible"), "; "); !strings.HasSuffix(got, test.want) || (got == "") != (test.want == "") {
			t.Errorf("%s: %s, want %s", name, got, test.want)
			show(t, c)
		}
	}
}

func TestToleranceThatCannotBeMeant(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (in) | Tolerance | Bore (in)
KR-20 | .535 | ±0.1 | .373
KR-21 | .535 | ±.003 | .373
`))
	defer show(t, c)
	wantFinding(t, c, "data.implausible", "B2", "range over 5.08 mm")
	wantRow(t, c, "KR-20", catalog.Assumed, sizes{catalog.HoselOD: 13.589})
	if od := c.Heads[0].Head.HoselOD; od.HasLimits() {
		t.Errorf("hosel OD %v", od)
	}
}

func TestColumnOfRadii(t *testing.T) {
	for name, heading := range map[string]string{"with unit": "Hosel OD (mm)", "without": "Hosel OD"} {
		t.Run(name, func(t *testing.T) {
			text := "Part No | " + heading + " | Bore (mm)\nKR-20 | 6.8 | 9.5\nKR-21 | 6.7 | 9.5\nKR-22 | 6.75 | 9.5"
			c := read(t, grid("Heads", text))
			defer show(t, c)
			wantFinding(t, c, "data.implausible", "B1", "as radii only")
			wantRow(t, c, "KR-20", catalog.Held, sizes{catalog.HoselOD: 0})
			rules := catalog.Mapping{Sheets: map[string]catalog.SheetRules{"Heads": {Columns: map[string]catalog.ColumnRule{"B": {Radius: true, Unit: "mm"}}}}}
			settled := readInputs(t, reader.Options{Map: rules}, reader.Input{Book: book("orrin.xlsx", grid("Heads", text))})
			wantRow(t, settled, "KR-20", catalog.Assumed, sizes{catalog.HoselOD: 13.6})
		})
	}
}

func TestRadiusColumn(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel radius (mm) | Bore (mm)
KR-20 | 6.8 | 9.5
KR-21 | 6.7 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "KR-20", catalog.Assumed, sizes{catalog.HoselOD: 13.6})
}

func TestTolerances(t *testing.T) {
	for name, test := range map[string]struct {
		text         string
		origin       measure.Origin
		lower, upper float64
	}{
		"cell":    {"Part No | Hosel OD (mm) | Bore (mm)\nKR-20 | 13.6 ±0.05 | 9.5\nKR-21 | 13.4 ±0.05 | 9.5", measure.Stated, 13.55, 13.65},
		"heading": {"Part No | Hosel OD ±0.05 (mm) | Bore (mm)\nKR-20 | 13.6 | 9.5\nKR-21 | 13.4 | 9.5", measure.Stated, 13.55, 13.65},
		"column":  {"Part No | Hosel OD (mm) | Tol. | Bore (mm) | Tol.\nKR-20 | 13.6 | ±0.05 | 9.5 | ±0.02\nKR-21 | 13.4 | ±0.05 | 9.5 | ±0.02", measure.Stated, 13.55, 13.65},
		"bare":    {"Part No | Hosel OD (mm) | OD tolerance (mm) | Bore (mm)\nKR-20 | 13.6 | 0.05 | 9.5\nKR-21 | 13.4 | 0.05 | 9.5", measure.Stated, 13.55, 13.65},
		"note":    {"Part No | Hosel OD (mm) | Bore (mm)\nKR-20 | 13.6 | 9.5\nKR-21 | 13.4 | 9.5\nTolerance ±0.1 mm unless stated", measure.General, 13.5, 13.7},
		"limits":  {"Part No | Hosel OD min (mm) | Hosel OD max (mm) | Bore (mm)\nKR-20 | 13.55 | 13.65 | 9.5\nKR-21 | 13.4 | 13.5 | 9.5", measure.Stated, 13.55, 13.65},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", test.text))
			defer show(t, c)
			wantNoErrors(t, c)
			wantRow(t, c, "KR-20", catalog.Used, sizes{catalog.HoselOD: 13.6})
			if len(c.Heads) != 2 {
				t.Fatalf("%d heads", len(c.Heads))
			}
			od := c.Heads[0].Head.HoselOD
			if od.Origin() != test.origin || absolute(od.Lower().Millimetres()-test.lower) > 1e-6 || absolute(od.Upper().Millimetres()-test.upper) > 1e-6 {
				t.Errorf("hosel OD %v to %v, origin %v", od.Lower(), od.Upper(), od.Origin())
			}
		})
	}
}

func TestISO2768Note(t *testing.T) {
	c := read(t, grid("Heads", plainHeads+`
General tolerances ISO 2768-m
`))
	defer show(t, c)
	// ISO 2768-1 class m: ±0.2 mm from 6 to 30 mm.
	od := c.Heads[0].Head.HoselOD
	if od.Origin() != measure.General || absolute(od.Lower().Millimetres()-13.4) > 1e-6 || absolute(od.Upper().Millimetres()-13.8) > 1e-6 {
		t.Errorf("hosel OD %v to %v, origin %v", od.Lower(), od.Upper(), od.Origin())
	}
}

func TestSameSizeInTwoUnits(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Hosel OD (in) | Bore (mm)
KR-20 | 13.6 | .535 | 9.5
KR-21 | 13.4 | .535 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "KR-20", catalog.Used, sizes{catalog.HoselOD: 13.6})
	wantRow(t, c, "KR-21", catalog.Held, sizes{catalog.HoselOD: 0})
	wantFinding(t, c, "data.conflict", "B3", ".535")
}

func TestDamage(t *testing.T) {
	s := grid("Ferrules", `
Part No | Bore (in) | Base OD (in) | Length (in)
F-1 | .368 | .540 | 3/8
F-2 | .368 | #DIV/0! | 0.5
F-3 | .368 | .540 | 0.5
1.2E+05 | .368 | .540 | 0.5
F-5 | .368 | .540 | 0.5
`)
	s.Rows[1][3] = &sheet.Cell{Kind: sheet.Date, Raw: "45359", Shown: "8-Mar", Format: "d-mmm"}
	s.Rows[3][2] = &sheet.Cell{Formula: "B4+0.17"}
	c := read(t, s)
	defer show(t, c)
	wantFinding(t, c, "data.damaged", "D2", "3/8")
	wantFinding(t, c, "data.damaged", "C3", "#DIV/0!")
	wantFinding(t, c, "data.damaged", "C4", "without a stored result")
	wantFinding(t, c, "data.damaged", "A5", "1.2E+05")
	wantRow(t, c, "F-1", catalog.Assumed, sizes{catalog.Length: 9.525, catalog.BaseOD: 13.716})
	wantRow(t, c, "F-2", catalog.Held, sizes{catalog.BaseOD: 0})
	wantRow(t, c, "F-5", catalog.Used, sizes{catalog.BaseOD: 13.716})
}

// A text file holds the date that a spreadsheet program made of a fraction as text.
func TestDamageInTextFiles(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Bore (in) | Base OD (in) | Length (in)
F-1 | .368 | .540 | 8-Mar
F-2 | .368 | .540 | #REF!
F-3 | .368 | .540 | 1/2
F-4 | .368 | .540 | 3.75E-01
`))
	defer show(t, c)
	wantFinding(t, c, "data.damaged", "D2", "3/8")
	wantFinding(t, c, "data.damaged", "D3", "#REF!")
	wantOpen(t, c, "F-1", catalog.Length)
	wantRow(t, c, "F-1", catalog.Used, sizes{catalog.Length: 0})
	wantRow(t, c, "F-3", catalog.Used, sizes{catalog.Length: 12.7})
}

func TestBookWideNote(t *testing.T) {
	c := read(t, grid("Read me", "All dimensions in inches"), grid("Heads", `
Part No | Hosel OD | Countersink depth
KR-20 | .535 in | 0.3
KR-21 | .530 in | 0.25
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-20", catalog.Assumed, sizes{catalog.CountersinkDepth: 7.62})
}

func TestPartNumbers(t *testing.T) {
	s := grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
001200 | 13.6 | 9.5
001201 | 13.6 | 9.5
1202 | 13.6 | 9.5
1203 | 13.6 | 9.5
120000 | 13.6 | 9.5
`)
	s.Rows[1][0] = &sheet.Cell{Kind: sheet.Text, Raw: "001200", Shown: "001200"}
	s.Rows[2][0] = &sheet.Cell{Kind: sheet.Text, Raw: "001201\u00a0\u200b", Shown: "001201"}
	s.Rows[4][0] = &sheet.Cell{Kind: sheet.Number, Raw: "1203", Shown: "001203", Format: "000000"}
	s.Rows[5][0] = &sheet.Cell{Kind: sheet.Number, Raw: "120000", Shown: "1.20E+05"}
	c := read(t, s)
	defer show(t, c)
	wantRow(t, c, "001201", catalog.Used, nil)
	wantRow(t, c, "001203", catalog.Used, nil)
	wantFinding(t, c, "data.damaged", "A4", "perhaps 001202")
	wantFinding(t, c, "data.damaged", "A6", "shown as 1.20E+05")
}

func TestBoreIsDesignation(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Category | Hosel OD (mm) | Bore
KR-20 | Iron | 13.6 | .370"
KR-21 | Iron | 13.6 | .355"
KR-22 | Driver | 13.0 | .335"
KR-23 | Iron | 13.6 | .373"
KR-24 | Iron | 13.6 | 9.4 mm
KR-25 | Iron | 13.6 | 9.5 mm
`))
	defer show(t, c)
	wantNoErrors(t, c)
	type tip struct {
		designation bool
		form        fitcalc.TipForm
	}
	want := []tip{{true, fitcalc.TipParallel}, {true, fitcalc.TipTapered}, {true, fitcalc.TipParallel}, {}, {true, fitcalc.TipParallel}, {}}
	for i, h := range c.Heads {
		got := tip{designation: h.BoreIsDesignation}
		if len(h.TipTaken) > 0 {
			got.form = h.TipTaken[0].Form()
		}
		if got != want[i] || h.Head.Bore.Given() == got.designation {
			t.Errorf("%s: %+v, bore %v; want %+v", h.Part, got, h.Head.Bore, want[i])
		}
	}
}

func TestTipColumn(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Fits shaft tip
KR-20 | 13.6 | .370
KR-21 | 13.6 | .335/.350
KR-22 | 13.6 | .355 taper
`))
	defer show(t, c)
	if len(c.Heads) != 3 || len(c.Heads[0].TipTaken) != 1 || len(c.Heads[1].TipTaken) != 2 || len(c.Heads[2].TipTaken) != 1 {
		t.Fatalf("%+v", c.Heads)
	}
}

func TestMissing(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
KR-20 | | 9.5
KR-21 | 13.6 |
| 13.6 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "KR-20", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 9.5})
	wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.6})
	wantFinding(t, c, "data.missing", "A4", "no part number")
	if len(c.Heads) != 2 {
		t.Errorf("%d heads", len(c.Heads))
	}
}

func TestSamePartTwice(t *testing.T) {
	mm := book("orrin.xlsx", grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
KR-20 | 13.6 | 9.5 |
KR-21 | 13.4 | 9.5 | 30
KR-22 | 13.4 | 9.5 | 30
`))
	in := book("belmar.csv", grid("belmar", `
Part No | Hosel OD (in) | Bore (in) | Bore depth (in)
KR-20 | .535 | .374 | 1.25
KR-21 | .550 | .374 | 1.18
KR 22 | .528 | .374 | 1.18
`))
	c := readInputs(t, reader.Options{}, reader.Input{Book: mm}, reader.Input{Book: in})
	defer show(t, c)
	wantRow(t, c, "KR-20", catalog.Assumed, sizes{catalog.HoselOD: 13.6})
	wantRow(t, c, "KR-21", catalog.Held, nil)
	wantFinding(t, c, "data.conflict", "B3", "13.4")
	// KR-20 is one head, KR-21 two that disagree, KR-22 and KR 22 the same by their words.
	if len(c.Heads) != 4 {
		t.Errorf("%d heads", len(c.Heads))
	}
	for _, h := range c.Heads {
		if h.Part == "KR-21" && h.Head.HoselOD.Given() {
			t.Errorf("KR-21 of %s has a hosel OD", h.Supplier)
		}
	}
}

// A spreadsheet program stores 13.0 as 13: it disagrees with 13.4 all the same.
func TestWholeNumbersAreAsFineAsTheirColumn(t *testing.T) {
	a := book("orrin.xlsx", grid("Heads", "Part No | Hosel OD (mm) | Bore (mm)\nKR-20 | 13 | 9\nKR-21 | 13.4 | 9.4"))
	b := book("belmar.xlsx", grid("Heads", "Part No | Hosel OD (mm) | Bore (mm)\nKR-20 | 13.4 | 9\nKR-22 | 13.4 | 9.4"))
	c := readInputs(t, reader.Options{}, reader.Input{Book: a}, reader.Input{Book: b})
	defer show(t, c)
	wantFinding(t, c, "data.conflict", "B2", "13.4")
	if !c.Heads[0].BoreIsDesignation || c.Heads[0].TipTaken[0].Form() != fitcalc.TipTapered {
		t.Errorf("9 mm beside 9.4 mm is the .355 tip: %+v", c.Heads[0])
	}
}

func TestSimilarParts(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
KR-20 | 13.6 | 9.5
KR20 | 13.4 | 9.5
KRO1 | 13.4 | 9.5
KR01 | 13.4 | 9.5
`))
	defer show(t, c)
	wantFinding(t, c, "data.similar", "", "KR20 and KR-20")
	if len(c.Heads) != 4 {
		t.Errorf("%d heads", len(c.Heads))
	}
}

func TestDitto(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
KR-20 | 13.6 | 9.5
KR-21 | ditto | 9.5
KR-22 | n/a | 9.5
KR-23 | TBD | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "KR-21", catalog.Assumed, sizes{catalog.HoselOD: 13.6})
	wantRow(t, c, "KR-22", catalog.Held, sizes{catalog.HoselOD: 0})
	wantFinding(t, c, "data.missing", "B5", "TBD")
}

func TestDecimalComma(t *testing.T) {
	c := read(t, grid("Köpfe", `
Artikelnr. | Hosel-Ø außen [mm] | Bohrung [mm] | Bohrtiefe [mm]
KR-20 | 13,6 | 9,5 | 32,0
KR-21 | 13,4 | 9,5 | 30,5
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.4, catalog.BoreDepth: 30.5})
}

func TestRecess(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm) | Hosel top | C'sink mouth Ø (mm) | C'sink angle | Counterbore Ø (mm) | Counterbore depth (mm)
KR-20 | 13.6 | 9.5 | countersunk | 11.5 | 90° | |
KR-21 | 13.6 | 9.5 | flat | | | |
KR-22 | 13.6 | 9.5 | rounded | | | |
KR-23 | 13.6 | 9.5 | | | | 11.2 | 6
`))
	defer show(t, c)
	wantNoErrors(t, c)
	want := []fitcalc.TopForm{fitcalc.TopCountersunk, fitcalc.TopFlat, fitcalc.TopRounded, fitcalc.TopCounterbored}
	for i, h := range c.Heads {
		if h.Head.Top != want[i] {
			t.Errorf("%s: top %v, want %v", h.Part, h.Head.Top, want[i])
		}
	}
	if got := c.Heads[0].Head.Countersink.Angle.Degrees(); got != 90 {
		t.Errorf("angle %v", got)
	}
}

func TestTips(t *testing.T) {
	c := read(t, grid("Shaft tips", `
Model | Tip diameter (in) | Type | Parallel section (in)
S-1 | .370 | parallel | 7
S-2 | .355 | taper | 
S-3 | .335 | | 3
`))
	defer show(t, c)
	wantNoErrors(t, c)
	if len(c.Tips) != 3 {
		t.Fatalf("%d tips", len(c.Tips))
	}
	for i, want := range []fitcalc.TipForm{fitcalc.TipParallel, fitcalc.TipTapered, fitcalc.TipParallel} {
		if got := c.Tips[i].Tip.Form(); got != want {
			t.Errorf("%s: form %v, want %v", c.Tips[i].Part, got, want)
		}
	}
}

func TestFerruleStyles(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part | Style | ID | OD | Length | Collar OD | Collar length | Rings | Material | Pack
 | | mm | mm | mm | mm | mm | | |
F-1 | plain | 9.35 | 13.7 | 19 | | | 2 | cellulose acetate | 12
F-2 | collared | 9.35 | 13.7 | 19 | 10.8 | 1.2 | 0 | ABS | 6
`))
	defer show(t, c)
	wantNoErrors(t, c)
	f := c.Ferrules[1].Ferrule
	if f.Style != fitcalc.Collared || f.Material != fitcalc.ABS || c.Ferrules[1].Pack != 6 || c.Ferrules[0].Ferrule.Rings != 2 {
		t.Errorf("%+v", c.Ferrules)
	}
	if absolute(f.Collar.OD.Nominal().Millimetres()-10.8) > 1e-6 {
		t.Errorf("collar %v", f.Collar.OD)
	}
}

// TestOneCauseIsOneFinding holds that what one cause brings about is said once, with all cells, each of which keeps its own answer.
func TestOneCauseIsOneFinding(t *testing.T) {
	c := read(t, grid("Ferrules", `
Item | Bore | Base OD | Length | Maker's ref | Bin
KW-1 | 9.35 | 13.6 | 19 | Q7 | K
KW-2 | t.b.a. | .535 | 19 | Q8 | L
KW-3 | t.b.a. | .535 | 19 | Q9 | M
KW-4 | 9.35 | 13.6 | 19 | Q1 | N
KW-5 | t.b.a. | .540 | 19 | Q2 | O
KW-6 | 8.95 | 13.2 | 19 | Q3 | P
KW-7 | 9.35 | 13.8 | 19 | Q4 | R
KW-8 | see drawing | 13.8 | 19 | Q5 | S
KW-9 | 9.35 | 13.6 | 19 | Q6 | T
`))
	defer show(t, c)
	for _, want := range []struct {
		code, cell, words string
		cells             int
	}{
		{"data.unit", "B1", "taken as mm", 3},
		{"data.unit", "C3", "taken as inches", 3},
		{"data.missing", "B3", "t.b.a.", 3},
		{"data.missing", "B9", "see drawing", 1},
	} {
		at := slices.IndexFunc(c.Findings, func(f finding.Finding) bool { return f.Code == want.code && f.Place.Cell == want.cell })
		if at < 0 {
			t.Errorf("no finding %s at %s", want.code, want.cell)
			continue
		}
		f := c.Findings[at]
		if each := f.Each(); len(each) != want.cells || !strings.Contains(f.Message, want.words) {
			t.Errorf("%s at %s: %q of %d cells, want %d", want.code, want.cell, f.Message, len(each), want.cells)
		}
		keys := map[string]bool{}
		for _, one := range f.Each() {
			keys[one.Settle] = true
		}
		if len(keys) != want.cells {
			t.Errorf("%s at %s: the keys %v, want one for each of %d cells", want.code, want.cell, keys, want.cells)
		}
	}
	for _, alone := range []string{"C4", "C6", "B4", "B6", "C1", "D1"} {
		if slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Place.Cell == alone && f.Severity != finding.Note }) {
			t.Errorf("%s has a finding of its own", alone)
		}
	}
}

// TestToleranceSaysBehindWhatItIsFor: "±0.05 on the diameters" gives lengths none, and each of two has its own.
func TestToleranceSaysBehindWhatItIsFor(t *testing.T) {
	for title, want := range map[string][2]string{
		"Cotes en mm, tolérance ±0,05 sur les diamètres":                   {"hosel_od=13.4[13.35..13.45]", "bore=9.5[9.45..9.55]"},
		"Dimensions in mm; ±0.05 mm on the hosel OD, ±0.03 mm on the bore": {"hosel_od=13.4[13.35..13.45]", "bore=9.5[9.47..9.53]"},
	} {
		c := read(t, grid("Heads", title+"\nRef. | Hosel OD | Bore | Bore depth\nTV-5 | 13.4 | 9.5 | 32\nTV-6 | 13.4 | 9.5 | 33"))
		got := rowOf(t, c, "TV-5")
		for _, says := range append(want[:], "bore_depth=32 ") {
			if !strings.Contains(got+" ", says) {
				t.Errorf("%s: %s, want %s", title, got, says)
			}
		}
	}
}

// TestStyleNumbers takes a column of codes for the part numbers that calls them styles, and not the descriptions beside it.
func TestStyleNumbers(t *testing.T) {
	c := read(t, grid("Stock", `
Heads, sizes in mm
Style | Descr. | Shaft | Hosel diam | Hole diam
GR-5I | Granite 5 iron | .370 parallel | 13.2 | 9.50
GR-6I | Granite 6 iron | .370 parallel | 13.2 | 9.50
GR-7I | Granite 7 iron | .370 parallel | 13.2 | 9.50
`))
	defer show(t, c)
	wantRow(t, c, "GR-6I", catalog.Assumed, sizes{catalog.HoselOD: 13.2, catalog.Bore: 9.5})
	wantNoFinding(t, c, "data.unit", "C3")
}

// TestCountsWithPoints holds that a point parts thousands of pieces where it is no decimal mark, and that a count which it cannot be is said.
func TestCountsWithPoints(t *testing.T) {
	for _, c := range []struct {
		stock string
		want  float64
		says  bool
	}{{"1.250", 1250, false}, {"12.5", 0, true}, {"250", 250, false}} {
		cat := read(t, grid("Ferrules", fmt.Sprintf(`
Item | Bore (mm) | Base OD (mm) | Length (mm) | Stock
KW-1 | 9,35 | 13,6 | 19 | %s
KW-2 | 9,35 | 13,8 | 25 | 40
`, c.stock)))
		field := cat.Tables[0].Rows[1].Fields.Get(catalog.Stock)
		if field.IsNumber != (c.want > 0) || field.Number != c.want {
			t.Errorf("stock %s is read as %v %g, want %g", c.stock, field.IsNumber, field.Number, c.want)
		}
		if said := slices.ContainsFunc(cat.Findings, func(f finding.Finding) bool { return f.Place.Cell == "E2" && f.Severity == finding.Warning }); said != c.says {
			t.Errorf("stock %s: said %v, want %v", c.stock, said, c.says)
		}
	}
}

// TestNoughtForNone takes 0 for what a part has not: a collar, or the parallel section of a tip.
func TestNoughtForNone(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (mm) | Bore (mm) | Collar OD (mm) | Collar length (mm)
F-1 | 13.5 | 9.3 | 0 | 0.0
F-2 | 13.5 | 9.3 | 11.2 | 2.0
F-3 | 0 | 9.3 | 11.2 | 2.0
`))
	defer show(t, c)
	wantRow(t, c, "F-1", catalog.Used, sizes{catalog.BaseOD: 13.5, catalog.CollarOD: 0, catalog.CollarLength: 0})
	wantFinding(t, c, "data.leniency", "D2", "taken for none")
	wantNoFinding(t, c, "data.implausible", "D2")
	wantFinding(t, c, "data.implausible", "B4", "0 mm")
}

// TestLengthWrittenAsInches takes a length for inches that is written as these are and cannot be the millimetres of its heading. Diameters are
// asked about, and so are lengths that are written otherwise or are impossible in inches too.
func TestLengthWrittenAsInches(t *testing.T) {
	for text, want := range map[string]float64{",75": 19.05, ".75": 19.05, "3/4": 19.05, "1 1/4": 31.75, ".5": 12.7, "0,75": 0, "0.75": 0, ".075": 0, "12.7": 12.7, "1/32": 0} {
		c := read(t, grid("Ferrules", `
Part No | Bore (mm) | Base OD (mm) | Length (mm)
F-1 | 9.35 | 13.6 | 20
F-2 | 9.35 | 13.7 | `+text+`
F-3 | 9.35 | 13.6 | 25
F-4 | 9.35 | 13.6 | 19.5
`))
		switch {
		case want == 0:
			wantOpen(t, c, "F-2", catalog.Length)
			wantRow(t, c, "F-2", catalog.Used, sizes{catalog.Length: 0})
		case text == "12.7":
			wantRow(t, c, "F-2", catalog.Used, sizes{catalog.Length: want})
		default:
			wantRow(t, c, "F-2", catalog.Assumed, sizes{catalog.Length: want})
			wantFinding(t, c, "data.unit", "D3", "")
		}
		if t.Failed() {
			show(t, c)
			t.Fatalf("%q", text)
		}
	}
}
