package reader_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// rowOf returns the row of a part, written on one line.
func rowOf(t *testing.T, c *catalog.Catalogue, part string) string {
	t.Helper()
	for _, table := range c.Tables {
		for _, row := range table.Rows {
			if row.Part == part {
				return rowText(row)
			}
		}
	}
	t.Errorf("no row for %s", part)
	return ""
}

// TestNoteForSomeSizes puts tolerances that a note states for one size, or a sort of sizes, on these only.
func TestNoteForSomeSizes(t *testing.T) {
	const table = `
Part No | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
TW-1 | 13.6 | 9.5 | 32
TW-2 | 13.4 | 9.5 | 32
`
	for note, want := range map[string]string{
		"Hosel OD after polishing: ±0.08":            "bore=9.5 bore_depth=32 hosel_od=13.6[13.52..13.68]",
		"Bore is reamed to ±0.02 mm":                 "bore=9.5[9.48..9.52] bore_depth=32 hosel_od=13.6",
		"Bohrungstoleranz ±0,02 mm":                  "bore=9.5[9.48..9.52] bore_depth=32 hosel_od=13.6",
		"tolérance sur le Ø extérieur du col ±0,1":   "bore=9.5 bore_depth=32 hosel_od=13.6[13.5..13.7]",
		"外径公差 ±0.05":                                 "bore=9.5 bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Bore and hosel OD ±0.03 mm":                 "bore=9.5[9.47..9.53] bore_depth=32 hosel_od=13.6[13.57..13.63]",
		"2. Tolerance: hosel O.D. and I.D. ±0.05 mm": "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Tolérance : Ø ext. et Ø int. ±0,05 mm":      "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Tolerantie: buitendiam. en boring ±0,05 mm": "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Tolerance: udv. diam. og hul ±0,05 mm":      "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Toleranz: Außen-Dm. und Bohrung ±0,05 mm":   "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Tolerancja: śr. zewn. i otwór ±0,05 mm":     "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Tolerance: vnější prům. a otvor ±0,05 mm":   "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Tolerancia: Ø ext. e Ø int. ±0,05 mm":       "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Bore ±0.02 mm. Chrome plating is extra.":    "bore=9.5[9.48..9.52] bore_depth=32 hosel_od=13.6",
		"Sizes by H. and sons; bore ±0.02 mm":        "bore=9.5[9.48..9.52] bore_depth=32 hosel_od=13.6",
		"Diameters ±0.05 mm":                         "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"Depths ±0.5 mm; diameters ±0.05 mm":         "bore=9.5[9.45..9.55] bore_depth=32[31.5..32.5] hosel_od=13.6[13.55..13.65]",
		"All dimensions ±0.2 mm":                     "bore=9.5[9.3..9.7] bore_depth=32[31.8..32.2] hosel_od=13.6[13.4..13.8]",
		"Hosel OD ±.003 in, bore ±.001 in":           "bore=9.5[9.4746..9.5254] bore_depth=32 hosel_od=13.6[13.5238..13.6762]",
		"tol. on all hosel OD's +/-.002 in":          "bore=9.5 bore_depth=32 hosel_od=13.6[13.5492..13.6508]",
		"Toleranz Durchmesser ±0,05":                 "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13.6[13.55..13.65]",
		"tolerance on the bore -.05 mm":              "bore=9.5[9.45..9.5] bore_depth=32 hosel_od=13.6",
		"Bohrung: Toleranz −0,05 mm":                 "bore=9.5[9.45..9.5] bore_depth=32 hosel_od=13.6",
		"Otwory z tolerancją -0,05 mm, polerowane":   "bore=9.5[9.45..9.5] bore_depth=32 hosel_od=13.6",
		"Bores run -0.05 mm":                         "bore=9.5 bore_depth=32 hosel_od=13.6",
		"Tolerances by drawing TW-05":                "bore=9.5 bore_depth=32 hosel_od=13.6",
		"± 0.1 mm":                                   "bore=9.5[9.4..9.6] bore_depth=32[31.9..32.1] hosel_od=13.6[13.5..13.7]",
	} {
		t.Run(note, func(t *testing.T) {
			c := read(t, grid("Heads", table+note))
			defer show(t, c)
			if got := rowOf(t, c, "TW-1"); !strings.Contains(got, "used TW-1 "+want) || strings.Contains(got, "{") {
				t.Errorf("%s, want %s", got, want)
			}
		})
	}
	c := read(t, grid("Heads", table+"Swing weight within ±0.5"))
	defer show(t, c)
	wantFinding(t, c, "data.tolerance", "A4", "not understood")
	if got := rowOf(t, c, "TW-1"); strings.Contains(got, "..") {
		t.Errorf("a tolerance that is for no size was used: %s", got)
	}
}

// TestFootnotes ties notes to headings and values by their marks.
func TestFootnotes(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD¹ (mm) | Bore² (mm) | Bore depth (mm)
GR-1 | 13.6 | 9.5 | 32
GR-2 | 13.4† | 9.5 | 32
GR-3 | 13.5 | 9.5 | 32
¹ at the top edge | | |
² reamed; tolerance ±0.03 mm | | |
† old dies, tolerance ±0.2 mm | | |
`))
	defer show(t, c)
	for part, want := range map[string]string{
		"GR-1": "used GR-1 bore=9.5[9.47..9.53] bore_depth=32 hosel_od=13.6",
		"GR-2": "assumed GR-2 bore=9.5[9.47..9.53] bore_depth=32 hosel_od=13.4[13.2..13.6]",
	} {
		if got := rowOf(t, c, part); !strings.Contains(got, want) || part == "GR-1" && strings.Contains(got, "13.6[") {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// TestUnitOfOneSize takes the unit that a note gives to one size only for this one, and holds a size that the note leaves
// open.
func TestUnitOfOneSize(t *testing.T) {
	c := read(t, grid("Heads", `
All sizes in mm, bore sizes in inches
Part No | Hosel OD | Bore | Bore depth
LD-1 | 13.6 | .373 | 32
LD-2 | 13.4 | .373 | 32
`))
	defer show(t, c)
	wantRow(t, c, "LD-1", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.4742, catalog.BoreDepth: 32})

	c = read(t, grid("Ferrules", `
Ferrule | Bore | Base OD | Length | Collar length
OM-1 | .368 | .535 | .75 | .08
OM-2 | .368 | .550 | 1 | .09
Collar length in mm or inches, as the tool was made | | | |
`))
	defer show(t, c)
	wantFinding(t, c, "data.unit", "E1", "mm or in")
	wantOpen(t, c, "OM-1", catalog.CollarLength)
	wantRow(t, c, "OM-1", catalog.Assumed, sizes{catalog.Bore: 9.3472, catalog.CollarLength: 0})
}

// TestSetsByTheirValues recognises clubs by what a column holds where its heading says nothing.
func TestSetsByTheirValues(t *testing.T) {
	c := read(t, grid("Heads", `
Item no. | Lineup 2026 | Hosel OD (mm) | Bore (mm)
SH-1 | #6～#8・PW | 13.2 | 9.5
SH-2 | 7I-9I | 13.3 | 9.5
SH-3 | PW/AW/SW | 13.1 | 9.5
SH-4 | 3W・5W | 11.9 | 8.6
`))
	defer show(t, c)
	var parts []string
	for _, h := range c.Heads {
		parts = append(parts, h.Part)
	}
	want := []string{"SH-1 6", "SH-1 7", "SH-1 8", "SH-1 PW", "SH-2 7I", "SH-2 8I", "SH-2 9I", "SH-3 PW", "SH-3 AW", "SH-3 SW", "SH-4 3W", "SH-4 5W"}
	if !slices.Equal(parts, want) {
		t.Errorf("heads %q, want %q", parts, want)
	}
	if c.Heads[10].Category != fitcalc.Fairway {
		t.Errorf("SH-4 3W is a %v", c.Heads[10].Category)
	}
}

// TestTitledPairOfTables reads two small tables beside each other, a third below them under both.
func TestTitledPairOfTables(t *testing.T) {
	c := read(t, grid("Board", `
FERRULES FOR IRONS (mm) | | | | | FERRULES FOR WOODS (in) | | |
No | ID | OD | L | | No | ID | OD | L
BF1 | 9.35 | 13.6 | 19 | | BW1 | .333 | .480 | .5
BF2 | 9.35 | 14.0 | 19 | | BW2 | .348 | .480 | .75
 | | | | | | | |
HEADS (mm) | | | | | | | |
No | Model | Hosel OD | Bore | Depth | | | |
BH1 | Iron 7 | 13.2 | 9.5 | 30 | | | |
BH2 | Iron 8 | 13.3 | 9.5 | 30 | | | |
`))
	defer show(t, c)
	wantRow(t, c, "BF1", catalog.Used, sizes{catalog.Bore: 9.35, catalog.BaseOD: 13.6, catalog.Length: 19})
	wantRow(t, c, "BW2", catalog.Used, sizes{catalog.Bore: 8.8392, catalog.BaseOD: 12.192, catalog.Length: 19.05})
	wantRow(t, c, "BH2", catalog.Used, sizes{catalog.HoselOD: 13.3, catalog.BoreDepth: 30})
}

// TestRolesThatLookAlike holds apart what is easily mistaken.
func TestRolesThatLookAlike(t *testing.T) {
	for name, test := range map[string]struct {
		text string
		want map[string]catalog.Role
	}{
		"the shaft's own sizes": {`
Part | Hosel OD mm | Bore mm | Shaft OD at hosel mm | Shaft length in
VA-1 | 13.0 | 8.6 | 8.9 | 45
VA-2 | 12.8 | 9.5 | 9.7 | 43
VA-3 | 12.8 | 9.5 | 9.7 | 43`, map[string]catalog.Role{"C": catalog.Bore, "D": "", "E": ""}},
		"a word divided at the line's end": {
			"Art.-Nr. | Hals-AD (mm) | Schaftauf-\x00nahme Ø (mm)\nVB-1 | 12.9 | 8.6\nVB-2 | 12.8 | 8.6", map[string]catalog.Role{"C": catalog.Bore}},
		"a recess beside a cone angle": {`
款号 | 颈外径(mm) | 内孔直径(mm) | 沉孔口径(mm) | 锥角
VC-1 | 13.2 | 9.5 | 11.4 | 90
VC-2 | 13.3 | 9.5 | 11.4 | 90`, map[string]catalog.Role{"D": catalog.CountersinkMouth, "E": catalog.CountersinkAngle}},
		"a recess beside its depth": {`
款号 | 颈外径(mm) | 内孔直径(mm) | 沉孔口径(mm) | 沉孔深度(mm)
VC-3 | 13.2 | 9.5 | 11.4 | 5
VC-4 | 13.3 | 9.5 | 11.4 | 5`, map[string]catalog.Role{"D": catalog.CounterboreOD, "E": catalog.CounterboreDepth}},
		"slips of the pen": {`
Part | Hosel OD mm | Boer mm | Boar dpeth mm
VD-1 | 13.2 | 9.5 | 32
VD-2 | 13.3 | 9.5 | 32`, map[string]catalog.Role{"C": catalog.Bore, "D": catalog.BoreDepth}},
		"prices of quantities": {`
Part | Hosel OD mm | Bore mm | 1-9 pcs | 10-49 pcs | 50+
VE-1 | 13.2 | 9.5 | 21.00 | 19.50 | 17.00
VE-2 | 13.3 | 9.5 | 21.00 | 19.50 | 17.00`, map[string]catalog.Role{"D": catalog.Price, "E": "", "F": ""}},
		"two numbers of one part": {`
Mfr part no. | VF item | Hosel OD mm | Bore mm
M-77 | 204-1 | 13.2 | 9.5
M-78 | 204-2 | 13.3 | 9.5
M-79 | 204-3 | 13.3 | 9.5`, map[string]catalog.Role{"A": "", "B": catalog.Part}},
		"a model beside weights": {`
Model | Hosel OD mm | Bore mm | Weight (g) | Loft °
Yarrow | 13.2 | 9.5 | 268 | 30
Tansy | 13.3 | 9.5 | 275 | 34
Sorrel | 13.3 | 9.5 | 282 | 38`, map[string]catalog.Role{"A": catalog.Part, "D": "", "E": ""}},
		"the length of a shaft": {`
Shaft | Tip OD in | Length in
VG-1 | .355 | 41
VG-2 | .370 | 41`, map[string]catalog.Role{"B": catalog.TipOD, "C": ""}},
	} {
		t.Run(name, func(t *testing.T) {
			s := grid("Sheet", test.text)
			for _, row := range s.Rows {
				for i := range row {
					row[i].Raw = strings.ReplaceAll(row[i].Raw, "\x00", "\n")
				}
			}
			c := read(t, s)
			defer show(t, c)
			for _, col := range c.Tables[0].Columns {
				if want, told := test.want[col.Column]; told && col.Role != want {
					t.Errorf("%s %q is %q, want %q", col.Column, col.Heading, col.Role, want)
				}
				if strings.Contains(col.Heading, "Weight") && slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return strings.HasPrefix(f.Place.Cell, col.Column) }) {
					t.Errorf("a finding about %q, which is known to be of no use", col.Heading)
				}
			}
		})
	}
}

// TestModelAndClub names parts by model and club together where nothing else does.
func TestModelAndClub(t *testing.T) {
	c := read(t, grid("Models", `
Model | Club | Hosel OD mm | Bore mm
Larkspur | 5 | 12.7 | 9.12
^ | 6 | 12.7 | 9.12
Campion | 5 | 13.3 | 9.5
^ | 6 | 13.4 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "Larkspur 6", catalog.Assumed, sizes{catalog.HoselOD: 12.7})
	wantRow(t, c, "Campion 6", catalog.Assumed, sizes{catalog.HoselOD: 13.4})
}

// TestTwoSizesInOneCell asks which of two sizes is meant, and takes them for limits where the column or heading says so.
func TestTwoSizesInOneCell(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm)
QU-1 | 13.2 | 9.5
QU-2 | 13.2/13.4 | 9.5
QU-3 | 13.4 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "QU-2", catalog.Held, sizes{catalog.HoselOD: 0})
	wantFinding(t, c, "data.conflict", "B3", "13.2/13.4")
	for heading, text := range map[string]string{"Hosel OD (mm)": "13.6/13.7", "Hosel OD min/max (mm)": "13.5"} {
		c := read(t, grid("Heads", "Part No | "+heading+" | Bore (mm)\nQU-1 | 13.2/13.4 | 9.5\nQU-2 | "+text+" | 9.5"))
		if got := rowOf(t, c, "QU-1"); !strings.Contains(got, "hosel_od=13.3[13.2..13.4]") {
			t.Errorf("%s: %s", heading, got)
		}
	}
}

// TestRowOfWords keeps a row whose words are also those of headings.
func TestRowOfWords(t *testing.T) {
	c := read(t, grid("Heads", `
Head | Category | Hosel OD [mm] | Bore [mm] | Depth [mm] | Price
PN Bracken | iron | 13.2 | 9.5 | 32 | 15.00
PN Teasel | iron | ? | 9.5 | N/A | 15.00
PN Vetch | iron | 13.0 | 9.5 | 32 | 15.00
`))
	defer show(t, c)
	wantRow(t, c, "PN Teasel", catalog.Held, sizes{catalog.Bore: 9.5, catalog.HoselOD: 0})
	wantRow(t, c, "PN Vetch", catalog.Used, sizes{catalog.HoselOD: 13})
}

// TestPartShownWithZeros takes the part number as the sheet shows it, and says so.
func TestPartShownWithZeros(t *testing.T) {
	s := grid("Heads", "Part No | Hosel OD (mm)\nKX-1 | 13.2\n88 | 13.4")
	s.Rows[2][0] = &sheet.Cell{Kind: sheet.Number, Raw: "88", Shown: "00088", Format: "00000"}
	c := read(t, s)
	defer show(t, c)
	wantRow(t, c, "00088", catalog.Used, sizes{catalog.HoselOD: 13.4})
	wantFinding(t, c, "data.part-number", "A3", "00088")
}

// TestCommaThatCanMeanOneThing reads a comma with three digits after it by what is possible.
func TestCommaThatCanMeanOneThing(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (in) | Bore depth (in)
NB-1 | 0,515 | 1,250
NB-2 | 0,530 | 1,125
NB-3 | .530 | 1.125
`))
	defer show(t, c)
	wantRow(t, c, "NB-1", catalog.Assumed, sizes{catalog.HoselOD: 13.081, catalog.BoreDepth: 31.75})
	wantRow(t, c, "NB-2", catalog.Assumed, sizes{catalog.BoreDepth: 28.575})
}

// TestHiddenColumnOfTheSame reads the column that can be seen.
func TestHiddenColumnOfTheSame(t *testing.T) {
	s := grid("Heads", `
Part | Hosel OD | Hosel OD 2018 | Bore
DW-1 | 0.490 | 0.470 | 0.338
DW-2 | 0.470 | 0.455 | 0.338
`)
	s.HiddenCols = map[int]bool{3: true}
	c := read(t, s)
	defer show(t, c)
	wantRow(t, c, "DW-1", catalog.Assumed, sizes{catalog.HoselOD: 12.446})
	wantFinding(t, c, "layout.column", "C1", "hidden")
}

// TestUnusualSizeWithItsUnit uses a size beyond the usual that names its unit, with a warning; not one that a usual mistake
// explains.
func TestUnusualSizeWithItsUnit(t *testing.T) {
	c := read(t, grid("Ferrules", `
Code | Bore (in) | Base (in) | Length (in)
FO-1 | .368 | .535 | .75
FO-2 | 13.8 mm | 14.6 mm | 25 mm
FO-3 | 4.7 mm | 14.6 mm | 25 mm
`))
	defer show(t, c)
	wantRow(t, c, "FO-2", catalog.Used, sizes{catalog.Bore: 13.8, catalog.BaseOD: 14.6, catalog.Length: 25})
	wantFinding(t, c, "data.implausible", "B3", "13.8 mm")
	wantOpen(t, c, "FO-3", catalog.Bore)
	wantRow(t, c, "FO-3", catalog.Used, sizes{catalog.Bore: 0})
}

// TestOneDigitApart holds a part whose sizes differ by one in the last digit in two files, and lets rounding pass.
func TestOneDigitApart(t *testing.T) {
	a := grid("", "Ferrule | Bore (in) | Base OD (in)\nRV-1 | .368 | .508\nRV-2 | .368 | .535")
	b := grid("", "Ferrule | Bore (in) | Base OD (mm)\nRV-1 | .367 | 12.93\nRV-2 | .368 | 13.6")
	c := readInputs(t, reader.Options{}, reader.Input{Book: book("caller.csv", a)}, reader.Input{Book: book("wold.csv", b)})
	defer show(t, c)
	wantFinding(t, c, "data.conflict", "B2", ".367")
	wantFinding(t, c, "data.conflict", "C2", "12.93")
	if len(c.Ferrules) != 3 || c.Ferrules[1].Part != "RV-2" {
		t.Errorf("%d ferrules", len(c.Ferrules))
	}
}

// TestSourceOnItsSide sends a person to the part's own cell.
func TestSourceOnItsSide(t *testing.T) {
	c := read(t, grid("Compare", `
Comparison | | |
Model | Alder | Birch | Cedar
Hosel OD (mm) | 12.9 | 13.1 | 13.4
Bore (mm) | 9.12 | 9.5 | 9.5
Bore depth (mm) | 36 | 32 | 32
`))
	defer show(t, c)
	if len(c.Heads) != 3 {
		t.Fatalf("%d heads", len(c.Heads))
	}
	if got, want := c.Heads[1].Source, (catalog.Source{File: "orrin.xlsx", Sheet: "Compare", Row: 2, Cell: "C2"}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// TestColumnForEachClub makes a head of each club where a size is given club by club in columns.
func TestColumnForEachClub(t *testing.T) {
	for name, text := range map[string]string{
		"clubs below one heading": `
Part no. | Hosel OD (mm) | < | < | < | Bore (mm)
 | 5 | 6 | 7 | PW |
JD-1 | 12.9 | 12.9 | 13.0 | 13.2 | 9.5
JD-2 | 13.1 | 13.1 | – | 13.3 | 9.5`,
		"a heading above clubs": `
 | Hosel OD (mm) | < | < | < |
Part no. | 5 | 6 | 7 | PW | Bore (mm)
JD-1 | 12.9 | 12.9 | 13.0 | 13.2 | 9.5
JD-2 | 13.1 | 13.1 | – | 13.3 | 9.5`,
		"only a title": `
Hosel OD by club (mm) | | | | |
Model | 5 | 6 | 7 | PW | Bore
JD-1 | 12.9 | 12.9 | 13.0 | 13.2 | 9.5
JD-2 | 13.1 | 13.1 | – | 13.3 | 9.5`,
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Irons", text))
			defer show(t, c)
			var parts []string
			for _, h := range c.Heads {
				parts = append(parts, h.Part)
			}
			if want := []string{"JD-1 5", "JD-1 6", "JD-1 7", "JD-1 PW", "JD-2 5", "JD-2 6", "JD-2 PW"}; !slices.Equal(parts, want) {
				t.Fatalf("heads %q, want %q", parts, want)
			}
			if h := c.Heads[2]; h.Fields.Get(catalog.HoselOD).Dim.Nominal().Millimetres() != 13 || h.Fields.Get(catalog.Bore).Dim.Nominal().Millimetres() != 9.5 || h.Fields.Cell(catalog.HoselOD)[0] != 'D' {
				t.Errorf("%+v", h.Fields)
			}
			if roles := c.Tables[0].Columns; roles[1].Role != catalog.HoselOD || roles[4].Role != catalog.HoselOD || roles[4].Column != "E" {
				t.Errorf("%+v", roles)
			}
		})
	}
}

// TestDeclaredTable takes the columns of a named table for the table, and finds its heading though few words are known.
func TestDeclaredTable(t *testing.T) {
	s := grid("Range", `
 | | Glandmere | | | |
Legend | | | | | | Bore
BK | | Kode | Bore (in) | ⌀2 | L2 | .368
WH | | GL-1 | .368 | .535 | .75 | .353
RD | | GL-2 | .368 | .540 | .75 | .333
`)
	s.Tables = []sheet.Table{{Name: "Range26", Range: sheet.Range{From: sheet.Ref{Row: 3, Col: 3}, To: sheet.Ref{Row: 5, Col: 6}}}}
	c := readInputs(t, reader.Options{}, reader.Input{Book: book("glandmere.xlsx", s), Kind: catalog.Ferrules})
	defer show(t, c)
	table := c.Tables[0]
	if !slices.Equal(table.HeadingRows, []int{3}) || len(table.Columns) != 4 || table.Columns[0].Column != "C" {
		t.Errorf("heading %v, columns %+v", table.HeadingRows, table.Columns)
	}
	wantRow(t, c, "GL-2", catalog.Assumed, sizes{catalog.Bore: 9.3472, catalog.BaseOD: 13.716})
}

// TestToldOnce tells what changes nothing in the values once, where it stands first.
func TestToldOnce(t *testing.T) {
	s := grid("Ferrules", `
Stock no. | Item | Bore (in) | Base OD (in) | Length (in) | Price
=== for irons === | | | | |
0071 | Plain | .368 | 0,512 | .75 | 1.10
="0072" | Plain | .368 | 0,525 | .75 | 1.10
0073 | =REPLACES 0070 | .368 | .530 | .75 | 1.10
Total | 3 | | | | 3.30
`)
	s.Rows[2][0].Kind = sheet.Text
	s.Rows[2][4] = &sheet.Cell{Kind: sheet.Number, Raw: "0.75", Shown: "0.75", Formula: "3/4"}
	c := read(t, s)
	defer show(t, c)
	for _, want := range [][3]string{
		{"data.formula", "A2", "begins with"}, {"data.part-number", "A3", "leading zeros"}, {"data.leniency", "D3", "2 in all"}, {"data.formula", "E3", "=3/4"},
		{"data.part-number", "A4", "0072"}, {"data.formula", "B5", "kept as text"}, {"data.total", "", "totals"},
	} {
		cell := want[1]
		if cell == "A2" {
			cell = "" // about the row
		}
		wantFinding(t, c, want[0], cell, want[2])
	}
	wantRow(t, c, "0072", catalog.Used, sizes{catalog.BaseOD: 13.335})
}

// TestFormsThatAreNotKnown reports a word for a hosel's top that is not known, and leaves it open.
func TestFormsThatAreNotKnown(t *testing.T) {
	c := read(t, grid("Heads", `
Part | Hosel OD mm | Bore mm | Hosel top
EM-1 | 13.2 | 9.5 | c'sunk
EM-2 | 13.3 | 9.5 | c'bored
EM-3 | 13.3 | 9.5 | wrinkled
EM-4 | 13.3 | 9.5 | n/a
`))
	defer show(t, c)
	if got := []fitcalc.TopForm{c.Heads[0].Head.Top, c.Heads[1].Head.Top, c.Heads[2].Head.Top}; !slices.Equal(got, []fitcalc.TopForm{fitcalc.TopCountersunk, fitcalc.TopCounterbored, fitcalc.TopUnknown}) {
		t.Errorf("tops %v", got)
	}
	wantFinding(t, c, "data.unreadable", "D4", "wrinkled")
	if slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Place.Cell == "D5" }) {
		t.Error("a finding about a top that is said not to apply")
	}
}

// TestTightBore keeps a bore as large as the tip for a hole where the column gives holes beside the tips.
func TestTightBore(t *testing.T) {
	c := read(t, grid("Heads", `
Part | Hosel OD in | Shaft tip | Bore in
UG-1 | .540 | .370 | .3745
UG-2 | .540 | .370 | .3700
UG-3 | .530 | .370 | .3745
UG-4 | .500 | .335 | .3395
`))
	defer show(t, c)
	wantRow(t, c, "UG-2", catalog.Used, sizes{catalog.Bore: 9.398})
	if c.Heads[1].BoreIsDesignation {
		t.Error("UG-2: the bore is taken for the name of the tip")
	}
}

// TestCellsWithWords reads cells that name what they give, and takes none of their lines for a heading.
func TestCellsWithWords(t *testing.T) {
	c := read(t, grid("Heads", `
Part | What it is | Hosel | Bore | Depth | Ferrule
CY 1 | 7 iron head, cast | OD 13.3mm | ID 9.5mm | 32mm deep | yes
CY 2 | SW head, cast | OD 13.5mm approx | ID 9.5mm | 30mm deep | yes
CY 3 | PW head, cast | OD 13.5mm | ID 9.5mm | 30mm deep | yes
CY 4 | putter head | OD 0.5in | ID .373in | 1in deep | yes
`))
	defer show(t, c)
	wantRow(t, c, "CY 2", catalog.Assumed, sizes{catalog.HoselOD: 13.5, catalog.Bore: 9.5, catalog.BoreDepth: 30})
	wantRow(t, c, "CY 4", catalog.Used, sizes{catalog.HoselOD: 12.7, catalog.BoreDepth: 25.4})
	if len(c.Tables) != 1 || c.Heads[0].Description != "7 iron head, cast" {
		t.Errorf("%d tables, %q", len(c.Tables), c.Heads[0].Description)
	}
}

// TestLimitsUnderGroups reads least and greatest sizes under a heading for both, and asks where they are exchanged.
func TestLimitsUnderGroups(t *testing.T) {
	c := read(t, grid("Limits", `
Acceptance limits (in.) | | | |
Head no. | Hosel O.D. | < | Bore | <
 | min | max | min. | max.
TK-1 | 0.496 | 0.502 | 0.3735 | 0.3755
TK-2 | 0.502 | 0.496 | 0.3735 | 0.3755
`))
	defer show(t, c)
	if got := rowOf(t, c, "TK-1"); !strings.Contains(got, "bore=9.5123[9.4869..9.5377] hosel_od=12.6746[12.5984..12.7508]") {
		t.Error(got)
	}
	wantRow(t, c, "TK-2", catalog.Held, sizes{catalog.HoselOD: 0})
	wantFinding(t, c, "data.conflict", "B5", "at least 0.502")
}

// TestLimitsInWords reads columns whose headings say that they are of the lower and the upper limit of a size.
func TestLimitsInWords(t *testing.T) {
	for _, words := range [][4]string{
		{"Hosel OD (mm)", "low limit", "high limit", "Bore (mm)"},
		{"Hosel OD (mm)", "LSL", "USL", "Bore (mm)"},
		{"Hosel OD (mm)", "min. limit", "max. limit", "Bore (mm)"},
		{"Hals-Ø (mm)", "unteres Grenzmaß", "oberes Grenzmaß", "Bohrung (mm)"},
		{"Hals-Ø außen (mm)", "Kleinstmaß", "Größtmaß", "Bohrung (mm)"},
		{"Ø ext. du col (mm)", "limite inf.", "limite sup.", "Alésage (mm)"},
		{"Ø exterior del cuello (mm)", "límite inferior", "límite superior", "Taladro (mm)"},
		{"Ø esterno hosel (mm)", "limite inf.", "limite sup.", "Foro (mm)"},
		{"Buitendiameter hals (mm)", "ondergrens", "bovengrens", "Boring (mm)"},
		{"Hosel ytterdiameter (mm)", "undre gräns", "övre gräns", "Hål (mm)"},
		{"Hals udv. (mm)", "nedre grænse", "øvre grænse", "Hul (mm)"},
		{"Vnější průměr krku (mm)", "dolní mez", "horní mez", "Otvor (mm)"},
		{"Śr. zewn. szyjki (mm)", "granica dolna", "granica górna", "Otwór (mm)"},
		{"ホーゼル外径 (mm)", "下限", "上限", "穴径 (mm)"},
		{"插口外径 (mm)", "下限", "上限", "内径 (mm)"},
		{"호젤 외경 (mm)", "하한", "상한", "내경 (mm)"},
	} {
		c := read(t, grid("Heads", fmt.Sprintf(`
Part no | %s | < | %s
 | %s | %s |
RW-51 | 13.55 | 13.65 | 9.5
RW-52 | 13.65 | 13.55 | 9.5
RW-53 | | | 9.5
RW-54 | 13.75 | 13.85 | 9.5
`, words[0], words[3], words[1], words[2])))
		if got := rowOf(t, c, "RW-51"); !strings.Contains(got, "bore=9.5 hosel_od=13.6[13.55..13.65]") {
			t.Errorf("%s: %s", words[1], got)
		}
		wantRow(t, c, "RW-52", catalog.Held, sizes{catalog.HoselOD: 0})
		wantRow(t, c, "RW-53", catalog.Held, sizes{catalog.HoselOD: 0})
		wantFinding(t, c, "data.conflict", "B4", "at least")
	}
	// Beside the size they are for, small numbers under such words are deviations.
	c := read(t, grid("Heads", `
Part no | Hosel OD (mm) | lower limit | upper limit | Bore (mm)
RW-51 | 13.6 | -0.05 | +0.05 | 9.5
RW-52 | 13.6 | -0.05 | +0.05 | 9.5
`))
	if got := rowOf(t, c, "RW-51"); !strings.Contains(got, "hosel_od=13.6[13.55..13.65]") {
		t.Error(got)
	}
}

// TestEndsInOneColumn reads the diameters of both ends of a ferrule from one column, of which the heading says both ends and only once of what.
func TestEndsInOneColumn(t *testing.T) {
	for _, heading := range []string{
		"Outer dia. base / top", "Outer dia. (base/top)", "Außen-Ø unten/oben", "Ø ext. (bas/haut)", "Diámetro exterior abajo/arriba", "Ø esterno base / punta",
		"Buitendiameter onder / boven", "Udv. diameter bund / top", "Ytterdiameter nere / uppe", "vnější prům. dole / nahoře", "średnica zewn. dół / góra", "外径（下／上）",
	} {
		c := read(t, grid("Ferrules", `
Part no | `+heading+` | ID (mm) | Length (mm)
FW-12 | 13.5 / 10.5 | 9.3 | 19
FW-13 | 13.5 / ? | 9.3 | 25
FW-14 | illegible | 9.3 | 25
FW-15 | 13.2/10.1 | 9.3 | 25
`))
		if got := rowOf(t, c, "FW-12"); !strings.Contains(got, "base_od=13.5 bore=9.3 length=19 top_od=10.5") {
			t.Errorf("%s: %s", heading, got)
		}
		wantOpen(t, c, "FW-13", catalog.TopOD)
		wantFinding(t, c, "data.missing", "B4", "instead of a size")
	}
	c := read(t, grid("Heads", `
Part no | Hosel OD / note | Bore (mm)
HW-12 | 13.5 / 2 | 9.5
HW-13 | 13.5 / 3 | 9.5
`))
	if got := rowOf(t, c, "HW-12"); strings.Contains(got, "top_od") {
		t.Error(got)
	}
}

// TestGroupsAboveABlankLine joins groups with the headings below them.
func TestGroupsAboveABlankLine(t *testing.T) {
	c := read(t, grid("Pack", `
Head | | Hosel | | Shaft bore | | Status
 | | | | | |
ID | Type | Top OD (mm) | Length (mm) | Dia. (mm) | Depth (mm) |
HB-1 | Driver | 11.5 | 55 | 8.6 | 40 | live
HB-2 | Iron 7 | 12.9 | 62 | 9.5 | 34 | live
`))
	defer show(t, c)
	wantRow(t, c, "HB-2", catalog.Used, sizes{catalog.HoselOD: 12.9, catalog.HoselLength: 62, catalog.Bore: 9.5, catalog.BoreDepth: 34})
	if len(c.Tables) != 1 {
		t.Errorf("%d tables", len(c.Tables))
	}
}

// TestNotYetKnown uses a row of which a size that is not needed is still to come.
func TestNotYetKnown(t *testing.T) {
	c := read(t, grid("Heads", `
Part | Club | Hosel OD mm | Bore mm | Bore depth mm
RG-1 | Pitching | 13.2 | 9.5 | tbd
RG-2 | 7 | tbd | 9.5 | 32
`))
	defer show(t, c)
	wantRow(t, c, "RG-1", catalog.Used, sizes{catalog.HoselOD: 13.2, catalog.BoreDepth: 0})
	wantRow(t, c, "RG-2", catalog.Held, sizes{catalog.HoselOD: 0})
	wantFinding(t, c, "data.missing", "E2", "not stated")
	if c.Heads[0].Category != fitcalc.Wedge {
		t.Errorf("RG-1 is a %v", c.Heads[0].Category)
	}
}

// TestUnitsOfSections takes the unit from the titles within the table where they name it for every line.
func TestUnitsOfSections(t *testing.T) {
	c := read(t, grid("Ferrules", `
Part | Description | ID | OD base | Length
Ferrules in inches | | | |
IB-1 | plain | .368 | .535 | .75
IB-2 | plain | .368 | .550 | .75
Ferrules in millimetres | | | |
IB-3 | plain | 9.35 | 13.6 | 19
IB-4 | plain | 9.35 | 14.2 | 19
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "IB-2", catalog.Assumed, sizes{catalog.Bore: 9.3472, catalog.BaseOD: 13.97, catalog.Length: 19.05})
	wantRow(t, c, "IB-3", catalog.Assumed, sizes{catalog.Bore: 9.35, catalog.BaseOD: 13.6, catalog.Length: 19})
}

// TestNumbersOfLines takes no running number for a club, and the column of categories before that of clubs.
func TestNumbersOfLines(t *testing.T) {
	c := read(t, grid("Heads", `
No. | Part no. | Type | Hosel OD mm | Bore mm | C'sink (°)
1 | WD-I | iron | 12.9 | 9.5 | 90
2 | WD-W | wedge | 13.2 | 9.5 | 90
3 | WD-D | driver | 11.5 | 8.6 | 82
`))
	defer show(t, c)
	if got := []fitcalc.Category{c.Heads[0].Category, c.Heads[1].Category, c.Heads[2].Category}; !slices.Equal(got, []fitcalc.Category{fitcalc.Iron, fitcalc.Wedge, fitcalc.Driver}) {
		t.Errorf("categories %v", got)
	}
	if angle := c.Heads[2].Head.Countersink.Angle.Degrees(); angle != 82 {
		t.Errorf("angle %g", angle)
	}
}

// TestHolesInThousandths does not take a hole in thousandths for a tip that it is near.
func TestHolesInThousandths(t *testing.T) {
	c := read(t, grid("Heads", `
All sizes in thou | | | |
Part | Hosel OD | Bore | Bore depth
PD-1 | 508 | 374 | 1250
PD-2 | 512 | 370 | 1250
`))
	defer show(t, c)
	if c.Heads[0].BoreIsDesignation || !c.Heads[1].BoreIsDesignation {
		t.Errorf("designations %v and %v, want none and one", c.Heads[0].BoreIsDesignation, c.Heads[1].BoreIsDesignation)
	}
}

// TestTurnedWithUnitsAndUnknownCorner finds the line of part numbers above a table on its side.
func TestTurnedWithUnitsAndUnknownCorner(t *testing.T) {
	c := read(t, grid("Data sheet", `
Trim rings, data sheet | | | |
Merkmal | Unit | ZF-10 | ZF-20 | ZF-30
Inside diameter | mm | 9.35 | 9.35 | 8.97
Outside diameter at base | mm | 13.6 | 14.1 | 13.2
Length | mm | 19 | 19 | 25
Unit price | EUR | 0.48 | 0.51 | 0.44
`))
	defer show(t, c)
	wantRow(t, c, "ZF-20", catalog.Assumed, sizes{catalog.Bore: 9.35, catalog.BaseOD: 14.1, catalog.Length: 19})
}

// TestToleranceColumnOfOneSize puts the tolerances of a column on the size or sizes that its heading names.
func TestToleranceColumnOfOneSize(t *testing.T) {
	for heading, want := range map[string]string{
		"Tol OD":        "bore=9.5 bore_depth=32 hosel_od=13[12.95..13.05]",
		"Bore tol.":     "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13",
		"Dia. tol.":     "bore=9.5[9.45..9.55] bore_depth=32 hosel_od=13[12.95..13.05]",
		"Tolerance":     "bore=9.5[9.45..9.55] bore_depth=32[31.95..32.05] hosel_od=13[12.95..13.05]",
		"Toleranz Hals": "bore=9.5 bore_depth=32 hosel_od=13[12.95..13.05]",
	} {
		c := read(t, grid("Heads", "Part | Hosel OD mm | Bore mm | Bore depth mm | "+heading+"\nBL-1 | 13 | 9.5 | 32 | ±0.05\nBL-2 | 13.1 | 9.5 | 32 | ±0.05"))
		if got := rowOf(t, c, "BL-1"); !strings.Contains(got, want) {
			t.Errorf("%s: %s, want %s", heading, got, want)
		}
	}
}

// TestRowsThatReadLikeHeadings keeps rows of words that could be headings, and gaps where the sizes should be, in their table.
func TestRowsThatReadLikeHeadings(t *testing.T) {
	for _, row := range []string{
		"HD-002 | TBD | 9.5 | 32 | countersunk | iron",
		"HD-002 | 12.7 | | | countersunk | iron",
		"HD-002 | | | | countersunk | wedge",
		"Nettle | TBD | | | countersunk | driver",
		"HD-002 | n/a | n/a | n/a | flat | hybrid",
		"Collar 7 | see drawing | 9.5 | | counterbored | iron",
	} {
		t.Run(row, func(t *testing.T) {
			c := read(t, grid("Heads", `
Part | Hosel OD (mm) | Bore (mm) | Bore depth (mm) | Top | Type
HD-001 | 12.7 | 9.5 | 32 | flat | iron
`+row+`
HD-003 | 12.9 | 9.5 | 32 | flat | iron
`))
			defer show(t, c)
			if len(c.Tables) != 1 || len(c.Heads) != 3 {
				t.Errorf("%d tables, %d heads; want 1 and 3", len(c.Tables), len(c.Heads))
			}
			if l := c.Tables[0].Ledger; l.SetAside != 1 {
				t.Errorf("the ledger is %+v; only the heading is to be set aside", l)
			}
		})
	}
}
