package layout

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/spoken"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// A letter lists parts as items: "- VK-31: black, bore 9.35, OD 13.6, price EUR 0.42". Each is read as a card of one line: at its start, behind
// a bullet if it has one, stands the part number, and then what is said of it, the names with the sizes.

const (
	// leastItems is how many items make a list, and leastInItem how many sizes each of them gives by name.
	leastItems  = 3
	leastInItem = 2
)

// naming is where the names of the sizes of items stand: before each or behind it, in a list above them, whose order is theirs, or on either
// side as people speak.
type naming struct {
	behind bool
	listed []string
	spoken bool
}

// listAbove returns the names of as many sizes as texts list that one of the first lines lists: "(hosel OD x bore x depth)".
func listAbove(g *grid.Grid, lex *lexicon.Lexicon) []string {
	for line := 1; line <= min(g.Lines, cardProbe); line++ {
		for _, id := range g.Row(line, 1, g.Width) {
			if text := g.Text(id); len(text) <= lexicon.LongestNote {
				for count := sizetext.MostListed; count >= sizetext.LeastListed; count-- {
					if names := sizetext.NamesListed(lex, text, count); names != nil {
						return names
					}
				}
			}
		}
	}
	return nil
}

// sizesIn returns the sizes of a text with their names.
func (n naming) sizesIn(lex *lexicon.Lexicon, text string) []sizetext.Size {
	if n.listed == nil {
		return sizetext.In(lex, text, n.behind)
	}
	pieces := slices.Clone(sizetext.ListWithin(text))
	if len(pieces) != len(n.listed) {
		return nil
	}
	from := strings.Index(text, pieces[0])
	sizetext.ShareUnit(pieces)
	var sizes []sizetext.Size
	for i, name := range n.listed {
		sizes = append(sizes, sizetext.Size{Role: sizetext.RoleNamed(lex, name), Name: name, Text: pieces[i], From: from})
	}
	return sizes
}

// items finds the items of a sheet, as one table; nil where it has none.
func items(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	if g.Width > widestCards || g.Lines > longestTalk {
		return nil
	}
	// Few sheets have items: the first lines tell whether one has, and where the names of their sizes stand.
	var named naming
	most := -1
	probe := beginnings(g, lex, cardProbe)
	for _, n := range []naming{{}, {behind: true}, {listed: listAbove(g, lex)}, {spoken: true}} {
		all, _ := itemsOf(lex, probe, n)
		given := possibleSizes(lex, all) + amounts(all)
		if n.spoken && slices.ContainsFunc(probe, func(b begun) bool { return b.introduced || b.corrected(lex) }) {
			given++ // these are sentences; elsewhere the name between a size and what puts it right hides that it does
		}
		if sized(all) >= leastItems && given > most {
			named, most = n, given
		}
	}
	if most < 0 {
		return nil
	}
	begun := beginnings(g, lex, g.Lines)
	if asksForCount(g, lex, begun[0].at.Row) {
		countPieces(lex, begun)
	}
	best, unsaid := itemsOf(lex, begun, named)
	begun, best, unsaid = withoutLater(lex, begun, best, unsaid)
	addLater(g, lex, begun, best)
	kept := 0
	for _, i := range joinLater(best) {
		begun[kept], best[kept], unsaid[kept] = begun[i], best[i], unsaid[i]
		kept++
	}
	begun, best, unsaid = begun[:kept], best[:kept], unsaid[:kept]
	copySizes(lex, begun, best, unsaid)
	isSized := func(c card) bool { return c.sizes() >= leastInItem }
	first := slices.IndexFunc(best, isSized)
	// What is said of a part with less is for a person to say, too; but before and behind the list it is about something else.
	last := len(best)
	for !isSized(best[last-1]) {
		last--
	}
	runs := runsOfKinds(g, lex, begun[first:last], best[first:last])
	if sized(best[first:last])*3 < (linesOf(g, begun[first:last])-len(runs)+1)*2 {
		return nil
	}
	for last < len(best) && continues(g, begun[last-1], begun[last], best[last], onceBegun(begun, last)) {
		last++
	}
	for first > 0 && continues(g, begun[first-1], begun[first], best[first-1], onceBegun(begun, first-1)) {
		first--
	}
	best, unsaid, begun = best[first:last], unsaid[first:last], begun[first:last]
	return itemTables(g, lex, begun, best, unsaid)
}

// itemTables makes tables of items, one for each kind of parts; nil where that cannot be done.
func itemTables(g *grid.Grid, lex *lexicon.Lexicon, begun []begun, all []card, unsaid [][]Unsaid) []Region {
	var tables []Region
	runs := runsOfKinds(g, lex, begun, all)
	for i, run := range runs {
		next := g.Lines + 1
		if i+1 < len(runs) {
			next = runs[i+1].line
		}
		own := all[run.from:run.to]
		nameAlike(lex, own)
		endsAsThinEnds(lex, own)
		packOfPrice(lex, own)
		putRightLater(g, lex, begun[run.from:run.to], own, unsaid[run.from:run.to], next)
		copySizes(lex, begun[run.from:run.to], own, unsaid[run.from:run.to])
		r, ok := arrangeCards(g, own)
		if !ok {
			return nil
		}
		r.letter, r.unsaid = true, slices.Concat(unsaid[run.from:run.to]...)
		if len(runs) > 1 {
			r.From, r.area.From.Row = run.line, run.line
			r.To = max(r.To, begun[run.to-1].to)
			r.area.To.Row = r.To
		}
		tables = append(tables, r)
	}
	return tables
}

// continues reports whether of two items that follow each other one without its sizes is of the same list: beside the other, with nothing but
// messages without numbers between, with a number of the same shape, and a price or a count of its own. In a talk a size is enough. One with a size
// besides, whose number no other has, may be a paragraph of its own.
func continues(g *grid.Grid, before, next begun, unsized card, once bool) bool {
	shape, shaped := lexicon.ShapeOf(before.number)
	other, _ := lexicon.ShapeOf(next.number)
	given := amounts([]card{unsized})
	if isTimed(g, before.at.Row) && isTimed(g, next.at.Row) {
		given += unsized.sizes()
	}
	if !shaped || shape != other || given == 0 {
		return false
	}
	apart := once && unsized.sizes() > 0
	for line := before.to + 1; line < next.at.Row; line++ {
		if !spoken.IsIdle(wholeLine(g, line)) && !(apart && g.BlankLine(line, 1, g.Width)) {
			return false
		}
	}
	return true
}

// onceBegun reports whether no other item has the number of one.
func onceBegun(all []begun, at int) bool {
	for i, b := range all {
		if i != at && b.number == all[at].number {
			return false
		}
	}
	return true
}

// isTimed reports whether a line is a message of a talk.
func isTimed(g *grid.Grid, line int) bool { return spoken.TimeOfDay(g.At(line, 1)) != "" }

// nameAlike gives what is of one role the surest of its names: a letter says now "OD", now "base OD". Outer diameters of hosels and of ferrules
// that no item has both of are one, since letters list the ones or the others.
func nameAlike(lex *lexicon.Lexicon, all []card) {
	oneOutside := !slices.ContainsFunc(all, func(c card) bool { return hasRole(c, catalog.HoselOD) && hasRole(c, catalog.BaseOD) })
	key := func(role catalog.Role) catalog.Role {
		if oneOutside && role == catalog.BaseOD {
			return catalog.HoselOD
		}
		return role
	}
	type naming struct {
		entry
		score float64
	}
	names := map[catalog.Role]naming{}
	for _, c := range all {
		for _, e := range c {
			_, score := lex.RoleOfLabel(e.label)
			if known, found := names[key(e.role)]; !found || score > known.score {
				names[key(e.role)] = naming{e, score}
			}
		}
	}
	for _, c := range all {
		for i := range c {
			surest := names[key(c[i].role)]
			c[i].label, c[i].role = surest.label, surest.role
		}
	}
}

// sized counts the items that give enough sizes.
func sized(all []card) int {
	count := 0
	for _, c := range all {
		if c.sizes() >= leastInItem {
			count++
		}
	}
	return count
}

// amounts counts the prices and counts that items give.
func amounts(all []card) int {
	count := 0
	for _, c := range all {
		for _, e := range c {
			if want := traits.Of[e.role].Want; want == traits.Price || want == traits.Count {
				count++
			}
		}
	}
	return count
}

// possibleSizes counts the sizes of items that can be what their names say.
func possibleSizes(lex *lexicon.Lexicon, all []card) int {
	count := 0
	for _, c := range all {
		for _, e := range c {
			if traits.Of[e.role].Want == traits.Length && (sizetext.Size{Role: string(e.role), Text: e.value}).Possible(lex) {
				count++
			}
		}
	}
	return count
}

// begun is an item as it stands: its number, what is said of it, and the last line of that.
type begun struct {
	number string
	at     sheet.Ref
	said   []saidAt
	to     int
	// introduced is set where its line begins with other words, and led what of these is said of it.
	introduced bool
	led        string
	// same is the number of the part of which it is said to have the sizes.
	same string
	// kind is what its line says that it is.
	kind catalog.Kind
	// count is how many there are, where that was asked, and countAt where it stands.
	count   string
	countAt sheet.Ref
}

// beginnings returns the items in the first lines of a sheet, so many of those that are not blank.
func beginnings(g *grid.Grid, lex *lexicon.Lexicon, lines int) []begun {
	var all []begun
	apart := true // whether a blank line stands before each item
	for line, probed := 1, 0; line <= g.Lines && probed < lines; line++ {
		if g.BlankLine(line, 1, g.Width) {
			continue
		}
		probed++
		number, said := beginItem(g, lex, line)
		introduced, led := false, ""
		if number == "" {
			number, said, led = introducedItem(g, lex, line)
			introduced = true
		}
		if number != "" {
			all = append(all, begun{number: number, at: g.Ref(line, spokenAt(g, line)), said: said, led: led, to: line, introduced: introduced, kind: kindInWords(lex, wholeLine(g, line))})
		}
	}
	all = alone(lex, all)
	for _, b := range all {
		line := b.at.Row
		first, _ := utf8.DecodeRuneInString(g.At(line, 1))
		apart = apart && (unicode.IsLower(first) || line == 1 || g.BlankLine(line-1, 1, g.Width)) // a small letter is in the middle of a sentence
	}
	apart = apart && goOnBelow(g, all)
	for i := range all {
		next := g.Lines + 1
		if i+1 < len(all) {
			next = all[i+1].at.Row
		}
		all[i].goOn(g, lex, next, apart)
		all[i].takeSame(lex)
	}
	return all
}

// corrected reports whether words in what is said of an item put a size right.
func (b *begun) corrected(lex *lexicon.Lexicon) bool {
	return slices.ContainsFunc(b.said, func(one saidAt) bool { return spoken.SaysCorrection(lex, one.text) })
}

// goOnBelow reports whether something stands right below most items.
func goOnBelow(g *grid.Grid, all []begun) bool {
	below := 0
	for _, b := range all {
		if b.to < g.Lines && !g.BlankLine(b.to+1, 1, g.Width) {
			below++
		}
	}
	return below*2 > len(all)
}

// goOn adds to an item the lines below it, before the next, in which what is said of it goes on: those of its own paragraph where each has one,
// those without the time where it was said at one, and otherwise those that go on with a sentence.
func (b *begun) goOn(g *grid.Grid, lex *lexicon.Lexicon, next int, apart bool) {
	timed := isTimed(g, b.at.Row)
	for line := b.to + 1; line < next && !g.BlankLine(line, 1, g.Width); line++ {
		last := &b.said[len(b.said)-1]
		switch text := g.At(line, 1); {
		case text == "", spoken.TimeOfDay(text) != "", b.anotherPart(g, lex, line):
			return
		case !timed && !apart && (lengthOf(g, line-1) < leastWrapped || !spoken.GoesOn(last.text, text)):
			return
		}
		last.text += " " + g.At(line, 1)
		for col := 2; col <= g.Width; col++ {
			if text := g.At(line, col); text != "" {
				b.said = append(b.said, saidAt{text, g.Ref(line, col)})
			}
		}
		b.to = line
	}
}

// anotherPart reports whether a line names the number of another part, and two sizes: it is about that one, however that stands in it.
func (b *begun) anotherPart(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	text := spoken.Parted(lex, wholeLine(g, line))
	_, number, _ := spoken.CutIntroduced(text)
	return number != "" && number != b.number && lexicon.IsItemNumber(number) && len(sizesSpoken(lex, text)) >= leastInItem
}

// lengthOf counts the characters of a line.
func lengthOf(g *grid.Grid, line int) int {
	count := 0
	for _, id := range g.Row(line, 1, g.Width) {
		count += utf8.RuneCountInString(g.Text(id))
	}
	return count
}

// leastWrapped is how many characters a line has at least that was broken since it was long.
const leastWrapped = 40

// linesOf counts the lines from the first item to the last that are of one or stand between two. In a talk, those between that have no number
// count nothing.
func linesOf(g *grid.Grid, all []begun) int {
	count := 0
	headed := false // whether the names and times of a talk stand in lines of their own
	for i, b := range all {
		count++
		if i+1 == len(all) {
			break
		}
		headed = headed || b.to+1 < all[i+1].at.Row && spoken.SaysWhen(wholeLine(g, all[i+1].at.Row-1))
		for line := b.to + 1; line < all[i+1].at.Row; line++ {
			text := wholeLine(g, line)
			if !g.BlankLine(line, 1, g.Width) && !spoken.IsIdle(text) && (!headed || lexicon.BearsNumber(text) && !spoken.SaysWhen(text)) {
				count++
			}
		}
	}
	return count
}

// wholeLine is the text of a line that was cut at commas.
func wholeLine(g *grid.Grid, line int) string { return textOf(g, g.Row(line, 1, g.Width), ", ") }

// itemsOf reads items whose sizes are named in a way. Unsaid are what may be further sizes of each.
func itemsOf(lex *lexicon.Lexicon, begun []begun, named naming) (all []card, unsaid [][]Unsaid) {
	for _, b := range begun {
		item := card{{label: "part number", value: b.number, at: b.at, valueAt: b.at, role: catalog.Part}}
		for _, one := range b.said {
			if named.spoken {
				item = item.speak(lex, one.text, one.at)
			} else {
				item = item.say(lex, one.text, one.at, named)
			}
		}
		if named.spoken {
			item = item.withThinEnd(lex, b.said)
		}
		item = slices.DeleteFunc(item, func(e entry) bool {
			return e.role == catalog.Description && b.led != "" && (strings.HasPrefix(b.led, e.value) || strings.HasPrefix(e.value, b.led))
		})
		if b.count != "" && !hasRole(item, catalog.Stock) {
			item = append(item, entry{label: "stock", value: b.count, at: b.countAt, valueAt: b.countAt, role: catalog.Stock})
		}
		var left []Unsaid
		for _, one := range b.said {
			for _, number := range item.leaves(lex, one.text, one.at) {
				left = append(left, Unsaid{number, b.number, one.at})
			}
		}
		all, unsaid = append(all, item), append(unsaid, left)
	}
	return all, unsaid
}

// saidAt is what is said of a part in one cell.
type saidAt struct {
	text string
	at   sheet.Ref
}

// beginItem returns the part number with which a line begins an item, several where they share what is said, and what is said of it cell by
// cell. The number is empty where the line begins none.
func beginItem(g *grid.Grid, lex *lexicon.Lexicon, line int) (number string, said []saidAt) {
	col := spokenAt(g, line)
	number, rest := spoken.ItemNumber(lex, asWritten(g, line, col))
	if number == "" && col == 1 {
		number, rest, col = besideNumber(g, lex, line)
	}
	if number == "" {
		return "", nil
	}
	said = []saidAt{{rest, g.Ref(line, col)}}
	for col++; col <= g.Width; col++ {
		text := g.At(line, col)
		if last := &said[len(said)-1]; text != "" && (spoken.CorrectsAhead(lex, text) || sizetext.Corrects(lex, text) || spoken.CorrectedBy(lex, last.text)) {
			last.text += ", " + text // cut in the middle of putting right a size
			continue
		}
		if lexicon.IsBare(text) && !namesSizesBeside(g, lex, line) {
			return "", nil // a number alone in a cell has its name above it: that is a table
		}
		said = append(said, saidAt{text, g.Ref(line, col)})
	}
	return number, said
}

// spokenAt returns the column in which begins what a line says: the first, or in a talk the one behind the time and the name.
func spokenAt(g *grid.Grid, line int) int {
	if g.Width < 3 || g.At(line, 3) == "" {
		return 1
	}
	time := g.At(line, 1)
	if time == "" || spoken.TimeOfDay(time) != time || strings.ContainsFunc(g.At(line, 2), unicode.IsDigit) {
		return 1
	}
	return 3
}

// besideNumber returns the part number that stands alone in the first cell of a line, with those that share what is said behind them, and
// what is said in the column in which that begins: it follows the last of several numbers, or a name and a colon. Below headings such a
// line is the row of a table.
func besideNumber(g *grid.Grid, lex *lexicon.Lexicon, line int) (number, rest string, col int) {
	if number = spoken.WithoutLead(g.At(line, 1)); !lexicon.IsItemNumber(number) || spoken.LeadsToNumber(number) {
		return "", "", 0
	}
	all := number
	for col = 2; col <= g.Width && g.At(line, col) != ""; col++ {
		all += ", " + g.At(line, col)
		if numbers, rest := spoken.Together(all); len(numbers) > len(all)-len(g.At(line, col)) && !belowHeading(g, lex, line) {
			return numbers, rest, col
		}
		if !lexicon.IsItemNumber(g.At(line, col)) {
			break
		}
	}
	if namedBeside(g, lex, line) || sizedBeside(g, lex, line) || spokenBeside(g, lex, line) || sameBeside(g, lex, line) {
		return number, g.At(line, 2), 2
	}
	return "", "", 0
}

// speak adds to an item what a text says of it in sentences.
func (c card) speak(lex *lexicon.Lexicon, text string, at sheet.Ref) card {
	for _, v := range spoken.Values(lex, text) {
		if v.Role != catalog.Description || !hasRole(c, catalog.Description) {
			c = append(c, entryOf(v, at))
		}
	}
	return c
}

// entryOf is a value that stands in a cell with its name.
func entryOf(v spoken.Value, at sheet.Ref) entry {
	return entry{label: v.Label, value: v.Text, at: at, valueAt: at, role: v.Role}
}

// say adds to an item what a text says of it: sizes by name, a price or a count, and, where nothing did yet, a description.
func (c card) say(lex *lexicon.Lexicon, text string, at sheet.Ref, named naming) card {
	for _, s := range named.sizesIn(lex, text) {
		c = append(c, entry{label: s.Name, value: s.Text, at: at, valueAt: at, role: catalog.Role(s.Role)})
	}
	c = partStock(lex, c)
	for _, clause := range betweenSayings().Split(text, -1) {
		said := clause
		if sizes := named.sizesIn(lex, clause); len(sizes) > 0 {
			said = clause[:sizes[0].From]
			if amount, ok := spoken.AmountIn(lex, behindSizes(clause, sizes)); ok {
				c = append(c, entryOf(amount, at))
			}
		} else if amount, ok := spoken.AmountIn(lex, clause); ok {
			c = append(c, entryOf(amount, at))
			continue
		}
		if said = spoken.Saying(lex, said); said != "" && !slices.ContainsFunc(c, func(e entry) bool { return e.role == catalog.Description }) {
			c = append(c, entry{label: "description", value: said, at: at, valueAt: at, role: catalog.Description})
		}
	}
	return c
}

// behindSizes is what a clause says behind the last of its sizes: "stock 120 pcs".
func behindSizes(clause string, sizes []sizetext.Size) string {
	last := sizes[len(sizes)-1]
	end := strings.Index(clause[last.From:], last.Text) + len(last.Text)
	return strings.Trim(clause[last.From+end:], sizetext.AroundNames)
}

// namedBeside reports whether the second cell of a line begins with a name and a colon and says something behind it.
func namedBeside(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	name, said, colon := lexicon.CutLabel(g.At(line, 2))
	first, _ := utf8.DecodeRuneInString(said)
	if role, _ := lex.RoleOfLabel(name); !colon || !unicode.IsLetter(first) || role == catalog.Part {
		return false // a label of a card, with its value
	}
	return !belowHeading(g, lex, line)
}

// sizedBeside reports whether the second cell of a line, the last that it has, gives several sizes by name.
func sizedBeside(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	text := g.At(line, 2)
	if countCells(g, line, span{left: 1, right: g.Width}) != 2 || !strings.Contains(text, " ") {
		return false
	}
	return max(len(sizetext.In(lex, text, false)), len(sizetext.In(lex, text, true))) >= leastInItem && !belowHeading(g, lex, line)
}

// spokenBeside reports whether the cells behind the first of a line are pieces of one sentence, which was cut at its commas: they give several
// sizes by name, and none is a number alone.
func spokenBeside(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	if !strings.Contains(g.At(line, 2), " ") {
		return false
	}
	var roles []string
	for col := 2; col <= g.Width && g.At(line, col) != ""; col++ {
		text := g.At(line, col)
		if lexicon.IsBare(text) {
			return false
		}
		for _, clause := range spoken.Clauses(lex, text) {
			for _, s := range spoken.Sizes(lex, clause) {
				roles = append(roles, s.Role)
			}
		}
	}
	slices.Sort(roles)
	return len(slices.Compact(roles)) >= leastInItem && !belowHeading(g, lex, line)
}

// namesSizesBeside reports whether several cells of a line give sizes by name, each others, as those of a sentence do that was cut at its commas.
func namesSizesBeside(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	roles, cells := map[string]bool{}, 0
	for _, id := range g.Row(line, 1, g.Width) {
		before := len(roles)
		if text := g.Text(id); !lexicon.IsBare(text) {
			for _, clause := range spoken.Clauses(lex, text) {
				for _, s := range spoken.Sizes(lex, clause) {
					roles[s.Role] = true
				}
			}
		}
		if len(roles) > before {
			cells++
		}
	}
	return cells >= leastInItem && !belowHeading(g, lex, line)
}

// belowHeading reports whether one of the lines above is the heading of a table, and not a sentence about a part that was cut at its commas.
func belowHeading(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	for above := line - 1; above >= 1 && above >= line-farthestHeading; above-- {
		text := g.At(above, 1)
		if number, _ := spoken.ItemNumber(lex, text); number == "" && !lexicon.IsItemNumber(spoken.WithoutLead(text)) && isHeadingLine(g, lex, above, 1, g.Width) {
			return true
		}
	}
	return false
}

// farthestHeading is how far above the row of a table its heading is looked for.
const farthestHeading = 20

// betweenSayings stands between two things that are said of a part. What is written without blanks has wide signs.
var betweenSayings = pattern.Lazy(`[,;] |[，；、]\s*`)

// asWritten is a cell of a line with all its blanks: more than one of them mean something behind a number.
func asWritten(g *grid.Grid, line, col int) string {
	if raw := strings.TrimSpace(g.Cell(line, col).Shown); spoken.HasWideGap(raw) && g.At(line, col) != "" {
		return raw
	}
	return g.At(line, col)
}

// sizes counts the different sizes that a card gives.
func (c card) sizes() int {
	var roles []catalog.Role
	for i := range c {
		if counts(&c[i]) && traits.Of[c[i].role].Want == traits.Length && !slices.Contains(roles, c[i].role) {
			roles = append(roles, c[i].role)
		}
	}
	return len(roles)
}

// leaves returns the numbers in a text about a part that can be sizes, by their decimals or units, and stand in nothing that the item has. One
// that follows another size, and can be of its kind too, makes that doubtful: it is put beside it, for what they mean together. One that is said
// not to hold, "(not 13.2 mm as I wrote)", does not.
func (c card) leaves(lex *lexicon.Lexicon, text string, at sheet.Ref) []string {
	var left []string
	before := c.sizeBefore(at)
	for _, place := range sizetext.Places(text, 2*spoken.MostNumbers) {
		number := text[place[0]:place[1]]
		if !lexicon.StandsFree(text, place[0], place[1]) || !strings.ContainsAny(number, sizetext.DecimalMarks) && !sizetext.HasUnit(number) || !mayBeSize(lex, number) {
			continue
		}
		near, from := -1, -1
		has := false
		for i := range c {
			if c[i].valueAt != at || i == 0 || c[i].role == catalog.Description {
				continue
			}
			if has = strings.Contains(c[i].value, number); has {
				break
			}
			if size := strings.LastIndex(text[:place[0]], c[i].value); size > from && traits.Of[c[i].role].Want == traits.Length {
				near, from = i, size
			}
		}
		denied := spoken.Denies(lex, text[:place[0]])
		switch {
		case has:
		case denied && near >= 0 && spoken.MayMean(lex, c[near].role, c[near].value, number),
			denied && near < 0 && before >= 0 && spoken.MayMean(lex, c[before].role, c[before].value, number): // the size beside it holds
		case near >= 0 && spoken.MayMean(lex, c[near].role, c[near].value, number):
			c[near].value = text[from:place[1]]
		case near < 0 && before >= 0 && spoken.MayMean(lex, c[before].role, c[before].value, number):
			c[before].value += ", " + text[:place[1]]
		default:
			left = append(left, number)
		}
	}
	return left
}

// sizeBefore returns the entry of the last size of an item that stands in the cell before one, -1 where that has none.
func (c card) sizeBefore(at sheet.Ref) int {
	for i, e := range slices.Backward(c) {
		if e.valueAt.Row == at.Row && e.valueAt.Col == at.Col-1 && traits.Of[e.role].Want == traits.Length {
			return i
		}
	}
	return -1
}
