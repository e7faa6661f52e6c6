package explain

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
)

// advice is what to do, in sentences: first what to look at again, then what the verdict asks for.
func advice(s *Subject, e *Explanation) []string {
	return append(doubts(e), byVerdict(s, e)...)
}

// doubts asks about sizes that no golf club has.
func doubts(e *Explanation) []string {
	var text []string
	u := e.Units
	for _, d := range e.Doubts {
		line := fmt.Sprintf("Look at the %s again: no golf club has one of %s", e.Language.Field(d.Field), e.Language.Length(d.Size, u))
		if d.Likely.Sign() > 0 {
			line += "; " + e.Language.Length(d.Likely, u) + " would be usual, so that a decimal point or a unit may have slipped"
		}
		text = append(text, line+".")
	}
	return text
}

// byVerdict is what the verdict asks for: only what a bench can do, in sizes that calipers show.
func byVerdict(s *Subject, e *Explanation) []string {
	u, fit := s.Units.OnCalipers(), &e.Fit
	switch fit.Verdict {
	case fitcalc.Flush:
		return []string{"Push it on and bond the head; " + nothingToTurn(fit)}
	case fitcalc.Turn:
		return []string{turnAdvice(s, fit)}
	case fitcalc.Prep:
		return steps("First do this, then push it on and bond the head:", fitcalc.Prepares, s, fit)
	case fitcalc.Measure:
		return measureAdvice(s, fit)
	case fitcalc.Ask:
		return askAdvice(s, fit)
	case fitcalc.Bare:
		return []string{"Leave the ferrule off this head."}
	}
	text := instead(fit.Reason().Code)
	if c, found := helps(e.Changes); found {
		text += fmt.Sprintf(" The nearest way out is a %s %s by %s: the answer is then %s.", s.Language.Field(c.Field), larger(c), s.Language.Length(c.Shift.Abs(), u), s.Language.Verdict(c.To))
	}
	return []string{text}
}

func nothingToTurn(fit *fitcalc.Fit) string {
	if r := fit.Reason(); r.Code == fitcalc.FlushAsSupplied && r.Share > 0 {
		return fmt.Sprintf("about %.0f in 100 will need a touch of turning or a better match.", 100*r.Share)
	}
	return "nothing has to be turned."
}

// instead names what has to be another one: the part that the deciding reason is about.
func instead(c fitcalc.Code) string {
	switch c {
	case fitcalc.BoreTight, fitcalc.BoreLoose:
		return "Take another tip, or another head: this tip does not suit this bore, whatever the ferrule."
	case fitcalc.BoreShallow:
		return "Take another head: this bore holds too little of a tip, whatever the ferrule."
	case fitcalc.GripOverTip:
		return "Take another ferrule, or another tip: this one does not pass over the wide place."
	}
	return "Take another ferrule."
}

// helps returns the smallest change after which the joint can be built and that somebody can make.
func helps(changes []fitcalc.Change) (fitcalc.Change, bool) {
	for _, c := range changes {
		if c.To.Fits() && possible(c) {
			return c, true
		}
	}
	return fitcalc.Change{}, false
}

// possible reports whether a change can be made: another ferrule can have any size, metal can be taken off a head and not put on, and
// the hosel's OD and the shaft are what they are.
func possible(c fitcalc.Change) bool {
	switch c.Field {
	case fitcalc.FieldFerruleBore, fitcalc.FieldBaseOD, fitcalc.FieldTopOD, fitcalc.FieldLength, fitcalc.FieldCollarOD,
		fitcalc.FieldCollarLength, fitcalc.FieldStepOD, fitcalc.FieldStepLength, fitcalc.FieldRingDepth, fitcalc.FieldRingHeight:
		return true
	case fitcalc.FieldHeadBore, fitcalc.FieldCountersinkMouth, fitcalc.FieldCountersinkDepth, fitcalc.FieldCounterbore,
		fitcalc.FieldCounterboreDepth:
		return c.Shift.Sign() > 0
	}
	return false
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
	u, f, what := s.Units.OnCalipers(), &fit.Flush, sitsOn(s)
	if f.TurnDown.Nominal.IsZero() {
		return fmt.Sprintf("Push it on and bond the head; %s of such joints need turning, by at most %s on the diameter.",
			percent(f.VisibleOversize), s.Language.Length(f.TurnDown.Most, u))
	}
	return fmt.Sprintf("Push it on, bond the head, and turn the base down from %s to the %s's %s: %s off the diameter, %s per side. %s from %s to %s may have to come off.",
		s.Language.Length(f.BaseOD.Nominal(), u), what, s.Language.Length(f.HoselOD.Nominal(), u), s.Language.Length(f.TurnDown.Nominal, u), s.Language.Length(f.TurnDown.Nominal.Half(), u),
		beforeTurning(f, what), s.Language.Length(f.TurnDown.Least, u), s.Language.Length(f.TurnDown.Most, u))
}

// beforeTurning says what is to be measured before anything is turned, or what was.
func beforeTurning(f *fitcalc.FlushFit, what string) string {
	switch {
	case !measured(f.HoselOD):
		return "Measure this " + what + " first, since " + what + "s vary:"
	case measured(f.BaseOD):
		return "By the readings of both"
	}
	return "By the readings of the " + what + ", and as ferrules vary,"
}

func measured(d measure.Dim) bool { return d.Origin() == measure.Measured }

// sitsOn names what the ferrule meets.
func sitsOn(s *Subject) string {
	if s.Joint.Head.Adapter.Given() {
		return "adapter"
	}
	return "hosel"
}

// steps are what the reasons of a level ask for, and what is to be turned.
func steps(first string, level fitcalc.Level, s *Subject, fit *fitcalc.Fit) []string {
	text := []string{first}
	for r := range fit.Reasons() {
		if r.Level == level {
			text = append(text, "• "+s.Language.Reason(r, s.Units.OnCalipers()))
		}
	}
	if fit.Flush.Known && fit.Flush.VisibleOversize > s.Shop.Shop.TurnShare {
		text = append(text, "• "+turnAdvice(s, fit))
	}
	return text
}

// measureAdvice is to measure, then what else is to be done to the pieces that suit.
func measureAdvice(s *Subject, fit *fitcalc.Fit) []string {
	first := "Measure these pieces before you choose;"
	if byReadings(fit) {
		first = "Choose piece by piece;"
	}
	text := steps(first+" on those that suit, push it on and bond the head:", fitcalc.Measures, s, fit)
	for r := range fit.Reasons() {
		if r.Level == fitcalc.Prepares {
			text = append(text, "• "+s.Language.Reason(r, s.Units.OnCalipers()))
		}
	}
	return text
}

// byReadings reports whether whatever has to be measured before choosing was.
func byReadings(fit *fitcalc.Fit) bool {
	for r := range fit.Reasons() {
		if r.Level == fitcalc.Measures && !r.Measured {
			return false
		}
	}
	return true
}

func askAdvice(s *Subject, fit *fitcalc.Fit) []string {
	var missing []string
	for r := range fit.Reasons() {
		if r.Code == fitcalc.DataMissing {
			missing = append(missing, s.Language.Field(r.Field))
		}
	}
	return []string{"Measure, or ask the supplier for: " + strings.Join(missing, ", ") + "."}
}

// WindowsText puts the windows in sentences, ends rounded inward so that what lies within the printed ends lies within
// the true ones.
func WindowsText(windows []fitcalc.Window, l *say.Language, u fitcalc.Units) []string {
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
			text = "hosels up to " + l.Length(to, u)
		case i == 0:
			text = "hosels under " + l.Length(to, u)
		case !upper.Bounded():
			text = "hosels from " + l.Length(from, u)
		case to.Less(from):
			text = "hosels between " + l.Length(to, u) + " and " + l.Length(from, u)
		case to == from:
			text = "hosels of " + l.Length(from, u)
		default:
			text = "hosels from " + l.Length(from, u) + " to " + under + l.Length(to, u)
		}
		lines = append(lines, fmt.Sprintf("%-7s %s", l.Verdict(w.Verdict), text))
	}
	return lines
}

// inward rounds to a step that is visible in neither unit.
func inward(l measure.Length, mode measure.Rounding) measure.Length {
	return l.RoundTo(measure.Micrometres(1), mode)
}

// ChangesText puts the changes in sentences.
func ChangesText(changes []fitcalc.Change, l *say.Language, u fitcalc.Units) []string {
	var lines []string
	for _, c := range changes {
		lines = append(lines, fmt.Sprintf("%s %s %s: %s", l.Field(c.Field), l.Length(c.Shift.Abs(), u), larger(c), l.Verdict(c.To)))
	}
	return lines
}
