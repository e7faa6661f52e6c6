package samples_test

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/sheettest"
)

// Readings of three pieces stand in the place of what the sheet states, and the sheet's size stays known.
func ExampleApply() {
	heads := sheettest.Book("heads.csv", "", "Part No. | Type | Hosel OD (mm) | Bore (mm)", "PS-7 | iron | 13.6 | 9.5", "PS-8 | iron | 13.6 | 9.5")
	readings := sheettest.Book("readings.csv", "", "Part | Reading 1 (mm) | Reading 2 (mm) | Reading 3 (mm)", "ps-7 | 13.52 | 13.56 | 13.54", "PS-70 | 13.6 | 13.6 | 13.6")
	c := reader.Read([]reader.Input{{Book: heads, Kind: catalog.Heads}}, reader.Options{})

	c = samples.Apply(c, []*sheet.Book{readings}, samples.Options{Shop: fitcalc.DefaultShop()})
	od := c.Heads[0].Fields.Get(catalog.HoselOD)
	fmt.Println(od.Dim.Nominal(), od.Dim.Origin(), "and stated as", od.Measured.Stated)
	fmt.Println(samples.Sentence(od.Measured.Size, fitcalc.Metric))
	fmt.Println(c.Findings[0].Place.Cell, c.Findings[0].Message)
	// Output:
	// 13.54 mm measured and stated as 13.6 mm
	// mean of 3 pieces, standard deviation 0.02 mm (.0008 in); the spread is theirs and what is allowed for without readings; limits at three standard deviations, the instrument's uncertainty included
	// A3 PS-70 is in none of the sheets; near it are PS-7, PS-8; its readings are not used
}
