package cells

import (
	"fmt"
	"math"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
)

// The remark of a row may state limits of its sizes, by their names: "base plus 0, minus 0.1", "bore not less than 9.25 and not more than 9.35". They go
// before those that a note gives to all rows.

// remarkedTolerance returns the tolerance that the remark of a line gives to a size, with the place of the remark.
func (t *Reader) remarkedTolerance(line int, c *Column, size measure.Length) (value.Tolerance, string, bool) {
	if !t.limitsRemarked(line) {
		return value.Tolerance{}, "", false
	}
	note := t.ByRole[catalog.Note]
	found, place := t.limitsIn, t.Region.Grid.Ref(line, note.Col).String()
	text := found.text
	if found.said != "" {
		for _, limits := range t.limitsSaid(c.Unit) {
			tolerance, of := limits.tolerance, limits.of
			switch {
			case tolerance.Problem.Code != "":
			case len(of.Roles) == 0 && len(of.Classes) == 0 && !of.General:
				t.Tell(layout.ToldKey{What: "limits of what in " + t.LineName(line), Col: note.Col}, finding.Warning, "data.tolerance", line, note.Col, func() string {
					return fmt.Sprintf("the remark %q states a tolerance and not of which size; it is not used", phrase.Brief(text))
				})
			case c.IsFor(of) && (tolerance.Class != "" || t.mayLimit(line, c, text, tolerance)):
				return tolerance, place, true
			}
		}
	}
	if found.least == "" || !c.IsFor(t.Limits(value.Tolerance{Scope: found.scope}, found.scope, false)) {
		return value.Tolerance{}, "", false
	}
	least, most := t.sizeIn(found.least, c.Unit), t.sizeIn(found.most, c.Unit)
	if !least.Given() || !most.Given() {
		return value.Tolerance{}, "", false
	}
	tolerance := value.Tolerance{Lower: least.Nominal().Sub(size), Upper: most.Nominal().Sub(size), Text: text}
	if !t.mayLimit(line, c, text, tolerance) {
		return value.Tolerance{}, "", false
	}
	return tolerance, place, true
}

// limitsRemarked reports whether the remark of a line may state limits, and keeps what it says of them.
func (t *Reader) limitsRemarked(line int) bool {
	note := t.ByRole[catalog.Note]
	if note == nil || !t.Searched(line) {
		return false
	}
	if text := t.Region.Grid.Filled(line, note.Col); t.limitsIn.text != text {
		t.limitsIn = limitsInRemark{text: text}
		if len(text) <= longRemark {
			t.limitsIn.said = t.Lex.InFigures(text)
			t.limitsIn.least, t.limitsIn.most, t.limitsIn.scope = t.Lex.LeastAndMost(text)
		}
		if !layout.Tolerates(t.Lex, t.limitsIn.said) {
			t.limitsIn.said = ""
		}
		if (t.limitsIn.said != "" || t.limitsIn.least != "") && speaksOfChange(t.Lex, text) { // somebody has to read it
			t.limitsIn.said, t.limitsIn.least = "", ""
		}
	}
	return t.limitsIn.said != "" || t.limitsIn.least != ""
}

// longRemark is the length in bytes from which on a remark of a row says more than limits.
const longRemark = 300

// limitsInRemark is what the remark that was read last says of limits: in figures, and the least and the greatest of sizes, with the words before.
type limitsInRemark struct {
	text, said, least, most, scope string
	// all are those in figures once read in a unit: most columns of a row ask in the same one.
	all  []saidLimits
	unit string
	read bool
}

// saidLimits are limits in figures with what they are of.
type saidLimits struct {
	tolerance value.Tolerance
	of        words.Subject
}

// limitsSaid returns the limits that the remark which was read last gives in figures, in a unit.
func (t *Reader) limitsSaid(unit string) []saidLimits {
	found := &t.limitsIn
	if !found.read || found.unit != unit {
		found.all, found.unit, found.read = found.all[:0], unit, true
		all := t.Lex.ReadTolerances(found.said, unit)
		for _, tolerance := range all {
			found.all = append(found.all, saidLimits{tolerance, t.Limits(tolerance, found.said, len(all) == 1)})
		}
	}
	return found.all
}

// sizeIn reads a size, bare in a unit.
func (t *Reader) sizeIn(text, unit string) measure.Dim {
	reading := t.Lex.Read(text, value.Context{Want: value.WantLength, Unit: unit})
	if reading.Kind != value.Length || reading.Problem.Code != "" || reading.Dim.HasLimits() {
		return measure.Dim{}
	}
	return reading.Dim
}

// mayLimit reports whether deviations that a remark gives may be those of a size, and says where they are not.
func (t *Reader) mayLimit(line int, c *Column, text string, tolerance value.Tolerance) bool {
	lower, upper := traits.MM(tolerance.Lower), traits.MM(tolerance.Upper)
	if lower <= upper && c.MayDeviate(math.Abs(lower)) && c.MayDeviate(math.Abs(upper)) && lower <= 0 && upper >= 0 {
		return true
	}
	t.Tell(layout.ToldKey{What: "limits in " + text + t.LineName(line), Col: c.Col}, finding.Warning, "data.tolerance", line, c.Col, func() string {
		return fmt.Sprintf("the remark %q gives %s limits that it is not made to: %s and %s from its size; they are not used", phrase.Brief(text), c.Name(), traits.SayMM(lower), traits.SayMM(upper))
	})
	return false
}
