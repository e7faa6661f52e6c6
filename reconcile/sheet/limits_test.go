package sheet_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/reconcile/sheet"
)

// TestMeter counts rows against each limit: as much as the limit is taken, and one more is refused with the name of the limit.
func TestMeter(t *testing.T) {
	cells := func(n int, text string) []*sheet.Cell {
		return slices.Repeat([]*sheet.Cell{{Kind: sheet.Text, Raw: text, Shown: text}}, n)
	}
	row := func(cells []*sheet.Cell, times int) func(*sheet.Meter) error {
		return func(m *sheet.Meter) error { return m.Row("S", 1, cells, times) }
	}
	for name, test := range map[string]struct {
		limits    sheet.Limits
		good, bad func(*sheet.Meter) error
	}{
		"columns":    {sheet.Limits{Columns: 3}, row(append(cells(3, "a"), sheet.BlankCell), 1), row(cells(4, "a"), 1)},
		"rows":       {sheet.Limits{Rows: 3}, row(cells(1, "a"), 3), row(cells(1, "a"), 1)},
		"cells":      {sheet.Limits{Cells: 12}, row(cells(4, "a"), 3), row(cells(1, "a"), 1)},
		"characters": {sheet.Limits{Characters: 3}, row(cells(1, "äöü"), 1), row(cells(1, "äöüa"), 1)},
		"text":       {sheet.Limits{Text: 24}, row(cells(4, "ab"), 3), row(cells(1, "a"), 1)},
		"sheets":     {sheet.Limits{Sheets: 1}, (*sheet.Meter).Sheet, (*sheet.Meter).Sheet},
	} {
		meter := sheet.NewMeter("a.csv", test.limits)
		if err := test.good(meter); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		var refused *sheet.FileError
		if err := test.bad(meter); !errors.As(err, &refused) || refused.Reason != sheet.ReasonTooBig || !strings.Contains(refused.Next, "--limit "+name+"=") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestFarCorners counts the rows of all sheets in which nothing stands: few cells can ask for many of them.
func TestFarCorners(t *testing.T) {
	meter, one := sheet.NewMeter("a.xls", sheet.Limits{Rows: 100}), &sheet.Sheet{Name: "S", Rows: make([][]*sheet.Cell, 1_000)}
	if err := meter.Whole(one); err != nil {
		t.Error(err)
	}
	var refused *sheet.FileError
	if err := meter.Whole(one); !errors.As(err, &refused) || !strings.Contains(refused.Next, "--limit rows=") {
		t.Error(err)
	}
}

// TestLimitNames: each field has a default and can be set by its name.
func TestLimitNames(t *testing.T) {
	for _, name := range sheet.LimitNames() {
		var l sheet.Limits
		if l.Of(name) < 1 || l.Of(name) != sheet.DefaultLimits().Of(name) {
			t.Errorf("%s has no default", name)
		}
		if err := l.Set(name + "=7"); err != nil || l.Of(name) != 7 {
			t.Errorf("%s is %d: %v", name, l.Of(name), err)
		}
	}
}
