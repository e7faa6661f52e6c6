package catalog

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/sample"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// cellReader understands the cells of a table.
type cellReader struct {
	*unitTable
	columns []*cellColumn
	byRole  map[Role]*cellColumn
	// pairs number what stands beside each other: see pair.
	pairs map[memoKey]int32
	// readings are what values are cut from, and spare is what the last cell means that was not kept.
	readings []Value
	spare    meaning
	// section and sectionUnit are what the last title within the body says. sectionNumber is the place of its unit
	// among the sectionUnits so far, counted from 1.
	section, sectionUnit string
	sectionNumber        int32
	sectionUnits         []string
	middles              map[*cellColumn]float64
}

// cellColumn is a column whose cells are being read.
type cellColumn struct {
	*unitColumn
	// col is the column that is read: where it stands for several, that of the club that is; absent is set where that has none.
	col    int
	absent bool
	// ditto is where the column said so last.
	ditto ditto
	// memo are the cells that were understood so far. alone is whether no other column has the role, and company are the columns that have
	// a say in what a cell means; both are found when they are needed.
	memo    memo
	alone   answer
	company []*cellColumn
	// base is the number of its company but for them, and where is where it was asked for last.
	base  int32
	where where
	// partner is that of the column.
	partner *cellColumn
}

// answer is the answer to a question that is asked once.
type answer uint8

const (
	unasked answer = iota
	yes
	no
)

// newCellReader makes the cells of a table ready to be read.
func newCellReader(t *unitTable) *cellReader {
	r := &cellReader{unitTable: t, byRole: map[Role]*cellColumn{}}
	wrapped := map[*unitColumn]*cellColumn{}
	for _, c := range t.columns {
		wrapped[c] = &cellColumn{unitColumn: c, col: c.col}
		r.columns = append(r.columns, wrapped[c])
	}
	for _, c := range r.columns {
		c.partner = wrapped[c.unitColumn.partner]
	}
	for role, c := range t.byRole {
		r.byRole[role] = wrapped[c]
	}
	return r
}

// trouble is why a value is not used. Code is empty where there is no trouble.
type trouble struct {
	severity finding.Severity
	code     string
	message  string
}

func (p trouble) any() bool { return p.code != "" }

func problem(code, format string, args ...any) trouble {
	return trouble{finding.Error, code, fmt.Sprintf(format, args...)}
}

func doubt(code, format string, args ...any) trouble {
	return trouble{finding.Warning, code, fmt.Sprintf(format, args...)}
}

// readField reads one cell as what its column holds. The field has no dimension, angle or number where there is
// trouble or the cell is empty.
func (t *cellReader) readField(line int, c *cellColumn) (Field, trouble) {
	g := t.region.grid
	fromLine, fromCol := t.valueCell(line, c)
	cell := g.cell(fromLine, fromCol)
	f := Field{Text: g.at(fromLine, fromCol), Cell: g.ref(fromLine, fromCol).String()}
	if merged, _ := g.source(line, c.col); merged != fromLine {
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %q repeats the value above it, in %s", c.name(), g.filled(line, c.col), f.Cell))
	}
	if answer, answered := t.rules.row(line).Values[c.role]; answered {
		return t.readAnswer(c, f, answer)
	}
	if c.trait().want == wantLength && saysLeft(f.Text) {
		return t.readLeft(line, c, f)
	}
	if dim, why := t.fromDate(line, c, cell); why != "" {
		t.warn(line, c.col, c.role, "data.damaged", why)
		f.Assumptions = append(f.Assumptions, why)
		return t.tolerated(line, c, f, dim)
	}
	if bad := damaged(cell, c); bad.any() {
		return f, bad
	}
	if f.Text == "" {
		return f, trouble{}
	}
	if cell.Formula != "" {
		t.tell(toldKey{"formula", c.col}, finding.Note, "data.formula", fromLine, fromCol, func() string {
			return fmt.Sprintf("%s holds the formula =%s; the result stored with it is used", c.name(), cell.Formula)
		})
	}
	if strings.HasPrefix(f.Text, "=") && c.trait().want == wantText {
		t.tell(toldKey{"text formula", c.col}, finding.Note, "data.formula", fromLine, fromCol, func() string {
			return fmt.Sprintf("%s holds the text %q, which begins like a formula and is kept as text", c.name(), f.Text)
		})
	}
	switch c.trait().want {
	case wantLength:
		return t.readSize(line, c, f, cell)
	case wantAngle:
		return t.readAngle(c, f)
	case wantCount, wantPrice:
		return t.readNumber(c, f)
	}
	return f, trouble{}
}

// valueCell returns where the value of a cell stands: in the merged range that covers it, or, where it says ditto, above
// it.
func (t *cellReader) valueCell(line int, c *cellColumn) (int, int) {
	g := t.region.grid
	fromLine, fromCol := g.source(line, c.col)
	if !g.is(asDitto, t.lex, g.id(fromLine, fromCol)) {
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

// ditto is where a column says ditto, and where the value stands that it refers to.
type ditto struct{ line, col, fromLine, fromCol int }

// aboveDitto returns where the value stands that a ditto refers to. Down a column of dittos, only the lines since the last one are
// looked at.
func (t *cellReader) aboveDitto(fromLine, fromCol int, last ditto) (int, int) {
	g := t.region.grid
	for above := fromLine; above >= t.region.body; above-- {
		if above == last.line && fromCol == last.col {
			if g.is(asDitto, t.lex, g.id(last.fromLine, last.fromCol)) {
				break // there is none
			}
			return last.fromLine, last.fromCol
		}
		id := g.id(g.source(above, fromCol))
		if g.is(asDitto, t.lex, id) {
			continue
		}
		if g.text(id) != "" {
			return g.source(above, fromCol)
		}
	}
	return fromLine, fromCol
}

// readLeft reads the size to the left of a cell that says so, where both are in one unit.
func (t *cellReader) readLeft(line int, c *cellColumn, f Field) (Field, trouble) {
	at := slices.Index(t.columns, c)
	if at < 1 || traits[t.columns[at-1].role].want != wantLength || t.columns[at-1].unit != c.unit || t.columns[at-1].scale != c.scale {
		return f, problem("data.unreadable", "%s says %q, and there is no such size to its left", c.name(), f.Text)
	}
	text := f.Text
	f, bad := t.readField(line, t.columns[at-1])
	if bad.any() || !f.Dim.Given() {
		return f, problem("data.missing", "%s says %q, and the size to its left cannot be used", c.name(), text)
	}
	f.Assumptions = append(slices.Clip(f.Assumptions), fmt.Sprintf("%s %q repeats the value to its left, in %s", c.name(), text, f.Cell))
	return f, trouble{}
}

// errorValues are the error values of spreadsheet programs (ISO/IEC 29500-1, 18.17.3), as they stand in text files.
var errorValues = map[string]bool{"#NULL!": true, "#DIV/0!": true, "#VALUE!": true, "#REF!": true, "#NAME?": true, "#NUM!": true, "#N/A": true}

// formulaText is a formula that came along as text and has something to work out.
var formulaText = pattern.Lazy(`^=[^"]*[\d)] *[-+*/^] *[\d(.$A-Z]`)

// damaged reports what a spreadsheet program has done to a cell: an error value, a formula without a stored result, a
// date where a fraction was.
func damaged(cell sheet.Cell, c *cellColumn) trouble {
	want := c.trait().want
	switch {
	case cell.Kind == sheet.Text && want == wantLength && strings.HasPrefix(cell.Raw, "=") && formulaText().MatchString(cell.Raw):
		return problem("data.formula", "%s holds the text of a formula, %s, that was not worked out; give its result", c.name(), cell.Raw)
	case cell.Kind == sheet.Error || cell.Kind == sheet.Text && errorValues[cell.Raw] && want != wantText:
		return problem("data.damaged", "%s holds the error %s instead of a value", c.name(), cell.Shown)
	case cell.Kind == sheet.Blank && cell.Formula != "":
		return problem("data.damaged", "%s holds the formula =%s without a stored result; open the file in a spreadsheet program and save it again",
			c.name(), cell.Formula)
	case cell.Kind == sheet.Date && want == wantLength:
		if fraction, ok := value.DatesToFraction(cell); ok {
			return problem("data.damaged", "%s holds a date; it was probably the fraction %s: %s", c.name(), fraction.Text, fraction.Message)
		}
		return problem("data.damaged", "%s holds the date %s instead of a size", c.name(), cell.Shown)
	case cell.Kind == sheet.Date && want == wantCode:
		return problem("data.damaged", "%s holds the date %s, which was probably a part number such as 1-2", c.name(), cell.Shown)
	case cell.Kind == sheet.Bool && want == wantLength:
		return problem("data.damaged", "%s holds %s instead of a size", c.name(), cell.Shown)
	}
	return trouble{}
}

// fromDate returns the one fraction of an inch, among sizes in inches, that the joint allows and that a spreadsheet program
// makes this date of, and says so; nothing where there are several or none.
func (t *cellReader) fromDate(line int, c *cellColumn, cell sheet.Cell) (measure.Dim, string) {
	if cell.Kind != sheet.Date || c.trait().want != wantLength || c.held != "" || c.scale != 1 {
		return measure.Dim{}, ""
	}
	fraction, found := value.DatesToFraction(cell)
	b, known := boundsOf(t.kind, c.role)
	if unit, _ := t.unitOf(line, c, cell); !found || !known || unit != "in" {
		return measure.Dim{}, ""
	}
	var dims []measure.Dim
	text := ""
	for _, one := range append([]string{fraction.Text}, fraction.Others...) {
		if dim, err := measure.ParseDim(one + " in"); err == nil && b.possible(mm(dim.Nominal())) {
			dims = append(dims, dim)
			text = one
		}
	}
	if len(dims) != 1 {
		return measure.Dim{}, ""
	}
	return dims[0], fmt.Sprintf("%s holds the date %s, taken as %s in, which a spreadsheet program turned into it", c.name(), cell.Shown, text)
}

// readAnswer reads the value that the mapping file gives in place of the cell's.
func (t *cellReader) readAnswer(c *cellColumn, f Field, answer string) (Field, trouble) {
	f.Text = answer
	f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s is %s by the mapping file", c.role, answer))
	switch c.trait().want {
	case wantLength:
		dim, err := measure.ParseDim(answer)
		if readings, listed := measure.ParseReadings(answer); err != nil && listed == nil && !sample.FarApart(readings) {
			return t.ofReadings(c, f, Field{}, readings, []finding.Place{t.placeOf(f)})
		}
		if err != nil {
			return f, problem("map.value", "the mapping file gives %q for %s: %v", answer, c.role, err)
		}
		f.Dim = dim
		return f, trouble{}
	case wantAngle:
		return t.readAngle(c, f)
	case wantCount, wantPrice:
		return t.readNumber(c, f)
	}
	return f, trouble{}
}

// unitOf returns the unit of a bare number in a cell: its number format's, its row's, its section's, its column's.
func (t *cellReader) unitOf(line int, c *cellColumn, cell sheet.Cell) (unit, why string) {
	if cell.Kind == sheet.Number {
		if unit := t.lex.formatUnit(cell.Format); isLengthUnit(unit) {
			return unit, ""
		}
	}
	if t.unitsBeside(c) != nil {
		if hit, ok := t.lex.ask("unit", t.textOf(line, UnitRole), t.lex.words.Unit); ok && isLengthUnit(hit.Value) {
			return hit.Value, ""
		}
	}
	if t.sectionUnit != "" && !isLengthUnit(c.headingUnit) {
		return t.sectionUnit, fmt.Sprintf("unit of %s taken as %s: the title above says so", c.name(), t.sectionUnit)
	}
	if c.unitAssumed {
		return c.unit, c.unitWhy
	}
	return c.unit, ""
}

// unitsBeside returns the column that gives the units of a column's bare numbers, nil where none does.
func (t *cellReader) unitsBeside(c *cellColumn) *cellColumn {
	if isLengthUnit(c.headingUnit) {
		return nil
	}
	return t.byRole[UnitRole]
}

// readSize reads a length or diameter.
func (t *cellReader) readSize(line int, c *cellColumn, f Field, cell sheet.Cell) (Field, trouble) {
	unit, why := t.unitOf(line, c, cell)
	ctx := value.Context{Want: c.trait().wanted(), Unit: unit, Mark: c.mark, Language: t.language, Limits: c.pairsAreLimits(), Stored: cell.Kind == sheet.Number}
	reading := t.lex.read(f.Text, ctx)
	if other, why := t.settleComma(c, f.Text, ctx, reading); why != "" {
		reading = other
		f.Assumptions = append(f.Assumptions, why)
	}
	if c.role == TipTaken {
		if reading.Kind == value.Length && t.boundsAllow(c, reading.Dim) {
			f.Dim = reading.Dim
		}
		return f, trouble{}
	}
	switch reading.Kind {
	case value.Empty, value.NotApplicable:
		return f, trouble{}
	case value.List:
		if c.role == Bore && (t.kind == Heads || t.bores == BoresAreTips) && !c.hints.Measured && allTips(reading.List) {
			return f, trouble{}
		}
		if readings := t.readingsIn(c, reading); readings != nil {
			return t.readReadings(line, c, f, reading, readings, unit, why)
		}
		return f, problem("data.conflict", "%s names several values in one cell: %s", c.name(), f.Text)
	case value.Length:
	default:
		return f, t.unreadable(c, f, reading)
	}
	if c.held != "" && !reading.UnitStated {
		return f, trouble{finding.Note, "held", c.held}
	}
	if reading.Problem.Code != "" {
		return f, problem(reading.Problem.Code, "%s: %s%s", c.name(), reading.Problem.Message, alternatives(reading))
	}
	dim := reading.Dim
	if scale := t.scaleOf(c, reading); scale != 1 {
		dim = scaled(dim, scale)
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %s is a radius: diameter %s", c.name(), f.Text, sayMM(mm(dim.Nominal()))))
	}
	switch reading.Qualifier {
	case value.Approximate, value.Reference:
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %q taken as the size itself", c.name(), f.Text))
	case value.AtMost, value.AtLeast:
		return f, problem("data.missing", "%s gives only one limit: %s", c.name(), f.Text)
	}
	if bad := t.implausible(c, dim, reading, unit); bad.any() && !t.unusual(c, dim, reading) {
		return f, bad
	} else if bad.any() {
		t.warn(line, c.col, c.role, bad.code, bad.message+"; the cell names its unit, and it is used as it stands")
		return t.tolerated(line, c, f, dim)
	}
	if why != "" && !reading.UnitStated {
		f.Assumptions = append(f.Assumptions, why)
	}
	f.Assumptions = append(f.Assumptions, t.forgiven(line, c, reading)...)
	if bad := t.outlying(line, c, f, dim); bad.any() {
		return f, bad
	}
	return t.tolerated(line, c, f, dim)
}

// ambiguousComma is a number whose comma may be a decimal comma or part thousands.
var ambiguousComma = pattern.Lazy(`^\D*\d{1,3},\d{3}(\D|$)`)

// settleComma reads a number whose comma may mean either once more, where the column's decimal mark makes it impossible, and
// takes the other meaning if only that is possible. It says why, empty where there is nothing to settle.
func (t *cellReader) settleComma(c *cellColumn, text string, ctx value.Context, reading value.Reading) (value.Reading, string) {
	b, known := boundsOf(t.kind, c.role)
	if !known || ctx.Unit == "" || c.scale != 1 || !strings.Contains(text, ",") || !ambiguousComma().MatchString(text) || reading.Kind == value.Length && t.boundsAllow(c, reading.Dim) {
		return reading, ""
	}
	least, errLeast := measure.FromMillimetres(b.least)
	most, errMost := measure.FromMillimetres(b.most)
	if errLeast != nil || errMost != nil {
		return reading, ""
	}
	ctx.Mark, ctx.Least, ctx.Most = value.MarkUnknown, least, most
	other := t.lex.read(text, ctx)
	if other.Kind != value.Length || other.Problem.Code != "" {
		return reading, ""
	}
	return other, fmt.Sprintf("%s %s read as %s: the comma can only mean that", c.name(), text, sayMM(mm(other.Dim.Nominal())))
}

// Outliers: a size is compared with the column where there are at least leastSample others. A diameter that is off by
// more than diameterSpread, or a length by more than the factor lengthSpread, stands out.
const (
	leastSample    = 6
	diameterSpread = 0.3
	lengthSpread   = 4.0
)

// outlying compares a possible size with the rest of its column. One that a usual mistake would bring back among the
// others is trouble; another one only stands out, and is used.
func (t *cellReader) outlying(line int, c *cellColumn, f Field, dim measure.Dim) trouble {
	middle := t.middle(c)
	size := mm(dim.Nominal())
	if middle == 0 || len(c.profile.sizes) < leastSample+1 || size <= 0 {
		return trouble{}
	}
	r := size / middle
	if c.trait().diameter && math.Abs(r-1) <= diameterSpread || !c.trait().diameter && r <= lengthSpread && r >= 1/lengthSpread {
		return trouble{}
	}
	for _, m := range mistakes {
		if m.factor != 2 && m.factor != 0.5 && math.Abs(size*m.factor/middle-1) <= diameterSpread {
			return problem("data.implausible", "%s %s is %s, far from the %s of the rest of the column; %s (%s) would fit", c.name(), f.Text, sayMM(size), sayMM(middle),
				sayMM(size*m.factor), m.why)
		}
	}
	if c.trait().diameter {
		t.warn(line, c.col, c.role, "data.implausible", fmt.Sprintf("%s %s is %s, far from the %s of the rest of the column; it is used as it stands", c.name(), f.Text, sayMM(size), sayMM(middle)))
	}
	return trouble{}
}

// unreadable says why a text gives no size. A bare number without a unit is the column's trouble and was reported there.
func (t *cellReader) unreadable(c *cellColumn, f Field, reading value.Reading) trouble {
	switch {
	case reading.Kind == value.Number && c.unit == "" && c.held != "":
		return trouble{finding.Note, "held", c.held}
	case reading.Kind == value.Number:
		return problem("data.unit", "%s %s has no unit%s", c.name(), f.Text, alternatives(reading))
	case reading.Kind == value.Missing:
		return doubt("data.missing", "%s: %s", c.name(), reading.Problem.Message)
	case reading.Kind == value.Text:
		return doubt("data.missing", "%s says %q instead of a size", c.name(), f.Text)
	case reading.Problem.Code != "":
		return problem(damagedCode(reading), "%s: %s%s", c.name(), reading.Problem.Message, alternatives(reading))
	}
	return problem("data.unreadable", "%s %q cannot be read as a size", c.name(), f.Text)
}

// damagedCode is the code of a value that cannot be read: that of damage, as in a workbook, where a text file holds what
// a spreadsheet program made of the value.
func damagedCode(reading value.Reading) string {
	if reading.Kind == value.Unreadable && strings.Contains(reading.Problem.Message, "spreadsheet program") {
		return "data.damaged"
	}
	return reading.Problem.Code
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
func (t *cellReader) scaleOf(c *cellColumn, reading value.Reading) int64 {
	if !c.trait().diameter || reading.Diameter {
		return 1
	}
	if reading.Radius || reading.PerSide || c.scale == 2 {
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
	value.ForgavePlusMinus: true,
}

// forgiven returns what was forgiven in reading a value and may have changed its meaning, and notes what cannot have.
func (t *cellReader) forgiven(line int, c *cellColumn, reading value.Reading) []string {
	var texts []string
	for _, l := range reading.Leniencies {
		switch {
		case !harmless[l.Code]:
			texts = append(texts, fmt.Sprintf("%s: %s", c.name(), l.Message))
		case l.Code != value.ForgaveUnitElsewhere:
			fromLine, fromCol := t.region.grid.source(line, c.col)
			t.tell(toldKey{l.Code, c.col}, finding.Note, "data.leniency", fromLine, fromCol, func() string {
				return fmt.Sprintf("%s: %s; in %q", c.name(), l.Message, reading.Text)
			})
		}
	}
	return texts
}

// tolerated gives a size the tolerance that holds for it.
func (t *cellReader) tolerated(line int, c *cellColumn, f Field, dim measure.Dim) (Field, trouble) {
	f.Dim = dim
	if dim.HasLimits() {
		return f, trouble{}
	}
	tolerance, origin, where, found := t.toleranceFor(line, c)
	if !found {
		return f, trouble{}
	}
	limited, err := tolerance.Apply(dim)
	if err != nil {
		t.warn(line, c.col, c.role, "data.tolerance", fmt.Sprintf("the tolerance %q (%s) does not apply to %s %s: %v; it is not used", tolerance.Text, where, c.name(), f.Text, err))
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("tolerance of %s as for sizes that state none: %q does not apply", c.name(), tolerance.Text))
		return f, trouble{}
	}
	widest := widestTolerance
	if c.trait().diameter && tolerance.Class == "" {
		widest = widestOfDiameter
	}
	if mm(limited.Width()) > widest {
		t.warn(line, c.col, c.role, "data.implausible", fmt.Sprintf("the tolerance %q (%s) would let %s %s range over %s; it is not used", tolerance.Text, where, c.name(), f.Text,
			sayMM(mm(limited.Width()))))
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("tolerance of %s as for sizes that state none: %q cannot be meant", c.name(), tolerance.Text))
		return f, trouble{}
	}
	if tolerance.Class != "" && !strings.HasPrefix(tolerance.Class, "ISO 2768") {
		origin = measure.Class
	}
	f.Dim = limited.WithOrigin(origin)
	return f, trouble{}
}

// widestTolerance is the width of limits, in mm, that no part of a joint has, and widestOfDiameter that of a diameter; a
// tolerance beyond it is in another unit. Common practice, from memory: the coarsest class of ISO 2768-1 in use is ±0.5 mm.
const (
	widestTolerance  = 3.0
	widestOfDiameter = 1.0
)

// implausible compares a size with what the joint allows and, where it is beyond that, says what it may have been.
func (t *cellReader) implausible(c *cellColumn, dim measure.Dim, reading value.Reading, unit string) trouble {
	b, known := boundsOf(t.kind, c.role)
	size := mm(dim.Nominal())
	if !known || b.possible(size) {
		return trouble{}
	}
	if c.role == Bore && t.kind == Heads && isTipName(size) {
		return trouble{}
	}
	if other := otherUnit(b, size, unit); other != "" && !reading.UnitStated {
		return problem("data.unit", "%s %s in %s would be %s, beyond the %g to %g mm that the joint allows; in %s it would be %s",
			c.name(), reading.Text, unitName(unit), sayMM(size), b.least, b.most, unitName(other), sayMM(size/unitMM[unit]*unitMM[other]))
	}
	likely := t.likely(c, b, size)
	return problem("data.implausible", "%s %s is %s, beyond the %g to %g mm that the joint allows%s", c.name(), reading.Text, sayMM(size), b.least, b.most, likely)
}

// unusual reports whether a size beyond what the joint allows may be used all the same: its cell names the unit, it is not
// far out, and no usual mistake explains it.
func (t *cellReader) unusual(c *cellColumn, dim measure.Dim, reading value.Reading) bool {
	b, known := boundsOf(t.kind, c.role)
	size := mm(dim.Nominal())
	return known && reading.UnitStated && size > b.least/1.5 && size < b.most*1.5 && t.likely(c, b, size) == ""
}

func (t *cellReader) boundsAllow(c *cellColumn, dim measure.Dim) bool {
	b, known := boundsOf(t.kind, c.role)
	return !known || b.possible(mm(dim.Nominal()))
}

// otherUnit returns the one other unit, of mm and inches, in which a size is possible.
func otherUnit(b bounds, size float64, unit string) string {
	for _, other := range []string{"mm", "in"} {
		if other != unit && unitMM[unit] > 0 && b.common(size/unitMM[unit]*unitMM[other]) {
			return other
		}
	}
	return ""
}

// mistakes are the ways in which sizes are commonly wrong.
var mistakes = []struct {
	factor float64
	why    string
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
func (t *cellReader) likely(c *cellColumn, b bounds, size float64) string {
	text, nearest := "", 0.0
	for _, m := range mistakes {
		if m.factor == 2 && !c.trait().diameter {
			continue
		}
		corrected := size * m.factor
		if !b.common(corrected) {
			continue
		}
		distance := math.Abs(corrected - t.middle(c))
		if text == "" || distance < nearest {
			text, nearest = fmt.Sprintf("; %s (%s) would fit", sayMM(corrected), m.why), distance
		}
	}
	return text
}

// readAngle reads an angle; a bare number is in degrees, since nobody gives the angle of a countersink in radians.
func (t *cellReader) readAngle(c *cellColumn, f Field) (Field, trouble) {
	reading := t.lex.read(f.Text, value.Context{Want: value.WantAngle, Unit: "deg", Mark: c.mark})
	switch reading.Kind {
	case value.Angle:
	case value.Empty, value.NotApplicable, value.Text:
		return f, trouble{}
	default:
		return f, problem("data.unreadable", "%s %q cannot be read as an angle", c.name(), f.Text)
	}
	if reading.Problem.Code != "" {
		return f, problem(reading.Problem.Code, "%s: %s", c.name(), reading.Problem.Message)
	}
	angle := reading.Angle
	if reading.HalfAngle || c.hints.HalfAngle && !reading.Included {
		angle = angle.Add(angle)
		f.Assumptions = append(f.Assumptions, fmt.Sprintf("%s %s is from the axis: included angle %g degrees", c.name(), f.Text, angle.Degrees()))
	}
	if angle.Degrees() < 10 || angle.Degrees() >= 180 {
		return f, problem("data.implausible", "%s %s is no included angle of a countersink", c.name(), f.Text)
	}
	f.Angle = angle
	return f, trouble{}
}

// readNumber reads a count or a price. Trouble with it holds no row.
func (t *cellReader) readNumber(c *cellColumn, f Field) (Field, trouble) {
	want := value.WantCount
	if c.trait().want == wantPrice {
		want = value.WantPrice
	}
	reading := t.lex.read(f.Text, value.Context{Want: want, Unit: c.headingUnit, Mark: c.mark})
	if reading.Kind == value.Number && reading.Problem.Code != "data.unreadable" {
		f.Number, f.IsNumber = reading.Number, true
	}
	return f, trouble{}
}

// middle returns the median size of a column in mm, for comparison.
func (t *cellReader) middle(c *cellColumn) float64 {
	if m, known := t.middles[c]; known {
		return m
	}
	var sizes []float64
	b, _ := boundsOf(t.kind, c.role)
	for _, s := range c.profile.sizes {
		if x := s.mm(c.unit) * c.factor(); b.possible(x) {
			sizes = append(sizes, x)
		}
	}
	m := 0.0
	if len(sizes) > 0 {
		slices.Sort(sizes)
		m = sizes[len(sizes)/2]
	}
	if t.middles == nil {
		t.middles = map[*cellColumn]float64{}
	}
	t.middles[c] = m
	return m
}
