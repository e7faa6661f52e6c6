package samples_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/examples/shop"
	"example.com/seatline/examples/shop/shoptest"
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/sheet"
)

// What the demo's bench measured comes out as the shop's README says: two slips, and everything else in its place. The means are
// those of the readings in examples/shop/sheets, worked out by hand.
func TestDemo(t *testing.T) {
	c := reader.Read(shoptest.Inputs(t), reader.Options{})
	got := samples.Apply(c, []*sheet.Book{shoptest.Book(t, shop.Readings()[0])}, samples.Options{Shop: fitcalc.DefaultShop()})
	sizes := map[string]string{}
	for i := range got.Heads {
		if d := got.Heads[i].Head.HoselOD; d.Origin() == measure.Measured {
			sizes[got.Heads[i].Part], _ = d.Nominal().FormatMillimetres(4)
		}
	}
	for i := range got.Ferrules {
		if d := got.Ferrules[i].Ferrule.BaseOD; d.Origin() == measure.Measured {
			sizes[got.Ferrules[i].Part], _ = d.Nominal().FormatMillimetres(4)
		}
		if d := got.Ferrules[i].Ferrule.Bore; d.Origin() == measure.Measured {
			sizes[got.Ferrules[i].Part+" bore"], _ = d.Nominal().FormatMillimetres(4)
		}
	}
	want := map[string]string{
		"OW-M1-7": "12.8850", "OW-M1-8": "12.9133", "OW-M1-9": "12.8900", "OW-G5-7": "13.5975", "OW-T3-7": "12.7100",
		"KW-370-1": "12.2000", "KW-370-2": "12.7000", "KW-370-3": "13.0100", "KW-370-4": "13.3400", "KW-370-5": "13.5900", "KW-370-6": "13.7200",
		"KW-370-2 bore": "9.3500",
	}
	if diff := cmp.Diff(want, sizes); diff != "" {
		t.Errorf("sizes in mm (-want +got):\n%s", diff)
	}
	var told []string
	for _, f := range got.Findings {
		if f.Place.File == shop.Readings()[0] && f.Severity > finding.Note {
			told = append(told, f.Code+" "+f.Place.Cell)
		}
	}
	if diff := cmp.Diff([]string{"data.implausible D7", "data.missing A15"}, told); diff != "" {
		t.Errorf("findings (-want +got):\n%s", diff)
	}
	m := got.Measurements
	if (m.Rows != catalog.Ledger{Rows: 17, Used: 12, Held: 1, SetAside: 4}) || m.Readings != 36 || m.Sizes != 12 || m.Parts != 11 || len(m.Learned) != 2 {
		t.Errorf("%+v", m)
	}
}
