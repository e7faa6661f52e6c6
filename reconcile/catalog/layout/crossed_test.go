package layout

import (
	"fmt"
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// TestCrossTables looks at what is a cross table, and at which of its columns gives which parts.
func TestCrossTables(t *testing.T) {
	for name, c := range map[string]struct {
		rows [][]string
		want string
	}{
		"names in the corner": {
			[][]string{{`Base OD mm \ Bore mm`, "8.85", "9.35"}, {"12.2", "A-1", "A-2"}, {"13.6", "-", "A-3"}},
			"base od: 12.2=A-1, base od: 12.2=A-2 13.6=A-3",
		},
		"tips across": {
			[][]string{{"Base OD mm", ".355 taper", ".370"}, {"12.2", "A-1", "A-2"}, {"13.6", "-", "A-3"}},
			"base od: 12.2=A-1, base od: 12.2=A-2 13.6=A-3",
		},
		"tips across beside nothing that has a name": {
			[][]string{{"", ".355 taper", ".370"}, {"12.2", "A-1", "A-2"}, {"13.6", "-", "A-3"}},
			"",
		},
		"one tip twice": {
			[][]string{{"Base OD mm", ".370 parallel", ".370"}, {"12.2", "A-1", "A-2"}, {"13.6", "-", "A-3"}},
			"",
		},
		"sizes across that are of no tip": {
			[][]string{{"Base OD mm", ".355", ".410"}, {"12.2", "A-1", "A-2"}, {"13.6", "-", "A-3"}},
			"",
		},
		"a list": {
			[][]string{{"Part", "Base OD mm", "Bore mm"}, {"A-1", "12.2", "8.85"}, {"A-2", "13.6", "9.35"}},
			"",
		},
		"a list whose sizes are mistyped": {
			[][]string{{"Part", "Base OD mm", "Bore mm"}, {"A-1", "12.2", "8.85"}, {"13.6", "O9.35", "I3.6"}, {"13.7", "O9.36", "I3.7"}},
			"",
		},
		"no names": {
			[][]string{{"", "8.85", "9.35"}, {"12.2", "A-1", "A-2"}, {"13.6", "A-4", "A-3"}},
			"",
		},
		"one size down and across": {
			[][]string{{`Base OD mm \ Base OD mm`, "12.2", "13.6"}, {"12.2", "A-1", "A-2"}, {"13.6", "A-4", "A-3"}},
			"",
		},
	} {
		var columns []string
		for _, r := range crossTables(grid.New(sheettest.Texts("cross", c.rows, false)), lexicon.New(nil)) {
			var parts []string
			for line := r.Body; line <= r.To; line++ {
				if text := r.Grid.At(line, 1); text != "" {
					parts = append(parts, r.Grid.At(line, 2)+"="+text)
				}
			}
			columns = append(columns, "base od: "+strings.Join(parts, " "))
		}
		if got := strings.Join(columns, ", "); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// TestCrossTableWithoutEnd holds that sizes that go on and on below a line of sizes are looked at only so far.
func TestCrossTableWithoutEnd(t *testing.T) {
	rows := [][]string{{`Base OD mm \ Bore mm`, "8.85", "9.35"}}
	for i := range 100_000 {
		rows = append(rows, []string{fmt.Sprintf("12.%06d", i), "A-1", "A-2"})
	}
	if found := crossTables(grid.New(sheettest.Texts("cross", rows, false)), lexicon.New(nil)); found != nil {
		t.Errorf("%d tables, want none", len(found))
	}
}
