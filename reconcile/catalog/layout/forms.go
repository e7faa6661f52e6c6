package layout

import (
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
)

// A form may have its labels above the values: lines of labels with one line of values below each, of which only the first names the part.
// By their headings they are tables of one row; together they are cards.

// forms makes one table of the cards that tables of one row make together; it returns the tables as they are where they make none.
func forms(g *grid.Grid, lex *lexicon.Lexicon, tables []Region) []Region {
	if len(tables) < 2 {
		return tables
	}
	var all []card
	blocks := 0
	for i := range tables {
		r := &tables[i]
		if !r.oneRow(lex) {
			return tables
		}
		entries := r.entries(lex)
		if len(entries) == 0 {
			return tables
		}
		named := hasRole(entries, catalog.Part)
		switch {
		case named:
			all = append(all, entries)
		case len(all) == 0:
			return tables
		default:
			blocks++
			all[len(all)-1] = append(all[len(all)-1], entries...)
		}
	}
	if blocks == 0 || !namedAndSized(all) {
		return tables
	}
	r, ok := arrangeCards(g, all)
	if !ok {
		return tables
	}
	return []Region{r}
}

// oneRow reports whether a table has one row and then a blank line, the headings of the next one or nothing, and no further rows below.
func (r *Region) oneRow(lex *lexicon.Lexicon) bool {
	if !r.Grid.AsDrawn() || len(r.Headings) == 0 || r.Body > r.To || r.Grid.BlankLine(r.Body, r.Left, r.Right) ||
		r.Body < r.To && !r.Grid.BlankLine(r.Body+1, r.Left, r.Right) {
		return false
	}
	for line := r.Body + 2; line <= r.To; line++ {
		if !r.Grid.BlankLine(line, r.Left, r.Right) {
			return r.onlyWords(lex, line) // labels of what is no part: who checked it, and when
		}
	}
	return true
}

// onlyWords reports whether a line has no value and no part number.
func (r *Region) onlyWords(lex *lexicon.Lexicon, line int) bool {
	for _, id := range r.Grid.Row(line, r.Left, r.Right) {
		if text := r.Grid.Text(id); text != "" && (r.Grid.Is(lexicon.AsValue, lex, id) || lexicon.BearsDigits(text)) {
			return false
		}
	}
	return true
}

// labelled returns the role that a heading names, empty where it is not understood.
func labelled(lex *lexicon.Lexicon, h Heading) catalog.Role {
	if found := lex.Match(h.Parts...); len(found) > 0 && found[0].Score >= lexicon.HeadingScore {
		return catalog.Role(found[0].Role)
	}
	return ""
}

// entries returns the headings of a table of one row with their values. The value of one without a value in its own column is none.
func (r *Region) entries(lex *lexicon.Lexicon) []entry {
	g := r.Grid
	var entries []entry
	for _, h := range r.Columns {
		value := g.At(r.Body, h.Col)
		if h.Text == "" || value == "" {
			continue
		}
		at := g.Ref(r.Headings[0], h.Col)
		for _, line := range r.Headings {
			if g.At(line, h.Col) != "" {
				at = g.Ref(line, h.Col)
			}
		}
		label := h.Text
		if h.Unit != "" {
			label += " (" + h.Unit + ")"
		}
		entries = append(entries, entry{label: label, value: value, at: at, valueAt: g.Ref(r.Body, h.Col), role: labelled(lex, h)})
	}
	return entries
}

func hasRole(entries []entry, role catalog.Role) bool {
	for _, e := range entries {
		if e.role == role {
			return true
		}
	}
	return false
}
