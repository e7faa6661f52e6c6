package reader_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
)

// TestNotesOfTables gives the limits of a note to the sizes of the table at which it stands, of the clubs that it names, and in a unit in which they
// can be limits. Of a note that stands at another table it says so.
func TestNotesOfTables(t *testing.T) {
	const (
		inches = "Part | Hosel OD (in) | Bore (in)\nI-5 | .530 | .374\nI-6 | .530 | .374\n"
		metric = "Part | Hosel OD (mm) | Bore (mm)\nW-1 | 12.2 | 8.6\nW-3 | 12.2 | 8.6\n"
		mixed  = "Part | Club | Hosel OD (mm) | Bore (mm)\n%s-5 | %s | 13.5 | 9.5\n%s-P | PW | 13.5 | 9.5\n%s-1 | %s | 12.2 | 8.6\n"
	)
	for name, test := range map[string]struct {
		sheet, want string
		findings    int
	}{
		"below the first, clubs named":   {"IRONS\n" + inches + "Hosel OD on all irons & wedges +/- .003\n\nPUTTERS\n" + metric, "I-5 0.0762 I-6 0.0762", 0},
		"below the first":                {inches + "Hosel OD ±.003\n\n" + metric, "I-5 0.0762 I-6 0.0762", 1},
		"between, blank lines about it":  {inches + "\nHosel OD ±.003\n\n" + metric, "I-5 0.0762 I-6 0.0762", 1},
		"right above the second":         {inches + "\nHosel OD ±0.05\n" + metric, "W-1 0.05 W-3 0.05", 1},
		"above all":                      {"Hosel OD ±0.1 mm\n\n" + inches + "\n\n" + metric, "I-5 0.1 I-6 0.1 W-1 0.1 W-3 0.1", 0},
		"below all, right in one unit":   {inches + "\n" + metric + "\nHosel OD ±.003", "I-5 0.0762 I-6 0.0762", 1},
		"below all, in mm":               {inches + "\n" + metric + "\nHosel OD ±0.05", "W-1 0.05 W-3 0.05", 1},
		"thousandths beside millimetres": {metric + "Hosel OD +/- .002", "", 1},
		"both of their own":              {"Fers\n" + strings.ReplaceAll(metric, "W-", "F-") + "Ø ext. du hosel ±0,05\n\nBois\n" + metric + "Ø ext. du hosel ±0,1", "F-1 0.05 F-3 0.05 W-1 0.1 W-3 0.1", 0},
		"the same headings below":        {"Part | Hosel OD (mm) | Bore (mm)\nI-5 | 13.5 | 9.5\nI-6 | 13.5 | 9.5\nHosel OD ±0.05\n\n" + metric, "I-5 0.05 I-6 0.05", 0},
		"German, two kinds in one table": {fmt.Sprintf(mixed, "E", "Eisen 5", "E", "H", "Driver") + "\nHosel-Außen-Ø bei Eisen ±0,05, bei Hölzern ±0,1", "E-5 0.05 E-P 0.05 H-1 0.1", 0},
		"English, one kind of two":       {fmt.Sprintf(mixed, "I", "5 iron", "I", "W", "3 wood") + "\nWoods: hosel OD ±0.1", "W-1 0.1", 0},
		"none of its clubs":              {fmt.Sprintf(mixed, "I", "5 iron", "I", "W", "3 wood") + "\nPutters: hosel OD ±0.1", "", 0},
		"Japanese, in the title of one":  {"アイアンヘッド\n品番 | ホーゼル外径(mm) | 内径(mm)\nI-5 | 13.5 | 9.5\nI-6 | 13.5 | 9.5\n\nドライバーヘッド ホーゼル外径±0.1\n品番 | ホーゼル外径(mm) | 内径(mm)\nD-1 | 12.2 | 8.6\nD-2 | 12.2 | 8.6", "D-1 0.1 D-2 0.1", 0},
		"Spanish, above ferrules":        {"Pieza | Ø ext. del hosel (mm) | Agujero (mm)\nH-1 | 12,2 | 8,6\nH-3 | 12,2 | 8,6\nØ ext. del hosel ±0,1\n\nFérulas\nPieza | Ø ext. base (mm) | Agujero (mm)\nA-1 | 13,5 | 9,3\nA-2 | 13,5 | 9,3", "H-1 0.1 H-3 0.1", 1},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("List", test.sheet))
			defer show(t, c)
			var got []string
			for _, h := range c.Heads {
				if half := halfWidth(h.Fields.Dim(catalog.HoselOD)); half > 0 {
					got = append(got, fmt.Sprintf("%s %v", h.Part, math.Round(half*1e5)/1e5))
				}
			}
			slices.Sort(got)
			if diff := cmp.Diff(test.want, strings.Join(got, " ")); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			said := 0
			for _, f := range c.Findings {
				if f.Code == "data.tolerance" && f.Severity >= finding.Note {
					said++
				}
			}
			if said != test.findings {
				t.Errorf("%d findings of tolerances, want %d", said, test.findings)
			}
		})
	}
}
