package layout

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/words"
)

// A list may give a letter or code for the size of each part, and another table, mostly on a sheet of its own, the sizes of each letter.
// The list is then read with a column for each of these sizes, whose cells are those of the letter.

// key is a table of the sizes of letters.
type key struct {
	*Region
	// col is the column of the letters, and sizes are those of the sizes.
	col   Heading
	sizes []Heading
	// rows are the texts of the sizes by letter.
	rows map[string][]string
}

const (
	// mostLetters is how many letters a key has at most, and longestLetter how long they are, in bytes.
	mostLetters   = 60
	longestLetter = 12
	// mostTables is how many tables a book with keys has, and mostKeys how many of them may be keys: each is held against all others.
	mostTables = 500
	mostKeys   = 20
	// leastLetters is how many letters a list and a key have in common, and leastKnown how many of a list's in percent the key knows.
	leastLetters = 2
	leastKnown   = 60
)

// ResolveLetters finds the tables among some that explain letters of others, gives these the sizes, and returns which are such keys, each
// with what is to be said of it.
func ResolveLetters(lex *lexicon.Lexicon, regions []*Region) map[*Region]string {
	said := map[*Region]string{}
	if len(regions) > mostTables {
		return said
	}
	var keys []*key
	for _, r := range regions {
		if k := r.asKey(lex); k != nil && len(keys) < mostKeys {
			keys = append(keys, k)
		}
	}
	for _, k := range keys {
		for _, r := range regions {
			if r == k.Region || said[r] != "" || !r.Grid.AsDrawn() || r.Guessed || r.sized(lex) {
				continue
			}
			if at := r.lettersOf(k, lex); at >= 0 {
				why := fmt.Sprintf("the sizes of each %q are those of sheet %q", r.Columns[at].Text, k.Grid.Sheet.Name)
				r.takeSizes(k, at, lex, why)
				said[k.Region] = fmt.Sprintf("the table gives the sizes of each %q of sheet %q; it lists no parts itself", r.Columns[at].Text, r.Grid.Sheet.Name)
			}
		}
	}
	return said
}

// asKey returns a table as one of the sizes of letters, nil where it is none.
func (r *Region) asKey(lex *lexicon.Lexicon) *key {
	if !r.Grid.AsDrawn() || r.Guessed || len(r.Columns) < 2 || r.To-r.Body >= 2*mostLetters {
		return nil
	}
	k := &key{Region: r, rows: map[string][]string{}}
	for _, h := range r.Columns {
		switch {
		case h.Text == "":
		case k.col.Text == "":
			k.col = h
		case traits.Of[labelled(lex, h)].Want == traits.Length:
			k.sizes = append(k.sizes, h)
		}
	}
	if len(k.sizes) == 0 || traits.Of[labelled(lex, k.col)].Want == traits.Length {
		return nil
	}
	for line := r.Body; line <= r.To; line++ {
		letter := r.Grid.At(line, k.col.Col)
		if letter == "" {
			continue
		}
		folded := words.Fold(letter)
		if len(letter) > longestLetter || k.rows[folded] != nil || len(k.rows) == mostLetters {
			return nil
		}
		texts := make([]string, len(k.sizes))
		for i, h := range k.sizes {
			texts[i] = r.Grid.At(line, h.Col)
			if unit := lex.FormatUnit(r.Grid.Cell(line, h.Col).Format); texts[i] != "" && traits.IsLengthUnit(unit) {
				texts[i] += " " + unit
			}
		}
		k.rows[folded] = texts
	}
	return k
}

// sized reports whether a heading of the table names a size.
func (r *Region) sized(lex *lexicon.Lexicon) bool { return r.hasDimension(lex) }

// lettersOf returns which column of a list has the letters of a key, -1 where none has: one that comes back, and is headed as the key is
// or knows nothing else.
func (r *Region) lettersOf(k *key, lex *lexicon.Lexicon) int {
	lines := r.SampleLines()
	best := -1
	named := false
	for i, h := range r.Columns {
		if labelled(lex, h) == catalog.Part && !strings.EqualFold(h.Text, k.col.Text) {
			named = true
			continue
		}
		filled, known, letters := 0, 0, map[string]bool{}
		for _, line := range lines {
			text := r.Grid.Filled(line, h.Col)
			if text == "" {
				continue
			}
			filled++
			if folded := words.Fold(text); k.rows[folded] != nil {
				known++
				letters[folded] = true
			}
		}
		same := words.Fold(h.Text) == words.Fold(k.col.Text)
		if len(letters) >= leastLetters && len(letters) < known && 100*known >= leastKnown*filled && (same || known == filled) && (best < 0 || same) {
			best = i
		}
	}
	if !named {
		return -1
	}
	return best
}

// takeSizes adds the columns of the sizes of letters.
func (r *Region) takeSizes(k *key, at int, lex *lexicon.Lexicon, why string) {
	h := r.Columns[at]
	divide := func(text string) []string {
		if texts := k.rows[words.Fold(text)]; texts != nil {
			return texts
		}
		return make([]string, len(k.sizes))
	}
	for i, col := range r.Grid.AddVirtual(h.Col, len(k.sizes), r.Body, r.To, divide) {
		size := k.sizes[i]
		r.Columns = append(r.Columns, Heading{Col: col, Parts: size.Parts, Text: h.Text + ": " + size.Text, Unit: HeadingUnit(lex, size), Order: why})
	}
}
