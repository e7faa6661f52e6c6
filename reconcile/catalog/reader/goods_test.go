package reader_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
)

// TestAccessoriesAmongHeads sets aside what is no head, and holds a head of which the OD is missing whatever it is described by.
func TestAccessoriesAmongHeads(t *testing.T) {
	c := read(t, grid("Heads", `
Part No | Description | Hosel OD (mm) | Bore (mm) | Bore depth (mm)
TW-1 | Iron 7 | 13.6 | 9.5 | 32
TW-2 | Iron 8 with weight screw | 13.6 | 9.5 | 32
TW-3 | Iron 9, weight 268 g, RH | | 9.5 | 32
TW-4 | Weight 8 g | | |
TW-5 | Driver adapter .335 | | 8.6 |
TW-6 | Screw 18 mm | | | 18
TW-7 | Steel shaft .370 | | |
TW-8 | Pin Aldergate 5 iron | | 9.5 | 32
`))
	defer show(t, c)
	for part, want := range map[string]string{"TW-1": "used", "TW-2": "used", "TW-3": "held", "TW-8": "held"} {
		if got := rowOf(t, c, part); !strings.Contains(got, " "+want+" ") {
			t.Errorf("%s, want %s", got, want)
		}
	}
	for _, row := range c.Tables[0].Rows {
		if row.Row >= 5 && row.Row <= 8 && row.Outcome != catalog.SetAside {
			t.Errorf("row %d is %s", row.Row, row.Outcome)
		}
	}
	wantFinding(t, c, "data.other-goods", "", "TW-4")
}
