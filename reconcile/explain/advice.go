package explain

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// advice is what to do, in sentences.
func advice(s *Subject, e *Explanation) []string {
	u, fit := s.Units, &e.Fit
	switch fit.Verdict {
	case fitcalc.Flush:
		return []string{"Push it on and bond the head; nothing has to be turned."}
	case fitcalc.Turn:
		return []string{turnAdvice(s, fit)}
	case fitcalc.Prep:
		return prepAdvice(s, fit)
	case fitcalc.Ask:
		return askAdvice(fit)
	case fitcalc.Bare:
		return []string{"Leave the ferrule off this head."}
	}
	text := "Take another ferrule."
	if c, found := helps(e.Changes); found {
		text += fmt.Sprintf(" The nearest way out is a %s %s by %s: the verdict is then %s.", c.Field, larger(c), u.Show(c.Shift.Abs()), c.To)
	}
	return []string{text}
}

// helps returns the smallest change after which the joint can be built.
func helps(changes []fitcalc.Change) (fitcalc.Change, bool) {
	for _, c := range changes {
		if c.To.Fits() {
			return c, true
		}
	}
	return fitcalc.Change{}, false
}

func larger(c fitcalc.Change) string {
	word := [2]string{"smaller", "larger"}
	switch c.Field {
	case fitcalc.FieldBoreDepth, fitcalc.FieldCountersinkDepth, fitcalc.FieldCounterboreDepth, fitcalc.FieldAdapterBoreDepth, fitcalc.FieldRingDepth:
		word = [2]string{"shallower", "deeper"}
	case fitcalc.FieldLength, fitcalc.FieldCollarLength, fitcalc.FieldStepLength:
		word = [2]string{"shorter", "longer"}
	}
	if c.Shift.Sign() < 0 {
		return word[0]
	}
	return word[1]
}

func turnAdvice(s *Subject, fit *fitcalc.Fit) string {
	u, f := s.Units, &fit.Flush
	if f.TurnDown.Nominal.IsZero() {
		return fmt.Sprintf("Push it on and bond the head; %s of such joints need turning, by at most %s on the diameter.",
			percent(f.VisibleOversize), u.Show(f.TurnDown.Most))
	}
	return fmt.Sprintf("Push it on, bond the head, and turn the base down from %s to the hosel's %s: %s off the diameter, %s per side. "+
		"Measure this hosel first, since hosels vary: from %s to %s may have to come off.",
		u.Show(s.Joint.Ferrule.BaseOD.Nominal()), u.Show(f.HoselOD.Nominal()), u.Show(f.TurnDown.Nominal), u.Show(f.TurnDown.Nominal.Half()),
		u.Show(f.TurnDown.Least), u.Show(f.TurnDown.Most))
}

func prepAdvice(s *Subject, fit *fitcalc.Fit) []string {
	text := []string{"First do this, then push it on and bond the head:"}
	for r := range fit.Reasons() {
		if r.Level == fitcalc.Prepares {
			text = append(text, "• "+r.Sentence(s.Units))
		}
	}
	if fit.Flush.Known && fit.Flush.VisibleOversize > s.Shop.Shop.UndersizeRisk {
		text = append(text, "• "+turnAdvice(s, fit))
	}
	return text
}

func askAdvice(fit *fitcalc.Fit) []string {
	var missing []string
	for r := range fit.Reasons() {
		if r.Code == fitcalc.DataMissing {
			missing = append(missing, r.Field.String())
		}
	}
	return []string{"Measure, or ask the supplier for: " + strings.Join(missing, ", ") + "."}
}

// WindowsText puts the windows in sentences, ends rounded inward so that what lies within the printed ends lies within
// the true ones.
func WindowsText(windows []fitcalc.Window, u fitcalc.Units) []string {
	var lines []string
	for i, w := range windows {
		lower, upper := w.HoselOD.Lower(), w.HoselOD.Upper()
		from, to := inward(lower.At(), measure.Up), inward(upper.At(), measure.Down)
		under := ""
		if to == upper.At() && !upper.Closed() {
			under = "under "
		}
		var text string
		switch {
		case i == 0 && !upper.Bounded():
			text = "any hosel"
		case i == 0 && under == "":
			text = "hosels up to " + u.Show(to)
		case i == 0:
			text = "hosels under " + u.Show(to)
		case !upper.Bounded():
			text = "hosels from " + u.Show(from)
		case to.Less(from):
			text = "hosels between " + u.Show(to) + " and " + u.Show(from)
		case to == from:
			text = "hosels of " + u.Show(from)
		default:
			text = "hosels from " + u.Show(from) + " to " + under + u.Show(to)
		}
		lines = append(lines, fmt.Sprintf("%-6s %s", w.Verdict, text))
	}
	return lines
}

// inward rounds to a step that is visible in neither unit.
func inward(l measure.Length, mode measure.Rounding) measure.Length {
	return l.RoundTo(measure.Micrometres(1), mode)
}

// ChangesText puts the changes in sentences.
func ChangesText(changes []fitcalc.Change, u fitcalc.Units) []string {
	var lines []string
	for _, c := range changes {
		lines = append(lines, fmt.Sprintf("%s %s %s: %s", c.Field, u.Show(c.Shift.Abs()), larger(c), c.To))
	}
	return lines
}
