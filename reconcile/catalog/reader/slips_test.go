package reader_test

import (
	"slices"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
)

// A letter in the place of a digit never cuts a number short: the digit that it looks like is taken with a warning where the joint allows
// it, and the size left open where it does not.
func TestLetterBehindThePoint(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Base OD (mm) | Bore (mm) | Length (mm)
F-1 | 13.O | 9.35 | 19
F-2 | 12.S | 9.35 | 25
F-3 | 13.0 | 9.35 | 2O
F-4 | 13.0 | 9.35 | 19.B
F-5 | 13.0 | 9.3S | 19
`))
	defer show(t, c)
	wantFinding(t, c, "data.unreadable", "B2", "a 0 misread as O")
	wantFinding(t, c, "data.unreadable", "B3", "taken as 12.5")
	wantRow(t, c, "F-1", catalog.Assumed, sizes{catalog.BaseOD: 13})
	wantRow(t, c, "F-2", catalog.Assumed, sizes{catalog.BaseOD: 12.5})
	wantRow(t, c, "F-3", catalog.Assumed, sizes{catalog.Length: 20})
	wantRow(t, c, "F-4", catalog.Assumed, sizes{catalog.Length: 19.8})
	wantFinding(t, c, "data.unreadable", "C6", "a 5 misread as S")
	wantRow(t, c, "F-5", catalog.Used, sizes{catalog.BaseOD: 13, catalog.Bore: 0})
}

// Limits the wrong way round are put in order and said: one of them may be a slip.
func TestLimitsTheWrongWayRound(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
H-1 | 13.5~13.7 | 9.5
H-2 | 13.7~13.5 | 9.5
H-3 | 13.7 - 13.5 | 9.5
`))
	defer show(t, c)
	wantFinding(t, c, "data.conflict", "B3", "wrong way round")
	wantFinding(t, c, "data.conflict", "B4", "wrong way round")
	wantRow(t, c, "H-1", catalog.Used, sizes{catalog.HoselOD: 13.6})
	wantRow(t, c, "H-2", catalog.Assumed, sizes{catalog.HoselOD: 13.6})
	wantNoFinding(t, c, "data.conflict", "B2")

	c = read(t, grid("Heads", `
Part No | Hosel OD min/max (mm) | Bore max/min (mm)
H-1 | 13.45/13.55 | 9.53/9.47
H-2 | 13.55/13.45 | 9.53/9.47
`))
	defer show(t, c)
	wantFinding(t, c, "data.conflict", "B3", "wrong way round")
	wantNoFinding(t, c, "data.conflict", "C2")
	wantRow(t, c, "H-1", catalog.Used, sizes{catalog.HoselOD: 13.5, catalog.Bore: 9.5})
}

// wantNoFinding wants no finding of a code upon a cell.
func wantNoFinding(t *testing.T, c *catalog.Catalogue, code, cell string) {
	t.Helper()
	for _, table := range c.Tables {
		for _, f := range table.Findings {
			if f.Code == code && f.Place.Cell == cell {
				t.Errorf("there is a finding upon %s: %s", cell, f.Message)
			}
		}
	}
}

// Where descriptions give a size of a column as a rule, one that gives another is said.
func TestDescriptionSaysAnotherSize(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part No | Description | Base OD (mm) | Bore (mm) | Length (mm)
F-1 | Plain, 19 mm | 13.6 | 9.35 | 19.05
F-2 | Plain, 25 mm | 13.6 | 9.35 | 25.4
F-3 | 2 rings, 25 mm | 13.6 | 9.35 | 19.05
F-4 | 1 ring, 25 mm | 13.6 | 9.35 | 25.4
F-5 | Plain, 13 mm | 13.6 | 9.35 | 12.7
`))
	defer show(t, c)
	wantFinding(t, c, "data.conflict", "E4", "its description in B4 says 25 mm; the column counts")
	wantRow(t, c, "F-3", catalog.Used, sizes{catalog.Length: 19.05})
	for _, cell := range []string{"E2", "E3", "E5", "E6"} {
		wantNoFinding(t, c, "data.conflict", cell)
	}
}

// So it is whatever the words, the unit and the layout are, and where part numbers give it.
func TestTextSaysAnotherSize(t *testing.T) {
	for name, test := range map[string]struct{ sheet, cell, says string }{
		"fractions of an inch beside millimetres": {`
Item | Descr. | Base OD, mm | Bore, mm | Length, mm
TR-1 | 1/2" black | 13.5 | 9.3 | 12.7
TR-2 | 3/4" black | 13.5 | 9.3 | 19.0
TR-3 | 1" white | 13.5 | 9.3 | 25.4
TR-4 | 3/4" white | 13.5 | 9.3 | 12.7
TR-5 | 1 1/4" white | 13.5 | 9.3 | 32
`, "E5", `3/4"`},
		"signs of fractions beside inches": {`
Item | Descr. | Base OD, in | Bore, in | Length, in
TR-1 | ½" black | .535 | .366 | .5
TR-2 | ¾" black | .535 | .366 | .75
TR-3 | 1¼" white | .535 | .366 | .75
TR-4 | ¾" white | .535 | .366 | .75
TR-5 | 1½" white | .535 | .366 | 1.5
`, "E4", `1¼"`},
		"in a column of colours": {`
Art.-Nr. | Farbe | Ø außen mm | Ø innen mm | Länge mm
KD-1 | schwarz 19 mm | 13,5 | 9,3 | 19
KD-2 | schwarz 25 mm | 13,5 | 9,3 | 19
KD-3 | weiß 25 mm | 13,5 | 9,3 | 25
KD-4 | weiß 19 mm | 13,5 | 9,3 | 19
`, "E3", "25 mm"},
		"without blanks": {`
品番 | 品名 | 外径(mm) | 内径(mm) | 全長(mm)
KY-1 | 黒色19mmフェルール | 13.5 | 9.3 | 19
KY-2 | 黒色25mmフェルール | 13.5 | 9.3 | 25
KY-3 | 白色19mmフェルール | 13.5 | 9.3 | 25
KY-4 | 白色25mmフェルール | 13.5 | 9.3 | 25
`, "E4", "19mm"},
		"on its side": {`
Référence | VF-1 | VF-2 | VF-3 | VF-4
Désignation | noire 19 mm | noire 25 mm | blanche 19 mm | blanche 25 mm
Ø base (mm) | 13,5 | 13,5 | 13,5 | 13,5
Ø perçage (mm) | 9,3 | 9,3 | 9,3 | 9,3
Longueur (mm) | 19 | 25 | 25 | 25
`, "D5", "19 mm"},
		"part numbers": {`
Ref. | Ø base (mm) | Taladro (mm) | Largo (mm)
CF-370-13N | 13.5 | 9.3 | 12.7
CF-370-19N | 13.5 | 9.3 | 19
CF-370-25N | 13.5 | 9.3 | 25.4
CF-335-13B | 11.9 | 8.4 | 19
CF-335-19B | 11.9 | 8.4 | 19
`, "D5", "13"},
		"part numbers in tenths": {`
Art. nr | Utv. diameter bas (mm) | Hål (mm) | Längd (mm)
N-135-A | 13,5 | 9,3 | 19
N-138-A | 13,8 | 9,3 | 19
N-119-B | 11,9 | 8,4 | 19
N-135-C | 13,8 | 9,3 | 25
N-122-C | 12,2 | 8,4 | 25
`, "B5", "135"},
		"part numbers that are no sizes": {`
Part | Base OD (mm) | Bore (mm) | Length (mm)
F-19 | 13.5 | 9.3 | 19
F-20 | 13.5 | 9.3 | 20
F-21 | 13.5 | 9.3 | 25
F-22 | 13.5 | 9.3 | 25
F-23 | 13.5 | 9.3 | 25
`, "", ""},
	} {
		c := reader.Read([]reader.Input{{Book: book("orrin.xlsx", grid("List", test.sheet)), Kind: catalog.Ferrules}}, reader.Options{})
		var got []string
		for _, f := range c.Findings {
			if f.Code == "data.conflict" {
				got = append(got, f.Place.Cell)
			}
		}
		if test.cell == "" && got == nil {
			continue
		}
		if !slices.Equal(got, []string{test.cell}) {
			t.Errorf("%s: conflicts at %q, want %s", name, got, test.cell)
			show(t, c)
			continue
		}
		wantFinding(t, c, "data.conflict", test.cell, "says "+test.says+"; the column counts")
	}
}

// Numbers of clubs and lofts in descriptions are no sizes, however they are related to those of a column.
func TestDescriptionSaysNoSize(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Description | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
H-1 | Iron 7, 34 deg | 13.6 | 9.5 | 34
H-2 | Iron 8, 38 deg | 13.6 | 9.5 | 34
H-3 | Iron 9, 42 deg | 13.6 | 9.5 | 34
H-4 | Wedge 50 | 13.6 | 9.5 | 34
`))
	defer show(t, c)
	for _, table := range c.Tables {
		for _, f := range table.Findings {
			if f.Code == "data.conflict" {
				t.Errorf("%s: %s", f.Place.Cell, f.Message)
			}
		}
	}
}

// An angle is that of a countersink where its heading, a column beside it or the form of the hosels says so; it may be a loft otherwise.
func TestAngleOfACountersink(t *testing.T) {
	for name, c := range map[string]struct {
		sheet string
		is    bool
	}{
		"alone":       {"Part No | Angle (°) | Hosel OD (mm) | Bore (mm)\nH-1 | 50 | 13.6 | 9.5\nH-2 | 56 | 13.6 | 9.5\n", false},
		"number sign": {"Part No | N° | Hosel OD (mm) | Bore (mm)\nH-1 | 50 | 13.6 | 9.5\nH-2 | 56 | 13.6 | 9.5\n", false},
		"word":        {"Part No | Countersink (°) | Hosel OD (mm) | Bore (mm)\nH-1 | 90 | 13.6 | 9.5\nH-2 | 60 | 13.6 | 9.5\n", true},
		"mouth":       {"Part No | Angle (°) | Hosel OD (mm) | Bore (mm) | Countersink dia (mm)\nH-1 | 90 | 13.6 | 9.5 | 11\nH-2 | 60 | 13.6 | 9.5 | 11\n", true},
		"form":        {"Part No | Angle (°) | Hosel OD (mm) | Bore (mm) | Hosel top form\nH-1 | 90 | 13.6 | 9.5 | countersunk\nH-2 | 60 | 13.6 | 9.5 | flat\n", true},
	} {
		got := read(t, grid("Heads", c.sheet))
		role := got.Tables[0].Columns[1].Role
		if is := role == catalog.CountersinkAngle; is != c.is {
			t.Errorf("%s: the column has the role %q", name, role)
		}
	}
}

// Limits in a title go to the sizes that they name, also behind an abbreviation's point, and to no others.
func TestLimitsOfNamedSizes(t *testing.T) {
	c := read(t, grid("Ferrules", `
Dimensions in inches. Bore +.000/-.001, base dia. ±.002

P/N | Bore dia. | Base dia. | Length
F-1 | .368 | .540 | .500
F-2 | .353 | .525 | .750
F-3 | .333 | .495 | 1.000
`))
	defer show(t, c)
	f := ferruleOf(t, c, "F-1")
	for name, is := range map[string][2]string{
		"bore":   {f.Ferrule.Bore.String(), "9.3472 +0/-0.0254 mm"},
		"base":   {f.Ferrule.BaseOD.String(), "13.716 ±0.0508 mm"},
		"length": {f.Ferrule.Length.String(), "12.7 mm"},
	} {
		if is[0] != is[1] {
			t.Errorf("%s is %s, want %s", name, is[0], is[1])
		}
	}
}

// In one row, two sizes that stand in each other's place are left open.
func TestSizesInEachOthersPlace(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
H-1 | 13.4 | 9.5 | 33
H-2 | 13.4 | 33 | 9.5
H-3 | 13.4 | 9.5 | 32
`))
	defer show(t, c)
	wantFinding(t, c, "data.implausible", "D3", "in the other's place")
	wantRow(t, c, "H-2", catalog.Used, sizes{catalog.Bore: 0, catalog.BoreDepth: 0})
}

// Numbers of records are no rival of the sizes that their heading could name.
func TestRecordsAreNoRival(t *testing.T) {
	c := read(t, grid("Heads", `
Internal ID | SKU | Hosel outside dia. (in) | Hosel inside dia. (in)
88120 | HZ-4 | 0.530 | 0.373
88121 | HZ-5 | 0.530 | 0.373
88122 | HZ-6 | 0.530 | 0.373
`))
	defer show(t, c)
	wantRow(t, c, "HZ-4", catalog.Used, sizes{catalog.Bore: 9.4742})
}

// A column of kinds whose texts say more is the description where there is no other, and one that says no more is not.
func TestKindsThatSayMore(t *testing.T) {
	for _, c := range []struct {
		text string
		role catalog.Role
	}{
		{"Type | SKU | Hosel OD (mm) | Bore (mm)\niron 4 Tern | T-4 | 13.4 | 9.5\niron 5 Tern | T-5 | 13.4 | 9.5\nPW Tern | T-P | 13.6 | 9.5\n", catalog.Description},
		{"Head type | SKU | Hosel OD (mm) | Bore (mm)\nIron 4 | T-4 | 13.4 | 9.5\nIron 5 | T-5 | 13.4 | 9.5\nWedge 56 | T-P | 13.6 | 9.5\n", catalog.Category},
		{"Model & loft | SKU | Hosel OD (mm) | Bore (mm)\nFerrow 50 | T-4 | 13.4 | 9.5\nFerrow 52 | T-5 | 13.4 | 9.5\nFerrow 56 | T-P | 13.6 | 9.5\n", catalog.Description},
	} {
		got := read(t, grid("Heads", c.text))
		if role := got.Tables[0].Columns[0].Role; role != c.role {
			t.Errorf("%q: the first column has the role %q, want %q", c.text, role, c.role)
		}
	}
}

// A unit may stand before each number.
func TestUnitBeforeTheNumber(t *testing.T) {
	c := read(t, grid("Teste", `
cod. | diam. est. hosel | diam. int. | prof. foro
TC1 | mm 13,5 | mm 9,5 | mm 32
TC2 | mm 13,5 | mm 9,5 | mm 32
`))
	defer show(t, c)
	for _, column := range c.Tables[0].Columns[1:] {
		if column.Unit != "mm" {
			t.Errorf("column %s is in %q, want mm", column.Heading, column.Unit)
		}
	}
	for _, f := range c.Tables[0].Findings {
		if f.Severity == finding.Error {
			t.Error(f.Message)
		}
	}
}

// A size is doubted beside one that is refused with the whole of its column, where each may stand in the other's place.
func TestExchangedWithARefusedColumn(t *testing.T) {
	c := read(t, grid("Köpfe", `
Artikelnummer | Farbe | ID | Außendurchmesser oben | VPE
VX-6587 | schwarz | 13.50mm | 10.00mm | 50
VX-6590 | schwarz | 13.80mm | 10.40mm | 50
VX-6593 | schwarz | 13.50mm | 10.00mm | 50
VX-6600 | schwarz | 12.50mm | 10.40mm | 50
VX-6602 | schwarz | 14.00mm | 10.50mm | 50
`))
	defer show(t, c)
	wantRow(t, c, "VX-6600", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 0})
}
