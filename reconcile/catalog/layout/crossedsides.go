package layout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/sheet"
)

// What goes down and across in a cross table is said by the sizes themselves, in the corner, beside or above them, or in a sentence above all.

// axes returns what goes down and what across, in each line of headings from the top: the sizes say it themselves, or the margins or the
// corner do.
func (x *crossed) axes(lex *lexicon.Lexicon) (down axis, across []axis) {
	lines, columns := x.sizesDown(), x.sizesAcross()
	down = x.named(lex, lines)
	for i, cells := range columns {
		if x.words[x.top()+i] {
			across = append(across, axis{})
			continue
		}
		across = append(across, x.named(lex, cells))
	}
	for col := x.down - 1; col >= 1 && down.role == ""; col-- {
		for line := x.first; line <= x.last && down.role == "" && !slices.Contains(x.beside, col); line++ {
			down = x.axisAt(lex, line, col)
		}
	}
	x.labels(lex, &down, across, lines, columns)
	for i := range across {
		if x.words[x.top()+i] {
			if across[i].role == "" {
				across[i] = x.wordAxis(lex, x.top()+i, columns[i])
			}
			continue
		}
		others := down.role != "" || slices.ContainsFunc(across, func(a axis) bool { return a.role != "" })
		if tips := x.tips(lex, columns[i]); across[i].role == "" && (others || !tips.taken) {
			across[i] = tips
		}
	}
	if down.role == "" && !slices.ContainsFunc(across, func(a axis) bool { return a.role == "" || a.role == catalog.TipTaken }) {
		down = x.tips(lex, lines)
	}
	x.fromSentences(lex, &down, across, lines, columns)
	return down, across
}

// side is one that nothing names yet, with the cells of its sizes.
type side struct {
	axis  *axis
	cells []sheet.Ref
}

// fromSentences names the sides that are not known yet by the sizes of which a text above speaks without giving them, where there are as many of
// these and they can be told apart by what is possible: "base OD down, length across".
func (x *crossed) fromSentences(lex *lexicon.Lexicon, down *axis, across []axis, lines []sheet.Ref, columns [][]sheet.Ref) {
	var open []side
	known := map[catalog.Role]bool{down.role: true}
	if down.role == "" {
		open = append(open, side{down, lines})
	}
	for i := range across {
		if known[across[i].role] = true; across[i].role == "" && !x.words[x.top()+i] {
			open = append(open, side{&across[i], columns[i]})
		}
	}
	if len(open) == 0 || len(open) > 2 {
		return
	}
	for line := x.top() - 1; line >= x.from; line-- {
		for i, id := range x.g.Row(line, 1, x.g.Width) {
			var named []axis
			for _, one := range namesIn(lex, x.g.Text(id)) {
				if !known[one.role] {
					one.at, one.why = x.g.Ref(line, i+1), fmt.Sprintf("the sizes taken for the %s of which %q speaks", catalog.RoleName(catalog.Ferrules, one.role), x.g.Text(id))
					named = append(named, one)
				}
			}
			if len(named) == len(open) && x.assign(lex, open, named) {
				return
			}
		}
	}
}

// assign gives each open side one of as many names, if there is one way only in which its sizes are possible.
func (x *crossed) assign(lex *lexicon.Lexicon, open []side, named []axis) bool {
	fits := func(i, k int) bool { return x.possible(lex, named[k].label, open[i].cells) }
	last := len(named) - 1
	straight := fits(0, 0) && fits(last, last)
	exchanged := last > 0 && fits(0, last) && fits(last, 0)
	if straight == exchanged {
		return false
	}
	if exchanged {
		slices.Reverse(named)
	}
	for i := range open {
		*open[i].axis = named[i]
	}
	return true
}

// longestSideName is how many words of a sentence may name a size, and leastSideName how sure they have to be.
const longestSideName, leastSideName = 3, 0.5

// window is some words of a sentence that name a size.
type window struct {
	axis
	from, to int
	score    float64
}

// overlaps reports whether some of the words are taken, and takes them where none is.
func (w window) overlaps(taken map[int]bool) bool {
	for i := w.from; i < w.to; i++ {
		if taken[i] {
			return true
		}
	}
	for i := w.from; i < w.to; i++ {
		taken[i] = true
	}
	return false
}

// namesIn returns the names of sizes in a text, each role once, without those whose sizes it gives.
func namesIn(lex *lexicon.Lexicon, text string) []axis {
	if text == "" || len(text) > lexicon.LongestNote {
		return nil
	}
	seen := map[catalog.Role]bool{}
	for _, given := range sizesOfTitle(lex, text) {
		seen[catalog.Role(given.Role)] = true
	}
	list := strings.FieldsFunc(text, func(r rune) bool {
		return unicode.IsSpace(r) || strings.ContainsRune(sizetext.AroundNames+".×/\\", r)
	})
	var found []window
	for from := range list {
		for to := from + 1; to <= min(from+longestSideName, len(list)); to++ {
			label := strings.Join(list[from:to], " ")
			if role, score := lex.RoleOfLabel(label); score >= leastSideName && traits.Of[role].Want == traits.Length {
				found = append(found, window{axis{label: label, role: role}, from, to, score})
			}
		}
	}
	slices.SortStableFunc(found, func(a, b window) int { return cmp.Compare(b.score, a.score) }) // the surest first, the shortest of several
	var names []axis
	taken := map[int]bool{}
	for _, w := range found {
		if seen[w.role] || w.overlaps(taken) {
			continue
		}
		seen[w.role] = true
		names = append(names, w.axis)
	}
	return names
}

// wordAxis returns what words across are that nothing names: colours, if one of them is a word for a colour and nothing else, and above sizes
// that they tell apart, something that describes the parts.
func (x *crossed) wordAxis(lex *lexicon.Lexicon, line int, cells []sheet.Ref) axis {
	switch {
	case slices.ContainsFunc(cells, func(at sheet.Ref) bool { return lex.Words.Shades(x.g.At(x.g.Place(at))).Only }):
		return axis{label: string(catalog.Colour), at: cells[0], role: catalog.Colour}
	case line < x.head:
		return axis{label: string(catalog.Description), at: cells[0], role: catalog.Description}
	}
	return axis{}
}

// sizesDown are the cells of the sizes that go down.
func (x *crossed) sizesDown() []sheet.Ref {
	var cells []sheet.Ref
	for _, line := range x.lines {
		cells = append(cells, x.g.Ref(line, x.down))
	}
	return cells
}

// sizesAcross are the cells of the different sizes in each line of the headings.
func (x *crossed) sizesAcross() [][]sheet.Ref {
	var all [][]sheet.Ref
	for _, line := range x.headings() {
		var cells []sheet.Ref
		seen := map[string]bool{}
		for _, col := range x.columns {
			if text := x.g.At(line, col); text != "" && !seen[text] {
				seen[text] = true
				cells = append(cells, x.g.Ref(line, col))
			}
		}
		all = append(all, cells)
	}
	return all
}

// labels looks for the names of the sides that are not known yet beside the sizes across, and above them.
func (x *crossed) labels(lex *lexicon.Lexicon, down *axis, across []axis, lines []sheet.Ref, columns [][]sheet.Ref) {
	top := x.top()
	lowest := len(across) - 1
	between := x.labelBetween(lex, down, lines)
	for line := x.head; line >= max(x.from, top-2); line-- {
		if line < top && x.over(line) > 1 {
			break // a heading for each column
		}
		for col := 1; col <= x.g.Width; col++ {
			text := x.g.At(line, col)
			if text == "" || line >= top && col >= x.columns[0] || isSize(lex, text) && !x.words[x.head] || slices.Contains(x.beside, col) {
				continue
			}
			if first, second := cutCorner(lex, text); first != "" && down.role == "" && across[lowest].role == "" {
				*down, across[lowest] = x.corner(lex, first, second, strings.ContainsAny(text, `\＼⟍`), x.g.Ref(line, col), lines, columns[lowest])
				continue
			}
			own := max(line-top, 0) // which of the lines of sizes it stands above or beside
			switch {
			case col >= x.columns[0] && across[0].role == "":
				across[0] = x.acrossAt(lex, line, col, top)
			case line >= top && (line < x.head && x.g.At(x.head, x.down) != "" || between) && across[own].role == "":
				across[own] = x.acrossAt(lex, line, col, line)
			case col == x.down && down.role == "":
				*down = x.axisAt(lex, line, col)
			}
		}
	}
}

// labelBetween names the side that goes down by the one text between the sizes across and the field, above the column of those: what stands
// beside the sizes across is the name of these then. It reports false where there is none, or it is known already what goes down.
func (x *crossed) labelBetween(lex *lexicon.Lexicon, down *axis, lines []sheet.Ref) bool {
	line := x.first - 1
	if line == x.head || down.role != "" || x.g.Filled(line, x.down) == "" {
		return false
	}
	at := x.g.Ref(x.g.Source(line, x.down))
	if a := x.axisAt(lex, line, at.Col); a.role != "" && x.possible(lex, a.label, lines) {
		*down = a
	}
	return down.role != ""
}

// tipLabel is a heading in which the vocabulary finds the tip.
const tipLabel = "tip"

// tips returns the side whose sizes are all those of tips, with a form or a word for a tip beside one of them at least or bare in inches, and
// each another one.
func (x *crossed) tips(lex *lexicon.Lexicon, cells []sheet.Ref) axis {
	a := axis{label: tipLabel, at: cells[0], role: catalog.TipTaken}
	seen := map[fitcalc.TipSize]bool{}
	said, bare := false, false
	for _, at := range cells {
		text := x.g.At(x.g.Place(at))
		found, _ := lex.TipsIn(text, false)
		if len(found) != 1 || seen[found[0]] {
			return axis{}
		}
		seen[found[0]] = true
		sure, _ := lex.TipsIn(text, true)
		said, bare = said || len(sure) == 1, bare || lexicon.IsBare(text)
		if len(sure) == 0 && !lexicon.IsBare(text) && !strings.ContainsFunc(text, unicode.IsLetter) {
			return axis{}
		}
	}
	if !said && !bare {
		return axis{}
	}
	a.taken = bare || !said
	return a
}

// over counts the texts of a line that stand over the sizes across.
func (x *crossed) over(line int) int {
	return countCells(x.g, line, span{left: x.columns[0], right: x.g.Width})
}

// axisAt returns what a cell says of a side of sizes.
func (x *crossed) axisAt(lex *lexicon.Lexicon, line, col int) axis {
	return x.axisOf(lex, line, col, func(role catalog.Role) bool { return traits.Of[role].Want == traits.Length })
}

// acrossAt returns what a cell says of one of the lines across.
func (x *crossed) acrossAt(lex *lexicon.Lexicon, line, col, across int) axis {
	if x.words[across] {
		return x.axisOf(lex, line, col, func(role catalog.Role) bool { return slices.Contains(ofWords, role) })
	}
	return x.axisAt(lex, line, col)
}

// ofWords are the roles that words across may have.
var ofWords = []catalog.Role{catalog.Colour, catalog.Material, catalog.Style, catalog.Top, catalog.Category, catalog.Description}

// axisOf returns what a cell says of a side that may have some roles.
func (x *crossed) axisOf(lex *lexicon.Lexicon, line, col int, mayBe func(catalog.Role) bool) axis {
	text := x.g.At(line, col)
	role, score := lex.RoleOfLabel(text)
	if text == "" || score < lexicon.HeadingScore || !mayBe(role) {
		return axis{}
	}
	return axis{label: text, at: x.g.Ref(line, col), role: role}
}

// named returns the name that stands with every size of a side.
func (x *crossed) named(lex *lexicon.Lexicon, cells []sheet.Ref) axis {
	var a axis
	for _, at := range cells {
		named, ok := namedSize(lex, x.g.At(x.g.Place(at)))
		if !ok || a.role != "" && catalog.Role(named.Role) != a.role {
			return axis{}
		}
		if a.role == "" {
			a = axis{label: named.Name, at: at, role: catalog.Role(named.Role)}
		}
	}
	return a
}

// cornerSigns stand between the two names in the corner of a cross table.
const cornerSigns = `\/|×↓→＼／｜⟍`

// cutCorner cuts the text of a corner into the names of two sizes.
func cutCorner(lex *lexicon.Lexicon, text string) (first, second string) {
	at := strings.IndexAny(text, cornerSigns)
	if at <= 0 {
		return "", ""
	}
	first, second = strings.Trim(text[:at], " "+cornerSigns), strings.Trim(text[at:], " "+cornerSigns)
	for _, name := range []string{first, second} {
		if name == "" || !namesSize(lex, name) {
			return "", ""
		}
	}
	return first, second
}

// corner says which of two names in a corner goes down: the one whose sizes the lines can be, and where both could be, the first before
// a stroke that leans back. Otherwise nobody can know.
func (x *crossed) corner(lex *lexicon.Lexicon, first, second string, leansBack bool, at sheet.Ref, lines, columns []sheet.Ref) (down, across axis) {
	straight := x.possible(lex, first, lines) && x.possible(lex, second, columns)
	exchanged := x.possible(lex, second, lines) && x.possible(lex, first, columns)
	switch {
	case straight && (!exchanged || leansBack):
	case exchanged && !straight:
		first, second = second, first
	default:
		return axis{}, axis{}
	}
	a, _ := lex.RoleOfLabel(first)
	b, _ := lex.RoleOfLabel(second)
	return axis{label: first, at: at, role: a}, axis{label: second, at: at, role: b}
}

// leastPossible is the share of its sizes, in percent, that are possible where a name is that of a side: one of four or more may be mistyped.
const leastPossible = 75

// possible reports whether the sizes in some cells can be what a label says, in a part of some kind.
func (x *crossed) possible(lex *lexicon.Lexicon, label string, cells []sheet.Ref) bool {
	for _, kind := range []catalog.Kind{catalog.Ferrules, catalog.Heads} {
		found := lex.MatchIn(kind, label)
		if len(found) == 0 {
			continue
		}
		b, known := traits.BoundsOf(kind, catalog.Role(found[0].Role))
		for _, unit := range []string{"mm", "in", "thou"} {
			fits := 0
			for _, at := range cells {
				text, _ := sizeOf(lex, x.g.At(x.g.Place(at)))
				reading := lex.Read(text, value.Context{Want: value.WantDiameter, Unit: unit})
				if reading.Kind == value.Length && b.Possible(traits.MM(reading.Dim.Nominal())) {
					fits++
				}
			}
			if known && 100*fits >= leastPossible*len(cells) {
				return true
			}
		}
	}
	return false
}
