package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
)

// helpTopics are what help says about more than one command.
func helpTopics() []*cobra.Command {
	return []*cobra.Command{
		{Use: "verdicts", Short: "what each answer means, and what the reasons are called", Long: verdictsHelp()},
		{Use: "notations", Short: "how sizes, tips and tolerances are written", Long: notationsHelp},
		{Use: "settings", Short: "a shop's own limits, with what they are and why", Long: settingsHelp()},
	}
}

func verdictsHelp() string {
	var b strings.Builder
	english := say.English()
	b.WriteString("The answers, and what each means:\n\n")
	for _, v := range fitcalc.Verdicts() {
		fmt.Fprintf(&b, "  %-8s  %s\n", v, english.Meaning(v))
	}
	b.WriteString(`
Rows of a sheet are used, used with assumptions (something had to be taken for granted, and the findings say what), held
(something has to be settled first, and nothing is guessed) or set aside (titles, totals, notes). A pair that is out of
range is not listed: its base is too small, or more would come off than the shop turns.

Differences are on the diameter unless the number says per side.
`)
	return b.String()
}

const notationsHelp = `A size is a number with its unit: 13.6 mm, .535 in, .535", 17/32 in, 1-1/32 in, 535 thou. A comma may stand for the point.

Limits:      13.6 ±0.05 mm      13.60 +0.00/-0.10 mm      13.5~13.7 mm      12 h9 (ISO 286-1)
Readings:    "13.58, 13.62, 13.60 mm"      two slashes between sizes are limits, commas are readings
Tips:        .370 in parallel      .355 in taper      .335 in parallel
Angles:      60 deg, 60°

Without a tolerance the shop's own is taken, and the answer says so.
In sheets, and where a person types at the bench, more is understood; in flags and JSON the unit is never guessed.`

func settingsHelp() string {
	var b strings.Builder
	b.WriteString("Limits that a shop works to. Write those that are to be otherwise into a file, such as shop.toml:\n\n" +
		"  turn_limit = \"1.0 mm\"\n\nand give it as --shop shop.toml. Each setting, with what holds where nothing is said, and why:\n\n")
	for _, s := range fitcalc.Settings() {
		fmt.Fprintf(&b, "  %s = %q\n      %s (%s)\n", s.Key, s.Default, s.Why, s.Source)
	}
	return b.String()
}
