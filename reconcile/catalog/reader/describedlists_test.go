package reader_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// A list whose parts are described in words alone is read to its end, its descriptions ahead of its rows.
func TestLongDescribed(t *testing.T) {
	const rows = 900
	list := [][]string{{"Part No", "Description"}}
	for i := range rows {
		list = append(list, []string{fmt.Sprintf("IR-%d", i), fmt.Sprintf("cavity back iron, hosel measures 13.%02d mm outside, drilled 9.%d mm to a depth of %d mm, lot %d", i%80+10, i%3+5, 25+i%15, i)})
	}
	c := read(t, sheettest.Texts("Heads", list, false))
	if len(c.Heads) != rows {
		t.Fatalf("%d heads, want %d", len(c.Heads), rows)
	}
	for i, h := range c.Heads {
		var got [3]float64
		for k, role := range []catalog.Role{catalog.HoselOD, catalog.Bore, catalog.BoreDepth} {
			got[k] = traits.MM(h.Fields.Dim(role).Nominal())
		}
		want := [3]float64{13 + float64(i%80+10)/100, 9 + float64(i%3+5)/10, float64(25 + i%15)}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("%s (-want +got):\n%s", h.Part, diff)
		}
	}
}

// Where the descriptions are longer than can be searched, a warning says from where on and what to do, and no row is held whose sizes stand in columns.
func TestTooManyDescribed(t *testing.T) {
	const rows = 4_000
	list := [][]string{{"Part No", "Base OD (mm)", "Description"}}
	for i := range rows {
		list = append(list, []string{fmt.Sprintf("FX-%d", i), "13.5", fmt.Sprintf("bore 9.3 mm for .370 tips, %s%d", strings.Repeat("w", 520), i)})
	}
	c := read(t, sheettest.Texts("Ferrules", list, false))
	said := slices.ContainsFunc(c.Tables[0].Findings, func(f finding.Finding) bool {
		return strings.Contains(f.Message, "not searched for sizes: read the list in several files")
	})
	if held := c.Tables[0].Ledger.Held; !said || held > 0 || len(c.Ferrules) != rows {
		t.Errorf("said %v, %d of %d rows are held, %d ferrules", said, held, rows, len(c.Ferrules))
	}
}
