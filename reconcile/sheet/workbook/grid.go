package workbook

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/xmlscan"
	"example.com/seatline/reconcile/sheet/numfmt"
)

// sheet reads one sheet of the workbook.
func (b *reader) sheet(e entry, relations relations) error {
	target, found := relations.byID(e.relation)
	if !found {
		return fmt.Errorf("the sheet %q is listed but its place in the file is not given", e.name)
	}
	if target.kind != "worksheet" {
		b.book.Notes = append(b.book.Notes, sheet.Note{Code: CodeSheetSkipped, Sheet: e.name,
			Message: fmt.Sprintf("the sheet %q is a %s and has no cells to read", e.name, sheetKind(target.kind))})
		return nil
	}
	text, found := b.archive.Text(target.target)
	if !found {
		return b.missing(target.target, fmt.Sprintf("the sheet %q", e.name))
	}
	if err := b.meter.Sheet(); err != nil {
		return err
	}
	g := &grid{
		reader: b, out: &sheet.Sheet{Name: e.name, Hidden: e.hidden, HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}},
		shared: map[string]shared{}, pools: map[writing]*sheet.Pool[string]{},
	}
	b.part = target.target
	if err := g.read(text); err != nil {
		return err
	}
	b.archive.Drop(target.target)
	if err := b.tables(g, target.target); err != nil {
		return err
	}
	if err := b.comments(g, target.target); err != nil {
		return err
	}
	if err := b.meter.Whole(g.out); err != nil {
		return err
	}
	g.out.Colours.Sort()
	if g.dropped > 0 {
		g.noteAt(sheet.Ref{}, fmt.Sprintf("%d more cells are described in ways that the file format does not allow", g.dropped))
	}
	b.book.Sheets = append(b.book.Sheets, g.out)
	return nil
}

func sheetKind(kind string) string {
	switch kind {
	case "chartsheet":
		return "chart"
	case "dialogsheet":
		return "dialog"
	case "xlMacrosheet", "xlIntlMacrosheet":
		return "macro sheet"
	}
	return "sheet of the kind " + kind
}

func (b *reader) missing(part, what string) error {
	return fmt.Errorf("the part %s with %s is missing", part, what)
}

// tables reads the named tables that belong to a sheet.
func (b *reader) tables(g *grid, part string) error {
	if len(g.tableIDs) == 0 {
		return nil
	}
	relations, err := b.relations(part)
	if err != nil {
		return err
	}
	for _, id := range g.tableIDs {
		target, found := relations.byID(id)
		text, present := b.archive.Text(target.target)
		if !found || !present {
			b.part = part
			return b.missing(target.target, "a table")
		}
		b.part = target.target
		s := xmlscan.New(text, spaces)
		if err := expectRoot(s, spaceMain, "table"); err != nil {
			return err
		}
		var name, display, ref string
		if err := attributes(s, map[string]*string{"name": &name, "displayName": &display, "ref": &ref}); err != nil {
			return err
		}
		area, ok := parseArea(ref)
		if !ok {
			return s.Fail("the table %q has no range: %q", display, ref)
		}
		if display == "" {
			display = name
		}
		g.out.Tables = append(g.out.Tables, sheet.Table{Name: display, Range: area})
		if err := s.Root((*xmlscan.Scanner).Skip); err != nil {
			return err
		}
	}
	return nil
}

// grid is the state of reading one sheet.
type grid struct {
	*reader
	out      *sheet.Sheet
	scan     *xmlscan.Scanner
	shared   map[string]shared
	tableIDs []string
	notes    int
	dropped  int
	hidden   int  // columns that were said to be hidden, repeats counted
	preserve bool // of white space, for the whole sheet
	row      int  // the current one
	col      int  // the last one in it
	cells    []*sheet.Cell
	slab     []*sheet.Cell // from which rows are cut
	pools    map[writing]*sheet.Pool[string]
	last     []lastPool
	painted  []painted // the coloured cells of the row
}

// painted are coloured cells of a row beside each other, whether something stands in them or not.
type painted struct {
	from, to int
	paint    sheet.Paint
}

// paint keeps the colours of the current cell.
func (g *grid) paint(format int) {
	if !g.paints || format >= len(g.styles) || g.styles[format].paint == (sheet.Paint{}) {
		return
	}
	paint := g.styles[format].paint
	if last := len(g.painted) - 1; last >= 0 && g.painted[last].to == g.col-1 && g.painted[last].paint == paint {
		g.painted[last].to = g.col
		return
	}
	g.painted = append(g.painted, painted{g.col, g.col, paint})
}

// colour keeps the colours of a row in which something stands.
func (g *grid) colour() {
	for _, one := range g.painted {
		g.out.Colours.AddRow(g.row, one.from, one.to, one.paint)
	}
}

func (g *grid) read(text string) error {
	s := xmlscan.New(text, spaces)
	g.scan = s
	if err := expectRoot(s, spaceMain, "worksheet"); err != nil {
		return err
	}
	g.preserve = s.Preserves()
	return s.Root(g.element)
}

// element reads one child of the worksheet.
func (g *grid) element(s *xmlscan.Scanner) error {
	switch {
	case is(s, "sheetData"):
		return s.Children(g.readRow)
	case is(s, "cols"):
		return s.Children(g.column)
	case is(s, "mergeCells"):
		return s.Children(func(s *xmlscan.Scanner) error {
			if !is(s, "mergeCell") {
				return s.Skip()
			}
			area, err := areaOf(s)
			if err != nil {
				return err
			}
			g.out.Merges = append(g.out.Merges, area)
			return s.Skip()
		})
	case is(s, "autoFilter"):
		area, err := areaOf(s)
		if err != nil {
			return err
		}
		g.out.Tables = append(g.out.Tables, sheet.Table{Range: area})
	case is(s, "tableParts"):
		return s.Children(func(s *xmlscan.Scanner) error {
			id, found, err := s.AttrIn(spaceRelation, "id")
			if err != nil {
				return err
			}
			if found {
				g.tableIDs = append(g.tableIDs, id)
			}
			return s.Skip()
		})
	}
	return s.Skip()
}

func areaOf(s *xmlscan.Scanner) (sheet.Range, error) {
	ref, _, err := s.Attr("ref")
	if err != nil {
		return sheet.Range{}, err
	}
	area, ok := parseArea(ref)
	if !ok {
		return sheet.Range{}, s.Fail("%q is no range of cells", ref)
	}
	return area, nil
}

// parseArea reads a range within the limits of a sheet.
func parseArea(ref string) (sheet.Range, bool) {
	area, err := sheet.ParseRange(ref)
	return area, err == nil && area.To.Row <= MaxRows && area.To.Col <= MaxCols
}

// column takes in whether columns are hidden.
func (g *grid) column(s *xmlscan.Scanner) error {
	hidden, _, err := s.Attr("hidden")
	if err != nil {
		return err
	}
	if isTrue(hidden) {
		first, err := number(s, "min", 0)
		if err != nil {
			return err
		}
		last, err := number(s, "max", first)
		if err != nil {
			return err
		}
		if first < 1 || last > MaxCols {
			return s.Fail("columns %d to %d are not on a sheet", first, last)
		}
		// Columns are described once; this allows for some overlap, and not for the same range a million times.
		if g.hidden += last - first + 1; g.hidden > 4*MaxCols {
			return s.Fail("the columns are described again and again")
		}
		for col := first; col <= last; col++ {
			g.out.HiddenCols[col] = true
		}
	}
	return s.Skip()
}

func (g *grid) readRow(s *xmlscan.Scanner) error {
	if !is(s, "row") {
		return s.Skip()
	}
	row, err := number(s, "r", g.row+1)
	if err != nil {
		return err
	}
	if row < 1 || row > MaxRows {
		return s.Fail("row %d is not on a sheet; the last row is %d", row, MaxRows)
	}
	hidden, _, err := s.Attr("hidden")
	if err != nil {
		return err
	}
	if isTrue(hidden) {
		g.out.HiddenRows[row] = true
	}
	g.row, g.col, g.cells, g.painted = row, 0, g.cells[:0], g.painted[:0]
	for {
		for g.usualCell() {
		}
		token, err := s.Next()
		if err != nil {
			return err
		}
		switch token {
		case xmlscan.Start:
			if !is(s, "c") {
				err = s.Skip()
			} else {
				err = g.cell()
			}
			if err != nil {
				return err
			}
		case xmlscan.End:
			return g.store()
		}
	}
}

// store keeps the cells of a row that was read. Rows may come in any order, but each only once.
func (g *grid) store() error {
	cells := g.cells
	for len(cells) > 0 && cells[len(cells)-1] == sheet.BlankCell {
		cells = cells[:len(cells)-1]
	}
	if len(cells) == 0 {
		return nil
	}
	kept, strays := g.meter.Stray(cells)
	for _, col := range strays {
		g.book.Notes = append(g.book.Notes, g.meter.TellStray(CodeCell, g.out.Name, sheet.Ref{Row: g.row, Col: col}, cells[col-1]))
	}
	if cells = kept; len(cells) == 0 {
		return nil
	}
	if err := g.meter.Row(g.out.Name, g.row, cells, 1); err != nil {
		return err
	}
	if g.made > maxMade {
		return g.tooBig("its long texts and formulas are shared by too many cells")
	}
	for len(g.out.Rows) < g.row {
		g.out.Rows = append(g.out.Rows, nil)
	}
	if g.out.Rows[g.row-1] != nil {
		return g.scan.Fail("row %d stands twice", g.row)
	}
	const slab = 4096
	if len(cells) > cap(g.slab)-len(g.slab) {
		g.slab = make([]*sheet.Cell, 0, max(slab, len(cells)))
	}
	start := len(g.slab)
	g.slab = append(g.slab, cells...)
	g.out.Rows[g.row-1] = g.slab[start:len(g.slab):len(g.slab)]
	g.colour()
	return nil
}

// count takes account of a text that was made.
func (g *grid) count(text string) {
	if len(text) > longText {
		g.made += len(text)
	}
}

func (g *grid) tooBig(problem string) error {
	return &sheet.FileError{File: g.name, Place: g.out.Name, Reason: sheet.ReasonTooBig, Problem: problem,
		Next: "save only the sheets that are needed in a new workbook"}
}

// noteAt writes down something odd about a cell, up to a limit.
func (g *grid) noteAt(at sheet.Ref, message string) {
	if g.notes++; g.notes > maxNotes && at != (sheet.Ref{}) {
		g.dropped++
		return
	}
	g.book.Notes = append(g.book.Notes, sheet.Note{Code: CodeCell, Sheet: g.out.Name, Ref: at, Message: message})
}

// stored is a cell as the file writes it.
type stored struct {
	kind      string
	style     int
	value     string
	hasValue  bool
	inline    richText
	formula   string
	isFormula bool
}

func (g *grid) cell() error {
	s := g.scan
	if err := g.address(); err != nil {
		return err
	}
	var c stored
	var err error
	if c.kind, _, err = s.Attr("t"); err != nil {
		return err
	}
	if c.style, err = number(s, "s", 0); err != nil {
		return err
	}
	preserve := g.preserve || s.Preserves()
	for {
		token, err := s.Next()
		if err != nil {
			return err
		}
		if token == xmlscan.End {
			break
		}
		if token != xmlscan.Start {
			continue
		}
		switch {
		case is(s, "v"):
			c.hasValue = true
			keep := preserve || s.Preserves()
			if c.value, err = s.Content(); !keep {
				c.value = trimBlanks(c.value)
			}
		case is(s, "f"):
			c.isFormula = true
			c.formula, err = g.formula()
		case is(s, "is"):
			c.inline, err = g.richText(s, preserve)
		default:
			err = s.Skip()
		}
		if err != nil {
			return err
		}
	}
	cell, err := g.make(c)
	if err != nil {
		return err
	}
	g.paint(c.style)
	return g.place(cell)
}

// writing is how the file writes a cell, but for its value: cells with one value that are written alike are equal.
type writing struct {
	kind  string
	style int
}

// lastPool is the pool of the last cell of a column; most columns are written in one way.
type lastPool struct {
	writing
	pool *sheet.Pool[string]
}

// poolFor returns the pool of the cells that are written so, by their values.
func (g *grid) poolFor(how writing) *sheet.Pool[string] {
	for len(g.last) <= g.col {
		g.last = append(g.last, lastPool{})
	}
	last := &g.last[g.col]
	if last.pool == nil || last.writing != how {
		pool := g.pools[how]
		if pool == nil {
			pool = &sheet.Pool[string]{}
			how.kind = strings.Clone(how.kind)
			g.pools[how] = pool
		}
		*last = lastPool{how, pool}
	}
	return last.pool
}

// make makes a cell of what the file stores, a blank one where there is nothing in it. Its texts are copied, so that the part need not stay in
// memory.
func (g *grid) make(c stored) (*sheet.Cell, error) {
	shared := !c.isFormula && c.inline == (richText{})
	pool := g.poolFor(writing{c.kind, c.style})
	if shared {
		if known := pool.Find(g.col, c.value); known != nil {
			return known, nil
		}
	}
	remarks := g.notes + len(g.out.Struck) + len(g.out.Inks)
	c.value, c.inline.usual.text, c.formula = strings.Clone(c.value), strings.Clone(c.inline.usual.text), strings.Clone(c.formula)
	cell, err := g.interpret(c)
	switch {
	case err != nil || cell == (sheet.Cell{}):
		return sheet.BlankCell, err
	case cell.Kind == sheet.Struck:
		return sheet.StruckCell, nil
	case shared && remarks == g.notes+len(g.out.Struck)+len(g.out.Inks): // what is noted is noted of each cell
		return pool.Add(g.col, c.value, cell), nil
	}
	return pool.Make(cell), nil
}

// usualCell reads a cell that is written as most programs write most cells, with its address, format and type in this order, and a value:
//
//	<c r="B2" s="1" t="s"><v>17</v></c>
//
// It reports false, and passes over nothing, where a cell or anything else is written in another way, or is at fault.
func (g *grid) usualCell() bool {
	rest, space := g.scan.Rest()
	if g.preserve || space != spaceMain && space != xmlscan.NoSpace {
		return false
	}
	u := usual{rest: rest, ok: true}
	u.word(`<c r="`)
	col, row := u.column(), u.number()
	u.word(`"`)
	var c stored
	if u.has(` s="`) {
		c.style = u.number()
		u.word(`"`)
	}
	if u.has(` t="`) {
		c.kind = u.upTo('"')
		u.word(`"`)
	}
	u.word("><v>")
	c.value, c.hasValue = u.upTo('<'), true
	u.word("</v></c>")
	if !u.ok || row != g.row || c.kind == "inlineStr" || trimBlanks(c.value) != c.value {
		return false
	}
	before := g.col
	g.col = col
	cell, err := g.make(c)
	if err == nil {
		err = g.place(cell)
	}
	if err != nil {
		g.col = before
		return false // to be found again, with its place, in the long way
	}
	g.paint(c.style)
	g.scan.Pass(len(rest) - len(u.rest))
	return true
}

// usual reads the pieces of a cell one by one; once one is missing, ok is false.
type usual struct {
	rest string
	ok   bool
}

func (u *usual) has(word string) bool {
	if !strings.HasPrefix(u.rest, word) {
		return false
	}
	u.rest = u.rest[len(word):]
	return true
}

func (u *usual) word(word string) { u.ok = u.ok && u.has(word) }

// column reads the letters of a column.
func (u *usual) column() int {
	n, col := 0, 0
	for n < min(len(u.rest), 4) && u.rest[n] >= 'A' && u.rest[n] <= 'Z' {
		col = col*26 + int(u.rest[n]-'A') + 1
		n++
	}
	u.rest = u.rest[n:]
	u.ok = u.ok && n > 0 && col <= MaxCols
	return col
}

// number reads a whole number of up to seven digits, the first of them no zero.
func (u *usual) number() int {
	n, number := 0, 0
	for n < min(len(u.rest), 8) && u.rest[n] >= '0' && u.rest[n] <= '9' {
		number = number*10 + int(u.rest[n]-'0')
		n++
	}
	u.ok = u.ok && n > 0 && n < 8 && (u.rest[0] != '0' || n == 1)
	u.rest = u.rest[n:]
	return number
}

// upTo reads a text without entities and line ends up to a sign.
func (u *usual) upTo(sign byte) string {
	for i := 0; i < len(u.rest); i++ {
		switch c := u.rest[i]; {
		case c == sign:
			text := u.rest[:i]
			u.rest = u.rest[i:]
			return text
		case c == '<', c == '&', c == ']', c == '\n', c == '\r', c == '\t':
			u.ok = false
			return ""
		}
	}
	u.ok = false
	return ""
}

func trimBlanks(text string) string {
	if text == "" || text[0] > ' ' && text[len(text)-1] > ' ' {
		return text
	}
	return strings.Trim(text, " \t\r\n")
}

// address finds the column of the current cell, from its reference or from the cell before.
func (g *grid) address() error {
	ref, found, err := g.scan.Attr("r")
	if err != nil {
		return err
	}
	if !found {
		g.col++
	} else {
		at, ok := parseLoose(ref)
		if !ok || at.fixedCol || at.fixedRow {
			return g.scan.Fail("%q is no cell of a sheet", ref)
		}
		if at.row != g.row {
			return g.scan.Fail("the cell %s stands in row %d", ref, g.row)
		}
		g.col = at.col
	}
	if g.col > MaxCols {
		return g.scan.Fail("row %d has more than %d columns", g.row, MaxCols)
	}
	return nil
}

// place puts a cell into the row. Cells may come in any order.
func (g *grid) place(cell *sheet.Cell) error {
	if cell == sheet.BlankCell {
		return nil
	}
	if len(g.cells) >= g.col {
		if g.cells[g.col-1] != sheet.BlankCell {
			return g.scan.Fail("the cell %s stands twice", g.at())
		}
		g.cells[g.col-1] = cell
		return nil
	}
	for len(g.cells) < g.col-1 {
		g.cells = append(g.cells, sheet.BlankCell)
	}
	g.cells = append(g.cells, cell)
	return nil
}

func (g *grid) at() sheet.Ref { return sheet.Ref{Row: g.row, Col: g.col} }

// formula reads <f>. A shared formula is written out for each of its cells.
func (g *grid) formula() (string, error) {
	s := g.scan
	kind, _, err := s.Attr("t")
	if err != nil {
		return "", err
	}
	var index, first, second string
	if kind == "shared" || kind == "dataTable" {
		if err := attributes(s, map[string]*string{"si": &index, "r1": &first, "r2": &second}); err != nil {
			return "", err
		}
	}
	text, err := s.Content()
	if err != nil {
		return "", err
	}
	text = unescape(trimBlanks(text))
	switch {
	case kind == "shared" && text != "":
		g.shared[index] = shared{g.at(), text}
	case kind == "shared":
		master, found := g.shared[index]
		if !found {
			g.noteAt(g.at(), fmt.Sprintf("the formula of %s is shared with a cell that the sheet does not have; only its stored result is known", g.at()))
			return "", nil
		}
		text = master.formula(g.at())
		g.count(text)
	case kind == "dataTable" && text == "":
		text = "TABLE(" + first + "," + second + ")"
	}
	return strings.TrimPrefix(text, "="), nil
}

// interpret makes a cell of what the file stores.
func (g *grid) interpret(c stored) (sheet.Cell, error) {
	var st style
	if c.style < len(g.styles) {
		st = g.styles[c.style]
	} else if c.style > 0 {
		g.noteAt(g.at(), fmt.Sprintf("%s has the cell format %d, which the file does not have; it was taken as General", g.at(), c.style))
	}
	cell := sheet.Cell{Formula: c.formula}
	switch c.kind {
	case "", "n":
		if c.value != "" {
			g.number(&cell, st, c.value)
		}
	case "s":
		if c.value == "" {
			break
		}
		index, err := strconv.Atoi(c.value)
		if err != nil || index < 0 || index >= len(g.strings) {
			return g.broken(st, c, fmt.Sprintf("%s refers to text number %.40q, and the file has %d texts", g.at(), c.value, len(g.strings)))
		}
		if rich, odd := g.rich[index]; odd {
			g.setRich(&cell, st, rich, c)
			return cell, nil
		}
		g.setText(&cell, st, g.strings[index], c)
	case "str":
		if c.hasValue {
			g.setText(&cell, st, unescape(c.value), c)
		}
	case "inlineStr":
		if c.inline.odd() {
			g.setRich(&cell, st, c.inline, c)
			return cell, nil
		}
		text := c.inline.usual.text
		if text == "" {
			text = unescape(c.value)
		}
		g.setText(&cell, st, text, c)
	case "b":
		g.boolean(&cell, st, c)
	case "e":
		if c.value != "" {
			cell.Kind, cell.Raw, cell.Shown, cell.Format = sheet.Error, c.value, c.value, st.code
		}
	case "d":
		if c.value != "" {
			g.isoDate(&cell, st, c.value)
		}
	default:
		return g.broken(st, c, fmt.Sprintf("%s is of a type that is not known, %.40q", g.at(), c.kind))
	}
	if st.struck && (cell.Kind != sheet.Blank || c.isFormula) {
		shown := cell.Shown
		if cell.Kind == sheet.Blank {
			shown = "=" + cell.Formula
		}
		g.out.Strike(g.at(), shown)
		cell = *sheet.StruckCell
	}
	return cell, nil
}

// mostBroken is how many damaged cells a workbook may have. A few are those of some program's mistake, and each is known to be damaged; more
// are a sign that parts of the file do not belong together, and then none of its cells can be relied on.
const mostBroken = 5

// broken makes a cell that cannot be read an error value, so that nobody takes it for blank, and says why.
func (g *grid) broken(st style, c stored, problem string) (sheet.Cell, error) {
	if g.damaged++; g.damaged > mostBroken {
		return sheet.Cell{}, g.scan.Fail("%s, and so do other cells", problem)
	}
	g.noteAt(g.at(), problem+"; the cell cannot be read")
	return sheet.Cell{Kind: sheet.Error, Raw: c.value, Shown: "#?", Format: st.code, Formula: c.formula}, nil
}

// setRich makes a cell the text that is left of one with runs in fonts of their own.
func (g *grid) setRich(cell *sheet.Cell, st style, rich richText, c stored) {
	text := rich.in(st)
	if g.setText(cell, st, text.text, c); rich.inks != "" && cell.Kind != sheet.Blank {
		g.out.Ink(g.at(), rich.inkColours())
	}
	if text.struck != "" {
		g.out.Strike(g.at(), text.struck)
		if cell.Kind == sheet.Blank {
			*cell = *sheet.StruckCell
		}
	}
}

// setText makes a cell a text. An empty text is blank, unless a formula has it as its stored result.
func (g *grid) setText(cell *sheet.Cell, st style, text string, c stored) {
	if text == "" && !c.isFormula {
		return
	}
	cell.Kind, cell.Raw, cell.Shown, cell.Format = sheet.Text, text, text, st.code
	if st.format != nil {
		if shown, ok := st.format.ShowText(text); ok {
			cell.Shown = shown
			g.count(shown)
		}
	}
}

func (g *grid) number(cell *sheet.Cell, st style, raw string) {
	cell.Kind, cell.Raw, cell.Shown, cell.Format = sheet.Number, raw, raw, st.code
	var shown string
	var ok bool
	if st.format == nil {
		shown, ok = numfmt.General(raw)
	} else {
		if st.format.IsDate() {
			cell.Kind = sheet.Date
		}
		shown, ok = st.format.Show(raw, g.date1904)
	}
	if ok {
		cell.Shown = shown
		g.count(shown)
	} else if !numfmt.IsNumber(raw) {
		g.notNumber(cell)
	}
}

// notNumber keeps what stands where a number should as a text.
func (g *grid) notNumber(cell *sheet.Cell) {
	cell.Kind, cell.Shown = sheet.Text, cell.Raw
	g.noteAt(g.at(), fmt.Sprintf("%s should hold a number but holds %.40q; it was taken as text", g.at(), cell.Raw))
}

func (g *grid) boolean(cell *sheet.Cell, st style, c stored) {
	switch c.value {
	case "":
		return
	case "1", "true":
		cell.Shown = "TRUE"
	case "0", "false":
		cell.Shown = "FALSE"
	default:
		g.setText(cell, st, c.value, c)
		g.noteAt(g.at(), fmt.Sprintf("%s should hold TRUE or FALSE but holds %.40q; it was taken as text", g.at(), c.value))
		return
	}
	cell.Kind, cell.Raw, cell.Format = sheet.Bool, c.value, st.code
}

// isoForms are the forms of ISO 8601 that a cell of the type d may have.
var isoForms = []struct {
	layout, format string
	clock          bool
}{
	{"2006-01-02", "yyyy-mm-dd", false},
	{"2006-01-02T15:04:05.999999999", "yyyy-mm-dd hh:mm:ss", false},
	{"2006-01-02T15:04:05.999999999Z07:00", "yyyy-mm-dd hh:mm:ss", false},
	{"2006-01-02T15:04", "yyyy-mm-dd hh:mm", false},
	{"15:04:05.999999999", "hh:mm:ss", true},
	{"T15:04:05.999999999", "hh:mm:ss", true},
	{"15:04", "hh:mm", true},
}

// isoDate turns a date in ISO 8601 into its serial number, so that all dates are of one kind.
func (g *grid) isoDate(cell *sheet.Cell, st style, text string) {
	for _, form := range isoForms {
		moment, err := time.Parse(form.layout, text)
		if err != nil {
			continue
		}
		serial := numfmt.Serial(moment, g.date1904)
		if form.clock {
			serial = numfmt.TimeOfDay(moment)
		}
		if serial < 0 {
			break
		}
		raw := strconv.FormatFloat(serial, 'f', -1, 64)
		if st.format == nil || !st.format.IsDate() {
			st = style{code: form.format, format: numfmt.Parse(form.format)}
		}
		cell.Kind, cell.Raw, cell.Shown, cell.Format = sheet.Date, raw, raw, st.code
		if shown, ok := st.format.Show(raw, g.date1904); ok {
			cell.Shown = shown
		}
		return
	}
	cell.Kind, cell.Raw, cell.Shown, cell.Format = sheet.Text, text, text, st.code
	g.noteAt(g.at(), fmt.Sprintf("%s should hold a date but holds %.40q; it was taken as text", g.at(), text))
}
