// Command rebuild is what a shop's order system does when a customer sends in a head and a shaft: it decides the joint with
// every ferrule in stock, prices what can be built, and quotes the cheapest. The shop and its stock are invented.
package main

import (
	"cmp"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
)

// The stock as the shop's database gives it. Sizes carry their unit, and a size without limits takes the shop's tolerance.
//
//go:embed stock.json
var stockJSON []byte

// article is a ferrule, whose sizes stand beside part and price; what is null or left out was not given.
type article struct {
	Part  string `json:"part"`
	Pence int    `json:"pence"`
	fitcalc.Ferrule
}

type quote struct {
	article
	fit   fitcalc.Fit
	total int // pence, the ferrule and the labour
}

const pencePerMinute = 85

func main() {
	if err := run(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "rebuild:", err)
		os.Exit(1)
	}
}

func run(w io.Writer) error {
	// What the customer sent, as the clerk typed it. In a Notation a bare number has a unit: the order form says mm.
	form := measure.Notation{Unit: measure.Millimetre}
	hosel, err1 := form.ParseDim("12.55 ±0.03")
	tip, err2 := form.ParseDim(".370 in") // the shaft's label is in inches, and says so
	if err := errors.Join(err1, err2); err != nil {
		return err
	}
	head := fitcalc.Head{
		Category: fitcalc.Iron, Top: fitcalc.TopFlat, HoselOD: hosel, HoselLength: measure.Nominal(measure.Millimetres(12)),
		Bore: measure.Nominal(measure.Thou(374)), BoreDepth: measure.Nominal(measure.Millimetres(32)),
	}
	quotes, err := price(head, fitcalc.ParallelTip(tip), fitcalc.DefaultShop())
	if err != nil {
		return err
	}
	for _, q := range quotes {
		if q.fit.Verdict.Fits() {
			fmt.Fprintf(w, "%s  %-5v  %4.1f min  %s\n", q.Part, q.fit.Verdict, q.fit.Work.Minutes, pounds(q.total))
			continue
		}
		fmt.Fprintf(w, "%s  %-5v  %s\n", q.Part, q.fit.Verdict, say.English().Reason(q.fit.Reason(), fitcalc.Metric))
	}
	best := quotes[0]
	if !best.fit.Verdict.Fits() {
		return errors.New("nothing in stock fits this head")
	}
	fmt.Fprintf(w, "\nUse %s: %s, of which %s for the ferrule.\n", best.Part, pounds(best.total), pounds(best.Pence))
	for reason := range best.fit.Reasons() {
		mark := "-"
		if reason.Level == fitcalc.Remarks && reason.Warns() {
			mark = "- mind:"
		}
		fmt.Fprintln(w, mark, say.English().Reason(reason, fitcalc.Metric))
	}
	for assumption := range best.fit.Assumptions.All() {
		fmt.Fprintln(w, "- assuming that", say.English().Assumption(assumption))
	}
	for _, caution := range say.English().Cautions() {
		fmt.Fprintf(w, "%s: %s\n", caution.Title, caution.Text)
	}
	return nil
}

// price decides the joint with every article and returns all, those that can be built first, the cheapest of them first.
func price(head fitcalc.Head, tip fitcalc.Tip, shop fitcalc.Shop) ([]quote, error) {
	var stock []article
	if err := json.Unmarshal(stockJSON, &stock); err != nil {
		return nil, err
	}
	var quotes []quote
	for _, a := range stock {
		fit, err := fitcalc.Evaluate(head, tip, a.Ferrule, shop)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", a.Part, err)
		}
		labour := int(math.Ceil(fit.Work.Minutes * pencePerMinute))
		quotes = append(quotes, quote{a, fit, a.Pence + labour})
	}
	slices.SortStableFunc(quotes, func(a, b quote) int {
		if a.fit.Verdict.Fits() && b.fit.Verdict.Fits() {
			return cmp.Compare(a.total, b.total)
		}
		return cmp.Compare(a.fit.Verdict, b.fit.Verdict) // verdicts are ordered by what they ask of the bench
	})
	return quotes, nil
}

func pounds(pence int) string { return fmt.Sprintf("£%d.%02d", pence/100, pence%100) }
