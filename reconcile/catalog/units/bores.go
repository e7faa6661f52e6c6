package units

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
)

// A column of bores is one of tips where at least leastNames in a hundred of its cells are names of standard tips, and none is what a
// ferrule made for one measures: smaller than it by up to underTip. Common practice is that ferrules are made .002 in under.

var underTip = measure.Thou(6)

// hundredth is what the name of a tip differs by that is written in hundredths of a millimetre: coarser ones, as 9 for .355 in, are sizes among sizes.
var hundredth = measure.Micrometres(5)

// overTip is how much wider than its tip the bore of a head is at most. Common practice, from memory.
var overTip = measure.Thou(6)

// settleBores decides what the bores of a table of ferrules are, and what is listed in their place.
func (t *Table) settleBores() {
	if t.Kind == catalog.Heads {
		t.settleHeadBores()
	}
	if t.Kind != catalog.Ferrules {
		return
	}
	said := cmp.Or(t.Rules.FerruleBores, t.houseBores)
	bore, tip := t.ByRole[catalog.Bore], t.ByRole[catalog.TipTaken]
	switch {
	case bore != nil && bore.Profile.Filled > 0 && bore.Held == "":
		t.settleBoreColumn(bore, said)
	case tip != nil && tip.Profile.Filled > 0 && said == catalog.BoresAreBores:
		t.Bores, tip.Evidence = catalog.BoresAreBores, tip.Evidence+"; taken as the true bores"
	case tip != nil && tip.Profile.Filled > 0 && said == "":
		t.AddColumn(finding.Note, "data.tip-name", tip.Col, fmt.Sprintf(
			"%s gives the tips that the ferrules are for, and nothing their bores: each is taken to be made for its tip, and so a little smaller", tip.Name()),
			t.Settle("ferrule_bores"))
	}
}

func (t *Table) settleBoreColumn(c *Column, said string) {
	names, holes, others := t.boresOf(c)
	examples := strings.Join(names[:min(len(names), 5)], ", ")
	switch {
	case said == catalog.BoresAreBores || said == "" && (len(names) == 0 || len(holes) > 0 && t.tipsOver(c) || t.titleOver(c)):
	case said == catalog.BoresAreTips:
		t.Bores, c.Evidence = catalog.BoresAreTips, c.Evidence+"; its sizes are the names of tips"
	case len(holes) == 0 && !t.toleranced(c) && 100*others.cells <= (100-traits.LeastNames)*others.all:
		t.Bores, t.BoresJudged, c.Evidence = catalog.BoresAreTips, true, c.Evidence+"; its sizes are the names of tips"
		t.AddColumn(finding.Warning, "data.tip-name", c.Col, fmt.Sprintf(
			"the sizes that %s gives are the names of tips (%s), which a ferrule of such a bore would not grip: each ferrule is taken to be made for that tip, and so a little smaller; tip or true bore?",
			c.Name(), examples), t.Settle("ferrule_bores"))
	default:
		beside, severity := "sizes that no tip has", finding.Warning
		if c.Unit == "mm" && len(holes) >= len(names) {
			if t.ByRole[catalog.TipTaken] == nil && !slices.ContainsFunc(names, t.namesFinely) {
				return
			}
			severity = finding.Note // names of tips in mm are rare
		}
		switch {
		case len(holes) > 0:
			beside = "true bores such as " + holes[0]
		case t.toleranced(c):
			beside = "a tolerance of their own"
		}
		t.AddColumn(severity, "data.tip-name", c.Col, fmt.Sprintf("%s gives names of tips (%s) beside %s; all are taken as true bores: tip or true bore?",
			c.Name(), examples, beside), t.Settle("ferrule_bores"))
	}
}

// namesFinely reports whether a size in millimetres has the name of a tip to the hundredth. 8.9 does not, the usual bore for .355 in: .350 in is 8.89.
func (t *Table) namesFinely(text string) bool {
	one := t.Lex.Read(text, value.Context{Want: value.WantDiameter, Unit: "mm", Language: t.Language})
	return slices.ContainsFunc(traits.TipNames, func(tip measure.Length) bool { return !hundredth.Less(one.Dim.Nominal().Sub(tip).Abs()) })
}

// unitOfNames returns the unit in which all numbers of a column are names of tips, whatever a heading or a note says of the other
// sizes: 370 or 370P in thousandths of an inch for a bore, and in a column of tips .370 in inches or 9.4 in mm as well.
func (t *Table) unitOfNames(c *Column) (string, bool) {
	units := []string{"thou"}
	switch {
	case c.Role == catalog.TipTaken:
		units = []string{"thou", "in", "mm"}
	case c.Role != catalog.Bore:
		return "", false
	}
	numbers := c.Bare()
	at := slices.IndexFunc(units, func(unit string) bool { return len(numbers) > 0 && columns.NamesIn(numbers, unit) == len(numbers) })
	if at < 0 {
		return "", false
	}
	return units[at], true
}

// toleranced reports whether the heading of a column or other columns give its sizes a tolerance, as names have none.
func (t *Table) toleranced(c *Column) bool {
	return c.Tolerance != nil || slices.ContainsFunc(t.Columns, func(o *Column) bool {
		return o != c && (o.Covers == c.Role || o.Role == c.Role && (o.Aspect == columns.Least || o.Aspect == columns.Most))
	})
}

// tipsOver reports whether beside each size of a column that is the name of a tip stands another tip, a little over it: then it is the hole of a ferrule
// for that one. A mark for what stands above is taken for that.
func (t *Table) tipsOver(c *Column) bool {
	tips := t.ByRole[catalog.TipTaken]
	if tips == nil || tips.Held != "" {
		return false
	}
	unit, tipUnit := cmp.Or(c.Unit, t.unitBeside(c)), cmp.Or(tips.Unit, t.unitBeside(tips))
	g, over, tipLine := t.Region.Grid, false, 0
	for line := t.Region.Body; line <= t.Region.To; line++ {
		if !g.Is(lexicon.AsDitto, t.Lex, g.Id(line, tips.Col)) {
			tipLine = line
		}
		size, ok := t.sizeAt(c, unit, line)
		if _, named := fitcalc.TipNamed(size); !ok || !named {
			continue
		}
		tip, ok := t.sizeAt(tips, tipUnit, max(tipLine, t.Region.Body))
		if _, named := fitcalc.TipNamed(tip); !ok || !named || !size.Less(tip) || underTip.Less(tip.Sub(size)) {
			return false
		}
		over = true
	}
	return over
}

// titleOver reports whether the titles say for which one tip all parts are, and it is a little over each size of a column, and another than those by whose
// names they could go: 8.9 mm, "all for .355 taper".
func (t *Table) titleOver(c *Column) bool {
	if t.ByRole[catalog.TipTaken] != nil {
		return false
	}
	var tips []fitcalc.TipSize
	for _, title := range t.TextTitles() {
		if t.Lex.TipForAll(title) != "" {
			tips = append(tips, lexicon.Named(t.Lex.TipsIn(title, true))...)
		}
	}
	if tips = lexicon.Distinct(tips); len(tips) != 1 {
		return false
	}
	unit := cmp.Or(c.Unit, t.unitBeside(c))
	sizes := 0
	for line := t.Region.Body; line <= t.Region.To; line++ {
		size, ok := t.sizeAt(c, unit, line)
		if !ok {
			continue
		}
		if sizes++; !size.Less(tips[0].Diameter) || underTip.Less(tips[0].Diameter.Sub(size)) {
			return false
		}
	}
	return sizes > 0
}

// sizeAt returns the one size that a cell of a column gives, in a unit if it has none.
func (t *Table) sizeAt(c *Column, unit string, line int) (measure.Length, bool) {
	one := t.Lex.Read(t.Region.Grid.At(line, c.Col), value.Context{Want: value.WantDiameter, Unit: unit, Mark: c.Mark, Language: t.Language})
	if one.Kind != value.Length {
		return measure.Length{}, false
	}
	return one.Dim.Nominal(), true
}

// counted is how many cells of how many.
type counted struct{ cells, all int }

// boresOf sorts the sizes of a column, as the cells show them: those that are the names of tips, those that only a bore has, and how
// many are neither.
func (t *Table) boresOf(c *Column) (names, holes []string, others counted) {
	unit := cmp.Or(c.Unit, t.unitBeside(c))
	for _, text := range c.Profile.Texts {
		reading := t.Lex.Read(text, value.Context{Want: value.WantDiameter, Unit: unit, Mark: c.Mark, Language: t.Language})
		readings := reading.List
		switch reading.Kind {
		case value.Length:
			readings = []value.Reading{reading}
		case value.List:
		default:
			continue
		}
		if b, _ := traits.BoundsOf(t.Kind, c.Role); !slices.ContainsFunc(readings, func(one value.Reading) bool { return b.Possible(traits.MM(one.Dim.Nominal())) }) {
			continue // no bore at all: it says nothing of the others
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

// unitBeside returns the unit that stands beside all bare sizes of a column, empty where they are in several.
func (t *Table) unitBeside(c *Column) string {
	if c.UnitsBeside == nil {
		return ""
	}
	beside := t.bareBeside(c, c.UnitsBeside)
	if len(beside) == 0 || slices.ContainsFunc(beside, func(s bareSize) bool { return s.unit != beside[0].unit }) {
		return ""
	}
	return beside[0].unit
}

// sortOf reports whether sizes can only be those of bores, and whether all are the names of tips.
func sortOf(readings []value.Reading) (hole, named bool) {
	named = len(readings) > 0
	for _, one := range readings {
		size := one.Dim.Nominal()
		_, isName := fitcalc.TipNamed(size)
		named = named && isName
		under := slices.ContainsFunc(traits.TipNames, func(tip measure.Length) bool { return size.Less(tip) && !underTip.Less(tip.Sub(size)) })
		hole = hole || one.Dim.HasLimits() || !isName && under
	}
	return hole, named
}

// settleHeadBores takes all bores of heads for holes where most can be nothing else, .340 in for a .335 in tip, and each that has the name of a
// tip is made for the next smaller one as well: .355 in for .350 in.
func (t *Table) settleHeadBores() {
	c := t.ByRole[catalog.Bore]
	if c == nil || c.Held != "" || c.Note != nil || c.TolerancesBySection() || t.toleranced(c) { // what has limits is no name
		return
	}
	all, holes, hole, name := 0, 0, "", ""
	for _, text := range c.Profile.Texts {
		reading := t.Lex.Read(text, value.Context{Want: value.WantDiameter, Unit: cmp.Or(c.Unit, t.unitBeside(c)), Mark: c.Mark, Language: t.Language})
		if reading.Kind != value.Length {
			continue
		}
		all++
		size := reading.Dim.Nominal()
		over := slices.ContainsFunc(traits.TipNames, func(tip measure.Length) bool { return tip.Less(size) && !overTip.Less(size.Sub(tip)) })
		switch named := slices.ContainsFunc(traits.TipNames, func(tip measure.Length) bool { return !hundredth.Less(size.Sub(tip).Abs()) }); {
		case named && !over:
			return
		case named:
			name = text
		case over:
			holes, hole = holes+1, text
		}
	}
	if name == "" || holes*2 <= all {
		return
	}
	t.headHoles = true
	t.AddColumn(finding.Warning, "data.tip-name", c.Col, fmt.Sprintf("%s gives %s, which is the name of a tip, beside true bores such as %s; all are taken as true bores: tip or true bore?",
		c.Name(), name, hole), t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "role"))
}

// GivesHoles reports whether bores are sizes of holes, so that one as large as a tip is a hole too: that of heads was judged by all of them, or
// the table has a column of tips and most of its bores are no names of these.
func (t *Table) GivesHoles() bool {
	if t.headHoles {
		return true
	}
	c := t.ByRole[catalog.Bore]
	if c == nil || t.ByRole[catalog.TipTaken] == nil || len(c.Profile.Sizes) < 3 {
		return false
	}
	holes := 0
	for _, s := range c.Profile.Sizes {
		if !traits.IsTipName(s.MM(c.Unit)) {
			holes++
		}
	}
	return holes*3 > len(c.Profile.Sizes)*2
}
