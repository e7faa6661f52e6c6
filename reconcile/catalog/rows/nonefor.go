package rows

import (
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// The tip and the bore of a head contradict each other where that bore is none for that tip, and those of other heads are for theirs: .335 in beside
// 9.5 mm, among .370 in beside 9.5 mm and .335 in beside 8.6 mm. One of them is a slip, unless a sleeve goes between.

// A bore is surely none for a tip where it is wider by more than looseOnTip, or narrower by more than tightOnTip, which no rounding explains. Common
// practice, from memory: .1 to .25 mm are for the glue, and a shim takes up .4 to .5 mm. Bores are alike within likeBore.
var (
	looseOnTip, tightOnTip = measure.Thou(22), measure.Micrometres(60)
	likeBore               = measure.Thou(6)
)

// tipAndBore are those of a part, and whether the bore is one for the tip, or surely none for that of a head.
type tipAndBore struct {
	*Entry
	tips       []fitcalc.TipSize
	bore       measure.Length
	fits, none bool
}

// compareTips says which parts have a bore that contradicts the tip of their column.
func (t *Table) compareTips() {
	c := t.ByRole[catalog.TipTaken]
	if c == nil {
		return
	}
	all := t.tipsAndBores()
	told := t.compareTipBores(all)
	if t.Kind == catalog.Heads {
		t.compareHeadTips(c, all, told)
	}
}

// compareHeadTips says which heads have a bore that is none for the tip of their column, where those of others are. Where those of nearly all are, a bore
// that is a little off is said too, where it was not told. Where more are none than are, it is said once of all: then it may be meant.
func (t *Table) compareHeadTips(c *cells.Column, all []tipAndBore, told []*Entry) {
	var fitting, other, none []tipAndBore
	for _, one := range all {
		if one.fits {
			fitting = append(fitting, one)
			continue
		}
		if other = append(other, one); one.none {
			none = append(none, one)
		}
	}
	if len(other) == 0 {
		return
	}
	sleeves := t.sleeveNotes()
	if len(none) > len(fitting) {
		if len(sleeves) == 0 {
			first := none[0]
			t.AddColumn(finding.Warning, "data.conflict", c.Col, fmt.Sprintf("the bore of %d of %d heads is none for the tip in %s, as %s (%s) for %s; both are used as they stand: does a sleeve go between?", len(none),
				len(fitting)+len(other), c.Name(), first.Fields.Text(catalog.Bore), traits.SayMM(traits.MM(first.bore)), first.Fields.Text(catalog.TipTaken)), t.Settle("columns", t.Region.Grid.ColumnName(c.Col), "role"))
		}
		return
	}
	nearly := len(fitting) >= leastDescribed && float64(len(other)) <= (1-describedShare)*float64(len(fitting)+len(other))
	for _, one := range other {
		switch {
		case t.hasSleeve(one, sleeves):
		case one.none:
			t.leaveNoneFor(one, fitting)
		case nearly && !slices.Contains(told, one.Entry):
			t.warnBeside(one, catalog.Bore, catalog.TipTaken, noneFor(one.tips[0], one.Fields))
		}
	}
}

// tipsAndBores are those of the parts that give both, each once for its cells, but for those of which a person said one.
func (t *Table) tipsAndBores() (all []tipAndBore) {
	var last *Entry
	for _, e := range t.Items {
		again := last != nil && e.Line == last.Line && e.Fields.SameCell(last.Fields, catalog.TipTaken) && e.Fields.SameCell(last.Fields, catalog.Bore)
		tip, bore := e.Fields.Get(catalog.TipTaken), e.Fields.Dim(catalog.Bore)
		if again || tip.Text == "" || !bore.Given() || t.Answered(e.Line, catalog.TipTaken) || t.Answered(e.Line, catalog.Bore) {
			continue
		}
		tips := t.tipSizes(tip)
		if len(tips) == 0 {
			continue
		}
		last = e
		one := tipAndBore{Entry: e, tips: tips, bore: bore.Nominal(), none: true}
		for i, tip := range tips {
			one.fits = one.fits || t.agrees(tips[i:i+1], bore)
			one.none = one.none && (looseOnTip.Less(one.bore.Sub(tip.Diameter)) || tightOnTip.Less(tip.Diameter.Sub(one.bore)))
		}
		all = append(all, one)
	}
	return all
}

// sleeveNotes are the texts above and below the table that speak of sleeves or shims.
func (t *Table) sleeveNotes() (notes []string) {
	for _, text := range slices.Concat(t.TextTitles(), t.textsBelow()) {
		if t.speaksOfSleeve(text) {
			notes = append(notes, text)
		}
	}
	return notes
}

// speaksOfSleeve reports whether a text speaks of an adapter or of goods that go beside parts, such as shims.
func (t *Table) speaksOfSleeve(text string) bool {
	return t.Lex.Words.MentionsGoods(text) || t.Lex.Words.Mentions("adapter", text)
}

// hasSleeve reports whether the row of a head, or a note that names its tip, says that a sleeve goes between tip and bore.
func (t *Table) hasSleeve(one tipAndBore, notes []string) bool {
	if one.Fields.Dim(catalog.AdapterOD).Given() {
		return true
	}
	for _, role := range [...]catalog.Role{catalog.Description, catalog.Note, catalog.BoreForm, catalog.TipTaken, catalog.Bore} {
		if t.speaksOfSleeve(one.Fields.Text(role)) {
			return true
		}
	}
	return slices.ContainsFunc(notes, func(note string) bool {
		tips, _ := t.Lex.TipsIn(note, false)
		return slices.ContainsFunc(tips, func(tip fitcalc.TipSize) bool { return tip.Diameter == one.tips[0].Diameter })
	})
}

// leaveNoneFor leaves the tip of a head open for which its bore is surely none, or the bore where that is the stranger one: other heads have the tip in
// bores that are for it, and none of these is like this one. Both are said.
func (t *Table) leaveNoneFor(one tipAndBore, fitting []tipAndBore) {
	hasBore := slices.ContainsFunc(fitting, func(other tipAndBore) bool { return !cells.Apart(one.bore, other.bore, likeBore) })
	hasTip := slices.ContainsFunc(fitting, func(other tipAndBore) bool { return slices.Equal(one.tips, other.tips) })
	open, other := catalog.TipTaken, catalog.Bore
	if hasTip && !hasBore {
		open, other = other, open
	}
	t.warnBeside(one, other, open, noneFor(one.tips[0], one.Fields))
	t.leaveOpenBy("data.conflict", one.Entry, open, fmt.Sprintf("%s; the %s is left open", noneFor(one.tips[0], one.Fields), catalog.RoleName(t.Kind, open)), one.Place(other))
}

// warnBeside says at the place of the one, the tip or the bore of a part, that the other contradicts it.
func (t *Table) warnBeside(one tipAndBore, role, other catalog.Role, message string) {
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.conflict", Place: one.Place(role), Related: []finding.Place{one.Place(other)},
		Message: message + "; look at both", Settle: t.Settle("rows", t.LineName(one.Line), string(role))})
}

func noneFor(tip fitcalc.TipSize, fields catalog.Fields) string {
	bore := fields.Get(catalog.Bore)
	return fmt.Sprintf("the head is for %v by %q, and its bore of %s (%s) is none for that tip", tip, fields.Text(catalog.TipTaken), bore.Text, traits.SayMM(traits.MM(bore.Dim.Nominal())))
}
