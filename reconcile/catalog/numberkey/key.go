// Package numberkey reads what a sheet explains of its part numbers: which of their digits are which size, and in what these count. It is given
// texts and part numbers and finds the key by which the ones can be read from the others; where these stand in a sheet is not its business.
package numberkey

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// Part numbers may hold the sizes, and a key above or below the list say how: "VF-aaaa-bbbb-cc-k, aaaa = base OD in hundredths of mm", "digits
// 1 to 4: base OD", "e.g. VF-1350-0925-19-B = base 13.50, bore 9.25, length 19".

// Field is what a key says of one stretch of the part numbers.
type Field struct {
	// Name is a heading for what it is, Role the role of a size or of a word for a part, empty where it is neither.
	Name  string
	Role  catalog.Role
	scale scale
	// settled is set where the scale is known, and Inferred where it was found by what is possible.
	settled, Inferred bool
	// codes are what the codes stand for that a legend explains, by the codes as they are folded; nil where there is no legend.
	codes map[string]string
	// letters are what stands for it in the key.
	letters string
}

// IsSize reports whether a field gives a size.
func (f *Field) IsSize() bool { return traits.Of[f.Role].Want == traits.Length && f.Role != "" }

// isWord reports whether a field gives a word, which only a legend can say.
func (f *Field) isWord() bool {
	return f.Role == catalog.Colour || f.Role == catalog.Material || f.Role == catalog.Style || f.Role == catalog.Category
}

// explains reports whether a field is a size or a word for a part: "FERRULES - price list" says nothing of numbers.
func (f *Field) explains() bool { return f.IsSize() || f.isWord() || f.codes != nil }

// Gives reports whether the part numbers say something by a field: a size, or a word that a legend explains.
func (f *Field) Gives() bool { return f.IsSize() || f.isWord() && f.codes != nil }

// Unit returns the unit of the sizes of a field as they are read, empty where a legend says them.
func (f *Field) Unit() string {
	if !f.IsSize() || f.codes != nil {
		return ""
	}
	return f.scale.unit
}

// Key is a key with which the part numbers of a column can be read.
type Key struct {
	Fields []Field
	// cut returns what a number has for each field, nil where it is not built as the key says.
	cut func(number string) []string
	// Lost are the names of sizes of which nobody can tell in what their digits count.
	Lost []string
	// At is where the key stands, and Text how it describes the numbers.
	At   sheet.Ref
	Text string
}

// sizes counts the fields that give sizes.
func (k *Key) sizes() int {
	n := 0
	for i := range k.Fields {
		if k.Fields[i].IsSize() {
			n++
		}
	}
	return n
}

// Text is a text that may be part of a key.
type Text struct {
	Text string
	At   sheet.Ref
}

// PairSigns stand between what a key explains and what it says of it.
const PairSigns = "=:：＝→"

// BeginsPair reports whether a text alone in its cell is short enough to be letters or a code that the next cell explains.
func BeginsPair(text string) bool {
	return len(text) <= longestCode || len(text) <= 2*longestCode && sameSigns(text)
}

// MayHoldSizes reports whether a text is a part number that may hold sizes, and no bare number of anything else.
func MayHoldSizes(text string) bool {
	if len(text) > longestNumber || len(text) < lexicon.LeastInNumber {
		return false
	}
	if lexicon.IsDigits(text) {
		return len(text) >= leastCoded
	}
	return lexicon.LooksLikeCode(text) && lexicon.BearsDigits(text) && (!lexicon.LooksNumeric(text) || strings.ContainsAny(text[1:], "-_/ "))
}

// Find returns the key by which most of some part numbers can be read, nil where there is none. Seen is a text that seems to be one.
func Find(lex *lexicon.Lexicon, kind catalog.Kind, texts []Text, numbers []string) (k *Key, seen *Text) {
	if len(numbers) < leastNumbers {
		return nil, nil
	}
	said := newSayings(lex, kind, texts)
	for _, candidate := range []func(*sayings, []string) (*Key, *Text){byTemplate, byExample, byPlaces} {
		found, at := candidate(said, numbers)
		if found != nil && found.settle(said, kind, numbers) {
			return found, nil
		}
		if found != nil && at == nil && found.sizes() >= leastExplained {
			at = &Text{found.Text, found.At}
		}
		if seen == nil {
			seen = at
		}
	}
	return nil, seen
}

// settle finds the scales that a key does not say, and reports whether the key reads most of the numbers.
func (k *Key) settle(said *sayings, kind catalog.Kind, numbers []string) bool {
	var cuts [][]string
	for _, number := range numbers {
		if cut := k.cut(number); cut != nil {
			cuts = append(cuts, cut)
		}
	}
	if k.sizes() == 0 || 100*len(cuts) < LeastOfKey*len(numbers) || len(cuts) < leastNumbers {
		return false
	}
	said.legends(k)
	for i := range k.Fields {
		if f := &k.Fields[i]; f.IsSize() && f.scale == unsaid && f.codes == nil {
			f.scale = said.scaleOf(f.Role)
		}
	}
	settled := 0
	for _, last := range []bool{false, true} { // what is left then may go by the others
		for i := range k.Fields {
			f := &k.Fields[i]
			if !last && f.codes != nil && !f.explainsMost(columnAt(cuts, i)) {
				f.codes, f.Role = nil, "" // of something else
			}
			if !f.IsSize() || f.settled {
				continue
			}
			if f.settled = f.codes != nil || f.settleScale(k, kind, columnAt(cuts, i)); f.settled {
				settled++
			} else if last {
				k.Lost = append(k.Lost, f.Name)
				f.Role = "" // nobody can tell in what its digits count
			}
		}
	}
	return settled > 0
}

// explainsMost reports whether the legend of a field has most of some codes.
func (f *Field) explainsMost(codes []string) bool {
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
func (f *Field) settleScale(k *Key, kind catalog.Kind, digits []string) bool {
	if f.scale.counts() && f.scale.unit != "" {
		return 100*f.fitting(f.scale, kind, digits) >= LeastOfKey*len(digits)
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
	f.scale, f.Inferred = found[0], true
	return true
}

// unitSettled returns the one unit of the fields of a key that are settled, empty where there are none or two.
func (k *Key) unitSettled() string {
	unit := ""
	for i := range k.Fields {
		f := &k.Fields[i]
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
func (f *Field) fits(s scale, kind catalog.Kind, digits []string) bool {
	return sizetext.NearlyAll(f.fitting(s, kind, digits), len(digits))
}

// fitting counts the digits that are possible sizes of a field's role in a scale.
func (f *Field) fitting(s scale, kind catalog.Kind, digits []string) int {
	fitting := 0
	for _, one := range digits {
		if mm, ok := s.millimetres(one); ok && sizetext.PossibleIn(kind, f.Role, mm) {
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

// Read returns the pieces of a number for some fields, and why one cannot be told, nil where all can: no one knows then what the number says
// there.
func (k *Key) Read(kind catalog.Kind, number string, fields []int) (pieces, whys []string) {
	pieces = make([]string, len(fields))
	open := func(n int, why string) {
		if whys == nil {
			whys = make([]string, len(fields))
		}
		if whys[n] = why; k.Fields[fields[n]].IsSize() {
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
		f := &k.Fields[i]
		switch said, why := "", ""; {
		case cut == nil && !lexicon.LooksLikeCode(number), cut == nil && !strings.ContainsAny(number, "0123456789"):
			// a title or note
		case cut == nil && !f.IsSize(): // its sizes say so
		case cut == nil:
			open(n, fmt.Sprintf("the number %q is not built as the key %q says", number, k.Text))
		default:
			if said, why = f.say(cut[i]); why != "" {
				open(n, fmt.Sprintf("the number %q has %s", number, why))
				continue
			}
			pieces[n] = said
			if mm, ok := f.scale.millimetres(cut[i]); ok && f.IsSize() && f.codes == nil {
				roles, sizes, places = append(roles, f.Role), append(sizes, mm), append(places, n)
			}
		}
	}
	for _, at := range sizetext.Exchanged(kind, roles, sizes) {
		open(places[at], fmt.Sprintf("the number %q has sizes of which two seem to stand in each other's place", number))
	}
	return pieces, whys
}

// say returns what a field has in a number, or why nobody can tell.
func (f *Field) say(code string) (said, why string) {
	switch {
	case f.codes != nil:
		if said = f.codes[words.Fold(code)]; said == "" {
			why = fmt.Sprintf("%q for the %s, which is none of the codes that the key explains", code, f.Name)
		}
	case !f.IsSize():
	case strings.Trim(code, "0123456789.,") != "":
		why = fmt.Sprintf("%q for the %s, which are no digits", code, f.Name)
	default:
		said = f.scale.apply(code)
	}
	return said, why
}

// template is a word that stands for part numbers, and which of its signs belong to which field, −1 for those of none.
type template struct {
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
func (t *template) cutter(fields int, numbers []string) func(string) []string {
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
func (t *template) writeMixed(b *strings.Builder, piece pieceOf) (groups []int) {
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
	return 100*alike >= LeastOfKey*len(numbers)
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
