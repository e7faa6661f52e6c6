package columns

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// TakenByValues says that nothing but its values gives a column its role.
func (t *Table) TakenByValues(col int, role catalog.Role) string {
	return fmt.Sprintf("column %s taken as %s by its values", t.Region.Grid.ColumnName(col), t.named(role))
}

// findByValues gives columns under words that nobody knows the roles that nothing but their values can mean, each with a word.
func (t *Table) findByValues() {
	if t.Kind != catalog.Heads && t.Kind != catalog.Ferrules {
		return
	}
	t.boreByValues()
	t.baseByValues()
	t.tipByValues()
	t.topByValues()
	t.depthByValues()
	t.describe()
	if c := t.first(catalog.Club); c != nil && !c.Known && c.onlyClubs() {
		c.Known, c.Evidence = true, "all of its texts are clubs, and several of them sets"
	}
}

// unclaimed returns the columns with headings that have no role, and of which nothing was said yet.
func (t *Table) unclaimed() (open []*Column) {
	for _, c := range t.Columns {
		if c.Role == "" && c.irrelevant == "" && c.Deviation == 0 && !c.reported && !c.follower() && !t.ruledOut(c) && c.Text != "" && c.Profile.Filled > 0 {
			open = append(open, c)
		}
	}
	return open
}

// boreByValues finds the bores. They are sought only where everything else is understood, since a column of lofts, prices or thin ends looks
// like one of bores.
func (t *Table) boreByValues() {
	if t.first(catalog.Bore) != nil || t.first(catalog.TipTaken) != nil {
		return
	}
	for _, c := range t.unclaimed() {
		c.Role = catalog.Bore
		if t.standsForKey(c) {
			c.Evidence, c.margin = c.explain(t.Kind), leastMargin
			return
		}
		c.Role = ""
	}
}

// baseByValues finds the wide ends of ferrules where the thin ones stand under a word that nobody knows either: in nearly every row the size of one
// column lies between the bore and that of another.
func (t *Table) baseByValues() {
	if c := t.first(catalog.BaseOD); t.Kind == catalog.Ferrules && c != nil && !c.Known && t.standsForKey(c) {
		t.takeForKey(c)
		c.Known = true
	}
}

// takeForKey says that a column is taken for a diameter by its values.
func (t *Table) takeForKey(c *Column) {
	c.ByValues = true
	name := t.Region.Grid.ColumnName(c.Col)
	t.AddColumn(finding.Warning, "layout.role", c.Col, fmt.Sprintf("column %s %q was not understood; it is taken for %s by its values (%s)", name, c.Text, t.named(c.Role), c.Evidence), t.Settle("columns", name, "role"))
}

// tipByValues finds the tips that parts are for: several, and all of them called as tips are.
func (t *Table) tipByValues() {
	if t.first(catalog.TipTaken) != nil || t.KindAssumed != "" {
		return
	}
	for _, c := range t.unclaimed() {
		numbers := c.Bare()
		if len(c.Matches[t.Kind]) == 0 && len(numbers) >= leastByValues && c.Profile.distinct > 1 && len(numbers) == len(c.Profile.Sizes) && NamesIn(numbers, "in") == len(numbers) && slices.Contains(c.units(), "in") {
			t.takeByValues(c, catalog.TipTaken, "all of its values are names of tips")
			return
		}
	}
}

// topByValues finds the thin ends of ferrules: diameters that in nearly every row lie well between the bore and the base. A word for the end of
// something may have been taken for the tip, which is hardly wider than the bore, or for what ferrules do not have: a mouth, as of a countersink.
func (t *Table) topByValues() {
	base, bore := t.first(catalog.BaseOD), t.first(catalog.Bore)
	if t.Kind != catalog.Ferrules || base == nil || bore == nil || !base.Known || !bore.Known || t.first(catalog.TopOD) != nil || t.KindAssumed != "" {
		return
	}
	if t.first(catalog.CollarLength) != nil && t.first(catalog.CollarOD) == nil {
		return // it may be the collar's
	}
	open := t.unclaimed()
	if tip := t.first(catalog.TipTaken); tip != nil && !t.ruled(tip) && tip.headed(t.Kind, catalog.TipTaken) < lexicon.CertainHeading {
		open = append(open, tip)
	}
	for _, c := range open {
		most := mostEnd
		if c.headed(catalog.UnknownKind, catalog.HoselOD) >= lexicon.LeastHeading {
			most = mostWithHosel
		}
		other := t.isUnderstood(c) || t.mayBePrice(c)
		if other && t.saysHead(c) {
			other, most = false, mostWithHosel
		}
		if other || !t.betweenUpTo(bore, c, base, most) {
			continue
		}
		t.takeByValues(c, catalog.TopOD, "its sizes lie between those of bore and base")
		return
	}
}

// saysHead reports whether the heading of a column is nothing but a word for heads, with a unit or a sign for a diameter: "Testa", "Ø kop". That of a
// ferrule is its thin end, unless it is nearly as wide as the base, as the hosel of a head is.
func (t *Table) saysHead(c *Column) bool {
	rest, _, _ := t.Lex.Words.SplitUnit(c.Text)
	return t.Lex.Words.Means("head", strings.Trim(rest, lexicon.DiameterSigns+" "))
}

// isUnderstood reports whether the heading of a column says what else than the thin end of a ferrule its sizes are.
func (t *Table) isUnderstood(c *Column) bool {
	says := c.Matches[t.Kind]
	if len(says) == 0 {
		return false
	}
	role := catalog.Role(says[0].Role)
	return role != catalog.TipTaken && (role != catalog.BaseOD || says[0].Leftover == "") && !c.saysOther(role)
}

// depthOf is how deep that is of which a size is the diameter.
var depthOf = map[catalog.Role]catalog.Role{
	catalog.Bore:             catalog.BoreDepth,
	catalog.CounterboreOD:    catalog.CounterboreDepth,
	catalog.CountersinkMouth: catalog.CountersinkDepth,
}

// depthByValues finds how deep bores are where the heading says of them what nobody knows, "Bore goes down": beside the column of their diameters,
// and hardly one of its sizes could be such.
func (t *Table) depthByValues() {
	for _, c := range t.unclaimed() {
		if len(c.Matches[t.Kind]) == 0 {
			continue
		}
		said := catalog.Role(c.Matches[t.Kind][0].Role)
		role, deep := depthOf[said]
		across := t.first(said)
		if !deep || across == nil || t.first(role) != nil || !slices.Contains(traits.OfKind[t.Kind], role) {
			continue
		}
		wide, _ := traits.BoundsOf(t.Kind, said)
		far, _ := traits.BoundsOf(t.Kind, role)
		asWidth, _ := c.Profile.best(wide, c.units(), 1)
		asDepth, _ := c.Profile.best(far, c.units(), 1)
		if 3*asWidth <= 1 && asDepth >= rivalShare {
			t.takeByValues(c, role, fmt.Sprintf("its heading says %s like column %s, and its sizes can only be depths", t.named(said), t.Region.Grid.ColumnName(across.Col)))
		}
	}
}

// between reports whether in nearly all rows the size of a column lies well between those of two others.
func (t *Table) between(least, c, most *Column) bool { return t.betweenUpTo(least, c, most, mostEnd) }

// betweenUpTo is between for sizes up to a share of the wall.
func (t *Table) betweenUpTo(least, c, most *Column, upTo float64) bool {
	rows, misses := 0, 0
	for one := range t.sizesOf(least, c, most) {
		low, size, high := one[0], one[1], one[2]
		share := (size.number - low.number) / (high.number - low.number)
		if low.unit != size.unit || high.unit != size.unit || low.number >= high.number || share < leastEnd || share > upTo {
			misses++
			continue
		}
		rows++
	}
	return rows >= leastByValues && float64(rows) >= rivalShare*float64(rows+misses)
}

// sizesOf returns the sizes of three columns in a sample of the lines, as far as one has all three.
func (t *Table) sizesOf(a, b, c *Column) iter.Seq[[3]size] {
	return func(yield func([3]size) bool) {
		for _, line := range t.Region.SampleLines() {
			all := [3]size{t.sizeIn(a, line), t.sizeIn(b, line), t.sizeIn(c, line)}
			if all[0].number > 0 && all[1].number > 0 && all[2].number > 0 && !yield(all) {
				return
			}
		}
	}
}

// leastEnd and mostEnd are where between bore and base the thin end of a ferrule lies, as shares of the wall at the base. A tip is wider than
// the bore by less. Of a size that may be that of the hosel, which is hardly narrower than the base, it has to be nearer the bore.
const leastEnd, mostEnd, mostWithHosel = 0.1, 0.9, 0.5

// describe takes texts for descriptions where there are no others: those without a heading that stand before other columns, and those right behind
// the part numbers under a word that nobody knows, or one for rings, of which there are as many as a number says, or for a form of which they name
// none: "Ring", "Wood", "Range", "Ausführung".
func (t *Table) describe() {
	if t.first(catalog.Description) != nil || t.first(catalog.Part) == nil {
		return
	}
	for i, c := range t.Columns {
		if c.Role != "" && c.Role != catalog.Rings && !(c.Role == catalog.Style && t.namesNoStyle(c)) || c.irrelevant != "" || t.ruled(c) || t.ruledOut(c) || c.Profile.distinct < 2 || !c.wordy() {
			continue
		}
		if strings.TrimSpace(c.Text) != "" {
			if i > 0 && t.Columns[i-1].Role == catalog.Part && !c.reported && !c.follower() && !t.namesMakers(c) {
				t.takeByValues(c, catalog.Description, "its texts are words")
				return
			}
			continue
		}
		if slices.ContainsFunc(t.Columns[i+1:], func(other *Column) bool { return other.Role != "" }) {
			c.Role, c.Known, c.Evidence = catalog.Description, true, "no heading; its texts are words"
			return
		}
	}
}

// namesNoStyle reports whether no value of a column is the name of a form of ferrules.
func (t *Table) namesNoStyle(c *Column) bool {
	return !slices.ContainsFunc(c.Profile.Texts, func(text string) bool {
		_, known := t.Lex.Ask("style", text, t.Lex.Words.Style)
		return known
	})
}

// namesMakers reports whether a heading says whose the parts are, or were before: "Supplier", "Marke".
func (t *Table) namesMakers(c *Column) bool {
	whose, alone := t.Lex.Words.Whose(c.Parts...)
	return alone && whose == words.Makers
}

// takeByValues gives a column a role for what its values are, with a word.
func (t *Table) takeByValues(c *Column, role catalog.Role, why string) {
	c.Role, c.Aspect, c.Known, c.ByValues = role, Nominal, true, true
	c.margin, c.RunnerUp, c.rival, c.Evidence = leastMargin, "", nil, why
	name := t.Region.Grid.ColumnName(c.Col)
	t.AddColumn(finding.Warning, "layout.role", c.Col, fmt.Sprintf("column %s %q is taken for %s: %s", name, c.Text, t.named(role), why), t.Settle("columns", name, "role"))
}

// standsForKey reports whether a column under a word that nobody knows can be nothing but one of the two diameters that a part has to have:
// all its sizes are such as these commonly have, with decimals, in one unit; no other column could be it; and the other diameter, within it
// or around it, has its own column, as in no list of prices. The word may be known where the heading is that of the thin end but for it: "Ø mot
// klubba" beside "Ø mot skaft".
func (t *Table) standsForKey(c *Column) bool {
	other, needed := t.keyBeside(c.Role)
	if !needed || t.KindAssumed != "" || len(c.Matches[t.Kind]) > 0 && !t.isOtherEnd(c) {
		return false
	}
	b, _ := traits.BoundsOf(t.Kind, c.Role)
	if other == nil || !other.Known || !c.Profile.fitsOnly(b, c.units()) || c.Role == catalog.Bore && t.mayBeOther(c) {
		return false
	}
	return !slices.ContainsFunc(t.Columns, func(other *Column) bool {
		if other == c || other.Role != "" && other.Known || other.irrelevant != "" || other.Profile.counts() || len(other.Profile.Sizes) == 0 {
			return false
		}
		possible, _ := other.Profile.best(b, other.units(), 1)
		return possible > 0 && !(c.Role == catalog.BaseOD && t.between(t.first(catalog.Bore), other, c))
	})
}

// isOtherEnd reports whether the heading of a column that may be the base of ferrules is that of their thin ends but for its last word, which
// names no size and no number, and the column is the wider one in every row.
func (t *Table) isOtherEnd(c *Column) bool {
	top := t.first(catalog.TopOD)
	if c.Role != catalog.BaseOD || top == nil || !top.Known {
		return false
	}
	said, beside := strings.Fields(words.Fold(c.Text)), strings.Fields(words.Fold(top.Text))
	if last := len(said) - 1; last < 1 || len(beside) != len(said) || !slices.Equal(said[:last], beside[:last]) {
		return false
	}
	for _, m := range c.Matches[t.Kind] {
		switch want := traits.Of[catalog.Role(m.Role)].Want; want {
		case traits.Length, traits.Angle, traits.Price, traits.Count:
			return false
		}
	}
	for _, line := range t.Region.SampleLines() {
		if a, b := t.sizeIn(top, line), t.sizeIn(c, line); a.number > 0 && b.number > 0 && (a.unit != b.unit || a.number >= b.number) {
			return false
		}
	}
	return true
}

// keyBeside returns the column of the diameter that stands beside another one at the joint: of a bore the outer one, of that the bore. None
// is needed where the role is neither.
func (t *Table) keyBeside(role catalog.Role) (beside *Column, needed bool) {
	switch role {
	case catalog.HoselOD, catalog.BaseOD:
		return t.first(catalog.Bore), true
	case catalog.Bore:
		if t.Kind == catalog.Heads {
			return t.first(catalog.HoselOD), true
		}
		return t.first(catalog.BaseOD), true
	}
	return nil, false
}

// mayBeOther reports whether the values of a column that could be bores may be prices, or lofts, which go by halves, or the thin ends of
// ferrules.
func (t *Table) mayBeOther(c *Column) bool {
	switch {
	case t.mayBePrice(c):
		return true
	case t.Kind == catalog.Heads:
		return !c.statesUnit() && c.Profile.significant < finerThanLofts
	}
	return t.first(catalog.TopOD) == nil
}

// mayBePrice reports whether the sizes of a column may be prices, of which the table has none elsewhere.
func (t *Table) mayBePrice(c *Column) bool {
	return t.first(catalog.Price) == nil && !c.statesUnit() && c.Profile.significant < finerThanPrices
}

// statesUnit reports whether the heading of a column or its cells name a unit.
func (c *Column) statesUnit() bool {
	return c.HeadingUnit != "" || len(c.Profile.StatedUnits)+len(c.Profile.formatUnits) > 0
}

// finerThanPrices and finerThanLofts are how many decimals sizes have that are no prices and no lofts.
const finerThanPrices, finerThanLofts = 3, 2
