package numberkey

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/sizetext"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/internal/pattern"
)

// An example explains one part number: "e.g. VF-1350-0925-19-B = base 13.50, bore 9.25, length 19 mm, black". Where there is one way only to
// find its sizes among its digits, so that none are left over beside them, all numbers are read in that way.

// exampleSize is a size that an example gives: its digits without the point, how many of them are decimals, and its unit.
type exampleSize struct {
	name     string
	role     catalog.Role
	digits   string
	decimals int
	unit     string
}

// exampleNumber is the number of a size in an example.
var exampleNumber = pattern.Lazy(`\d*[.,]\d+|\d+`)

// byExample finds an example of some numbers in the texts of a key.
func byExample(s *sayings, numbers []string) (k *Key, seen *Text) {
	for i := range s.texts {
		one := &s.texts[i]
		if !strings.ContainsAny(one.Text, "0123456789") {
			continue
		}
		for _, t := range templatesIn(one.Text, numbers) {
			if len(t.names) > 0 || !exampleOf(t.signs, numbers) {
				continue
			}
			said, _, _ := strings.Cut(t.behind, ". ")
			sizes := s.exampleSizes(said)
			if len(sizes) < leastSizes {
				continue
			}
			k, several := fromExample(t.signs, sizes, numbers)
			if k != nil {
				k.At, k.Text = one.At, t.written
				return k, nil
			}
			if several {
				seen = one
			}
		}
	}
	return nil, seen
}

// exampleOf reports whether a word is built as most numbers are, with digits where these have some.
func exampleOf(signs []rune, numbers []string) bool {
	if !builtAlike(signs, numbers) {
		return false
	}
	shape := shapeOfNumber(signs)
	return slices.ContainsFunc(numbers, func(number string) bool { return shapeOfNumber([]rune(number)) == shape })
}

// shapeOfNumber is a number with one sign for all digits and one for all letters.
func shapeOfNumber(signs []rune) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= '0' && r <= '9':
			return '0'
		case strings.ContainsRune(numberSeparators, r):
			return r
		}
		return 'A'
	}, string(signs))
}

// exampleSizes returns the sizes that an example gives with their names, none where two have one name; or those of a list, in the one order in
// which they are possible for parts of the kind.
func (s *sayings) exampleSizes(said string) []exampleSize {
	found := sizetext.In(s.lex, said, false)
	if behind := sizetext.In(s.lex, said, true); len(behind) > len(found) {
		found = behind
	}
	if len(found) < leastSizes {
		found = s.listedSizes(said)
	}
	var sizes []exampleSize
	unit := ""
	for _, one := range found {
		role := catalog.Role(one.Role)
		if in := s.lex.MatchIn(s.kind, one.Name); len(in) > 0 {
			role = catalog.Role(in[0].Role)
		}
		number := strings.Replace(exampleNumber().FindString(one.Text), ",", ".", 1)
		if number == "" || slices.ContainsFunc(sizes, func(e exampleSize) bool { return e.role == role }) {
			return nil
		}
		whole, part, _ := strings.Cut(number, ".")
		part = strings.TrimRight(part, "0")
		e := exampleSize{name: one.Name, role: role, digits: strings.TrimLeft(whole+part, "0"), decimals: len(part)}
		if r := s.lex.Read(one.Text, value.Context{Want: value.WantLength}); r.Kind == value.Length && r.UnitStated {
			e.unit, unit = r.Unit, r.Unit
		}
		sizes = append(sizes, e)
	}
	for i := range sizes {
		if sizes[i].unit == "" {
			sizes[i].unit = unit
		}
	}
	return sizes
}

// listedSizes returns the sizes of a list without names.
func (s *sayings) listedSizes(said string) (all []sizetext.Size) {
	list := sizetext.ListWithin(said)
	var found sizetext.Order
	for _, o := range sizetext.OrdersOf(s.kind) {
		if len(o) != len(list) || slices.Contains(o, "") {
			continue
		}
		sizes := sizetext.Millimetres(s.lex, list, "mm")
		if sizes == nil || !sizetext.Consistent(s.kind, o, sizes) {
			continue
		}
		if found != nil {
			return nil
		}
		found = o
	}
	for i, role := range found {
		all = append(all, sizetext.Size{Role: string(role), Name: sizetext.NameOf(role), Text: list[i]})
	}
	return all
}

// fromExample makes a key of a number and its sizes, nil where these can be found in it in several ways, or in none.
func fromExample(signs []rune, sizes []exampleSize, numbers []string) (k *Key, several bool) {
	m := matching{signs: signs, sizes: sizes, runs: digitRuns(signs)}
	m.place(0, -1, make([]pieceOf, len(sizes)))
	way := m.way()
	if way == nil {
		return nil, len(m.found) > 0
	}
	own := template{signs, make([]int, len(signs))}
	for i := range own.marks {
		own.marks[i] = literalSign
	}
	k = &Key{}
	for i, e := range sizes {
		at := way[i]
		for n := at.from; n < at.to; n++ {
			own.marks[n] = i
		}
		k.Fields = append(k.Fields, Field{Name: e.name, Role: e.role, scale: scale{unit: e.unit, shift: e.shiftIn(signs[at.from:at.to])}})
	}
	for n, piece := range piecesOfNumber(signs) {
		own.freeSigns(n, piece, numbers)
	}
	k.cut = own.cutter(len(k.Fields), numbers)
	return k, false
}

// freeSigns marks the signs of a piece that the numbers do not share and no field has.
func (t *template) freeSigns(n int, piece pieceOf, numbers []string) {
	for i := piece.from; i < piece.to; i++ {
		if t.marks[i] == literalSign && !shareSign(numbers, n, i-piece.from, t.signs[i]) {
			t.marks[i] = anySign
		}
	}
}

// shiftIn returns how many of the digits in a number are decimals of the size, −1 where they are not its digits.
func (e exampleSize) shiftIn(signs []rune) int {
	zeros, is := strings.CutPrefix(strings.TrimLeft(string(signs), "0"), e.digits)
	if !is || e.digits == "" || strings.Trim(zeros, "0") != "" {
		return -1
	}
	return e.decimals + len(zeros)
}

// digitRuns returns where digits stand together.
func digitRuns(signs []rune) (runs []pieceOf) {
	for i := 0; i < len(signs); {
		end := i
		for end < len(signs) && signs[end] >= '0' && signs[end] <= '9' {
			end++
		}
		if end > i {
			runs = append(runs, pieceOf{i, end})
		}
		i = max(end, i+1)
	}
	return runs
}

// matching finds the ways in which sizes stand among the digits of a number.
type matching struct {
	signs []rune
	sizes []exampleSize
	runs  []pieceOf
	found [][]pieceOf
}

// place looks for sizes from a place of a run on: a run has either none of them or nothing else. At −1 it has none so far.
func (m *matching) place(run, at int, places []pieceOf) {
	if len(m.found) > mostWays {
		return
	}
	if run == len(m.runs) {
		if !slices.Contains(places, pieceOf{}) {
			m.found = append(m.found, slices.Clone(places))
		}
		return
	}
	own := m.runs[run]
	if at == own.to {
		m.place(run+1, -1, places)
		return
	}
	if at < 0 {
		m.place(run+1, -1, places)
		at = own.from
	}
	for i, e := range m.sizes {
		if places[i] != (pieceOf{}) {
			continue
		}
		for end := at + 1; end <= own.to; end++ {
			if e.shiftIn(m.signs[at:end]) < 0 {
				continue
			}
			places[i] = pieceOf{from: at, to: end}
			m.place(run, end, places)
			places[i] = pieceOf{}
		}
	}
}

// mostWays is how many ways are compared.
const mostWays = 40

// way returns the one way in which the sizes stand in the number, nil where there are several: of those the one in which all diameters have as
// many decimals.
func (m *matching) way() []pieceOf {
	if len(m.found) == 1 {
		return m.found[0]
	}
	var alike []pieceOf
	for _, places := range m.found {
		shift, same := -1, true
		for i, e := range m.sizes {
			if !traits.Of[e.role].Diameter {
				continue
			}
			own := e.shiftIn(m.signs[places[i].from:places[i].to])
			same = same && (shift < 0 || own == shift)
			shift = own
		}
		switch {
		case !same:
		case alike != nil:
			return nil
		default:
			alike = places
		}
	}
	return alike
}
