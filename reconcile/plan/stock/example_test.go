package stock_test

import (
	"context"
	"fmt"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/plan/sizes"
	"example.com/seatline/reconcile/plan/stock"
)

func ExampleChoose() {
	r := shop() // a decided matrix
	plan, err := stock.Choose(context.Background(), r, stock.DefaultSettings())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range plan.Carry {
		fmt.Printf("carry %s for %d heads, %.0f pieces a year\n", r.Catalogue.Ferrules[c.Ferrule].Part, len(c.Heads), c.Pieces)
	}
	for _, u := range plan.Unserved {
		fmt.Printf("nothing for %s, which takes no ferrule: %v\n", r.Catalogue.Heads[u.Head].Part, u.Bare)
	}
	fmt.Println("proven:", plan.Proven)
	// Output:
	// carry OR-121 for 2 heads, 24 pieces a year
	// carry OR-131 for 1 heads, 12 pieces a year
	// nothing for HD-4, which takes no ferrule: false
	// nothing for HR-5, which takes no ferrule: true
	// proven: true
}

func ExampleSubstitutes() {
	r := shop()
	s, err := stock.Substitutes(r, 0, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range s.Others {
		fmt.Println(r.Catalogue.Ferrules[o.Ferrule].Part, "takes over", len(o.Changes), "of", len(s.Heads), "heads")
	}
	// Output:
	// VK-121 takes over 2 of 2 heads
	// OR-127 takes over 2 of 2 heads
}

func ExampleHosels() {
	q, err := stock.Hosels(shop(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	curve, err := sizes.Find(q.Hosels, sizes.Options{Most: 3, Grid: measure.Micrometres(100)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range curve.Points[2:] {
		fmt.Println(p.Count, "new sizes serve everyone:", p.Feasible, p.New)
	}
	// Output:
	// 2 new sizes serve everyone: true [13 mm 15.5 mm]
	// 3 new sizes serve everyone: true [12 mm 13 mm 15.5 mm]
}
