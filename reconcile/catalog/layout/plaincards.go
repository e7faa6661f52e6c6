package layout

import (
	"cmp"
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
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// Cards may do without colons, and say several things in a line: "Card DA-118   bore 9.25" above "base 13.6  top 10.2  long 25.4" above
// "black, 140 in stock". A label and its value stand in one text then. Such a card begins where its part number stands, which has the same word
// before it on each card, or none, and ends at a blank line or where the next one begins; cards beside each other keep to their columns.

const (
	// leastPlain is how many cards a sheet of such has.
	leastPlain = 2
	// mostBefore is how many words stand before the number of a card at most, and mostLabel how many make a label.
	mostBefore, mostLabel = 2, 4
	// mostOdd is how many labels of single cards, that nobody knows, get a column.
	mostOdd = 12
	// mostPieces is how many things a sheet says for each card at most: a text of many lines is no list of cards since a number stands in it.
	mostPieces = 100
	// mostBare is of how many cards one at most has a number without a label.
	mostBare = 4
)

// plainPiece is one thing that a line says, apart from the others by two blanks, a comma, a sign or the border of its cell.
type plainPiece struct {
	text string
	// at is the cell of its label, valueAt that of its value.
	at, valueAt sheet.Ref
	// line is that of its label, to that of its value.
	line, to int
	// number is the part number that it begins with and before what stands before that, rest what behind; empty where it has none.
	before, number, rest string
	// starts is set where the piece is where a card begins.
	starts bool
}

// plainCards finds the cards of a sheet whose labels have no colons, as one table; nil where it has none.
func plainCards(g *grid.Grid, lex *lexicon.Lexicon) []Region {
	if g.Width > widestCards || g.Lines > mostCardLines || !saysPairs(lex, tellings(g, lex, cardProbe)) {
		return nil
	}
	all := tellings(g, lex, g.Lines)
	pieces := piecesIn(lex, all)
	lanes, ok := markStarts(lex, pieces)
	if starts := countStarts(pieces); !ok || len(pieces) > mostPieces*starts || isRow(g, lex, pieces[slices.IndexFunc(pieces, isStart)].line) {
		return nil
	}
	pieces = withoutOthers(lex, pieces)
	var beside [][]card
	for i, lane := range lanes {
		right := rightOf(g, lanes, i)
		own := slices.DeleteFunc(slices.Clone(pieces), func(p plainPiece) bool { return p.at.Col < lane || p.at.Col > right })
		cards := laneCards(lex, own)
		var left []card
		for _, i := range joinLater(cards) {
			left = append(left, cards[i])
		}
		beside = append(beside, left)
	}
	found := slices.Concat(beside...)
	priceUnnamed(lex, found, textsOf(all))
	packOfPrice(lex, found)
	endsAsThinEnds(lex, found)
	if !plainlySized(found) || !namedAndSized(found) || namedByUnits(lex, found) {
		return nil
	}
	joinOdd(found)
	return arrangeBeside(g, beside)
}

// withoutOthers leaves out the lines in which no card begins and which name another part in a sentence, with sizes: these are its own.
func withoutOthers(lex *lexicon.Lexicon, pieces []plainPiece) (kept []plainPiece) {
	for from := 0; from < len(pieces); {
		to := from + 1
		for to < len(pieces) && pieces[to].line == pieces[from].line {
			to++
		}
		line := pieces[from:to]
		from = to
		if slices.ContainsFunc(line, isStart) || !namesAnother(line) || sizesOn(lex, line) < leastInItem {
			kept = append(kept, line...)
		}
	}
	return kept
}

// namesAnother reports whether a piece of a line names a part behind other words.
func namesAnother(line []plainPiece) bool {
	return slices.ContainsFunc(line, func(p plainPiece) bool {
		before, number, _ := spoken.CutIntroduced(p.text)
		return before != "" && lexicon.IsItemNumber(number)
	})
}

// sizesOn counts the sizes that a line says.
func sizesOn(lex *lexicon.Lexicon, line []plainPiece) (sizes int) {
	for _, e := range saidIn(lex, line) {
		if e.sized() {
			sizes++
		}
	}
	return sizes
}

// isWholeNumber reports whether a text is a part number and nothing else: of one word, or of letters and digits apart.
func isWholeNumber(text string) bool {
	if strings.Contains(text, " ") {
		divided, _ := dividedNumber(text)
		return divided != ""
	}
	return lexicon.IsItemNumber(text)
}

// isRow reports whether a line is the row of a table: below a heading, and with its number or another one alone in a cell.
func isRow(g *grid.Grid, lex *lexicon.Lexicon, line int) bool {
	alone := slices.ContainsFunc(g.Row(line, 1, g.Width), func(id grid.ID) bool {
		text := g.Text(id)
		return text != "" && (lexicon.IsBare(text) || isWholeNumber(text))
	})
	return (alone || countCells(g, line, span{left: 1, right: g.Width}) < 2) && belowHeading(g, lex, line)
}

func isStart(p plainPiece) bool { return p.starts }

// countStarts counts the cards that begin with one of pieces.
func countStarts(pieces []plainPiece) int {
	count := 0
	for _, p := range pieces {
		if p.starts {
			count++
		}
	}
	return count
}

// saysPairs reports whether the first lines of a sheet say sizes by name within their texts often enough to be cards. It spares all other
// sheets the rest.
func saysPairs(lex *lexicon.Lexicon, first []telling) bool {
	pairs, bare, line := 0, 0, 0
	label := false
	for _, t := range first {
		label = label && t.line == line
		line = t.line
		isLabel := false
		switch {
		case len(t.text) > lexicon.LongestNote:
		case !strings.ContainsFunc(t.text, unicode.IsDigit):
			isLabel = labelsSize(lex, t.text)
		case label && lexicon.LooksNumeric(t.text):
			pairs++
		case !strings.ContainsFunc(t.text, unicode.IsLetter):
			bare++
		default:
			pairs += pairsSaid(lex, t.text)
		}
		label = isLabel
	}
	return pairs >= leastPairs && pairs >= bare
}

// pairsSaid counts the sizes with labels that a text gives.
func pairsSaid(lex *lexicon.Lexicon, text string) int {
	count := 0
	for _, piece := range cutApart(lex, text) {
		for _, e := range pairsIn(lex, piece) {
			if labelsSize(lex, e.label) {
				count++
			}
		}
	}
	return count
}

// apart is what stands between two things that a line says, but between digits, where it may make one size of two.
var apart = pattern.Lazy(`[ \x{a0}]{2,}|\s*[\t\x{3000}]\s*|[,;] +|[，；、]\s*| +[/|·•–—-] +`)

// piecesIn returns what tellings say, piece by piece.
func piecesIn(lex *lexicon.Lexicon, all []telling) []plainPiece {
	var pieces []plainPiece
	for _, t := range all {
		text := placed(t.text)
		if before, numbers, rest := severalIn(lex, text); numbers != "" {
			pieces = append(pieces, plainPiece{text: text[:len(text)-len(rest)], at: t.at, valueAt: t.valueAt, line: t.line, to: t.to, before: before, number: numbers})
			text = rest
		}
		for i, text := range cutApart(lex, text) {
			p := plainPiece{text: text, at: t.at, valueAt: t.valueAt, line: t.line, to: t.to}
			if p.before, p.number, p.rest = numberIn(lex, text, t.opens && i == 0); p.number == "" && t.opens && i == 0 {
				p.number, p.rest = dividedNumber(text)
			}
			// A number by itself has its word before it, in a cell of its own.
			if last := len(pieces) - 1; last >= 0 && p.number != "" && p.before == "" && p.rest == "" && namesCard(lex, pieces[last].text) {
				p.before = pieces[last].text
				pieces = pieces[:last]
			}
			if last := len(pieces) - 1; last >= 0 && pieces[last].line == p.line && spoken.IsBought(pieces[last].text) && lexicon.IsBare(text) {
				continue // what it comes to
			}
			pieces = append(pieces, p)
		}
	}
	nameSiblings(pieces)
	return pieces
}

// leastDivided is how many digits a part number has at least that stand apart from its letters.
const leastDivided = 2

// dividedNumber returns the part number of letters, a blank and digits that a text is: "PK 118". It is one where a card may begin only.
func dividedNumber(text string) (number, rest string) {
	letters, digits, two := strings.Cut(text, " ")
	if !two || len(digits) < leastDivided || !lexicon.IsDigits(digits) || strings.ToUpper(letters) != letters || strings.ContainsFunc(letters, func(r rune) bool { return !unicode.IsLetter(r) }) {
		return "", ""
	}
	return text, ""
}

// nameSiblings gives pieces the part number of letters alone that they begin with, where that of others begins alike: LP-SW beside LP-6.
func nameSiblings(pieces []plainPiece) {
	stems := map[string]bool{}
	for _, p := range pieces {
		if stem := familyStem(p.number); stem != "" {
			stems[stem] = true
		}
	}
	for i := range pieces {
		p := &pieces[i]
		if p.number != "" {
			continue
		}
		first, rest, _ := strings.Cut(p.text, " ")
		if number := strings.TrimRight(first, ":,;"); stems[familyStem(number)] && strings.ToUpper(number) == number && !lexicon.BearsDigits(number) {
			p.number, p.rest = number, strings.TrimLeft(rest, sizetext.AroundNames)
		}
	}
}

// familyStem is what stands before the last dash of a part number, with it; empty where it has none.
func familyStem(number string) string { return number[:strings.LastIndexByte(number, '-')+1] }

// cutApart cuts a text where it has a comma, a sign or several blanks between two things.
func cutApart(lex *lexicon.Lexicon, text string) []string {
	var all []string
	add := func(piece string) {
		if piece = strings.Trim(piece, " \u00a0\t\u3000,;|"); endsInDigit(strings.TrimSuffix(piece, ".")) {
			piece = strings.TrimSuffix(piece, ".") // that of the sentence
		}
		if piece != "" {
			all = append(all, piece)
		}
	}
	from := 0
	places := apart().FindAllStringIndex(text, -1)
	divides := map[string]bool{} // the signs between two things for certain, which between two numbers are no other
	for _, at := range places {
		if before, _ := utf8.DecodeLastRuneInString(text[:at[0]]); !unicode.IsDigit(before) || strings.HasPrefix(strings.TrimLeftFunc(text[at[1]:], unicode.IsLetter), " ") {
			divides[strings.TrimSpace(text[at[0]:at[1]])] = true
		}
	}
	for _, at := range places {
		before, _ := utf8.DecodeLastRuneInString(text[:at[0]])
		after, _ := utf8.DecodeRuneInString(text[at[1]:])
		sign := strings.TrimSpace(text[at[0]:at[1]])
		joins := sign != "" && strings.ContainsAny(sign, "/"+sizetext.Dashes) && unicode.IsDigit(before) && (unicode.IsDigit(after) || after == '.')
		if joins && !divides[sign] && !sizetext.FarApart(text[:at[0]], text[at[1]:]) && !beginsWithMoney(lex, text[at[1]:]) {
			continue
		}
		add(text[from:at[0]])
		from = at[1]
	}
	add(text[from:])
	return all
}

func endsInDigit(text string) bool { return text != "" && lexicon.IsDigits(text[len(text)-1:]) }

// namesCard reports whether a text is a word for cards or for the numbers of parts, as it stands before the number of a card.
func namesCard(lex *lexicon.Lexicon, text string) bool {
	if len(text) > lexicon.LongestLabel || strings.ContainsFunc(text, unicode.IsDigit) {
		return false
	}
	text = strings.Trim(text, sizetext.AroundNames+"#")
	if _, card := lex.Words.Mark(text, "card"); card {
		return true
	}
	role, score := lex.RoleOfLabel(text)
	return role == catalog.Part && score >= lexicon.HeadingScore
}

// numberIn returns the part number that a text begins with, after a word or two where it has such, and what stands behind it. Where nothing stands
// above the text, what is before the number is no name of something else.
func numberIn(lex *lexicon.Lexicon, text string, opens bool) (before, number, rest string) {
	text = spoken.Parted(lex, text)
	if label, behind, colon := lexicon.CutLabel(text); colon && (namesCard(lex, label) || namesKindOfPart(lex, label)) {
		number, rest = codeFirst(strings.Fields(behind))
		return numberBehind(lex, label, number, rest)
	}
	if before, behind := wideLabel(lex, text); before != "" {
		number, rest = codeFirst(strings.Fields(behind))
		return before, number, rest
	}
	fields := strings.Fields(text)
	for n := range min(mostBefore+1, len(fields)) {
		before = strings.Join(fields[:n], " ")
		if n > 0 && strings.ContainsFunc(fields[n-1], unicode.IsDigit) {
			return "", "", ""
		}
		switch {
		case n > 0 && namesCard(lex, before):
			if number, rest = codeFirst(fields[n:]); number != "" {
				return numberBehind(lex, before, number, rest)
			}
		case (n < 2 || namesKindOfPart(lex, before)) && lexicon.IsItemNumber(strings.TrimRight(fields[n], ":,;")):
			fields[n] = strings.TrimRight(fields[n], ":,;")
			rest = strings.Join(fields[n+1:], " ")
			if role, _ := lex.RoleOfLabel(before); role != "" && !opens && !namesKindOfPart(lex, before) || beginsWithDigit(rest) && !isAmount(lex, rest) {
				return "", "", "" // a colour's number, a shaft's; the name of a size, D1
			}
			return before, fields[n], rest
		}
	}
	return "", "", ""
}

// isAmount reports whether a text is a price or a count with what it is of: "3 in stock".
func isAmount(lex *lexicon.Lexicon, text string) bool {
	if _, priced := spoken.PriceIn(lex, text); priced {
		return true
	}
	amount, ok := spoken.AmountIn(lex, text)
	return ok && (amount.Role == catalog.Price || amount.Role == catalog.Stock)
}

// numberBehind returns, where cards are counted and the number of the part stands behind, that one: "Card 7: FX-10".
func numberBehind(lex *lexicon.Lexicon, before, number, rest string) (string, string, string) {
	next, behind, _ := strings.Cut(rest, " ")
	if role, _ := roleKnown(lex, before); role == catalog.Part || len(number) >= lexicon.LeastInNumber || strings.Trim(number, "0123456789") != "" || !lexicon.IsItemNumber(next) {
		return before, number, rest
	}
	return before, next, behind
}

// severalIn returns the part numbers that a text begins with, behind the word for them, where several share a card; empty where it has one.
func severalIn(lex *lexicon.Lexicon, text string) (before, numbers, rest string) {
	for n, behind := range strings.SplitN(text, " ", mostBefore+1) {
		if n > 0 && strings.ContainsFunc(behind, unicode.IsDigit) {
			break
		}
		before = strings.TrimSpace(before + " " + behind)
		if !namesCard(lex, before) {
			continue
		}
		if numbers, rest = spoken.Together(strings.TrimLeft(text[len(before):], sizetext.AroundNames)); numbers != "" {
			return before, numbers, rest
		}
	}
	return "", "", ""
}

// beginsWithDigit reports whether a text begins with a number.
func beginsWithDigit(text string) bool {
	text = strings.TrimLeft(text, ".")
	return text != "" && text[0] >= '0' && text[0] <= '9'
}

// wideLabel cuts the word for cards off a text in a script without blanks between words.
func wideLabel(lex *lexicon.Lexicon, text string) (label, behind string) {
	end := strings.IndexFunc(text, func(sign rune) bool { return !lexicon.IsWide(sign) })
	if end <= 0 || strings.HasPrefix(text[end:], " ") || !namesCard(lex, text[:end]) {
		return "", ""
	}
	return text[:end], text[end:]
}

// codeFirst returns the part number that words begin with behind the word for it: one with a digit, or two of which the second has them.
func codeFirst(fields []string) (number, rest string) {
	for n := 1; n <= min(2, len(fields)); n++ {
		number = strings.Trim(strings.Join(fields[:n], " "), ",;:")
		if strings.ContainsFunc(number, unicode.IsDigit) {
			if !lexicon.LooksLikeCode(number) || n == 2 && strings.ToUpper(fields[0]) != fields[0] {
				return "", ""
			}
			return number, strings.Join(fields[n:], " ")
		}
	}
	return "", ""
}

// markStarts marks the pieces with which cards begin, and returns the columns in which cards beside each other do. It reports false where there
// are too few, or two in one cell.
func markStarts(lex *lexicon.Lexicon, pieces []plainPiece) (lanes []int, ok bool) {
	groups := map[string]*startGroup{}
	for i, p := range pieces {
		if p.number == "" {
			continue
		}
		key := words.Fold(p.before)
		if groups[key] == nil {
			role, _ := roleKnown(lex, p.before)
			groups[key] = &startGroup{first: i, names: namesCard(lex, p.before), part: role == catalog.Part}
		}
		if groups[key].count++; lexicon.IsItemNumber(p.number) {
			groups[key].coded++
		}
	}
	best := ""
	for key, group := range groups {
		if groups[best] == nil || group.surer(groups[best]) {
			best = key
		}
	}
	if groups[best] == nil || groups[best].rank() == 0 {
		return nil, false
	}
	seen := map[string]bool{}
	lastLine, lastCol, abreast := 0, 0, false
	for i := range pieces {
		p := &pieces[i]
		if p.number == "" || words.Fold(p.before) != best {
			continue
		}
		seen[p.number] = true
		p.starts = true
		if p.line == lastLine {
			if p.at.Col == lastCol {
				return nil, false
			}
			abreast = true
		}
		lastLine, lastCol = p.line, p.at.Col
		lanes = append(lanes, p.at.Col)
	}
	if !abreast {
		lanes = []int{1}
	}
	slices.Sort(lanes)
	return slices.Compact(lanes), len(seen) >= min(leastPlain, groups[best].count)
}

// startGroup is how often numbers stand behind one word, and where first.
type startGroup struct {
	count, first int
	// coded counts those with letters and digits.
	coded int
	// names is set where the word is one for cards or numbers, part where it is one for the latter.
	names, part bool
}

// surer reports whether one word before numbers is surer to begin cards than another: it is known and they are no mere count of the cards, more
// have it, or it stands first.
func (s *startGroup) surer(than *startGroup) bool {
	if a, b := s.rank(), than.rank(); a != b {
		return a > b
	}
	if s.count != than.count {
		return s.count > than.count
	}
	return s.first < than.first
}

func (s *startGroup) rank() int {
	coded := s.coded*2 > s.count
	switch {
	case s.count < leastPlain && !s.names:
		return 0
	case s.part, s.names && coded:
		return 3
	case coded:
		return 2
	}
	return 1
}

// plainRun is what stands together of a card: its pieces, from the line of its number, what the lines above say of it, and the blocks below.
type plainRun struct {
	pieces       []plainPiece
	above, below card
	// last is set where nothing follows in its block.
	last bool
}

// laneCards reads the cards of a lane, block by block.
func laneCards(lex *lexicon.Lexicon, pieces []plainPiece) []card {
	var runs []plainRun
	for from := 0; from < len(pieces); {
		to := from + 1
		for to < len(pieces) && pieces[to].line <= pieces[to-1].to+1 {
			to++
		}
		block := pieces[from:to]
		from = to
		if slices.ContainsFunc(block, isStart) {
			runs = append(runs, blockRuns(lex, block)...)
		} else if last := len(runs) - 1; last >= 0 && runs[last].goesOn(lex, block) {
			runs[last].below = append(runs[last].below, saidIn(lex, block)...)
		}
	}
	withoutNotes(lex, runs)
	var all []card
	for _, run := range runs {
		c := plainCard(lex, run.pieces)
		all = append(all, append(append(c, run.above...), run.below...))
	}
	return all
}

// goesOn reports whether a block without a part number says more of the card above it: a size that this has not, beside nothing but labels
// with values.
func (r *plainRun) goesOn(lex *lexicon.Lexicon, block []plainPiece) bool {
	own := slices.Concat(plainCard(lex, r.pieces), r.above, r.below)
	sizes := false
	for _, e := range saidIn(lex, block) {
		if e.role == "" || hasRole(own, e.role) {
			return false
		}
		sizes = sizes || e.sized()
	}
	return sizes
}

// blockRuns divides lines without a blank one between into cards, each from the line with its number. What stands above the first is a title,
// unless it says sizes of the only one.
func blockRuns(lex *lexicon.Lexicon, block []plainPiece) []plainRun {
	var runs []plainRun
	starts := startLines(block)
	for i, at := range starts {
		next := len(block)
		if i+1 < len(starts) {
			next = starts[i+1]
		}
		runs = append(runs, plainRun{pieces: block[at:next]})
	}
	runs[len(runs)-1].last = true
	if len(runs) == 1 {
		if above := saidIn(lex, block[:starts[0]]); slices.ContainsFunc(above, func(e entry) bool { return e.sized() }) {
			runs[0].above = above
		}
	}
	return runs
}

// startLines returns where the lines begin that have the number of a card.
func startLines(block []plainPiece) []int {
	var starts []int
	begin := 0
	for i, p := range block {
		if p.line != block[begin].line {
			begin = i
		}
		if p.starts {
			starts = append(starts, begin)
		}
	}
	return starts
}

// withoutNotes takes off the last cards of blocks the lines below in which nothing has a label that is known, where no other card ends in such a
// line or has a description.
func withoutNotes(lex *lexicon.Lexicon, runs []plainRun) {
	tails := make([]int, len(runs)) // where these lines begin
	noted := func(i int) bool { return runs[i].last && tails[i] < len(runs[i].pieces) && len(runs) > 1 }
	any := false
	for i, run := range runs {
		tails[i] = run.tail(lex)
		any = any || noted(i)
	}
	if any && countSaid(lex, runs, tails) == 1 {
		for i := range runs {
			if noted(i) {
				runs[i].pieces = runs[i].pieces[:tails[i]]
			}
		}
	}
	withoutTerms(lex, runs)
}

// countSaid counts the cards that end in such lines or have a description.
func countSaid(lex *lexicon.Lexicon, runs []plainRun, tails []int) (said int) {
	for i, run := range runs {
		if tails[i] < len(run.pieces) || hasRole(plainCard(lex, run.pieces), catalog.Description) {
			said++
		}
	}
	return said
}

// lastLine returns the last line of pieces, and where it begins.
func lastLine(pieces []plainPiece) (line, from int) {
	from = len(pieces) - 1
	line = pieces[from].line
	for from > 0 && pieces[from-1].line == line {
		from--
	}
	return line, from
}

// withoutTerms takes off the last cards of blocks the lines below that no other card has as many of, where they give no size: prices hold until
// a day, and an order is of so many.
func withoutTerms(lex *lexicon.Lexicon, runs []plainRun) {
	heights := make([]int, len(runs))
	for i, run := range runs {
		heights[i] = run.pieces[len(run.pieces)-1].line - run.pieces[0].line
	}
	sorted := slices.Sorted(slices.Values(heights))
	for i := range runs {
		run := &runs[i]
		if len(runs) < 2 || !run.last || heights[i] == sorted[len(sorted)-2] {
			continue
		}
		for {
			line, from := lastLine(run.pieces)
			if line-run.pieces[0].line <= sorted[len(sorted)-2] || from == 0 || slices.ContainsFunc(saidIn(lex, run.pieces[from:]), func(e entry) bool { return e.sized() }) {
				break
			}
			run.pieces = run.pieces[:from]
		}
	}
}

// tail returns where the last lines begin in which nothing has a label that is known.
func (r *plainRun) tail(lex *lexicon.Lexicon) int {
	end := len(r.pieces)
	for {
		_, from := lastLine(r.pieces[:end])
		if from == 0 || slices.ContainsFunc(saidIn(lex, r.pieces[from:end]), func(e entry) bool { return e.role != "" && e.role != catalog.Description }) {
			return end
		}
		end = from
	}
}

// plainCard reads the pieces of a card, one of which has its number: what else its line says may stand before that.
func plainCard(lex *lexicon.Lexicon, pieces []plainPiece) card {
	at := slices.IndexFunc(pieces, isStart)
	p := pieces[at]
	c := card{{label: "part number", value: p.number, at: p.at, valueAt: p.valueAt, role: catalog.Part}}
	said := slices.Delete(slices.Clone(pieces), at, at+1)
	if p.rest != "" {
		said = slices.Insert(said, at, plainPiece{text: strings.TrimLeft(p.rest, beforeLabels+":=："), at: p.at, valueAt: p.valueAt, line: p.line, to: p.to})
	}
	if at < len(said) && said[at].line == p.line && namesPart(lex, said[at].text) {
		c = append(c, entry{label: "description", value: said[at].text, at: said[at].at, valueAt: said[at].at, role: catalog.Description})
		said = slices.Delete(said, at, at+1)
	}
	return append(c, saidIn(lex, said)...)
}

// namesPart reports whether a text behind a part number is a name that ends in a number, and no label with its value: Blade 6.
func namesPart(lex *lexicon.Lexicon, text string) bool {
	name := strings.TrimRightFunc(text, unicode.IsDigit)
	label := strings.TrimRight(name, " ")
	if name == text || label == name || len(text)-len(name) > 2 || strings.ContainsFunc(label, unicode.IsDigit) {
		return false
	}
	_, known := roleKnown(lex, label)
	return !known && !lex.Words.Irrelevant(label)
}

// saidIn returns what pieces say, by label; what has none is the description.
func saidIn(lex *lexicon.Lexicon, pieces []plainPiece) card {
	var c card
	var texts []string
	var at sheet.Ref
	for i := 0; i < len(pieces); i++ {
		p := pieces[i]
		if i+1 < len(pieces) && labelBeside(lex, p, pieces[i+1]) {
			i++
			role, _ := lex.RoleOfLabel(p.text)
			c = append(c, entry{label: p.text, value: pieces[i].text, at: p.at, valueAt: pieces[i].valueAt, role: role})
			continue
		}
		if i+1 < len(pieces) && pieces[i+1].line == p.line && perOf(lex, p.text+" "+pieces[i+1].text) > 1 {
			if price, ok := spoken.AmountIn(lex, pieces[i+1].text); ok && price.Text == pieces[i+1].text { // a receipt: "per bag (12 pcs)   4.20"
				i++
				c = append(c, entry{label: "price", value: price.Text + " " + p.text, at: p.at, valueAt: pieces[i].valueAt, role: catalog.Price})
				continue
			}
		}
		if p.number != "" && p.rest == "" && strings.ContainsAny(p.number, "-_/") {
			p.text = strings.TrimSpace(p.before + " " + p.number) // of another part, or of what belongs to this one
			texts = append(texts, p.text)
			continue
		}
		found := pairsIn(lex, p.text)
		for _, e := range found {
			e.at, e.valueAt = p.at, p.valueAt
			c = append(c, e)
		}
		if len(found) == 0 {
			if at == (sheet.Ref{}) {
				at = p.at
			}
			texts = append(texts, p.text)
		}
	}
	if len(texts) > 0 {
		c = append(c, entry{label: "description", value: strings.Join(texts, ", "), at: at, valueAt: at, role: catalog.Description})
	}
	return c
}

// labelBeside reports whether a piece is nothing but a label, and the next one a value that begins with a number.
func labelBeside(lex *lexicon.Lexicon, label, next plainPiece) bool {
	if label.line != next.line || strings.ContainsFunc(label.text, unicode.IsDigit) {
		return false
	}
	return labelsSize(lex, label.text) && lexicon.LooksNumeric(next.text)
}

// labelsSize reports whether a text is the label of a size.
func labelsSize(lex *lexicon.Lexicon, text string) bool {
	if len(text) > lexicon.LongestLabel {
		return false
	}
	return slices.ContainsFunc(lex.Match(trimLabel(text)), func(m words.RoleMatch) bool {
		return m.Score >= lexicon.HeadingScore && traits.Of[catalog.Role(m.Role)].Want == traits.Length
	})
}

// trimLabel takes off a label what stands about it, but for brackets of its own: "Base (mm) =".
func trimLabel(text string) string {
	text = strings.Trim(text, strings.NewReplacer("(", "", ")", "", "（", "", "）", "").Replace(sizetext.AroundNames))
	if open := strings.ContainsAny(text, "(（"); open == strings.ContainsAny(text, ")）") {
		return text
	}
	return strings.Trim(text, sizetext.AroundNames)
}

// partStock takes the stock that stands behind a price off it: "$0.58 each 150 in stock".
func partStock(lex *lexicon.Lexicon, many []entry) []entry {
	for i, e := range many {
		if e.role != catalog.Price {
			continue
		}
		for end := strings.LastIndexByte(e.value, ' '); end > 0; end = strings.LastIndexByte(e.value[:end], ' ') {
			if stock, ok := spoken.AmountIn(lex, e.value[end+1:]); ok && stock.Role == catalog.Stock {
				many[i].value = e.value[:end]
				return append(many, entryOf(stock, e.valueAt))
			}
		}
	}
	return many
}

// pairsIn returns the labels of a piece with their values, none where it has no number.
func pairsIn(lex *lexicon.Lexicon, text string) []entry {
	if len(text) > lexicon.LongestNote {
		return nil
	}
	inWords := !strings.ContainsFunc(text, unicode.IsNumber)
	if inWords {
		if stock, ok := spoken.AmountIn(lex, text); ok { // "none in stock", "two dozen in stock"
			return []entry{entryOf(stock, sheet.Ref{})}
		}
	}
	if e, ok := textPair(lex, text); ok {
		return []entry{e}
	}
	if inWords {
		return nil
	}
	if label, value, colon := lexicon.CutLabel(text); colon && value != "" && !strings.ContainsAny(value, ":：") {
		role, _ := roleKnown(lex, label)
		if role == catalog.Pack && beginsWithMoney(lex, value) { // "bag of 12: 5.40 €"
			return []entry{{label: "price", value: value + " " + label, role: catalog.Price}}
		}
		return sizesWithin(lex, entry{label: label, value: value, role: role})
	}
	places := slices.DeleteFunc(sizetext.Joined(lex, text, sizetext.Places(text, 24)), func(at []int) bool { return !lexicon.StandsFree(text, at[0], at[1]) })
	if beginsWithMoney(lex, text) {
		if price, ok := spoken.AmountIn(lex, text); ok && price.Role == catalog.Price && (price.Text == text || perOf(lex, text) > 1) {
			return []entry{{label: "price", value: text, role: catalog.Price}}
		}
	}
	many := partStock(lex, alternating(lex, text, places))
	if slices.ContainsFunc(many, func(e entry) bool { return e.sized() }) {
		return many
	}
	amount, ok := spoken.PriceIn(lex, text)
	if !ok {
		amount, ok = spoken.AmountIn(lex, text)
	}
	if ok && amount.Role == catalog.Price && (many == nil || sizetext.CountNumbers(amount.Text) == 1) {
		return []entry{entryOf(amount, sheet.Ref{})}
	}
	if many != nil {
		return many
	}
	if said := sizesAll(lex, text, len(places)); said != nil {
		return said
	}
	if ok {
		return []entry{entryOf(amount, sheet.Ref{})}
	}
	if e, ok := gluedPair(lex, text); ok {
		return []entry{e}
	}
	if len(places) == 0 {
		return nil
	}
	single := singlePair(lex, text, places)
	if said := spoken.Sizes(lex, text); len(places) == 1 && len(said) == 1 && saidAbout(text, places[0]) && said[0].Possible(lex) && said[0].Role != string(single.role) {
		return []entry{{label: said[0].Name, value: said[0].Text, role: catalog.Role(said[0].Role)}} // "drilled 35 mm deep"
	}
	return []entry{single}
}

// saidAbout reports whether words stand both before and behind a number.
func saidAbout(text string, at []int) bool {
	return strings.ContainsFunc(text[:at[0]], unicode.IsLetter) && strings.ContainsFunc(text[at[1]:], unicode.IsLetter)
}

// sizesWithin divides a label with its value where that gives another size by name as well: "Bore: 8.6 mm dia x 38 mm deep".
func sizesWithin(lex *lexicon.Lexicon, e entry) []entry {
	if traits.Of[e.role].Want != traits.Length || !lexicon.HasWord(e.value) && !strings.ContainsFunc(e.value, unicode.IsLetter) {
		return []entry{e}
	}
	var all []entry
	for _, piece := range cutApart(lex, e.label+" "+e.value) {
		said := sizesAll(lex, piece, 0)
		if said == nil {
			said = pairsIn(lex, piece)
		}
		all = append(all, said...)
	}
	if len(all) < 2 || all[0].role != e.role || slices.ContainsFunc(all[1:], func(o entry) bool { return !o.sized() || o.role == e.role }) {
		return []entry{e}
	}
	for i := range all {
		all[i].at, all[i].valueAt = e.at, e.valueAt
	}
	all[0].label = e.label
	return all
}

// longestCurrency is how many bytes the sign of a currency has at most, with the letters of its country: NT$.
const longestCurrency = 5

// beginsWithMoney reports whether the first number of a text has a currency right before or behind it, and nothing else stands before.
func beginsWithMoney(lex *lexicon.Lexicon, text string) bool {
	number := strings.IndexFunc(text, unicode.IsDigit)
	if number < 0 {
		return false
	}
	before := strings.TrimSpace(strings.TrimRight(text[:number], "."))
	if before != "" {
		last, _ := utf8.DecodeLastRuneInString(before)
		return lex.NamesCurrency(before) || unicode.Is(unicode.Sc, last) && len(before) <= longestCurrency
	}
	if price, ok := spoken.PriceIn(lex, text); ok && price.Text == text {
		return true
	}
	behind := strings.TrimLeft(text[number:], "0123456789., ")
	word, _, _ := strings.Cut(behind, " ")
	return word != "" && lex.NamesCurrency(strings.TrimRight(word, ",;"))
}

// sizesAll returns the sizes of a text with their names where these stand now before and now behind, as people speak: "bored 9.5 mm to a depth of 34 mm". It
// is nil where that gives less than all numbers of the text their names, or one of them alone.
func sizesAll(lex *lexicon.Lexicon, text string, numbers int) []entry {
	if numbers < 2 && len(sizetext.Places(text, 3)) < 2 {
		return nil
	}
	sizes := spoken.Sizes(lex, text)
	if len(sizes) < max(2, numbers) {
		return nil
	}
	var all []entry
	for _, s := range sizes {
		if !s.Possible(lex) {
			return nil
		}
		all = append(all, entry{label: s.Name, value: s.Text, role: catalog.Role(s.Role)})
	}
	return all
}

// textPair returns the label of a text without numbers with the text behind it: "Colour black".
func textPair(lex *lexicon.Lexicon, text string) (entry, bool) {
	label, said, two := strings.Cut(text, " ")
	if !two || strings.ContainsFunc(text, unicode.IsNumber) {
		return entry{}, false
	}
	label = trimLabel(label)
	role, score := lex.RoleOfLabel(label)
	if score < lexicon.Understood || role == catalog.Description || traits.Of[role].Want != traits.Text {
		return entry{}, false
	}
	return entry{label: label, value: strings.TrimSpace(said), role: role}, true
}

// roleKnown is RoleOfLabel, with no role where that is not sure enough.
func roleKnown(lex *lexicon.Lexicon, label string) (role catalog.Role, known bool) {
	role, score := lex.RoleOfLabel(trimLabel(label))
	if score < lexicon.HeadingScore {
		return "", false
	}
	return role, true
}

// labelOf returns the label of a value with what it means, as roleKnown does. A word for "fits" that is another in some language, as the Turkish money
// "para", is the label of a tip where one stands behind it.
func labelOf(lex *lexicon.Lexicon, label, value string) (string, catalog.Role, bool) {
	role, known := roleKnown(lex, label)
	if role != catalog.TipTaken && spoken.IsForTip(lex, label, value) {
		return sizetext.NameOf(catalog.TipTaken), catalog.TipTaken, true
	}
	return label, role, known
}

// alternating returns the pairs of a text in which labels that are known and sizes take turns, either all labels first or all sizes; nil where
// something else stands between.
func alternating(lex *lexicon.Lexicon, text string, places [][]int) []entry {
	if len(places) < 2 {
		return nil
	}
	behind := strings.Trim(text[:places[0][0]], sizetext.AroundNames) == ""
	if end := places[len(places)-1][1]; !behind && countedBy(lex, strings.Trim(text[end:], sizetext.AroundNames+".")) {
		text = text[:end]
	}
	if behind == (strings.Trim(text[places[len(places)-1][1]:], sizetext.AroundNames) == "") {
		return nil // a number too many, or one too few
	}
	var all []entry
	for i, at := range places {
		from, to := 0, at[0]
		if i > 0 {
			from = places[i-1][1]
		}
		if behind {
			if from, to = at[1], len(text); i+1 < len(places) {
				to = places[i+1][0]
			}
		}
		label := trimLabel(text[from:to])
		label, role, known := labelOf(lex, label, text[at[0]:at[1]])
		if unit, rest, two := strings.Cut(label, " "); !known && two && !behind && i > 0 && traits.Of[all[i-1].role].Want == traits.Price && lex.NamesCurrency(unit) {
			all[i-1].value += " " + unit
			label = rest
			role, known = roleKnown(lex, label)
		}
		if !known || len(strings.Fields(label)) > mostLabel {
			return nil
		}
		label, said := withoutLimit(lex, label)
		all = append(all, entry{label: label, value: said + text[at[0]:at[1]], role: role})
	}
	return all
}

// countedBy reports whether a word behind a number is one for what is counted: pieces, heads.
func countedBy(lex *lexicon.Lexicon, word string) bool {
	if hit, known := lex.Words.Unit(word); word != "" && known && hit.Value == "pcs" {
		return true
	}
	return namesKindOfPart(lex, word)
}

// gluedPair returns the label and the size of a text that has no blank between them: OD13.6.
func gluedPair(lex *lexicon.Lexicon, text string) (entry, bool) {
	at := strings.IndexFunc(text, func(sign rune) bool { return unicode.IsDigit(sign) || sign == '.' })
	if at <= 0 || at > lexicon.LongestLabel || strings.ContainsAny(text[at-1:at], " -_/") { // HT-122 is a part number
		return entry{}, false
	}
	label, size := trimLabel(text[:at]), text[at:]
	role, known := roleKnown(lex, label)
	one := lex.Read(size, value.Context{Want: value.WantLength})
	if !known || traits.Of[role].Want != traits.Length || one.Kind != value.Length && one.Kind != value.Number {
		return entry{}, false
	}
	return entry{label: label, value: size, role: role}, true
}

// singlePair returns the label of a text with all that stands behind it, or before it where the text begins with the number. A label that is
// not known stays one: a column that nobody can read is seen, and a number in a description is not.
func singlePair(lex *lexicon.Lexicon, text string, places [][]int) entry {
	first, last := places[0], places[len(places)-1]
	if label := trimLabel(text[:first[0]]); label != "" {
		label, said := withoutLimit(lex, label)
		value := strings.TrimSpace(said + text[first[0]:])
		label, role, _ := labelOf(lex, label, value)
		return entry{label: label, value: value, role: role}
	}
	label := trimLabel(text[last[1]:])
	role, _ := roleKnown(lex, label)
	return entry{label: cmp.Or(label, unlabelled), value: strings.TrimSpace(text[:last[1]]), role: role}
}

// unlabelled is the label of numbers that have none.
const unlabelled = "?"

// withoutLimit takes off a label what says of the number behind it that it is a limit, or about so: "bore max", "bore approx.".
func withoutLimit(lex *lexicon.Lexicon, label string) (name, said string) {
	at := strings.LastIndex(label, " ")
	if at <= 0 {
		return label, ""
	}
	for _, mark := range []string{"approximate", "at_most", "at_least"} {
		if _, says := lex.Words.Mark(label[at+1:], mark); says {
			return strings.TrimSpace(label[:at]), label[at+1:] + " "
		}
	}
	return label, ""
}

// namedByUnits reports whether more of the sizes of cards have a unit for their name, or none, than another: then they are those of other parts
// beside the first, whose names stand before all of them, as in a table on its side.
func namedByUnits(lex *lexicon.Lexicon, all []card) bool {
	units, names := 0, 0
	for _, c := range all {
		for _, e := range c {
			switch {
			case e.label == unlabelled || lex.IsUnit(e.label):
				units++
			case lexicon.LooksNumeric(e.value):
				names++
			}
		}
	}
	return units > names
}

// plainlySized reports whether most cards, and two at least, give two sizes or more, or the only one gives three.
func plainlySized(all []card) bool {
	bare := 0
	for _, c := range all {
		if slices.ContainsFunc(c, func(e entry) bool { return e.label == unlabelled }) {
			bare++
		}
	}
	if bare*mostBare > len(all) {
		return false // they have their names above them: that is a table
	}
	if len(all) == 1 {
		return all[0].sizes() >= leastPairs
	}
	sized := sized(all)
	return sized >= leastPlain && sized*3 >= len(all)*2
}

// joinOdd puts labels that nobody knows, and no two cards have, into the descriptions, where there are too many of them for columns.
func joinOdd(all []card) {
	counts := map[string]int{}
	for _, c := range all {
		for _, e := range c {
			if e.role == "" {
				counts[words.Fold(e.label)]++
			}
		}
	}
	odd := 0
	for _, n := range counts {
		if n == 1 {
			odd++
		}
	}
	for i, c := range all {
		for k := range c {
			if e := &c[k]; e.role == "" && odd > mostOdd && counts[words.Fold(e.label)] == 1 {
				e.value = strings.TrimSpace(e.label + " " + e.value)
				e.label, e.role = "description", catalog.Description
			}
		}
		all[i] = c
	}
}
