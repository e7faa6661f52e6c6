package reader_test

import (
	"testing"
)

// Prices by the number of a set are those of each of its clubs.
func TestPricesOfSetsOnAnotherSheet(t *testing.T) {
	heads := grid("Heads", "Head | Clubs | Hosel OD (mm) | Bore (mm)\nKG-A1 | 5-7 | 13.4 | 9.5\nKG-A2 | 8, 9, PW | 13.4 | 9.5\nKG-W52 | GW | 13.6 | 9.5")
	prices := grid("Prices", "Head | Price per head (GBP) | In stock\nKG-A1 | 19.5 | 180\nKG-A2 | 21 | 96\nKG-W52 | 24 | 33\nKG-X9 | 30 | 2")
	got := read(t, heads, prices)
	want := map[string]float64{"KG-A1 5": 19.5, "KG-A1 6": 19.5, "KG-A1 7": 19.5, "KG-A2 8": 21, "KG-A2 9": 21, "KG-A2 PW": 21, "KG-W52": 24}
	for _, h := range got.Heads {
		if price, known := want[h.Part]; !known || !h.HasPrice || h.Price != price {
			t.Errorf("%s costs %g, want %g", h.Part, h.Price, price)
		}
	}
	if len(got.Heads) != len(want) {
		t.Errorf("%d heads, want %d", len(got.Heads), len(want))
	}
}

// What is worked out over the rows of a column is no part; what is worked out over the readings of a row is.
func TestRowsOfStatistics(t *testing.T) {
	s := grid("Heads", "Part | Hosel OD (mm) | Bore (mm)\nKG-1 | 13.4 | 9.5\nKG-2 | 13.6 | 9.5\ncheck mean | 13.5 | 9.5\nKG-3 | 13.5 | 9.5")
	formulas := func(row int, list ...string) {
		for i, formula := range list {
			cell := *s.Rows[row][i+1]
			cell.Formula = formula
			s.Rows[row][i+1] = &cell
		}
	}
	formulas(3, "AVERAGE(B2:B3)", "ROUND(AVERAGE(C2:C3),2)")
	formulas(4, "AVERAGE(F5:H5)", "MAX(I5:K5)")
	got := read(t, s)
	var parts []string
	for _, h := range got.Heads {
		parts = append(parts, h.Part)
	}
	if len(parts) != 3 || parts[2] != "KG-3" {
		t.Errorf("heads %v, want KG-1, KG-2 and KG-3", parts)
	}
}

// Whatever they stand under, codes of their own in each line are part numbers where nothing else is.
func TestPartNumbersUnderOtherHeadings(t *testing.T) {
	for heading, codes := range map[string][3]string{
		"Style": {"4050", "4052", "4054"}, "Drawing": {"2-0117", "2-0118", "2-0124"}, "Pattern": {"KF-11", "KF-12", "KF-14"},
	} {
		text := heading + " | Name | Loft | Hosel OD (mm) | Bore (mm)\n"
		for _, code := range codes {
			text += code + " | Tidewater wedge | 50 | 13.4 | 9.5\n"
		}
		got := read(t, grid("Heads", text))
		if len(got.Heads) != 3 || got.Heads[0].Part != codes[0] {
			t.Errorf("%s: %d heads", heading, len(got.Heads))
		}
	}
	none := read(t, grid("Heads", "Hosel OD (mm) | Bore (mm) | Weight\n13.4 | 9.5 | 2951\n13.5 | 9.5 | 2962\n13.6 | 9.5 | 2973"))
	if len(none.Heads) != 0 {
		t.Errorf("weights are taken for part numbers: %q", none.Heads[0].Part)
	}
}
