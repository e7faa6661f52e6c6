package main

import (
	"fmt"
	"os"
)

// The numbers by hand: mean 12.9325 mm and standard deviation 0.01603 mm. The factor for 12 readings, 95 % of the lot and 95 %
// confidence is 3.16 (Berthouex and Brown, Statistics for Environmental Engineers, table 21.1): 12.9325 ∓ 0.0506 mm. The
// uncertainty of the mean is √(0.01603²/12 + 0.005²/3 + 0.02²/6) = 0.0098 mm, and 1.96 times that is 0.019 mm. Of 12 pieces 7
// or more are outside with the probability 792 · 0.05⁷ · 0.95⁵ + … = 4.9e-7.
func Example() {
	if err := run(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// Larkmoor LP-130, base OD stated as 13 ±0.05 mm, 12 pieces measured
	// mean      12.933 ±0.019 mm (95% confidence)
	// pieces    95% of the lot lie between 12.882 and 12.983 mm (95% confidence, if the lot is normal)
	// undersize 9 of 12 read below the stated 12.95 mm; of the lot it may be as many as 95% (95% confidence)
	// statement contradicted: 7 of 12 readings are outside the limits beyond doubt; with 5 % of the pieces outside, so many have a probability under 0.01 %
	// - mind: the uncertainty of the instrument is a large part of the tolerance: guard bands of 0.0142 mm at each limit take more than a quarter of the 0.1000 mm between them; use a better instrument
	//
	//              stated   as measured, 12.856 to 13.009 mm
	// HF-3 irons   turn     turn  0% of joints visibly undersize, 100% to be turned
	// HF-7 irons   turn     flush 6% of joints visibly undersize, 2% to be turned
	// HF-9 wedges  flush    no    60% of joints visibly undersize, 0% to be turned
	// HF-P putter  no       no    100% of joints visibly undersize, 0% to be turned
}
