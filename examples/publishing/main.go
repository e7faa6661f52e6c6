// Command publishing prints the fit table that a component seller puts beside a ferrule: for every hosel that a customer may
// measure, what happens. The limits are rounded inward, so that no printed limit lies. The ferrules are invented.
package main

import (
	"fmt"
	"io"
	"os"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// product is a ferrule with the joint its table is printed for.
type product struct {
	name    string
	ferrule fitcalc.Ferrule
	tip     fitcalc.Tip
	head    fitcalc.Head
}

// products are what the seller lists. The head says all but the hosel's size; of its hosel OD only the tolerance counts,
// and ±0.03 mm is how well a customer's calipers can be trusted.
func products() []product {
	head := fitcalc.Head{
		Category: fitcalc.Iron, Top: fitcalc.TopFlat,
		HoselOD: measure.PlusMinus(measure.Millimetres(13), measure.Micrometres(30)),
		Bore:    measure.Nominal(measure.Thou(374)), BoreDepth: measure.Nominal(measure.Millimetres(32)),
	}
	mould := func(base measure.Length) fitcalc.Ferrule {
		return fitcalc.Ferrule{
			Style: fitcalc.Plain, Bore: measure.Nominal(measure.Thou(368)),
			BaseOD: measure.PlusMinus(base, measure.Micrometres(20)), Length: measure.Nominal(measure.Millimetres(15)),
		}
	}
	tip := fitcalc.ParallelTip(measure.PlusMinus(measure.Thou(370), measure.Micrometres(15)))
	return []product{
		{"PV-130", mould(measure.Micrometres(13_000)), tip, head},
		{"PV-138", mould(measure.Micrometres(13_800)), tip, head},
	}
}

func main() {
	if err := run(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "publishing:", err)
		os.Exit(1)
	}
}

func run(w io.Writer) error {
	for _, p := range products() {
		lines, err := table(p)
		if err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
		fmt.Fprintf(w, "%s on a .370 in parallel tip\n", p.name)
		for _, l := range lines {
			fmt.Fprintf(w, "  hosel %-11s mm (%-11s in): %s\n", l.mm, l.inch, l.says)
		}
	}
	fmt.Fprintln(w, "Measure at the very top of the hosel, three times around, and take the middle reading.")
	return nil
}

// line is one line of a table: what a caliper that shows hundredths of a millimetre may read in a window, and one that shows
// thousandths of an inch.
type line struct {
	window         fitcalc.Window
	mm, inch, says string
}

// table returns the lines of a product's table from its windows.
func table(p product) ([]line, error) {
	windows, err := fitcalc.Windows(p.head, p.tip, p.ferrule, fitcalc.DefaultShop())
	if err != nil {
		return nil, err
	}
	var lines []line
	for _, window := range windows {
		lines = append(lines, line{
			window: window,
			mm:     fromTo(window.HoselOD.FormatMillimetres(2)), inch: fromTo(window.HoselOD.FormatInches(3)),
			says: says(p, window),
		})
	}
	return lines, nil
}

// says puts a window in words. The code tells the two windows apart in which nothing fits.
func says(p product, window fitcalc.Window) string {
	switch window.Verdict {
	case fitcalc.Flush:
		return "flush as supplied"
	case fitcalc.Turn:
		base := p.ferrule.BaseOD.Nominal() // what comes off is base OD less hosel OD, on the diameter
		read := window.HoselOD.Inward(measure.Micrometres(10))
		most, _ := base.Sub(read.Lower().At()).FormatMillimetres(2)
		least, _ := base.Sub(read.Upper().At()).FormatMillimetres(2)
		return fmt.Sprintf("turn down %s to %s mm on the diameter", least, most)
	}
	switch some := window.Verdict == fitcalc.Measure; window.Code {
	case fitcalc.FlushTurnLimit:
		if some {
			return "at the limit of what comes off: ask us first"
		}
		return "does not fit: too much would have to come off"
	case fitcalc.FlushUndersize:
		if some {
			return "a small step may show: ask us first"
		}
		return "does not fit: the ferrule is smaller than the hosel"
	}
	return "does not fit"
}

// fromTo writes the limits of a window as the calipers show them.
func fromTo(from, to string, ok bool) string {
	switch {
	case !ok:
		return "none" // the window lies between two steps
	case to == "":
		return "from " + from
	}
	return from + "–" + to
}
