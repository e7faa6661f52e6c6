package columns

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/phrase"
)

// A table of bare names, such as OD and ID, may list heads or ferrules by its headings. Its sizes tell: a head is bored a little over the
// tip that it takes, a ferrule a little under the one that it grips, and ferrules are shorter than hosels.

// fitting is how many thousandths of an inch a hole is over the tip that it takes at least and at most, and gripping how many it is under
// the one that it grips: common practice.
var fitting, gripping = [2]float64{0.7, 8}, [2]float64{0.7, 6}

// holeFor reports whether a hole, in mm, may be that of a head and that of a ferrule by the tips that the trade makes.
func holeFor(size float64) (head, ferrule bool) {
	for _, tip := range traits.TipNames {
		over := (size - traits.MM(tip)) / traits.UnitMM["thou"]
		head = head || over >= fitting[0] && over <= fitting[1]
		ferrule = ferrule || -over >= gripping[0] && -over <= gripping[1]
	}
	return head, ferrule
}

// leastOfHoles is the share of the sizes of a column that have to be the holes of one kind only, for it to speak; the others may be
// those of both or of neither, such as the names of tips.
const leastOfHoles = 1.0 / 3

// holesOf returns the kind for which the holes of a column are made, unknown where they do not tell: where both kinds are among them, or
// too few.
func (c *Column) holesOf() catalog.Kind {
	b, _ := traits.BoundsOf(catalog.Ferrules, catalog.Bore)
	heads, ferrules := 0, 0
	for _, s := range c.Profile.Sizes {
		for _, unit := range c.units() {
			mm := s.MM(unit) * c.Factor()
			if !b.Possible(mm) {
				continue
			}
			if traits.IsTipName(mm) {
				break
			}
			switch head, ferrule := holeFor(mm); {
			case head && !ferrule:
				heads++
			case ferrule && !head:
				ferrules++
			}
			break
		}
	}
	least := leastOfHoles * float64(len(c.Profile.Sizes))
	switch {
	case heads > 0 && ferrules == 0 && float64(heads) >= least:
		return catalog.Heads
	case ferrules > 0 && heads == 0 && float64(ferrules) >= least:
		return catalog.Ferrules
	}
	return catalog.UnknownKind
}

// Between longestRing and shortestHosel, in mm, a length may be that of a ferrule or of a hosel; common practice, from memory.
const longestRing, shortestHosel = 32, 44

// lengthsOf returns the kind that all values of a column fit which is the length of a ferrule or of a hosel, unknown where none or both.
func (c *Column) lengthsOf() catalog.Kind {
	b, _ := traits.BoundsOf(catalog.Ferrules, catalog.Length)
	rings, hosels := 0, 0
	for _, s := range c.Profile.Sizes {
		for _, unit := range c.units() {
			mm := s.MM(unit)
			if !b.Possible(mm) {
				continue
			}
			if mm <= longestRing {
				rings++
			} else if mm >= shortestHosel {
				hosels++
			}
			break
		}
	}
	switch n := len(c.Profile.Sizes); {
	case n > 0 && rings == n:
		return catalog.Ferrules
	case n > 0 && hosels == n:
		return catalog.Heads
	}
	return catalog.UnknownKind
}

// kindBySizes returns what the sizes of a table speak for, heads or ferrules, as the readings of it take its columns; unknown where they
// do not tell or speak against each other.
func kindBySizes(columns []*Column, plans []plan) catalog.Kind {
	var said []catalog.Kind
	for i, c := range columns {
		var roles []catalog.Role
		for k := range plans {
			if plans[k].kind != catalog.Tips {
				roles = append(roles, plans[k].role(i))
			}
		}
		kind := catalog.UnknownKind
		switch {
		case slices.Contains(roles, catalog.Bore):
			kind = c.holesOf()
		case slices.Contains(roles, catalog.Length) && slices.Contains(roles, catalog.HoselLength):
			kind = c.lengthsOf()
		}
		if kind != catalog.UnknownKind {
			said = append(said, kind)
		}
	}
	if len(said) == 0 || slices.Contains(said, catalog.Heads) && slices.Contains(said, catalog.Ferrules) {
		return catalog.UnknownKind
	}
	return said[0]
}

// gainsay takes the points of what the user said from the reading of a table as that kind, where the table itself speaks for another one
// and nothing in it for this: headings that only tables of the other have, its title, its sizes. It returns what the sizes speak for.
func (t *Table) gainsay(plans []plan, titles []string) (sizes catalog.Kind) {
	sizes = kindBySizes(t.Columns, plans)
	for i := range plans {
		given := &plans[i]
		if !given.given || given.specific(t.Columns) || t.titlePoints(given.kind, titles) > 0 || sizes == given.kind {
			continue
		}
		if slices.ContainsFunc(plans, func(p plan) bool {
			return p.kind != given.kind && (p.specific(t.Columns) || p.named || p.kind == sizes)
		}) {
			given.bonus = 0
		}
	}
	for i := range plans {
		if plans[i].kind == sizes {
			plans[i].bonus += specificPoints
		}
	}
	return sizes
}

// names reports whether the heading of a column of words is the name of parts of a kind, "Ferrule", or most rows say that they are such.
func (t *Table) names(kind catalog.Kind) bool {
	concept, named := kindWords[kind]
	return named && (t.Region.KindOfRows(t.Lex) == kind || slices.ContainsFunc(t.Columns, func(c *Column) bool {
		return c.wordy() && t.Lex.Words.Means(concept, c.Text)
	}))
}

// kindWords are the concepts that parts of each kind are called by.
var kindWords = map[catalog.Kind]string{catalog.Heads: "head", catalog.Ferrules: "ferrule"}

// seems says what a table lists that was taken for none of parts, by its headings.
func (t *Table) seems() string {
	headings := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		headings[i] = c.Text
	}
	if said := phrase.Headings(headings); said != "" {
		return " (" + said + ")"
	}
	return ""
}

// severalSizes reports whether a text is sizes with crosses between them, such as 9.35 x 13.6 x 19.
func severalSizes(text string) bool {
	parts := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune("xX×*", r) })
	return len(parts) > 1 && !slices.ContainsFunc(parts, func(part string) bool { return !lexicon.LooksNumeric(strings.TrimSpace(part)) })
}

// maySize reports whether a column may be one of diameters of parts: its heading is not understood as something else, and most of its
// cells are numbers that are the outside or the hole of one in mm or in inches. A heading that seems to speak of something else may be one
// of sizes where it has a word of these too: its other words are none of ours.
func (t *Table) maySize() bool {
	od, _ := traits.BoundsOf(catalog.Ferrules, catalog.BaseOD)
	bore, _ := traits.BoundsOf(catalog.Ferrules, catalog.Bore)
	return slices.ContainsFunc(t.Columns, func(c *Column) bool {
		found := c.Matches[catalog.UnknownKind]
		if c.irrelevant != "" && !(c.aside && traits.IsLengthUnit(c.HeadingUnit) && t.Lex.Words.SpeaksOfFit(c.Text)) || len(found) > 0 && traits.Of[catalog.Role(found[0].Role)].Want != traits.Length || c.Profile.counts() {
			return false
		}
		possible, several := 0, 0
		for _, text := range c.Profile.Texts {
			if severalSizes(text) {
				several++
			}
		}
		for _, s := range c.Profile.Sizes {
			if slices.ContainsFunc(traits.LengthUnits[:2], func(unit string) bool { return od.Possible(s.MM(unit)) || bore.Possible(s.MM(unit)) }) {
				possible++
			}
		}
		return c.Profile.share(max(possible, several)) >= rivalShare
	})
}
