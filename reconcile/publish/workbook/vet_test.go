package workbook

import (
	"bytes"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/supplier"
	"example.com/seatline/reconcile/publish/tell"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// vetting holds the ferrules and heads of a result against themselves.
func vetting(t *testing.T, c *catalog.Catalogue) *vet.Report {
	t.Helper()
	r, err := vet.Against(vet.Input{House: c, New: c, Shop: fitcalc.DefaultShop()})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestVetWorkbook(t *testing.T) {
	for name, c := range map[string]*catalog.Catalogue{"small": telltest.Small(t).Catalogue, "awkward": telltest.Awkward(t).Catalogue} {
		for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Imperial, fitcalc.Fractions} {
			r := vetting(t, c)
			opts := Options{Units: units, ShopName: "Harrow & Lane", Inputs: []tell.Input{{Name: "new.csv", Kind: "new"}}}
			var out, again bytes.Buffer
			if err := WriteReport(&out, supplier.VetReport(r, opts.Inputs, nil), opts); err != nil {
				t.Fatal(err)
			}
			if err := WriteReport(&again, supplier.VetReport(r, opts.Inputs, nil), opts); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(out.Bytes(), again.Bytes()) {
				t.Errorf("%s: the same report gives other bytes", name)
			}
			f, err := excelize.OpenReader(bytes.NewReader(out.Bytes()))
			if err != nil {
				t.Fatal(err)
			}
			for _, fact := range r.Facts {
				if at, err := f.GetSheetIndex(fact.Sheet); err != nil || at < 0 {
					t.Errorf("%s: there is no sheet %q (%v)", name, fact.Sheet, err)
				}
			}
			for _, s := range supplier.Sections(r) {
				rows, err := f.GetRows(s.Name)
				if err != nil {
					t.Fatal(err)
				}
				if want := 3 + max(1, len(s.Rows)); len(rows) != want {
					t.Errorf("%s: %s has %d rows, want %d", name, s.Name, len(rows), want)
				}
				for i := range rows {
					for col := range s.Columns {
						if formula, err := f.GetCellFormula(s.Name, address(col+1, i+1)); err != nil || formula != "" {
							t.Errorf("%s: %s holds the formula %q (%v)", name, s.Name, formula, err)
						}
					}
				}
			}
			if err := f.Close(); err != nil {
				t.Error(err)
			}
		}
	}
}

// TestTheSameCatalogueGainsNothing: a catalogue against itself neither serves a head more nor saves any time.
func TestTheSameCatalogueGainsNothing(t *testing.T) {
	r := vetting(t, telltest.Small(t).Catalogue)
	if len(r.Ferrules.Gains) != 0 || r.Ferrules.Before != r.Ferrules.After {
		t.Errorf("%+v", r.Ferrules)
	}
}
