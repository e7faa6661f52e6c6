package layout

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// No part may vanish without a word: lines that no table has are looked at for what parts look like, and letters for part numbers that none
// of their items has.

// leastInRow is how many sizes a line of numbers without headings has that looks like a part.
const leastInRow = 2

// LikePart returns the part number of a line that looks like a part, empty where it does not: a part number, and behind it sizes with names
// or units, or several numbers that can be sizes.
func LikePart(lex *lexicon.Lexicon, g *grid.Grid, line int) string {
	if number, said := beginItem(g, lex, line); number != "" && slices.ContainsFunc(said, func(one saidAt) bool { return saysSize(lex, one.text) }) {
		return number
	}
	if number, _, _ := introducedItem(g, lex, line); number != "" {
		return number
	}
	number, sizes, fine := "", 0, false
	for _, id := range g.Row(line, 1, g.Width) {
		switch text := g.Text(id); {
		case text == "":
		case number == "":
			if number = text; !lexicon.IsItemNumber(text) && !isLongNumber(text) {
				return ""
			}
		case mayBeSize(lex, text):
			sizes++
			fine = fine || strings.ContainsAny(text, sizetext.DecimalMarks)
		}
	}
	if sizes < leastInRow || !fine {
		return ""
	}
	return number
}

// SpeaksOfPart reports whether a line is a sentence about a part, which its words may make look like a heading or the row of some table: behind a
// part number it gives several sizes by name, or one and a price.
func SpeaksOfPart(lex *lexicon.Lexicon, g *grid.Grid, line int) bool {
	number, said := beginItem(g, lex, line)
	if number == "" {
		number, _, _ = introducedItem(g, lex, line)
		return number != ""
	}
	return saysEnough(lex, said)
}

// saysSize reports whether a text gives a size by name that is possible.
func saysSize(lex *lexicon.Lexicon, text string) bool {
	return slices.ContainsFunc(slices.Concat(sizetext.In(lex, text, false), sizetext.In(lex, text, true)), func(s sizetext.Size) bool { return s.Possible(lex) })
}

// isLongNumber reports whether a text is a part number without letters.
func isLongNumber(text string) bool {
	return len(text) >= lexicon.LeastInNumber && strings.Trim(text, "0123456789") == ""
}

// mayBeSize reports whether a text can be the size of a bore or of what fits about it.
func mayBeSize(lex *lexicon.Lexicon, text string) bool {
	possible := func(mm float64) bool {
		return slices.ContainsFunc([]catalog.Role{catalog.Bore, catalog.BaseOD, catalog.HoselOD}, func(role catalog.Role) bool { return sizetext.PossibleAs(role, mm) })
	}
	switch one := lex.Read(text, value.Context{Want: value.WantLength}); one.Kind {
	case value.Length:
		return possible(traits.MM(one.Dim.Nominal()))
	case value.Number:
		return possible(one.Number) || possible(one.Number*traits.UnitMM["in"])
	}
	return false
}

// Named is a part number that a cell names.
type Named struct {
	Number string
	At     sheet.Ref
}

// Unsaid is a number in a text about a part that can be a size and has no name.
type Unsaid struct {
	Text, Part string
	At         sheet.Ref
}

// Unsaid returns the numbers in the texts of a letter about its parts that can be sizes and of which it is not known which.
func (r *Region) Unsaid() []Unsaid { return r.unsaid }

// NamedOnly returns the part numbers that the cells of a letter name and none of its items has: those that differ from an item's in their
// last number only. It returns none for other tables.
func (r *Region) NamedOnly() []Named {
	if !r.letter {
		return nil
	}
	known, shapes := map[string]bool{}, map[string]bool{}
	for line := r.Body; line <= r.To; line++ {
		number := r.Grid.At(line, 1)
		for _, part := range append(lexicon.PartsOf(number), number) {
			known[words.Fold(part)] = true
			if shape, ok := lexicon.ShapeOf(part); ok {
				shapes[shape] = true
			}
		}
	}
	alike := anyOfShapes(shapes)
	if alike == nil {
		return nil
	}
	var named []Named
	for line := 1; line <= r.Drawn.Lines; line++ {
		for i, id := range r.Drawn.Row(line, 1, r.Drawn.Width) {
			for _, number := range found(alike, r.Drawn.Text(id)) {
				if folded := words.Fold(number); !known[folded] {
					known[folded] = true // once is enough
					named = append(named, Named{number, r.Drawn.Ref(line, i+1)})
				}
			}
		}
	}
	return named
}

// mostShapes is how many shapes of part numbers are looked for.
const mostShapes = 20

// anyOfShapes is an expression for part numbers of some shapes, nil where there are none, or too many.
func anyOfShapes(shapes map[string]bool) *regexp.Regexp {
	if len(shapes) == 0 || len(shapes) > mostShapes {
		return nil
	}
	var all []string
	for shape := range shapes {
		before, behind, _ := strings.Cut(shape, "#")
		all = append(all, regexp.QuoteMeta(before)+`\d+`+regexp.QuoteMeta(behind))
	}
	slices.SortFunc(all, func(a, b string) int { return len(b) - len(a) })
	return regexp.MustCompile(strings.Join(all, "|"))
}

// found returns what an expression matches in a text that is no part of a longer word or number.
func found(expression *regexp.Regexp, text string) []string {
	var all []string
	for _, at := range expression.FindAllStringIndex(text, -1) {
		before, after := []rune(text[:at[0]]), []rune(text[at[1]:])
		if len(before) > 0 && goesWith(before[len(before)-1]) || len(after) > 0 && goesWith(after[0]) {
			continue
		}
		all = append(all, text[at[0]:at[1]])
	}
	return all
}

func goesWith(sign rune) bool {
	return lexicon.InWord(sign) || unicode.IsDigit(sign) || sign == '-' || sign == '_'
}
