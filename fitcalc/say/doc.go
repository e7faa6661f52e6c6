// Package say puts into words what package fitcalc computes: verdicts, reasons with their numbers, fields, assumptions and cautions, in
// the reader's language and units. Package fitcalc knows codes and numbers only; whoever writes for people asks this package last, and
// nothing looks at its words again.
//
//	for r := range fit.Reasons() {
//		fmt.Println(say.English().Reason(r, fitcalc.Metric))
//	}
//
// A nil [*Language] is English.
//
// # Files of words
//
// The words stand in one TOML file per language. Another file adds a language, or other words for one of these. A text has blanks in
// braces. Those of a sentence are the numbers of its reason by the names of fitcalc/REASONS.md:
//
//	"grip.short" = "grips over only {grip_length}, and at least {limit} is needed"
//
// A number is written by its kind: a length in the reader's units and without its sign, a share as a percentage. After a point stands what
// else can be made of it: {wall.twice} and {turn_down.side} a length on the diameter and per side, {share.ten} of how many of ten joints,
// {share.others} of how many of ten not, {share.hundred} of how many in a hundred. {field} is the dimension that is missing, {carrier} what
// the ferrule sits on, and {@base} a phrase of the file. What stands in brackets is left out where one of its numbers is not known or says
// nothing: a share of none or of all, a wall that is none.
//
// # Variants
//
// A sentence or phrase has variants for the cases that ask for another wording. Their keys name the cases after the code, in the order
// of [Traits]: grip.split.prep for a joint that asks for work. Of the keys whose cases all apply the one with most of them is taken, and of
// two the one whose cases stand earlier.
package say
