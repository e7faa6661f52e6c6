package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/finding"
)

// TestDiscontinued names the cells that say of a part that it is discontinued, and reads the part like any other.
func TestDiscontinued(t *testing.T) {
	for name, test := range map[string]struct{ table, cells string }{
		"status": {`
Part No | Model | Hosel OD (mm) | Bore (mm) | Status
TW-1 | Iron 5 | 13.6 | 9.5 | current
TW-2 | Iron 6 | 13.6 | 9.5 | discontinued
TW-3 | Iron 7 | 13.6 | 9.5 | EOL
`, "E3 E4"},
		"note": {`
品番 | 外径(mm) | 穴径(mm) | 備考
TW-1 | 13.6 | 9.5 | 廃番
TW-2 | 13.6 | 9.5 | 新色
`, "D2"},
		"name and stock": {`
Art.-Nr. | Bezeichnung | Hosel außen (mm) | Bohrung (mm) | Bestand
TW-1 | Eisen 5 (Auslauf) | 13,6 | 9,5 | 4
TW-2 | Eisen 6 | 13,6 | 9,5 | entfallen
TW-3 | Eisen 7 | 13,6 | 9,5 | 12
`, "B2 E3"},
		"a heading that asks": {`
Part No | Model | Hosel OD (mm) | Bore (mm) | Discontinued?
TW-1 | Iron 5 | 13.6 | 9.5 | N
TW-2 | Iron 6 | 13.6 | 9.5 | Y
TW-3 | Iron 7 | 13.6 | 9.5 |
TW-4 | Iron 8 | 13.6 | 9.5 | x
TW-5 | Iron 9 | 13.6 | 9.5 | -
`, "E3 E5"},
		"none": {`
Part No | Model | Hosel OD (mm) | Bore (mm) | Status
TW-1 | Iron 5 | 13.6 | 9.5 | new
TW-2 | Iron 6 | 13.6 | 9.5 | in stock
`, ""},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Heads", test.table))
			defer show(t, c)
			var cells []string
			for _, table := range c.Tables {
				for _, f := range table.Findings {
					if f.Code == "data.discontinued" {
						for _, place := range append([]finding.Place{f.Place}, f.Related...) {
							cells = append(cells, place.Cell)
						}
					}
				}
				if table.Ledger.Held > 0 || table.Ledger.Open > 0 {
					t.Error("a row is held or a value is open")
				}
			}
			if got := strings.Join(cells, " "); got != test.cells {
				t.Errorf("said of %q, want %q", got, test.cells)
			}
		})
	}
}
