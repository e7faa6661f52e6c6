package explain

import (
	"fmt"
	"io"
	"strings"

	"example.com/seatline/fitcalc"
)

// mostLines is how many lines a short answer has, so that none of it scrolls away.
const (
	mostLines = 9
	mostTail  = 5 // of them for what is uncertain or was taken
)

// WriteShort writes the answer alone, in at most nine lines: the verdict, what to turn to and what to do first, what is uncertain, and what
// was taken for granted in reading the sizes. The error is the writer's.
func WriteShort(w io.Writer, e *Explanation, took []string) error {
	var tail []string
	for _, line := range [...]string{e.uncertain(), taken(took)} {
		if line != "" {
			tail = append(tail, wrap(line, usualWidth)...)
		}
	}
	if len(tail) > mostTail {
		tail = append(tail[:mostTail-1], "… and more: --how")
	}
	head := []string{fmt.Sprintf("%s: %s", strings.ToUpper(e.Language.Verdict(e.Fit.Verdict)), e.Meaning)}
	var do []string
	for _, sentence := range e.Do {
		for _, line := range wrap(sentence, usualWidth-2) {
			do = append(do, "  "+line)
		}
	}
	if room := mostLines - len(head) - len(tail); len(do) > room {
		do = append(do[:max(room-1, 1)], "  … and more: --how")
	}
	for _, line := range append(append(head, do...), tail...) {
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
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
		if in.Kind == Assumption {
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
