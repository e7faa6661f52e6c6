package report

import (
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/tell"
)

// From is where a part comes from: the cell of the given role where it is known, otherwise the row.
func From(item *catalog.Item, role catalog.Role) finding.Place {
	at := tell.Place(item.Source)
	if cell := item.Fields.Cell(role); cell != "" {
		at = finding.Place{File: at.File, Sheet: at.Sheet, Cell: cell}
	}
	return at
}

// FromHead is where a head's OD comes from: that of its adapter's sleeve where it has one.
func FromHead(h *catalog.Head) finding.Place {
	if h.Head.Adapter.Given() {
		return From(&h.Item, catalog.AdapterOD)
	}
	return From(&h.Item, catalog.HoselOD)
}

// FromFerrule is where a ferrule's base OD comes from.
func FromFerrule(f *catalog.Ferrule) finding.Place { return From(&f.Item, catalog.BaseOD) }

// HeadIs is what a head is: its description, or at least its category.
func HeadIs(h *catalog.Head) string {
	if h.Description != "" {
		return h.Description
	}
	return h.Category.String()
}

// Miss is by how much a pair is out, on the diameter, to a micrometre: it is kept in single precision. A pair that is out by nothing is too
// risky, with no size beyond its limit, and one without a measure of its miss is beyond any length; neither is known.
func Miss(p matrix.Pair) Size {
	miss, err := measure.FromMillimetres(float64(p.Miss))
	if err != nil {
		return Size{}
	}
	miss = miss.RoundTo(measure.Micrometres(1), measure.NearestEven)
	return Size{miss.Sign() > 0, miss}
}

// Parts are the numbers of some heads, or of some ferrules, in one text, in an order that does not hang on that of the sheets' rows.
func Parts(r *matrix.Result, of func(*matrix.Result, int) string, parts []int) string {
	names := make([]string, len(parts))
	for i, part := range parts {
		names[i] = of(r, part)
	}
	slices.SortFunc(names, phrase.Compare)
	return strings.Join(names, ", ")
}

// HeadPart and FerrulePart are the numbers of a head and of a ferrule.
func HeadPart(r *matrix.Result, head int) string { return r.Catalogue.Heads[head].Part }

// FerrulePart is the number of a ferrule.
func FerrulePart(r *matrix.Result, ferrule int) string { return r.Catalogue.Ferrules[ferrule].Part }

// Reasons are reasons as sentences, in one text.
func Reasons(reasons []fitcalc.Reason, l *say.Language, units fitcalc.Units) string {
	texts := make([]string, len(reasons))
	for i, reason := range reasons {
		texts[i] = l.Reason(reason, units)
	}
	return strings.Join(texts, "; ")
}
