package workbook

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/report"
	"example.com/seatline/reconcile/publish/tell"
)

// grid is what the matrix shows: geometries of heads by geometries of ferrules.
type grid struct {
	// ferrules are geometries, and leftAcross how many more there are.
	ferrules   []int
	leftAcross int
	rows       []gridRow
	leftDown   int
}

// gridRow is a geometry of heads, one of several heads of the geometry above it, or the name of the group of heads below it.
type gridRow struct {
	class int
	head  int
	group string
}

// Rows and columns of the matrix before the first head and ferrule: title, notes, the legend beside the ferrules' part numbers,
// three rows of what the ferrules measure, and the headings.
const (
	legendRow    = 4
	legendRows   = 7 // one for each verdict
	gridHeading  = legendRow + legendRows + 3
	gridColumns  = 5
	mostFilled   = 300_000 // empty cells get a rule of their own up to this many cells on a sheet
	ferrulesWide = 34      // ferrules on the width of a printed page
)

// planMatrix chooses what the matrix shows.
func (b *book) planMatrix() grid {
	g := grid{rows: b.gridRows(), ferrules: b.gridFerrules()}
	if most := b.limits.rows - gridHeading - 1; len(g.rows) > most {
		g.leftDown = len(g.rows) - most
		g.rows = g.rows[:most]
	}
	if most := b.limits.ferrules; len(g.ferrules) > most {
		g.leftAcross = len(g.ferrules) - most
		g.ferrules = g.ferrules[:most]
	}
	return g
}

// gridRows are the heads by category, each category under its name, and those of one geometry under a row for all of them.
func (b *book) gridRows() []gridRow {
	heads, classes := b.result.Catalogue.Heads, b.result.HeadGeometries()
	byCategory := map[fitcalc.Category][]int{}
	count := map[fitcalc.Category]int{}
	for class, members := range classes {
		c := heads[members[0]].Category
		byCategory[c] = append(byCategory[c], class)
		count[c] += len(members)
	}
	var rows []gridRow
	add := func(c fitcalc.Category, name string) {
		if len(byCategory[c]) == 0 {
			return
		}
		rows = append(rows, gridRow{class: -1, group: fmt.Sprintf("%s (%d)", name, count[c])})
		for _, class := range byCategory[c] {
			rows = append(rows, gridRow{class: class, head: -1})
			if len(classes[class]) < 2 {
				continue
			}
			for _, head := range classes[class] {
				rows = append(rows, gridRow{class: class, head: int(head)})
			}
		}
	}
	for c := fitcalc.Driver; c <= fitcalc.Chipper; c++ {
		name := c.String()
		add(c, strings.ToUpper(name[:1])+name[1:]+" heads")
	}
	add(fitcalc.AnyCategory, "Heads of a kind not stated")
	return rows
}

// gridFerrules are the geometries of ferrules to show, by bore, base OD and length: those that fit something, and those of which
// something is to be asked.
func (b *book) gridFerrules() []int {
	var shown []int
	classes := b.result.FerruleGeometries()
	for class, members := range classes {
		first := int(members[0])
		if b.result.FerruleFits(first) > 0 || len(b.asked(first)) > 0 || b.opts.Full || b.account.UsedFerrules == 0 {
			shown = append(shown, class)
		}
	}
	ferrules := b.result.Catalogue.Ferrules
	slices.SortStableFunc(shown, func(x, y int) int {
		f, g := &ferrules[classes[x][0]].Ferrule, &ferrules[classes[y][0]].Ferrule
		return cmp.Or(compareDims(b.result.Bore(int(classes[x][0])), b.result.Bore(int(classes[y][0]))), compareDims(f.BaseOD, g.BaseOD), compareDims(f.Length, g.Length))
	})
	return shown
}

// asked are the dimensions that a ferrule lacks.
func (b *book) asked(ferrule int) []fitcalc.Field { return lacking(b.result.FerruleAsked(ferrule)) }

// compareDims puts a dimension that is not given last.
func compareDims(a, b measure.Dim) int {
	switch {
	case a.Given() && b.Given():
		return a.Nominal().Compare(b.Nominal())
	case a.Given():
		return -1
	case b.Given():
		return 1
	}
	return 0
}

func (b *book) matrixSheet(g grid) {
	l := layout{
		widths: []float64{19, 26, 16, 8, 6}, freezeRows: gridHeading, freezeColumns: gridColumns, repeatFrom: legendRow,
		grid: true, pagesWide: (len(g.ferrules) + ferrulesWide - 1) / ferrulesWide, outlined: true, tab: header,
	}
	for range g.ferrules {
		l.widths = append(l.widths, 6)
	}
	p := b.page(sheetMatrix, l)
	p.gridTop(g)
	p.gridHeadings(g)
	column := make([]int, len(b.result.FerruleGeometries()))
	for i, class := range g.ferrules {
		column[class] = gridColumns + 1 + i
	}
	asks := b.marksAsks(g)
	for _, row := range g.rows {
		switch {
		case row.class < 0:
			p.groupRow(g, row.group)
		case row.head < 0:
			p.geometryRow(g, row.class, column, asks)
		default:
			p.memberRow(row.head)
		}
	}
	if g.leftDown > 0 {
		p.put(p.as(fmt.Sprintf("%s more would be too many to read here; all heads stand in heads.jsonl, and %s in fits.csv.",
			phrase.Count(g.leftDown, "row"), p.listed("all that fits")), note))
	}
	p.done()
}

// mostAsked is how many pairs are decided again to mark those that cannot be decided in the matrix.
const mostAsked = 100_000

// marksAsks says whether the cells of what cannot be decided are marked: they are not listed, so that each has to be decided again.
func (b *book) marksAsks(g grid) bool {
	pairs := 0
	for _, row := range g.rows {
		if row.class >= 0 && row.head < 0 {
			head := int(b.result.HeadGeometries()[row.class][0])
			if b.result.HeadCount(head, fitcalc.Ask) > 0 {
				for v := fitcalc.Flush; v <= fitcalc.Bare; v++ {
					pairs += b.result.HeadCount(head, v)
				}
			}
		}
	}
	return pairs <= mostAsked
}

// headNames names the heads of a geometry, and ferruleNames ferrules.
func (b *book) headNames(class int) string {
	return namesOf(b.result.HeadGeometries()[class], func(i int32) string { return b.result.Catalogue.Heads[i].Part })
}

func (b *book) ferruleNames(class int) string {
	return namesOf(b.result.FerruleGeometries()[class], func(i int32) string { return b.result.Catalogue.Ferrules[i].Part })
}

func namesOf(members []int32, name func(int32) string) string {
	names := make([]string, len(members))
	for i, member := range members {
		names[i] = clean(name(member))
	}
	return tell.Together(names)
}

// describeAll is what the parts of a geometry are: what they all are, or the first and how many others.
func describeAll(members []int32, of func(int32) string) string {
	first := of(members[0])
	for _, member := range members[1:] {
		if of(member) != first {
			return fmt.Sprintf("%s, and %s", first, phrase.Count(len(members)-1, "other"))
		}
	}
	return first
}

// headsAre says what the heads of a geometry are.
func (b *book) headsAre(class int) string {
	return describeAll(b.result.HeadGeometries()[class], func(i int32) string {
		return report.HeadIs(&b.result.Catalogue.Heads[i])
	})
}

// ferrulesAre says what the ferrules of a geometry are.
func (b *book) ferrulesAre(class int) string {
	return describeAll(b.result.FerruleGeometries()[class], func(i int32) string { return b.result.Catalogue.Ferrules[i].Description })
}

// gridTop writes the title, the notes, and the legend with the ferrules' part numbers beside it.
func (p *page) gridTop(g grid) {
	p.putRow(excelize.RowOpts{Height: 24}, p.as("Which ferrule goes on which head", title))
	p.put(p.as(fmt.Sprintf("The number is what comes off the base: nominal turn-down in %s, on the diameter; per side is half of it. Parts of the same sizes share a row or column.",
		p.reader.long()), note))
	p.put(p.as(p.gridScope(g), note))
	parts := make([]string, len(g.ferrules))
	longest := 0
	for i, class := range g.ferrules {
		parts[i] = p.ferruleNames(class)
		if missing := p.asked(int(p.firstOf(class))); len(missing) > 0 {
			parts[i] += " – not given: " + strings.Join(p.fieldNames(missing), ", ")
		}
		longest = max(longest, utf8.RuneCountInString(parts[i]))
	}
	heightOfRow := min(30, max(14, (float64(longest)*6.5+10)/legendRows))
	for i, verdict := range fitcalc.Verdicts() {
		cells := make([]any, gridColumns+len(parts))
		cells[0] = p.as(marks[verdict]+"  "+p.word(verdict), verdictLook(verdict))
		cells[1] = p.as(p.opts.Language.Meaning(verdict), look{down: "center", indent: 1})
		for c, part := range parts {
			text := ""
			if i == 0 {
				text = part
			}
			cells[gridColumns+c] = excelize.Cell{StyleID: p.style(turned), Value: text}
		}
		p.putRow(excelize.RowOpts{Height: heightOfRow}, cells...)
	}
	for c := range parts {
		p.content.merge(address(gridColumns+1+c, legendRow), address(gridColumns+1+c, legendRow+legendRows-1))
	}
}

// gridScope says which ferrules are shown.
func (p *page) gridScope(g grid) string {
	a := &p.account
	empty := " An empty cell does not fit."
	if a.OnlyBest > 0 {
		empty = fmt.Sprintf(" An empty cell does not fit, or is not among the %d best of its head and of its ferrule.", a.OnlyBest)
	}
	if g.leftAcross > 0 {
		return fmt.Sprintf("Shown are the first %d of %d ferrule sizes, by bore and base OD; all stand in %s.",
			len(g.ferrules), len(g.ferrules)+g.leftAcross, p.fileOfFerrules()) + empty
	}
	switch {
	case p.opts.Full:
		return fmt.Sprintf("All %d ferrules are shown, by bore and base OD.", a.Ferrules) + empty
	case a.UsedFerrules == 0:
		return fmt.Sprintf("No ferrule fits a head; all %d are shown.", a.Ferrules) + empty
	}
	return fmt.Sprintf("Shown are the %d of %d ferrules that fit a head, and those of which something is to be asked, by bore and base OD; the others are on “%s”.",
		a.UsedFerrules, a.Ferrules, sheetUnused) + empty
}

// fileOfFerrules is where all ferrules stand.
func (b *book) fileOfFerrules() string {
	if b.account.OnlyBest > 0 {
		return "ferrules.jsonl"
	}
	return "fits.csv"
}

// gridHeadings writes what the ferrules measure, and the headings of the heads' columns.
func (p *page) gridHeadings(g grid) {
	ferrules, classes := p.result.Catalogue.Ferrules, p.result.FerruleGeometries()
	small := look{color: faint, across: "center", under: true}
	label := look{color: faint, across: "right"}
	row := func(name string, cell func(int) any) {
		cells := []any{nil, nil, p.as(name, label), p.as("", label), p.as("", label)}
		for _, class := range g.ferrules {
			cells = append(cells, cell(int(classes[class][0])))
		}
		p.put(cells...)
		p.merge(3, gridColumns)
	}
	row("bore of the ferrule, "+p.reader.name(), func(i int) any { return p.cell(p.bore(i), report.KindDiameter, small) })
	row("base OD, "+p.reader.name(), func(i int) any {
		return p.sizeCell(report.Nominal(ferrules[i].Ferrule.BaseOD), report.KindDiameter, small)
	})
	row("heads it fits", func(i int) any {
		if p.account.Fits[i] == 0 && len(p.asked(i)) > 0 {
			return p.verdict(fitcalc.Ask)
		}
		return p.as(p.account.Fits[i], small.number(formatCount))
	})
	cells := []any{
		p.as("Head", heading), p.as("Head is", heading), p.as("Tip", heading), p.as("Hosel OD, "+p.reader.name(), headingLook(report.KindDiameter)),
		p.as("Fits", headingLook(report.KindWord)),
	}
	for range g.ferrules {
		cells = append(cells, p.as("", heading))
	}
	p.putRow(excelize.RowOpts{Height: 26}, cells...)
}

func (p *page) groupRow(g grid, name string) {
	cells := make([]any, gridColumns+len(g.ferrules))
	for i := range cells {
		cells[i] = p.as("", group)
	}
	cells[0] = p.as(name, group)
	p.put(cells...)
}

// geometryRow writes the heads of a geometry: what they are, how many ferrules fit, and their cells.
func (p *page) geometryRow(g grid, class int, column []int, asks bool) {
	first := int(p.result.HeadGeometries()[class][0])
	head := &p.result.Catalogue.Heads[first]
	cells := make([]any, gridColumns+len(g.ferrules))
	cells[0] = p.as(p.headNames(class), strong)
	cells[1] = p.as(p.headsAre(class), plain)
	cells[2] = p.as(p.tipsOf(first), plain)
	cells[3] = p.sizeCell(report.Nominal(head.Head.JointOD()), report.KindDiameter, plain)
	cells[4] = p.fitsOf(first)
	if len(g.rows)*len(g.ferrules) <= mostFilled {
		for i := range g.ferrules {
			cells[gridColumns+i] = excelize.Cell{StyleID: p.style(plain)}
		}
	}
	p.rowLinks(first, class, column)
	pairs := p.result.HeadPairs(first)
	if asks && p.result.HeadCount(first, fitcalc.Ask) > 0 {
		pairs = p.result.InReach(first)
	}
	for _, pair := range pairs {
		if at := column[p.result.FerruleGeometry(int(pair.Ferrule))]; at > 0 && pair.Verdict != fitcalc.No {
			cells[at-1] = p.mark(pair.Verdict, pair.TurnDown)
		}
	}
	p.putRow(excelize.RowOpts{OutlineLevel: 1}, cells...)
}

// rowLinks makes the cells of the next row lead to their rows on the sheet of fits.
func (p *page) rowLinks(head, class int, column []int) {
	linked := false
	for _, pair := range p.result.HeadPairs(head) {
		form := p.result.FerruleGeometry(int(pair.Ferrule))
		row, there := p.rowOf[[2]int{class, form}]
		if !there {
			continue
		}
		target := place{sheetFits, 1, row}
		if !linked {
			p.content.link(address(1, p.row+1), target.reference())
			linked = true
		}
		if at := column[form]; at > 0 && pair.Verdict != fitcalc.No && p.firstOf(form) == pair.Ferrule {
			p.content.link(address(at, p.row+1), target.reference())
		}
	}
}

// firstOf is the ferrule that stands for its geometry.
func (b *book) firstOf(form int) int32 { return b.result.FerruleGeometries()[form][0] }

// memberRow writes one of several heads of a geometry, which is seen once the row above is unfolded.
func (p *page) memberRow(index int) {
	head := &p.result.Catalogue.Heads[index]
	p.putRow(excelize.RowOpts{OutlineLevel: 2, Hidden: true}, p.as(head.Part, look{under: true, color: faint, indent: 1}), p.as(report.HeadIs(head), plain))
}

// mark is a cell of the matrix: the verdict's letter and, where something has to come off, how much. It holds the turn-down as a
// number wherever the ferrule fits.
func (p *page) mark(v fitcalc.Verdict, turnDown measure.Length) any {
	l, letter := verdictLook(v), marks[v]
	if !v.Fits() {
		return p.as(letter, l)
	}
	quoted := `"` + letter + `"`
	if v == fitcalc.Flush {
		return p.as(0, l.number(quoted)) // nothing comes off
	}
	size := p.reader.format()
	return p.as(p.reader.shown(turnDown), l.number(fmt.Sprintf(`"%s "%s;"%s "-%s;%s`, letter, size, letter, size, quoted)))
}

// fitsOf is how many ferrules fit a head, or why none does.
func (p *page) fitsOf(head int) any {
	switch p.account.Standings[head] {
	case tell.Undecided:
		return p.verdict(fitcalc.Ask)
	case tell.Unserved:
		return p.as("none", verdictLook(fitcalc.No))
	case tell.TakesNone:
		return p.verdict(fitcalc.Bare)
	}
	return p.as(p.result.HeadFits(head), plain.number(formatCount).centred())
}

// tipsOf names the tips of a head, nothing where none is known.
func (p *page) tipsOf(head int) string {
	var names []string
	for _, tip := range p.result.HeadTips[head].Tips {
		if name := p.result.Tips[tip].Name; name != "" {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}
