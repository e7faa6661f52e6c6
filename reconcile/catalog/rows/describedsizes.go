package rows

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// A description may give a size by its name, or all of them as a list: "base 13.7, 24 mm long", "13.5 x 9.3 x 25". What a column says otherwise is
// said, whatever the descriptions of other rows do, and the column counts; what no column gives is taken from it, as an assumption.

const (
	// roundedNames is by how many mm two names of one size may differ beyond their rounding: 13.6 and .535 in.
	roundedNames = 0.02
	// looseShare is how far off, as a share of it, a length may be that goes by a rounder name in another unit: 25 mm for 1 in.
	looseShare = 0.02
)

// readDescribed takes the sizes of the row's description that no column has, and compares the others.
func (r *rowReader) readDescribed() {
	text := r.fields.Text(catalog.Description)
	if r.club != "" || r.t.unsearched || !r.mayGiveSizes(text) {
		return
	}
	if !r.t.Described.search(text) {
		r.tellUnsearched()
		return
	}
	found := r.t.describedIn(r.line, text)
	if found.others {
		return
	}
	said := found.sizes
	if len(said) == 0 {
		said = r.listDescribed(text)
	}
	if one, found := r.lengthAlone(text); found && !slices.ContainsFunc(said, func(other layout.Described) bool { return other.Role == one.Role || other.Text == one.Text }) {
		said = append(said, one)
	}
	for _, one := range said {
		switch {
		case one.IsTipName(): // "Step .355": the name of a tip, or a hole; the whole column of bores says which it is
		case r.fields.Dim(one.Role).Given():
			r.compareDescribed(one)
		case r.t.ByRole[one.Role] == nil && !r.says(one.Role):
			r.takeDescribed(one)
		}
	}
	for _, one := range found.slipped {
		if !slices.ContainsFunc(said, func(other layout.Described) bool { return string(other.Role) == one.Role || other.Text == one.Text }) {
			r.refuseDescribed(one)
		}
	}
}

// refuseDescribed says that the description gives a size that is impossible, and leaves it open where no column gives it.
func (r *rowReader) refuseDescribed(one sizetext.Size) {
	t, role := r.t, catalog.Role(one.Role)
	b, known := traits.BoundsOf(t.Kind, role)
	own := r.fields.Get(role)
	if !known || t.Answered(r.line, role) || own.Text != "" && own.Cell == r.fields.Cell(catalog.Description) { // the column was cut from the descriptions, and says so
		return
	}
	severity, what := finding.Error, "it is left open"
	if t.ByRole[role] != nil || r.says(role) {
		severity, what = finding.Warning, "the column counts"
	}
	line, col := r.line, r.colOf(catalog.Description)
	if col > 0 {
		line, col = t.Region.Grid.Source(line, col)
	}
	t.Add(severity, "data.implausible", line, col, fmt.Sprintf("the description gives %s as %s, beyond the %g to %g mm that the joint allows; %s", catalog.RoleName(t.Kind, role), one.Text,
		b.Least, b.Most, what), t.Settle("rows", t.LineName(r.line), one.Role))
	if severity == finding.Error && !slices.Contains(traits.Keys[t.Kind], role) {
		r.open = append(r.open, role)
	}
}

// mayGiveSizes reports whether a description has a number that no size of the row says and that may be one: it has decimals, a fraction or a
// unit, or two digits.
func (r *rowReader) mayGiveSizes(text string) bool {
	if !strings.ContainsAny(text, "0123456789") {
		return false
	}
	if strings.ContainsAny(text, "xX*/"+sizetext.TimesSigns) && sizetext.AnyListWithin(text) != nil {
		return true
	}
	for _, n := range r.t.numbersIn(text) {
		if n.unit == "" && n.half >= 0.5 && n.number < leastBare {
			continue
		}
		said := false
		for _, c := range r.t.read {
			if dim := r.fields.Dim(c.Role); dim.Given() && n.says(r.fields.Get(c.Role), unitsOf(c)) {
				said = true
				break
			}
		}
		if !said {
			return true
		}
	}
	return false
}

// leastBare is the least whole number without a unit that is taken for a size: those below are clubs.
const leastBare = 13

// unitOf is the unit of the sizes of a role: that of its column, or of another one.
func (t *Table) unitOf(role catalog.Role) string {
	if c := t.ByRole[role]; c != nil && c.Unit != "" {
		return c.Unit
	}
	for _, c := range t.read {
		if c.Trait().Want == traits.Length && c.Role != catalog.TipTaken && c.Unit != "" {
			return c.Unit
		}
	}
	return ""
}

// takeDescribed takes a size that only the description gives.
func (r *rowReader) takeDescribed(one layout.Described) {
	t := r.t
	if r.leftOpen(one.Role) {
		return
	}
	r.take(one.Role, catalog.Field{Text: one.Text, Dim: one.Dim, Cell: r.fields.Get(catalog.Description).Cell},
		fmt.Sprintf("%s %s taken from the description", catalog.RoleName(t.Kind, one.Role), one.Text))
}

// compareDescribed says that a column gives another size than the description.
func (r *rowReader) compareDescribed(one layout.Described) {
	t := r.t
	c := t.ByRole[one.Role]
	if t.Answered(r.line, one.Role) || c == nil || r.t.sameSize(r.fields.Get(one.Role), one) {
		return
	}
	f := r.fields.Get(one.Role)
	r.gainsaid(c, traits.SayMM(traits.MM(f.Dim.Nominal())), one.Text)
}

// gainsaid warns of a cell whose size the description contradicts.
func (r *rowReader) gainsaid(c *cells.Column, column, said string) {
	e := Entry{Table: r.t, Line: r.line, Fields: r.fields, Part: r.fields.Text(catalog.Part)}
	description := e.Place(catalog.Description)
	r.t.sayOtherSize(&e, c.Role, column, fmt.Sprintf("its description in %s says %s", description.Cell, said), description)
}

// sameSize reports whether the size of a text is the one that a field has, as far as both are rounded.
func (t *Table) sameSize(f catalog.Field, one layout.Described) bool {
	said, size := one.Dim.Nominal(), f.Dim.Nominal()
	if within(said, f.Dim) || within(size, one.Dim) {
		return true
	}
	half := measure.Length{}
	for _, n := range t.numbersIn(one.Text) {
		_, mm := n.inMM(one.Unit)
		half = measure.Micrometres(int64(1000 * mm))
	}
	off := traits.MM(said.Sub(size).Abs())
	loose := roundedNames
	if c := t.ByRole[one.Role]; !traits.Of[one.Role].Diameter && (c == nil || c.Unit != one.Unit) {
		loose += looseShare * traits.MM(size)
	}
	return off <= loose+max(traits.MM(half), traits.MM(f.Fine))
}

// within reports whether a size is within the limits of another.
func within(size measure.Length, of measure.Dim) bool {
	return of.HasLimits() && !size.Less(of.Lower()) && !of.Upper().Less(size)
}

// listDescribed returns the sizes of a list within a description, in the one order in which most of them are those of the row and the others
// possible; none where there are several such, or none.
func (r *rowReader) listDescribed(text string) []layout.Described {
	pieces := sizetext.AnyListWithin(text)
	if pieces == nil {
		return nil
	}
	sizetext.ShareUnit(pieces)
	most, ways := 0, [][]layout.Described{}
	for _, order := range sizetext.OrdersOf(r.t.Kind) {
		way, same, ok := r.listedAs(order, pieces)
		switch {
		case !ok || same == 0 || same < most:
			continue
		case same > most:
			most, ways = same, nil
		}
		ways = append(ways, way)
	}
	others := func(way []layout.Described) int {
		return len(slices.DeleteFunc(slices.Clone(way), func(one layout.Described) bool {
			return !r.fields.Dim(one.Role).Given() || r.t.sameSize(r.fields.Get(one.Role), one)
		}))
	}
	ways = slices.DeleteFunc(ways, func(way []layout.Described) bool { return others(way) > 1 || others(way) == 1 && most < 2 })
	if len(ways) == 0 || len(ways) > 1 && slices.ContainsFunc(ways, func(way []layout.Described) bool { return others(way) == 0 }) {
		return nil
	}
	return ways[0]
}

// listedAs reads a list of sizes in an order; same is how many of them the row has.
func (r *rowReader) listedAs(order sizetext.Order, pieces []string) (way []layout.Described, same int, ok bool) {
	if len(order) != len(pieces) {
		return nil, 0, false
	}
	for i, role := range order {
		if role == "" {
			continue
		}
		reading, possible := layout.ReadDescribed(r.t.Lex, r.t.Kind, role, pieces[i], r.t.unitOf(role))
		if !possible {
			return nil, 0, false
		}
		one := layout.Described{Role: role, Text: pieces[i], Reading: reading}
		if r.fields.Dim(role).Given() && r.t.sameSize(r.fields.Get(one.Role), one) {
			same++
		}
		way = append(way, one)
	}
	return way, same, true
}

// lengthAlone returns the length of a ferrule that is all that a description says between two commas, "Short, 12 mm, black", or the inches with
// which it begins something there: `1/2" black`. What has decimals of a millimetre may be a diameter, and of two it is not known which is it.
func (r *rowReader) lengthAlone(text string) (one layout.Described, found bool) {
	if r.t.Kind != catalog.Ferrules {
		return one, false
	}
	for _, clause := range spoken.Clauses(r.t.Lex, text) {
		places := sizetext.Places(clause, 1)
		if len(places) == 0 {
			continue
		}
		at := places[0]
		if strings.TrimSpace(clause[:at[0]]) != "" || !lexicon.StandsFree(clause, at[0], at[1]) {
			continue
		}
		reading, possible := layout.ReadDescribed(r.t.Lex, r.t.Kind, catalog.Length, strings.TrimSpace(clause[at[0]:at[1]]), "")
		b, _ := traits.BoundsOf(r.t.Kind, catalog.Length)
		rest := strings.Trim(clause[at[1]:], " .\"″”")
		inches := reading.Unit == "in"
		switch {
		case !possible || !reading.UnitStated || reading.Dim.HasLimits() || !b.Common(traits.MM(reading.Dim.Nominal())):
			continue
		case rest != "" && (!inches || strings.ContainsAny(rest, "0123456789") || sizetext.NameAtStart(r.t.Lex, rest) != ""):
			continue
		case !inches && strings.ContainsAny(clause[at[0]:at[1]], sizetext.DecimalMarks):
			continue
		case found:
			return layout.Described{}, false
		}
		one, found = layout.Described{Role: catalog.Length, Text: strings.TrimSpace(clause[at[0]:at[1]]), Reading: reading}, true
	}
	return one, found
}

// compareTip says that the description names another tip than the row's column of tips, or one that its bore is not for.
func (r *rowReader) compareTip() {
	t := r.t
	text := r.fields.Text(catalog.Description)
	if r.club != "" || !mayNameTip(text) {
		return
	}
	tips, words := t.tipsIn(r.line, text)
	sure := len(tips) > 0
	if !sure {
		if tips, words = t.Lex.TipsIn(text, false); len(tips) == 0 || !strings.HasPrefix(words, ".") {
			return
		}
	}
	role := catalog.TipTaken
	taken := r.fields.Get(role)
	if t.ByRole[role] == nil || taken.Text == "" && !taken.Dim.Given() {
		role = catalog.Bore
	}
	c, f := t.ByRole[role], r.fields.Get(role)
	if c == nil || !f.Dim.Given() {
		return
	}
	if slices.ContainsFunc(tips, func(tip fitcalc.TipSize) bool { return r.suits(role, tip, f) }) {
		return
	}
	if t.Answered(r.line, role) {
		return
	}
	if !sure && slices.ContainsFunc(layout.DescribedSizes(t.Lex, t.Kind, text, r.t.unitOf), func(one layout.Described) bool { return strings.HasPrefix(one.Text, words) }) {
		return
	}
	r.gainsaid(c, f.Text, words)
}

// suits reports whether a tip is the one that a field says, or one that may go into the bore that it gives.
func (r *rowReader) suits(role catalog.Role, tip fitcalc.TipSize, f catalog.Field) bool {
	if _, named := fitcalc.TipNamed(f.Dim.Nominal()); role == catalog.TipTaken || named {
		for _, other := range r.t.tipSizes(f) {
			if other.Diameter == tip.Diameter || r.t.Kind == catalog.Ferrules && (bothSuit(tip, other) || bothSuit(other, tip)) {
				return true
			}
		}
		if role == catalog.TipTaken {
			return false
		}
	}
	return r.t.agrees([]fitcalc.TipSize{tip}, f.Dim)
}
