package explain

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
)

// mostLines is how many lines a short answer has, so that none of it scrolls away.
const (
	mostLines = 9
	mostTail  = 5 // of them for what is uncertain or was taken
	mostSizes = 4 // besides, for the cells of the sizes
)

// WriteShort writes the answer alone, in at most nine lines: the verdict, what to turn to and what to do first, what is uncertain, and what
// was taken for granted in reading the sizes. A title goes before, and sizes of sheets follow with their cells in at most four lines more.
// The error is the writer's.
func WriteShort(w io.Writer, e *Explanation, took []string) error {
	var tail []string
	for _, line := range [...]string{e.uncertain(), taken(took)} {
		if line != "" {
			tail = append(tail, wrap(line, usualWidth)...)
		}
	}
	tail = atMost(mostTail, tail, "… and more: --how")
	head := []string{fmt.Sprintf("%s: %s", strings.ToUpper(e.Language.Verdict(e.Fit.Verdict)), e.Meaning)}
	var do []string
	for _, sentence := range e.Do {
		for _, line := range wrap(sentence, usualWidth-2) {
			do = append(do, "  "+line)
		}
	}
	do = atMost(max(mostLines-len(head)-len(tail), 2), do, "  … and more: --how")
	if e.Title != "" {
		head = append([]string{e.Title}, head...)
	}
	if sizes := e.sizes(); sizes != "" {
		tail = append(tail, atMost(mostSizes, wrap(sizes, usualWidth), "… and more: --how")...)
	}
	for _, line := range slices.Concat(head, do, tail) {
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}

// atMost keeps so many lines; the last of them says where there are more.
func atMost(n int, lines []string, more string) []string {
	if len(lines) <= n {
		return lines
	}
	return append(lines[:n-1], more)
}

// sizes says from which cells the sizes are, nothing where they are of no sheet.
func (e *Explanation) sizes() string {
	var sizes []string
	for _, in := range e.Inputs {
		if in.Size {
			sizes = append(sizes, fmt.Sprintf("%s %s, %s", in.Name, in.Value, in.Place))
		}
	}
	if len(sizes) == 0 {
		return ""
	}
	return "Rests on: " + strings.Join(sizes, " · ") + "."
}

func taken(took []string) string {
	if len(took) == 0 {
		return ""
	}
	return "Read as: " + strings.Join(took, ", ") + "."
}

// uncertain says what the answer rests on that nobody has said, and what would change it first.
func (e *Explanation) uncertain() string {
	var assumed []string
	for _, in := range e.Inputs {
		switch {
		case in.Kind != Assumption:
		case in.Place != "": // taken in reading a sheet, not by the engine
			assumed = append(assumed, in.Name+" "+in.Value)
		default:
			assumed = append(assumed, e.Language.Assumed(in.Name))
		}
	}
	text := ""
	if len(e.Changes) > 0 && e.Fit.Verdict != fitcalc.Ask {
		c := e.Changes[0]
		text = fmt.Sprintf("Uncertain: with the %s %s %s the answer would be %s. ", e.Language.Field(c.Field), e.Language.Length(c.Shift.Abs(), e.Units), larger(c), e.Language.Verdict(c.To))
	}
	if len(assumed) > 0 {
		text += "Taken for granted: " + strings.Join(assumed, " · ") + "."
	}
	return text
}
