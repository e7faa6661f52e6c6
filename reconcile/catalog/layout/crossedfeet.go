package layout

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/sheet"
)

// Below the field of a cross table, or between it and the sizes across, may stand what is said of all parts of a column: "Price each" with one price
// below each length.

// foot is such a line, with its label.
type foot struct {
	line  int
	label string
	at    sheet.Ref
	role  catalog.Role
}

// footRoles are what such a line may give.
var footRoles = []catalog.Role{catalog.Price, catalog.Stock, catalog.Pack}

// findShoulders finds such lines right below the sizes across.
func (x *crossed) findShoulders(lex *lexicon.Lexicon) {
	for x.first < x.g.Lines {
		f, ok := x.footAt(lex, x.first)
		if !ok {
			return
		}
		x.feet = append(x.feet, f)
		x.first++
	}
}

// findFeet finds the lines below the field that give something for its columns, the first right below it or below a blank line.
func (x *crossed) findFeet(lex *lexicon.Lexicon) {
	line := x.last + 1
	if line <= x.g.Lines && x.g.BlankLine(line, 1, x.g.Width) {
		line++
	}
	for ; line <= x.g.Lines; line++ {
		f, ok := x.footAt(lex, line)
		if !ok || slices.ContainsFunc(x.feet, func(other foot) bool { return other.role == f.role }) {
			return
		}
		x.feet = append(x.feet, f)
		x.last = line
	}
}

// footAt returns the label of a line that has a number, or a word that there is none, in the columns of the field and nothing else.
func (x *crossed) footAt(lex *lexicon.Lexicon, line int) (f foot, ok bool) {
	numbers := 0
	for col := 1; col <= x.g.Width; col++ {
		text := x.g.At(line, col)
		switch {
		case text == "":
		case col < x.columns[0] && f.label == "":
			role, score := lex.RoleOfLabel(strings.TrimRight(text, ":： "))
			if score < lexicon.HeadingScore || !slices.Contains(footRoles, role) {
				return foot{}, false
			}
			f = foot{line, text, x.g.Ref(line, col), role}
		case f.label == "" || !slices.Contains(x.columns, col) || !isFootValue(lex, text):
			return foot{}, false
		case !isNone(lex, text):
			numbers++
		}
	}
	return f, numbers > 0
}

// isFootValue reports whether a text is a number, perhaps with its currency, or says that there is none.
func isFootValue(lex *lexicon.Lexicon, text string) bool {
	if isNone(lex, text) || isCount(lex, text) {
		return true
	}
	_, known := spoken.AmountIn(lex, text)
	return known
}

// footLines are the lines below the field.
func (x *crossed) footLines() (lines []int) {
	for _, f := range x.feet {
		lines = append(lines, f.line)
	}
	return lines
}

// footLanes are the columns of what the lines below a column of the field say of its parts. What columns beside the field or its cells give
// as well is left out: nobody knows which of the two counts.
func (x *crossed) footLanes(lex *lexicon.Lexicon, col int) (lanes []lane) {
	for _, f := range x.feet {
		text := x.g.Filled(f.line, col)
		if text == "" || isNone(lex, text) || x.givesBeside(lex, col, f.role) {
			continue
		}
		l := always(f.label, text, f.at, x.g.Ref(x.g.Source(f.line, col)))
		l.heading.Order = fmt.Sprintf("%q in %s holds for all parts of its column", f.label, f.at)
		lanes = append(lanes, l)
	}
	return lanes
}

// givesBeside reports whether a column beside the field, or what stands behind the part numbers, gives a role.
func (x *crossed) givesBeside(lex *lexicon.Lexicon, col int, role catalog.Role) bool {
	return slices.Contains(x.amountRoles(x.lines, col), role) || slices.ContainsFunc(x.beside, func(beside int) bool {
		found, score := lex.RoleOfLabel(strings.Join(textsAbove(x.g, x.besideHeadings(), beside), " "))
		return score >= lexicon.HeadingScore && found == role
	})
}

// unsureFeet says of lines below the field that what they give is given otherwise as well.
func (x *crossed) unsureFeet(lex *lexicon.Lexicon) (all []Unexplained) {
	for _, f := range x.feet {
		if slices.ContainsFunc(x.columns, func(col int) bool { return x.givesBeside(lex, col, f.role) }) {
			all = append(all, Unexplained{f.line, 0, fmt.Sprintf("%q of the cross table gives what stands beside its part numbers as well; it is not read", f.label)})
		}
	}
	return all
}
