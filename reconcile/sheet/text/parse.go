package text

import (
	"strings"

	"example.com/seatline/reconcile/sheet"
)

const (
	// maxQuoted is the longest cell in quotes, in bytes: a little more than a spreadsheet cell can hold (32,767
	// characters). A quotation mark that finds no partner within this length is an ordinary sign.
	maxQuoted = 4 * 32_767
	// maxStray is the number of such marks after which quotation marks are taken as ordinary signs altogether, so
	// that a file full of them costs no search for each.
	maxStray = 1000
	// maxRows is the number of rows of a sheet, those in which nothing stands included.
	maxRows = 1_048_576
)

// table is what parsing a text gives.
type table struct {
	rows [][]*sheet.Cell
	// stray are the cells whose quotation marks did not follow the rules.
	stray []sheet.Ref
}

// parser cuts a text into records and fields.
type parser struct {
	text      string
	pos       int
	separator byte // 0 for none
	// spaced is set where only separators with a blank behind them count, since others stand within numbers.
	spaced bool
	// unclosed counts opening marks without a partner.
	unclosed int
	// dittos is set where marks that may be cells by themselves are, and mayDitto once one has been met.
	dittos, mayDitto bool
}

// parse reads all rows. Empty rows at the end are dropped; those between are kept, so that rows count as in a spreadsheet
// program.
func parse(text string, by separation, meter *sheet.Meter) (table, error) {
	p := parser{text: text, separator: by.separator, spaced: by.spaced, dittos: hasDittos(text, by)}
	var t table
	var row []*sheet.Cell
	var slab []*sheet.Cell
	var pool sheet.Pool[string]
	for p.pos < len(p.text) {
		row = row[:0]
		for more := true; more; {
			var field string
			var stray bool
			field, stray, more = p.field()
			cell := sheet.BlankCell
			if field != "" {
				if cell = pool.Find(len(row)+1, field); cell == nil {
					cell = pool.Add(len(row)+1, field, sheet.Cell{Kind: sheet.Text, Raw: field, Shown: field})
				}
			}
			row = append(row, cell)
			if stray {
				t.stray = append(t.stray, sheet.Ref{Row: len(t.rows) + 1, Col: len(row)})
			}
			if len(row) > meter.Limits.Cells {
				break
			}
		}
		if len(t.rows) >= maxRows {
			return table{}, meter.ManyRows("")
		}
		if len(row) == 1 && row[0] == sheet.BlankCell {
			t.rows = append(t.rows, nil)
			continue
		}
		if err := meter.Row("", len(t.rows)+1, row, 1); err != nil {
			return table{}, err
		}
		if len(row) > cap(slab)-len(slab) {
			slab = make([]*sheet.Cell, 0, max(4096, len(row)))
		}
		start := len(slab)
		slab = append(slab, row...)
		t.rows = append(t.rows, slab[start:len(slab):len(slab)])
	}
	for len(t.rows) > 0 && t.rows[len(t.rows)-1] == nil {
		t.rows = t.rows[:len(t.rows)-1]
	}
	return t, nil
}

// field reads one field and what ends it; more says that another field of the same record follows.
func (p *parser) field() (field string, stray, more bool) {
	opened := p.pos
	for opened < len(p.text) && p.text[opened] == ' ' {
		opened++
	}
	if opened < len(p.text) && p.text[opened] == '"' && p.unclosed < maxStray {
		field, end, stray, closed := p.quoted(opened)
		if closed && p.isDitto(opened, end, stray) {
			if p.mayDitto = true; p.dittos {
				p.pos = opened + 1
				for p.separator != ' ' && p.pos < len(p.text) && p.text[p.pos] == ' ' {
					p.pos++
				}
				return `"`, true, p.endOfField()
			}
		}
		if closed {
			p.pos = end
			return field, stray, p.endOfField()
		}
		p.unclosed++
		field, _ = p.unquoted()
		return field, true, p.endOfField()
	}
	field, stray = p.unquoted()
	return field, stray && opened < len(p.text) && p.text[opened] == '"', p.endOfField()
}

// lookedThrough is how much of a text is looked at to learn how its quotation marks are meant, in bytes.
const lookedThrough = 1 << 20

// hasDittos reports whether marks that may be cells by themselves are: where so more records have as many fields as most have. A mark and the
// one in the next record may leave as many fields between them as any record has; then there are more records.
func hasDittos(text string, by separation) bool {
	if by.separator == 0 {
		return false
	}
	p := parser{text: text[:min(len(text), lookedThrough)], separator: by.separator, spaced: by.spaced}
	asQuotes, quoted := p.likeness()
	if !p.mayDitto || asQuotes == 0 {
		return false
	}
	p = parser{text: p.text, separator: by.separator, spaced: by.spaced, dittos: true}
	asDittos, parted := p.likeness()
	return asDittos > asQuotes || asDittos == asQuotes && parted > quoted && quoted >= leastAlike
}

// leastAlike is how many records have to have as many fields as most for a text in quotes, which may hold a line end, to be taken for two marks.
const leastAlike = 8

// likeness is the share of the records that have as many fields as most have, and how many these are, but for those of one: prose above and
// below says nothing of it.
func (p *parser) likeness() (share float64, most int) {
	widths, records := map[int]int{}, 0
	for p.pos < len(p.text) {
		width := 0
		for more := true; more; width++ {
			_, _, more = p.field()
		}
		if width > 1 {
			widths[width]++
			records++
		}
	}
	for _, n := range widths {
		most = max(most, n)
	}
	return float64(most) / float64(max(records, 1)), most
}

// isDitto reports whether the mark at an index is a cell by itself, "as above", and opens no quotes: what it would hold until the end of a
// field begins with the sign between fields or a line end. Texts may begin so too, with a comma or on a line of their own; then it
// also has to end so, or to have other marks in it.
func (p *parser) isDitto(opened, end int, stray bool) bool {
	held := strings.Trim(p.text[opened+1:end], " ")
	held = strings.TrimRight(strings.TrimSuffix(held, `"`), " ")
	between := func(c byte) bool { return c == p.separator || c == '\n' || c == '\r' }
	if held == "" || !between(held[0]) {
		return false
	}
	return stray || held[0] == p.separator && p.separator != ',' || between(held[len(held)-1])
}

// unquoted reads up to the next separator or line end.
func (p *parser) unquoted() (field string, quote bool) {
	start := p.pos
	for ; p.pos < len(p.text); p.pos++ {
		c := p.text[p.pos]
		if c == '\n' || c == '\r' || c == p.separator && p.separates(p.pos) {
			break
		}
		quote = quote || c == '"'
	}
	return p.text[start:p.pos], quote
}

// quoted reads a field whose opening mark is at an index. A doubled mark stands for one; a mark that neither ends the
// field nor is doubled is kept and makes the field stray. closed is false where the field has no end.
func (p *parser) quoted(opened int) (field string, end int, stray, closed bool) {
	var out strings.Builder
	start := opened + 1
	limit := min(len(p.text), start+maxQuoted)
	for i := start; i < limit; i++ {
		if p.text[i] != '"' {
			continue
		}
		if i+1 < len(p.text) && p.text[i+1] == '"' {
			out.WriteString(p.text[start : i+1])
			i++
			start = i + 1
			continue
		}
		if after, ends := p.endsAt(i + 1); ends {
			out.WriteString(p.text[start:i])
			return lineEnds(out.String()), after, stray, true
		}
		stray = true
	}
	return "", 0, false, false
}

// endsAt reports whether a field ends at an index, apart from spaces, and where.
func (p *parser) endsAt(i int) (end int, ends bool) {
	for i < len(p.text) && p.text[i] == ' ' && p.separator != ' ' {
		i++
	}
	if i == len(p.text) {
		return i, true
	}
	c := p.text[i]
	return i, c == '\n' || c == '\r' || c == p.separator && p.separates(i)
}

// separates reports whether the separator at an index counts.
func (p *parser) separates(i int) bool {
	return p.separator != 0 && (!p.spaced || i+1 == len(p.text) || strings.IndexByte(" \r\n", p.text[i+1]) >= 0)
}

// endOfField passes over a separator or line end and reports whether the record goes on.
func (p *parser) endOfField() bool {
	if p.pos >= len(p.text) {
		return false
	}
	c := p.text[p.pos]
	p.pos++
	if c == p.separator && c != '\n' && c != '\r' {
		return true
	}
	if c == '\r' && p.pos < len(p.text) && p.text[p.pos] == '\n' {
		p.pos++
	}
	return false
}

// lineEnds makes all line ends inside a cell the same.
func lineEnds(text string) string {
	if strings.IndexByte(text, '\r') < 0 {
		return text
	}
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
}
