package rows

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/pattern"
)

// Descriptions often repeat a size of the part: "Ferrule 25 mm". Where those of a table give the size of one of its columns, one that gives
// another is said; the column counts.

const (
	// leastDescribed is in how many rows at least a description has to give the size of a column, and describedShare of how many of those
	// that have a number.
	leastDescribed = 3
	describedShare = 0.75
	// describedSample is at how many rows is looked to find out.
	describedSample = 60
	// roundedShare is how far a rounded size may be off, as a share of it: 13 for 12.7. What is further off than its rounding by otherShare
	// of the size is another size.
	roundedShare, otherShare = 0.04, 0.02
)

// inText is a number in a description that may be a size: in its unit, or without one, and half of its last place.
type inText struct {
	number, half float64
	unit, text   string
}

// numberInText is a number or fraction with the word or sign behind it.
var numberInText = pattern.Lazy(`(\d+[- ]\d+/\d+|\d+/\d+|\d+[.,]\d+|\d+|[.,]\d+) ?(\pL+|["″”]|''|㎜)?`)

// numbersIn returns the numbers of a description that may be sizes. Those of codes and clubs are none: A10, 5i.
func (t *Table) numbersIn(text string) []inText {
	if !strings.ContainsAny(text, "0123456789") {
		return nil
	}
	var all []inText
	for _, at := range numberInText().FindAllStringSubmatchIndex(text, -1) {
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
			one.unit, one.half = "in", 0
		}
		if at[4] >= 0 {
			word := text[at[4]:at[5]]
			hit, found := t.Lex.Ask("unit", word, t.Lex.Words.Unit)
			first, _ := utf8.DecodeRuneInString(word)
			switch glued := at[4] == at[3] && lexicon.InWord(first); {
			case found && traits.IsLengthUnit(hit.Value):
				one.unit, one.text = hit.Value, text[at[0]:at[1]]
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

// says reports whether a number is a size, as far as it is rounded.
func (n inText) says(size float64, units []string) bool {
	for _, unit := range units {
		if said, half := n.inMM(unit); math.Abs(said-size) <= half+0.001*size {
			return true
		}
	}
	return false
}

// gainsays returns the size in mm that a number gives in place of another one, zero where it may be no such size.
func (n inText) gainsays(size float64, units []string, b traits.Bounds) float64 {
	for _, unit := range units {
		if said, half := n.inMM(unit); b.Possible(said) && math.Abs(said-size) > half+otherShare*size {
			return said
		}
	}
	return 0
}

// unitsOf returns the units in which bare sizes of a column are.
func unitsOf(c *cells.Column) []string {
	if c.Unit != "" {
		return []string{c.Unit}
	}
	return traits.LengthUnits[:2]
}

// compareDescriptions says which descriptions give another size than a column whose sizes they give as a rule.
func (t *Table) compareDescriptions() {
	if t.ByRole[catalog.Description] == nil {
		return
	}
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
	numbers := map[*Entry][]inText{}
	for _, e := range sample {
		if found := t.numbersIn(e.Fields.Text(catalog.Description)); found != nil {
			numbers[e] = found
		}
	}
	if len(numbers) < leastDescribed {
		return
	}
	for _, c := range t.read {
		if c.Trait().Want != traits.Length || c.Role == catalog.TipTaken {
			continue
		}
		if place, described := describes(sample, numbers, c); described {
			for _, e := range lines {
				t.compareDescription(e, c, place)
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

// describes returns where the descriptions of some rows give the size of a column, if most do.
func describes(rows []*Entry, numbers map[*Entry][]inText, c *cells.Column) (placeInText, bool) {
	for at := range mostNumbers {
		for _, back := range []bool{true, false} {
			place := placeInText{at, back}
			asked, said := 0, 0
			for _, e := range rows {
				dim := e.Fields.Dim(c.Role)
				n, found := place.of(numbers[e])
				if !found || !dim.Given() {
					continue
				}
				asked++
				if n.says(traits.MM(dim.Nominal()), unitsOf(c)) {
					said++
				}
			}
			if said >= leastDescribed && float64(said) >= describedShare*float64(asked) {
				return place, true
			}
		}
	}
	return placeInText{}, false
}

// compareDescription says where the description of a row gives another size than a column.
func (t *Table) compareDescription(e *Entry, c *cells.Column, place placeInText) {
	dim := e.Fields.Dim(c.Role)
	if _, answered := t.Rules.Row(e.Line).Values[c.Role]; answered || !dim.Given() || slices.Contains(t.gainsaid[e.Line], c.Role) {
		return
	}
	description := e.Fields.Get(catalog.Description)
	numbers := t.numbersIn(description.Text)
	n, found := place.of(numbers)
	if !found {
		return
	}
	if pack := e.Fields.Get(catalog.Pack); n.unit == "" && pack.IsNumber && pack.Number == n.number && pack.Cell == description.Cell {
		return // 12/pk
	}
	size := traits.MM(dim.Nominal())
	for _, other := range numbers {
		if other.says(size, unitsOf(c)) {
			return
		}
	}
	b, known := traits.BoundsOf(t.Kind, c.Role)
	said := n.gainsays(size, unitsOf(c), b)
	if !known || said == 0 || dim.HasLimits() && said >= traits.MM(dim.Lower()) && said <= traits.MM(dim.Upper()) {
		return
	}
	t.Findings.Add(finding.Finding{Severity: finding.Warning, Code: "data.conflict", Place: e.Place(c.Role),
		Related: []finding.Place{e.Place(catalog.Description)},
		Message: t.saysOtherwise(e.Fields, c.Role, e.Part, traits.SayMM(size), n.text),
		Settle:  t.Settle("rows", fmt.Sprint(e.Line), string(c.Role))})
}

// saysOtherwise is the sentence for a column and a description that contradict each other.
func (t *Table) saysOtherwise(f catalog.Fields, role catalog.Role, part, column, description string) string {
	return fmt.Sprintf("%s of %s is %s in %s, and its description in %s says %s; the column counts", catalog.RoleName(t.Kind, role), part, column, f.Cell(role),
		f.Cell(catalog.Description), description)
}
