package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
)

const headsWithFerrules = `
Part # | Product | Hosel O.D. | Ferrule P/N | Ferrule OD | Ferrule length
KR-50 | Iron head | 0.535" | F-1 | 0.540" | 0.75"
KR-51 | Iron head | 0.530" | F-1 | 0.540" | 0.75"
`

func TestKindSaidByTheUser(t *testing.T) {
	c := readInputs(t, reader.Options{}, reader.Input{Book: book("list.xlsx", grid("Sheet1", headsWithFerrules)), Kind: catalog.Heads})
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-51", catalog.Used, sizes{catalog.HoselOD: 13.462, catalog.BaseOD: 0})
}

func TestKindInDoubt(t *testing.T) {
	c := readInputs(t, reader.Options{}, reader.Input{Book: book("list.xlsx", grid("Sheet1", headsWithFerrules))})
	defer show(t, c)
	wantFinding(t, c, "layout.kind", "", "could list")
	for _, row := range c.Tables[0].Rows[1:] {
		if row.Outcome != catalog.Held {
			t.Errorf("row %d is %s", row.Row, row.Outcome)
		}
	}
}

func TestKindThatIsNotWhatWasSaid(t *testing.T) {
	c := readInputs(t, reader.Options{}, reader.Input{Book: book("list.xlsx", grid("Sheet1", plainFerrules)), Kind: catalog.Heads})
	defer show(t, c)
	wantFinding(t, c, "layout.kind", "", "given as heads, but this table lists ferrules")
	if len(c.Ferrules) != 2 || len(c.Heads) != 0 {
		t.Errorf("%d heads, %d ferrules", len(c.Heads), len(c.Ferrules))
	}
}

// What a file was given for and nothing was read of is said upon its rows.
func TestKindOfWhichThereAreNoSizes(t *testing.T) {
	b := book("list.xlsx", grid("Sheet1", "Part no. | Stock | Remark\nF-101 | 12 | new\nF-102 | 40 |\nF-103 | 7 | last"))
	given := readInputs(t, reader.Options{}, reader.Input{Book: b, Kind: catalog.Ferrules})
	defer show(t, given)
	wantFinding(t, given, "layout.kind", "A1:C4", "although the file was given as ferrules")
	wantFinding(t, readInputs(t, reader.Options{}, reader.Input{Book: b}), "layout.kind", "", "all its rows are set aside")
}

func TestSameFileAsTwoKinds(t *testing.T) {
	b := book("all.xlsx", grid("Heads", plainHeads), grid("Ferrules", plainFerrules))
	c := readInputs(t, reader.Options{}, reader.Input{Book: b, Kind: catalog.Heads}, reader.Input{Book: b, Kind: catalog.Ferrules})
	defer show(t, c)
	wantNoErrors(t, c)
	if len(c.Ferrules) != 2 || len(c.Heads) != 2 || len(c.Tables) != 2 {
		t.Errorf("%d heads, %d ferrules, %d tables", len(c.Heads), len(c.Ferrules), len(c.Tables))
	}
}

func TestKindByColumnsAlone(t *testing.T) {
	c := readInputs(t, reader.Options{}, reader.Input{Book: book("list.csv", grid("list", `
Part | OD (mm) | ID (mm) | Length (mm)
A1 | 13.6 | 9.35 | 19
A2 | 13.6 | 9.35 | 12
`))})
	defer show(t, c)
	wantRow(t, c, "A1", catalog.Assumed, sizes{catalog.BaseOD: 13.6})
	wantFinding(t, c, "layout.kind", "", "nothing says so")
}

func TestColumnsExchanged(t *testing.T) {
	c := read(t, grid("List", `
Part | Bore (mm) | Hosel OD (mm)
S-1 | 13.6 | 9.5
S-2 | 13.5 | 9.5
`))
	defer show(t, c)
	wantFinding(t, c, "layout.exchanged", "B1", "exchanged")
	wantRow(t, c, "S-1", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 0})
	if len(c.Heads) != 2 {
		t.Errorf("%d heads", len(c.Heads))
	}
}

func TestAbbreviationIsNoUnit(t *testing.T) {
	c := read(t, grid("Heads", `
Part No. | Hosel OD mm | Bore mm | Ins. depth
Q1 | 13.6 | 9.5 | 32
Q2 | 13.6 | 9.5 | 32
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "Q1", catalog.Assumed, sizes{catalog.BoreDepth: 32})
}

// Part numbers beside texts with sizes whose names are not known vanish from no list without a word; without sizes they are of anything.
func TestSizesInTextsOfWhichNothingIsUnderstood(t *testing.T) {
	sized := read(t, grid("List", `
Part No | Description | Stock | Price
LT-I5 | Galvute 5 kaklelis 13.4 mm anga 9.5 mm | 24 | 48
LT-I6 | Galvute 6 kaklelis 13.4 mm anga 9.5 mm | 20 | 48
`))
	wantFinding(t, sized, "layout.kind", "A1:D3", "although its texts give sizes")
	listed := read(t, grid("List", `
Part No | Description | Stock | Price
LT-I5 | Galvute 13.4 x 9.5 x 32 | 24 | 48
LT-I6 | Galvute 13.6 x 9.5 x 32 | 20 | 48
`))
	wantFinding(t, listed, "layout.kind", "A1:D3", "although its texts give sizes")
	other := read(t, grid("List", `
Part No | Description | Stock | Price
LT-I5 | Galvute 5 | 24 | 48
LT-I6 | Galvute 6 | 20 | 48
`))
	wantFinding(t, other, "layout.kind", "", "all its rows are set aside")
}

// What most rows say that they are, or the heading above what they are called, says what the table lists.
func TestKindSaidByRows(t *testing.T) {
	for name, sheet := range map[string]string{
		"rows":    "Item | Description | OD | ID | Lgth\nF-1 | FERRULE BLK .370 | .530 | .365 | 1.000\nF-2 | FERRULE BLK .370 | .540 | .365 | 1.000\nF-3 | FERRULE WHT .370 | .540 | .365 | .750",
		"heading": "Ref. | Casquillo | Diám. mayor (mm) | Agujero (mm) | Largo (mm)\nF-1 | Liso | 13.462 | 9.271 | 25.4\nF-2 | Con aros | 13.5 | 9.3 | 25\nF-3 | Liso | 13.8 | 9.3 | 25",
		"German":  "Nr. | Zierring | Ø außen (mm) | Bohrung (mm) | Länge (mm)\nF-1 | glatt | 13.462 | 9.271 | 25.4\nF-2 | mit Ringen | 13.5 | 9.3 | 25\nF-3 | glatt | 13.8 | 9.3 | 25",
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Sheet1", "All sizes "+map[bool]string{true: "in inches", false: "in mm"}[name == "rows"]+"\n"+sheet))
			defer show(t, c)
			wantRow(t, c, "F-1", catalog.Used, sizes{catalog.BaseOD: 13.462, catalog.Bore: 9.271, catalog.Length: 25.4})
		})
	}
	c := read(t, grid("Sheet1", "Item | Description | OD (in) | ID (in) | Lgth (in)\nF-1 | BLK .370 | .530 | .365 | 1.000\nF-2 | BLK .370 | .540 | .365 | 1.000"))
	defer show(t, c)
	wantRow(t, c, "F-1", catalog.Assumed, sizes{catalog.BaseOD: 13.462})
}

// The end at the hosel is the base of a ferrule, and no hosel.
func TestHoselEndOfFerrules(t *testing.T) {
	c := read(t, grid("Ferrules", "\nRef | Hosel end mm | Shaft end mm | Hole mm | Overall mm\nF-1 | 13.5 | 10.2 | 9.3 | 25\nF-2 | 13.8 | 10.2 | 9.3 | 25"))
	defer show(t, c)
	wantRow(t, c, "F-1", catalog.Used, sizes{catalog.BaseOD: 13.5, catalog.TopOD: 10.2, catalog.Bore: 9.3})
}

// What may be the tip as well as the thin end is the thin end beside the other one, and is asked about without.
func TestShaftEndBesideTheOther(t *testing.T) {
	const rows = "\nF-1 | 13.5 | 10.4 | 9.3 | 12 | 0.40\nF-2 | 13.5 | 10.4 | 9.3 | 19 | 0.50\nF-3 | 13.8 | 10.5 | 9.3 | 25 | 0.60\nF-4 | 13.2 | 10.0 | 8.9 | 25 | 0.60"
	for headings, told := range map[string]bool{
		"Ref | Hosel end | Shaft end | Bore | Length | Price £":       true,
		"Ref | Base | Shaft end | Bore | Length | Price £":            true,
		"Nr. | Kopfende | Schaftende | Bohrung | Länge | Preis €":     true,
		"Réf. | Côté tête | Bout du shaft | Alésage | Long. | Prix €": true,
		"品番 | 頭側 | 軸側 | 内径 | 全長 | 価格":                                 true,
		"型号 | 头端 | 杆端 | 内径 | 长度 | 价格":                                 true,
		"Ref | OD | Shaft end | Bore | Length | Price £":              false,
	} {
		t.Run(headings, func(t *testing.T) {
			c := read(t, grid("Ferrules", "Ferrules, all sizes in mm\n"+headings+rows))
			defer show(t, c)
			want := sizes{catalog.BaseOD: 13.5, catalog.Bore: 9.3, catalog.Length: 12}
			if told {
				want[catalog.TopOD] = 10.4
			}
			wantRow(t, c, "F-1", catalog.Used, want)
			if told {
				wantNoFinding(t, c, "layout.role", "C2")
			} else {
				wantFinding(t, c, "layout.role", "C2", "could as well be tip")
			}
		})
	}
}
