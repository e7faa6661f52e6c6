// Command vetting is what a buyer does with the first parcel from a new supplier: measure a dozen ferrules, ask whether what
// the supplier states can be true, and see what the measured size does to the house's heads. All names are invented.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
)

// stated is the base OD in the list of Larkmoor Plastics.
var stated = measure.PlusMinus(measure.Millimetres(13), measure.Micrometres(50))

// readings are one of each of twelve pieces taken at random from the parcel, in hundredths of a millimetre.
var readings = []int64{1293, 1295, 1291, 1294, 1292, 1296, 1293, 1291, 1294, 1293, 1295, 1292}

// house are the hosels that the ferrule is to go on.
var house = []struct {
	name  string
	hosel measure.Dim
}{
	{"HF-3 irons", measure.PlusMinus(measure.Micrometres(12_700), measure.Micrometres(50))},
	{"HF-7 irons", measure.PlusMinus(measure.Micrometres(12_940), measure.Micrometres(30))},
	{"HF-9 wedges", measure.PlusMinus(measure.Micrometres(12_990), measure.Micrometres(20))},
	{"HF-P putter", measure.PlusMinus(measure.Micrometres(13_400), measure.Micrometres(50))},
}

func main() {
	if err := run(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "vetting:", err)
		os.Exit(1)
	}
}

func run(w io.Writer) error {
	var pieces []measure.Length
	for _, hundredths := range readings {
		pieces = append(pieces, measure.Micrometres(10*hundredths))
	}
	// Acetate gives way to the jaws. Here light and firm force read the same, so that JawGive stays nothing; where they do not,
	// half of it is put back by Correct, and by EstimateMean itself.
	caliper := sample.Caliper{
		Resolution: measure.Micrometres(10), MaxError: measure.Micrometres(20), MaxErrorShape: measure.Triangular,
	}
	if err := lot(w, pieces, caliper); err != nil {
		return err
	}
	summary, err := sample.Summarise(caliper.Correct(pieces))
	if err != nil {
		return err
	}
	actual, err := summary.Dim(.95) // the limits of the lot; those of one piece would be an estimate's
	if err != nil {
		return err
	}
	return heads(w, actual)
}

// lot says what the readings tell of the parcel, each statement with its confidence.
func lot(w io.Writer, pieces []measure.Length, caliper sample.Caliper) error {
	estimate, err1 := sample.EstimateMean(pieces, caliper)
	mean, err2 := estimate.Expanded(.95)
	spread, err3 := estimate.Summary.ToleranceInterval(.95, .95)
	instrument, err4 := caliper.Uncertainty()
	comparison, err5 := sample.Compare(stated, caliper.Correct(pieces), sample.Question{Confidence: .95, Allowed: .05, U: instrument.U})
	small, err6 := estimate.Summary.OutsideBound(sample.AtLeast(stated.Lower().Millimetres()), .95)
	if err := errors.Join(err1, err2, err3, err4, err5, err6); err != nil {
		return err
	}
	fmt.Fprintf(w, "Larkmoor LP-130, base OD stated as %v, %d pieces measured\n", stated, len(pieces))
	fmt.Fprintf(w, "mean      %.3f ±%.3f mm (95%% confidence)\n", estimate.Mean, mean)
	fmt.Fprintf(w, "pieces    95%% of the lot lie between %.3f and %.3f mm (95%% confidence, if the lot is normal)\n",
		spread.Lower, spread.Upper)
	fmt.Fprintf(w, "undersize %d of %d read below the stated %v; of the lot it may be as many as %.0f%% (95%% confidence)\n",
		comparison.ReadOutside, len(pieces), stated.Lower(), 100*small)
	fmt.Fprintf(w, "statement %v: %s\n", comparison.Consistency, comparison.Reason)
	for _, warning := range append(estimate.Warnings, comparison.Warnings...) {
		fmt.Fprintln(w, "- mind:", warning)
	}
	return nil
}

// heads decides every head of the house twice, with the base as stated and as measured.
func heads(w io.Writer, actual measure.Dim) error {
	lower, upper, _ := actual.FormatLimitsMillimetres(3)
	fmt.Fprintf(w, "\n%-12s %-8s %s\n", "", "stated", "as measured, "+lower+" to "+upper+" mm")
	for _, h := range house {
		head := fitcalc.Head{
			Top: fitcalc.TopFlat, HoselOD: h.hosel,
			Bore: measure.Nominal(measure.Thou(374)), BoreDepth: measure.Nominal(measure.Millimetres(32)),
		}
		var fits []fitcalc.Fit
		for _, base := range []measure.Dim{stated, actual} {
			ferrule := fitcalc.Ferrule{
				Style: fitcalc.Plain, BaseOD: base,
				Bore: measure.Nominal(measure.Thou(368)), Length: measure.Nominal(measure.Millimetres(15)),
			}
			fit, err := fitcalc.Evaluate(head, fitcalc.ParallelTip(measure.Nominal(measure.Thou(370))), ferrule, fitcalc.DefaultShop())
			if err != nil {
				return fmt.Errorf("%s: %w", h.name, err)
			}
			fits = append(fits, fit)
		}
		fmt.Fprintf(w, "%-12s %-8v %-6v%.0f%% of joints visibly undersize, %.0f%% to be turned\n", h.name, fits[0].Verdict, fits[1].Verdict,
			100*fits[1].Flush.VisibleUndersize, 100*fits[1].Flush.VisibleOversize)
	}
	return nil
}
