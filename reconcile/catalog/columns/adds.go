package columns

import (
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/finding"
)

// Sizes and prices often stand on two sheets or in two files, and so do outside sizes and bores. A table without what makes a part of its
// kind adds what it has to the parts of other tables, by their numbers.

// MayAdd returns the kinds of part that a table may add to: its own where it lacks the sizes that everything depends on, any where it lists
// none but has numbers with prices, stock or packs.
func (t *Table) MayAdd() []catalog.Kind {
	switch {
	case t.Rules.Kind == catalog.NoRole || t.Region.Guessed:
		return nil
	case t.Kind == catalog.UnknownKind:
		var kinds []catalog.Kind
		for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
			p := planFor(t.Lex, t.Columns, kind, false)
			if c := t.numbersAs(&p); c != nil && p.has(catalog.Price, catalog.Stock, catalog.Pack) {
				kinds = append(kinds, kind)
			}
		}
		return kinds
	case t.ByRole[catalog.Part] == nil:
		return nil
	}
	for _, role := range traits.Needed[t.Kind] {
		if t.ByRole[role] != nil {
			return nil
		}
	}
	return []catalog.Kind{t.Kind}
}

// numbers returns the column that is headed as that of part numbers, nil where none is.
func (p *plan) numbers(columns []*Column) *Column {
	for i, c := range columns {
		if p.role(i) == catalog.Part && c.headed(p.kind, catalog.Part) >= lexicon.HeadingScore && !c.Profile.counts() {
			return c
		}
	}
	return nil
}

// numbersAs returns the column of part numbers of a table of which nothing else tells what it lists: the one that is headed so by a plan, or
// the one of codes that the plan has no use for.
func (t *Table) numbersAs(p *plan) *Column {
	if c := p.numbers(t.Columns); c != nil {
		return c
	}
	return t.codesUnclaimed()
}

// AddTo takes the table for one of a kind that adds to the parts of others.
func (t *Table) AddTo(kind catalog.Kind) {
	t.Adds = true
	if t.Kind != catalog.UnknownKind {
		return
	}
	p := planFor(t.Lex, t.Columns, kind, false)
	t.adopt(&p, nil)
	t.Lines = t.classify()
}

// Numbers calls a function with the part number of each line of a table, as numbers are compared; if the table lists none yet, as if it
// were one of a kind.
func (t *Table) Numbers(kind catalog.Kind, visit func(folded string)) {
	c := t.ByRole[catalog.Part]
	if t.Kind == catalog.UnknownKind {
		p := planFor(t.Lex, t.Columns, kind, false)
		c = t.numbersAs(&p)
	}
	if c == nil {
		return
	}
	g := t.Region.Grid
	for line := t.Region.Body; line <= t.Region.To; line++ {
		if text := g.Filled(line, c.Col); text != "" {
			visit(words.Fold(text))
		}
	}
}

// Yield sets the table aside: what it lists stands in another one that goes before it.
func (t *Table) Yield(why string) {
	t.Yields, t.Kind, t.Rules.Kind = why, catalog.UnknownKind, catalog.NoRole
	t.Add(finding.Warning, "layout.hidden", 0, 0, why, t.Settle("kind"))
}
