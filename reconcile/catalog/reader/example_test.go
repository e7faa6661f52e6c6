package reader_test

import (
	"fmt"

	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/sheet"
)

func ExampleRead() {
	text := func(s string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Text, Raw: s, Shown: s} }
	number := func(s string) *sheet.Cell { return &sheet.Cell{Kind: sheet.Number, Raw: s, Shown: s} }
	heads := &sheet.Sheet{Name: "Heads", Rows: [][]*sheet.Cell{
		{text("Part No"), text("Hosel OD"), text("Bore")},
		{text("KR-20"), number("13.6"), text(`.370"`)},
		{text("KR-21"), number("136"), text(`.370"`)},
	}}
	c := reader.Read([]reader.Input{{Book: &sheet.Book{File: "orrin.xlsx", Sheets: []*sheet.Sheet{heads}}}}, reader.Options{})

	for _, row := range c.Tables[0].Rows[1:] {
		fmt.Println(row.Part, row.Outcome)
		for _, assumption := range row.Assumptions {
			fmt.Println("  assumed:", assumption)
		}
		if row.Why != "" {
			fmt.Println("  because:", row.Why)
		}
	}
	fmt.Println(c.Tables[0].Ledger)
	// Output:
	// KR-20 assumed
	//   assumed: unit of Hosel OD taken as mm: 13.6 in would be 345.44 mm
	//   assumed: bore .370" taken as the name of the tip and not the size of the hole
	// KR-21 held
	//   assumed: bore .370" taken as the name of the tip and not the size of the hole
	//   because: Hosel OD 136 is 136 mm, beyond the 9.6 to 22 mm that the joint allows; 13.6 mm (a decimal point one place too far right) would fit
	// 3 rows: 0 used, 1 used with assumptions, 1 held, 1 set aside
}
