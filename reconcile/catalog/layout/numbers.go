package layout

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/numberkey"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// Part numbers may hold the sizes, and a key above or below the list say how. Each size that no column gives is read as a column of its own, whose
// cells are those of the part numbers.

// FindKeys notes for each table the texts about it that may explain its part numbers: those above its headings and at the end of its sheet,
// or, where these have none of them, those of sheets without a table.
func FindKeys(grids []*grid.Grid, regions []*Region) {
	tables := map[*grid.Grid][]*Region{}
	for _, r := range regions {
		if r.Grid.AsDrawn() {
			tables[r.Grid] = append(tables[r.Grid], r)
		}
	}
	var apart []numberkey.Text
	for _, g := range grids {
		if len(tables[g]) == 0 && g.Lines <= keyZone {
			apart = append(apart, keyTexts(g, 1, g.Lines)...)
		}
	}
	for g, all := range tables {
		for _, r := range all {
			first := r.Body
			if len(r.Headings) > 0 {
				first = r.Headings[0]
			}
			above := keyTexts(g, max(1, first-keyZone), first-1)
			below := slices.DeleteFunc(keyTexts(g, max(r.Body, g.Lines-keyZone+1), g.Lines), func(one numberkey.Text) bool { return r.isRow(one.At) })
			r.keys = slices.Concat(above, below, apart)
			r.keys = r.keys[:min(len(r.keys), mostKeyTexts)]
		}
	}
}

// isRow reports whether a place is in a line that begins with a part number.
func (r *Region) isRow(at sheet.Ref) bool {
	first := firstText(r.Grid, at.Row, span{left: 1, right: r.Grid.Width})
	return len(first) >= lexicon.LeastInNumber && lexicon.LooksLikeCode(first) && lexicon.BearsDigits(first)
}

// keyTexts returns the texts of some lines that have no more than a letter or code, its words and their unit: lines of a table are fuller.
// What was cut at the signs within brackets is put together again.
func keyTexts(g *grid.Grid, from, to int) (all []numberkey.Text) {
	for line := from; line <= to; line++ {
		var cells []numberkey.Text
		for i, id := range g.Row(line, 1, g.Width) {
			if text := g.Text(id); text != "" && len(text) <= lexicon.LongestNote {
				cells = append(cells, numberkey.Text{Text: text, At: g.Ref(line, i+1)})
			}
		}
		cells = rejoined(cells)
		switch {
		case len(cells) == 0:
		case len(cells) > 1 && len(cells) <= 3 && !lexicon.LooksNumeric(cells[1].Text) && (numberkey.BeginsPair(cells[0].Text) || numberkey.NamesPlace(cells[0].Text)) && !strings.ContainsAny(cells[0].Text, numberkey.PairSigns):
			said := cells[0].Text + " = " + cells[1].Text
			if len(cells) == 3 {
				said += " (" + cells[2].Text + ")"
			}
			all = append(all, numberkey.Text{Text: said, At: cells[0].At})
		case len(cells) == 2 && numberkey.BeginsPair(cells[0].Text) && !strings.ContainsAny(cells[0].Text, numberkey.PairSigns):
			all = append(all, numberkey.Text{Text: cells[0].Text + " = " + cells[1].Text, At: cells[0].At})
		case len(cells) == 2 && !lexicon.LooksNumeric(cells[1].Text) && strings.ContainsAny(cells[1].Text, "-_/[<{"):
			all = append(all, cells[1]) // a template behind what it is called
		case len(cells) == 1 || slices.ContainsFunc(cells, func(c numberkey.Text) bool { return strings.ContainsAny(c.Text, numberkey.PairSigns) }):
			all = append(all, cells...)
		}
	}
	return all
}

// rejoined puts cells together again that were one text with commas in brackets.
func rejoined(cells []numberkey.Text) []numberkey.Text {
	var all []numberkey.Text
	for _, one := range cells {
		if n := len(all); n > 0 && countSigns(all[n-1].Text, "(（") > countSigns(all[n-1].Text, ")）") {
			all[n-1].Text += ", " + one.Text
			continue
		}
		all = append(all, one)
	}
	return all
}

// readNumbers adds columns for what the part numbers of a column hold, by the key of the table, and reports what a key says and cannot be read
// by it. Kind is what the table lists as far as that is known.
func (r *Region) readNumbers(lex *lexicon.Lexicon, kind catalog.Kind) {
	if len(r.keys) == 0 || !r.Grid.AsDrawn() {
		return
	}
	for _, h := range r.Columns {
		if r.gridVirtual(h.Col) {
			continue
		}
		k, seen := numberkey.Find(lex, kind, r.keys, r.numbersOf(h.Col))
		if k != nil {
			r.addNumberColumns(lex, kind, h, k)
			return
		}
		if seen != nil {
			r.KeyUnread = fmt.Sprintf("%s seems to say how the numbers under %q are built, and could not be read as a key to their sizes", Describe(seen.Text, seen.At.String()), h.Text)
			r.KeyAt = seen.At
			return
		}
	}
}

// numbersOf returns the part numbers in a sample of a column, none where it has other texts or bare numbers.
func (r *Region) numbersOf(col int) []string {
	var numbers []string
	filled, seen := 0, map[string]bool{}
	for _, line := range r.SampleLines() {
		text := r.Grid.At(line, col)
		if text == "" {
			continue
		}
		filled++
		if numberkey.MayHoldSizes(text) && !seen[text] {
			seen[text] = true
			numbers = append(numbers, text)
		}
	}
	if 100*len(numbers) < numberkey.LeastOfKey*filled {
		return nil
	}
	return numbers
}

// addNumberColumns adds a column for each field of a key that no column gives, and the reasons why some numbers cannot be read.
func (r *Region) addNumberColumns(lex *lexicon.Lexicon, kind catalog.Kind, h Heading, k *numberkey.Key) {
	if len(k.Lost) > 0 {
		r.KeyUnread = fmt.Sprintf("the key %q names %s, and in what the digits of that count is not said; it is not read", k.Text, phrase.All(k.Lost))
		r.KeyAt = k.At
	}
	var added []int
	for i := range k.Fields {
		f := &k.Fields[i]
		if f.Gives() && !r.gives(lex, f.Role) {
			added = append(added, i)
		}
	}
	if len(added) == 0 {
		return
	}
	why := fmt.Sprintf("the numbers under %q are read by the key in %s, %q", h.Text, k.At, k.Text)
	read := func(number string) ([]string, []string) { return k.Read(kind, number, added) }
	cols := r.Grid.AddVirtual(h.Col, len(added), r.Body, r.To, func(number string) []string {
		pieces, _ := read(number)
		return pieces
	})
	for n, i := range added {
		f := &k.Fields[i]
		r.Columns = append(r.Columns, Heading{Col: cols[n], Parts: []string{f.Name}, Text: h.Text + ": " + f.Name, Unit: f.Unit(), Order: why, Inferred: f.Inferred})
	}
	for line := r.Body; line <= r.To; line++ {
		number := r.Grid.At(line, h.Col)
		if number == "" || r.Aside[line] != "" {
			continue
		}
		if _, whys := read(number); whys != nil {
			r.openAt(cols, whys, line)
			for n, i := range added {
				if whys[n] != "" && !k.Fields[i].IsSize() {
					r.Unexplained = append(r.Unexplained, Unexplained{line, cols[n], whys[n]})
				}
			}
		}
	}
}

// gives reports whether a column with a heading gives a role.
func (r *Region) gives(lex *lexicon.Lexicon, role catalog.Role) bool {
	return slices.ContainsFunc(r.Columns, func(h Heading) bool {
		found := lex.Match(h.Parts...)
		if len(found) == 0 || found[0].Score < lexicon.HeadingScore || found[0].Role != string(role) {
			return false
		}
		return traits.Of[role].Want != traits.Length || r.givesSizes(lex, h.Col, role)
	})
}
