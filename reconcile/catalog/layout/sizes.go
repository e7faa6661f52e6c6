package layout

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
)

// Sizes stand together in one column also where its heading does not say in which order: "Size" above ".368 x .540 x 1.00". A title or note
// may say it, or what is possible for parts of the kind. And they stand in descriptions, with names ("ID 9.35 mm OD 13.6 mm") or as such a
// list. Each is read as one column for each size, whose cells are those of the one in the sheet.

// FindSizes adds columns for the sizes in columns whose headings do not name them, where no other column gives sizes. Said is what the
// table lists as far as anybody said, and titles are what may say it else.
func (r *Region) FindSizes(lex *lexicon.Lexicon, said catalog.Kind, titles []string) {
	if r.Grid.Turned {
		return
	}
	r.readSteps(lex)
	defer r.findPacks(lex, said)
	r.readNumbers(lex, r.kindSaid(lex, said, withoutSayings(titles)))
	if r.Guessed {
		return
	}
	lists, named := -1, 0
	for i, h := range r.Columns {
		if r.listedSizes(h.Col) > 0 && !r.gridVirtual(h.Col) {
			lists = i
			continue
		}
		if found := lex.Match(h.Parts...); len(found) > 0 && found[0].Score >= lexicon.HeadingScore && r.givesSizes(lex, h.Col, catalog.Role(found[0].Role)) {
			named++
		}
	}
	switch {
	case named > 0:
	case lists >= 0:
		r.splitList(lex, lists, said, titles)
	default:
		r.splitDescriptions(lex, said, titles)
	}
}

// withoutSayings leaves out titles that explain letters: they speak of single places of the part numbers.
func withoutSayings(titles []string) []string {
	return slices.DeleteFunc(slices.Clone(titles), func(title string) bool { return strings.ContainsAny(title, "=＝→") })
}

// givesSizes reports whether a column, whose heading says a role, may have sizes of it: those of a column of ones are not, whatever its
// heading means in some language.
func (r *Region) givesSizes(lex *lexicon.Lexicon, col int, role catalog.Role) bool {
	if traits.Of[role].Want != traits.Length {
		return false
	}
	numbers := 0
	for _, line := range r.SampleLines() {
		one := lex.Read(r.Grid.At(line, col), value.Context{Want: value.WantLength})
		if one.Kind != value.Number {
			if one.Kind == value.Length {
				return true
			}
			continue
		}
		numbers++
		if possibleNumber(role, one.Number) {
			return true
		}
	}
	return numbers == 0
}

// possibleNumber reports whether a bare number can be the size of a role: no sheet has such in units other than three, but for a few.
func possibleNumber(role catalog.Role, number float64) bool {
	return slices.ContainsFunc(traits.LengthUnits[:3], func(unit string) bool { return possibleAs(role, number*traits.UnitMM[unit]) })
}

// possibleAs reports whether a size, in mm, can be that of a role in parts of some kind.
func possibleAs(role catalog.Role, mm float64) bool {
	if role == catalog.TipTaken {
		return traits.TipBounds[catalog.TipOD].Possible(mm)
	}
	return slices.ContainsFunc([]catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips}, func(kind catalog.Kind) bool {
		b, known := traits.BoundsOf(kind, role)
		return known && b.Possible(mm)
	})
}

// gridVirtual reports whether a column was added for one of several sizes.
func (r *Region) gridVirtual(col int) bool { return col > r.Grid.Width }

// listedSizes returns how many sizes most cells of a column list, zero where they do not.
func (r *Region) listedSizes(col int) int {
	counts, filled := map[int]int{}, 0
	for _, line := range r.SampleLines() {
		text := r.Grid.At(line, col)
		if text == "" {
			continue
		}
		filled++
		if strings.ContainsAny(text, "xX"+timesSigns) {
			counts[len(splitTimes(text, false))]++
		}
	}
	for count, n := range counts {
		if count > 1 && n*5 >= filled*3 {
			return count
		}
	}
	return 0
}

// splitList splits a column of lists of sizes.
func (r *Region) splitList(lex *lexicon.Lexicon, at int, said catalog.Kind, titles []string) {
	h := r.Columns[at]
	count := r.listedSizes(h.Col)
	names, why, inferred := r.orderSaid(lex, h, count, titles)
	if names == nil {
		names, why = r.orderPossible(lex, r.kindSaid(lex, said, titles), r.sampleOf(h.Col, func(text string) []string { return splitTimes(text, false) }, count))
		inferred = true
	}
	if names == nil {
		return
	}
	divide := splitter{}.dividing(lex, count)
	pieces := r.piecesOf(lex, h, names, why, inferred, divide)
	r.Columns = slices.Replace(r.Columns, at, at+1, pieces...)
	r.openExchanged(lex, r.kindSaid(lex, said, titles), h.Col, names, pieces, divide)
}

// piecesOf adds the columns of the sizes of one column.
func (r *Region) piecesOf(lex *lexicon.Lexicon, h Heading, names []string, why string, inferred bool, divide func(string) []string) []Heading {
	unit := HeadingUnit(lex, h)
	var pieces []Heading
	for i, col := range r.Grid.AddVirtual(h.Col, len(names), r.Body, r.To, divide) {
		piece := Heading{Col: col, Text: h.Text + ": " + names[i], Unit: unit, Order: why, Inferred: inferred}
		if names[i] == "" {
			piece.Text = fmt.Sprintf("%s: %d", h.Text, i+1)
		} else {
			piece.Parts = []string{names[i]}
		}
		pieces = append(pieces, piece)
	}
	return pieces
}

// orderSaid returns the names of the sizes in a title or note that lists as many: "sizes are bore x base OD x length".
func (r *Region) orderSaid(lex *lexicon.Lexicon, h Heading, count int, titles []string) (names []string, why string, inferred bool) {
	texts := slices.Clone(titles)
	for line := r.From; line <= r.To; line++ {
		if line >= r.Body && countCells(r.Grid, line, span{left: r.Left, right: r.Right}) != 1 {
			continue
		}
		for col := r.Left; col <= r.Right; col++ {
			if text := r.Grid.At(line, col); text != "" && strings.ContainsAny(text, "xX"+timesSigns) {
				texts = append(texts, text)
			}
		}
	}
	for _, text := range texts {
		if names := namesListed(lex, text, count); names != nil {
			return names, fmt.Sprintf("the order of the sizes is that of %q", text), false
		}
	}
	return nil, "", false
}

// namesListed returns the names of as many sizes that a sentence lists.
func namesListed(lex *lexicon.Lexicon, text string, count int) []string {
	names := splitTimes(text, true)
	if len(names) != count {
		return nil
	}
	first, last := names[0], names[count-1]
	if at := strings.LastIndexAny(first, ",;:–-([，；：。（"); at >= 0 {
		first = first[at:]
	}
	if at := strings.IndexAny(last, ",;:)]，；：。、）"); at > 0 {
		last = last[:at]
	}
	names[0], names[count-1] = sizeAtEnd(lex, first), sizeAtStart(lex, last)
	roles := map[string]bool{}
	for i, name := range names {
		if rest, _, place := lex.Words.SplitUnit(name); place != "" && rest != "" {
			names[i] = rest
		}
		role := sizeNamed(lex, names[i])
		if role == "" || roles[role] {
			return nil
		}
		roles[role] = true
	}
	return names
}

// sizeNamed returns the role of a size that a text names, empty where it names none.
func sizeNamed(lex *lexicon.Lexicon, text string) string {
	for _, found := range lex.Match(text) {
		switch want := traits.Of[catalog.Role(found.Role)].Want; {
		case found.Score < leastNamed:
			return ""
		case want == traits.Length:
			return found.Role
		case want != traits.Text || found.Role == string(catalog.Description): // "top" is a form, and with a number a diameter
			return ""
		}
	}
	return ""
}

// leastNamed is the score from which a word beside a size in a text names it: "L" does, with a number behind it.
const leastNamed = 0.15

// sizeAtEnd returns the end of a text that best names a size, of four words at most.
func sizeAtEnd(lex *lexicon.Lexicon, text string) string {
	words := strings.Fields(strings.Trim(text, aroundNames))
	return bestName(lex, len(words), func(n int) string { return strings.Join(words[len(words)-n:], " ") })
}

// sizeAtStart returns the beginning of a text that best names a size, of four words at most.
func sizeAtStart(lex *lexicon.Lexicon, text string) string {
	words := strings.Fields(strings.TrimLeft(strings.Trim(text, aroundNames), ". ")) // the point is that of a unit: "1.00 in. long"
	return bestName(lex, len(words), func(n int) string { return strings.Join(words[:n], " ") })
}

// aroundNames is what stands about the name of a size in a text.
const aroundNames = " ,;:=–-([)]，；：、（）"

// betweenSizes stand between a size and the name of another.
const betweenSizes = ",;/，；、"

// bestName returns the surest of the names of one word and more, the shortest of several.
func bestName(lex *lexicon.Lexicon, words int, name func(n int) string) string {
	best, most := "", 0.0
	for n := 1; n <= min(4, words); n++ {
		if text := name(n); sizeNamed(lex, text) != "" {
			if score := lex.Match(text)[0].Score; score > most {
				best, most = text, score
			}
		}
	}
	return best
}

// kindSaid returns what the table lists by what the user, its titles or most of its rows say.
func (r *Region) kindSaid(lex *lexicon.Lexicon, said catalog.Kind, titles []string) catalog.Kind {
	if said != catalog.UnknownKind {
		return said
	}
	for _, title := range titles {
		if hit, found := lex.Ask("kind", title, lex.Words.Kind); found {
			return kindNamed(hit.Value)
		}
	}
	count, lines := map[catalog.Kind]int{}, r.SampleLines()
	for _, line := range lines {
		for col := r.Left; col <= r.Right; col++ {
			text := r.Grid.At(line, col)
			if text == "" || lexicon.LooksNumeric(text) {
				continue
			}
			if hit, found := lex.Ask("kind", text, lex.Words.Kind); found {
				count[kindNamed(hit.Value)]++
				break
			}
		}
	}
	for kind, n := range count {
		if n*5 >= len(lines)*3 {
			return kind
		}
	}
	return catalog.UnknownKind
}

func kindNamed(name string) catalog.Kind {
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		if kind.String() == name {
			return kind
		}
	}
	return catalog.UnknownKind
}

// order is an order in which sizes are listed; a role that is empty stands for a length of which it is not known which it is.
type order []catalog.Role

// orders are those in which sizes of parts are listed (common practice): the two diameters together, the length before or behind, or the outer
// diameter and the length of ferrules whose tip is said elsewhere.
var orders = map[catalog.Kind][]order{
	catalog.Ferrules: {
		{catalog.Bore, catalog.BaseOD, catalog.Length}, {catalog.BaseOD, catalog.Bore, catalog.Length},
		{catalog.Length, catalog.Bore, catalog.BaseOD}, {catalog.Length, catalog.BaseOD, catalog.Bore},
		{catalog.Bore, catalog.BaseOD}, {catalog.BaseOD, catalog.Bore}, {catalog.BaseOD, catalog.Length}, {catalog.Length, catalog.BaseOD},
	},
	catalog.Heads: {
		{catalog.HoselOD, catalog.Bore, ""}, {catalog.Bore, catalog.HoselOD, ""}, {"", catalog.HoselOD, catalog.Bore}, {"", catalog.Bore, catalog.HoselOD},
		{catalog.HoselOD, catalog.Bore}, {catalog.Bore, catalog.HoselOD},
	},
}

// nameOf is a heading for a role in which the vocabulary finds it.
var nameOf = map[catalog.Role]string{catalog.Bore: "bore", catalog.BaseOD: "base OD", catalog.Length: "length", catalog.HoselOD: "hosel OD", catalog.TipTaken: "fits tip",
	catalog.TopOD: "top OD", catalog.HoselLength: "hosel length"}

// orderPossible returns the names of the sizes in the one order in which nearly all lists are possible for parts of a kind, in one unit.
func (r *Region) orderPossible(lex *lexicon.Lexicon, kind catalog.Kind, lists [][]value.Reading) (names []string, why string) {
	var found []order
	for _, o := range orders[kind] {
		if len(lists) == 0 || len(o) != len(lists[0]) {
			continue
		}
		for _, unit := range []string{"mm", "in", "thou"} {
			if o.fits(kind, lists, unit) {
				found = append(found, o)
				break
			}
		}
	}
	if len(found) != 1 {
		return nil, ""
	}
	var said []string
	for _, role := range found[0] {
		names = append(names, nameOf[role])
		if role == "" {
			said = append(said, "a length")
		} else {
			said = append(said, nameOf[role])
		}
	}
	return names, fmt.Sprintf("the sizes taken as %s: in no other order are they possible for %s", strings.Join(said, " × "), kind)
}

// leastFitting is the share of lists in percent that have to be possible in an order: single cells may be wrong, one of so many in any case.
const leastFitting, oneMayNot = 95, 5

// hasBore reports whether an order has the hole, against which the outer diameter is held; without it that has to be a common one.
func (o order) hasBore() bool { return slices.Contains(o, catalog.Bore) }

func (o order) fits(kind catalog.Kind, lists [][]value.Reading, unit string) bool {
	fitting := 0
	for _, list := range lists {
		sizes := map[catalog.Role]float64{}
		possible := true
		for i, one := range list {
			mm := one.Number * traits.UnitMM[unit]
			if one.Kind == value.Length {
				mm = traits.MM(one.Dim.Nominal())
			}
			role := o[i]
			if role == "" {
				role = catalog.HoselLength
			}
			b, _ := traits.BoundsOf(kind, role)
			possible = possible && b.Possible(mm) && (o.hasBore() || role == catalog.Length || b.Common(mm))
			sizes[role] = mm
		}
		if possible && sizes[catalog.Bore] < max(sizes[catalog.BaseOD], sizes[catalog.HoselOD]) {
			fitting++
		}
	}
	return 100*fitting >= leastFitting*len(lists) || len(lists) >= oneMayNot && fitting == len(lists)-1
}

// sampleOf reads the lists of sizes in a sample of a column, those that have as many as most.
func (r *Region) sampleOf(col int, split func(string) []string, count int) [][]value.Reading {
	var lists [][]value.Reading
	for _, line := range r.SampleLines() {
		pieces := slices.Clone(split(r.Grid.At(line, col)))
		if len(pieces) != count {
			continue
		}
		shareUnit(pieces)
		var list []value.Reading
		for _, piece := range pieces {
			one := value.Read(piece, value.Context{Want: value.WantLength})
			if one.Kind != value.Number && one.Kind != value.Length {
				break
			}
			list = append(list, one)
		}
		if len(list) == count {
			lists = append(lists, list)
		}
	}
	return lists
}

// splitDescriptions adds columns for the sizes that the texts of a column give.
func (r *Region) splitDescriptions(lex *lexicon.Lexicon, said catalog.Kind, titles []string) {
	for _, h := range r.Columns {
		texts := r.textsOf(h.Col)
		if len(texts) < 2 {
			continue
		}
		roles, names, sizes := namedLists(lex, texts)
		if len(roles) < 2 {
			roles, names, sizes = namedSizes(lex, texts)
		}
		if len(roles) > 1 {
			divide := func(text string) []string {
				pieces := make([]string, len(roles))
				for _, s := range sizes(text) {
					at := slices.Index(roles, s.role)
					switch {
					case at < 0:
					case pieces[at] != "":
						pieces[at] += " / " + s.text // two sizes of one name: for a person to say
					default:
						pieces[at] = s.text
					}
				}
				return pieces
			}
			why := fmt.Sprintf("sizes are read from the texts under %q, where they stand with their names", h.Text)
			r.Columns = append(r.Columns, r.piecesOf(lex, h, names, why, false, divide)...)
			return
		}
		if count, most := listsIn(texts); count > 0 {
			names, why, inferred := r.orderSaid(lex, h, count, titles)
			if names == nil && !most {
				continue
			}
			if names == nil {
				names, why = r.orderPossible(lex, r.kindSaid(lex, said, titles), r.sampleOf(h.Col, listWithin, count))
				inferred = true
			}
			if names == nil {
				continue
			}
			divide := func(text string) []string {
				pieces := listWithin(text)
				if len(pieces) != count {
					return make([]string, count)
				}
				shareUnit(pieces)
				return pieces
			}
			pieces := r.piecesOf(lex, h, names, why, inferred, divide)
			r.Columns = append(r.Columns, pieces...)
			r.openExchanged(lex, r.kindSaid(lex, said, titles), h.Col, names, pieces, divide)
			return
		}
	}
}

// openExchanged leaves open the sizes of a list, divided into the columns of its pieces, of which two stand in each other's place: those
// of most lists are possible in their order.
func (r *Region) openExchanged(lex *lexicon.Lexicon, kind catalog.Kind, col int, names []string, pieces []Heading, divide func(string) []string) {
	cols := make([]int, len(pieces))
	for i, piece := range pieces {
		cols[i] = piece.Col
	}
	roles := make([]catalog.Role, len(names))
	for i, name := range names {
		if found := lex.MatchIn(kind, name); len(found) > 0 {
			roles[i] = catalog.Role(found[0].Role)
		}
	}
	unit, share := "", 0
	for _, u := range traits.LengthUnits[:3] {
		if n := r.listsPossible(lex, kind, col, roles, u, divide); n > share {
			unit, share = u, n
		}
	}
	if unit == "" {
		return
	}
	for line := r.Body; line <= r.To; line++ {
		text := r.Grid.At(line, col)
		sizes := sizesOf(lex, divide(text), unit)
		if sizes == nil {
			continue
		}
		whys := make([]string, len(cols))
		for _, i := range exchanged(kind, roles, sizes) {
			r.Grid.Retell(line, cols[i], openText(text))
			whys[i] = fmt.Sprintf("of the sizes in %q, two seem to stand in each other's place", text)
		}
		r.openAt(cols, whys, line)
	}
}

// listsPossible counts in percent the lists of a sample of a column that are possible in their order, none where fewer than most are.
func (r *Region) listsPossible(lex *lexicon.Lexicon, kind catalog.Kind, col int, roles []catalog.Role, unit string, divide func(string) []string) int {
	lists, fitting := 0, 0
	for _, line := range r.SampleLines() {
		sizes := sizesOf(lex, divide(r.Grid.At(line, col)), unit)
		if sizes == nil {
			continue
		}
		lists++
		if consistent(kind, roles, sizes) {
			fitting++
		}
	}
	if 100*fitting < leastInOrder*lists || fitting < leastListed {
		return 0
	}
	return 100 * fitting / lists
}

// sizesOf returns the sizes of a list in mm, nil where it is none.
func sizesOf(lex *lexicon.Lexicon, pieces []string, unit string) []float64 {
	sizes := make([]float64, len(pieces))
	for i, piece := range pieces {
		one := lex.Read(piece, value.Context{Want: value.WantLength, Unit: unit})
		if one.Kind != value.Length {
			return nil
		}
		sizes[i] = traits.MM(one.Dim.Nominal())
	}
	return sizes
}

// textsOf returns the texts of a sample of a column that hold words and digits.
func (r *Region) textsOf(col int) []string {
	var texts []string
	for _, line := range r.SampleLines() {
		text := r.Grid.At(line, col)
		if len(text) > 8 && len(text) <= lexicon.LongestNote && strings.ContainsAny(text, "0123456789") && strings.ContainsFunc(text, unicode.IsLetter) && !lexicon.LooksLikeCode(text) {
			texts = append(texts, text)
		}
	}
	return texts
}

// measure is a number in a text, with its unit and its limits.
var measure = sync.OnceValue(func() *regexp.Regexp {
	unit := anyUnit()
	return regexp.MustCompile(`(?i)(?:\d+[- ]\d+/\d+|\d+/\d+|\d*[.,]\d+|\d+)` + unit + `(?: ?(?:±|\+/-) ?\d*[.,]?\d+` + unit + `)?`)
})

// anyUnit is an expression for the unit behind a size, which may be missing.
func anyUnit() string { return `(?: ?(?:` + words.Load().AnyUnit("mm", "in") + `))?` }

// timesList is a list of three sizes within a text.
var timesList = sync.OnceValue(func() *regexp.Regexp {
	unit := anyUnit()
	return regexp.MustCompile(`(?i)(?:\d*[.,]\d+|\d+)` + unit + `(?: ?[x×*] ?(?:\d*[.,]\d+|\d+(?:[- ]\d+/\d+|/\d+)?)` + unit + `){2}`)
})

// listWithin returns the sizes of the one list within a text, nil where there is none or several.
func listWithin(text string) []string {
	found := timesList().FindAllStringIndex(text, 2)
	if len(found) != 1 || !standsFree(text, found[0][0], found[0][1]) {
		return nil
	}
	return splitTimes(text[found[0][0]:found[0][1]], false)
}

// listsIn returns how many sizes the lists within texts have, zero where too few have any, and whether most have: where only some do, among
// other goods, somebody has to say in which order the sizes are.
func listsIn(texts []string) (count int, most bool) {
	n := 0
	for _, text := range texts {
		if len(listWithin(text)) == 3 {
			n++
		}
	}
	switch {
	case n*5 >= len(texts)*4:
		return 3, true
	case n >= leastListed:
		return 3, false
	}
	return 0, false
}

// leastInOrder is the share of lists in percent that are possible in an order which is said.
const leastInOrder = 60

// leastListed is how many texts of a column list sizes at least, where a sentence says in which order.
const leastListed = 2

// GivesSizes reports whether a text has a number with a unit of length behind it, or lists three sizes.
func GivesSizes(text string) bool {
	return listWithin(text) != nil || hasUnit(text)
}

// hasUnit reports whether a text has a number with a unit of length behind it.
func hasUnit(text string) bool {
	return slices.ContainsFunc(withUnit().FindAllStringIndex(text, 24), func(at []int) bool { return standsFree(text, at[0], at[1]) })
}

// withUnit is a number in a text with a unit of length.
var withUnit = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:\d*[.,]\d+|\d+) ?(?:` + words.Load().AnyUnit("mm", "in") + `)`)
})

// standsFree reports whether what stands between two places of a text is no part of a longer word or number.
func standsFree(text string, from, to int) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:from])
	after, _ := utf8.DecodeRuneInString(text[to:])
	return (from == 0 || !inWord(before) && !unicode.IsDigit(before) && !strings.ContainsRune(".,/-#", before)) &&
		(to == len(text) || !inWord(after) && !unicode.IsDigit(after) && after != '/' && after != '-')
}

// inWord reports whether a sign is a letter that makes one word with what stands beside it: "外径13.6mm" are two, and so is "Ø13.6".
func inWord(sign rune) bool {
	return unicode.IsLetter(sign) && !lexicon.IsWide(sign) && !strings.ContainsRune(diameterSigns, sign)
}

// diameterSigns are the letters that stand for a diameter before a size.
const diameterSigns = "ØøΦφ"

// sizeIn is a size in a text with the name beside it, and where the first of both begins.
type sizeIn struct {
	role, name, text string
	from             int
}

// sizesIn returns the sizes with names in a text, whose names stand before or behind them.
func sizesIn(lex *lexicon.Lexicon, text string, behind bool) []sizeIn {
	places := joined(lex, text, withMisread(text, measure().FindAllStringIndex(text, 24)))
	var sizes []sizeIn
	for i, at := range places {
		if !standsFree(text, at[0], at[1]) {
			continue
		}
		name := ""
		if behind {
			end := len(text)
			if i+1 < len(places) {
				end = places[i+1][0]
			}
			gap := text[at[1]:end]
			if cut := strings.IndexAny(gap, betweenSizes+")）"); cut >= 0 {
				gap = gap[:cut]
			}
			name = sizeAtStart(lex, gap)
		} else {
			from := 0
			if i > 0 {
				from = places[i-1][1]
			}
			gap := strings.TrimRight(text[from:at[0]], " ,;，；、：")
			if last := strings.LastIndexAny(gap, betweenSizes+"(（："); last >= 0 {
				_, size := utf8.DecodeRuneInString(gap[last:])
				gap = gap[last+size:]
			}
			name = sizeAtEnd(lex, gap)
		}
		if name != "" {
			from := at[0]
			if before := strings.LastIndex(text[:from], name); !behind && before >= 0 { // which is otherwise written with more blanks
				from = before
			}
			sizes = append(sizes, sizeIn{sizeNamed(lex, name), name, text[at[0]:at[1]], from})
		}
	}
	return sizes
}

// withMisread lets the places of numbers reach over a letter in place of a digit, and the unit behind it: 13.O mm. What is in doubt is said where
// the size is read.
func withMisread(text string, places [][]int) [][]int {
	for _, at := range places {
		rest := text[at[1]:]
		end, letters := 0, false
		for end < len(rest) && (isDigit(rest[end]) || rest[end] == '.' || rest[end] == ',' || lexicon.DigitMeant(rest[end]) != 0) {
			letters = letters || lexicon.DigitMeant(rest[end]) != 0
			end++
		}
		if end = len(strings.TrimRight(rest[:end], decimalMarks)); !letters || end == 0 || !isDigit(text[at[1]-1]) {
			continue
		}
		unit := len(unitAhead().FindString(rest[end:]))
		if next, _ := utf8.DecodeRuneInString(rest[end+unit:]); unicode.IsLetter(next) || unicode.IsDigit(next) || unit == 0 && !strings.ContainsAny(rest[:1], decimalMarks) {
			continue
		}
		at[1] += end + unit
	}
	return slices.CompactFunc(places, func(a, b []int) bool { return a[0] < b[1] && b[0] < a[1] })
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// unitAhead is a unit at the beginning of a text.
var unitAhead = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)^` + anyUnit()) })

// joined makes one place of those between which only a word or a sign stands by which they are one size, or several that go by one name:
// "9.35 or 9.5", "13.4 - 13.6". One alone would be a choice that nobody made.
func joined(lex *lexicon.Lexicon, text string, places [][]int) [][]int {
	var all [][]int
	for i, at := range places {
		if i > 0 {
			before := places[i-1]
			if joins(lex, text[before[0]:before[1]], text[before[1]:at[0]], text[at[0]:at[1]]) {
				all[len(all)-1][1] = at[1]
				continue
			}
		}
		all = append(all, slices.Clone(at))
	}
	return all
}

// joins reports whether what stands between two numbers joins them. A dash between blanks may just as well divide ("Iron 7 - 13.6 mm OD"), and
// does so where one number has decimals and the other none.
func joins(lex *lexicon.Lexicon, first, between, second string) bool {
	sign := strings.TrimSpace(between)
	switch {
	case sign == "":
		return false
	case strings.Trim(sign, dashes) == "":
		return strings.ContainsAny(first, decimalMarks) == strings.ContainsAny(second, decimalMarks)
	case strings.Trim(sign, "/~+±xX"+timesSigns) == "":
		return true
	}
	if corrects(lex, sign) {
		return true // 13.6, no, sorry, 13.8
	}
	_, or := lex.Words.Mark(sign, "or")
	_, to := lex.Words.Mark(sign, "to")
	return (or || to) && sizeNamed(lex, sign) == "" // "od" is "from" in Polish
}

// decimalMarks stand before decimals.
const decimalMarks = ".,"

// namedSizes returns which sizes most texts give by name, with the names, and what finds them in a text: the names stand before the sizes
// or behind them, where more of the sizes are such as their names have. "Iron 5 hosel OD 13.4 mm bore 9.5 mm" names as many either way.
func namedSizes(lex *lexicon.Lexicon, texts []string) (roles, names []string, sizes func(text string) []sizeIn) {
	before, behind := readNamed(lex, texts, false), readNamed(lex, texts, true)
	best := before
	switch cmp.Or(cmp.Compare(before.possible, behind.possible), cmp.Compare(before.total, behind.total)) {
	case 0:
		return nil, nil, nil
	case -1:
		best = behind
	}
	for _, role := range best.roles {
		if best.counts[role]*5 >= len(texts)*3 {
			roles = append(roles, role)
			names = append(names, best.names[role])
		}
	}
	return roles, names, func(text string) []sizeIn { return sizesIn(lex, text, best.behind) }
}

// namedReading is what texts give where the names of sizes stand before them, or behind.
type namedReading struct {
	behind bool
	roles  []string
	// names are the first names of the roles, and counts how many texts give each; of total sizes some are possible for their roles.
	names           map[string]string
	counts          map[string]int
	total, possible int
}

// readNamed reads texts as ones in which the names of sizes stand before them, or behind.
func readNamed(lex *lexicon.Lexicon, texts []string, behind bool) namedReading {
	n := namedReading{behind: behind, names: map[string]string{}, counts: map[string]int{}}
	for _, text := range texts {
		seen := map[string]bool{}
		for _, s := range sizesIn(lex, text, behind) {
			if seen[s.role] {
				continue
			}
			seen[s.role] = true
			n.counts[s.role]++
			n.total++
			if s.possible(lex) {
				n.possible++
			}
			if n.names[s.role] == "" {
				n.names[s.role] = s.name
				n.roles = append(n.roles, s.role)
			}
		}
	}
	return n
}

// possible reports whether a size in a text can be what its name says, in some unit where it has none.
func (s sizeIn) possible(lex *lexicon.Lexicon) bool {
	role := catalog.Role(s.role)
	switch one := lex.Read(s.text, value.Context{Want: value.WantLength}); one.Kind {
	case value.Length:
		return possibleAs(role, traits.MM(one.Dim.Nominal()))
	case value.Number:
		return possibleNumber(role, one.Number)
	}
	return false
}

// namedList is a list of names of sizes before a list of as many sizes: ID/OD/L 9.35/13.60/18.0 MM.
var namedList = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[\s,;(])((?:[\pL.Øø-]{1,12} ?/ ?){1,3}[\pL.Øø-]{1,12})[ :=]+((?:\d*[.,]?\d+ ?/ ?){1,3}\d*[.,]?\d+)(` + anyUnit() + `)`)
})

// listNamed returns the sizes of a text that stand in a list behind the list of their names, none where there is not one such list.
func listNamed(lex *lexicon.Lexicon, text string) []sizeIn {
	if !strings.Contains(text, "/") {
		return nil
	}
	places := namedList().FindAllStringSubmatchIndex(text, 2)
	if len(places) != 1 || !standsFree(text, places[0][2], places[0][1]) {
		return nil
	}
	found := namedList().FindStringSubmatch(text)
	names, values, unit := strings.Split(found[1], "/"), strings.Split(found[2], "/"), strings.TrimSpace(found[3])
	if len(names) != len(values) {
		return nil
	}
	var sizes []sizeIn
	for i, name := range names {
		name = strings.TrimSpace(name)
		role := sizeNamed(lex, name)
		if role == "" || slices.ContainsFunc(sizes, func(s sizeIn) bool { return s.role == role }) {
			return nil
		}
		sizes = append(sizes, sizeIn{role, name, strings.TrimSpace(strings.TrimSpace(values[i]) + " " + unit), places[0][2]})
	}
	return sizes
}

// namedLists is namedSizes for texts that list the sizes behind their names, most of them the same ones.
func namedLists(lex *lexicon.Lexicon, texts []string) (roles, names []string, sizes func(text string) []sizeIn) {
	count := 0
	for _, text := range texts {
		list := listNamed(lex, text)
		if len(list) == 0 {
			continue
		}
		if roles == nil {
			for _, s := range list {
				roles, names = append(roles, s.role), append(names, s.name)
			}
		}
		if slices.EqualFunc(list, roles, func(s sizeIn, role string) bool { return s.role == role }) {
			count++
		}
	}
	if count*5 < len(texts)*3 {
		return nil, nil, nil
	}
	return roles, names, func(text string) []sizeIn { return listNamed(lex, text) }
}
