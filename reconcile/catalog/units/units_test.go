package units_test

import (
	"strings"
	"testing"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// settled settles the units of the only table in a text with bars between its cells.
func settled(t *testing.T, kind catalog.Kind, text string, notes layout.Notes) *units.Table {
	t.Helper()
	var rows [][]string
	for line := range strings.Lines(strings.TrimSpace(text)) {
		var cells []string
		for cell := range strings.SplitSeq(line, "|") {
			cells = append(cells, strings.TrimSpace(cell))
		}
		rows = append(rows, cells)
	}
	s := sheettest.Texts("List", rows, false)
	g, lex := grid.New(s), lexicon.New(nil)
	regions := layout.Tables(g, lex, catalog.SheetRules{})
	if len(regions) != 1 {
		t.Fatalf("%d tables", len(regions))
	}
	table := &layout.Table{Lex: lex, Region: &regions[0], File: "list.csv", Sheet: s, Key: "List"}
	return units.Settle(columns.Understand(table, kind), notes, layout.Notes{}, "")
}

func TestUnitOfAColumn(t *testing.T) {
	const heads, ferrules = catalog.Heads, catalog.Ferrules
	for _, c := range []struct {
		name    string
		kind    catalog.Kind
		text    string
		role    catalog.Role
		unit    string
		assumed bool
		held    bool
	}{
		{"the heading says it", heads, "Part | Hosel OD (in) | Bore (in)\nA1 | .535 | .373\nA2 | .530 | .373", catalog.HoselOD, "in", false, false},
		{"only inches are possible", heads, "Part | Hosel OD | Bore\nA1 | .535 | .373\nA2 | .530 | .373", catalog.HoselOD, "in", true, false},
		{"only mm are possible", heads, "Part | Hosel OD | Bore\nA1 | 13.6 | 9.5\nA2 | 13.5 | 9.5", catalog.Bore, "mm", true, false},
		{"thousandths", heads, "Part | Hosel OD | Bore\nA1 | 535 | 373\nA2 | 530 | 373", catalog.HoselOD, "thou", true, false},
		{"columns that changed places", heads, "Part | Hosel OD (mm) | Bore (mm)\nA1 | 9 | 13.6\nA2 | 9.1 | 13.5", catalog.Bore, "mm", false, true},
		{"a column of units that does not fit the bores", heads, "Part | Hosel OD | Unit | Bore\nA1 | 13.6 | mm | .373\nA2 | 13.5 | mm | .373\nA3 | 13.4 | mm | .373", catalog.Bore, "in", true, false},
		{"radii", ferrules, "Part | Base OD (mm) | Bore (mm)\nA1 | 6.8 | 9.35\nA2 | 6.75 | 9.35\nA3 | 6.7 | 9.35", catalog.BaseOD, "mm", false, true},
	} {
		table := settled(t, c.kind, c.text, layout.Notes{})
		column := table.ByRole[c.role]
		if column == nil {
			t.Errorf("%s: no %s", c.name, c.role)
			continue
		}
		if column.Unit != c.unit || column.UnitAssumed != c.assumed || (column.Held != "") != c.held {
			t.Errorf("%s: %s in %q, assumed %v, held %q; want %q, %v, held %v", c.name, c.role, column.Unit, column.UnitAssumed, column.Held, c.unit, c.assumed, c.held)
		}
	}
}

// A column of units is for the sizes that it fits, and a unit here and there for the size beside it alone.
func TestUnitsBeside(t *testing.T) {
	table := settled(t, catalog.Heads, "Part | Hosel OD | Unit | Bore (in)\nA1 | 13.6 | mm | .373\nA2 | .535 | in | .373", layout.Notes{})
	if od := table.ByRole[catalog.HoselOD]; od.UnitsBeside == nil {
		t.Errorf("the hosel has no column of units: unit %q", od.Unit)
	}
	if bore := table.ByRole[catalog.Bore]; bore.UnitsBeside != nil || bore.Unit != "in" {
		t.Errorf("the bore, in inches by its heading, is in %q", bore.Unit)
	}
}

// Bores of ferrules that all are names of tips are names; one hole among them says that all are holes.
func TestBoresThatAreNames(t *testing.T) {
	for text, want := range map[string]string{
		"Part | Base OD (in) | Bore (in)\nA1 | .540 | .370\nA2 | .530 | .355": catalog.BoresAreTips,
		"Part | Base OD (in) | Bore (in)\nA1 | .540 | .368\nA2 | .530 | .370": "",
		"Part | Base OD (in) | Bore (in)\nA1 | .540 | .368\nA2 | .530 | .353": "",
		// no bore at all says nothing of the others
		"Part | Base OD (in) | Bore (in)\nA1 | .540 | .370\nA2 | .355 | .530\nA3 | .530 | .355": catalog.BoresAreTips,
	} {
		if table := settled(t, catalog.Ferrules, text, layout.Notes{}); table.Bores != want {
			t.Errorf("%q: bores are %q, want %q", text, table.Bores, want)
		}
	}
}
