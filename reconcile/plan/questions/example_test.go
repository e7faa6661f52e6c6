package questions_test

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/questions"
)

func Example() {
	inputs := []reader.Input{
		{Book: named("irons.csv", "Part | Hosel OD (mm) | Bore (mm)", "KR-7 | 12.9 | 9.51", "KR-8 | | 9.51"), Kind: catalog.Heads},
		{Book: named("trim.csv", "Part | Bore (mm) | Base OD (mm) | Length (mm)", "T-1 | 9.35 | 13.0 | 16", "T-2 | 9.35 | 13.2 | 16"), Kind: catalog.Ferrules},
	}
	first := questions.Ask(matrix.Decide(reader.Read(inputs, reader.Options{}), fitcalc.DefaultShop()))
	q := first.Questions[0]
	fmt.Printf("%s %s\nsettles %d of %d\n", q.Place.Cell, q.Asks, q.Settles, first.Undecided)

	// The sheet comes back.
	back := questions.Answers(book("Part | Answer | Our reference", q.Part+" | .508 in | "+q.Key))
	after := questions.Ask(matrix.Decide(reader.Read(inputs, reader.Options{Map: back.Map}), fitcalc.DefaultShop()))
	fmt.Println("undecided now:", after.Undecided)
	// Output:
	// B3 KR-8: what is the outside diameter at the very top of the hosel, as finished? (with its unit, such as 13.6 mm or .535 in)
	// settles 2 of 2
	// undecided now: 0
}
