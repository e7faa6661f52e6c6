package review

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/sheet"
)

// rowView is a row of the sheet, or a word on rows that are left out.
type rowView struct {
	Number int
	// Word says what became of the row, empty where it is used as it stands; Why says why.
	Word, Why string
	// Alone is set where one cell of the row is filled, whose text may then run on.
	Alone bool
	// Class is used, assumed, held, heading or aside.
	Class  string
	Hidden bool
	Cells  []cellView
	Marks  []mark
	// Gap says what is left out here.
	Gap string
	// Heads are what the columns give, above a table that is one of several on its sheet.
	Heads []cellView
	// Is says what a row of a table on its side gives.
	Is *columnView
}

// cellView is a cell as the sheet shows it.
type cellView struct {
	Text, Group string
	// Struck is what of the cell is struck out.
	Struck string
	Marks  []mark
	// Is is what the cell's column gives, in the heads of a table.
	Is *columnView
}

// Class is how the cell looks.
func (c cellView) Class() string {
	var classes []string
	if c.Group != "" {
		classes = append(classes, "g-"+c.Group)
	}
	if len(c.Marks) > 0 {
		classes = append(classes, "doubt")
	}
	return strings.Join(classes, " ")
}

// mark leads from a cell or row to a question.
type mark struct {
	Number int
	ID     string
}

// painter fills the rows of a sheet.
type painter struct {
	view  *sheetView
	sheet *sheet.Sheet
	width int
	// cells and rows are the marks of cells and of whole rows.
	cells map[sheet.Ref][]mark
	rows  map[int][]mark
	keep  map[int]bool
}

// fill makes the rows of a sheet, as many as the limits let.
func (p *page) fill(view *sheetView, s *sheet.Sheet) {
	paint := &painter{view: view, sheet: s, width: min(s.Width(), MostColumns), cells: map[sheet.Ref][]mark{}, rows: map[int][]mark{}, keep: map[int]bool{}}
	for _, t := range view.Tables {
		paint.mark(t)
	}
	for col := 1; col <= paint.width; col++ {
		view.Columns = append(view.Columns, columnHead{Letters: sheet.ColumnName(col), Hidden: s.HiddenCols[col], Is: paint.headOf(col)})
	}
	left := 0
	for row := 1; row <= len(s.Rows); row++ {
		full := len(view.Rows) >= MostRows || p.cellsLeft < paint.width
		if full || row > FirstRows && !paint.keep[row] {
			left++
			continue
		}
		paint.gap(row-left, left)
		left = 0
		if heads := paint.headsAbove(row); heads != nil {
			view.Rows = append(view.Rows, rowView{Heads: heads})
		}
		view.Rows = append(view.Rows, paint.row(row))
		p.cellsLeft -= paint.width
	}
	paint.gap(len(s.Rows)+1-left, left)
	if hidden := s.Width() - paint.width; hidden > 0 {
		view.Cut = fmt.Sprintf("%s further right are not shown here. All were read.", phrase.Count(hidden, "column"))
	}
}

// gap says that rows are left out.
func (p *painter) gap(first, count int) {
	if count == 0 {
		return
	}
	p.view.Rows = append(p.view.Rows, rowView{Gap: fmt.Sprintf("rows %d to %d, %s, are not shown here; all were read", first, first+count-1, phrase.Count(count, "row"))})
}

// mark notes which cells and rows are in doubt, and which rows a person wants to see.
func (p *painter) mark(t *tableView) {
	for _, q := range t.Questions {
		m := mark{q.Number, q.ID}
		if area, err := sheet.ParseRange(q.Cell); q.Cell != "" && err == nil {
			p.cells[area.From] = append(p.cells[area.From], m)
			p.keep[area.From.Row] = true
		} else if row, err := strconv.Atoi(strings.TrimPrefix(q.Cell, "row ")); err == nil {
			p.rows[row] = append(p.rows[row], m)
			p.keep[row] = true
		}
	}
	if t.turned {
		return
	}
	for _, row := range t.HeadingRows {
		p.keep[row] = true
	}
	for row, read := range t.places {
		if read.Outcome == catalog.Held {
			p.keep[row] = true
		}
	}
}

// headOf is what the only upright table of a sheet says of a column.
func (p *painter) headOf(col int) *columnView {
	if p.view.upright == nil {
		return nil
	}
	return p.view.upright.of(sheet.ColumnName(col))
}

// of is the column of some letters, nil where the table has none.
func (v *tableView) of(letters string) *columnView {
	if c, known := v.roles[letters]; known {
		return &c
	}
	return nil
}

// headsAbove are the heads of the tables that begin at a row, nil where none does or where they stand above the sheet.
func (p *painter) headsAbove(row int) []cellView {
	if p.view.upright != nil {
		return nil
	}
	var heads []cellView
	for _, t := range p.view.Tables {
		if t.turned || len(t.Columns) == 0 || t.first() != row {
			continue
		}
		if heads == nil {
			heads = make([]cellView, p.width)
		}
		for col := range heads {
			if c := t.of(sheet.ColumnName(col + 1)); c != nil {
				heads[col].Is = c
			}
		}
	}
	return heads
}

// first is the row at which what the table's columns give is to be said: its first heading, or its first row.
func (v *tableView) first() int {
	if len(v.HeadingRows) > 0 {
		return v.HeadingRows[0]
	}
	if len(v.Rows) > 0 {
		return v.Rows[0].Row
	}
	return 1
}

// at returns the table that a cell belongs to and what its column gives; nil where it belongs to none.
func (p *painter) at(row, col int) (*tableView, *columnView) {
	for _, t := range p.view.Tables {
		switch {
		case t.limited && !t.area.Contains(sheet.Ref{Row: row, Col: col}):
		case t.turned:
			if c := t.of(strconv.Itoa(row)); c != nil && t.places[col] != nil {
				return t, c
			}
		case t.places[row] != nil:
			if c := t.of(sheet.ColumnName(col)); c != nil {
				return t, c
			}
		}
	}
	return nil, nil
}

func (p *painter) row(number int) rowView {
	r := rowView{Number: number, Class: "aside", Hidden: p.sheet.HiddenRows[number], Marks: p.rows[number]}
	p.outcome(&r)
	filled := 0
	for col := 1; col <= p.width; col++ {
		ref := sheet.Ref{Row: number, Col: col}
		cell := p.sheet.Cell(ref)
		view := cellView{Text: clip(cell.Shown), Struck: clip(p.sheet.Struck[ref]), Marks: p.cells[ref]}
		if t, c := p.at(number, col); t != nil {
			view.Group = c.Group
		}
		r.Cells = append(r.Cells, view)
		if view.Text != "" || view.Struck != "" {
			filled++
		}
	}
	r.Alone = filled == 1
	return r
}

// outcome says what became of a row: the most doubtful of what the tables say that have it.
func (p *painter) outcome(r *rowView) {
	worst := (*catalog.Row)(nil)
	for _, t := range p.view.Tables {
		if t.turned {
			if c := t.of(strconv.Itoa(r.Number)); c != nil {
				r.Is, r.Class = c, "used"
			}
			continue
		}
		if row := t.places[r.Number]; row != nil && (worst == nil || row.Outcome > worst.Outcome) {
			worst = row
		}
		for _, heading := range t.HeadingRows {
			if heading == r.Number {
				r.Class, r.Word = "heading", "heading"
			}
		}
	}
	if worst == nil || r.Word != "" {
		return
	}
	r.Class, r.Why = [...]string{"aside", "used", "assumed", "held"}[worst.Outcome], clip(worst.Why)
	r.Word = [...]string{"set aside", "", "assumed", "held"}[worst.Outcome]
}

// clip keeps a text of a cell short.
func clip(text string) string {
	text = phrase.OneLine(text)
	if runes := []rune(text); len(runes) > MostRunes {
		return string(runes[:MostRunes]) + "…"
	}
	return text
}
