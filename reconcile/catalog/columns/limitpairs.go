package columns

import (
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
