// Command stranger uses seatline as any other module does: it reads two suppliers' sheets, decides every head, and prints
// the best ferrule for each. Its names are invented.
package main

import (
	"embed"
	"fmt"
	"io"
	"os"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/limits"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
)

//go:embed sheets
var sheets embed.FS

func main() {
	if err := run(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "stranger:", err)
		os.Exit(1)
	}
}

func run(w io.Writer) error {
	// The library alone: one joint, with the limits of a tolerance class of ISO 286-1.
	base, err := limits.ParseDim("13.2 mm h9")
	if err != nil {
		return err
	}
	shop := fitcalc.DefaultShop()
	shop.TurnLimit = measure.Micrometres(800)
	fit, err := fitcalc.Evaluate(
		fitcalc.Head{Top: fitcalc.TopFlat, HoselOD: measure.Nominal(measure.Micrometres(12_700))},
		fitcalc.ParallelTip(measure.Nominal(measure.Thou(370))),
		fitcalc.Ferrule{Style: fitcalc.Plain, Bore: measure.Nominal(measure.Thou(368)), BaseOD: base}, shop)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "%v on a hosel of %v: %v\n\n", base, fit.Flush.HoselOD, fit.Verdict)

	// Sheets as they come: what they mean is found out, and what is doubtful is a finding.
	sources, err := sources("sheets/dunmarrow_heads.csv", "sheets/pellworth_trim.csv")
	if err != nil {
		return err
	}
	catalogue, err := reconcile.Read(sources, reader.Options{}, nil)
	if err != nil {
		return err
	}
	result := reconcile.Decide(catalogue, shop)
	for i, head := range catalogue.Heads {
		if best, fits := result.Best(i); fits {
			fmt.Fprintf(w, "%-6s %-9v %s on a tip of %s: %s\n", head.Part, result.Standing(i), catalogue.Ferrules[best.Ferrule].Part,
				result.Tips[best.Tip].Name, say.English().Reason(result.Fit(best).Reason(), fitcalc.Metric))
			continue
		}
		why := "every ferrule is far out of range"
		if pairs := result.InReach(i); len(pairs) > 0 {
			why = say.English().Reason(result.Fit(pairs[0]).Reason(), fitcalc.Metric) // of all ferrules the one that comes nearest
		}
		fmt.Fprintf(w, "%-6s %-9v %s\n", head.Part, result.Standing(i), why)
	}
	fmt.Fprintln(w)
	for _, f := range catalogue.Findings {
		if f.Severity >= finding.Warning {
			fmt.Fprintf(w, "%v: %v: %s\n", f.Place, f.Severity, f.Message)
		}
	}
	return nil
}

func sources(names ...string) ([]reconcile.Source, error) {
	var all []reconcile.Source
	for _, name := range names {
		data, err := sheets.ReadFile(name)
		if err != nil {
			return nil, err
		}
		all = append(all, reconcile.Source{Name: name, Data: data})
	}
	return all, nil
}
