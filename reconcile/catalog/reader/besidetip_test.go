package reader_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/finding"
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

// TestTipsInTexts takes the tip that the description or remark of a row names, before its size or behind it, and asks about one that its bore contradicts.
func TestTipsInTexts(t *testing.T) {
	const ferrules, heads = "Item | Name | Base OD (mm) | Bore (mm) | Length (mm) | Remarks", "Item | Name | Hosel OD (mm) | Bore (mm) | Bore depth (mm) | Remarks"
	for name, test := range map[string]struct {
		heading, name, bore, remark, tip string
		asked                            bool
	}{
		"no, description":       {ferrules, "ferrule svart, shaft .335", "8.4", "", ".335 parallel", false},
		"de, description":       {ferrules, "Ferrule schwarz, Schaft .370", "9.3", "", ".370 parallel", false},
		"ja, description":       {ferrules, "ソケット 黒 シャフト径 .335", "8.4", "", ".335 parallel", false},
		"vi, description":       {ferrules, "ferrule đen, cán .335", "8.4", "", ".335 parallel", false},
		"en, remark":            {heads, "wedge head", "9.1", "for .355 tip", ".355 taper", false},
		"fr, remark":            {heads, "tête de wedge", "9.1", "pour manche .355", ".355 taper", false},
		"ferrule, other bore":   {ferrules, "ferrule black, shaft .335", "9.3", "", ".335 parallel", true},
		"head, other bore":      {heads, "iron head", "9.5", "for .335 tip", ".335 parallel", true},
		"of another part":       {heads, "iron head", "9.5", "for .355 tips see CS-230", "", false},
		"no word for tips":      {heads, "iron head", "9.5", "weight .355", "", false},
		"two tips, two remarks": {heads, "iron head, shaft .370", "9.5", "for .355 tip", ".370 parallel", false},
	} {
		t.Run(name, func(t *testing.T) {
			row := func(n int, name, bore, remark string) string {
				return fmt.Sprintf("\nTC-%d | %s | 13.5 | %s | 30 | %s", n, name, bore, remark)
			}
			plain := strings.Fields(test.name)[0]
			if test.heading == heads {
				plain = "iron head"
			}
			c := read(t, grid("List", test.heading+row(1, test.name, test.bore, test.remark)+row(2, plain, "9.3", "")+row(3, plain, "9.3", "new")))
			defer show(t, c)
			got := ""
			switch {
			case test.heading == ferrules && ferruleOf(t, c, "TC-1").Ferrule.ForTip.Known():
				got = ferruleOf(t, c, "TC-1").Ferrule.ForTip.String()
			case test.heading == heads && len(c.Heads[0].TipTaken) > 0:
				tip := c.Heads[0].TipTaken[0]
				got = fitcalc.TipSize{Diameter: tip.Diameter(measure.Length{}).Nominal(), Form: tip.Form()}.String()
			}
			if got != test.tip {
				t.Errorf("the tip is %q, want %q", got, test.tip)
			}
			asked := slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Code == "data.conflict" && f.Severity == finding.Warning })
			if asked != test.asked {
				t.Errorf("asked about the bore: %v", asked)
			}
		})
	}
}
