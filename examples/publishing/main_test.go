package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

func Example() {
	if err := run(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// PV-130 on a .370 in parallel tip
	//   hosel 9.50–11.96  mm (0.375–0.471 in): does not fit: too much would have to come off
	//   hosel 11.97–11.98 mm (none        in): at the limit of what comes off: ask us first
	//   hosel 11.99–12.96 mm (0.472–0.510 in): turn down 0.04 to 1.01 mm on the diameter
	//   hosel 12.97–13.03 mm (0.511–0.513 in): flush as supplied
	//   hosel 13.04–13.05 mm (none        in): a small step may show: ask us first
	//   hosel from 13.06  mm (from 0.514  in): does not fit: the ferrule is smaller than the hosel
	// PV-138 on a .370 in parallel tip
	//   hosel 9.50–12.76  mm (0.375–0.502 in): does not fit: too much would have to come off
	//   hosel 12.77–12.78 mm (0.503–0.503 in): at the limit of what comes off: ask us first
	//   hosel 12.79–13.76 mm (0.504–0.541 in): turn down 0.04 to 1.01 mm on the diameter
	//   hosel 13.77–13.83 mm (0.542–0.544 in): flush as supplied
	//   hosel 13.84–13.85 mm (0.545–0.545 in): a small step may show: ask us first
	//   hosel from 13.86  mm (from 0.546  in): does not fit: the ferrule is smaller than the hosel
	// Measure at the very top of the hosel, three times around, and take the middle reading.
}

// No printed limit lies: a hosel of that very size has the verdict of the line, and each reading of the calipers is on
// exactly one line.
func TestPrintedLimits(t *testing.T) {
	for _, p := range products() {
		lines, err := table(p)
		if err != nil {
			t.Fatal(err)
		}
		if len(lines) < 3 {
			t.Fatalf("%s has %d lines", p.name, len(lines))
		}
		for i, l := range lines {
			for _, caliper := range []struct {
				step        measure.Length
				unit        string
				text, after string
			}{
				{measure.Micrometres(10), " mm", l.mm, lines[min(i+1, len(lines)-1)].mm},
				{measure.Thou(1), " in", l.inch, lines[min(i+1, len(lines)-1)].inch},
			} {
				if caliper.text == "none" || caliper.after == "none" {
					continue // the window is narrower than a step of these calipers
				}
				from, to, bounded := strings.Cut(strings.TrimPrefix(caliper.text, "from "), "–")
				if last := i == len(lines)-1; last == bounded {
					t.Errorf("%s: line %d goes on for ever, or the last does not", p.name, i+1)
				}
				ends := []measure.Length{read(t, from+caliper.unit)}
				if bounded {
					ends = append(ends, read(t, to+caliper.unit))
					after, _, _ := strings.Cut(strings.TrimPrefix(caliper.after, "from "), "–")
					if next := ends[1].Add(caliper.step); next != read(t, after+caliper.unit) {
						t.Errorf("%s: after %s%s comes %s", p.name, to, caliper.unit, after)
					}
				}
				for _, end := range ends {
					head := p.head
					head.HoselOD = measure.PlusMinus(end, measure.Micrometres(30))
					fit, err := fitcalc.Evaluate(head, p.tip, p.ferrule, fitcalc.DefaultShop())
					if err != nil {
						t.Fatal(err)
					}
					if fit.Verdict != l.window.Verdict || fit.Reason().Code != l.window.Code {
						t.Errorf("%s: a hosel of %v is %v for %v, and stands on the line of %v for %v",
							p.name, end, fit.Verdict, fit.Reason().Code, l.window.Verdict, l.window.Code)
					}
				}
			}
		}
	}
}

// read reads a printed limit.
func read(t *testing.T, text string) measure.Length {
	t.Helper()
	l, err := measure.ParseLength(text)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// The windows of PV-130 by hand. Oversize S is spread by σ = √(0.02² + 0.03²)/3 = 0.01202 mm; of a normal spread 16 % lie
// beyond .9945σ = 0.01195 mm. With the step of .002 in = 0.0508 mm it is flush up to S = 0.0389, and down to where calipers do not
// tell it from the step, -0.0508 + 0.0178 (.0007 in) = -0.0330: a hosel of 12.9611 to 13.0330 mm. Down to S = -0.0508 a step may show.
// Turned is up to 1.016 mm (.040 in), from a hosel of 11.9840 mm on, and 0.0178 mm more is at the limit: from 11.9662 mm on.
func TestWindowsByHand(t *testing.T) {
	lines, err := table(products()[0])
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"9.50–11.96", "11.97–11.98", "11.99–12.96", "12.97–13.03", "13.04–13.05", "from 13.06"} {
		if got := lines[i].mm; got != want {
			t.Errorf("line %d: %s, want %s", i+1, got, want)
		}
	}
}
