package rows

import (
	"slices"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/columns"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
)

// In lists of parts that are described in words, what the words say takes as long as all else together. It hangs on nothing but the text and the units
// of the columns, and is found on another core while the rows before are read.

// batchAhead is of how many lines the descriptions are read at a time.
const batchAhead = 256

// described is what a description says: whether it speaks of other parts or of a change, and its sizes if not.
type described struct {
	text   string
	others bool
	sizes  []layout.Described
}

// ahead has what the descriptions of some lines say, and of the next ones once they are found.
type ahead struct {
	// lex is asked by one goroutine at a time, and never by the one that reads the rows.
	lex *lexicon.Lexicon
	// from is the first of the lines of ready, and to the line behind the last.
	from, to int
	ready    batch
	next     chan batch
	// asked counts the lines whose descriptions were asked for.
	asked int
}

// batch is what the descriptions of some lines say, where sizes without a unit have those of the table's roles.
type batch struct {
	units []string
	said  []described
}

// describedIn returns what the description of a line says.
func (t *Table) describedIn(line int, text string) described {
	a := &t.ahead
	for line >= a.to {
		t.readAhead(line)
	}
	a.asked++
	if at := line - a.from; at >= 0 && at < len(a.ready.said) && a.ready.said[at].text == text && slices.Equal(a.ready.units, t.unitsOfRoles()) {
		return a.ready.said[at]
	}
	return describe(t.Lex, t.Kind, text, t.unitOf)
}

func describe(lex *lexicon.Lexicon, kind catalog.Kind, text string, unitOf func(catalog.Role) string) described {
	d := described{text: text, others: speaksOfOthers(lex, kind, text)}
	if !d.others {
		d.sizes = slices.Clip(layout.DescribedSizes(lex, kind, text, unitOf))
	}
	return d
}

// readAhead takes over what was found of the next lines, or begins with that of a line where nothing was looked for, and has those behind them read
// where most of the lines were asked for.
func (t *Table) readAhead(line int) {
	a := &t.ahead
	most := a.asked >= batchAhead/2
	a.asked, a.ready = 0, batch{}
	if a.next != nil {
		a.from, a.ready, a.next = a.to, <-a.next, nil
	} else {
		a.from = line
	}
	a.to = a.from + batchAhead
	c := t.ByRole[catalog.Description]
	if !most || c == nil {
		return
	}
	if a.lex == nil {
		a.lex = t.Lex.Apart()
	}
	texts := make([]string, batchAhead)
	for i := range texts {
		if at := a.to + i - t.Region.From; at < len(t.Lines) && t.Lines[at] == columns.LineData {
			texts[i] = t.Region.Grid.Filled(a.to+i, c.Col)
		}
	}
	lex, kind, units := a.lex, t.Kind, t.unitsOfRoles()
	next := make(chan batch, 1)
	a.next = next
	go func() {
		all := make([]described, len(texts))
		for i, text := range texts {
			if text != "" {
				all[i] = describe(lex, kind, text, func(role catalog.Role) string { return units[slices.Index(traits.OfKind[kind], role)] })
			}
		}
		next <- batch{units, all}
	}()
}

// unitsOfRoles are the units of the sizes of each role of the table's kind.
func (t *Table) unitsOfRoles() []string {
	units := make([]string, len(traits.OfKind[t.Kind]))
	for i, role := range traits.OfKind[t.Kind] {
		units[i] = t.unitOf(role)
	}
	return units
}
