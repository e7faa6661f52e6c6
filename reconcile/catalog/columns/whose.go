package columns

import (
	"fmt"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// Part numbers stand in two columns: those of the firm whose list it is, "Ours", and those of the maker or the customer, "Maker's". Parts are
// ordered by the former.

// numbers is a column of part numbers, and whose they are.
type numbers struct {
	*Column
	whose words.Whose
	// alone is set where the heading says whose they are and nothing else.
	alone bool
}

// tellWhose lets only those count of several columns of part numbers that are nearest to the firm's own.
func (t *Table) tellWhose() {
	var all []numbers
	for _, c := range t.Columns {
		if n, are := t.numbersOf(c); are {
			all = append(all, n)
		}
	}
	best := bestNumbers(all)
	if best.Column == nil {
		return
	}
	for _, n := range all {
		if n.whose < best.whose && n.whose != words.Anybodys && (!n.alone || n.mostlyNumbers()) {
			n.ours = best.Column
			n.irrelevant = fmt.Sprintf("its part numbers are not those of the firm, which column %s gives", t.Region.Grid.ColumnName(best.Col))
			if best.alone {
				best.takeForParts()
			}
		}
	}
}

// numbersOf returns what the heading of a column of part numbers says of whose they are.
func (t *Table) numbersOf(c *Column) (n numbers, are bool) {
	if c.irrelevant != "" || c.Deviation != 0 || c.Text == "" {
		return numbers{}, false
	}
	n.Column = c
	n.whose, n.alone = t.Lex.Words.Whose(c.Parts...)
	return n, n.alone || len(c.Matches[catalog.UnknownKind]) > 0 && c.bestHeading() == c.headed(catalog.UnknownKind, catalog.Part) && c.bestHeading() >= lexicon.SpecificHeading
}

// bestNumbers returns the first of the columns that are nearest to the firm's own and hold numbers of parts, each another one, in as many lines
// as any other.
func bestNumbers(all []numbers) (best numbers) {
	most := 0
	for _, n := range all {
		most = max(most, n.Profile.Filled)
	}
	for _, n := range all {
		if n.mostlyNumbers() && n.Profile.Filled == most && !n.hidden && (best.Column == nil || n.whose > best.whose) {
			best = n
		}
	}
	return best
}

// mostlyNumbers reports whether the values of a column look like part numbers, nearly each another one, and do not number the lines.
func (c *Column) mostlyNumbers() bool {
	p := &c.Profile
	return p.Filled > 0 && p.share(p.codes) >= 0.7 && p.share(p.distinct) >= 0.8 && p.share(p.decimals) == 0 && !p.counts()
}

// tellOldNumbers lets no column of old part numbers count beside one of those that hold now: "nr" and "oud nr".
func (t *Table) tellOldNumbers() {
	for _, old := range t.Columns {
		if !old.headsParts() || old.age(t.Lex) >= 0 || old.irrelevant != "" {
			continue
		}
		for _, now := range t.Columns {
			if now == old || !now.headsParts() || now.age(t.Lex) < 0 || now.irrelevant != "" || now.hidden || !now.mostlyNumbers() {
				continue
			}
			old.ours, old.irrelevant = now, fmt.Sprintf("its part numbers are old, and column %s gives those that hold", t.Region.Grid.ColumnName(now.Col))
			now.takeForParts()
			break
		}
	}
}

// headsParts reports whether a heading may be that of part numbers.
func (c *Column) headsParts() bool {
	return c.Text != "" && c.Deviation == 0 && c.headed(catalog.UnknownKind, catalog.Part) >= lexicon.LeastHeading
}

// takeForParts lets the heading of a column say that it gives the numbers of parts.
func (c *Column) takeForParts() {
	for kind := range c.Matches {
		c.Matches[kind] = append(c.Matches[kind], words.RoleMatch{Role: string(catalog.Part), Score: repeatHeading, Words: c.Text})
	}
}

// reportWhose says of part numbers that are not those of the firm that they are not used.
func (t *Table) reportWhose() {
	for _, c := range t.Columns {
		if c.ours == nil || c.Role != "" || t.ruledOut(c) || c.ours.Role != catalog.Part {
			continue
		}
		name := t.Region.Grid.ColumnName(c.Col)
		t.AddColumn(finding.Note, "layout.column", c.Col, fmt.Sprintf("column %s %q is not used: %s", name, c.Text, c.irrelevant), t.Settle("columns", name, "role"))
	}
}
