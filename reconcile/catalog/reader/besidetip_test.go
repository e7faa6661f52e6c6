package reader_test

import (
	"strings"
	"testing"
)

// TestBoresBesideTips reads bores with the tip that they are for behind them under a heading that speaks of both in the same way.
func TestBoresBesideTips(t *testing.T) {
	for _, heading := range []string{"Inner dia (for tip)", "ID mm (shaft)", "Innen-Ø (für Schaft)", "Ø int. (pour shaft)", "Ø interno (per shaft)", "内径（適合シャフト）", "内孔（杆径）"} {
		t.Run(heading, func(t *testing.T) {
			c := read(t, grid("Ferrules", "All sizes in mm\n\nItem | "+heading+" | Base OD (mm) | Length (mm)\nTC-1 | 9.25 (.370) | 13.5 | 25.4\nTC-2 | 8.90 (.355T) | 13.5 | 25.4\nTC-3 | 8.40 (.335) | 12 | 19"))
			defer show(t, c)
			if got := rowOf(t, c, "TC-1"); !strings.Contains(got, "bore=9.25") {
				t.Error(got)
			}
		})
	}
}

// TestReadingsApartByBlanks reads several readings of one size with blanks between them, and takes no other sizes for such.
func TestReadingsApartByBlanks(t *testing.T) {
	for cell, want := range map[string]string{
		".541 .540 .541":      "base_od=13.7",
		".540 .540 .540 .541": "base_od=13.7",
		".541 .480 .541":      `base_od=".541 .480 .541"`,
		".541 .405 .366":      `base_od=".541 .405 .366"`,
		".541 .540":           `base_od=".541 .540"`,
	} {
		t.Run(cell, func(t *testing.T) {
			c := read(t, grid("Ferrules", "Item | Base OD (in) | Bore (in) | Length (in)\nTG-1 | "+cell+" | .366 | 1.00\nTG-2 | .540 | .366 | 1.25\nTG-3 | .551 | .351 | 1.00"))
			defer show(t, c)
			if got := rowOf(t, c, "TG-1"); !strings.Contains(got, want) {
				t.Errorf("%s, want %s", got, want)
			}
		})
	}
}
