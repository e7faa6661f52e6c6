package workbook_test

import (
	"bytes"
	"fmt"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/workbook"
)

func ExampleWrite() {
	head := catalog.Head{Item: catalog.Item{Part: "TF-610"}, Category: fitcalc.Iron, Head: fitcalc.Head{
		Category: fitcalc.Iron, Top: fitcalc.TopFlat,
		HoselOD: measure.Nominal(measure.Thou(500)), Bore: measure.Nominal(measure.Thou(374)),
	}}
	ferrule := catalog.Ferrule{Item: catalog.Item{Part: "HM-20"}, Ferrule: fitcalc.Ferrule{
		Style:  fitcalc.Plain,
		BaseOD: measure.Nominal(measure.Thou(512)), Bore: measure.Nominal(measure.Thou(368)), Length: measure.Nominal(measure.Thou(500)),
	}}
	result := matrix.Decide(
		&catalog.Catalogue{Heads: []catalog.Head{head}, Ferrules: []catalog.Ferrule{ferrule}}, fitcalc.DefaultShop())

	var out bytes.Buffer
	if err := workbook.Write(&out, result, workbook.Options{ShopName: "Lathe and Linen"}); err != nil {
		fmt.Println(err)
		return
	}
	file, err := excelize.OpenReader(&out)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer func() {
		if err := file.Close(); err != nil {
			fmt.Println(err)
		}
	}()
	fmt.Println(file.GetSheetList())
	for _, cell := range []string{"A5", "B5", "D5", "F5"} {
		value, err := file.GetCellValue("Fits", cell)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(value)
	}
	// Output:
	// [Read first Matrix Best ferrule Try a size Heads without Unused ferrules Fits Findings Pictures Windows Size working]
	// TF-610
	// HM-20
	// turn
	// 0.30
}
