package reader_test

import (
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/sheet"
)

// TestFormulasWithoutResults: a formula that nobody has worked out looks blank, and is not: nothing takes the place of what it would give.
func TestFormulasWithoutResults(t *testing.T) {
	s := grid("Ferrules", `
Part No | Bore (mm) | Base OD (mm) | Tol. base OD | Length (mm) | Price | Price unit
F-1 | 9.35 | 13.6 | ±0.05 | 19 | 18.50 | 100
F-2 | 9.35 | - | ±0.05 | 19 | 18.50 | 100
F-3 | 9.35 | " | ±0.05 | 19 | 18.50 | 100
F-4 | 9.35 | 13.8 | - | 19 | 18.50 | 100
F-5 | 9.35 | 13.8 | ±0.05 | 19 | 18.50 | -
F-6 | 9.35 | 13.8 | ±0.05 | 19 | - | 1
F-7 | - | 13.8 | ±0.05 | 19 | 0.19 | 1
`)
	for at, formula := range map[sheet.Ref]string{{Row: 3, Col: 3}: "C2", {Row: 5, Col: 4}: "D2*2", {Row: 6, Col: 7}: "G5", {Row: 7, Col: 6}: "SUM(F2:F3)", {Row: 8, Col: 2}: "B2+0.1"} {
		s.Rows[at.Row-1][at.Col-1] = &sheet.Cell{Formula: formula}
	}
	c := read(t, s)
	defer show(t, c)
	for cell, formula := range map[string]string{"C3": "=C2", "D5": "=D2*2", "F7": "=SUM(F2:F3)", "B8": "=B2+0.1"} {
		wantFinding(t, c, "data.damaged", cell, formula)
	}
	wantFinding(t, c, "data.prices", "F6", "=G5")
	for part, outcome := range map[string]catalog.Outcome{"F-1": catalog.Used, "F-2": catalog.Held, "F-3": catalog.Held, "F-4": catalog.Used} {
		wantRow(t, c, part, outcome, nil)
	}
	for _, row := range c.Tables[0].Rows {
		if dim := row.Fields.Dim(catalog.BaseOD); row.Part == "F-4" && dim.HasLimits() || row.Part == "F-3" && dim.Given() {
			t.Errorf("the base OD of %s is %s", row.Part, dim)
		}
		if dim := row.Fields.Dim(catalog.Bore); row.Part == "F-7" && dim.Given() {
			t.Errorf("the bore of %s is %s", row.Part, dim)
		}
		if price := row.Fields.Number(catalog.Price); price != 0 && (row.Part == "F-5" || row.Part == "F-6") {
			t.Errorf("the price of %s is %g", row.Part, price)
		}
	}
}
