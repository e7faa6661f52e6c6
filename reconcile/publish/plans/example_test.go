package plans_test

import (
	"context"
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/plan/stock"
	"example.com/seatline/reconcile/publish/plans"
)

// A plan for two heads and three ferrules.
func ExampleStock_Proof() {
	head := func(part string, od int64) catalog.Head {
		return catalog.Head{Item: catalog.Item{Part: part}, Head: fitcalc.Head{HoselOD: measure.Nominal(measure.Thou(od)), Top: fitcalc.TopFlat, Bore: measure.Nominal(measure.Thou(374))}}
	}
	ferrule := func(part string, od int64) catalog.Ferrule {
		return catalog.Ferrule{Item: catalog.Item{Part: part}, Ferrule: fitcalc.Ferrule{
			BaseOD: measure.Nominal(measure.Thou(od)), Bore: measure.Nominal(measure.Thou(368)), Length: measure.Nominal(measure.Thou(500)), Style: fitcalc.Plain,
		}}
	}
	r := matrix.Decide(&catalog.Catalogue{
		Heads:    []catalog.Head{head("H-1", 500), head("H-2", 503)},
		Ferrules: []catalog.Ferrule{ferrule("F-1", 502), ferrule("F-2", 505), ferrule("F-3", 530)},
	}, fitcalc.DefaultShop())
	settings := stock.DefaultSettings()
	plan, err := stock.Choose(context.Background(), r, settings)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := &plans.Stock{Result: r, Settings: settings, Plan: plan}
	fmt.Println(len(plan.Carry), "to carry;", s.Proof())
	// Output: 1 to carry; proven: no other choice costs less
}
