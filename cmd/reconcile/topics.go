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
		{Use: "verdicts", Short: "what each answer means, and the other words", Long: verdictsHelp()},
		{Use: "notations", Short: "how sizes, tips and tolerances are written", Long: notationsHelp},
		{Use: "settings", Short: "a shop's own limits, with what they are and why", Long: settingsHelp()},
	}
}

// explained is a word of the program with what it means.
type explained struct{ word, meaning string }

// glossary says what the words of the answers and of the accounts of sheets mean. The README has the same.
func glossary() (answers, rows, sizes []explained) {
	for _, v := range fitcalc.Verdicts() {
		meaning := say.English().Meaning(v)
		if word := say.English().Verdict(v); word != v.String() {
			meaning += fmt.Sprintf(" (`%s` in CSV and JSON)", v)
		}
		answers = append(answers, explained{say.English().Verdict(v), meaning})
	}
	rows = []explained{
		{"used", "read as it stands"},
		{"used with assumptions", "something had to be taken for granted, and the findings say what"},
		{"held", "a size that is needed is missing or doubtful: it is asked, and only the answers that hang on it wait"},
		{"set aside", "no part: a title, a total, a note"},
	}
	sizes = []explained{
		{"hosel OD", "outside diameter at the very top of the hosel"},
		{"base OD", "outside diameter of the ferrule at its base, as supplied"},
		{"off the diameter", "what is turned off the base, on the diameter; per side is half of it"},
		{"oversize", "by how much the base is larger than the hosel, on the diameter; undersize if smaller"},
		{"interference", "by how much the shaft is larger than the ferrule's bore, on the diameter: what holds the ferrule"},
		{"ledge, step", "what a fingernail finds where base and hosel are not the same size; `flush_step` is the most that passes"},
		{"tip", "the end of the shaft that goes into the head: parallel or taper"},
		{"collar, step", "what a ferrule has below its base, to go into a countersink or a counterbore"},
		{"out of range", "the base is too small, or more would come off than the shop turns: such pairs are counted and not listed"},
	}
	return answers, rows, sizes
}

func verdictsHelp() string {
	answers, rows, sizes := glossary()
	var b strings.Builder
	list := func(title string, terms []explained) {
		width := 0
		for _, t := range terms {
			width = max(width, len(t.word))
		}
		fmt.Fprintf(&b, "%s\n\n", title)
		for _, t := range terms {
			fmt.Fprintf(&b, "  %-*s  %s\n", width, t.word, strings.ReplaceAll(t.meaning, "`", ""))
		}
		b.WriteByte('\n')
	}
	list("The answers, and what each means:", answers)
	list("The rows of a sheet are:", rows)
	list("And of the joint:", sizes)
	b.WriteString("Differences are on the diameter unless the number says per side.\n")
	return b.String()
}

const notationsHelp = `A size is a number with its unit: 13.6 mm, .535 in, .535", 17/32 in, 1-1/32 in, 535 thou. A comma may stand for the point.

Limits:      13.6 ±0.05 mm      13.60 +0.00/-0.10 mm      13.5~13.7 mm      12 h9 (ISO 286-1)
Readings:    "13.58, 13.62, 13.60 mm"      two slashes between sizes are limits, commas are readings
Tips:        .370 in parallel      .355 in taper      .335 in parallel
Angles:      60 deg, 60°

Without a tolerance the shop's own is taken, and the answer says so.
Flags of joint take numbers without a unit: inches below 2, millimetres above 5, and a small feature, such as the length of a
collar, in the unit in which there are such; in doubt --units decides, and the answer says what was taken. In sheets more is
understood. In JSON and in shop.toml a size has its unit.`

func settingsHelp() string {
	var b strings.Builder
	b.WriteString("Limits that a shop works to. Write those that are to be otherwise into a file, such as shop.toml:\n\n" +
		"  turn_limit = \"1.0 mm\"\n\nand give it as --shop shop.toml. Each setting, with what holds where nothing is said, and why:\n\n")
	for _, s := range fitcalc.Settings() {
		fmt.Fprintf(&b, "  %s = %q\n      %s (%s)\n", s.Key, s.Default, s.Why, s.Source)
	}
	return b.String()
}
