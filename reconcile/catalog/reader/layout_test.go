package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
)

const plainHeads = `
Part No | Description | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
KR-20 | Forged iron | 13.6 | 9.5 | 32
KR-21 | Cast iron | 13.4 | 9.5 | 30
`

const plainFerrules = `
SKU | Bore (in) | Base OD (in) | Length (in) | Colour
F-100 | 0.368 | 0.540 | 0.75 | black
F-101 | 0.368 | 0.545 | 1.0 | black
`

func TestPlainTables(t *testing.T) {
	c := read(t, grid("Heads", plainHeads), grid("Ferrules", plainFerrules))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-20", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.5, catalog.BoreDepth: 32})
	wantRow(t, c, "F-101", catalog.Used, sizes{catalog.Bore: 9.3472, catalog.BaseOD: 13.843, catalog.Length: 25.4})
	if len(c.Heads) != 2 || len(c.Ferrules) != 2 {
		t.Fatalf("%d heads, %d ferrules", len(c.Heads), len(c.Ferrules))
	}
	if c.Heads[0].Category != fitcalc.Iron {
		t.Errorf("category %v", c.Heads[0].Category)
	}
	if c.Ferrules[1].Colour != "black" || c.Ferrules[1].Supplier != "orrin" {
		t.Errorf("colour %q, supplier %q", c.Ferrules[1].Colour, c.Ferrules[1].Supplier)
	}
}

func TestTitleNotesTotalsAndBlanks(t *testing.T) {
	c := read(t, grid("Sheet1", `
Fairholt Foundry price list
valid from spring

 | Part No | Hosel OD | Bore | Price
 | KR-20 | 13.6 | 9.5 | 12.50
 | | | |
 | KR-21 | 13.4 | 9.5 | 13.00
 | Total | | | 25.50

 | * All dimensions in mm
 | Note: subject to change without notice
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-20", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.5})
	wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.4})
	if got, want := c.Tables[0].Ledger, (catalog.Ledger{Rows: 11, Used: 2, SetAside: 9}); got != want {
		t.Errorf("ledger %+v, want %+v", got, want)
	}
}

func TestTwoRowHeadings(t *testing.T) {
	for name, text := range map[string]string{
		"merged": `
Part | Hosel | < | < | Shaft tip | Price
No. | OD | Bore | Depth | size |
 | mm | mm | mm | |
KR-20 | 13.6 | 9.5 | 32 | .370 | 12
KR-21 | 13.4 | 9.5 | 30 | .370 | 12
`,
		"not merged": `
Part No. | Hosel | | | Price
 | OD (mm) | Bore (mm) | Bore depth (mm) |
KR-20 | 13.6 | 9.5 | 32 | 12
KR-21 | 13.4 | 9.5 | 30 | 12
`,
		"units above": `
Part No. | Dimensions in mm | < | < | Price
^ | Hosel OD | Bore | Bore depth | ^
KR-20 | 13.6 | 9.5 | 32 | 12
KR-21 | 13.4 | 9.5 | 30 | 12
`,
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", text))
			defer show(t, c)
			wantNoErrors(t, c)
			wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.4, catalog.Bore: 9.5, catalog.BoreDepth: 30})
		})
	}
}

func TestRepeatedHeadings(t *testing.T) {
	c := read(t, grid("Heads", plainHeads+`
 Part No | Description | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
 KR-22 | Cast iron | 13.5 | 9.5 | 30
 Part No | Description | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
 KR-23 | Cast iron | 13.5 | 9.5 | 30
`))
	defer show(t, c)
	wantNoErrors(t, c)
	if len(c.Tables) != 1 || len(c.Heads) != 4 {
		t.Errorf("%d tables, %d heads", len(c.Tables), len(c.Heads))
	}
}

// Headings further down are those of the table again as long as no column means something else from there on.
func TestHeadingsThatComeAgain(t *testing.T) {
	const first = `
Part | Model | Hosel | | Price
No. | | OD | Bore |
 | | mm | mm | EUR
KR-20 | Forged | 13.6 | 9.5 | 12
KR-21 | Forged | 13.4 | 9.5 | 12
KR-22 | Forged | 13.4 | 9.5 | 12
`
	for _, c := range []struct {
		name, again string
		tables      int
	}{
		{"in one line, without units", "Part No. | Model | Hosel OD | Bore | Price", 1},
		{"its lowest line only", " | | OD | Bore | ", 1},
		{"in other words, with some of the units", "Item | Description | Outside dia. of hosel | Hosel ID (mm) | ", 1},
		{"in other words, one of them unknown", "Item | Zorblat | Hosel OD | Hosel ID | Price", 1},
		{"with a unit that is none of its own", "Part No. | Model | Hosel OD (in) | Bore | Price", 2},
		{"with the currency of its prices", "Part No. | Model | Hosel OD | Bore | Price EUR", 1},
		{"with prices for a hundred", "Part No. | Model | Hosel OD | Bore | Price per 100", 2},
		{"with a tolerance", "Part No. | Model | Hosel OD ±0.1 | Bore | Price", 2},
		{"as radii", "Part No. | Model | Hosel radius | Bore | Price", 2},
		{"as readings", "Part No. | Model | Hosel OD measured | Bore | Price", 2},
		{"with a column that means something else", "Part No. | Model | Hosel OD | Bore depth | Price", 2},
		{"as those of ferrules", "Part No. | Model | Base OD | Bore | Price", 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := read(t, grid("Heads", first+c.again+"\nKR-30 | Cast | 13.5 | 9.6 | 14\nKR-31 | Cast | 13.5 | 9.6 | 14\nKR-32 | Cast | 13.5 | 9.6 | 14\n"))
			if len(got.Tables) != c.tables {
				t.Errorf("%d tables, want %d", len(got.Tables), c.tables)
			}
			if c.tables == 1 {
				wantNoErrors(t, got)
				wantRow(t, got, "KR-31", catalog.Used, sizes{catalog.HoselOD: 13.5, catalog.Bore: 9.6})
			}
			if t.Failed() {
				show(t, got)
			}
		})
	}
}

// The same headings stand above heads and, below a title that says so, above ferrules.
func TestSameHeadingsForAnotherKind(t *testing.T) {
	for name, text := range map[string]string{
		"heads first":    "Heads\n$\nH-1 | 13.5 | 9.5 | 68\nH-2 | 13.6 | 9.5 | 70\n\nFerrules\n$\nF-1 | 13.5 | 9.3 | 19\nF-2 | 13.6 | 9.3 | 25\n",
		"ferrules first": "Ferrules\n$\nF-1 | 13.5 | 9.3 | 19\nF-2 | 13.6 | 9.3 | 25\n\nHeads\n$\nH-1 | 13.5 | 9.5 | 68\nH-2 | 13.6 | 9.5 | 70\n",
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("All", strings.ReplaceAll(text, "$", "Part No | OD (mm) | Bore (mm) | Length (mm)")))
			if len(c.Heads) != 2 || len(c.Ferrules) != 2 {
				t.Errorf("%d heads, %d ferrules", len(c.Heads), len(c.Ferrules))
			}
			wantRow(t, c, "H-2", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.HoselLength: 70})
			wantRow(t, c, "F-2", catalog.Used, sizes{catalog.BaseOD: 13.6, catalog.Length: 25})
		})
	}
}

func TestTablesBelowEachOther(t *testing.T) {
	c := read(t, grid("All", `
Heads
Part No | Hosel OD (mm) | Bore (mm)
KR-20 | 13.6 | 9.5
KR-21 | 13.4 | 9.5

Ferrules
Part No | Bore (mm) | Base OD (mm) | Length (mm)
F-100 | 9.35 | 13.7 | 19
F-101 | 9.35 | 13.8 | 25
`))
	defer show(t, c)
	wantNoErrors(t, c)
	if len(c.Tables) != 2 || len(c.Heads) != 2 || len(c.Ferrules) != 2 {
		t.Errorf("%d tables, %d heads, %d ferrules", len(c.Tables), len(c.Heads), len(c.Ferrules))
	}
	wantRow(t, c, "F-101", catalog.Used, sizes{catalog.BaseOD: 13.8, catalog.Length: 25})
}

func TestTablesSideBySide(t *testing.T) {
	for name, text := range map[string]string{
		"with a gap": `
Heads |  |  |  | Ferrules
Part No | Hosel OD (mm) | Bore (mm) | | Part No | Bore (mm) | Base OD (mm)
KR-20 | 13.6 | 9.5 | | F-100 | 9.35 | 13.7
KR-21 | 13.4 | 9.5 | | F-101 | 9.35 | 13.8
KR-22 | 13.4 | 9.5
`,
		"without": `
Part No | Hosel OD (mm) | Bore (mm) | Part No | Ferrule bore (mm) | Base OD (mm)
KR-20 | 13.6 | 9.5 | F-100 | 9.35 | 13.7
KR-21 | 13.4 | 9.5 | F-101 | 9.35 | 13.8
KR-22 | 13.4 | 9.5
`,
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Both", text))
			defer show(t, c)
			wantNoErrors(t, c)
			if len(c.Tables) != 2 || len(c.Heads) != 3 || len(c.Ferrules) != 2 {
				t.Errorf("%d tables, %d heads, %d ferrules", len(c.Tables), len(c.Heads), len(c.Ferrules))
			}
			wantRow(t, c, "KR-22", catalog.Used, sizes{catalog.HoselOD: 13.4})
			wantRow(t, c, "F-101", catalog.Used, sizes{catalog.BaseOD: 13.8})
		})
	}
}

func TestTransposed(t *testing.T) {
	c := read(t, grid("Heads", `
Orrin heads

Part No | KR-20 | KR-21 | KR-22
Category | Iron | Iron | Wedge
Hosel OD (mm) | 13.6 | 13.4 | 13.8
Bore (mm) | 9.5 | 9.5 | 9.5
Bore depth (mm) | 32 | 30 | 31
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-22", catalog.Used, sizes{catalog.HoselOD: 13.8, catalog.Bore: 9.5, catalog.BoreDepth: 31})
	if len(c.Heads) != 3 || c.Heads[2].Category != fitcalc.Wedge {
		t.Errorf("%d heads", len(c.Heads))
	}
	if cell := c.Heads[2].Fields.Cell(catalog.HoselOD); cell != "D5" {
		t.Errorf("hosel OD from %s", cell)
	}
}

func TestMergedBodyAndSections(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
IRONS | < | < | <
KR-20 | 13.6 | 9.5 | 32
KR-21 | ^ | 9.5 | 30
DRIVERS | < | < | <
KD-1 | 13.0 | 8.6 | 38
`))
	defer show(t, c)
	wantNoErrors(t, c)
	wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.6, catalog.Bore: 9.5})
	if len(c.Heads) != 3 || c.Heads[1].Category != fitcalc.Iron || c.Heads[2].Category != fitcalc.Driver {
		t.Errorf("%d heads", len(c.Heads))
	}
}

func TestSets(t *testing.T) {
	c := read(t, grid("Heads", `
Model | Clubs | Hosel OD (mm) | Bore (mm)
KR-20 | 4-PW | 13.6 | 9.5
KR-40 | 5-7 | 13.4 | 9.5
`))
	defer show(t, c)
	if len(c.Heads) != 10 {
		t.Errorf("%d heads, want 10", len(c.Heads))
	}
	wantRow(t, c, "KR-20 PW", catalog.Used, sizes{catalog.HoselOD: 13.6})
	wantRow(t, c, "KR-20 4", catalog.Used, sizes{catalog.HoselOD: 13.6})
	wantFinding(t, c, "data.set", "B2", `"4-PW" read as 4 5 6 7 8 9 PW`)
	if got, want := c.Tables[0].Ledger, (catalog.Ledger{Rows: 3, Used: 2, SetAside: 1}); got != want {
		t.Errorf("ledger %+v, want %+v", got, want)
	}
}

func TestSetInPartNumberAndRowPerClub(t *testing.T) {
	c := read(t, grid("Heads", `
Model | Club | Hosel OD (mm) | Bore (mm)
KR-20 | 4 | 13.6 | 9.5
KR-20 | 5 | 13.7 | 9.5
KR-20 | PW | 13.8 | 9.5
`), grid("More heads", `
Model | Hosel OD (mm) | Bore (mm)
KR-30 4-PW | 13.6 | 9.5
`))
	defer show(t, c)
	if len(c.Heads) != 10 {
		t.Errorf("%d heads, want 10", len(c.Heads))
	}
	wantRow(t, c, "KR-20 PW", catalog.Used, sizes{catalog.HoselOD: 13.8})
	wantRow(t, c, "KR-30 9", catalog.Assumed, sizes{catalog.HoselOD: 13.6})
}

func TestNoTable(t *testing.T) {
	c := read(t, grid("Letter", `
Dear customer
thank you for your order
Yours, Orrin
`))
	defer show(t, c)
	wantFinding(t, c, "layout.no-table", "", "")
	if got, want := c.Tables[0].Ledger, (catalog.Ledger{Rows: 3, SetAside: 3}); got != want {
		t.Errorf("ledger %+v, want %+v", got, want)
	}
}

func TestHidden(t *testing.T) {
	s := grid("Heads", plainHeads)
	s.HiddenRows = map[int]bool{3: true}
	s.HiddenCols = map[int]bool{4: true}
	c := read(t, s)
	defer show(t, c)
	wantFinding(t, c, "layout.hidden", "", "row 3 is hidden")
	wantFinding(t, c, "layout.hidden", "D1", "column D is hidden")
	wantRow(t, c, "KR-21", catalog.Used, sizes{catalog.HoselOD: 13.4, catalog.Bore: 9.5})
}

func TestHeadingsNotUnderstood(t *testing.T) {
	c := read(t, grid("Heads", `
Kood | Läbimõõt A | Läbimõõt B
KR-20 | 13.6 | 9.5
KR-21 | 13.4 | 9.5
`))
	defer show(t, c)
	wantRow(t, c, "KR-20", catalog.Held, sizes{catalog.HoselOD: 0, catalog.Bore: 0})
}

// TestPartsNamedLikeLabels takes part numbers that begin like the word for a size for no labels of a card: CB is short for counterbore.
func TestPartsNamedLikeLabels(t *testing.T) {
	c := read(t, grid("Sizes", "Part | Hosel OD (mm) | Bore (mm)\nCB-604 | 13.3 | 9.47\nCB-605 | 13.3 | 9.47\nCB-606 | 13.4 | 9.47\nCB-607 | 13.4 | 9.47"),
		grid("Prices", "Part | Trade price GBP\nCB-604 | 12.4\nCB-605 | 12.4\nCB-606 | 12.9\nCB-607 | 12.9"))
	defer show(t, c)
	for _, h := range c.Heads {
		if !h.HasPrice || h.Price < 12 {
			t.Errorf("%s: price %v", h.Part, h.Price)
		}
	}
	if len(c.Heads) != 4 {
		t.Errorf("%d heads", len(c.Heads))
	}
}

// TestBeforeAndNow asks of no column what it is that says of something else what it was and is now.
func TestBeforeAndNow(t *testing.T) {
	c := read(t, grid("Trade", `
Code | Item | Hosel OD mm | Bore mm | Depth mm | Was | Now
LK-14 | Iron 4 | 13.3 | 9.48 | 32 | 17.00 | 15.50
LK-15 | Iron 5 | 13.3 | 9.48 | 32 | 17.00 | 15.50
LK-16 | Iron 6 | 13.4 | 9.48 | 33 | 17.00 | 15.50
`))
	defer show(t, c)
	wantRow(t, c, "LK-14", catalog.Used, sizes{catalog.HoselOD: 13.3, catalog.Bore: 9.48, catalog.BoreDepth: 32})
}

// TestPricesByDays takes of prices that hold to a day and from one the second, also where the days stand in a line of their own.
func TestPricesByDays(t *testing.T) {
	for _, headings := range []string{
		"Code | Hosel OD mm | Bore mm | Price to 31 March | Price from 1 April",
		"Code | Hosel OD mm | Bore mm | Price per head | \n | | | to 31 March | from 1 April",
		"Nr. | Ø mm | Bohrung mm | Preis bis März | Preis ab April",
		"Réf | Ø ext. mm | Perçage mm | Prix jusqu'au 31 mars | Prix à partir du 1er avril",
		"Ref. | Ø ext. mm | Ø int. mm | Precio hasta el 31 de marzo | Precio a partir del 1 de abril",
	} {
		c := read(t, grid("Heads", headings+"\nLK-14 | 13.3 | 9.48 | 17.00 | 18.50\nLK-15 | 13.3 | 9.48 | 17.00 | 18.50\nLK-16 | 13.4 | 9.48 | 17.00 | 18.50"))
		if len(c.Heads) != 3 || c.Heads[0].Price != 18.5 {
			defer show(t, c)
			t.Errorf("%s: %d heads", headings, len(c.Heads))
		}
	}
}

// TestPricesBeforeAndNow takes what is headed by "Was" and "Now" alone for prices where a title or the cells speak of money, and nothing else
// gives any.
func TestPricesBeforeAndNow(t *testing.T) {
	rows := func(title, last, was, now string) string {
		return title + "\nCode | Hosel OD mm | Bore mm | Was | Now" + last + "\nLK-14 | 13.3 | 9.48 | " + was + " | " + now + "\nLK-15 | 13.3 | 9.48 | " + was + " | " + now + "\nLK-16 | 13.4 | 9.48 | " + was + " | " + now
	}
	for name, c := range map[string]struct {
		sheet string
		price float64
	}{
		"a title that speaks of prices":  {rows("Heads, new prices", "", "17.00", "15.50"), 15.5},
		"a title that names a currency":  {rows("Heads, EUR each", "", "17.00", "15.50"), 15.5},
		"cells that name a currency":     {rows("Heads", "", "€17.00", "€15.50"), 15.5},
		"nothing":                        {rows("Heads", "", "17.00", "15.50"), 0},
		"a column of prices beside them": {rows("Heads, new prices", " | Price", "17.00", "15.50 | 14.00"), 14},
		"old and new part numbers":       {rows("Heads, new prices", "", "AX-17", "AX-18"), 0},
	} {
		got := read(t, grid("Trade", c.sheet))
		if len(got.Heads) != 3 || got.Heads[0].Price != c.price {
			defer show(t, got)
			t.Errorf("%s: %d heads, the first at %g, want 3 at %g", name, len(got.Heads), got.Heads[0].Price, c.price)
		}
	}
}

// TestFarEndOfAFerrule takes the OD at the tip for the top of a ferrule where it is none that tips have, and for the tip where it is.
func TestFarEndOfAFerrule(t *testing.T) {
	c := read(t, grid("Ghiere", "Codice | Diametro esterno base mm | Diametro esterno punta mm | Foro mm\nGM-1 | 13.5 | 10.3 | 9.3\nGM-2 | 13.7 | 10.3 | 9.3\nGM-3 | 13.4 | 9.9 | 8.95"))
	defer show(t, c)
	wantRow(t, c, "GM-1", catalog.Used, sizes{catalog.BaseOD: 13.5, catalog.TopOD: 10.3})
	c = read(t, grid("Ferrules", "Part | Tip OD (in) | Base OD (in) | Length (in)\nF-1 | .370 | .535 | .75\nF-2 | .355 | .535 | .75\nF-3 | .335 | .535 | 1.0"))
	defer show(t, c)
	wantRow(t, c, "F-1", catalog.Used, sizes{catalog.BaseOD: 13.589, catalog.TopOD: 0})
}

// TestDescribedParts takes what describes parts, below a blank line and beside their numbers, for no headings of a table on its side.
func TestDescribedParts(t *testing.T) {
	c := read(t, grid("Liste", `
Art.-Nr. / N° art. | Bezeichnung / désignation | für Schaft / pour shaft | Ø unten mm / Ø bas mm | Ø oben mm / Ø haut mm | Länge mm / longueur mm
 | | | | |
Eisen / fers | | | | |
F-100 | Ferrule konisch | .370 parallel | 13.5 | 10.8 | 19
F-102 | Virole conique | .355 taper | 13.2 | 10.5 | 19
Hybride / hybrides | | | | |
F-200 | Ferrule lang | .370 parallel | 13.8 | 11.0 | 26
F-201 | Virole longue, 1 anneau | .370 parallel | 13.8 | 11.0 | 26
`))
	defer show(t, c)
	wantRow(t, c, "F-100", catalog.Used, sizes{catalog.BaseOD: 13.5, catalog.TopOD: 10.8, catalog.Length: 19})
	wantRow(t, c, "F-201", catalog.Used, sizes{catalog.BaseOD: 13.8, catalog.TopOD: 11, catalog.Length: 26})
}
