package formula_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/formula"
)

// anyFormula is a formula of the sorts that are worked out, over the cells B1 to B4. What functions are given is simple: the library's
// calculator is no reference for sums of functions within them (PRODUCT(SUM(B1:B4,B1),1.5-B4+1.7*B4*PRODUCT(0.02,B1)) is the sum alone to it).
func anyFormula(rng *rand.Rand, depth int) string {
	simple := func() string {
		if rng.IntN(2) == 0 {
			return fmt.Sprintf("B%d", 1+rng.IntN(4))
		}
		return strconv.FormatFloat(float64(1+rng.IntN(4000))/1000, 'f', -1, 64)
	}
	if depth == 0 || rng.IntN(4) == 0 {
		return simple()
	}
	switch rng.IntN(6) {
	case 0:
		return "(" + anyFormula(rng, depth-1) + "-" + anyFormula(rng, depth-1) + ")"
	case 1:
		return "SUM(B1:B4," + simple() + ")"
	case 2:
		return "PRODUCT(" + simple() + "," + simple() + ")"
	}
	return anyFormula(rng, depth-1) + string("+-*/"[rng.IntN(4)]) + anyFormula(rng, depth-1)
}

// The results are those of the calculator of the library by which workbooks are read, which knows many more formulas; it is not asked
// itself since what it does with a formula has no bound.
func TestFillAgreesWithTheLibrary(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	values := []float64{13.6, 0.535, 25.4, 2}
	compared := 0
	for range 400 {
		text := anyFormula(rng, 4)
		file := excelize.NewFile()
		rows := make([][]*sheet.Cell, len(values))
		for i, v := range values {
			raw := strconv.FormatFloat(v, 'f', -1, 64)
			rows[i] = []*sheet.Cell{sheet.BlankCell, {Kind: sheet.Number, Raw: raw, Shown: raw}}
			if err := file.SetCellFloat("Sheet1", fmt.Sprintf("B%d", i+1), v, -1, 64); err != nil {
				t.Fatal(err)
			}
		}
		rows[0][0] = &sheet.Cell{Formula: text}
		formula.Fill(&sheet.Book{Sheets: []*sheet.Sheet{{Name: "Sheet1", Rows: rows}}})
		if err := file.SetCellFormula("Sheet1", "A1", text); err != nil {
			t.Fatal(err)
		}
		shown, err := file.CalcCellValue("Sheet1", "A1", excelize.Options{RawCellValue: true})
		if err := file.Close(); err != nil {
			t.Fatal(err)
		}
		want, numeric := strconv.ParseFloat(shown, 64)
		if err != nil || numeric != nil || !rows[0][0].WorkedOut {
			continue // divided by zero, or a number too small to be written without an exponent
		}
		got, err := strconv.ParseFloat(rows[0][0].Raw, 64)
		if err != nil || math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
			t.Errorf("=%s is %s, the library says %s", text, rows[0][0].Raw, shown)
		}
		compared++
	}
	if compared < 350 {
		t.Errorf("only %d of 400 formulas were compared", compared)
	}
}
