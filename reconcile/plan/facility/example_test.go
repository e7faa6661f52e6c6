package facility_test

import (
	"context"
	"fmt"

	"example.com/seatline/reconcile/plan/facility"
)

// Three ferrules could be carried for four heads, at 20 a year each. The last head takes none of them.
func ExampleSolve() {
	p := facility.Problem{
		Fixed: []float64{20, 20, 20},
		Serve: [][]facility.Arc{
			{{Facility: 0, Cost: 5}, {Facility: 1, Cost: 12}},
			{{Facility: 1, Cost: 6}, {Facility: 2, Cost: 9}},
			{{Facility: 1, Cost: 30}, {Facility: 2, Cost: 4}},
			{},
		},
	}
	s, err := facility.Solve(context.Background(), p, facility.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("carry", s.Open, "at", s.Cost, "a year, proven:", s.Proven)
	fmt.Println("served by", s.Assigned, "nobody serves", s.Unservable)

	second, err := facility.SecondBest(context.Background(), p, s, facility.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("next best", second.Open, "at", second.Cost)
	// Output:
	// carry [0 2] at 58 a year, proven: true
	// served by [0 2 2 -1] nobody serves [3]
	// next best [1 2] at 62
}

// With one ferrule fewer than is best, how much dearer does it get?
func ExampleCurve() {
	points, err := facility.Curve(context.Background(), warehouses(), 5, facility.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range points {
		fmt.Println("at most", p.AtMost, "cost", p.Cost, "open", p.Open)
	}
	// Output:
	// at most 1 cost 393 open [0]
	// at most 2 cost 330 open [0 4]
	// at most 3 cost 328 open [0 1 4]
}
