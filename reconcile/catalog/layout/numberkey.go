package layout

import (
	"fmt"
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
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// Part numbers may hold the sizes, and a key above or below the list say how: "VF-aaaa-bbbb-cc-k, aaaa = base OD in hundredths of mm", "digits
// 1 to 4: base OD", "e.g. VF-1350-0925-19-B = base 13.50, bore 9.25, length 19". Each size that no column gives is read as a column of its
// own, whose cells are those of the part numbers.

// numberField is what a key says of one stretch of the part numbers.
type numberField struct {
	// name is a heading for what it is, role the role of a size or of a word for a part, empty where it is neither.
	name  string
	role  catalog.Role
	scale scale
	// settled is set where the scale is known, and inferred where it was found by what is possible.
	settled, inferred bool
	// codes are what the codes stand for that a legend explains, by the codes as they are folded; nil where there is no legend.
	codes map[string]string
	// letters are what stands for it in the key.
	letters string
}

// isSize reports whether a field gives a size.
func (f *numberField) isSize() bool { return traits.Of[f.role].Want == traits.Length && f.role != "" }

// isWord reports whether a field gives a word, which only a legend can say.
func (f *numberField) isWord() bool {
	return f.role == catalog.Colour || f.role == catalog.Material || f.role == catalog.Style || f.role == catalog.Category
}

// numberKey is a key with which the part numbers of a column can be read.
type numberKey struct {
	fields []numberField
	// cut returns what a number has for each field, nil where it is not built as the key says.
	cut func(number string) []string
	// lost are the names of sizes of which nobody can tell in what their digits count.
	lost []string
	// at is where the key stands, and text how it describes the numbers.
	at   sheet.Ref
	text string
}

// sizes counts the fields that give sizes.
func (k *numberKey) sizes() int {
	n := 0
	for i := range k.fields {
		if k.fields[i].isSize() {
			n++
		}
	}
	return n
}

// keyText is a text that may be part of a key.
type keyText struct {
	text string
	at   sheet.Ref
}

// FindKeys notes for each table the texts about it that may explain its part numbers: those above its headings and at the end of its sheet,
// or, where these have none of them, those of sheets without a table.
func FindKeys(grids []*grid.Grid, regions []*Region) {
	tables := map[*grid.Grid][]*Region{}
	for _, r := range regions {
		if r.Grid.AsDrawn() {
			tables[r.Grid] = append(tables[r.Grid], r)
		}
	}
	var apart []keyText
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
			below := slices.DeleteFunc(keyTexts(g, max(r.Body, g.Lines-keyZone+1), g.Lines), func(one keyText) bool { return r.isRow(one.at) })
			r.keys = slices.Concat(above, below, apart)
			r.keys = r.keys[:min(len(r.keys), mostKeyTexts)]
		}
	}
}

// isRow reports whether a place is in a line that begins with a part number.
func (r *Region) isRow(at sheet.Ref) bool {
	first := firstText(r.Grid, at.Row, span{left: 1, right: r.Grid.Width})
	return len(first) >= leastInNumber && lexicon.LooksLikeCode(first) && lexicon.BearsDigits(first)
}

// keyTexts returns the texts of some lines that have no more than a letter or code, its words and their unit: lines of a table are fuller.
// What was cut at the signs within brackets is put together again.
func keyTexts(g *grid.Grid, from, to int) (all []keyText) {
	for line := from; line <= to; line++ {
		var cells []keyText
		for i, id := range g.Row(line, 1, g.Width) {
			if text := g.Text(id); text != "" && len(text) <= lexicon.LongestNote {
				cells = append(cells, keyText{text, g.Ref(line, i+1)})
			}
		}
		cells = rejoined(cells)
		switch {
		case len(cells) == 0:
		case len(cells) > 1 && len(cells) <= 3 && !lexicon.LooksNumeric(cells[1].text) && (beginsPair(cells[0].text) || namesPlace(cells[0].text)) && !strings.ContainsAny(cells[0].text, pairSigns):
			said := cells[0].text + " = " + cells[1].text
			if len(cells) == 3 {
				said += " (" + cells[2].text + ")"
			}
			all = append(all, keyText{said, cells[0].at})
		case len(cells) == 2 && beginsPair(cells[0].text) && !strings.ContainsAny(cells[0].text, pairSigns):
			all = append(all, keyText{cells[0].text + " = " + cells[1].text, cells[0].at})
		case len(cells) == 2 && !lexicon.LooksNumeric(cells[1].text) && strings.ContainsAny(cells[1].text, "-_/[<{"):
			all = append(all, cells[1]) // a template behind what it is called
		case len(cells) == 1 || slices.ContainsFunc(cells, func(c keyText) bool { return strings.ContainsAny(c.text, pairSigns) }):
			all = append(all, cells...)
		}
	}
	return all
}

// pairSigns stand between what a key explains and what it says of it.
const pairSigns = "=:：＝→"

// beginsPair reports whether a text alone in its cell is short enough to be letters or a code that the next cell explains.
func beginsPair(text string) bool {
	return len(text) <= longestCode || len(text) <= 2*longestCode && sameSigns(text)
}

// rejoined puts cells together again that were one text with commas in brackets.
func rejoined(cells []keyText) []keyText {
	var all []keyText
	for _, one := range cells {
		if n := len(all); n > 0 && countSigns(all[n-1].text, "(（") > countSigns(all[n-1].text, ")）") {
			all[n-1].text += ", " + one.text
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
		numbers := r.numbersOf(h.Col)
		if len(numbers) < leastNumbers {
			continue
		}
		k, seen := findKey(lex, kind, r.keys, numbers)
		if k != nil {
			r.addNumberColumns(lex, kind, h, k)
			return
		}
		if seen != nil {
			r.KeyUnread = fmt.Sprintf("%s seems to say how the numbers under %q are built, and could not be read as a key to their sizes", Describe(seen.text, seen.at.String()), h.Text)
			r.KeyAt = seen.at
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
		if len(text) <= longestNumber && len(text) >= leastInNumber && isCodedNumber(text) && !seen[text] {
			seen[text] = true
			numbers = append(numbers, text)
		}
	}
	if 100*len(numbers) < leastOfKey*filled {
		return nil
	}
	return numbers
}

// isCodedNumber reports whether a text is a part number that may hold sizes, and no bare number of anything else.
func isCodedNumber(text string) bool {
	if lexicon.IsDigits(text) {
		return len(text) >= leastCoded
	}
	return lexicon.LooksLikeCode(text) && lexicon.BearsDigits(text) && (!lexicon.LooksNumeric(text) || strings.ContainsAny(text[1:], "-_/ "))
}

// findKey returns the key by which most of some part numbers can be read, nil where there is none. Seen is a text that seems to be one.
func findKey(lex *lexicon.Lexicon, kind catalog.Kind, texts []keyText, numbers []string) (k *numberKey, seen *keyText) {
	said := newSayings(lex, kind, texts)
	for _, candidate := range []func(*sayings, []string) (*numberKey, *keyText){byTemplate, byExample, byPlaces} {
		found, at := candidate(said, numbers)
		if found != nil && found.settle(said, kind, numbers) {
			return found, nil
		}
		if found != nil && at == nil {
			at = &keyText{found.text, found.at}
		}
		if seen == nil {
			seen = at
		}
	}
	return nil, seen
}

// settle finds the scales that a key does not say, and reports whether the key reads most of the numbers.
func (k *numberKey) settle(said *sayings, kind catalog.Kind, numbers []string) bool {
	var cuts [][]string
	for _, number := range numbers {
		if cut := k.cut(number); cut != nil {
			cuts = append(cuts, cut)
		}
	}
	if k.sizes() == 0 || 100*len(cuts) < leastOfKey*len(numbers) || len(cuts) < leastNumbers {
		return false
	}
	said.legends(k)
	for i := range k.fields {
		if f := &k.fields[i]; f.isSize() && f.scale == unsaid && f.codes == nil {
			f.scale = said.scaleOf(f.role)
		}
	}
	settled := 0
	for _, last := range []bool{false, true} { // what is left then may go by the others
		for i := range k.fields {
			f := &k.fields[i]
			if !last && f.codes != nil && !f.explainsMost(columnAt(cuts, i)) {
				f.codes, f.role = nil, "" // of something else
			}
			if !f.isSize() || f.settled {
				continue
			}
			if f.settled = f.codes != nil || f.settleScale(k, kind, columnAt(cuts, i)); f.settled {
				settled++
			} else if last {
				k.lost = append(k.lost, f.name)
				f.role = "" // nobody can tell in what its digits count
			}
		}
	}
	return settled > 0
}

// explainsMost reports whether the legend of a field has most of some codes.
func (f *numberField) explainsMost(codes []string) bool {
	known := 0
	for _, code := range codes {
		if f.codes[words.Fold(code)] != "" {
			known++
		}
	}
	return 2*known >= len(codes)
}

// columnAt returns what several cuts have for a field.
func columnAt(cuts [][]string, i int) []string {
	all := make([]string, len(cuts))
	for n, cut := range cuts {
		all[n] = cut[i]
	}
	return all
}

// scales are those in which digits of part numbers count (common practice).
var scales = []scale{{unit: "mm"}, {unit: "mm", shift: 1}, {unit: "mm", shift: 2}, {unit: "mm", shift: 3}, {unit: "in", shift: 3}, {unit: "in", shift: 2}, {unit: "in", shift: 4}}

// settleScale finds the scale of a field, where the key does not say it or says only the unit and nothing is possible as it stands: the one in
// which nearly all are possible. Where several are, it is that of the unit of the other fields, if that is one.
func (f *numberField) settleScale(k *numberKey, kind catalog.Kind, digits []string) bool {
	if f.scale.counts() && f.scale.unit != "" {
		return 100*f.fitting(f.scale, kind, digits) >= leastOfKey*len(digits)
	}
	if f.scale.shift == 0 && f.scale.unit != "" && f.fits(f.scale, kind, digits) {
		return true
	}
	var found []scale
	for _, s := range scales {
		if f.scale.unit != "" && s.unit != f.scale.unit || f.scale.unit == "" && f.scale.shift >= 0 && s.shift != f.scale.shift || !f.fits(s, kind, digits) {
			continue
		}
		found = append(found, s)
	}
	if len(found) > 1 {
		if unit := k.unitSettled(); unit != "" {
			found = slices.DeleteFunc(found, func(s scale) bool { return s.unit != unit })
		}
	}
	if len(found) != 1 {
		return false
	}
	f.scale, f.inferred = found[0], true
	return true
}

// unitSettled returns the one unit of the fields of a key that are settled, empty where there are none or two.
func (k *numberKey) unitSettled() string {
	unit := ""
	for i := range k.fields {
		f := &k.fields[i]
		if !f.settled || f.scale.unit == "" {
			continue
		}
		if unit != "" && unit != f.scale.unit {
			return ""
		}
		unit = f.scale.unit
	}
	return unit
}

// fits reports whether nearly all digits are possible sizes of a field's role in a scale.
func (f *numberField) fits(s scale, kind catalog.Kind, digits []string) bool {
	return sizetext.NearlyAll(f.fitting(s, kind, digits), len(digits))
}

// fitting counts the digits that are possible sizes of a field's role in a scale.
func (f *numberField) fitting(s scale, kind catalog.Kind, digits []string) int {
	fitting := 0
	for _, one := range digits {
		if mm, ok := s.millimetres(one); ok && sizetext.PossibleIn(kind, f.role, mm) {
			fitting++
		}
	}
	return fitting
}

// millimetres is what digits are in a scale.
func (s scale) millimetres(digits string) (mm float64, ok bool) {
	if s.counts() && !lexicon.IsDigits(digits) {
		return 0, false // it has a decimal point already
	}
	one := value.Read(s.apply(digits), value.Context{Want: value.WantLength, Unit: s.unit})
	if one.Kind != value.Length {
		return 0, false
	}
	return traits.MM(one.Dim.Nominal()), true
}

// addNumberColumns adds a column for each field of a key that no column gives, and the reasons why some numbers cannot be read.
func (r *Region) addNumberColumns(lex *lexicon.Lexicon, kind catalog.Kind, h Heading, k *numberKey) {
	if len(k.lost) > 0 {
		r.KeyUnread = fmt.Sprintf("the key %q names %s, and in what the digits of that count is not said; it is not read", k.text, phrase.All(k.lost))
		r.KeyAt = k.at
	}
	var added []int
	for i := range k.fields {
		f := &k.fields[i]
		if (f.isSize() || f.isWord() && f.codes != nil) && !r.gives(lex, f.role) {
			added = append(added, i)
		}
	}
	if len(added) == 0 {
		return
	}
	why := fmt.Sprintf("the numbers under %q are read by the key in %s, %q", h.Text, k.at, k.text)
	read := func(number string) ([]string, []string) { return k.read(kind, number, added) }
	cols := r.Grid.AddVirtual(h.Col, len(added), r.Body, r.To, func(number string) []string {
		pieces, _ := read(number)
		return pieces
	})
	for n, i := range added {
		f := k.fields[i]
		piece := Heading{Col: cols[n], Parts: []string{f.name}, Text: h.Text + ": " + f.name, Order: why, Inferred: f.inferred}
		if f.isSize() && f.codes == nil {
			piece.Unit = f.scale.unit
		}
		r.Columns = append(r.Columns, piece)
	}
	for line := r.Body; line <= r.To; line++ {
		number := r.Grid.At(line, h.Col)
		if number == "" || r.Aside[line] != "" {
			continue
		}
		if _, whys := read(number); whys != nil {
			r.openAt(cols, whys, line)
			for n, i := range added {
				if whys[n] != "" && !k.fields[i].isSize() {
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

// read returns the pieces of a number for some fields, and why one cannot be told, nil where all can: no one knows then what the number says
// there.
func (k *numberKey) read(kind catalog.Kind, number string, fields []int) (pieces, whys []string) {
	pieces = make([]string, len(fields))
	open := func(n int, why string) {
		if whys == nil {
			whys = make([]string, len(fields))
		}
		if whys[n] = why; k.fields[fields[n]].isSize() {
			pieces[n] = sizetext.OpenText(number)
		}
	}
	if number == "" {
		return pieces, nil
	}
	cut := k.cut(number)
	var roles []catalog.Role
	var sizes []float64
	var places []int
	for n, i := range fields {
		f := &k.fields[i]
		switch said, why := "", ""; {
		case cut == nil && !lexicon.LooksLikeCode(number), cut == nil && !strings.ContainsAny(number, "0123456789"):
			// a title or note
		case cut == nil && !f.isSize(): // its sizes say so
		case cut == nil:
			open(n, fmt.Sprintf("the number %q is not built as the key %q says", number, k.text))
		default:
			if said, why = f.say(cut[i]); why != "" {
				open(n, fmt.Sprintf("the number %q has %s", number, why))
				continue
			}
			pieces[n] = said
			if mm, ok := f.scale.millimetres(cut[i]); ok && f.isSize() && f.codes == nil {
				roles, sizes, places = append(roles, f.role), append(sizes, mm), append(places, n)
			}
		}
	}
	for _, at := range sizetext.Exchanged(kind, roles, sizes) {
		open(places[at], fmt.Sprintf("the number %q has sizes of which two seem to stand in each other's place", number))
	}
	return pieces, whys
}

// say returns what a field has in a number, or why nobody can tell.
func (f *numberField) say(code string) (said, why string) {
	switch {
	case f.codes != nil:
		if said = f.codes[words.Fold(code)]; said == "" {
			why = fmt.Sprintf("%q for the %s, which is none of the codes that the key explains", code, f.name)
		}
	case !f.isSize():
	case strings.Trim(code, "0123456789.,") != "":
		why = fmt.Sprintf("%q for the %s, which are no digits", code, f.name)
	default:
		said = f.scale.apply(code)
	}
	return said, why
}

// numberTemplate is a word that stands for part numbers, and which of its signs belong to which field, −1 for those of none.
type numberTemplate struct {
	signs []rune
	marks []int
}

// numberSeparators stand between the pieces of part numbers.
const numberSeparators = "-_/. –"

// pieceOf is a stretch of a part number between separators.
type pieceOf struct{ from, to int }

// piecesOfNumber returns the stretches of a number between separators.
func piecesOfNumber(signs []rune) (all []pieceOf) {
	start := 0
	for i := 0; i <= len(signs); i++ {
		if i == len(signs) || separatesAt(signs, i) {
			all = append(all, pieceOf{start, i})
			start = i + 1
		}
	}
	return all
}

// cutter returns what cuts numbers as a template says. A stretch that is one field may have any length, and one of none any content where
// the numbers differ in it.
func (t *numberTemplate) cutter(fields int, numbers []string) func(string) []string {
	var b strings.Builder
	groups := make([]int, 0, fields)
	b.WriteString(`(?i)^`)
	for n, piece := range piecesOfNumber(t.signs) {
		if n > 0 {
			b.WriteString(regexp.QuoteMeta(string(t.signs[piece.from-1])))
		}
		marks := t.marks[piece.from:piece.to]
		switch {
		case len(marks) == 0:
		case marks[0] >= 0 && !slices.ContainsFunc(marks, func(m int) bool { return m != marks[0] }):
			groups = append(groups, marks[0])
			b.WriteString(`([\pL\d]+(?:[.,]\d+)?)`)
		case !slices.ContainsFunc(marks, func(m int) bool { return m >= 0 }):
			if own := string(t.signs[piece.from:piece.to]); sharePiece(numbers, n, own) {
				b.WriteString(regexp.QuoteMeta(own))
			} else {
				b.WriteString(`[\pL\d]*`)
			}
		default:
			groups = append(groups, t.writeMixed(&b, piece)...)
		}
	}
	expression, err := regexp.Compile(b.String() + `$`)
	if err != nil {
		return func(string) []string { return nil }
	}
	return func(number string) []string {
		found := expression.FindStringSubmatch(number)
		if found == nil {
			return nil
		}
		cut := make([]string, fields)
		for i, field := range groups {
			cut[field] += found[i+1]
		}
		return cut
	}
}

// writeMixed writes the expression for a stretch that holds several fields or a field with other signs about it.
func (t *numberTemplate) writeMixed(b *strings.Builder, piece pieceOf) (groups []int) {
	for i := piece.from; i < piece.to; {
		end := i
		for end < piece.to && t.marks[end] == t.marks[i] {
			end++
		}
		switch t.marks[i] {
		case literalSign:
			b.WriteString(regexp.QuoteMeta(string(t.signs[i:end])))
		case anySign:
			fmt.Fprintf(b, `[\pL\d]{%d}`, end-i)
		default:
			groups = append(groups, t.marks[i])
			fmt.Fprintf(b, `([\pL\d]{%d})`, end-i)
		}
		i = end
	}
	return groups
}

// sharePiece reports whether nearly all numbers have the same piece at a place.
func sharePiece(numbers []string, at int, own string) bool {
	same := 0
	for _, number := range numbers {
		signs := []rune(number)
		if pieces := piecesOfNumber(signs); at < len(pieces) && strings.EqualFold(string(signs[pieces[at].from:pieces[at].to]), own) {
			same++
		}
	}
	return 100*same >= leastShared*len(numbers)
}

// leastShared is the share of numbers in percent that have a piece in common where it is the same in all of them.
const leastShared = 90

// builtAlike reports whether a word has as many pieces with the same signs between as most of the numbers.
func builtAlike(signs []rune, numbers []string) bool {
	alike := 0
	own := separatorsOf(signs)
	for _, number := range numbers {
		if separatorsOf([]rune(number)) == own {
			alike++
		}
	}
	return 100*alike >= leastOfKey*len(numbers)
}

// separatorsOf returns the signs between the pieces of a number.
func separatorsOf(signs []rune) string {
	var b strings.Builder
	for i, r := range signs {
		if separatesAt(signs, i) {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// separatesAt reports whether a sign of a number stands between two of its pieces: a point between digits may be that of decimals.
func separatesAt(signs []rune, i int) bool {
	return strings.ContainsRune(numberSeparators, signs[i]) && (signs[i] != '.' || !betweenDigits(signs, i))
}

// betweenDigits reports whether a sign stands between digits.
func betweenDigits(signs []rune, i int) bool {
	return i > 0 && i+1 < len(signs) && unicode.IsDigit(signs[i-1]) && unicode.IsDigit(signs[i+1])
}

// isNumberSign reports whether a sign may stand in a part number or in what stands for one.
func isNumberSign(r rune) bool {
	return r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)) || strings.ContainsRune("-_/.#", r) || r >= firstPlaceholder && r <= lastPlaceholder
}
