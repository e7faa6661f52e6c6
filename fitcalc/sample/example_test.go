package sample_test

import (
	"fmt"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
)

func readings(micrometres ...int64) []measure.Length {
	all := make([]measure.Length, len(micrometres))
	for i, um := range micrometres {
		all[i] = measure.Micrometres(um)
	}
	return all
}

// One hosel, measured six times round its top with a caliper that reads to 0.01 mm and may be 0.02 mm off.
func ExampleEstimateMean() {
	caliper := sample.Caliper{
		Resolution:    measure.Micrometres(10),
		MaxError:      measure.Micrometres(20),
		MaxErrorShape: measure.Uniform,
	}
	e, err := sample.EstimateMean(readings(13_600, 13_610, 13_590, 13_610, 13_590, 13_600), caliper)
	if err != nil {
		fmt.Println(err)
		return
	}
	half, err := e.Expanded(.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f ± %.3f mm at 95 %%\n", e.Mean, half)
	for _, c := range e.Components {
		fmt.Printf("  %-18s %.4f mm\n", c.Name, c.U)
	}
	// Output:
	// 13.600 ± 0.024 mm at 95 %
	//   repeated readings  0.0037 mm
	//   resolution         0.0029 mm
	//   instrument         0.0115 mm
}

// Ten ferrules of a bag: between which sizes are 95 of 100, with 95 % confidence?
func ExampleSummary_ToleranceInterval() {
	s, err := sample.Summarise(readings(13_700, 13_720, 13_690, 13_710, 13_700, 13_680, 13_710, 13_700, 13_690, 13_700))
	if err != nil {
		fmt.Println(err)
		return
	}
	i, err := s.ToleranceInterval(.95, .95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean %.3f mm, standard deviation %.4f mm\n", s.Mean, s.SD)
	fmt.Printf("%.3f to %.3f mm\n", i.Lower, i.Upper)
	// Output:
	// mean 13.700 mm, standard deviation 0.0115 mm
	// 13.661 to 13.739 mm
}

// The same readings mean one thing taken on one piece, and another taken once each on many: a size known to a hundredth, or
// a lot that spreads by more. The jaws press the plastic in by up to 0.02 mm, of which half is put back.
//
// By hand: s = 0.00894 mm and u = √(s²/6 + 0.01²/12 + 0.02²/9 + 0.01²/3) = 0.00997 mm, 3.03 times that is 0.0302 mm; Howe's factor
// for six is 3 √(5 · 7/6 / 1.145) = 6.8 and 2 % high, which makes the lot 13.61 ± 0.059 mm.
func ExampleEstimate_Dim() {
	caliper := sample.Caliper{Resolution: measure.Micrometres(10), MaxError: measure.Micrometres(20), JawGive: measure.Micrometres(20)}
	e, err := sample.EstimateMean(readings(13_600, 13_610, 13_590, 13_610, 13_590, 13_600), caliper)
	if err != nil {
		fmt.Println(err)
		return
	}
	piece, err := e.Dim(sample.ThreeSigma)
	if err != nil {
		fmt.Println(err)
		return
	}
	lot, err := e.Summary.Dim(.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	from, to, _ := piece.Limits().FormatMillimetres(3)
	fmt.Println("one piece:", from, "to", to)
	from, to, _ = lot.Limits().FormatMillimetres(3)
	fmt.Println("the lot:  ", from, "to", to)
	// Output:
	// one piece: 13.580 to 13.640
	// the lot:   13.551 to 13.669
}

// A supplier states 13.70 ± 0.02 mm; eight pieces are measured.
func ExampleCompare() {
	stated := measure.PlusMinus(measure.Micrometres(13_700), measure.Micrometres(20))
	c, err := sample.Compare(stated, readings(13_720, 13_740, 13_710, 13_750, 13_730, 13_740, 13_720, 13_730),
		sample.Question{Confidence: .95, Allowed: .05, U: .005})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Consistency)
	fmt.Println(c.Reason)
	// Output:
	// contradicted
	// 5 of 8 readings are outside the limits beyond doubt; with 5 % of the pieces outside, so many have a probability under 0.01 %
}

// A delivery of 400 at an acceptable quality level of 2.5 %.
func ExampleNormalPlan() {
	letter, err := sample.CodeLetter(400, sample.LevelII)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := sample.NormalPlan(letter, 2.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v: take %d, accept with at most %d bad\n", letter, plan.N, plan.C)
	for _, bad := range []int{10, 40} {
		p, err := plan.AcceptLot(400, bad)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("with %d bad in the lot: accepted with probability %.2f\n", bad, p)
	}
	// Output:
	// H: take 50, accept with at most 3 bad
	// with 10 bad in the lot: accepted with probability 0.97
	// with 40 bad in the lot: accepted with probability 0.23
}

// A hosel reads 13.66 mm with a standard uncertainty of 0.012 mm; the drawing allows 13.68 mm.
func ExampleResult_Decide() {
	r := sample.Result{Value: 13.66, U: .012}
	p, err := r.ConformityProbability(sample.AtMost(13.68))
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := r.Decide(sample.AtMost(13.68), .95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("conforms with probability %.3f: %v\n", p, d)
	// Output:
	// conforms with probability 0.952: conforms
}

// One hosel on the bench, read three times round with calipers of ±0.02 mm: its size, with limits that package fitcalc takes.
func ExampleSizeOfPiece() {
	readings, err := measure.ParseReadings("13.58, 13.62, 13.60 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	size, err := sample.SizeOfPiece(readings, sample.DefaultCaliper(), measure.Thou(3))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f mm, standard uncertainty %.4f mm, so ±%.3f mm\n", size.Mean, size.U, size.Dim.Width().Millimetres()/2)
	fmt.Println(size.Dim.Origin())
	// Output:
	// 13.60 mm, standard uncertainty 0.0166 mm, so ±0.056 mm
	// measured
}

// What the next ferrule of a part measures, by three of them: less sure than each of the three, beside the ±0.05 mm that a shop
// allows for where nothing was measured.
func ExampleSizeOfPart() {
	readings, err := measure.ParseReadings("13.58, 13.62, 13.60 mm")
	if err != nil {
		fmt.Println(err)
		return
	}
	size, err := sample.SizeOfPart(readings, sample.DefaultCaliper(), sample.Pool{}, measure.Micrometres(50))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f ±%.3f mm\n", size.Mean, size.Dim.Width().Millimetres()/2)
	// Output:
	// 13.60 ±0.079 mm
}

// Five ferrules of a supplier were measured, three pieces of each: the ± of the sixth, of which only the stated size is known.
func ExampleDeviationsOf() {
	lots := []sample.Lot{
		{N: 3, Mean: 12.71, SD: .010, Stated: 12.70}, {N: 3, Mean: 13.01, SD: .012, Stated: 13.00}, {N: 3, Mean: 13.33, SD: .008, Stated: 13.335},
		{N: 3, Mean: 13.60, SD: .011, Stated: 13.589}, {N: 3, Mean: 13.72, SD: .009, Stated: 13.716},
	}
	d, err := sample.DeviationsOf(lots, sample.DefaultCaliper())
	if err != nil {
		fmt.Println(err)
		return
	}
	plusMinus, err := d.PlusMinus()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("pieces spread by %.4f mm, by %.0f degrees of freedom\n", d.Within.SD, d.Within.DoF)
	fmt.Printf("on average %.4f mm over what is stated; more than chance: %v\n", d.Bias, d.BiasShows())
	fmt.Println("take ±" + plusMinus.String())
	// Output:
	// pieces spread by 0.0101 mm, by 10 degrees of freedom
	// on average 0.0060 mm over what is stated; more than chance: false
	// take ±0.061 mm
}
