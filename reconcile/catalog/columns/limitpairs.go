package columns

import (
	"fmt"
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

// Two columns side by side whose headings say the same but that one gives the least and the other the greatest are the limits of one size: "Shaft hole
// Ø min" and "max". Taken one by one they would be given two roles, where the words could mean another size as well.

// pairLimits finds columns of limits side by side; the second has no role of its own, but that of the first.
func pairLimits(columns []*Column) {
	for i := 0; i+1 < len(columns); i++ {
		if a, b := columns[i], columns[i+1]; a.limitsWith(b) {
			b.limitWith = a
			i++
		}
	}
}

// limitsWith reports whether two columns are headed as the two limits of one size.
func (c *Column) limitsWith(other *Column) bool {
	if c.Hints.Min == c.Hints.Max || other.Hints.Min == other.Hints.Max || c.Hints.Min == other.Hints.Min || len(c.Profile.Sizes) == 0 || len(other.Profile.Sizes) == 0 {
		return false
	}
	said := c.Matches[catalog.UnknownKind]
	return len(said) > 0 && traits.Of[catalog.Role(said[0].Role)].Want == traits.Length && c.HeadingUnit == other.HeadingUnit && c.irrelevant == "" && other.irrelevant == "" &&
		c.Gives == other.Gives && slices.Equal(said, other.Matches[catalog.UnknownKind])
}

// shareLimits gives the second columns of limits the role of the first.
func (t *Table) shareLimits() {
	for _, c := range t.Columns {
		if c.limitWith == nil || c.limitWith.Trait().Want != traits.Length || t.ruled(c) {
			continue
		}
		c.Role, c.Aspect, c.Known = c.limitWith.Role, limitOf(c), true
		c.Evidence = "heading says a limit of " + t.named(c.Role)
	}
}

// takeBareLimits takes two columns headed by nothing but the least and the greatest for the limits of the size to their left, where that lies between them
// in nearly all rows: "Base OD", "min", "max".
func (t *Table) takeBareLimits() {
	for i := 1; i+1 < len(t.Columns); i++ {
		size, a, b := t.Columns[i-1], t.Columns[i], t.Columns[i+1]
		if size.Trait().Want != traits.Length || size.Aspect != Nominal || size.Role == catalog.TipTaken || !t.isBareLimit(a) || !t.isBareLimit(b) || a.Hints.Min == b.Hints.Min {
			continue
		}
		least, most := a, b
		if b.Hints.Min {
			least, most = b, a
		}
		if !t.encloses(least, size, most) {
			continue
		}
		for _, c := range []*Column{a, b} {
			c.Role, c.Aspect, c.Known, c.irrelevant = size.Role, limitOf(c), true, ""
			c.Evidence = fmt.Sprintf("heading says a limit, and column %s to the left lies within it", t.Region.Grid.ColumnName(size.Col))
		}
		i++
	}
}

// isBareLimit reports whether a heading speaks of one limit, and says no size of which it is.
func (t *Table) isBareLimit(c *Column) bool {
	return c.Hints.Min != c.Hints.Max && (c.Role == "" || !c.Known) && (c.irrelevant == "" || c.aside) && !t.ruled(c) && len(c.Profile.Sizes) > 0 && c.Profile.share(len(c.Profile.Sizes)) >= rivalSizes
}

// encloses reports whether nearly all sizes of a column lie between those of two others, or at one of them.
func (t *Table) encloses(least, c, most *Column) bool {
	within, rows := 0, 0
	for one := range t.sizesOf(least, c, most) {
		low, size, high := one[0], one[1], one[2]
		rows++
		if low.number <= size.number && size.number <= high.number && low.number < high.number && high.number-low.number < mostApart*size.number {
			within++
		}
	}
	return within >= leastByValues && (float64(within) >= rivalShare*float64(rows) || rows-within == 1)
}

// mostApart is how far apart limits are at most, as a share of the size; common practice.
const mostApart = 0.1
