package picture_test

import (
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/picture"
)

func ExampleSizes() {
	var c catalog.Catalogue
	for _, thou := range []int64{500, 502, 540} {
		c.Heads = append(c.Heads, catalog.Head{Head: fitcalc.Head{HoselOD: measure.Nominal(measure.Thou(thou)), Top: fitcalc.TopFlat}})
	}
	c.Ferrules = []catalog.Ferrule{{Ferrule: fitcalc.Ferrule{BaseOD: measure.Nominal(measure.Thou(512))}}}
	graph := picture.Sizes(matrix.Decide(&c, fitcalc.DefaultShop()), fitcalc.Imperial)
	fmt.Println(graph.Said)
	// Output: Hosels: 3. Without a ferrule in size: 1 from .540 in. Ferrules on offer: 1.
}
