package catalog

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// A column of bores is one of tips where at least leastNames in a hundred of its cells are names of standard tips, and none is what a
// ferrule made for one measures: smaller than it by up to underTip. Common practice is that ferrules are made .002 in under.

var underTip = measure.Thou(6)

// settleBores decides what the bores of a table of ferrules are, and what is listed in their place.
func (t *unitTable) settleBores() {
	if t.kind != Ferrules {
		return
	}
	said := cmp.Or(t.rules.FerruleBores, t.houseBores)
	bore, tip := t.byRole[Bore], t.byRole[TipTaken]
	switch {
	case bore != nil && bore.profile.filled > 0 && bore.held == "":
		t.settleBoreColumn(bore, said)
	case tip != nil && tip.profile.filled > 0 && said == BoresAreBores:
		t.bores, tip.evidence = BoresAreBores, tip.evidence+"; taken as the true bores"
	case tip != nil && tip.profile.filled > 0 && said == "":
		t.addColumn(finding.Note, "data.tip-name", tip.col, fmt.Sprintf(
			"%s gives the tips that the ferrules are for, and nothing their bores: each is taken to be made for its tip, and so a little smaller", tip.name()),
			t.settle("ferrule_bores"))
	}
}

func (t *unitTable) settleBoreColumn(c *unitColumn, said string) {
	names, holes, others := t.boresOf(c)
	examples := strings.Join(names[:min(len(names), 5)], ", ")
	switch {
	case said == BoresAreBores || said == "" && len(names) == 0:
	case said == BoresAreTips:
		t.bores, c.evidence = BoresAreTips, c.evidence+"; its sizes are the names of tips"
	case len(holes) == 0 && !t.toleranced(c) && 100*others.cells <= (100-leastNames)*others.all:
		t.bores, t.boresJudged, c.evidence = BoresAreTips, true, c.evidence+"; its sizes are the names of tips"
		t.addColumn(finding.Warning, "data.tip-name", c.col, fmt.Sprintf(
			"the sizes that %s gives are the names of tips (%s), which a ferrule of such a bore would not grip: each ferrule is taken to be made for that tip, and so a little smaller; tip or true bore?",
			c.name(), examples), t.settle("ferrule_bores"))
	default:
		beside := "sizes that no tip has"
		switch {
		case len(holes) > 0:
			beside = "true bores such as " + holes[0]
		case t.toleranced(c):
			beside = "a tolerance of their own"
		}
		t.addColumn(finding.Warning, "data.tip-name", c.col, fmt.Sprintf("%s gives names of tips (%s) beside %s; all are taken as true bores: tip or true bore?",
			c.name(), examples, beside), t.settle("ferrule_bores"))
	}
}

// unitOfNames returns the unit in which all numbers of a column are names of tips, whatever a heading or a note says of the other
// sizes: 370 or 370P in thousandths of an inch for a bore, and in a column of tips of ferrules .370 in inches or 9.4 in mm as well.
func (t *unitTable) unitOfNames(c *unitColumn) (string, bool) {
	units := []string{"thou"}
	switch {
	case c.role == TipTaken && t.kind == Ferrules:
		units = []string{"thou", "in", "mm"}
	case c.role != Bore && c.role != TipTaken:
		return "", false
	}
	numbers := c.bare()
	at := slices.IndexFunc(units, func(unit string) bool { return len(numbers) > 0 && namesIn(numbers, unit) == len(numbers) })
	if at < 0 {
		return "", false
	}
	return units[at], true
}

// toleranced reports whether the heading of a column or other columns give its sizes a tolerance, as names have none.
func (t *unitTable) toleranced(c *unitColumn) bool {
	return c.tolerance != nil || slices.ContainsFunc(t.columns, func(o *unitColumn) bool {
		return o != c && (o.covers == c.role || o.role == c.role && (o.aspect == least || o.aspect == most))
	})
}

// counted is how many cells of how many.
type counted struct{ cells, all int }

// boresOf sorts the sizes of a column, as the cells show them: those that are the names of tips, those that only a bore has, and how
// many are neither.
func (t *unitTable) boresOf(c *unitColumn) (names, holes []string, others counted) {
	for _, text := range c.profile.texts {
		reading := t.lex.read(text, value.Context{Want: value.WantDiameter, Unit: c.unit, Mark: c.mark, Language: t.language})
		readings := reading.List
		switch reading.Kind {
		case value.Length:
			readings = []value.Reading{reading}
		case value.List:
		default:
			continue
		}
		others.all++
		switch hole, named := sortOf(readings); {
		case hole && !slices.Contains(holes, text):
			holes = append(holes, text)
		case hole:
		case !named:
			others.cells++
		case !slices.Contains(names, text):
			names = append(names, text)
		}
	}
	return names, holes, others
}

// sortOf reports whether sizes can only be those of bores, and whether all are the names of tips.
func sortOf(readings []value.Reading) (hole, named bool) {
	named = len(readings) > 0
	for _, one := range readings {
		size := one.Dim.Nominal()
		_, isName := fitcalc.TipNamed(size)
		named = named && isName
		under := slices.ContainsFunc(tipNames, func(tip measure.Length) bool { return size.Less(tip) && !underTip.Less(tip.Sub(size)) })
		hole = hole || one.Dim.HasLimits() || !isName && under
	}
	return hole, named
}

// givesHoles reports whether the table has a column of tips and its bores are sizes of holes for the most part, so that a bore
// as large as a tip is a hole too, and a tight one.
func (t *unitTable) givesHoles() bool {
	c := t.byRole[Bore]
	if c == nil || t.byRole[TipTaken] == nil || len(c.profile.sizes) < 3 {
		return false
	}
	holes := 0
	for _, s := range c.profile.sizes {
		if !isTipName(s.mm(c.unit)) {
			holes++
		}
	}
	return holes*3 > len(c.profile.sizes)*2
}
