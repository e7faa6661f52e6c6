package reader_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
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

// Where the descriptions are longer than can be searched, the rows beyond are held that have something in them that was not found, and a warning
// says from where on and what to do.
func TestTooManyDescribed(t *testing.T) {
	list := [][]string{{"Part No", "Hosel OD (mm)", "Bore (mm)", "Description"}}
	const rows = 5_600
	for i := range rows {
		list = append(list, []string{fmt.Sprintf("IR-%d", i), "13.5", "9.4", fmt.Sprintf("depth 32 mm, %s%d", strings.Repeat("w", 580), i)})
	}
	c := read(t, sheettest.Texts("Heads", list, false))
	said := ""
	for _, table := range c.Tables {
		for _, f := range table.Findings {
			if strings.Contains(f.Message, "several files") {
				said = f.Message
			}
		}
	}
	if !strings.Contains(said, "not searched for sizes") {
		t.Errorf("the warning is %q", said)
	}
	held := 0
	for _, row := range c.Tables[0].Rows {
		if row.Outcome == catalog.Held {
			held++
		}
	}
	if held == 0 || held > rows/10 {
		t.Errorf("%d of %d rows are held", held, rows)
	}
}
