// Package cells understands the cells of a table: each under its column, with the cells beside it that have a say, as a size, an angle, a
// number or a text; or says why it cannot be used.
package cells

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/width"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/grid"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/units"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// Reader understands the cells of a table.
type Reader struct {
	*units.Table
	Columns []*Column
	ByRole  map[catalog.Role]*Column
	// pairs number what stands beside each other: see pair.
	pairs    table[int32]
	limitsIn limitsInRemark
	searched searched
	// readings and meanings are what values and meanings are cut from, and spare is what the last cell means that was not kept.
	readings []catalog.Value
	meanings []meaning
	spare    meaning
	// Section and sectionUnit are what the last title within the body says. sectionNumber is the place of its unit
	// among the sectionUnits so far, counted from 1.
	Section, sectionUnit string
	sectionNumber        int32
	sectionUnits         []string
	middles              map[*Column]float64
	// Heard are the cells with sizes whose comments were listened to, and whether they raised a question or an answer settles it.
	Heard map[sheet.Ref]bool
}

// Column is a column whose cells are being read.
type Column struct {
	*units.Column
	// Col is the column that is read: where it stands for several, that of the club that is; absent is set where that has none.
	Col    int
	Absent bool
	// ditto is where the column said so last.
	ditto ditto
	// memo are the cells that were understood so far. alone is whether no other column has the role, and company are the columns that have
	// a say in what a cell means; both are found when they are needed.
	memo    memo
	alone   answer
	company []*Column
	// base is the number of its company but for them, and where is where it was asked for last.
	base  int32
	where where
	// partner and unitsBeside are those of the column, and piecesBeside is the column that says for how many pieces its prices are.
	partner, unitsBeside, piecesBeside *Column
}

// answer is the answer to a question that is asked once.
type answer uint8

const (
	unasked answer = iota
	yes
	no
)

// NewReader makes the cells of a table ready to be read.
func NewReader(t *units.Table) *Reader {
	r := &Reader{Table: t, ByRole: map[catalog.Role]*Column{}}
	wrapped := map[*units.Column]*Column{}
	for _, c := range t.Columns {
		wrapped[c] = &Column{Column: c, Col: c.Col}
		r.Columns = append(r.Columns, wrapped[c])
	}
	for _, c := range r.Columns {
		c.partner = wrapped[c.Column.Partner]
	}
	for _, c := range r.Columns {
		c.unitsBeside = wrapped[c.UnitsBeside]
	}
	for role, c := range t.ByRole {
		r.ByRole[role] = wrapped[c]
	}
	r.findPieces()
	return r
}

// findPieces finds the columns that say for how many pieces each price is.
func (t *Reader) findPieces() {
	for _, c := range t.Columns {
		for _, other := range t.Columns {
			if c.PerBy != nil && other.Column.Column == c.PerBy {
				c.piecesBeside = other
			}
		}
	}
}

// Trouble is why a value is not used. Code is empty where there is no trouble.
type Trouble struct {
	Severity finding.Severity
	Code     string
	Message  string
	// Refused is the size that was read and is not used, not given where none was.
	Refused measure.Dim
	// Instead is the size that counts instead of that of the cell, by the words of InsteadText; not given where none does.
	Instead     measure.Dim
	InsteadText string
	// Col is the column in which it is, where that is not the one that was read.
	Col int
	// Cause is what brought it about, where it may bring about others in the column: the other unit, a usual mistake.
	Cause string
}

func (p Trouble) Any() bool { return p.Code != "" }

// In returns the trouble as one in a column.
func (p Trouble) In(c *Column) Trouble {
	p.Col = c.Col
	return p
}

func Problem(code, format string, args ...any) Trouble {
	return Trouble{Severity: finding.Error, Code: code, Message: fmt.Sprintf(format, args...)}
}

// Remark is trouble that only a person may want to know of.
func Remark(code, format string, args ...any) Trouble {
	return Trouble{Severity: finding.Note, Code: code, Message: fmt.Sprintf(format, args...)}
}

func Doubt(code, format string, args ...any) Trouble {
	return Trouble{Severity: finding.Warning, Code: code, Message: fmt.Sprintf(format, args...)}
}

// readField reads one cell as what its column holds. The field has no dimension, angle or number where there is
// trouble or the cell is empty.
func (t *Reader) readField(line int, c *Column) (catalog.Field, Trouble) {
	g := t.Region.Grid
	fromLine, fromCol := t.valueCell(line, c)
	cell := g.Cell(fromLine, fromCol)
	f := catalog.Field{Text: g.At(fromLine, fromCol), Cell: g.Ref(fromLine, fromCol).String()}
	if merged, _ := g.Source(line, c.Col); merged != fromLine {
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %q repeats the value above it, in %s", c.Name(), g.Filled(line, c.Col), f.Cell))
	}
	if answer, answered := t.RowRule(line).Values[c.Role]; answered {
		return t.ReadAnswer(line, c, f, answer)
	}
	if c.Trait().Want == traits.Length && lexicon.SaysLeft(f.Text) {
		return t.readLeft(line, c, f)
	}
	if c.Trait().Shared() && g.Is(lexicon.AsSet, t.Lex, g.Id(fromLine, fromCol)) {
		return f, Trouble{} // it is found once the row of the set is known
	}
	if dim, why := t.fromDate(line, c, cell); why != "" {
		t.Warn(line, c.Col, c.Role, "data.damaged", why)
		f.Assumptions = append(f.Assumptions, why)
		return t.tolerated(line, c, f, dim)
	}
	if bad := damaged(cell, c); bad.Any() {
		return f, bad
	}
	if f.Text == "" {
		return t.readOld(line, c, f)
	}
	if cell.WorkedOut {
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s is the result of the formula =%s, which the file does not store", c.Name(), cell.Formula))
		t.Tell(layout.ToldKey{What: "worked out", Col: c.Col}, finding.Note, "data.formula", fromLine, fromCol, func() string {
			return fmt.Sprintf("%s holds the formula =%s without a stored result; it was worked out: %s", c.Name(), cell.Formula, cell.Raw)
		})
	} else if cell.Formula != "" {
		t.Tell(layout.ToldKey{What: "formula", Col: c.Col}, finding.Note, "data.formula", fromLine, fromCol, func() string {
			return fmt.Sprintf("%s holds the formula =%s; the result stored with it is used", c.Name(), cell.Formula)
		})
	}
	if strings.HasPrefix(f.Text, "=") && c.Trait().Want == traits.Text {
		t.Tell(layout.ToldKey{What: "text formula", Col: c.Col}, finding.Note, "data.formula", fromLine, fromCol, func() string {
			return fmt.Sprintf("%s holds the text %q, which begins like a formula and is kept as text", c.Name(), f.Text)
		})
	}
	switch c.Trait().Want {
	case traits.Length:
		return t.readSize(line, c, f, cell)
	case traits.Angle:
		return t.readAngle(c, f)
	case traits.Count, traits.Price:
		return t.readNumber(line, c, f)
	}
	return f, Trouble{}
}

// valueCell returns where the value of a cell stands: in the merged range that covers it, or, where it says ditto, above
// it.
func (t *Reader) valueCell(line int, c *Column) (int, int) {
	g := t.Region.Grid
	fromLine, fromCol := g.Source(line, c.Col)
	if !t.isDitto(g.Id(fromLine, fromCol)) {
		return fromLine, fromCol
	}
	last := c.ditto
	if last.line == fromLine && last.col == fromCol {
		return last.fromLine, last.fromCol
	}
	c.ditto.line, c.ditto.col = fromLine, fromCol
	c.ditto.fromLine, c.ditto.fromCol = t.aboveDitto(fromLine, fromCol, last)
	return c.ditto.fromLine, c.ditto.fromCol
}

// isDitto reports whether a content refers to the value above it, in the language of the table where it hangs on that.
func (t *Reader) isDitto(id grid.ID) bool {
	g := t.Region.Grid
	return g.Is(lexicon.AsDitto, t.Lex, id) || g.Is(lexicon.AsDoubtfulDitto, t.Lex, id) && t.Lex.IsDittoIn(t.Language, g.Text(id))
}

// ditto is where a column says ditto, and where the value stands that it refers to.
type ditto struct{ line, col, fromLine, fromCol int }

// aboveDitto returns where the value stands that a ditto refers to. Down a column of dittos, only the lines since the last one are
// looked at.
func (t *Reader) aboveDitto(fromLine, fromCol int, last ditto) (int, int) {
	g := t.Region.Grid
	for above := fromLine; above >= t.Region.Body; above-- {
		if above == last.line && fromCol == last.col {
			if t.isDitto(g.Id(last.fromLine, last.fromCol)) {
				break // there is none
			}
			return last.fromLine, last.fromCol
		}
		id := g.Id(g.Source(above, fromCol))
		if t.isDitto(id) {
			continue
		}
		if g.Text(id) != "" || withoutResult(g.CellOf(id)) {
			return g.Source(above, fromCol)
		}
	}
	return fromLine, fromCol
}

// readLeft reads the size to the left of a cell that says so, where both are in one unit.
func (t *Reader) readLeft(line int, c *Column, f catalog.Field) (catalog.Field, Trouble) {
	at := slices.Index(t.Columns, c)
	if at < 1 || traits.Of[t.Columns[at-1].Role].Want != traits.Length || t.Columns[at-1].Unit != c.Unit || t.Columns[at-1].Scale != c.Scale {
		return f, Problem("data.unreadable", "%s says %q, and there is no such size to its left", c.Name(), f.Text)
	}
	text := f.Text
	f, bad := t.readField(line, t.Columns[at-1])
	if bad.Any() || !f.Dim.Given() {
		return f, Problem("data.missing", "%s says %q, and the size to its left cannot be used", c.Name(), text)
	}
	f.Assumptions = append(slices.Clip(f.Assumptions), fmt.Sprintf("%s %q repeats the value to its left, in %s", c.Name(), text, f.Cell))
	return f, Trouble{}
}

// formulaText is a formula that came along as text and has something to work out.
var formulaText = pattern.Lazy(`^=[^"]*[\d)] *[-+*/^] *[\d(.$A-Z]`)

// damaged reports what a spreadsheet program has done to a cell: an error value, a formula without a stored result, a
// date where a fraction was.
func damaged(cell sheet.Cell, c *Column) Trouble {
	want := c.Trait().Want
	switch {
	case cell.Kind == sheet.Text && want == traits.Length && strings.HasPrefix(cell.Raw, "=") && formulaText().MatchString(cell.Raw):
		return Problem("data.formula", "%s holds the text of a formula, %s, that was not worked out; give its result", c.Name(), cell.Raw)
	case cell.Kind == sheet.Error || cell.Kind == sheet.Text && value.IsErrorValue(cell.Raw) && want != traits.Text:
		return Problem("data.damaged", "%s holds the error %s instead of a value", c.Name(), cell.Shown)
	case withoutResult(cell):
		return Problem("data.damaged", "%s holds the formula =%s without a stored result; open the file in a spreadsheet program and save it again",
			c.Name(), cell.Formula)
	case cell.Kind == sheet.Date && want == traits.Length:
		if fraction, ok := value.DatesToFraction(cell); ok {
			return Problem("data.damaged", "%s holds a date; it was probably the fraction %s: %s", c.Name(), fraction.Text, fraction.Message)
		}
		return Problem("data.damaged", "%s holds the date %s instead of a size", c.Name(), cell.Shown)
	case cell.Kind == sheet.Date && want == traits.Code:
		return Problem("data.damaged", "%s holds the date %s, which was probably a part number such as 1-2", c.Name(), cell.Shown)
	case cell.Kind == sheet.Bool && want == traits.Length:
		return Problem("data.damaged", "%s holds %s instead of a size", c.Name(), cell.Shown)
	}
	return Trouble{}
}

// withoutResult reports whether a cell holds a formula that nobody has worked out: it looks blank, and is not.
func withoutResult(cell sheet.Cell) bool { return cell.Kind == sheet.Blank && cell.Formula != "" }

// fromDate returns the one fraction of an inch, among sizes in inches, that the joint allows and that a spreadsheet program
// makes this date of, and says so; nothing where there are several or none.
func (t *Reader) fromDate(line int, c *Column, cell sheet.Cell) (measure.Dim, string) {
	if cell.Kind != sheet.Date || c.Trait().Want != traits.Length || c.Held != "" || c.Scale != 1 {
		return measure.Dim{}, ""
	}
	fraction, found := value.DatesToFraction(cell)
	b, known := traits.BoundsOf(t.Kind, c.Role)
	if unit, _ := t.unitOf(line, c, cell); !found || !known || unit != "in" {
		return measure.Dim{}, ""
	}
	var dims []measure.Dim
	text := ""
	for _, one := range append([]string{fraction.Text}, fraction.Others...) {
		if dim, err := measure.ParseDim(one + " in"); err == nil && b.Possible(traits.MM(dim.Nominal())) {
			dims = append(dims, dim)
			text = one
		}
	}
	if len(dims) != 1 {
		return measure.Dim{}, ""
	}
	return dims[0], fmt.Sprintf("%s holds the date %s, taken as %s in, which a spreadsheet program turned into it", c.Name(), cell.Shown, text)
}

// ReadAnswer reads the value that the mapping file gives in place of the cell's.
func (t *Reader) ReadAnswer(line int, c *Column, f catalog.Field, answer string) (catalog.Field, Trouble) {
	f.Text = answer
	f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s is %s by the mapping file", catalog.RoleName(t.Kind, c.Role), answer))
	switch c.Trait().Want {
	case traits.Length:
		dim, err := measure.ParseDim(answer)
		if readings, listed := measure.ParseReadings(answer); err != nil && listed == nil && !sample.FarApart(readings) {
			return t.ofReadings(c, f, catalog.Field{}, readings, []finding.Place{t.PlaceOf(f)})
		}
		if err != nil {
			return f, Problem("map.value", "the mapping file gives %q for %s: %v", answer, c.Role, err)
		}
		f.Dim = dim
		return f, Trouble{}
	case traits.Angle:
		return t.readAngle(c, f)
	case traits.Count, traits.Price:
		return t.readNumber(line, c, f)
	}
	return f, Trouble{}
}

// unitOf returns the unit of a bare number in a cell: the one that a person says, its number format's, its row's, its section's, its
// column's.
func (t *Reader) unitOf(line int, c *Column, cell sheet.Cell) (unit, why string) {
	if c.UnitRuled {
		return c.Unit, ""
	}
	if cell.Kind == sheet.Number {
		if unit := t.Lex.FormatUnit(cell.Format); traits.IsLengthUnit(unit) {
			return unit, ""
		}
	}
	if c.unitsBeside != nil {
		if hit, ok := t.Lex.Ask("unit", t.Region.Grid.Filled(line, c.unitsBeside.Col), t.Lex.Words.Unit); ok && traits.IsLengthUnit(hit.Value) {
			return hit.Value, ""
		}
	}
	if t.sectionUnit != "" && !traits.IsLengthUnit(c.HeadingUnit) {
		return t.sectionUnit, fmt.Sprintf("unit of %s taken as %s: the title above says so", c.Name(), t.sectionUnit)
	}
	if c.UnitAssumed {
		return c.Unit, c.UnitWhy
	}
	return c.Unit, ""
}

// readSize reads a length or diameter.
func (t *Reader) readSize(line int, c *Column, f catalog.Field, cell sheet.Cell) (catalog.Field, Trouble) {
	if why := t.Region.WhyOpen(line, c.Col); why != "" {
		return f, Problem("data.unreadable", "%s: %s", c.Name(), why)
	}
	unit, why := t.unitOf(line, c, cell)
	if c.ByValues {
		f.Assumptions = append(f.Assumptions, t.TakenByValues(c.Col, c.Role))
	}
	if c.Inferred {
		f.Assumptions = append(f.Assumptions, c.Order)
	}
	ctx := value.Context{Want: c.Trait().Wanted(), Unit: unit, Mark: c.Mark, Language: t.Language, Limits: c.PairsAreLimits(), Stored: cell.Kind == sheet.Number}
	reading := t.Lex.Read(f.Text, ctx)
	if other, why := t.settleComma(c, f.Text, ctx, reading); why != "" {
		reading = other
		f.Assumptions = append(f.Assumptions, why)
		if c.Profile.MostlyPoints() {
			t.WarnBy("comma", line, c.Col, c.Role, "data.unreadable", why+", and the other sizes of the column have a point")
		}
	}
	if c.Role == catalog.Bore {
		reading = t.withoutTip(f.Text, ctx, reading)
	}
	if c.Role == catalog.TipTaken {
		if reading.Kind == value.Length && t.boundsAllow(c, reading.Dim) && !reading.Dim.HasLimits() { // .335+.350 are two
			f.Dim = reading.Dim
		}
		return f, Trouble{}
	}
	if slip := t.findMisread(f.Text); slip.why != "" && reading.Kind != value.Text {
		meant := t.Lex.Read(slip.meant, ctx)
		if slip.inDoubt || meant.Kind != value.Length || meant.Problem.Code != "" || !t.boundsAllow(c, meant.Dim) {
			return f, Problem("data.unreadable", "%s %q has a letter among its digits: %s, or does the letter say something else?", c.Name(), f.Text, slip.why)
		}
		taken := fmt.Sprintf("%s %q has a letter among its digits, %s, and is taken as %s", c.Name(), f.Text, slip.why, slip.meant)
		t.Warn(line, c.Col, c.Role, "data.unreadable", taken)
		f.Assumptions = append(f.Assumptions, taken)
		reading = meant
	}
	switch reading.Kind {
	case value.Empty, value.NotApplicable:
		return f, Trouble{}
	case value.List:
		if c.Role == catalog.Bore && (t.Kind == catalog.Heads || t.Bores == catalog.BoresAreTips) && !c.Hints.Measured && AllTips(reading.List) {
			return f, Trouble{}
		}
		if readings := t.readingsIn(c, reading); readings != nil {
			return t.readReadings(line, c, f, reading, readings, unit, why)
		}
		return f, Problem("data.conflict", "%s names several values in one cell: %s", c.Name(), f.Text)
	case value.Length:
	default:
		return f, t.unreadable(c, f, reading)
	}
	if c.Trait().MayLack && reading.Dim.Nominal().IsZero() && !reading.Dim.HasLimits() {
		fromLine, fromCol := t.Region.Grid.Source(line, c.Col)
		t.Tell(layout.ToldKey{What: "nought", Col: c.Col}, finding.Note, "data.leniency", fromLine, fromCol, func() string {
			return fmt.Sprintf("%s %s is taken for none", c.Name(), f.Text)
		})
		return f, Trouble{}
	}
	if c.Held != "" && (c.RoleHeld || !reading.UnitStated) {
		if reading.UnitStated && reading.Problem.Code == "" && c.Scale == 1 { // whichever column has the role, this is no such size
			if bad := t.implausible(c, reading.Dim, reading, unit); bad.Any() {
				bad.Refused = reading.Dim
				return f, bad
			}
		}
		return f, Trouble{Severity: finding.Note, Code: "held", Message: c.Held}
	}
	if (c.ByEach || t.writtenAsInches(c, f.Text, unit)) && reading.Problem.Code != "" && unit == "mm" { // a fraction
		if inches := t.Lex.Read(f.Text, value.Context{Want: ctx.Want, Unit: "in", Mark: c.Mark}); inches.Kind == value.Length && t.boundsAllow(c, inches.Dim) {
			return t.readInOther(line, c, f, ctx, "in")
		}
	}
	if reading.Problem.Code != "" {
		return f, Problem(reading.Problem.Code, "%s: %s%s", c.Name(), reading.Problem.Message, alternatives(reading))
	}
	dim := reading.Dim
	if scale := t.scaleOf(c, reading); scale != 1 {
		dim = scaled(dim, scale)
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %s is a radius: diameter %s", c.Name(), f.Text, traits.SayMM(traits.MM(dim.Nominal()))))
	}
	switch reading.Qualifier {
	case value.Approximate, value.Reference:
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %q taken as the size itself", c.Name(), f.Text))
	case value.AtMost, value.AtLeast:
		return f, Problem("data.missing", "%s gives only one limit: %s", c.Name(), f.Text)
	}
	if other := t.onlyOther(c, dim, reading, unit, cell); other != "" {
		return t.readInOther(line, c, f, ctx, other)
	}
	if bad := t.implausible(c, dim, reading, unit); bad.Any() && !t.unusual(c, dim, reading) {
		bad.Refused = dim
		return f, bad
	} else if bad.Any() {
		t.Warn(line, c.Col, c.Role, bad.Code, bad.Message+"; the cell names its unit, and it is used as it stands")
		return t.tolerated(line, c, f, dim)
	}
	if c.Misfit != "" {
		return f, Trouble{Severity: finding.Note, Code: "held", Message: c.Misfit, Refused: dim}
	}
	if why != "" && !reading.UnitStated {
		f.Assumptions = append(f.Assumptions, why)
	}
	f.Assumptions = append(f.Assumptions, t.forgiven(line, c, reading)...)
	if bad := t.slipped(c, f, dim); bad.Any() {
		return f, bad
	}
	return t.tolerated(line, c, f, dim)
}

// misread is a letter within a number that is likely to be a digit: why says which, meant is the number with it. It stands in the place of
// the first decimal, 12.S, or is an O behind a digit, 1O. It is in doubt between digits, as in .4S5, which would be a class of limits
// for holes, and another letter than an O behind the last of them, .53S or .47S", which could be a mark.
type misread struct {
	why, meant string
	inDoubt    bool
}

// findMisread finds the first such letter of a text; why is empty where there is none.
func (t *Reader) findMisread(text string) misread {
	if !strings.ContainsFunc(text, func(r rune) bool { return r >= utf8.RuneSelf || lexicon.DigitMeant(byte(r)) != 0 }) {
		return misread{}
	}
	text = width.Narrow.String(text)
	for at := range len(text) {
		digit := lexicon.DigitMeant(text[at])
		if digit == 0 {
			continue
		}
		before, after := text[:at], strings.TrimLeft(text[at+1:], "Oo")
		isUnit := after != "" && t.Lex.IsUnit(strings.TrimSpace(after))
		if decimals := strings.TrimRight(before, ".,"); len(before)-len(decimals) == 1 {
			if !endsInDigit(decimals) && !startsWithDigit(after) || decimals != "" && !endsInDigit(decimals) {
				continue
			}
		} else if !endsInDigit(before) || !startsWithDigit(after) && text[at] != 'O' && after != "" && !isUnit {
			continue
		}
		if next, _ := utf8.DecodeRuneInString(after); after != "" && unicode.IsLetter(next) && !isUnit {
			continue
		}
		zeros := strings.Repeat("0", len(text)-at-1-len(after))
		return misread{fmt.Sprintf("a %c misread as %c", digit, text[at]), before + string(digit) + zeros + after, endsInDigit(before) && (startsWithDigit(after) || text[at] != 'O')}
	}
	return misread{}
}

func endsInDigit(text string) bool { return text != "" && isDigit(text[len(text)-1]) }

func startsWithDigit(text string) bool { return text != "" && isDigit(text[0]) }

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// ambiguousComma is a number whose comma may be a decimal comma or part thousands.
var ambiguousComma = pattern.Lazy(`^\D*\d{1,3},\d{3}(\D|$)`)

// settleComma reads a number whose comma may mean either once more, where the column's decimal mark makes it impossible, and
// takes the other meaning if only that is possible. It says why, empty where there is nothing to settle.
func (t *Reader) settleComma(c *Column, text string, ctx value.Context, reading value.Reading) (value.Reading, string) {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	if !known || ctx.Unit == "" || c.Scale != 1 || !strings.Contains(text, ",") || !ambiguousComma().MatchString(text) || reading.Kind == value.Length && t.boundsAllow(c, reading.Dim) {
		return reading, ""
	}
	least, errLeast := measure.FromMillimetres(b.Least)
	most, errMost := measure.FromMillimetres(b.Most)
	if errLeast != nil || errMost != nil {
		return reading, ""
	}
	ctx.Mark, ctx.Least, ctx.Most = value.MarkUnknown, least, most
	other := t.Lex.Read(text, ctx)
	if other.Kind != value.Length || other.Problem.Code != "" {
		return reading, ""
	}
	return other, fmt.Sprintf("%s %s read as %s: the comma can only mean that", c.Name(), text, traits.SayMM(traits.MM(other.Dim.Nominal())))
}

// A size is compared with the others of its column where there are at least LeastOthers. A diameter that is off their middle by more than
// farDiameter of it, or a length by more than the factor farLength, stands out.
const (
	LeastOthers = 6
	farDiameter = 0.3
	farLength   = 4.0
)

// FarDiameter reports whether a diameter stands out from those around a middle.
func FarDiameter(size, middle float64) bool { return math.Abs(size/middle-1) > farDiameter }

// slipped compares a possible size with the rest of its column. One that stands out, and that a usual mistake would bring back among the
// others, is trouble; what only stands out is said when all rows are read.
func (t *Reader) slipped(c *Column, f catalog.Field, dim measure.Dim) Trouble {
	middle := t.Middle(c)
	size := traits.MM(dim.Nominal())
	if middle == 0 || len(c.Profile.Sizes) <= LeastOthers || size <= 0 {
		return Trouble{}
	}
	if r := size / middle; c.Trait().Diameter && !FarDiameter(size, middle) || !c.Trait().Diameter && r <= farLength && r >= 1/farLength {
		return Trouble{}
	}
	for _, m := range Mistakes {
		if m.Factor != 2 && m.Factor != 0.5 && !FarDiameter(size*m.Factor, middle) {
			return Problem("data.implausible", "%s %s is %s, far from the %s of the rest of the column; %s (%s) would fit", c.Name(), f.Text, traits.SayMM(size), traits.SayMM(middle),
				traits.SayMM(size*m.Factor), m.Why)
		}
	}
	return Trouble{}
}

// unreadable says why a text gives no size. A bare number without a unit is the column's trouble and was reported there.
func (t *Reader) unreadable(c *Column, f catalog.Field, reading value.Reading) Trouble {
	switch {
	case reading.Kind == value.Number && c.Unit == "" && c.Held != "":
		return Trouble{Severity: finding.Note, Code: "held", Message: c.Held}
	case reading.Kind == value.Number:
		return Problem("data.unit", "%s %s has no unit%s", c.Name(), f.Text, alternatives(reading))
	case reading.Kind == value.Missing:
		return Doubt("data.missing", "%s: %s", c.Name(), reading.Problem.Message)
	case reading.Kind == value.Text:
		return Doubt("data.missing", "%s says %q instead of a size", c.Name(), f.Text)
	case reading.Problem.Code != "":
		return Problem(reading.Problem.Code, "%s: %s%s", c.Name(), reading.Problem.Message, alternatives(reading))
	}
	return Problem("data.unreadable", "%s %q cannot be read as a size", c.Name(), f.Text)
}

func alternatives(reading value.Reading) string {
	if len(reading.Alternatives) == 0 {
		return ""
	}
	var texts []string
	for _, a := range reading.Alternatives {
		texts = append(texts, strings.TrimSpace(a.Text+" "+a.Why))
	}
	return "; perhaps " + strings.Join(texts, ", or ")
}

// scaleOf returns 2 where the value is a radius in a column of diameters, and 1 otherwise.
func (t *Reader) scaleOf(c *Column, reading value.Reading) int64 {
	if !c.Trait().Diameter || reading.Diameter {
		return 1
	}
	if reading.Radius || reading.PerSide || c.Scale == 2 {
		return 2
	}
	return 1
}

// scaled returns a dimension with its nominal size and limits multiplied.
func scaled(d measure.Dim, factor int64) measure.Dim {
	if !d.HasLimits() {
		return measure.Nominal(d.Nominal().MulInt(factor)).WithShape(d.Shape()).WithOrigin(d.Origin())
	}
	n := d.Nominal()
	return measure.WithDeviations(n.MulInt(factor), d.Lower().Sub(n).MulInt(factor), d.Upper().Sub(n).MulInt(factor)).
		WithShape(d.Shape()).WithOrigin(d.Origin())
}

// harmless are the leniencies that change nothing in what a value means; they are told once for a column and make no
// row an assumed one.
var harmless = map[string]bool{
	value.ForgaveDecimalComma: true, value.ForgaveWidth: true, value.ForgaveFractionSign: true, value.ForgaveDiameterSign: true,
	value.ForgaveBothUnits: true, value.ForgaveShiftedUnit: true, value.ForgaveUnitElsewhere: true, value.ForgaveApostrophe: true,
	value.ForgaveRange: true, value.ForgaveRadiusSign: true, value.ForgaveApproximation: true, value.ForgaveNaming: true, value.ForgaveNoise: true,
	value.ForgavePlusMinus: true, value.ForgaveUnitTwice: true,
}

// forgiven returns what was forgiven in reading a value and may have changed its meaning, and notes what cannot have.
func (t *Reader) forgiven(line int, c *Column, reading value.Reading) []string {
	var texts []string
	for _, l := range reading.Leniencies {
		switch {
		case l.Code == value.ForgaveReversed && c.PairsFall():
		case l.Code == value.ForgaveReversed:
			t.Warn(line, c.Col, c.Role, "data.conflict", fmt.Sprintf("%s: %s", c.Name(), l.Message))
			texts = append(texts, fmt.Sprintf("%s: %s", c.Name(), l.Message))
		case !harmless[l.Code]:
			texts = append(texts, fmt.Sprintf("%s: %s", c.Name(), l.Message))
		case l.Code != value.ForgaveUnitElsewhere:
			fromLine, fromCol := t.Region.Grid.Source(line, c.Col)
			t.TellColumns(l.Code, finding.Note, "data.leniency", fromLine, fromCol, func() string {
				return fmt.Sprintf("%s: %s; in %q", c.Name(), l.Message, reading.Text)
			})
		}
	}
	return texts
}

// tolerated gives a size the tolerance that holds for it.
func (t *Reader) tolerated(line int, c *Column, f catalog.Field, dim measure.Dim) (catalog.Field, Trouble) {
	f.Dim = dim
	if dim.HasLimits() {
		return f, Trouble{}
	}
	tolerance, origin, where, found := t.toleranceFor(line, c, dim.Nominal())
	if !found {
		return f, Trouble{}
	}
	limited, err := tolerance.Apply(dim)
	if err != nil {
		t.Warn(line, c.Col, c.Role, "data.tolerance", fmt.Sprintf("the tolerance %q (%s) does not apply to %s %s: %v; it is not used", tolerance.Text, where, c.Name(), f.Text, err))
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("tolerance of %s as for sizes that state none: %q does not apply", c.Name(), tolerance.Text))
		return f, Trouble{}
	}
	widest := widestTolerance
	if c.Trait().Diameter && tolerance.Class == "" {
		widest = widestOfDiameter
	}
	if traits.MM(limited.Width()) > widest {
		t.Warn(line, c.Col, c.Role, "data.implausible", fmt.Sprintf("the tolerance %q (%s) would let %s %s range over %s; it is not used", tolerance.Text, where, c.Name(), f.Text,
			traits.SayMM(traits.MM(limited.Width()))))
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("tolerance of %s as for sizes that state none: %q cannot be meant", c.Name(), tolerance.Text))
		return f, Trouble{}
	}
	if tolerance.Class != "" && !strings.HasPrefix(tolerance.Class, "ISO 2768") {
		origin = measure.Class
	}
	f.Dim = limited.WithOrigin(origin)
	return f, Trouble{}
}

// widestTolerance is the width of limits, in mm, that no part of a joint has, and widestOfDiameter that of a diameter; a
// tolerance beyond it is in another unit. Common practice, from memory: the coarsest class of ISO 2768-1 in use is ±0.5 mm.
const (
	widestTolerance  = 3.0
	widestOfDiameter = 1.0
)

// implausible compares a size with what the joint allows and, where it is beyond that, says what it may have been.
func (t *Reader) implausible(c *Column, dim measure.Dim, reading value.Reading, unit string) Trouble {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	size := traits.MM(dim.Nominal())
	if !known || b.Possible(size) {
		return Trouble{}
	}
	if c.Role == catalog.Bore && t.Kind == catalog.Heads && traits.IsTipName(size) {
		return Trouble{}
	}
	if other := otherUnit(b, size, unit); other != "" && !reading.UnitStated {
		bad := Problem("data.unit", "%s %s in %s would be %s, beyond the %g to %g mm that the joint allows; in %s it would be %s",
			c.Name(), reading.Text, traits.UnitName(unit), traits.SayMM(size), b.Least, b.Most, traits.UnitName(other), traits.SayMM(size/traits.UnitMM[unit]*traits.UnitMM[other]))
		bad.Cause = other + " for " + unit
		return bad
	}
	likely, why := t.likely(c, b, size)
	bad := Problem("data.implausible", "%s %s is %s, beyond the %g to %g mm that the joint allows%s", c.Name(), reading.Text, traits.SayMM(size), b.Least, b.Most, likely)
	bad.Cause = why
	return bad
}

// unusual reports whether a size beyond what the joint allows may be used all the same: its cell names the unit, it is not
// far out, and no usual mistake explains it.
func (t *Reader) unusual(c *Column, dim measure.Dim, reading value.Reading) bool {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	size := traits.MM(dim.Nominal())
	return known && reading.UnitStated && size > b.Least/1.5 && size < b.Most*1.5 && !t.explained(c, b, size)
}

// explained reports whether a usual mistake explains a size that the joint does not allow.
func (t *Reader) explained(c *Column, b traits.Bounds, size float64) bool {
	_, why := t.likely(c, b, size)
	return why != ""
}

// onlyOther returns the unit that a single bare size must be in, since it is impossible in the one of its column or row, and possible in
// this one alone; empty where there is none, where no usual mistake is ruled out, or where the heading, the number format or a person
// states the unit. That of the heading is the number's too only if it is not written as inches are.
func (t *Reader) onlyOther(c *Column, dim measure.Dim, reading value.Reading, unit string, cell sheet.Cell) string {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	size := traits.MM(dim.Nominal())
	inches := t.writtenAsInches(c, reading.Text, unit)
	if !known || b.Possible(size) || reading.UnitStated || c.UnitRuled || traits.IsLengthUnit(c.HeadingUnit) && !inches || t.scaleOf(c, reading) != 1 || dim.HasLimits() {
		return ""
	}
	if cell.Kind == sheet.Number && traits.IsLengthUnit(t.Lex.FormatUnit(cell.Format)) || c.Role == catalog.Bore && t.Kind == catalog.Heads && traits.IsTipName(size) {
		return ""
	}
	other := otherUnit(b, size, unit)
	if other == "" {
		return ""
	}
	if c.ByEach {
		return other
	}
	taken := size / traits.UnitMM[unit] * traits.UnitMM[other]
	if inches { // which explains it better than a slip does
		if other == "in" && b.Common(taken) {
			return other
		}
		return ""
	}
	for _, m := range Mistakes {
		if changesUnit := m.Factor > 20 && m.Factor < 30 || m.Factor > 0.03 && m.Factor < 0.05; changesUnit || m.Factor == 2 && !c.Trait().Diameter {
			continue
		}
		if b.Common(size * m.Factor) {
			return ""
		}
	}
	if middle := t.Middle(c); middle > 0 && len(c.Profile.Sizes) > LeastOthers && c.Trait().Diameter && FarDiameter(taken, middle) {
		return ""
	}
	return other
}

// inInches is a number without its nought, or a fraction: the ways of writing that go with inches.
var inInches = pattern.Lazy(`^[.,]\d+$|^(?:\d+[- ])?\d+/\d+$`)

// writtenAsInches reports whether a bare length among millimetres is written as inches are. Diameters are left aside: everything hangs
// on them, and a bore may be the name of a tip.
func (t *Reader) writtenAsInches(c *Column, text, unit string) bool {
	return unit == "mm" && !c.Trait().Diameter && !c.UnitRuled && inInches().MatchString(text)
}

// readInOther reads a size in the unit that it must be in, and says so.
func (t *Reader) readInOther(line int, c *Column, f catalog.Field, ctx value.Context, unit string) (catalog.Field, Trouble) {
	said := ctx.Unit
	ctx.Unit = unit
	reading := t.Lex.Read(f.Text, ctx)
	if reading.Kind != value.Length || reading.Problem.Code != "" {
		return f, Problem("data.unit", "%s %s cannot be in %s", c.Name(), f.Text, traits.UnitName(said))
	}
	if c.ByEach { // which the column's finding says
		f.Assumptions = append(f.Assumptions, c.UnitWhy)
		f.Assumptions = append(f.Assumptions, t.forgiven(line, c, reading)...)
		return t.tolerated(line, c, f, reading.Dim)
	}
	taken := fmt.Sprintf("%s %s taken as %s: in %s it is impossible", c.Name(), f.Text, traits.UnitName(unit), traits.UnitName(said))
	t.WarnBy(unit+" for "+said, line, c.Col, c.Role, "data.unit", fmt.Sprintf("%s, and in %s it is %s", taken, traits.UnitName(unit), traits.SayMM(traits.MM(reading.Dim.Nominal()))))
	f.Assumptions = append(f.Assumptions, taken)
	f.Assumptions = append(f.Assumptions, t.forgiven(line, c, reading)...)
	return t.tolerated(line, c, f, reading.Dim)
}

func (t *Reader) boundsAllow(c *Column, dim measure.Dim) bool {
	b, known := traits.BoundsOf(t.Kind, c.Role)
	return !known || b.Possible(traits.MM(dim.Nominal()))
}

// otherUnit returns the one other unit, of mm and inches, in which a size is possible.
func otherUnit(b traits.Bounds, size float64, unit string) string {
	for _, other := range []string{"mm", "in"} {
		if other != unit && traits.UnitMM[unit] > 0 && b.Common(size/traits.UnitMM[unit]*traits.UnitMM[other]) {
			return other
		}
	}
	return ""
}

// Mistakes are the ways in which sizes are commonly wrong.
var Mistakes = []struct {
	Factor float64
	Why    string
}{
	{2, "a radius in a column of diameters"},
	{0.1, "a decimal point one place too far right"},
	{10, "a decimal point one place too far left"},
	{25.4, "inches among millimetres"},
	{1 / 25.4, "millimetres among inches"},
	{0.01, "a missing decimal point"},
	{0.001, "a missing decimal point"},
	{0.5, "a value that was doubled"},
}

// likely says what an impossible size may have been: of the usual mistakes those that bring it into the common range,
// the one nearest to the rest of the column first.
func (t *Reader) likely(c *Column, b traits.Bounds, size float64) (text, why string) {
	nearest := 0.0
	for _, m := range Mistakes {
		if m.Factor == 2 && !c.Trait().Diameter {
			continue
		}
		corrected := size * m.Factor
		if !b.Common(corrected) {
			continue
		}
		distance := math.Abs(corrected - t.Middle(c))
		if text == "" || distance < nearest {
			text, why, nearest = fmt.Sprintf("; %s (%s) would fit", traits.SayMM(corrected), m.Why), m.Why, distance
		}
	}
	return text, why
}

// readAngle reads an angle; a bare number is in degrees, since nobody gives the angle of a countersink in radians.
func (t *Reader) readAngle(c *Column, f catalog.Field) (catalog.Field, Trouble) {
	reading := t.Lex.Read(f.Text, value.Context{Want: value.WantAngle, Unit: "deg", Mark: c.Mark})
	switch reading.Kind {
	case value.Angle:
	case value.Empty, value.NotApplicable, value.Text:
		return f, Trouble{}
	default:
		return f, Problem("data.unreadable", "%s %q cannot be read as an angle", c.Name(), f.Text)
	}
	if reading.Problem.Code != "" {
		return f, Problem(reading.Problem.Code, "%s: %s", c.Name(), reading.Problem.Message)
	}
	if slip := t.findMisread(f.Text); slip.why != "" {
		return f, Problem("data.unreadable", "%s %q has a letter among its digits: %s?", c.Name(), f.Text, slip.why)
	}
	angle := reading.Angle
	if reading.HalfAngle || c.Hints.HalfAngle && !reading.Included {
		angle = angle.Add(angle)
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %s is from the axis: included angle %g degrees", c.Name(), f.Text, angle.Degrees()))
	}
	if angle.Degrees() < 10 || angle.Degrees() >= 180 {
		return f, Problem("data.implausible", "%s %s is no included angle of a countersink", c.Name(), f.Text)
	}
	f.Angle = angle
	return f, Trouble{}
}

// readNumber reads a count or a price. Trouble with it holds no row.
func (t *Reader) readNumber(line int, c *Column, f catalog.Field) (catalog.Field, Trouble) {
	want := value.WantCount
	if c.Trait().Want == traits.Price {
		want = value.WantPrice
	}
	ctx := value.Context{Want: want, Unit: c.HeadingUnit, Mark: c.Mark, Signed: c.Role == catalog.Stock}
	reading := t.Lex.Read(f.Text, ctx)
	if want == value.WantPrice && reading.Kind != value.Number && !reading.Negative {
		if amount, beside := t.Lex.PriceBeside(f.Text); beside {
			if plain := t.Lex.Read(amount, ctx); plain.Kind == value.Number {
				plain.Text, plain.Rest = f.Text, reading.Rest
				reading = plain
			}
		}
	}
	if slip := t.findMisread(f.Text); slip.why != "" && reading.Kind == value.Number {
		return f, Problem("data.unreadable", "%s %q has a letter among its digits: %s?", c.Name(), f.Text, slip.why)
	}
	if t.isLength(line, c, reading) {
		return f, Doubt("data.implausible", "%s %q is a length; it is left out", c.Name(), t.Region.Grid.Filled(line, c.Col))
	}
	if reading.Kind == value.Number && reading.Problem.Code != "data.unreadable" {
		f.Number, f.IsNumber = reading.Number, true
		if reading.Qualifier == value.Approximate || strings.ContainsAny(f.Text, "?？~≈") {
			f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %q taken as the number itself", c.Name(), f.Text))
		}
		if want == value.WantPrice && secondAmount().MatchString(reading.Rest) {
			f.Number, f.IsNumber = 0, false
			return f, Doubt("data.unreadable", "%s %q has two prices, and nothing says which is paid; it is left out", c.Name(), f.Text)
		}
		if want == value.WantPrice && strings.ContainsAny(f.Text, "%％") {
			f.Number, f.IsNumber = 0, false
			return f, Doubt("data.unreadable", "%s %q speaks of a share of the price, and it is not said whether that is taken off already; it is left out", c.Name(), f.Text)
		}
		if want == value.WantPrice {
			per, _ := t.PricePer(line, c, f.Text)
			if per == 0 {
				f.Number, f.IsNumber = 0, false
				return f, Doubt("data.prices", "%s %s is for as many pieces as the column beside it says, which is no number: %q; it is left out", c.Name(), f.Text, t.piecesText(line, c))
			}
			if _, ofOne := traits.OddlyDivided(f.Number, per); ofOne && !c.PerSure {
				one := f.Number / per
				f.Number, f.IsNumber = 0, false
				return f, Doubt("data.implausible", "%s %s is for %g pieces, which makes %.4g for one, less than any part costs; it is left out", c.Name(), f.Text, per, one)
			}
			f.Number /= per
		}
	}
	if c.Role == catalog.Stock {
		f = t.readStock(f, reading)
		if f.IsNumber && f.Number != 0 {
			var doubt Trouble
			if f, doubt = t.readCounted(line, c, f); doubt.Any() {
				return f, doubt
			}
		}
		if !f.IsNumber && reading.Kind == value.Text && t.isStrayWord(c, f.Text) {
			return f, Doubt("data.unreadable", "%s %q is no number, and says nothing of a stock either; it is left out", c.Name(), f.Text)
		}
	}
	if want == value.WantCount && reading.Kind == value.Unreadable && startsWithDigit(f.Text) && !reading.Negative {
		return f, Doubt(reading.Problem.Code, "%s %s: %s; it is left out", c.Name(), f.Text, reading.Problem.Message)
	}
	if reading.Negative {
		return f, Doubt("data.implausible", "%s %s: %s; it is left out", c.Name(), f.Text, reading.Problem.Message)
	}
	if want == value.WantPrice && !f.IsNumber && strings.ContainsAny(f.Text, "0123456789") {
		return f, Doubt("data.unreadable", "%s %q cannot be read as a price; it is left out", c.Name(), f.Text)
	}
	return f, Trouble{}
}

// isLength reports whether a count or a price has a unit of length behind it, or in its number format: that of a size in the wrong place.
func (t *Reader) isLength(line int, c *Column, reading value.Reading) bool {
	unit := ""
	if reading.UnitStated {
		unit = reading.Unit
	} else if cell := t.Region.Grid.Cell(t.Region.Grid.Source(line, c.Col)); cell.Kind == sheet.Number && cell.Format != "" {
		unit = t.Lex.FormatUnit(cell.Format)
	}
	return unit == "mm" || unit == "cm" || unit == "in" && (c.Role != catalog.Stock || !strings.HasSuffix(reading.Text, "in")) // "12 in" are in stock
}

// secondAmount is an amount of money behind the stroke after another: 9.20/8.80.
var secondAmount = pattern.Lazy(`^ ?/ ?\D{0,3}\d+[.,]\d{1,2}$`)

// readStock reads words that say that nothing is left as no pieces, and takes a count for no stock of which words say that it is lacking.
func (t *Reader) readStock(f catalog.Field, reading value.Reading) catalog.Field {
	_, lacking := t.Lex.Ask("lacking", reading.Rest, t.Lex.Words.SaysLacking)
	switch {
	case t.Lex.NoneLeft(f.Text):
		f.Number, f.IsNumber = 0, true
	case f.IsNumber && reading.Rest != "" && lacking:
		f.Number, f.IsNumber = 0, false
	}
	return f
}

// readCounted puts a stock that is counted in packs, or by its heading in dozens, on pieces. One of what is not known is left out.
func (t *Reader) readCounted(line int, c *Column, f catalog.Field) (catalog.Field, Trouble) {
	inPieces := t.Lex.Words.InPieces(f.Text)
	before, behind := t.Lex.AroundCount(inPieces)
	switch {
	case t.Lex.Words.CountsPacks(behind):
		pack := t.piecesInPack(line)
		if pack == 0 {
			f.Number, f.IsNumber = 0, false
			return f, Doubt("data.unit", "%s %q counts packs, and how many pieces are in one is not said; it is left out", c.Name(), f.Text)
		}
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %q taken as packs of %g pieces each", c.Name(), f.Text, pack))
		f.Number *= pack
	case t.Lex.Words.CountsSets(behind):
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %q taken as so many pieces of each club of the set", c.Name(), f.Text))
	case !t.Lex.CountsPlainly(before) || !t.Lex.CountsPlainly(behind):
		f.Number, f.IsNumber = 0, false
		return f, Doubt("data.unit", "%s %q: what is counted is not known; it is left out", c.Name(), f.Text)
	case before == "" && behind == "" && inPieces == f.Text && t.Lex.InDozens(c.Text):
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %q counts dozens, as its heading says", c.Name(), f.Text))
		f.Number *= lexicon.Dozen
	}
	return f, Trouble{}
}

// piecesInPack is what the row says of how many pieces are in a pack, zero where it does not.
func (t *Reader) piecesInPack(line int) float64 {
	c := t.ByRole[catalog.Pack]
	if c == nil {
		return 0
	}
	text := t.Region.Grid.Filled(line, c.Col)
	if r := t.Lex.Read(text, value.Context{Want: value.WantCount, Mark: c.Mark}); r.Kind == value.Number && r.Rest == "" && r.Problem.Code == "" {
		return r.Number
	}
	count, _ := t.Lex.PackIn(text)
	return count
}

// isStrayWord reports whether a text among counts says nothing of a stock, and stands there once: "black".
func (t *Reader) isStrayWord(c *Column, text string) bool {
	if strings.ContainsAny(text, "0123456789") || !c.Profile.MostlyNumbers() || c.Profile.Has(text) > 1 {
		return false
	}
	_, says := t.Lex.Ask("of stock", text, t.Lex.Words.SaysOfStock)
	return !says
}

// PricePer returns for how many pieces a price is: as its cell says, else as its column does. It may be for a set of clubs or a pack, of
// as many as are returned, 1 where that is not known. A column beside may say for how many pieces each price is; per is zero where it says
// what is no number.
func (t *Reader) PricePer(line int, c *Column, text string) (per float64, lot lexicon.Lot) {
	if beside := c.piecesBeside; beside != nil {
		return t.piecesIn(t.piecesText(line, c)), lexicon.OfPieces
	}
	if lexicon.HasWords(text) || countsBehind(text) {
		if per, lot := t.Lex.PricePerOf(text); lot != lexicon.LotUnsaid {
			return per, lot
		}
	} else if (c.Per > 1 || c.Lot.Bundles()) && strings.ContainsFunc(text, unicode.IsLetter) { // "1,35 cad." among prices for 100
		if per, lot := t.Lex.PricePerOf(text); lot == lexicon.OfPieces {
			return per, lot
		}
	}
	if c.SoldBy != nil {
		sold := t.Region.Grid.Filled(line, c.SoldBy.Col)
		if c.SoldBy.Packs && sold != "" {
			return 1, lexicon.OfPack
		}
		if lot := t.Lex.Sells(sold); lot != lexicon.LotUnsaid {
			return 1, lot
		}
	}
	return c.Per, c.Lot
}

// countsBehind reports whether digits stand behind letters that stand behind digits: 3,90 les 10.
func countsBehind(text string) bool {
	stage := 0
	for _, r := range text {
		switch digit := unicode.IsDigit(r); {
		case digit && stage == 2:
			return true
		case digit:
			stage = 1
		case stage == 1 && unicode.IsLetter(r):
			stage = 2
		}
	}
	return false
}

// piecesText is what the column beside prices says of how many pieces one of them is for.
func (t *Reader) piecesText(line int, c *Column) string {
	g := t.Region.Grid
	if cell := g.Cell(g.Source(line, c.piecesBeside.Col)); withoutResult(cell) {
		return "=" + cell.Formula
	}
	return g.Filled(line, c.piecesBeside.Col)
}

// piecesIn returns for how many pieces a cell of a column of such numbers says that the price is: one where it says nothing, zero where it
// says what is no such number.
func (t *Reader) piecesIn(text string) float64 {
	if text == "" || text == "0" {
		return 1
	}
	return t.Lex.PiecesNamed(text)
}

// Middle returns the median size of a column in mm, for comparison.
func (t *Reader) Middle(c *Column) float64 {
	if m, known := t.middles[c]; known {
		return m
	}
	b, _ := traits.BoundsOf(t.Kind, c.Role)
	sizes := slices.DeleteFunc(t.possibleSizes(c, b), func(mm float64) bool { return !b.Possible(mm) })
	m := 0.0
	if len(sizes) > 0 {
		m = traits.Middle(sizes)
	}
	if t.middles == nil {
		t.middles = map[*Column]float64{}
	}
	t.middles[c] = m
	return m
}

// possibleSizes returns the sizes of a column in mm: bare numbers in its unit or the one that stands beside them, and where both are possible
// and nothing says which, in the first.
func (t *Reader) possibleSizes(c *Column, b traits.Bounds) []float64 {
	var sizes []float64
	if c.UnitsBeside != nil && !c.UnitRuled {
		for _, one := range t.SizesBeside(c.Column) {
			sizes = append(sizes, one*c.Factor())
		}
		if len(sizes) > 0 {
			return sizes
		}
	}
	units := []string{c.Unit}
	if c.Unit == "" {
		units = traits.LengthUnits[:2] // each cell's stands beside it
	}
	for _, s := range c.Profile.Sizes {
		for _, unit := range units {
			if x := s.MM(unit) * c.Factor(); b.Possible(x) {
				sizes = append(sizes, x)
				break
			}
		}
	}
	return sizes
}
