package sizes_test

import (
	"fmt"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/plan/sizes"
)

// Five hosels, a base that may be turned down by 1 mm and must be .05 mm over for the risk. How many sizes pay?
func ExampleFind() {
	var hosels []sizes.Hosel
	for _, h := range []struct {
		od     int64 // µm
		yearly float64
	}{{11800, 50}, {12000, 200}, {12600, 40}, {13500, 120}, {13550, 80}} {
		od := measure.Micrometres(h.od)
		hosels = append(hosels, sizes.Hosel{
			OD: od, Least: od.Add(measure.Micrometres(50)), Most: od.Add(measure.Millimetres(1)),
			Yearly: h.yearly, Fixed: 4, Rate: 3,
		})
	}
	curve, err := sizes.Find(hosels, sizes.Options{Most: 4, Grid: measure.Micrometres(100)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range curve.Points {
		if p.Feasible {
			fmt.Printf("%d sizes %v: %.0f a year, saves %.0f\n", p.Count, p.New, p.Cost, p.Saves)
		}
	}
	// Output:
	// 2 sizes [12.1 mm 13.6 mm]: 2233 a year, saves 0
	// 3 sizes [12.1 mm 12.7 mm 13.6 mm]: 2125 a year, saves 108
	// 4 sizes [11.9 mm 12.1 mm 12.7 mm 13.6 mm]: 2095 a year, saves 30
}
