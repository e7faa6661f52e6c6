package turnlist

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// WritePDF writes the list as a PDF. Its dates are those of the beginning of 1970, so that the same list has the same bytes. The
// error is the writer's.
func (l *List) WritePDF(w io.Writer) error {
	p := newPaper(l)
	p.top()
	p.jointTable()
	p.layOutTable()
	p.leftTable()
	p.aboutLetters()
	p.footers()
	var b bytes.Buffer
	if err := p.pdf.Output(&b); err != nil {
		return fmt.Errorf("writing the turn list: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// Sizes on paper in mm, of letters in points.
const (
	margin    = 10.0
	footHigh  = 8.0
	pad       = 1.4
	pieceHigh = 8.5
	usual     = 8.5
	little    = 7.2
	large     = 11.5
	mmPerPt   = 25.4 / 72
	leading   = 1.25
)

// paper is a PDF being written, from the top of each page down.
type paper struct {
	pdf          *fpdf.Fpdf
	list         *List
	wide, bottom float64
	y            float64
	replaced     int
}

func newPaper(l *List) *paper {
	size := fpdf.SizeType{Wd: 210, Ht: 297}
	if l.Paper == Letter {
		size = fpdf.SizeType{Wd: 215.9, Ht: 279.4}
	}
	pdf := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "L", UnitStr: "mm", Size: size})
	fixed := time.Unix(0, 0).UTC()
	pdf.SetCreationDate(fixed)
	pdf.SetModificationDate(fixed)
	pdf.SetCatalogSort(true)
	pdf.SetProducer("reconcile", false)
	pdf.SetTitle(l.Title, true)
	pdf.SetLang("en")
	pdf.SetMargins(margin, margin, margin)
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddUTF8FontFromBytes("go", "", goregular.TTF)
	pdf.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	p := &paper{pdf: pdf, list: l, wide: size.Ht - 2*margin, bottom: size.Wd - margin - footHigh}
	p.page()
	return p
}

func (p *paper) page() {
	p.pdf.AddPage()
	p.y = margin
}

// hand is how a line of text is written.
type hand struct {
	size  float64
	bold  bool
	faint bool
	white bool
}

func (h hand) high() float64 { return h.size * leading * mmPerPt }

func (p *paper) use(h hand) {
	style := ""
	if h.bold {
		style = "B"
	}
	p.pdf.SetFont("go", style, h.size)
	switch {
	case h.white:
		p.ink(255, 255, 255)
	case h.faint:
		p.ink(0x4A, 0x57, 0x60)
	default:
		p.ink(0x1F, 0x2A, 0x33)
	}
}

// ink is the colour of letters and of the dots that letters are drawn with.
func (p *paper) ink(r, g, b int) {
	p.pdf.SetTextColor(r, g, b)
	p.pdf.SetFillColor(r, g, b)
}

// widthOf is how wide a text is, in mm.
func (p *paper) widthOf(text string, h hand) float64 {
	p.use(h)
	all, _ := runs(text)
	wide := 0.0
	for _, r := range all {
		if r.by == byDots {
			_, count := dots(r.text)
			wide += float64(count) * h.size * dotSize * mmPerPt
		} else {
			wide += p.pdf.GetStringWidth(r.text)
		}
	}
	return wide
}

// write writes a line of text whose letters stand between y and y + high.
func (p *paper) write(x, y float64, h hand, text string) {
	p.use(h)
	base := y + h.size*mmPerPt*0.98
	all, replaced := runs(text)
	p.replaced += replaced
	for _, r := range all {
		if r.by == byFont {
			p.pdf.Text(x, base, r.text)
			x += p.pdf.GetStringWidth(r.text)
			continue
		}
		dot := h.size * dotSize * mmPerPt
		bars, count := dots(r.text)
		for _, b := range bars {
			p.pdf.Rect(x+float64(b.x)*dot, base-float64(b.y)*dot, float64(b.length)*dot, dot, "F")
		}
		x += float64(count) * dot
	}
}

// broken breaks a text into lines that fit: between words, beside full-width letters, and within a word that is too long.
func (p *paper) broken(text string, h hand, room float64) []string {
	var lines []string
	line := ""
	for _, piece := range pieces(text) {
		if p.widthOf(strings.TrimRight(line+piece, " "), h) <= room {
			line += piece
			continue
		}
		if line != "" {
			lines, line = append(lines, strings.TrimRight(line, " ")), ""
		}
		for p.widthOf(strings.TrimRight(piece, " "), h) > room {
			head := p.fitting(piece, h, room)
			lines, piece = append(lines, piece[:head]), piece[head:]
		}
		line = piece
	}
	if line = strings.TrimRight(line, " "); line != "" {
		lines = append(lines, line)
	}
	return lines
}

// fitting is how many bytes of a word fit, at least its first letter.
func (p *paper) fitting(word string, h hand, room float64) int {
	last := len(word)
	for i := range word {
		if i > 0 && p.widthOf(word[:i], h) > room {
			break
		}
		if i > 0 {
			last = i
		}
	}
	if last == len(word) { // a single letter wider than the room
		for i := range word {
			if i > 0 {
				return i
			}
		}
	}
	return last
}

// pieces are what a text may be broken between: words with the space behind them, and full-width letters.
func pieces(text string) []string {
	var all []string
	from := 0
	for i, r := range text {
		full := unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul)
		if full && i > from {
			all, from = append(all, text[from:i]), i
		}
		if full || r == ' ' {
			end := i + len(string(r))
			all, from = append(all, text[from:end]), end
		}
	}
	if from < len(text) {
		all = append(all, text[from:])
	}
	return all
}

// paragraph writes a text over a width and returns where it ends.
func (p *paper) paragraph(x, y, room float64, h hand, text string) float64 {
	for _, line := range p.broken(text, h, room) {
		p.write(x, y, h, line)
		y += h.high()
	}
	return y
}

func (p *paper) rule(y, width float64) {
	p.pdf.SetDrawColor(0x1F, 0x2A, 0x33)
	p.pdf.SetLineWidth(width)
	p.pdf.Line(margin, y, margin+p.wide, y)
}

// top writes the title, the cautions, and what the list asks for.
func (p *paper) top() {
	title := hand{size: 16, bold: true}
	room := p.wide - 90
	end := p.paragraph(margin, p.y, room, title, p.list.Title)
	if p.list.ShopName != "" {
		end = p.paragraph(margin, end, room, hand{size: usual}, p.list.ShopName)
	}
	p.write(margin+p.wide-84, p.y+2.5, hand{size: usual}, "Order ____________________   Date ______________")
	p.y = end + 1
	p.rule(p.y, 0.5)
	p.y += 2
	p.cautions()
	p.y = p.paragraph(margin, p.y, p.wide, hand{size: 9.5, bold: true}, p.list.Summary())
	p.y = p.paragraph(margin, p.y, p.wide, hand{size: usual}, p.list.Rule()) + 2
}

// cautions stand in a box, in two columns.
func (p *paper) cautions() {
	h := hand{size: 7.6}
	gap := 6.0
	room := (p.wide - 3*gap) / 2
	all := p.list.Cautions()
	column := func(from, to int, x float64) float64 {
		y := p.y + 1.5
		for _, c := range all[from:to] {
			y = p.paragraph(x, y, room, hand{size: h.size, bold: true}, c.Title)
			y = p.paragraph(x, y, room, h, c.Text) + 0.6
		}
		return y
	}
	half := (len(all)+1)/2 - 1 // the first are the longest
	end := max(column(0, half, margin+gap), column(half, len(all), margin+2*gap+room))
	p.pdf.SetDrawColor(0x1F, 0x2A, 0x33)
	p.pdf.SetLineWidth(0.4)
	p.pdf.Rect(margin, p.y, p.wide, end-p.y+0.8, "D")
	p.y = end + 3
}

// column of a table: its heading and its share of the width.
type column struct {
	heading string
	share   float64
}

// block is something that stands in a cell, above the next of its cell.
type block struct {
	high float64
	// text is written, or where it is a box, stands in its middle.
	text string
	hand hand
	box  bool
}

// cell is what stands in a column of a row.
type cell []block

// lines breaks a text into blocks that fit a column of a table.
func (p *paper) lines(c column, h hand, text string) cell {
	var all cell
	for _, line := range p.broken(text, h, c.share*p.wide-2*pad) {
		all = append(all, block{high: h.high(), text: line, hand: h})
	}
	return all
}

func (c cell) high() float64 {
	sum := 0.0
	for _, b := range c {
		sum += b.high
	}
	return sum
}

// headings writes the headings of a table.
func (p *paper) headings(columns []column) {
	h := hand{size: little, bold: true, white: true}
	high := 0.0
	var cells []cell
	for _, c := range columns {
		cells = append(cells, p.lines(c, h, c.heading))
		high = max(high, cells[len(cells)-1].high())
	}
	p.ink(0x1F, 0x2A, 0x33)
	p.pdf.Rect(margin, p.y, p.wide, high+2*pad, "F")
	x := margin
	for i, c := range columns {
		y := p.y + pad + high - cells[i].high()
		for _, b := range cells[i] {
			p.write(x+pad, y, b.hand, b.text)
			y += b.high
		}
		x += c.share * p.wide
	}
	p.y += high + 2*pad
}

// row writes a row of a table, on a page of its own where it would be divided without need, and divided where it is longer than a
// page.
func (p *paper) row(columns []column, cells []cell) {
	total := 0.0
	for _, c := range cells {
		total = max(total, c.high())
	}
	if p.y+total+2*pad > p.bottom {
		p.page()
		p.headings(columns)
	}
	for left := true; left; {
		top, used := p.y+pad, 0.0
		left = false
		x := margin
		for i := range cells {
			y, wide := top, columns[i].share*p.wide
			for len(cells[i]) > 0 && (y+cells[i][0].high <= p.bottom-pad || y == top) {
				b := cells[i][0]
				p.block(b, x, y, wide)
				y += b.high
				cells[i] = cells[i][1:]
			}
			used = max(used, y-top)
			left = left || len(cells[i]) > 0
			x += wide
		}
		p.y = top + used + pad
		p.pdf.SetDrawColor(0x98, 0xA5, 0xAE)
		p.pdf.SetLineWidth(0.3)
		p.pdf.Line(margin, p.y, margin+p.wide, p.y)
		if left {
			p.page()
			p.headings(columns)
		}
	}
}

func (p *paper) block(b block, x, y, wide float64) {
	if !b.box {
		p.write(x+pad, y, b.hand, b.text)
		return
	}
	p.pdf.SetDrawColor(0x98, 0xA5, 0xAE)
	p.pdf.SetLineWidth(0.2)
	p.pdf.Rect(x, y, wide, b.high, "D")
	if b.text != "" {
		p.write(x+(wide-p.widthOf(b.text, b.hand))/2, y+(b.high-b.hand.high())/2, b.hand, b.text)
	}
}

var jointColumns = []column{
	{"No.", 0.035}, {"Heads and tip", 0.145}, {"Ferrule", 0.135}, {"Stop between", 0.145}, {"Take off the base, on the diameter", 0.155},
	{"Do first", 0.12}, {"Piece", 0.085}, {"Hosel measured", 0.07}, {"Finished measured", 0.07}, {"By", 0.04},
}

func (p *paper) jointTable() {
	if len(p.list.Joints) == 0 {
		p.y = p.paragraph(margin, p.y, p.wide, hand{size: usual}, "No joint can be made.")
		return
	}
	p.headings(jointColumns)
	for _, j := range p.list.Joints {
		p.row(jointColumns, p.jointCells(j))
	}
}

func (p *paper) jointCells(j Joint) []cell {
	plain, strong, faint, big := hand{size: usual}, hand{size: usual, bold: true}, hand{size: little, faint: true}, hand{size: large, bold: true}
	cells := make([]cell, len(jointColumns))
	add := func(column int, h hand, text string) {
		if text != "" {
			cells[column] = append(cells[column], p.lines(jointColumns[column], h, text)...)
		}
	}
	add(0, strong, fmt.Sprint(j.Number))
	for _, h := range j.Heads {
		add(1, strong, h.Part)
		add(1, faint, h.Is)
		add(1, plain, h.Note)
	}
	if j.Tip != "" {
		add(1, faint, "tip "+j.Tip)
	}
	add(2, strong, j.Ferrule)
	add(2, faint, j.FerruleIs)
	add(2, faint, j.Base())
	add(3, hand{size: 10.5, bold: true}, j.FinishedRange[0])
	add(3, faint, j.FinishedRange[1])
	add(3, faint, "hosel "+j.Finished[0])
	add(3, faint, j.Hosel())
	if j.Turned {
		add(4, big, j.Off[0]+" = "+j.Off[1])
		add(4, strong, "per side "+j.PerSide[0]+" = "+j.PerSide[1])
		add(4, faint, j.OffRange+"; "+j.HowFar())
	} else {
		add(4, strong, "nothing: ends flush as supplied")
	}
	for _, text := range j.Prepare {
		add(5, plain, text)
	}
	for _, text := range j.Remarks {
		add(5, faint, text)
	}
	for _, piece := range j.Pieces() {
		cells[6] = append(cells[6], block{high: pieceHigh, text: p.shortened(piece.Label, faint, jointColumns[6].share*p.wide-2*pad), hand: faint, box: true})
		for _, column := range [...]int{7, 8, 9} {
			cells[column] = append(cells[column], block{high: pieceHigh, box: true})
		}
	}
	return cells
}

// shortened is the end of a text that fits: the clubs of a set differ there.
func (p *paper) shortened(text string, h hand, room float64) string {
	if p.widthOf(text, h) <= room {
		return text
	}
	letters := []rune(text)
	for from := 1; from < len(letters); from++ {
		if end := "…" + string(letters[from:]); p.widthOf(end, h) <= room {
			return end
		}
	}
	return ""
}

// heading writes the heading of a part of the list, with room for a few rows below it.
func (p *paper) heading(text string) {
	const rows = 24
	if p.y+rows > p.bottom {
		p.page()
	} else {
		p.y += 5
	}
	p.y = p.paragraph(margin, p.y, p.wide, hand{size: large, bold: true}, text) + 1
}

// table writes rows of texts, the first column in bold.
func (p *paper) table(columns []column, rows [][]string) {
	p.headings(columns)
	for _, texts := range rows {
		cells := make([]cell, len(columns))
		for i, text := range texts {
			cells[i] = p.lines(columns[i], hand{size: usual, bold: i == 0}, text)
		}
		p.row(columns, cells)
	}
}

func (p *paper) layOutTable() {
	if len(p.list.LayOut) == 0 {
		return
	}
	p.heading("Ferrules to lay out")
	var rows [][]string
	for _, f := range p.list.LayOut {
		rows = append(rows, []string{fmt.Sprint(f.Count), f.Part, f.Description, f.Whose})
	}
	p.table([]column{{"Count", 0.08}, {"Ferrule", 0.22}, {"Ferrule is", 0.45}, {"Supplier", 0.25}}, rows)
}

func (p *paper) leftTable() {
	if len(p.list.Left) == 0 {
		return
	}
	p.heading("Not on this list")
	var rows [][]string
	for _, l := range p.list.Left {
		what := l.HeadIs
		if l.Note != "" {
			what += " · " + l.Note
		}
		rows = append(rows, []string{l.Head, what, l.Ferrule, fmt.Sprint(l.Count), l.Answer(), l.Why})
	}
	p.table([]column{{"Head", 0.16}, {"Head is", 0.22}, {"Ferrule", 0.12}, {"Count", 0.07}, {"Answer", 0.07}, {"Why", 0.36}}, rows)
}

// aboutLetters says what was done with letters that nothing here has.
func (p *paper) aboutLetters() {
	if p.replaced == 0 {
		return
	}
	p.y += 3
	text := "‹U+…› stands for a letter that this file has no form for, by its Unicode code point. The same list as HTML shows it."
	if p.y+10 > p.bottom {
		p.page()
	}
	p.y = p.paragraph(margin, p.y, p.wide, hand{size: usual, bold: true}, text)
}

// footers number the pages, once it is known how many there are.
func (p *paper) footers() {
	pages := p.pdf.PageCount()
	h := hand{size: little, faint: true}
	for i := 1; i <= pages; i++ {
		p.pdf.SetPage(i)
		p.use(hand{size: 1, bold: true}) // the library sets a font anew only where it thinks that another is set
		y := p.bottom + 3
		p.write(margin, y, h, "A fit on paper is no proof of a bond")
		text := fmt.Sprintf("Page %d of %d", i, pages)
		p.write(margin+p.wide-p.widthOf(text, h), y, h, text)
	}
}
