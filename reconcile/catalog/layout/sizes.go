package layout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/numberkey"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
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
		if sizetext.PossibleNumber(role, one.Number) {
			return true
		}
	}
	return numbers == 0
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
		if strings.ContainsAny(text, "xX"+sizetext.TimesSigns) {
			counts[len(sizetext.SplitTimes(text, false))]++
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
	lists := r.sampleOf(h.Col, func(text string) []string { return sizetext.SplitTimes(text, false) }, count)
	names, why, inferred := r.orderSaid(lex, lists, count, titles)
	if names == nil {
		names, why = r.orderPossible(lex, r.kindSaid(lex, said, titles), lists)
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

// orderSaid returns the names of the sizes in a title or note that lists as many as some lists have: "sizes are bore x base OD x length".
func (r *Region) orderSaid(lex *lexicon.Lexicon, lists [][]value.Reading, count int, titles []string) (names []string, why string, inferred bool) {
	texts := slices.Clone(titles)
	for line := r.From; line <= r.To; line++ {
		if line >= r.Body && countCells(r.Grid, line, span{left: r.Left, right: r.Right}) != 1 {
			continue
		}
		for col := r.Left; col <= r.Right; col++ {
			if text := r.Grid.At(line, col); text != "" && len(text) <= lexicon.LongestNote && !lexicon.LooksNumeric(text) {
				texts = append(texts, text)
			}
		}
	}
	for _, text := range texts {
		if names := sizetext.NamesListed(lex, text, count); names != nil {
			if slices.ContainsFunc(r.keys, func(k numberkey.Text) bool { return k.Text == text && k.At == r.KeyAt }) {
				r.KeyUnread = "" // it says how the sizes stand in texts, and not in numbers
			}
			return namesMeant(lex, names, lists), fmt.Sprintf("the order of the sizes is that of %q", text), false
		}
	}
	return nil, "", false
}

// namesMeant returns the names of the sizes of lists as headings by which the vocabulary finds these: "top" is a form where no size stands beside
// it, and "tip" the thin end of a ferrule where the sizes are none of tips.
func namesMeant(lex *lexicon.Lexicon, names []string, lists [][]value.Reading) []string {
	meant := slices.Clone(names)
	for i, name := range names {
		role := catalog.Role(sizetext.RoleNamed(lex, name))
		if role == catalog.TipTaken && !slices.ContainsFunc(lists, func(list []value.Reading) bool { return sizetext.IsTipName(list[i]) }) {
			role = catalog.TopOD
		}
		if found := lex.Match(name); found[0].Role != string(role) || found[0].Score < sureListed {
			meant[i] = cmp.Or(sizetext.NameOf(role), name)
		}
	}
	return meant
}

// sureListed is the score from which the name of a size in a list says by itself which it is.
const sureListed = 0.85

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
	return r.KindOfRows(lex)
}

// KindOfRows returns what most rows of the table name as what they are, unknown where they do not.
func (r *Region) KindOfRows(lex *lexicon.Lexicon) catalog.Kind {
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

// orderPossible returns the names of the sizes in the one order in which nearly all lists are possible for parts of a kind, in one unit.
func (r *Region) orderPossible(lex *lexicon.Lexicon, kind catalog.Kind, lists [][]value.Reading) (names []string, why string) {
	var found []sizetext.Order
	for _, o := range sizetext.OrdersOf(kind) {
		if len(lists) == 0 || len(o) != len(lists[0]) {
			continue
		}
		for _, unit := range []string{"mm", "in", "thou"} {
			if o.Fits(kind, lists, unit) {
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
		names = append(names, sizetext.NameOf(role))
		if role == "" {
			said = append(said, "a length")
		} else {
			said = append(said, sizetext.NameOf(role))
		}
	}
	return names, fmt.Sprintf("the sizes taken as %s: in no other order are they possible for %s", strings.Join(said, " × "), kind)
}

// sampleOf reads the lists of sizes in a sample of a column, those that have as many as most.
func (r *Region) sampleOf(col int, split func(string) []string, count int) [][]value.Reading {
	var lists [][]value.Reading
	for _, line := range r.SampleLines() {
		pieces := slices.Clone(split(r.Grid.At(line, col)))
		if len(pieces) != count {
			continue
		}
		sizetext.ShareUnit(pieces)
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
		roles, names, sizes := sizetext.ListedInMost(lex, texts)
		if len(roles) < 2 {
			roles, names, sizes = sizetext.NamedInMost(lex, texts)
			if more := spokenInMost(lex, texts, roles, sizes); more.roles != nil {
				roles, names, sizes = more.roles, more.names, more.sizes
			}
		}
		if len(roles) > 1 {
			divide := r.onTwoCores(lex, h.Col, func(lex *lexicon.Lexicon, text string) []string {
				pieces := make([]string, len(roles))
				for _, s := range sizes(lex, text) {
					at := slices.Index(roles, s.Role)
					switch {
					case at < 0:
					case pieces[at] != "":
						pieces[at] += " / " + s.Text // two sizes of one name: for a person to say
					default:
						pieces[at] = s.Text
					}
				}
				return pieces
			})
			why := fmt.Sprintf("sizes are read from the texts under %q, where they stand with their names", h.Text)
			r.Columns = append(r.Columns, r.piecesOf(lex, h, names, why, false, divide)...)
			return
		}
		for mixed, within := range [...]func(string) []string{sizetext.ListWithin, sizetext.MixedWithin} {
			count, most := listsIn(texts, within)
			most = most && mixed == 0 // with different signs, only what somebody says of the order makes sizes of them
			if count == 0 {
				continue
			}
			lists := r.sampleOf(h.Col, within, count)
			names, why, inferred := r.orderSaid(lex, lists, count, titles)
			if names == nil && !most {
				continue
			}
			if names == nil {
				names, why = r.orderPossible(lex, r.kindSaid(lex, said, titles), lists)
				inferred = true
			}
			if names == nil {
				continue
			}
			divide := func(text string) []string {
				pieces := slices.Clone(within(text))
				if len(pieces) != count {
					return make([]string, count)
				}
				sizetext.ShareUnit(pieces)
				return pieces
			}
			pieces := r.piecesOf(lex, h, names, why, inferred, divide)
			r.Columns = append(r.Columns, pieces...)
			r.openExchanged(lex, r.kindSaid(lex, said, titles), h.Col, names, pieces, divide)
			r.openOtherLists(h.Col, pieces, count)
			return
		}
	}
}

// openOtherLists leaves open the sizes of texts that list more or fewer than most do, divided into the columns of their pieces.
func (r *Region) openOtherLists(col int, pieces []Heading, count int) {
	for line := r.Body; line <= r.To; line++ {
		text := r.Grid.At(line, col)
		if listed := len(sizetext.MixedWithin(text)); listed == 0 || listed == count || len(sizetext.ListWithin(text)) == count {
			continue
		}
		cols, whys := make([]int, len(pieces)), make([]string, len(pieces))
		for i, piece := range pieces {
			cols[i], whys[i] = piece.Col, fmt.Sprintf("%q lists other sizes than the %d of most texts", text, count)
			r.Grid.Retell(line, piece.Col, sizetext.OpenText(text))
		}
		r.openAt(cols, whys, line)
	}
}

// spokenSizes are sizes that most texts give in their clauses, with the names and what finds them in a text.
type spokenSizes struct {
	roles, names []string
	sizes        sizetext.Finder
}

// spokenInMost returns the sizes that most texts give where each clause has its own way to name them: "base OD 13.5 mm, bore 9.3 mm, 25 mm long",
// "hosel 13.5 mm OD, bore 9.5 mm x 32 mm deep". There are none where these are no more than those of names on one side, or where the clauses say
// of one of these something else.
func spokenInMost(lex *lexicon.Lexicon, texts, roles []string, sizes sizetext.Finder) (s spokenSizes) {
	count := map[string]int{}
	named := map[string]string{}
	var all []string
	for _, text := range texts {
		said := sizesSpoken(lex, text)
		if roles != nil && differ(roles, sizes(lex, text), said) {
			return spokenSizes{}
		}
		seen := map[string]bool{}
		for _, one := range said {
			if !one.Possible(lex) || seen[one.Role] {
				continue
			}
			seen[one.Role] = true
			if count[one.Role]++; count[one.Role] == 1 {
				all, named[one.Role] = append(all, one.Role), one.Name
			}
		}
	}
	for _, role := range all {
		if count[role]*5 >= len(texts)*3 {
			s.roles, s.names = append(s.roles, role), append(s.names, named[role])
		}
	}
	if len(s.roles) < 2 || len(s.roles) <= len(roles) {
		return spokenSizes{}
	}
	s.sizes = func(lex *lexicon.Lexicon, text string) []sizetext.Size {
		said := sizesSpoken(lex, text)
		for _, role := range roles { // an impossible size is no part of what is spoken, and is still to be read
			if at := slices.IndexFunc(said, ofRole(role)); at < 0 {
				said = append(said, slices.DeleteFunc(sizes(lex, text), func(one sizetext.Size) bool { return one.Role != role })...)
			}
		}
		return said
	}
	return s
}

// sizesSpoken returns the sizes that a text gives in its clauses.
func sizesSpoken(lex *lexicon.Lexicon, text string) []sizetext.Size {
	return slices.Clip(lexicon.Recall(lex, "sizes spoken", text, func() (all []sizetext.Size) {
		for _, clause := range spoken.Clauses(lex, text) {
			all = append(all, spoken.Sizes(lex, clause)...)
		}
		return all
	}))
}

// differ reports whether two readings of one text give other sizes for one of some roles. One that is taken apart into two, each with its name, is
// no other: "bore 9.5 mm x 32 mm deep".
func differ(roles []string, a, b []sizetext.Size) bool {
	return slices.ContainsFunc(roles, func(role string) bool {
		i, k := slices.IndexFunc(a, ofRole(role)), slices.IndexFunc(b, ofRole(role))
		if i < 0 || k < 0 || a[i].Text == b[k].Text {
			return false
		}
		rest, apart := strings.CutPrefix(a[i].Text, b[k].Text)
		return !apart || k+1 == len(b) || !strings.HasSuffix(rest, b[k+1].Text)
	})
}

// ofRole asks whether a size is of a role.
func ofRole(role string) func(sizetext.Size) bool {
	return func(s sizetext.Size) bool { return s.Role == role }
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
		sizes := sizetext.Millimetres(lex, divide(text), unit)
		if sizes == nil {
			continue
		}
		whys := make([]string, len(cols))
		for _, i := range sizetext.Exchanged(kind, roles, sizes) {
			r.Grid.Retell(line, cols[i], sizetext.OpenText(text))
			whys[i] = fmt.Sprintf("of the sizes in %q, two seem to stand in each other's place", text)
		}
		r.openAt(cols, whys, line)
	}
}

// listsPossible counts in percent the lists of a sample of a column that are possible in their order, none where fewer than most are.
func (r *Region) listsPossible(lex *lexicon.Lexicon, kind catalog.Kind, col int, roles []catalog.Role, unit string, divide func(string) []string) int {
	lists, fitting := 0, 0
	for _, line := range r.SampleLines() {
		sizes := sizetext.Millimetres(lex, divide(r.Grid.At(line, col)), unit)
		if sizes == nil {
			continue
		}
		lists++
		if sizetext.Consistent(kind, roles, sizes) {
			fitting++
		}
	}
	if 100*fitting < leastInOrder*lists || fitting < leastListed {
		return 0
	}
	return 100 * fitting / lists
}

// textsOf returns the texts of a sample of a column that hold words and digits.
func (r *Region) textsOf(col int) []string {
	var texts []string
	for _, line := range r.SampleLines() {
		text := r.Grid.At(line, col)
		if len(text) > 8 && len(text) <= lexicon.LongestNote && strings.ContainsAny(text, "0123456789") && strings.ContainsFunc(text, unicode.IsLetter) &&
			(!lexicon.LooksLikeCode(text) || strings.Contains(text, " ") && (sizetext.ListWithin(text) != nil || sizetext.MixedWithin(text) != nil)) {
			texts = append(texts, text)
		}
	}
	return texts
}

// listsIn returns how many sizes the lists within texts have, zero where too few have any, and whether most have: where only some do, among
// other goods, somebody has to say in which order the sizes are.
func listsIn(texts []string, within func(string) []string) (count int, most bool) {
	have := map[int]int{} // texts by how many sizes they list
	for _, text := range texts {
		have[len(within(text))]++
	}
	for size := sizetext.LeastListed; size <= sizetext.MostListed; size++ {
		if have[size] >= max(leastListed, have[count]+1) {
			count = size
		}
	}
	return count, count > 0 && have[count]*5 >= len(texts)*4
}

// leastInOrder is the share of lists in percent that are possible in an order which is said.
const leastInOrder = 60

// leastListed is how many texts of a column list sizes at least, where a sentence says in which order.
const leastListed = 2
