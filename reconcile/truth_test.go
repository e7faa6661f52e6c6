package reconcile_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/seatline/examples/shop/shoptest"
	"example.com/seatline/examples/shop/truth"
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// The demo's shop has a written account of what its sheets mean, made together with the sheets. The reader has to agree with
// it row by row, value by value, and to have a word on everything that is wrong on purpose.

// readShop reads the demo's files as the demo reads them, all together.
func readShop(t *testing.T) *catalog.Catalogue {
	t.Helper()
	return reader.Read(shoptest.Inputs(t), reader.Options{})
}

func loadTruth(t *testing.T) truth.Truth {
	t.Helper()
	known, err := truth.Load()
	if err != nil {
		t.Fatal(err)
	}
	return known
}

// shopRow is one row that was read, with its table.
type shopRow struct {
	table *catalog.Table
	row   *catalog.Row
}

// rowAt returns what was read at a place under a part number, which is empty for a row that is set aside.
func rowAt(cat *catalog.Catalogue, at truth.Place, part string) (shopRow, bool) {
	for i := range cat.Tables {
		table := &cat.Tables[i]
		if table.File != at.File || table.Sheet != at.Sheet {
			continue
		}
		for j := range table.Rows {
			if row := &table.Rows[j]; row.Row == at.Row && row.Part == part {
				return shopRow{table, row}, true
			}
		}
	}
	return shopRow{}, false
}

// TestShopRows compares what became of every row.
func TestShopRows(t *testing.T) {
	cat := readShop(t)
	counted := 0
	for _, want := range loadTruth(t).Rows {
		got, found := rowAt(cat, want.Place, want.Part)
		if !found {
			t.Errorf("%v: no row of part %q", want.Place, want.Part)
			continue
		}
		counted++
		if outcome := got.row.Outcome.String(); outcome != want.Outcome && outcome != want.Or {
			t.Errorf("%v %s is %s (%s) %q, want %s: %s", want.Place, want.Part, outcome, got.row.Why, got.row.Assumptions, want.Outcome, want.Why)
		}
		if want.Kind != "" && got.table.Kind.String() != want.Kind {
			t.Errorf("%v %s stands among %s, want %s", want.Place, want.Part, got.table.Kind, want.Kind)
		}
	}
	rows := 0
	for _, table := range cat.Tables {
		rows += len(table.Rows)
	}
	if rows != counted {
		t.Errorf("%d rows were read, %d are known", rows, counted)
	}
}

// TestShopFields compares every value, lengths and limits to the picometre. The value of a cell that is wrong on purpose may
// be missing where its row is held or leaves it open.
func TestShopFields(t *testing.T) {
	cat := readShop(t)
	known := loadTruth(t)
	trapped := map[string]bool{}
	for _, trap := range known.Traps {
		trapped[fmt.Sprint(trap.Place, trap.Cell)] = true
	}
	for _, want := range known.Fields {
		got, found := rowAt(cat, want.Place, want.Part)
		if !found {
			t.Errorf("%v: no row of part %q", want.Place, want.Part)
			continue
		}
		text, cell := shopValue(cat, got, want)
		held := (got.row.Outcome == catalog.Held || slices.Contains(got.row.Open, catalog.Role(want.Role))) && trapped[fmt.Sprint(want.Place, want.Cell)]
		if text == "" && held {
			continue
		}
		if expected := wantValue(want); text != expected {
			t.Errorf("%v %s %s is %q, want %q", want.Place, want.Part, want.Role, text, expected)
		}
		// The kind of club may come from the club's own column.
		if cell != want.Cell && !(want.Role == string(catalog.Category) && cell == "") {
			t.Errorf("%v %s %s comes from %s, want %s", want.Place, want.Part, want.Role, cell, want.Cell)
		}
	}
}

// wantValue writes the true value of a field, a length with its limits.
func wantValue(want truth.Field) string {
	if want.Form != "mm" {
		return want.Text
	}
	if !want.Limits {
		return want.Length.String()
	}
	return fmt.Sprintf("%v [%v %v]", want.Length, want.Least, want.Most)
}

// shopValue writes what was read for a field in the same form, and the cell that it comes from.
func shopValue(cat *catalog.Catalogue, got shopRow, want truth.Field) (text, cell string) {
	field := got.row.Fields.Get(catalog.Role(want.Role))
	switch want.Form {
	case "mm":
		return dimText(field.Dim), field.Cell
	case "deg":
		if field.Angle.IsZero() {
			return "", field.Cell
		}
		return strconv.FormatFloat(field.Angle.Degrees(), 'f', -1, 64), field.Cell
	case "number":
		if !field.IsNumber {
			return "", field.Cell
		}
		return strconv.FormatFloat(field.Number, 'f', -1, 64), field.Cell
	}
	if want.Form == "ratio" {
		return "0" + strings.TrimPrefix(field.Text, "0"), field.Cell
	}
	if meaning := meaningOf(cat, got, want); meaning != "" {
		return meaning, field.Cell
	}
	return field.Text, field.Cell
}

func dimText(d measure.Dim) string {
	switch {
	case !d.Given():
		return ""
	case !d.HasLimits():
		return d.Nominal().String()
	}
	return fmt.Sprintf("%v [%v %v]", d.Nominal(), d.Lower(), d.Upper())
}

// meaningOf returns what the typed part makes of a text: its category, form, style, material or tips.
func meaningOf(cat *catalog.Catalogue, got shopRow, want truth.Field) string {
	at := func(item catalog.Item) bool {
		return item.Part == got.row.Part && item.Source.File == want.File && item.Source.Sheet == want.Sheet && item.Source.Row == want.Row
	}
	for i := range cat.Heads {
		if h := &cat.Heads[i]; at(h.Item) {
			switch catalog.Role(want.Role) {
			case catalog.Category:
				return h.Category.String()
			case catalog.Top:
				return h.Head.Top.String()
			case catalog.TipTaken:
				return tipsText(h.TipTaken)
			}
		}
	}
	for i := range cat.Ferrules {
		if f := &cat.Ferrules[i]; at(f.Item) {
			switch catalog.Role(want.Role) {
			case catalog.Style:
				return f.Ferrule.Style.String()
			case catalog.TipTaken:
				return tipsText([]fitcalc.Tip{f.Ferrule.ForTip.Tip(fitcalc.DefaultShop())})
			}
		}
	}
	return ""
}

// tipsText writes the tips that a head takes, or that a ferrule is for.
func tipsText(tips []fitcalc.Tip) string {
	var all []string
	for i := range tips {
		inches, _ := tips[i].Diameter(measure.Length{}).Nominal().FormatInches(3)
		form := map[fitcalc.TipForm]string{fitcalc.TipParallel: "parallel", fitcalc.TipTapered: "taper"}[tips[i].Form()]
		all = append(all, inches+" in "+form)
	}
	return strings.Join(all, " + ")
}

// TestShopTraps looks for a finding of the right code upon everything that is wrong on purpose.
func TestShopTraps(t *testing.T) {
	cat := readShop(t)
	for _, trap := range loadTruth(t).Traps {
		var codes []string
		for _, f := range cat.Findings {
			for _, place := range slices.Concat([]finding.Place{f.Place}, f.Related) {
				if place.File == trap.File && place.Sheet == trap.Sheet && (place.Row == trap.Row && trap.Cell == "" || trap.Cell != "" && within(place.Cell, trap.Cell)) {
					codes = append(codes, f.Code+" "+f.Severity.String())
				}
			}
		}
		if !slices.Contains(codes, trap.Code+" "+trap.Severity) {
			t.Errorf("%v %s: %q has %q, want %s %s: %s", trap.Place, trap.Cell, trap.Stated, codes, trap.Code, trap.Severity, trap.Why)
		}
	}
}

// within reports whether a cell lies in a range.
func within(where, cell string) bool {
	area, err := sheet.ParseRange(where)
	ref, errRef := sheet.ParseRef(cell)
	return err == nil && errRef == nil && area.Contains(ref)
}
