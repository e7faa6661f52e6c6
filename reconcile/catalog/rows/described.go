package rows

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/pattern"
)

// Descriptions often repeat a size of the part, "Ferrule 25 mm", and so do part numbers, TR370-25. Where those of a table give the size of one of its
// columns, one that gives another is said; the column counts.

const (
	// leastDescribed is in how many rows at least a description has to give the size of a column, and describedShare of how many of those
	// that have a number.
	leastDescribed = 3
	describedShare = 0.75
	// leastNumbered is in how many rows at least a part number has to do so, and leastPerOther of how many rows one may have another number there: the
	// digits of part numbers are often no sizes.
	leastNumbered = 4
	leastPerOther = 10
	// describedSample is at how many rows is looked to find out.
	describedSample = 60
	// roundedShare is how far a rounded size may be off, as a share of it: 13 for 12.7. What is further off than its rounding by otherShare
	// of the size is another size, or by otherFine where it is rounded to less than fineShare.
	roundedShare, otherShare = 0.04, 0.02
	fineShare, otherFine     = 0.005, 0.005
	// finestFraction is by how much a size in mm may be off the fraction of an inch by which it is called, in inches: 13 for 1/2.
	finestFraction = 1.0 / 64
)

// inText is a number in a description that may be a size: in its unit, or without one, and half of its last place.
type inText struct {
	number, half float64
	unit, text   string
}

// numberInText is a number or fraction at the beginning of a text, with the word or sign behind it.
var numberInText = pattern.Lazy(`^(\d+[- ]\d+/\d+|\d+/\d+|(?:\d+ ?)?[¼½¾⅛⅜⅝⅞]|\d+[.,]\d+|\d+|[.,]\d+)[ -]?(\pL+|["″”]|''|㎜)?`)

// mayBegin are the characters with which such a number begins.
const mayBegin = "0123456789.,¼½¾⅛⅜⅝⅞"

// placesOfNumbers returns where the numbers of a text stand, as [regexp.Regexp.FindAllStringSubmatchIndex] does: the expression is slow at finding out
// where the next one begins.
func placesOfNumbers(text string) (all [][]int) {
	for from := 0; from < len(text); {
		next := strings.IndexAny(text[from:], mayBegin)
		if next < 0 {
			break
		}
		from += next
		at := numberInText().FindStringSubmatchIndex(text[from:])
		if at == nil {
			_, size := utf8.DecodeRuneInString(text[from:])
			from += size
			continue
		}
		for i := range at {
			if at[i] >= 0 {
				at[i] += from
			}
		}
		all = append(all, at)
		from = at[1]
	}
	return all
}

// numbersIn returns the numbers of a description that may be sizes. Those of codes and clubs are none: A10, 5i.
func (t *Table) numbersIn(text string) []inText {
	if !strings.ContainsAny(text, "0123456789¼½¾⅛⅜⅝⅞") {
		return nil
	}
	var all []inText
	for _, at := range placesOfNumbers(text) {
		digits := text[at[2]:at[3]]
		before, _ := utf8.DecodeLastRuneInString(text[:at[0]])
		if at[0] > 0 && (lexicon.InWord(before) || unicode.IsDigit(before) || strings.ContainsRune("-/.,", before)) {
			continue
		}
		n, rest, err := measure.Notation{Comma: measure.DecimalComma}.ParseNumber(digits)
		if err != nil || rest != "" {
			continue
		}
		one := inText{number: n.Float64(), text: digits, half: 0.5 * math.Pow10(-max(n.Decimals(), 0))}
		if n.IsFraction() {
			one.unit, one.half = "in", finestFraction
		}
		if at[4] >= 0 {
			word := text[at[4]:at[5]]
			if wide := strings.IndexFunc(word, lexicon.IsWide); wide > 0 {
				word = word[:wide]
			}
			hit, found := t.Lex.Ask("unit", word, t.Lex.Words.Unit)
			first, _ := utf8.DecodeRuneInString(word)
			switch glued := at[4] == at[3] && lexicon.InWord(first); {
			case found && traits.IsLengthUnit(hit.Value):
				one.unit, one.text = hit.Value, text[at[0]:at[4]+len(word)]
			case glued:
				continue
			}
		}
		all = append(all, one)
	}
	return all
}

// inMM returns the size in mm and half of its last place, with a unit where it names none itself.
func (n inText) inMM(unit string) (size, half float64) {
	if n.unit != "" {
		unit = n.unit
	}
	size = n.number * traits.UnitMM[unit]
	return size, min(n.half*traits.UnitMM[unit], roundedShare*size)
}

// says reports whether a number is a size, as far as either of them is rounded.
func (n inText) says(f catalog.Field, units []string) bool {
	size, fine := traits.MM(f.Dim.Nominal()), traits.MM(f.Fine)
	for _, unit := range units {
		if said, half := n.inMM(unit); math.Abs(said-size) <= max(half, min(fine, roundedShare*size))+0.001*size {
			return true
		}
	}
	return false
}

// gainsays reports whether a number may give another size in the place of one, by more than its rounding and some play: not where it lies within its
// limits.
func (n inText) gainsays(f catalog.Field, units []string, b traits.Bounds, play float64) bool {
	size := traits.MM(f.Dim.Nominal())
	for _, unit := range units {
		if said, half := n.inMM(unit); b.Possible(said) && math.Abs(said-size) > half+play*size {
			return !f.Dim.HasLimits() || said < traits.MM(f.Dim.Lower()) || said > traits.MM(f.Dim.Upper())
		}
	}
	return false
}

// play is by which share of it a size that a description gives may be off: it may be called by another than its own.
func (n inText) play(units []string) float64 {
	if size, half := n.inMM(units[0]); half < fineShare*size {
		return otherFine
	}
	return otherShare
}

// unitsOf returns the units in which bare sizes of a column are.
func unitsOf(c *cells.Column) []string {
	if c.Unit != "" {
		return []string{c.Unit}
	}
	return traits.LengthUnits[:2]
}

// unitsAt returns the units in which bare numbers beside a size of a column are: that in which the size itself is, by its cell or its section.
func (t *Table) unitsAt(c *cells.Column, f catalog.Field) []string {
	for _, unit := range append([]string{c.Unit}, traits.LengthUnits...) {
		one := t.Lex.Read(f.Text, value.Context{Want: value.WantLength, Unit: unit, Mark: c.Mark})
		switch {
		case one.Kind != value.Length || one.Dim.Nominal() != f.Dim.Nominal():
		case one.Unit == "cm":
			return traits.LengthUnits[:1] // nobody names parts in cm
		default:
			return []string{one.Unit}
		}
	}
	return unitsOf(c)
}

// saying is a column whose texts may give sizes, and how their numbers are read.
type saying struct {
	role    catalog.Role
	numbers func(text string) []inText
}

// inPartNumber are the digits of part numbers that may be sizes.
var inPartNumber = pattern.Lazy(`\d{2,4}`)

// numbersOf returns what reads the digits of part numbers as sizes in a unit: times so much.
func numbersOf(unit string, times float64) func(string) []inText {
	return func(text string) (all []inText) {
		for _, digits := range inPartNumber().FindAllString(text, mostNumbers) {
			if n, err := strconv.Atoi(digits); err == nil {
				all = append(all, inText{number: float64(n) * times, half: times / 2, unit: unit, text: digits})
			}
		}
		return all
	}
}

// sayings are the columns whose texts may give sizes.
func (t *Table) sayings() (all []saying) {
	for _, role := range [...]catalog.Role{catalog.Description, catalog.Category, catalog.Style, catalog.Colour, catalog.Note} {
		all = append(all, saying{role, t.numbersIn})
	}
	return append(all, saying{catalog.Part, numbersOf("mm", 1)}, saying{catalog.Part, numbersOf("mm", 0.1)}, saying{catalog.Part, numbersOf("thou", 1)})
}

// compareDescriptions says which descriptions and part numbers give another size than a column whose sizes they give as a rule.
func (t *Table) compareDescriptions() {
	var lines []*Entry // one for each line
	for _, e := range t.Items {
		if len(lines) == 0 || lines[len(lines)-1].Line != e.Line {
			lines = append(lines, e)
		}
	}
	if len(lines) < leastDescribed {
		return
	}
	var sample []*Entry
	step := max(1, len(lines)/describedSample)
	for i := 0; i < len(lines); i += step {
		sample = append(sample, lines[i])
	}
	for _, s := range t.sayings() {
		if t.ByRole[s.role] == nil {
			continue
		}
		numbers := map[*Entry][]inText{}
		for _, e := range sample {
			if found := s.numbers(e.Fields.Text(s.role)); found != nil {
				numbers[e] = found
			}
		}
		if len(numbers) < leastDescribed {
			continue
		}
		for _, c := range t.read {
			if c.Trait().Want != traits.Length || c.Role == catalog.TipTaken {
				continue
			}
			if place, described := t.describes(s, sample, numbers, c); described {
				for _, e := range lines {
					t.compareDescription(e, c, s, place)
				}
			}
		}
	}
}

// placeInText is where among the numbers of descriptions a size stands: how many come before it, or behind it where back is set.
type placeInText struct {
	at   int
	back bool
}

func (p placeInText) of(numbers []inText) (inText, bool) {
	at := p.at
	if p.back {
		at = len(numbers) - 1 - p.at
	}
	if at < 0 || at >= len(numbers) {
		return inText{}, false
	}
	return numbers[at], true
}

// mostNumbers is among how many numbers of a description its size is sought.
const mostNumbers = 4

// describes returns where the texts of some rows give the size of a column, if most do.
func (t *Table) describes(s saying, rows []*Entry, numbers map[*Entry][]inText, c *cells.Column) (placeInText, bool) {
	for at := range mostNumbers {
		for _, back := range []bool{true, false} {
			place := placeInText{at, back}
			asked, said := 0, 0
			different := map[float64]bool{}
			for _, e := range rows {
				f := e.Fields.Get(c.Role)
				n, found := place.of(numbers[e])
				if !found || !f.Dim.Given() || f.Cell == e.Fields.Cell(s.role) {
					continue
				}
				asked++
				if n.says(f, t.unitsAt(c, f)) {
					said++
					different[n.number] = true
				}
			}
			enough := said >= leastDescribed && float64(said) >= describedShare*float64(asked)
			if s.role == catalog.Part {
				enough = said >= leastNumbered && asked-said <= max(1, asked/leastPerOther) && len(different) > 1
			}
			if enough {
				return place, true
			}
		}
	}
	return placeInText{}, false
}

// compareDescription says where the text of a row gives another size than a column.
func (t *Table) compareDescription(e *Entry, c *cells.Column, s saying, place placeInText) {
	f := e.Fields.Get(c.Role)
	if t.Answered(e.Line, c.Role) || !f.Dim.Given() {
		return
	}
	text := e.Fields.Get(s.role)
	numbers := s.numbers(text.Text)
	n, found := place.of(numbers)
	if !found {
		return
	}
	if pack := e.Fields.Get(catalog.Pack); n.unit == "" && pack.IsNumber && pack.Number == n.number && pack.Cell == text.Cell {
		return // 12/pk
	}
	units := t.unitsAt(c, f)
	for _, other := range numbers {
		if other.says(f, units) {
			return
		}
	}
	b, known := traits.BoundsOf(t.Kind, c.Role)
	if said := n.gainsays(f, units, b, n.play(units)); known && said {
		t.sayOtherSize(e, c.Role, e.sizeOf(c.Role), fmt.Sprintf("its %s in %s says %s", catalog.RoleName(t.Kind, s.role), text.Cell, n.text), e.Place(s.role))
	}
}

// sayOtherSize says that a text gives another size than the column of a row does, once for each size.
func (t *Table) sayOtherSize(e *Entry, role catalog.Role, column, says string, where finding.Place) {
	place := e.Place(role)
	if t.otherSize[place] {
		return
	}
	if t.otherSize == nil {
		t.otherSize = map[finding.Place]bool{}
	}
	t.otherSize[place] = true
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.conflict", Place: place, Related: []finding.Place{where},
		Message: fmt.Sprintf("%s of %s is %s in %s, and %s; the column counts", catalog.RoleName(t.Kind, role), e.Part, column, place.Cell, says),
		Settle:  t.Settle("rows", t.LineName(e.Line), string(role))})
}

// sizeOf is the size of a role as it is said.
func (e *Entry) sizeOf(role catalog.Role) string {
	return traits.SayMM(traits.MM(e.Fields.Dim(role).Nominal()))
}
