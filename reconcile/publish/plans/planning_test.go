package plans_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.com/seatline/examples/shop"
	"example.com/seatline/examples/shop/shoptest"
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/demand"
	"example.com/seatline/reconcile/internal/golden"
	"example.com/seatline/reconcile/internal/schematest"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/plans"
	"example.com/seatline/reconcile/publish/tell/telltest"
	"example.com/seatline/reconcile/settings"
)

// demo is the demo's shop decided, with its plan for the year.
func demo(t testing.TB) (*matrix.Result, *demand.Demand) {
	t.Helper()
	content, err := fs.ReadFile(shop.Files(), shop.Settings)
	if err != nil {
		t.Fatal(err)
	}
	limits, err := settings.Parse(shop.Settings, content)
	if err != nil {
		t.Fatal(err)
	}
	r := matrix.Decide(reader.Read(shoptest.Inputs(t), reader.Options{}), limits.Shop)
	d, err := demand.Read(shoptest.Book(t, shop.Demand()), r.Catalogue)
	if err != nil {
		t.Fatal(err)
	}
	return r, d
}

func stockOf(t testing.TB, r *matrix.Result, d *demand.Demand, change func(*stock.Settings)) *plans.Stock {
	t.Helper()
	s := stock.DefaultSettings()
	s.Currency, s.Rates, s.PricePerPack = "EUR", map[string]float64{"USD": 0.92, "GBP": 1.17}, true
	if d != nil {
		s.EachHead, s.Yearly = 0, d.Numbers(0)
		for h, n := range s.Yearly {
			if n == 0 {
				s.LeaveOut = append(s.LeaveOut, h)
			}
		}
	}
	if change != nil {
		change(&s)
	}
	plan, err := stock.Choose(context.Background(), r, s)
	if err != nil {
		t.Fatal(err)
	}
	var without []*stock.Substitution
	if len(plan.Carry) > 0 {
		one, err := stock.Substitutes(r, plan.Carry[0].Ferrule, s.Yearly)
		if err != nil {
			t.Fatal(err)
		}
		without = append(without, one)
	}
	return &plans.Stock{Result: r, Settings: s, Plan: plan, Demand: d, Without: without, TwoSuppliers: []string{"iron"}}
}

func sizesOf(t testing.TB, r *matrix.Result, d *demand.Demand) *plans.Sizes {
	t.Helper()
	s := &plans.Sizes{Result: r, Demand: d, EachHead: 12, Wanted: stock.Wanted{Count: 3, Most: 6, Grid: measure.Micrometres(100), Existing: []measure.Length{measure.Millimetres(13)}}}
	s.Wanted.Yearly = slices.Repeat([]float64{s.EachHead}, len(r.Catalogue.Heads))
	if d != nil {
		s.EachHead, s.Wanted.Yearly = 0, d.Numbers(0)
	}
	s.Common = stock.Common{Most: 12, MostRemoved: measure.Micrometres(300), Minutes: 6, MinutesPerMM: 10, Yearly: s.Wanted.Yearly}
	var err error
	if s.Made, err = stock.SizesToMake(r, s.Wanted); err != nil {
		t.Fatal(err)
	}
	if s.Standards, s.NotStandard, err = stock.Standardise(r, s.Common); err != nil {
		t.Fatal(err)
	}
	return s
}

func written(t testing.TB, write func(io.Writer) error) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func writers(s *plans.Stock, z *plans.Sizes) map[string]func(io.Writer) error {
	return map[string]func(io.Writer) error{
		"stock.json":   func(w io.Writer) error { return plans.WriteStockJSON(w, s) },
		"stock.csv":    func(w io.Writer) error { return plans.WriteStockCSV(w, s) },
		"stock.svg":    func(w io.Writer) error { return plans.WriteStockSVG(w, s) },
		"sizes.json":   func(w io.Writer) error { return plans.WriteSizesJSON(w, z) },
		"sizes.csv":    func(w io.Writer) error { return plans.WriteSizesCSV(w, z, fitcalc.Metric) },
		"sizes-in.csv": func(w io.Writer) error { return plans.WriteSizesCSV(w, z, fitcalc.Imperial) },
		"sizes.svg":    func(w io.Writer) error { return plans.WriteSizesSVG(w, z) },
		"stock.txt":    lines(s.Lines(fitcalc.Metric)),
		"sizes.txt":    lines(z.Lines(fitcalc.Imperial)),
	}
}

func lines(all []string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, strings.Join(all, "\n")+"\n")
		return err
	}
}

// cases are results with everything, with texts that must come out as text, and with nothing.
func cases(t testing.TB) map[string]*matrix.Result {
	return map[string]*matrix.Result{"small": telltest.Small(t), "awkward": telltest.Awkward(t), "empty": telltest.Empty()}
}

func TestGolden(t *testing.T) {
	r := telltest.Small(t)
	s, z := stockOf(t, r, nil, nil), sizesOf(t, r, nil)
	for name, write := range writers(s, z) {
		got := written(t, write)
		golden.Check(t, name, got)
	}
}

func TestSameBytes(t *testing.T) {
	for name, r := range cases(t) {
		again := cases(t)[name]
		first, second := writers(stockOf(t, r, nil, nil), sizesOf(t, r, nil)), writers(stockOf(t, again, nil, nil), sizesOf(t, again, nil))
		for file := range first {
			if !bytes.Equal(written(t, first[file]), written(t, second[file])) {
				t.Errorf("%s of %s: the same plan gave other bytes", file, name)
			}
		}
	}
}

// closed makes every object of a schema refuse keys that it does not name, so that no key is written that the schema does not describe.
func closed(v any) {
	switch v := v.(type) {
	case map[string]any:
		if _, object := v["properties"]; object {
			v["additionalProperties"] = false
		}
		for _, inner := range v {
			closed(inner)
		}
	case []any:
		for _, inner := range v {
			closed(inner)
		}
	}
}

func compile(t *testing.T, text []byte) *jsonschema.Schema {
	t.Helper()
	schema := schematest.Parse(t, text)
	closed(schema)
	return schematest.CompileValue(t, schema)
}

func TestSchemas(t *testing.T) {
	ofStock, ofSizes := compile(t, plans.StockSchema()), compile(t, plans.SizesSchema())
	for name, r := range cases(t) {
		schematest.Check(t, name, ofStock, written(t, writers(stockOf(t, r, nil, nil), sizesOf(t, r, nil))["stock.json"]))
		schematest.Check(t, name, ofSizes, written(t, writers(stockOf(t, r, nil, nil), sizesOf(t, r, nil))["sizes.json"]))
	}
	r, d := demo(t)
	all := writers(stockOf(t, r, d, func(s *stock.Settings) {
		s.Must, s.MustNot, s.SecondSource, s.MostTurnDown, s.AtMost = []int{0}, []int{1}, []int{0, 1}, measure.Micrometres(800), 20
	}), sizesOf(t, r, d))
	schematest.Check(t, "demo", ofStock, written(t, all["stock.json"]))
	schematest.Check(t, "demo", ofSizes, written(t, all["sizes.json"]))
	if err := ofStock.Validate(map[string]any{"version": 1}); err == nil {
		t.Error("the schema takes anything")
	}
}

// TestStockConservesHeads: every head of the demo is served, unserved or left out, once; sums are those of the parts; every number leads to a row.
func TestStockConservesHeads(t *testing.T) {
	r, d := demo(t)
	s := stockOf(t, r, d, nil)
	var j struct {
		Heads struct{ All, Served, Unserved, Left_out int }
		Cost  struct{ Total, Work, Pieces, Carrying float64 }
		Carry []struct {
			Heads  int
			Pieces float64
			Cost   struct{ Total, Work, Pieces, Carrying float64 }
		}
		Serves []struct {
			Head          struct{ Source struct{ Row int } }
			Yearly        float64
			Yearly_source []struct{ Cell string }
		}
		Unserved, Left_out []json.RawMessage
		Demand             struct{ Ledger catalog.Ledger }
	}
	if err := json.Unmarshal(written(t, func(w io.Writer) error { return plans.WriteStockJSON(w, s) }), &j); err != nil {
		t.Fatal(err)
	}
	if j.Heads.All != len(r.Catalogue.Heads) || j.Heads.All != j.Heads.Served+j.Heads.Unserved+j.Heads.Left_out ||
		j.Heads.Served != len(j.Serves) || j.Heads.Unserved != len(j.Unserved) || j.Heads.Left_out != len(j.Left_out) || j.Heads.Served < 90 {
		t.Errorf("heads %+v", j.Heads)
	}
	heads, pieces, total, made := 0, 0.0, 0.0, 0.0
	for _, c := range j.Carry {
		heads, pieces, total = heads+c.Heads, pieces+c.Pieces, total+c.Cost.Total
	}
	for _, one := range j.Serves {
		made += one.Yearly
		if one.Head.Source.Row < 1 || len(one.Yearly_source) < 1 || one.Yearly_source[0].Cell == "" {
			t.Errorf("a number leads nowhere: %+v", one)
		}
	}
	if heads != j.Heads.Served || pieces != made || total-j.Cost.Total > 0.2 || j.Cost.Total-total > 0.2 {
		t.Errorf("%d heads, %v pieces of %v, %v of %v", heads, pieces, made, total, j.Cost.Total)
	}
	if l := j.Demand.Ledger; l.Rows != l.Used+l.Assumed+l.Held+l.SetAside || l.Held != 6 {
		t.Errorf("ledger %+v", l)
	}
}

// TestSizesConserveHeads: every head of the demo is served, left or unserved, once.
func TestSizesConserveHeads(t *testing.T) {
	r, d := demo(t)
	var j struct {
		Heads struct{ All, Served, Left, Unserved int }
		Tips  []struct {
			Minutes float64
			Sizes   []struct {
				Minutes float64
				Takes   []struct{ Against []string }
			}
		}
		Left []json.RawMessage
	}
	if err := json.Unmarshal(written(t, func(w io.Writer) error { return plans.WriteSizesJSON(w, sizesOf(t, r, d)) }), &j); err != nil {
		t.Fatal(err)
	}
	if j.Heads.All != len(r.Catalogue.Heads) || j.Heads.All != j.Heads.Served+j.Heads.Left+j.Heads.Unserved || j.Heads.Left != len(j.Left) || j.Heads.Unserved != 0 {
		t.Errorf("heads %+v", j.Heads)
	}
	for _, tip := range j.Tips {
		sum := 0.0
		for _, size := range tip.Sizes {
			sum += size.Minutes
			for _, head := range size.Takes {
				if slices.ContainsFunc(head.Against, func(code string) bool { return strings.HasPrefix(code, "flush.") }) {
					t.Errorf("a size does not end flush: %v", head.Against)
				}
			}
		}
		if sum-tip.Minutes > 0.1 || tip.Minutes-sum > 0.1 {
			t.Errorf("%v minutes of %v", sum, tip.Minutes)
		}
	}
}

func TestCSVIsText(t *testing.T) {
	r := telltest.Awkward(t)
	for name, write := range writers(stockOf(t, r, nil, nil), sizesOf(t, r, nil)) {
		if !strings.HasSuffix(name, ".csv") {
			continue
		}
		all, err := csv.NewReader(bytes.NewReader(written(t, write))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, record := range all[1:] {
			for _, field := range record {
				if field != "" && strings.ContainsRune("=+-@\t\r", rune(strings.TrimLeft(field+"x", " ")[0])) && !isNumber(field) {
					t.Errorf("%s: %q may be taken for a formula", name, field)
				}
			}
		}
	}
}

func isNumber(text string) bool {
	var x float64
	n, err := fmt.Sscanf(text+" ", "%g", &x)
	return n == 1 && err == nil
}

func TestSVGIsXML(t *testing.T) {
	for _, r := range cases(t) {
		for name, write := range writers(stockOf(t, r, nil, nil), sizesOf(t, r, nil)) {
			if !strings.HasSuffix(name, ".svg") {
				continue
			}
			decoder := xml.NewDecoder(bytes.NewReader(written(t, write)))
			for {
				if _, err := decoder.Token(); errors.Is(err, io.EOF) {
					break
				} else if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
			}
		}
	}
}

// failing is a writer that fails.
type failing struct{}

var errFull = errors.New("full")

func (failing) Write([]byte) (int, error) { return 0, errFull }

func TestErrorsAreTheWriters(t *testing.T) {
	r := telltest.Small(t)
	for name, write := range writers(stockOf(t, r, nil, nil), sizesOf(t, r, nil)) {
		if err := write(failing{}); !errors.Is(err, errFull) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
