package reader_test

import (
	"math"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
)

// Where a description says that pieces are sold together, the price beside is that of the pack, unless somebody says that it is that of a piece.
func TestPricesOfDescribedPacks(t *testing.T) {
	const rows = "Part | Description | ID (mm) | OD (mm) | Length (mm) | %\nF-1 | Ferrule black, @ | 9.35 | 13.6 | 12.7 | 9.60\nF-2 | Ferrule white, @ | 9.35 | 13.8 | 12.7 | 9.60\nF-3 | Ferrule red, single | 9.35 | 13.8 | 12.7 | 0.95"
	for _, c := range []struct {
		described, heading, title string
		price                     float64
		pack                      int
	}{
		{"bag of 12", "Price", "Ferrules", 0.80, 12},
		{"Beutel à 12", "Preis", "Ferrulen", 0.80, 12},
		{"sachet de 12", "Prix", "Viroles", 0.80, 12},
		{"x 12 pcs", "Price", "Ferrules", 0.80, 12},
		{"12個入", "単価", "フェルール", 0.80, 12},
		{"bag of 12", "Price each", "Ferrules", 9.60, 12},
		{"bag of 12", "Price", "All prices per piece", 9.60, 12},
		{"box 12", "Price", "Ferrules", 0, 0},
		{"12 mm", "Price", "Ferrules", 9.60, 0},
	} {
		s := grid("Ferrules", c.title+"\n"+strings.NewReplacer("%", c.heading, "@", c.described).Replace(rows))
		got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
		if len(got.Ferrules) != 3 {
			t.Errorf("%q: %d ferrules", c.described, len(got.Ferrules))
			continue
		}
		if f := got.Ferrules[0]; math.Abs(f.Price-c.price) > 1e-9 || f.Pack != c.pack {
			t.Errorf("%q over %q: %g, %d in a pack, want %g, %d", c.described, c.heading, f.Price, f.Pack, c.price, c.pack)
		}
		if f := got.Ferrules[2]; math.Abs(f.Price-0.95) > 1e-9 || f.Pack != 0 {
			t.Errorf("%q: the single one: %g, %d in a pack", c.described, f.Price, f.Pack)
		}
	}
}

// A size and a price that stand in each other's place are not used; a price that is only high is.
func TestExchangedWithPrice(t *testing.T) {
	const rows = "Part | ID (mm) | OD (mm) | Length (mm) | Price\nF-1 | 9.35 | 13.6 | 25.4 | 1.90\nF-2 | 9.35 | 13.8 | 25.4 | 2.10\nF-3 | 9.35 | 13.8 | 25.4 | 2.40\nF-4 | 9.35 | 13.8 | 19 | 1.90\nF-5 | 9.35 | 13.8 | %"
	for row, want := range map[string]struct{ length, price bool }{
		"2.40 | 25.4":  {false, false},
		"2.1 | 19":     {false, false},
		"25.4 | 40":    {true, true},
		"25.4 | 2.40":  {true, true},
		"2.40 | 2.10":  {false, true},
		"2.40 mm | 40": {false, true},
	} {
		s := grid("Ferrules", strings.ReplaceAll(rows, "%", row))
		got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
		if len(got.Ferrules) != 5 {
			t.Fatalf("%q: %d ferrules", row, len(got.Ferrules))
		}
		f := got.Ferrules[4]
		if f.Fields.Dim(catalog.Length).Given() != want.length || f.HasPrice != want.price {
			t.Errorf("%q: length %v, price %v, want %v, %v", row, f.Fields.Dim(catalog.Length).Given(), f.HasPrice, want.length, want.price)
		}
	}
}

// A size in inches that parts hardly have, and a price that is the size of the others.
func TestExchangedWithPriceInInches(t *testing.T) {
	s := grid("Ferrules", "Part | ID (in) | OD (in) | Each\nF-1 | .366 | .535 | .42\nF-2 | .366 | .535 | .46\nF-3 | .366 | .71 | .535\nF-4 | .366 | .535 | .75\nF-5 | .351 | .515 | .58")
	got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
	defer show(t, got)
	for _, f := range got.Ferrules {
		if f.Part == "F-3" && (f.HasPrice || f.Ferrule.BaseOD.Given()) {
			t.Errorf("price %v, base OD %v", f.HasPrice, f.Ferrule.BaseOD)
		}
	}
	wantFinding(t, got, "data.implausible", "C4", "in each other's place")
}

// Of two sizes in one cell one may not be known yet.
func TestCompositeUnstated(t *testing.T) {
	s := grid("Heads", "Part | Club | Hosel OD / hole | Depth (mm)\nH-1 | 5 | 13.5 / 9.1 mm | 32\nH-2 | 6 | .535\" / .374\" | 32\nH-3 | 7 | TBD / 9.5 mm | 32\nH-4 | 8 | 13.5 / – mm | 32")
	got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
	for _, row := range got.Tables[0].Rows {
		if row.Part != "H-3" {
			continue
		}
		if row.Fields.Dim(catalog.HoselOD).Given() || row.Fields.Dim(catalog.Bore).String() != "9.5 mm" {
			t.Errorf("%v, %v", row.Fields.Dim(catalog.HoselOD), row.Fields.Dim(catalog.Bore))
		}
		return
	}
	t.Error("no H-3")
}

// Columns of sizes that hold until a day and from one on are old and new ones.
func TestDatedColumns(t *testing.T) {
	for _, dates := range [][2]string{
		{"bis 31.3.", "ab 1.4."}, {"until 31 March", "from 1 April"}, {"jusqu'au 31/03", "à partir du 01/04"}, {"do 31.03", "od 1.04"},
		{"hasta el 31-03", "desde el 01-04"}, {"fino al 31/03", "dal 01/04"}, {"t/m 31-03", "vanaf 01-04"}, {"t.o.m. 31/3", "fr.o.m. 1/4"},
	} {
		s := grid("Ferrules", strings.NewReplacer("<", dates[0], ">", dates[1]).Replace(
			"Part | ID (mm) < | ID (mm) > | OD (mm) < | OD (mm) > | L (mm)\nF-1 | 9.2 | 9.3 | 13.4 | 13.5 | 25\nF-2 | 9.2 | 9.3 | 13.6 | 13.8 | 25\nF-3 | 8.8 | 8.9 | 13.4 | 13.5 | 19"))
		got := reader.Read([]reader.Input{{Book: book("orrin.xlsx", s)}}, reader.Options{})
		if len(got.Ferrules) != 3 {
			t.Errorf("%q: %d ferrules", dates, len(got.Ferrules))
			continue
		}
		if f := got.Ferrules[1].Fields; f.Dim(catalog.Bore).String() != "9.3 mm" || f.Dim(catalog.BaseOD).String() != "13.8 mm" {
			t.Errorf("%q: %v, %v", dates, f.Dim(catalog.Bore), f.Dim(catalog.BaseOD))
		}
	}
}

// TestPacksOfPricedHeadings takes from the heading of the prices how many are in a pack, as from a note, and not for a pack that a buyer need not take.
func TestPacksOfPricedHeadings(t *testing.T) {
	for headings, want := range map[string]struct {
		cells string
		pack  int
		price float64
	}{
		"Prix du sachet de 10, €":    {"5,60", 10, 0.56},
		"Preis je 10er-Beutel €":     {"5,60", 10, 0.56},
		"Bag of 10 (£)":              {"5.60", 10, 0.56},
		"価格（10個入袋）":                  {"560", 10, 56},
		"Bag of 10 (£) | Single £":   {"5.60 | 0.70", 0, 0.7},
		"Price per 10":               {"5.60", 0, 0.56},
		"Pack | Price per bag of 10": {"10 | 5.60", 10, 0.56},
	} {
		got := read(t, grid("Ferrules", "Part | Bore mm | Base OD mm | "+headings+"\nF-1 | 9.3 | 13.5 | "+want.cells+"\nF-2 | 9.3 | 13.6 | "+want.cells))
		if len(got.Ferrules) != 2 || got.Ferrules[0].Pack != want.pack || math.Abs(got.Ferrules[0].Price-want.price) > 0.0001 {
			defer show(t, got)
			t.Errorf("%s: %d ferrules, the first in packs of %d at %g, want %d and %g", headings, len(got.Ferrules), got.Ferrules[0].Pack, got.Ferrules[0].Price, want.pack, want.price)
		}
	}
}

// TestPricesOfUnitsOfSale leaves out the prices of packs that a column of units names, where nobody says how many pieces they have, and divides them
// where somebody does.
func TestPricesOfUnitsOfSale(t *testing.T) {
	for units, want := range map[[2]string][2]float64{{"EA", "BX"}: {0.45, 0}, {"PCE", "PK"}: {0.45, 0}, {"each", "bag"}: {0.45, 0}, {"Stk", "Beutel"}: {0.45, 0}, {"EA", "EA"}: {0.45, 4.8}} {
		for pack, heading := range map[string]string{"": "", " | 12": " | Pack qty"} {
			c := read(t, grid("Ferrules", "\nItem | OD mm | ID mm | Length mm | Price | UOM"+heading+"\nF-1 | 13.5 | 9.3 | 25 | 0.45 | "+units[0]+pack+"\nF-2 | 13.6 | 9.3 | 25 | 4.80 | "+units[1]+pack+"\nF-3 | 13.8 | 9.3 | 25 | 0.48 | "+units[0]+pack))
			want := want
			if pack != "" && units[1] != "EA" {
				want[1] = 0.4
			}
			for i, f := range c.Ferrules[:2] {
				if math.Abs(f.Price-want[i]) > 1e-9 {
					defer show(t, c)
					t.Errorf("%v, pack %q: %s costs %g, want %g", units, pack, f.Part, f.Price, want[i])
				}
			}
		}
	}
}
