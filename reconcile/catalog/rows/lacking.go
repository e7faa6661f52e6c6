package rows

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
)

// A size that nearly every row of a table has, and one leaves blank, was forgotten, unless parts like it have none.
const (
	// leastHaving is how many rows have to have a size for one without it to say anything, lackingShare which share of the rows may lack it where more
	// than one does, and mostLacking how many: more are no slips.
	leastHaving  = 4
	lackingShare = 0.05
	mostLacking  = 12
)

// compareBlanks says which sizes are blank that nearly all other rows have.
func (t *Table) compareBlanks() {
	if t.Adds || t.Region.Grid.Arranged() || t.SpeakOfBlanks() {
		return
	}
	for _, c := range t.read {
		if c.Trait().Want == traits.Length && !c.Trait().MayLack && c.Held == "" && c.Older == nil && len(c.Clubs) == 0 {
			t.compareBlanksOf(c)
		}
	}
}

func (t *Table) compareBlanksOf(c *cells.Column) {
	having, last := 0, 0
	var lacking []*Entry
	for _, e := range t.Items {
		if e.Line == last {
			continue
		}
		last = e.Line
		if f := e.Fields.Get(c.Role); f.Text != "" || f.Dim.Given() {
			having++
		} else if lacking = append(lacking, e); len(lacking) > 1 && float64(len(lacking)) > min(lackingShare*float64(len(t.Items)), mostLacking) {
			return
		}
	}
	if having < leastHaving {
		return
	}
	for _, e := range lacking {
		if e.Held() || t.explainsBlank(e, c.Role) || t.Region.Grid.Filled(e.Line, c.Col) != "" {
			continue
		}
		t.AddBy("blank", finding.Warning, "data.missing", e.Line, c.Col, fmt.Sprintf("%s of %s is blank, and nearly all other rows have it", catalog.RoleName(t.Kind, c.Role), e.Part),
			t.Settle("rows", t.LineName(e.Line), string(c.Role)))
	}
}

// explainsBlank reports whether a row that lacks a size has a remark, is of another kind than all that have the size, or another row is the same part.
func (t *Table) explainsBlank(e *Entry, role catalog.Role) bool {
	if e.Fields.Text(catalog.Note) != "" || t.remarked(e.Line) {
		return true
	}
	kinds := [...]func(*Entry) string{
		func(e *Entry) string { return e.Category },
		func(e *Entry) string { return e.Fields.Text(catalog.Category) },
		func(e *Entry) string { return e.Fields.Text(catalog.Style) },
		func(e *Entry) string { return e.Fields.Text(catalog.Material) },
		func(e *Entry) string { return e.Fields.Text(catalog.BoreForm) },
		func(e *Entry) string { return e.Fields.Text(catalog.Top) },
	}
	for _, kind := range kinds {
		if own := kind(e); own != "" && !slices.ContainsFunc(t.Items, func(other *Entry) bool { return kind(other) == own && other.Fields.Dim(role).Given() }) {
			return true
		}
	}
	return slices.ContainsFunc(t.Items, func(other *Entry) bool { return other != e && other.Part == e.Part && other.Fields.Dim(role).Given() })
}

// remarked reports whether a line has a text of several words, which no other has, in a column that is not read.
func (t *Table) remarked(line int) bool {
	return slices.ContainsFunc(t.Columns, func(c *cells.Column) bool {
		text := t.Region.Grid.Filled(line, c.Col)
		return c.Role == "" && strings.Contains(text, " ") && !lexicon.LooksNumeric(text) && c.Profile.Has(text) <= 1
	})
}
