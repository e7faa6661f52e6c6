package workbook

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/plans"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell/telltest"
	opener "example.com/seatline/reconcile/sheet/open"
)

// plansOf are plans of both kinds with everything in them: a sheet of numbers, what is in stock, a substitution, common sizes.
func plansOf(t testing.TB, r *matrix.Result) (*plans.Stock, *plans.Sizes) {
	t.Helper()
	content := "Part,Per year\n"
	for i := range r.Catalogue.Heads {
		if i != 1 && i < 8 {
			content += fmt.Sprintf("%q,%d\n", r.Catalogue.Heads[i].Part, 10+i)
		}
	}
	content += "no such head,4\n"
	book, err := opener.Bytes("plan.csv", []byte(content))
	if err != nil {
		t.Fatal(err)
	}
	var d *demand.Demand
	if len(r.Catalogue.Heads) > 0 {
		if d, err = demand.Read(book, r.Catalogue); err != nil {
			t.Fatal(err)
		}
	}
	for i := range r.Catalogue.Ferrules {
		if i%3 == 0 {
			r.Catalogue.Ferrules[i].Fields = r.Catalogue.Ferrules[i].Fields.With(catalog.Stock, catalog.Field{Number: float64(20 * i), IsNumber: true, Text: "20", Cell: "H2"})
		}
	}
	s := &plans.Stock{Result: r, Settings: stock.DefaultSettings(), Demand: d}
	z := &plans.Sizes{Result: r, Demand: d, Wanted: stock.Wanted{Count: 1, Most: 4, Grid: measure.Micrometres(100)}}
	if d != nil {
		s.Settings.EachHead, s.Settings.Yearly = 0, d.Numbers(0)
		for h, n := range s.Settings.Yearly {
			if n == 0 {
				s.Settings.LeaveOut = append(s.Settings.LeaveOut, h)
			}
		}
		z.Wanted.Yearly = s.Settings.Yearly
		one, err := stock.Substitutes(r, 1, s.Settings.Yearly)
		if err != nil {
			t.Fatal(err)
		}
		s.Without = append(s.Without, one)
	}
	if s.Plan, err = stock.Choose(context.Background(), r, s.Settings); err != nil {
		t.Fatal(err)
	}
	if z.Made, err = stock.SizesToMake(r, z.Wanted); err != nil {
		t.Fatal(err)
	}
	z.Common = stock.Common{Most: 6, MostRemoved: measure.Micrometres(300), Minutes: 6, MinutesPerMM: 10, Yearly: z.Wanted.Yearly}
	if z.Standards, z.NotStandard, err = stock.Standardise(r, z.Common); err != nil {
		t.Fatal(err)
	}
	return s, z
}

func planBooks(t testing.TB, r *matrix.Result, opts Options) map[string][]byte {
	t.Helper()
	s, z := plansOf(t, r)
	var ofStock, ofSizes bytes.Buffer
	if err := WriteReport(&ofStock, s.Report(opts.Units, opts.ShopName), opts); err != nil {
		t.Fatal(err)
	}
	if err := WriteReport(&ofSizes, z.Report(opts.Units, opts.ShopName), opts); err != nil {
		t.Fatal(err)
	}
	return map[string][]byte{"stock.txt": ofStock.Bytes(), "sizes.txt": ofSizes.Bytes()}
}

func TestPlansGolden(t *testing.T) {
	for name, content := range planBooks(t, telltest.Small(t), Options{ShopName: "Lathe & Linen", Units: fitcalc.Imperial}) {
		got := dump(t, open(t, content), 60)
		golden.Check(t, name, got)
	}
}

func TestPlansSameBytes(t *testing.T) {
	for _, make := range []func(testing.TB) *matrix.Result{telltest.Small, telltest.Awkward, func(testing.TB) *matrix.Result { return telltest.Empty() }} {
		first, second := planBooks(t, make(t), Options{}), planBooks(t, make(t), Options{})
		for name := range first {
			if !bytes.Equal(first[name], second[name]) {
				t.Errorf("%s: the same plan gave other bytes", name)
			}
		}
	}
}

// TestPlansListEveryHead: every head stands once, on the sheet of those served or on that of those not.
func TestPlansListEveryHead(t *testing.T) {
	r := telltest.Small(t)
	for name, sheets := range map[string][2]string{"stock.txt": {"Who serves whom", "Heads not served"}, "sizes.txt": {"Which head takes what", "Heads left out"}} {
		f := open(t, planBooks(t, r, Options{})[name])
		var heads []string
		for _, sheet := range sheets {
			for _, row := range below(t, f, sheet, "Head") {
				heads = append(heads, row[0])
			}
		}
		var want []string
		for _, h := range r.Catalogue.Heads {
			want = append(want, h.Part)
		}
		slices.Sort(heads)
		slices.Sort(want)
		if diff := cmp.Diff(want, heads); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// TestPlansHaveTheirSheetsAndGraph: every sheet that the first one names is there, and the curve has its graph.
func TestPlansHaveTheirSheetsAndGraph(t *testing.T) {
	for name, content := range planBooks(t, telltest.Small(t), Options{}) {
		f := open(t, content)
		first := rows(t, f, report.ReadFirst)
		at := slices.IndexFunc(first, func(row []string) bool { return len(row) > 0 && row[0] == "Which sheet answers what" })
		var named []string
		for _, row := range first[at+1:] {
			if len(row) == 0 {
				break
			}
			named = append(named, row[0])
		}
		if diff := cmp.Diff(f.GetSheetList()[1:], named); diff != "" {
			t.Errorf("%s (-sheets +named):\n%s", name, diff)
		}
		if !bytes.Contains(content, []byte("xl/charts/chart1.xml")) {
			t.Errorf("%s has no graph", name)
		}
	}
}

func TestPlansKeepTextAsText(t *testing.T) {
	r := telltest.Awkward(t)
	for name, content := range planBooks(t, r, Options{}) {
		f := open(t, content)
		for _, sheet := range f.GetSheetList() {
			for i, row := range rows(t, f, sheet) {
				for k := range row {
					formula, err := f.GetCellFormula(sheet, address(k+1, i+1))
					if err != nil {
						t.Fatal(err)
					}
					if formula != "" {
						t.Errorf("%s, %s!%s is a formula: %s", name, sheet, address(k+1, i+1), formula)
					}
				}
			}
		}
		if text := strings.Join(f.GetSheetList(), "\n"); strings.Contains(text, "=") {
			t.Errorf("%s has the sheets %q", name, text)
		}
	}
}
