package rows

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// A note or description may name a size of its part: "hosel OD .520" beside .540. It is said; the column counts. What speaks of a change is another
// matter, see [cells.Reader.Asked].

// compareNamed says which notes and descriptions name a size and give another one than its column.
func (t *Table) compareNamed() {
	names := map[string]bool{} // whether texts name sizes, by their words: the digits of a long list all differ
	last := 0
	for _, e := range t.Items {
		if e.Line == last {
			continue
		}
		last = e.Line
		for _, c := range t.remarks {
			line, col := t.Region.Grid.Source(e.Line, c.Col)
			text := t.Region.Grid.At(line, col)
			if c.Role == catalog.Stock || !t.Searched(e.Line) || !mayName(text) {
				continue
			}
			words := layout.WithoutDigits(text)
			may, known := names[words]
			if known && !may {
				continue
			}
			named := t.namedIn(text)
			if !known {
				may = named.any && !t.speaksOfOthers(text)
				names[words] = may
			}
			at := t.Region.Grid.Ref(line, col)
			if !may || named.allFrom(at.String(), &e.Fields) {
				continue
			}
			for _, one := range t.sizesNamed(text, named) {
				t.compareOneNamed(e, one, text, at)
			}
		}
	}
}

// mayName reports whether a text has what a size with its name needs.
func mayName(text string) bool {
	return len(text) <= lexicon.LongestNote && lexicon.BearsNumber(text) && strings.ContainsFunc(text, unicode.IsLetter)
}

// named are the sizes of a text whose names stand before them, or behind, as far as parts can have them; any is set where it names one of the
// table's sizes at all.
type named struct {
	before, behind []layout.Described
	any            bool
}

// allFrom reports whether the fields of a row have all of these sizes from one cell, that of the text itself: it is what they were read from.
func (n named) allFrom(cell string, fields *catalog.Fields) bool {
	other := func(one layout.Described) bool { return fields.Get(one.Role).Cell != cell }
	return len(n.before)+len(n.behind) > 0 && !slices.ContainsFunc(n.before, other) && !slices.ContainsFunc(n.behind, other)
}

// namedIn returns the sizes that a text names.
func (t *Table) namedIn(text string) (n named) {
	possible := func(behind bool) (sizes []layout.Described) {
		for _, s := range sizetext.In(t.Lex, text, behind) {
			role := t.SizeNamed(s.Name)
			if role == "" {
				continue
			}
			n.any = true
			if reading, possible := layout.ReadDescribed(t.Lex, t.Kind, role, s.Text, t.unitOf(role)); possible {
				sizes = append(sizes, layout.Described{Role: role, Text: s.Text, Reading: reading})
			}
		}
		return sizes
	}
	n.before = possible(false)
	n.behind = possible(true)
	return n
}

// sizesNamed returns the sizes that a text gives by name: those that descriptions give, and others that have no unit. Their names stand before them
// or behind, whichever are more.
func (t *Table) sizesNamed(text string, n named) []layout.Described {
	all := layout.DescribedSizes(t.Lex, t.Kind, text, t.unitOf)
	others := n.before
	if len(n.behind) > len(others) {
		others = n.behind
	}
	for _, one := range others {
		if !slices.ContainsFunc(all, func(other layout.Described) bool { return other.Role == one.Role }) {
			all = append(all, one)
		}
	}
	return all
}

// speaksOfOthers reports whether a text names the other sort of parts, what changed, or what is old or new.
func (t *Table) speaksOfOthers(text string) bool { return speaksOfOthers(t.Lex, t.Kind, text) }

func speaksOfOthers(lex *lexicon.Lexicon, kind catalog.Kind, text string) bool {
	for _, other := range othersOf[kind] {
		if lex.Words.Mentions(other, text) {
			return true
		}
	}
	return speaksOfChange(lex, text)
}

// speaksOfChange reports whether a text says what changed, or what is old or new.
func speaksOfChange(lex *lexicon.Lexicon, text string) bool {
	changes, _ := lex.Words.SpeaksOfChange(text)
	return changes.Value != "" || slices.ContainsFunc(strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }), func(word string) bool { return lex.Age(word) != 0 })
}

// othersOf are the words for what parts of each kind go with.
var othersOf = [...][]string{catalog.Heads: {"ferrule"}, catalog.Ferrules: {"hosel", "head"}, catalog.Tips: {"hosel", "head", "ferrule"}}

// compareOneNamed says where a size that a text names is another than that of its column.
func (t *Table) compareOneNamed(e *Entry, one layout.Described, text string, at sheet.Ref) {
	f := e.Fields.Get(one.Role)
	if t.Answered(e.Line, one.Role) || t.ByRole[one.Role] == nil || !f.Dim.Given() || f.Cell == at.String() || t.sameSize(f, one) || one.IsTipName() {
		return
	}
	where := finding.Place{File: t.File, Sheet: t.Sheet.Name, Row: at.Row, Cell: at.String()}
	t.sayOtherSize(e, one.Role, e.sizeOf(one.Role), fmt.Sprintf("the text in %s, %q, says %s", at, phrase.Brief(text), one.Text), where)
}
