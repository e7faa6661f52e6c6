package workbook

import (
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/publish/tell"
)

var readFirstWidths = []float64{38, 17, 17, 14, 14, 14, 32}

// readFirst writes the sheet that says what the others rest on.
func (b *book) readFirst(g grid) {
	p := b.page(sheetReadFirst, layout{widths: readFirstWidths, tab: ink})
	p.putRow(excelize.RowOpts{Height: 26}, p.as("Heads and ferrules: what fits, and what has to come off", title))
	if b.opts.ShopName != "" {
		p.put(p.as(b.opts.ShopName, look{bold: true, size: 11}))
	}
	p.put(p.as("Differences of diameters are on the diameter unless the heading says per side. Lengths are in "+p.reader.long()+p.alongAxis()+".", note))
	p.whatWasRead()
	p.whatCameOut()
	p.whichSheet(g)
	p.cautions()
	p.measured()
	p.assumptions()
	p.settings()
	p.done()
}

// alongAxis says how lengths along the axis differ from others.
func (p *page) alongAxis() string {
	if p.opts.Units == fitcalc.Fractions {
		return ", along the axis in sixty-fourths where they are exact"
	}
	return ""
}

func (p *page) section(name string) {
	p.skip(1)
	cells := make([]any, len(readFirstWidths))
	for i := range cells {
		cells[i] = p.as("", section)
	}
	cells[0] = p.as(name, section)
	p.putRow(excelize.RowOpts{Height: 18}, cells...)
}

// headings writes a row of headings, those of columns of numbers to the right.
func (p *page) headings(columns ...column) {
	cells := make([]any, len(readFirstWidths))
	for i := range cells {
		cells[i] = p.as("", group)
		if i < len(columns) && columns[i].kind == numbers {
			cells[i] = p.as(columns[i].heading, look{bold: true, fill: band, across: "right", indent: 1})
		} else if i < len(columns) {
			cells[i] = p.as(columns[i].heading, group)
		}
	}
	p.put(cells...)
}

func over(heading string) column       { return column{heading: heading} }
func overNumber(heading string) column { return column{heading: heading, kind: numbers} }

func (p *page) whatWasRead() {
	p.section("What was read")
	p.headings(over("File"), over("Sheet"), over("Lists"), overNumber("Rows used"), overNumber("with assumptions"), overNumber("held, to ask"), overNumber("set aside"))
	count := plain.number(formatCount)
	ledger := func(name look, file, sheet, kind string, l catalog.Ledger) {
		p.put(p.as(file, name), p.as(sheet, name), p.as(kind, name), p.as(l.Used, count), p.as(l.Assumed, count), p.as(l.Held, count),
			p.as(l.SetAside, count))
	}
	tables := p.result.Catalogue.Tables
	for i := range tables {
		t := &tables[i]
		ledger(plain, t.File, t.Sheet+spaced(t.Range), t.Kind.String(), t.Ledger)
	}
	ledger(strong, fmt.Sprintf("All %d rows", p.account.AllRows.Rows), "", "", p.account.AllRows)
	p.put(p.as("Set aside are headings, notes, blanks and totals. Held are rows that wait for an answer; see “"+sheetFindings+"”.", note))
	for _, in := range tell.Inputs(p.result, p.opts.Inputs) {
		inTable := slices.ContainsFunc(tables, func(t catalog.Table) bool { return t.File == in.Name })
		if !inTable {
			p.put(p.as(in.Name, plain), p.as("", plain), p.as(in.Kind, plain))
		}
	}
}

func spaced(text string) string {
	if text == "" {
		return ""
	}
	return " " + text
}

func (p *page) whatCameOut() {
	a := &p.account
	p.section("What came out")
	p.headings(over("Pairs of a head and a ferrule"), overNumber("Pairs"))
	name, count := look{}, look{}.number(formatCount)
	for _, v := range fitcalc.Verdicts() {
		p.put(p.as(marks[v]+"  "+v.String(), verdictLook(v)), p.as(a.Verdicts[v], count), p.as(tell.Meaning(v), note))
	}
	p.put(p.as("listed one by one", name), p.as(a.Listed, count), p.as("all that fit, and the nearest of what fits nothing; the others in reach are counted", note))
	p.put(p.as("plainly out of range", name), p.as(a.OutOfRange, count), p.as("nominal sizes are further out than a near miss", note))
	p.put(p.as("all", look{bold: true}), p.as(a.Possible, look{bold: true}.number(formatCount)),
		p.as(fmt.Sprintf("%d heads by %d ferrules", a.Heads, a.Ferrules), note))
	p.skip(1)
	p.headings(over("Heads and ferrules"), overNumber("Parts"))
	for _, line := range []struct {
		name, meaning string
		count         int
	}{
		{"geometries of heads", "heads that differ in nothing that matters here are decided once, and share a row", a.HeadGeometries},
		{"geometries of ferrules", "ferrules that differ in nothing that matters here share a row or column", a.FerruleGeometries},
		{"heads served", "at least one ferrule fits", a.Standing[tell.Served]},
		{"heads to measure", "a ferrule suits some of their pieces, none suits all", a.Standing[tell.Selective]},
		{"heads to ask about", "a ferrule may fit once what is missing is known", a.Standing[tell.Undecided]},
		{"heads without", "no ferrule on offer fits", a.Standing[tell.Unserved]},
		{"bare heads", "take no ferrule", a.Standing[tell.TakesNone]},
		{"ferrules in use", "fit at least one head", a.UsedFerrules},
		{"unused ferrules", "fit no head", a.Ferrules - a.UsedFerrules},
	} {
		p.put(p.as(line.name, name), p.as(line.count, count), p.as(line.meaning, note))
	}
}

func (p *page) whichSheet(g grid) {
	p.section("Which sheet answers what")
	matrix := "Heads down, ferrules across: does it fit, and what comes off? A cell leads to its row on “Fits”."
	if g.leftDown+g.leftAcross > 0 {
		matrix += fmt.Sprintf(" It has the first %d heads and %d ferrules; all stand in fits.csv.", len(g.rows), len(g.ferrules))
	}
	p.put(p.as(fmt.Sprintf("No sheet has more than %d rows, and the matrix no more than %d ferrules: more nobody scrolls through. What is beyond stands in fits.csv, heads.jsonl and ferrules.jsonl beside this workbook.",
		p.limits.rows, p.limits.ferrules), note))
	for _, line := range [][2]string{
		{sheetMatrix, matrix},
		{sheetBest, "Which ferrule asks least of the bench on each head, and what are the alternates?"},
		{sheetSize, "What fits a hosel that was measured? Type its size and see every ferrule."},
		{sheetWithout, "Which heads have no ferrule, how near does one come, and what would settle it?"},
		{sheetUnused, "Which ferrules fit nothing, and why?"},
		{sheetFits, "Each listed pair: numbers, chances, reasons, assumptions and the cells they come from."},
		{sheetFindings, "What should a person know about the input, and what settles it?"},
		{sheetPictures, "Where are hosels without a ferrule, how much is turned, and how do suppliers compare?"},
		{sheetWindows, "For which hosels each ferrule fits, on each tip and top."},
	} {
		p.put(p.as(line[0], look{bold: true}), p.as(line[1], look{}))
		p.link(1, p.row, place{line[0], 1, 1})
	}
}

// across is the width of some columns together, counted from 1.
func across(from, to int) float64 {
	width := 0.0
	for _, w := range readFirstWidths[from-1 : to] {
		width += w
	}
	return width
}

// wide writes a text over all columns from the second on, as high as it needs.
func (p *page) wide(name string, l look, text string) {
	cells := make([]any, len(readFirstWidths))
	cells[0], cells[1] = p.as(name, l), p.as(text, prose)
	p.putRow(excelize.RowOpts{Height: heightFor(linesIn(text, across(2, len(cells))))}, cells...)
	p.merge(2, len(cells))
}

func (p *page) cautions() {
	p.section("Cautions")
	for _, c := range tell.Cautions() {
		p.wide(c.Title, look{bold: true}, c.Text)
	}
}

// measured says what readings contributed; nothing where there are none.
func (p *page) measured() {
	m := &p.result.Catalogue.Measurements
	if !m.Any() {
		return
	}
	p.section("What was measured")
	p.wide("Readings", look{bold: true}, tell.Measured(m)+". They stand in the place of what the sheets state; the column “Measured” of “"+sheetFits+"” says in which pairs.")
	for i := range m.Learned {
		p.wide("Learned", look{bold: true}, tell.Learned(&m.Learned[i], p.opts.Units)+".")
	}
}

func (p *page) assumptions() {
	p.section("Assumptions in force")
	if len(p.account.Assumptions) == 0 {
		p.put(p.as("No listed verdict rests on an assumption.", look{}))
		return
	}
	p.headings(over("Assumption"), overNumber("Verdicts on it"), over("What is taken for granted"))
	for _, c := range p.account.Assumptions {
		p.put(p.as(c.Code, look{}), p.as(c.Verdicts, look{}.number(formatCount)), p.as(c.Text, note))
	}
}

func (p *page) settings() {
	p.section("Settings in force")
	p.headings(over("Setting"), over("Value"), over("Default"), over("Why"), over(""), over(""), over("Source"))
	for _, s := range tell.Settings(p.result.Shop) {
		p.setting(s)
	}
}

// setting writes one setting; one that is not the default stands out.
func (p *page) setting(s tell.Setting) {
	name := plain
	if s.Changed {
		name = look{under: true, bold: true, fill: fillAsk}
	}
	const why, source = 4, 7
	lines := max(linesIn(s.Why, across(why, source-1)), linesIn(s.Source, across(source, source)))
	p.putRow(excelize.RowOpts{Height: heightFor(lines)},
		p.as(s.Key, name), p.as(tell.Show(s.Value, p.opts.Units), name), p.as(tell.Show(s.Default, p.opts.Units), plain),
		p.as(s.Why, wrapped), p.as("", wrapped), p.as("", wrapped), p.as(s.Source, wrapped))
	p.merge(why, source-1)
}
