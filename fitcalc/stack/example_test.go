package stack_test

import (
	"fmt"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

// A ferrule's base of 13.70 ± 0.05 mm over a hosel of 13.60 ± 0.08 mm: how often is it undersize, and how much comes off?
func Example() {
	base := measure.PlusMinus(measure.Micrometres(13_700), measure.Micrometres(50))
	hosel := measure.PlusMinus(measure.Micrometres(13_600), measure.Micrometres(80))
	oversize := stack.Of(base).Minus(hosel)

	fmt.Printf("oversize on the diameter: %.2f mm, %.2f to %.2f mm in the worst case\n",
		oversize.Nominal().Millimetres(), oversize.Least().Millimetres(), oversize.Most().Millimetres())
	fmt.Printf("undersize: %.4f %% of joints\n", 100*oversize.Below(measure.Length{}))
	fmt.Printf("comes off on average: %.4f mm\n", oversize.MeanExcess(measure.Length{}))
	fmt.Printf("19 of 20 are below %.4f mm\n", oversize.Quantile(.95))
	// Output:
	// oversize on the diameter: 0.10 mm, -0.03 to 0.23 mm in the worst case
	// undersize: 0.0736 % of joints
	// comes off on average: 0.1000 mm
	// 19 of 20 are below 0.1517 mm
}

// Evenly spread sizes reach their limits far more often than normal ones.
func ExampleSum_Above() {
	spacer := measure.PlusMinus(measure.Inches(1), measure.Thou(5))
	for _, shape := range []measure.Shape{measure.Normal, measure.Triangular, measure.Uniform} {
		d := spacer.WithShape(shape)
		three := stack.Of(d).Plus(d).Plus(d)
		fmt.Printf("%.5f\n", three.Above(measure.Thou(3008)))
	}
	// Output:
	// 0.00279
	// 0.01042
	// 0.05717
}
