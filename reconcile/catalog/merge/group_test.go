package merge

import (
	"fmt"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/rows"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// list is a table of heads to which rows are added.
type list struct {
	table   *rows.Table
	entries []*rows.Entry
}

func newList(name string) *list {
	s := sheettest.Texts(name, nil, false)
	t := &layout.Table{File: name + ".csv", Sheet: s, Key: name, Region: &layout.Region{Grid: grid.New(s)}}
	return &list{table: &rows.Table{Reader: &cells.Reader{Table: &units.Table{Table: &columns.Table{Table: t, Kind: catalog.Heads}}}}}
}

// add adds a row with sizes in mm, zero for one that is not given.
func (l *list) add(part string, hosel, bore, depth float64) *list {
	line := len(l.entries) + 2
	byRole := map[catalog.Role]catalog.Field{}
	for i, role := range []catalog.Role{catalog.HoselOD, catalog.Bore, catalog.BoreDepth} {
		if mm := []float64{hosel, bore, depth}[i]; mm > 0 {
			text := fmt.Sprint(mm)
			byRole[role] = catalog.Field{Text: text, Dim: measure.Nominal(measure.MustParseLength(text + " mm")), Cell: sheet.Ref{Row: line, Col: i + 2}.String()}
		}
	}
	fields := catalog.FieldsOf(byRole)
	l.table.Out.Rows = append(l.table.Out.Rows, catalog.Row{Row: line, Part: part, Fields: fields, Outcome: catalog.Used})
	l.entries = append(l.entries, &rows.Entry{Table: l.table, Row: len(l.table.Out.Rows) - 1, Line: line, Part: part, Fields: fields})
	return l
}

func TestRowsThatAgreeBecomeOne(t *testing.T) {
	l := newList("heads").add("K-1", 13.6, 9.5, 0).add("K-2", 13.5, 9.5, 32).add("K-1", 13.6, 0, 32)
	left := Entries(l.entries)
	if len(left) != 2 || left[0].Part != "K-1" || left[1].Part != "K-2" {
		t.Fatalf("%d entries", len(left))
	}
	if depth := left[0].Fields.Dim(catalog.BoreDepth); depth.Nominal() != measure.Millimetres(32) {
		t.Errorf("the bore depth is %v, and the other row says 32 mm", depth)
	}
	if row := l.table.Out.Rows[0]; row.Outcome != catalog.Assumed || len(row.Assumptions) != 1 {
		t.Errorf("what was taken from the other row is not said: %v, %q", row.Outcome, row.Assumptions)
	}
	if len(l.table.Findings) != 1 || l.table.Findings[0].Code != "data.repeated" {
		t.Errorf("findings %v", l.table.Findings)
	}
}

func TestRowsThatDisagree(t *testing.T) {
	l := newList("heads").add("K-1", 13.6, 9.5, 32).add("K-1", 13.6, 9.5, 30)
	left := Entries(l.entries)
	if len(left) != 2 {
		t.Fatalf("%d entries", len(left))
	}
	for _, e := range left {
		if e.Fields.Dim(catalog.BoreDepth).Given() || len(e.Open()) != 1 || e.Held() {
			t.Errorf("the depth in line %d is %v, open %v, held %v", e.Line, e.Fields.Dim(catalog.BoreDepth), e.Open(), e.Held())
		}
	}
	l = newList("heads").add("K-1", 13.6, 9.5, 32).add("K-1", 12.6, 9.5, 32)
	for _, e := range Entries(l.entries) {
		if !e.Held() {
			t.Errorf("line %d is not held, though its hosel is in doubt", e.Line)
		}
	}
	if len(l.table.Findings) != 2 || l.table.Findings[0].Code != "data.conflict" || len(l.table.Findings[0].Related) != 1 {
		t.Errorf("findings %v", l.table.Findings)
	}
}

func TestSkeleton(t *testing.T) {
	for _, pair := range [][2]string{{"kr20", "kr2o"}, {"kr-20", "kr20"}, {"007", "7"}, {"kr21", "kr2l"}} {
		if skeleton(pair[0]) != skeleton(pair[1]) {
			t.Errorf("%q and %q are not alike", pair[0], pair[1])
		}
	}
	if skeleton("kr20") == skeleton("kr21") {
		t.Error("two numbers are alike")
	}
}
