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
			mm, inch := l.mm.text(measure.Length.FormatMillimetres, 2), l.inch.text(measure.Length.FormatInches, 3)
			fmt.Fprintf(w, "  hosel %-11s mm (%-11s in): %s\n", mm, inch, l.says)
		}
	}
	fmt.Fprintln(w, "Measure at the very top of the hosel, three times around, and take the middle reading.")
	return nil
}

// line is one line of a table: the same window in steps of a caliper that shows mm and of one that shows inches.
type line struct {
	mm, inch steps
	verdict  fitcalc.Verdict
	says     string
}

// table returns the lines of a product's table from its windows.
func table(p product) ([]line, error) {
	windows, err := fitcalc.Windows(p.head, p.tip, p.ferrule, fitcalc.DefaultShop())
	if err != nil {
		return nil, err
	}
	var lines []line
	for _, window := range windows {
		l := line{
			mm: inward(window.HoselOD, measure.Micrometres(10)), inch: inward(window.HoselOD, measure.Thou(1)),
			verdict: window.Verdict, says: window.Verdict.String(),
		}
		switch window.Verdict {
		case fitcalc.Flush:
			l.says = "flush as supplied"
		case fitcalc.Turn:
			base := p.ferrule.BaseOD.Nominal() // what comes off is base OD less hosel OD, on the diameter
			most, _ := base.Sub(l.mm.from).FormatMillimetres(2)
			least, _ := base.Sub(l.mm.to).FormatMillimetres(2)
			l.says = fmt.Sprintf("turn down %s to %s mm on the diameter", least, most)
		case fitcalc.No:
			l.says = "does not fit"
		}
		lines = append(lines, l)
	}
	return lines, nil
}

// steps are the first and the last step of a caliper's display within a window; noTo where that goes on for ever.
type steps struct {
	from, to measure.Length
	noTo     bool
}

// inward rounds a window inward to whole steps: a limit that does not belong to it goes one step further in.
func inward(i measure.Interval, step measure.Length) steps {
	s := steps{noTo: !i.Upper().Bounded()}
	if s.from = i.Lower().At().RoundTo(step, measure.Up); !i.Contains(s.from) {
		s.from = s.from.Add(step)
	}
	if s.to = i.Upper().At().RoundTo(step, measure.Down); !s.noTo && !i.Contains(s.to) {
		s.to = s.to.Sub(step)
	}
	return s
}

func (s steps) text(format func(measure.Length, int) (string, bool), decimals int) string {
	from, _ := format(s.from, decimals)
	to, _ := format(s.to, decimals)
	switch {
	case s.noTo:
		return "from " + from
	case s.to.Less(s.from):
		return "none" // the window lies between two steps
	}
	return from + "–" + to
}
