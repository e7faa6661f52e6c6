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
	"example.com/seatline/reconcile/publish/tell"
)

// grid is one sheet of the matrix: some heads by some ferrules.
type grid struct {
	name        string
	part, parts int
	ferrules    []int
	rows        []gridRow
}

// gridRow is a head, or the name of the group of heads below it.
type gridRow struct {
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
	mostFilled   = 200_000 // empty cells get a rule of their own up to this many cells on a sheet
	ferrulesWide = 24      // ferrules on the width of a printed page
)

// planMatrix divides the matrix into sheets.
func (b *book) planMatrix() []grid {
	rows, ferrules := b.gridRows(), b.gridFerrules()
	var grids []grid
	for some := range slices.Chunk(rows, b.limits.rows-gridHeading) {
		for wide := range slices.Chunk(ferrules, b.limits.ferrules) {
			grids = append(grids, grid{
				name: numbered(sheetMatrix, len(grids)), part: len(grids), ferrules: wide, rows: some,
			})
		}
	}
	if len(grids) == 0 {
		grids = []grid{{name: sheetMatrix, rows: rows}}
	}
	for i := range grids {
		grids[i].parts = len(grids)
	}
	return grids
}

// gridRows are the heads by category, each category under its name.
func (b *book) gridRows() []gridRow {
	heads := b.result.Catalogue.Heads
	byCategory := map[fitcalc.Category][]int{}
	for i := range heads {
		byCategory[heads[i].Category] = append(byCategory[heads[i].Category], i)
	}
	var rows []gridRow
	add := func(c fitcalc.Category, name string) {
		if members := byCategory[c]; len(members) > 0 {
			rows = append(rows, gridRow{head: -1, group: fmt.Sprintf("%s (%d)", name, len(members))})
			for _, head := range members {
				rows = append(rows, gridRow{head: head})
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

// gridFerrules are the ferrules to show, by bore, base OD and length.
func (b *book) gridFerrules() []int {
	var shown []int
	for i, fits := range b.account.Fits {
		if fits > 0 || b.opts.Full || b.account.UsedFerrules == 0 {
			shown = append(shown, i)
		}
	}
	ferrules := b.result.Catalogue.Ferrules
	slices.SortStableFunc(shown, func(x, y int) int {
		f, g := &ferrules[x].Ferrule, &ferrules[y].Ferrule
		return cmp.Or(compareDims(f.Bore, g.Bore), compareDims(f.BaseOD, g.BaseOD), compareDims(f.Length, g.Length))
	})
	return shown
}

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
		widths: []float64{12, 26, 16, 8, 6}, freezeRows: gridHeading, freezeColumns: gridColumns, repeatFrom: legendRow,
		grid: true, pagesWide: (len(g.ferrules) + ferrulesWide - 1) / ferrulesWide, outlined: true, tab: header,
	}
	for range g.ferrules {
		l.widths = append(l.widths, 6)
	}
	p := b.page(g.name, l)
	p.gridTop(g)
	p.gridHeadings(g)
	column := make([]int, len(b.result.Catalogue.Ferrules))
	for i, ferrule := range g.ferrules {
		column[ferrule] = gridColumns + 1 + i
	}
	for _, row := range g.rows {
		if row.head < 0 {
			p.groupRow(g, row.group)
		} else {
			p.headRow(g, row.head, column)
		}
	}
	p.done()
}

// gridTop writes the title, the notes, and the legend with the ferrules' part numbers beside it.
func (p *page) gridTop(g grid) {
	p.putRow(excelize.RowOpts{Height: 24}, p.as("Which ferrule goes on which head", title))
	p.put(p.as(fmt.Sprintf("The number is what comes off the base: nominal turn-down in %s, on the diameter; per side is half of it.%s",
		p.reader.long(), continued(g.part, g.parts)), note))
	p.put(p.as(p.gridScope(), note))
	parts := make([]string, len(g.ferrules))
	longest := 0
	for i, ferrule := range g.ferrules {
		parts[i] = clean(p.result.Catalogue.Ferrules[ferrule].Part)
		longest = max(longest, utf8.RuneCountInString(parts[i]))
	}
	heightOfRow := min(26, max(14, (float64(longest)*6.5+10)/legendRows))
	for i, verdict := range tell.Verdicts() {
		cells := make([]any, gridColumns+len(parts))
		cells[0] = p.as(marks[verdict]+"  "+verdict.String(), verdictLook(verdict))
		cells[1] = p.as(tell.Meaning(verdict), look{down: "center", indent: 1})
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
		p.do(func() error {
			return p.stream.MergeCell(address(gridColumns+1+c, legendRow), address(gridColumns+1+c, legendRow+legendRows-1))
		})
	}
}

// gridScope says which ferrules are shown.
func (p *page) gridScope() string {
	a := &p.account
	switch {
	case p.opts.Full:
		return fmt.Sprintf("All %d ferrules are shown, by bore and base OD. An empty cell is plainly out of range.", a.Ferrules)
	case a.UsedFerrules == 0:
		return fmt.Sprintf("No ferrule fits a head; all %d are shown. An empty cell is plainly out of range.", a.Ferrules)
	}
	return fmt.Sprintf("Shown are the %d of %d ferrules that fit a head, by bore and base OD; the others are on “%s”. An empty cell is plainly out of range.",
		a.UsedFerrules, a.Ferrules, sheetUnused)
}

// gridHeadings writes what the ferrules measure, and the headings of the heads' columns.
func (p *page) gridHeadings(g grid) {
	ferrules := p.result.Catalogue.Ferrules
	small := look{color: faint, across: "center", under: true}
	label := look{color: faint, across: "right"}
	row := func(name string, cell func(int) any) {
		cells := []any{nil, nil, p.as(name, label), p.as("", label), p.as("", label)}
		for _, ferrule := range g.ferrules {
			cells = append(cells, cell(ferrule))
		}
		p.put(cells...)
		p.merge(3, gridColumns)
	}
	row("bore of the ferrule, "+p.reader.name(), func(i int) any { return p.size(ferrules[i].Ferrule.Bore, small) })
	row("base OD, "+p.reader.name(), func(i int) any { return p.size(ferrules[i].Ferrule.BaseOD, small) })
	row("heads it fits", func(i int) any { return p.as(p.account.Fits[i], small.number(formatCount)) })
	cells := []any{
		p.as("Head", heading), p.as("Head is", heading), p.as("Tip", heading), p.as("Hosel OD, "+p.reader.name(), headingLook[numbers]),
		p.as("Fits", headingLook[words]),
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

// headRow writes a head: what it is, how many ferrules fit it, and its cells.
func (p *page) headRow(g grid, index int, column []int) {
	head := &p.result.Catalogue.Heads[index]
	cells := make([]any, gridColumns+len(g.ferrules))
	cells[0] = p.as(head.Part, strong)
	cells[1] = p.as(describe(&head.Item, head.Category), plain)
	cells[2] = p.as(p.tipsOf(index), plain)
	cells[3] = p.size(head.Head.JointOD(), plain)
	cells[4] = p.fitsOf(index)
	if len(g.rows)*len(g.ferrules) <= mostFilled {
		for i := range g.ferrules {
			cells[gridColumns+i] = excelize.Cell{StyleID: p.style(plain)}
		}
	}
	pairs := p.result.HeadPairs(index)
	for _, pair := range pairs {
		if at := column[pair.Ferrule]; at > 0 {
			cells[at-1] = p.mark(pair.Verdict, pair.TurnDown)
		}
	}
	p.putRow(excelize.RowOpts{OutlineLevel: 1}, cells...)
	if len(pairs) == 0 {
		return
	}
	p.link(1, p.row, p.fitsPlace(p.starts[index]))
	for i, pair := range pairs {
		if at := column[pair.Ferrule]; at > 0 {
			p.link(at, p.row, p.fitsPlace(p.starts[index]+i))
		}
	}
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
	return p.as(p.reader.value(turnDown), l.number(fmt.Sprintf(`"%s "%s;"%s "-%s;%s`, letter, size, letter, size, quoted)))
}

// fitsOf is how many ferrules fit a head, or why none does.
func (p *page) fitsOf(head int) any {
	switch p.account.Standings[head] {
	case tell.Undecided:
		return p.as("ask", verdictLook(fitcalc.Ask))
	case tell.Unserved:
		return p.as("none", verdictLook(fitcalc.No))
	case tell.TakesNone:
		return p.as("bare", verdictLook(fitcalc.Bare))
	}
	count := 0
	for _, pair := range p.result.HeadPairs(head) {
		if pair.Verdict.Fits() {
			count++
		}
	}
	return p.as(count, plain.number(formatCount).centred())
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

// continued says that a sheet is one of several.
func continued(part, parts int) string {
	if parts < 2 {
		return ""
	}
	return fmt.Sprintf(" Sheet %d of %d: one would be too large to read.", part+1, parts)
}
