// Command bench goes from caliper readings of one odd club to a bench ticket: the verdict, what to turn off and to which
// size, how hard the ferrule goes on, and what the bond has to work with. The club is invented.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/fitcalc/say"
)

// The bench's calipers show 0.01 mm; their certificate says that they are never out by more than 0.02 mm.
var outside = sample.Caliper{
	Resolution: measure.Micrometres(10), MaxError: measure.Micrometres(20), MaxErrorShape: measure.Uniform,
}

// measured turns readings of one place into a size whose limits say how surely it is known. A normal spread has its limits
// at three standard deviations, and so the interval asked for is the one of that confidence.
func measured(c sample.Caliper, hundredths ...int64) (measure.Dim, error) {
	var readings []measure.Length
	for _, h := range hundredths {
		readings = append(readings, measure.Micrometres(10*h))
	}
	estimate, err := sample.EstimateMean(readings, c)
	if err != nil {
		return measure.Dim{}, err
	}
	return estimate.Dim(sample.ThreeSigma)
}

func main() {
	if err := run(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

func run(w io.Writer) error {
	inside := outside
	inside.Inside = true
	hosel, err1 := measured(outside, 1268, 1270, 1269)
	tipOD, err2 := measured(outside, 940, 940, 939)
	bore, err3 := measured(inside, 935, 935, 934)
	base, err4 := measured(outside, 1309, 1310, 1310)
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return err
	}
	head := fitcalc.Head{
		Category: fitcalc.Iron, Top: fitcalc.TopFlat, HoselOD: hosel,
		Bore: measure.Nominal(measure.Micrometres(9500)), BoreDepth: measure.Nominal(measure.Millimetres(32)),
	}
	tip, shop := fitcalc.ParallelTip(tipOD), fitcalc.DefaultShop()
	ferrule := fitcalc.Ferrule{
		Style: fitcalc.Plain, Material: fitcalc.CelluloseAcetate, Bore: bore, BaseOD: base,
		TopOD: measure.Nominal(measure.Micrometres(10_300)), Length: measure.Nominal(measure.Millimetres(15)),
	}
	fit, err := fitcalc.Evaluate(head, tip, ferrule, shop)
	if err != nil {
		return err
	}
	fmt.Fprintln(w, "verdict:", fit.Verdict)
	for reason := range fit.Reasons() {
		fmt.Fprintln(w, "-", say.English().Reason(reason, fitcalc.Metric))
	}

	// Finished, the base may be anything from the hosel's size to a step larger that neither eye nor fingernail finds.
	h := fit.Flush.HoselOD.Nominal()
	from, to, _ := measure.Closed(h, h.Add(shop.FlushStep)).FormatMillimetres(2)
	fmt.Fprintf(w, "turn the base to %s–%s mm: %s per side to come off\n", from, to,
		fitcalc.Metric.Show(fit.Flush.TurnDown.PerSide().Nominal))
	if err := errors.Join(pressing(w, head, tip, ferrule, shop), bonding(w, head, tip, shop)); err != nil {
		return err
	}
	for _, caution := range say.English().Cautions() {
		fmt.Fprintf(w, "%s: %s\n", caution.Title, caution.Text)
	}
	return nil
}
