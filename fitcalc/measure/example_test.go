package measure_test

import (
	"errors"
	"fmt"

	"example.com/seatline/fitcalc/measure"
)

func ExampleParseLength() {
	for _, s := range []string{"13.6 mm", `.535"`, `1-1/4"`, "½ in", "13.6"} {
		l, err := measure.ParseLength(s)
		if errors.Is(err, measure.ErrNoUnit) {
			fmt.Println(err)
			continue
		}
		fmt.Println(l)
	}
	// Output:
	// 13.6 mm
	// 13.589 mm
	// 31.75 mm
	// 12.7 mm
	// length "13.6": no unit; write a number and a unit, such as 13.6 mm, .535", 1-1/4 in or 370 thou
}

func ExampleNotation() {
	column := measure.Notation{Unit: measure.Inch}
	d, err := column.ParseDim(".535 ±.002")
	fmt.Println(d, err)
	// Output: 13.589 ±0.0508 mm <nil>
}

func ExampleLength_FormatInches() {
	l := measure.Micrometres(13_600)
	fmt.Println(l.FormatInches(3))
	fmt.Println(l.FormatFraction(64))
	// Output:
	// 0.535 false
	// 17/32" + .0042" <nil>
}

func ExampleDim_FormatLimitsInches() {
	d, err := measure.ParseDim("11 ±0.3 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(d.FormatLimitsInches(3))
	// Output: 0.422 0.444 true
}

func ExampleTaper_Growth() {
	t, err := measure.ParseTaper(".0075 in/in")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Growth(measure.Inches(2)).FormatInches(3))
	// Output: 0.015 true
}
