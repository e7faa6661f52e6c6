package opendocument

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/runs"
	"example.com/seatline/reconcile/sheet/internal/xmlscan"
	"example.com/seatline/reconcile/sheet/numfmt"
)

// grid is the state of reading one sheet.
type grid struct {
	*reader
	out      *sheet.Sheet
	row, col int      // the last row and column that were read
	columns  []column // from the left, each repeated
	cells    []*sheet.Cell
	pool     sheet.Pool[sheet.Cell]
	notes    int
	rowStyle string    // the style of the cells of the row that have none
	painted  []painted // the coloured cells of the row
}

// painted are coloured cells of a row beside each other, whether something stands in them or not.
type painted struct {
	from, to int
	paint    sheet.Paint
}

// column is a run of equal columns.
type column struct {
	last  int
	style string
}

func (b *reader) table(s *xmlscan.Scanner) error {
	name, _, err := s.AttrIn(spaceTable, "name")
	if err != nil {
		return err
	}
	styleName, _, err := s.AttrIn(spaceTable, "style-name")
	if err != nil {
		return err
	}
	if err := b.meter.Sheet(); err != nil {
		return err
	}
	g := &grid{reader: b, out: &sheet.Sheet{Name: name, Hidden: b.styles[styleName].hidden, HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}}}
	if err := s.Children(g.element); err != nil {
		return err
	}
	g.out.Colours.Sort()
	b.book.Sheets = append(b.book.Sheets, g.out)
	return b.meter.Whole(g.out)
}

// element reads one child of a table, or of a group of rows or columns in it.
func (g *grid) element(s *xmlscan.Scanner) error {
	if s.Space != spaceTable {
		return s.Skip()
	}
	switch s.Local {
	case "table-column":
		return g.readColumn(s)
	case "table-row":
		return g.readRow(s)
	case "table-header-columns", "table-columns", "table-column-group", "table-header-rows", "table-rows", "table-row-group":
		return s.Children(g.element)
	}
	return s.Skip()
}

func hidden(s *xmlscan.Scanner) (bool, error) {
	visibility, _, err := s.AttrIn(spaceTable, "visibility")
	return visibility == "collapse" || visibility == "filter", err
}

func (g *grid) readColumn(s *xmlscan.Scanner) error {
	times, err := count(s, "number-columns-repeated")
	if err != nil {
		return err
	}
	hide, err := hidden(s)
	if err != nil {
		return err
	}
	name, _, err := s.AttrIn(spaceTable, "default-cell-style-name")
	if err != nil {
		return err
	}
	first := 1
	if len(g.columns) > 0 {
		first = g.columns[len(g.columns)-1].last + 1
	}
	last := min(first-1+min(times, MaxCols), MaxCols)
	if first <= last {
		g.columns = append(g.columns, column{last, name})
	}
	for col := first; hide && col <= min(last, g.meter.Limits.Columns); col++ {
		g.out.HiddenCols[col] = true
	}
	return s.Skip()
}

func (g *grid) readRow(s *xmlscan.Scanner) error {
	times, err := count(s, "number-rows-repeated")
	if err != nil {
		return err
	}
	hide, err := hidden(s)
	if err != nil {
		return err
	}
	if g.rowStyle, _, err = s.AttrIn(spaceTable, "default-cell-style-name"); err != nil {
		return err
	}
	g.row++
	g.col, g.cells, g.painted = 0, g.cells[:0], g.painted[:0]
	if err := s.Children(g.readCell); err != nil {
		return err
	}
	first := g.row
	g.row += min(times, 2*MaxRows) - 1
	return g.store(s, first, hide)
}

// store keeps the cells of a row, as often as the row is repeated. Rows without any are not worth remembering as hidden: a file of a few
// bytes may name a million of them on each of its sheets.
func (g *grid) store(s *xmlscan.Scanner, first int, hide bool) error {
	cells := g.cells
	for len(cells) > 0 && cells[len(cells)-1] == sheet.BlankCell {
		cells = cells[:len(cells)-1]
	}
	if len(cells) == 0 {
		return nil
	}
	if g.row > MaxRows {
		return s.Fail("row %d is not on a sheet; the last row is %d", g.row, MaxRows)
	}
	kept, strays := g.meter.Stray(cells)
	for _, col := range strays {
		g.book.Notes = append(g.book.Notes, g.meter.TellStray(CodeCell, g.out.Name, sheet.Ref{Row: first, Col: col}, cells[col-1]))
	}
	if cells = kept; len(cells) == 0 {
		return nil
	}
	if err := g.meter.Row(g.out.Name, first, cells, g.row-first+1); err != nil {
		return err
	}
	for row := first; hide && row <= g.row; row++ {
		g.out.HiddenRows[row] = true
	}
	for len(g.out.Rows) < first-1 {
		g.out.Rows = append(g.out.Rows, nil)
	}
	for row := first; row <= g.row; row++ {
		g.out.Rows = append(g.out.Rows, append([]*sheet.Cell(nil), cells...))
		for _, one := range g.painted {
			g.out.Colours.AddRow(row, one.from, one.to, one.paint)
		}
	}
	return nil
}

// readCell reads a cell, or the place that a merged cell covers.
func (g *grid) readCell(s *xmlscan.Scanner) error {
	if s.Space != spaceTable || s.Local != "table-cell" && s.Local != "covered-table-cell" {
		return s.Skip()
	}
	covered := s.Local == "covered-table-cell"
	times, err := count(s, "number-columns-repeated")
	if err != nil {
		return err
	}
	if !covered {
		if err := g.merge(s); err != nil {
			return err
		}
	}
	cell, paint, err := g.value(s)
	if err != nil {
		return err
	}
	if paint != (sheet.Paint{}) {
		g.painted = append(g.painted, painted{g.col + 1, min(g.col+min(times, MaxCols), MaxCols), paint})
	}
	if covered || cell == (sheet.Cell{}) {
		g.col += min(times, 2*MaxCols)
		return nil
	}
	if g.col+times > MaxCols {
		return s.Fail("row %d has more than %d columns", g.row, MaxCols)
	}
	for len(g.cells) < g.col {
		g.cells = append(g.cells, sheet.BlankCell)
	}
	made := g.pool.Find(g.col+1, cell)
	switch {
	case cell.Kind == sheet.Struck:
		made = sheet.StruckCell
	case made == nil:
		made = g.pool.Add(g.col+1, cell, cell)
	}
	for range times {
		g.cells = append(g.cells, made)
	}
	g.col += times
	return nil
}

// merge takes in that a cell covers others.
func (g *grid) merge(s *xmlscan.Scanner) error {
	cols, err := count(s, "number-columns-spanned")
	if err != nil {
		return err
	}
	rows, err := count(s, "number-rows-spanned")
	if err != nil {
		return err
	}
	if cols == 1 && rows == 1 {
		return nil
	}
	from := sheet.Ref{Row: g.row, Col: g.col + 1}
	to := sheet.Ref{Row: g.row + min(rows, MaxRows) - 1, Col: g.col + min(cols, MaxCols)}
	if to.Row > MaxRows || to.Col > MaxCols {
		return s.Fail("a merged cell goes beyond the sheet")
	}
	g.out.Merges = append(g.out.Merges, sheet.Range{From: from, To: to})
	return nil
}

// value reads what a cell stores and shows, and how it is coloured, and passes over it.
func (g *grid) value(s *xmlscan.Scanner) (sheet.Cell, sheet.Paint, error) {
	attributes := map[string]string{}
	for _, name := range []string{"value-type", "value", "date-value", "time-value", "boolean-value", "string-value"} {
		value, found, err := s.AttrIn(spaceOffice, name)
		if err != nil {
			return sheet.Cell{}, sheet.Paint{}, err
		}
		if found {
			attributes[name] = value
		}
	}
	formula, _, err := s.AttrIn(spaceTable, "formula")
	if err != nil {
		return sheet.Cell{}, sheet.Paint{}, err
	}
	extended, _, err := s.AttrIn(spaceCalcExt, "value-type")
	if err != nil {
		return sheet.Cell{}, sheet.Paint{}, err
	}
	styleName, styled, err := s.AttrIn(spaceTable, "style-name")
	if err != nil {
		return sheet.Cell{}, sheet.Paint{}, err
	}
	if !styled {
		styleName = g.defaultStyle()
	}
	style := g.cellStyle(styleName)
	said, err := g.readContent(s, style.struck)
	if err != nil {
		return sheet.Cell{}, sheet.Paint{}, err
	}
	if said.comment != "" {
		if err := g.meter.Comment(g.out, g.at(), said.comment); err != nil {
			return sheet.Cell{}, sheet.Paint{}, err
		}
	}
	if said.struck != "" {
		g.out.Strike(g.at(), said.struck)
		delete(attributes, "string-value") // it holds what is struck out too
		if said.text == "" {
			return *sheet.StruckCell, style.paint, nil
		}
	}
	if len(said.inks) > 0 {
		g.out.Ink(g.at(), said.inks)
	}
	cell := sheet.Cell{Formula: plainFormula(formula)}
	if extended == "error" {
		attributes["value-type"] = extended
	}
	g.interpret(&cell, attributes, said.text)
	if style.struck && said.text == "" && cell.Kind != sheet.Blank { // a value that shows nothing
		g.out.Strike(g.at(), cell.Raw)
		return *sheet.StruckCell, style.paint, nil
	}
	if cell.Kind != sheet.Blank {
		if cell.Format = style.code; cell.Format == "General" {
			cell.Format = ""
		}
	}
	return cell, style.paint, nil
}

// at is the place of the cell that is being read.
func (g *grid) at() sheet.Ref { return sheet.Ref{Row: g.row, Col: g.col + 1} }

// defaultStyle returns the style of a cell that names none: that of its row or column.
func (g *grid) defaultStyle() string {
	if g.rowStyle != "" {
		return g.rowStyle
	}
	at, _ := slices.BinarySearchFunc(g.columns, g.col+1, func(c column, col int) int { return c.last - col })
	if at < len(g.columns) {
		return g.columns[at].style
	}
	return ""
}

// interpret fills in kind, raw and shown. A value that is not of the type that the cell names is kept as text and noted.
func (g *grid) interpret(cell *sheet.Cell, attributes map[string]string, shown string) {
	set := func(kind sheet.Kind, raw string) { cell.Kind, cell.Raw, cell.Shown = kind, raw, shown }
	switch kind := attributes["value-type"]; kind {
	case "":
		// A text that some other program put there without saying so.
		if shown != "" {
			set(sheet.Text, shown)
		}
	case "string":
		text, given := attributes["string-value"]
		if !given {
			text = shown
		}
		if text != "" || cell.Formula != "" {
			set(sheet.Text, text)
			cell.Shown = text
		}
	case "error":
		set(sheet.Error, shown)
	default:
		raw, kindOfCell, ok := typed(kind, attributes)
		if !ok {
			g.odd(kind, raw)
			kindOfCell = sheet.Text
			raw = shown
		}
		if ok || raw != "" {
			set(kindOfCell, raw)
		}
		if ok {
			cell.Shown = strings.Trim(shown, " ") // left free for alignment
		}
	}
}

// typed reads a value that is no text. ok is false where it is not of its type; then raw is what stands there.
func typed(kind string, attributes map[string]string) (raw string, of sheet.Kind, ok bool) {
	switch kind {
	case "float", "percentage", "currency":
		raw = attributes["value"]
		return raw, sheet.Number, numfmt.IsNumber(raw)
	case "date":
		raw = attributes["date-value"]
		if serial, ok := dateSerial(raw); ok {
			return serial, sheet.Date, true
		}
	case "time":
		raw = attributes["time-value"]
		if serial, ok := durationSerial(raw); ok {
			return serial, sheet.Date, true
		}
	case "boolean":
		raw = attributes["boolean-value"]
		if number, ok := map[string]string{"true": "1", "false": "0"}[raw]; ok {
			return number, sheet.Bool, true
		}
	}
	return raw, sheet.Blank, false
}

// odd notes a cell whose value does not fit its type, up to a limit.
func (g *grid) odd(kind, value string) {
	at := g.at()
	switch g.notes++; {
	case g.notes < maxNotes:
		g.book.Notes = append(g.book.Notes, sheet.Note{Code: CodeCell, Sheet: g.out.Name, Ref: at,
			Message: fmt.Sprintf("%s should hold a value of the type %q but holds %.40q; what it shows was taken as text", at, kind, value)})
	case g.notes == maxNotes:
		g.book.Notes = append(g.book.Notes, sheet.Note{Code: CodeCell, Sheet: g.out.Name, Ref: at,
			Message: fmt.Sprintf("%s and perhaps more cells hold values that do not fit their types; what they show was taken as text", at)})
	}
}

// content is what stands in a cell.
type content struct {
	text, struck, comment string
	inks                  []sheet.Colour // of characters that have one of their own
}

// readContent reads the shown text of a cell, struck out as a whole or not, and its comment; drawings in it are passed over.
func (g *grid) readContent(s *xmlscan.Scanner, struck bool) (content, error) {
	most := g.meter.Limits.Characters * utf8.UTFMax
	p := paragraph{reader: g.reader, left: most, look: runs.Look{Struck: struck}}
	var comment string
	err := s.Children(func(s *xmlscan.Scanner) error {
		if s.Space != spaceOffice || s.Local != "annotation" {
			return p.child(s)
		}
		within := paragraph{reader: g.reader, left: most}
		if err := s.Children(within.child); err != nil {
			return err
		}
		if within.left < 0 {
			return g.meter.LongCell(g.out.Name, g.at())
		}
		comment, _ = within.text.Result()
		return nil
	})
	if err == nil && p.left < 0 {
		err = g.meter.LongCell(g.out.Name, g.at())
	}
	text, gone := p.text.Result()
	return content{text, gone, comment, p.inks}, err
}

// mostInks is how many different colours of characters are told of a cell.
const mostInks = 16

// paragraph gathers the text of a cell or comment.
type paragraph struct {
	*reader
	text runs.Text
	look runs.Look
	inks []sheet.Colour
	// number is how many paragraphs there were.
	number int
	// left is how many bytes it may still have; below zero some were left out.
	left int
	// started says that the current line has text before what comes, and spaced that it ends with white space.
	started, spaced bool
}

// child reads a paragraph, and passes over what is none.
func (p *paragraph) child(s *xmlscan.Scanner) error {
	if s.Space != spaceText || s.Local != "p" && s.Local != "h" {
		return s.Skip()
	}
	if p.number++; p.number > 1 {
		p.put("\n")
	}
	p.started = false
	return p.styled(s)
}

// styled reads text in the style that the current element names.
func (p *paragraph) styled(s *xmlscan.Scanner) error {
	name, found, err := s.AttrIn(spaceText, "style-name")
	if err != nil {
		return err
	}
	around := p.look
	if found {
		one := p.styles[name]
		p.look = one.look.over(around)
		if ink := one.paint.Seen().Ink; ink != 0 && !slices.Contains(p.inks, ink) && len(p.inks) < mostInks {
			p.inks = append(p.inks, ink)
		}
	}
	err = p.inline(s)
	p.look = around
	return err
}

// inline reads text with its spaces, tabs and line breaks (OpenDocument 1.2, part 1, 6.1.2 to 6.1.5). White space in the
// XML counts as one space at most.
func (p *paragraph) inline(s *xmlscan.Scanner) error {
	for {
		token, err := s.Next()
		if err != nil {
			return err
		}
		switch token {
		case xmlscan.End:
			return nil
		case xmlscan.Chars:
			p.chars(s.Text)
		case xmlscan.Start:
			if err := p.element(s); err != nil {
				return err
			}
		}
	}
}

func (p *paragraph) element(s *xmlscan.Scanner) error {
	if s.Space != spaceText {
		return s.Skip()
	}
	switch s.Local {
	case "s":
		times, found, err := s.AttrIn(spaceText, "c")
		if err != nil {
			return err
		}
		spaces := 1
		if found {
			spaces, err = strconv.Atoi(times)
			if err != nil || spaces < 0 || spaces > 32_767 {
				return s.Fail("%q is no number of spaces", times)
			}
		}
		p.add(strings.Repeat(" ", spaces))
	case "tab":
		p.add("\t")
	case "line-break":
		p.add("\n")
	case "span", "a", "ruby", "ruby-base", "date", "time", "sheet-name", "title":
		return p.styled(s)
	}
	return s.Skip()
}

// add adds text that stands for itself.
func (p *paragraph) add(text string) {
	p.put(text)
	p.started, p.spaced = true, false
}

func (p *paragraph) put(text string) {
	if p.left -= len(text); p.left >= 0 {
		p.text.Add(text, p.look)
	} else {
		p.left = -1
	}
}

// chars adds character data: each run of white space makes one space, and none at the start of a paragraph or behind
// another.
func (p *paragraph) chars(text string) {
	if strings.ContainsAny(text, " \t\r\n") {
		text = p.collapse(text)
	}
	if text != "" {
		p.add(text)
		p.spaced = text[len(text)-1] == ' '
	}
}

func (p *paragraph) collapse(text string) string {
	var out strings.Builder
	space := !p.started || p.spaced
	for _, r := range text {
		switch r {
		case ' ', '\t', '\r', '\n':
			if !space {
				out.WriteByte(' ')
			}
			space = true
		default:
			out.WriteRune(r)
			space = false
		}
	}
	return out.String()
}

// plainFormula writes a formula as workbooks do: without the prefix that names its language, and with references without
// brackets and points.
func plainFormula(formula string) string {
	if prefix, rest, found := strings.Cut(formula, "="); found && (prefix == "" || strings.HasSuffix(prefix, ":")) {
		formula = rest
	}
	var out strings.Builder
	quote, inside := byte(0), false
	for i := 0; i < len(formula); i++ {
		c := formula[i]
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"', c == '\'':
			quote = c
		case c == '[' && !inside:
			inside = true
			continue
		case c == ']' && inside:
			inside = false
			continue
		case c == '.' && inside:
			if before := formula[i-1]; before != '[' && before != ':' {
				out.WriteByte('!')
			}
			continue
		}
		out.WriteByte(c)
	}
	return out.String()
}

// dateSerial turns a date of XML Schema into the serial number that workbooks use. Before March 1900, where their count
// has a day too many, it counts on backwards as OpenDocument programs do.
func dateSerial(text string) (string, bool) {
	for _, layout := range []string{"2006-01-02", "2006-01-02T15:04:05.999999999", "2006-01-02T15:04:05.999999999Z07:00"} {
		moment, err := time.Parse(layout, text)
		if err != nil {
			continue
		}
		serial := numfmt.Serial(moment, false)
		if serial < 60 {
			serial = math.Round((serial+1)*1e9) / 1e9
		}
		return formatSerial(serial), true
	}
	return "", false
}

func formatSerial(serial float64) string { return strconv.FormatFloat(serial, 'f', -1, 64) }

// durationSerial turns a duration of XML Schema such as PT13H30M00S into days.
func durationSerial(text string) (string, bool) {
	negative := strings.HasPrefix(text, "-")
	rest, ok := strings.CutPrefix(strings.TrimPrefix(text, "-"), "PT")
	if !ok || rest == "" {
		return "", false
	}
	seconds := 0.0
	for _, unit := range []struct {
		letter string
		size   float64
	}{{"H", 3600}, {"M", 60}, {"S", 1}} {
		number, after, found := strings.Cut(rest, unit.letter)
		if !found {
			continue
		}
		value, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
		if err != nil || value < 0 || value > 1e9 {
			return "", false
		}
		seconds += value * unit.size
		rest = after
	}
	if negative {
		seconds = -seconds
	}
	return formatSerial(seconds / 86400), rest == ""
}
