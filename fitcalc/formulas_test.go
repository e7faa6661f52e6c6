package fitcalc

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// TestEvaluateAgreesWithTheFormulaSheet compares with testdata/formulas/joints.csv: joints with the formulas of a spreadsheet,
// written from the definitions, as LibreOffice works them out (recalculate.sh beside it). All of it is in inches.
func TestEvaluateAgreesWithTheFormulaSheet(t *testing.T) {
	rows := readSheet(t, filepath.Join("..", "testdata", "formulas", "joints.values.csv"))
	formulas := readSheet(t, filepath.Join("..", "testdata", "formulas", "joints.csv"))
	if len(rows) != len(formulas) || len(rows) < 4+60 {
		t.Fatalf("%d rows of values for %d of formulas", len(rows), len(formulas))
	}
	shop := DefaultShop()
	plain := []string{"undersize_risk", "turn_share", "measure_share", "slip_risk", "split_risk", "strain_limit"} // without a unit
	for i, key := range rows[0] {
		if key == "" {
			continue
		}
		value := rows[1][i]
		if x, err := strconv.ParseFloat(value, 64); err != nil || !slices.Contains(plain, key) {
			if err != nil {
				t.Fatal(err)
			}
			value = strconv.FormatFloat(x, 'f', -1, 64) + " in"
		}
		if key == "tip_taper" {
			value += "/in"
		}
		if err := shop.Set(key, value); err != nil {
			t.Fatal(err)
		}
	}
	seen := map[string]int{}
	for i, record := range rows[4:] {
		r := row{t: t, cells: map[string]string{}}
		for c, heading := range rows[3] {
			r.cells[heading] = record[c]
		}
		if r.cells["joint"] != formulas[4+i][0] {
			t.Fatalf("row %d holds %q in one file and %q in the other", 5+i, r.cells["joint"], formulas[4+i][0])
		}
		seen[r.cells["verdict"]]++
		t.Run(r.cells["joint"], func(t *testing.T) {
			r.t = t
			r.compare(shop)
		})
	}
	for v := Flush; v <= Bare; v++ {
		if seen[v.String()] == 0 {
			t.Errorf("no joint of the sheet is %v", v)
		}
	}
}

func readSheet(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// row is one joint of the sheet.
type row struct {
	t     *testing.T
	cells map[string]string
}

// dim reads a size and its ±, where one is named.
func (r row) dim(size, tolerance string) measure.Dim {
	if r.cells[size] == "" {
		return measure.Dim{}
	}
	nominal := long(r.t, r.cells[size]+" in")
	if tolerance == "" {
		return measure.Nominal(nominal)
	}
	return measure.PlusMinus(nominal, long(r.t, r.cells[tolerance]+" in"))
}

func (r row) compare(shop Shop) {
	head := Head{
		HoselOD: r.dim("hosel_od", "hosel_tol"), Bore: r.dim("bore", ""), BoreDepth: r.dim("bore_depth", ""),
		Counterbore: Counterbore{Depth: r.dim("counterbore_depth", "")},
	}
	var known bool
	if head.Top, known = ParseTopForm(r.cells["top"]); !known {
		r.t.Fatalf("top %q", r.cells["top"])
	}
	if head.BoreForm, known = ParseBoreForm(r.cells["bore_form"]); !known {
		r.t.Fatalf("bore %q", r.cells["bore_form"])
	}
	ferrule := Ferrule{
		Bore: r.dim("ferrule_bore", "ferrule_bore_tol"), BaseOD: r.dim("base_od", "base_tol"), Length: r.dim("length", ""), Style: Plain,
	}
	fit, err := Evaluate(head, r.tip(), ferrule, shop)
	if err != nil {
		r.t.Fatal(err)
	}
	if got := fit.Verdict.String(); got != r.cells["verdict"] {
		r.t.Errorf("%s %v, the sheet says %s", got, codesOf(&fit), r.cells["verdict"])
	}
	if fit.Verdict == Bare {
		if known := (fit.Flush.Known || fit.Grip.Known || fit.Bore.Known || fit.Work.Known); known {
			r.t.Error("something is told of a ferrule on a head that takes none")
		}
		return
	}
	f, g := &fit.Flush, &fit.Grip
	in := func(l measure.Length) float64 { return l.Inches() }
	r.same(f.Known, map[string]float64{
		"oversize": in(f.Oversize.Nominal), "oversize_least": in(f.Oversize.Least), "oversize_most": in(f.Oversize.Most),
		"undersize": f.Undersize, "visible_undersize": f.VisibleUndersize, "visible_oversize": f.VisibleOversize,
		"turn_down": in(f.TurnDown.Nominal), "turn_down_most": in(f.TurnDown.Most), "mean_turn_down": f.MeanTurnDownMM / 25.4,
		"over_turn_limit": f.OverTurnLimit,
	})
	r.same(g.Known, map[string]float64{
		"interference": in(g.Interference.Nominal), "interference_least": in(g.Interference.Least), "interference_most": in(g.Interference.Most),
		"slip": g.Slip, "split": g.Split, "strain": g.Strain, "grip_length": in(g.Length),
	})
	r.same(fit.Bore.Known, map[string]float64{"clearance": in(fit.Bore.Clearance.Nominal)})
	r.same(fit.Work.Known, map[string]float64{"wall": in(fit.Work.WallLeft)})
	r.same(fit.Bore.KnownInsertion, map[string]float64{"insertion": in(fit.Bore.Insertion)})
}

func (r row) tip() Tip {
	end := r.dim("tip", "tip_tol")
	if !end.Given() {
		return Tip{}
	}
	taper, err := measure.ParseTaper(r.cells["taper"] + " in/in")
	if err != nil {
		r.t.Fatal(err)
	}
	if taper.IsZero() {
		return ParallelTip(end)
	}
	return TaperTip(end, taper)
}

// same compares columns, which are all empty where nothing is known.
func (r row) same(known bool, columns map[string]float64) {
	r.t.Helper()
	for name, got := range columns {
		cell, there := r.cells[name]
		switch {
		case !there:
			r.t.Fatalf("the sheet has no column %s", name)
		case (cell != "") != known:
			r.t.Errorf("%s: known is %v, the sheet says %q", name, known, cell)
		case known:
			want, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				r.t.Fatal(err)
			}
			if math.Abs(got-want) > 1e-9 {
				r.t.Errorf("%s: %v, the sheet says %v", name, got, want)
			}
		}
	}
}
