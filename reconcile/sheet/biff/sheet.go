package biff

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf16"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/runs"
	"example.com/seatline/reconcile/sheet/numfmt"
)

// unknownFormula stands for a formula that is not written out.
const unknownFormula = "…"

// grid is the state of reading one sheet.
type grid struct {
	*reader
	out      *sheet.Sheet
	pool     sheet.Pool[sheet.Cell]
	comments comments
	// waiting is the place of the formula whose text comes in the next record.
	waiting sheet.Ref
	style   int
	// columns is how many records about columns there were.
	columns int
}

// sheet reads one sheet.
func (b *reader) sheet(one entry) error {
	if err := b.meter.Sheet(); err != nil {
		return err
	}
	if err := b.records.seek(one.at); err != nil {
		return err
	}
	if err := b.begin(); err != nil {
		return err
	}
	from := b.records.at
	g := &grid{reader: b, out: &sheet.Sheet{Name: one.name, Hidden: one.hidden, HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}}}
	if err := g.read(); err != nil {
		return err
	}
	if err := b.spent.part(b.records.at-from, len(b.records.stream)); err != nil {
		return err
	}
	if err := g.finish(); err != nil {
		return err
	}
	b.book.Sheets = append(b.book.Sheets, g.out)
	return b.meter.Whole(g.out)
}

// read reads the records of the sheet. Charts within it are parts of their own.
func (g *grid) read() error {
	depth, f := 0, &fields{}
	for {
		kind, data, err := g.records.next()
		if err != nil {
			return err
		}
		switch {
		case kind == recBegin:
			depth++
		case kind == recEnd && depth == 0:
			return nil
		case kind == recEnd:
			depth--
		case depth > 0:
		default:
			f.begin(data)
			err := g.record(kind, f)
			if err == nil {
				err = f.err
			}
			if err != nil {
				return err
			}
		}
	}
}

// record takes in one record.
func (g *grid) record(kind int, f *fields) error {
	switch kind {
	case recRow:
		row := f.u16()
		f.skip(10)
		if f.u32()&0x20 != 0 {
			g.out.HiddenRows[row+1] = true
		}
	case recColumn:
		if g.columns++; g.columns > MaxCols {
			return errors.New("it says more often than there are columns how they look")
		}
		first, last := f.u16(), f.u16()
		f.skip(4)
		if f.u16()&1 != 0 {
			for col := first; col <= min(last, MaxCols-1); col++ {
				g.out.HiddenCols[col+1] = true
			}
		}
	case recMerged:
		for range f.u16() {
			top, bottom, left, right := f.u16(), f.u16(), f.u16(), f.u16()
			if f.err != nil || bottom < top || right < left || right >= MaxCols {
				return fmt.Errorf("a merged range goes from row %d to %d and from column %d to %d", top+1, bottom+1, left+1, right+1)
			}
			if err := g.spent.many(g.reader, g.out.Name, &g.spent.merges, "merged ranges"); err != nil {
				return err
			}
			g.out.Merges = append(g.out.Merges, sheet.Range{From: sheet.Ref{Row: top + 1, Col: left + 1}, To: sheet.Ref{Row: bottom + 1, Col: right + 1}})
		}
	case recNote:
		return g.readNote(f)
	case recObject:
		g.readObject(f)
	case recObjectText:
		return g.readObjectText(f)
	case recNumber, recRK, recLabel, recRichText, recSharedText, recTruth, recFormula:
		at := sheet.Ref{Row: f.u16() + 1, Col: f.u16() + 1}
		g.style = f.u16()
		if f.err != nil {
			return f.err
		}
		g.paint(at)
		return g.cell(kind, at, f)
	case recBlank:
		at := sheet.Ref{Row: f.u16() + 1, Col: f.u16() + 1}
		g.style = f.u16()
		return g.blank(at)
	case recBlanks:
		row, col := f.u16(), f.u16()
		for ; len(f.parts) > 0 && len(f.parts[0]) >= 2+2; col++ { // the last column follows
			g.style = f.u16()
			if err := g.blank(sheet.Ref{Row: row + 1, Col: col + 1}); err != nil {
				return err
			}
		}
	case recRKs:
		return g.rks(f)
	case recString:
		if g.waiting == (sheet.Ref{}) {
			return nil
		}
		if err := g.records.appendContinued(f); err != nil {
			return err
		}
		at := g.waiting
		g.waiting = sheet.Ref{}
		return g.place(at, g.text(at, text{units: f.units(f.u16(), f.u8()&1 != 0)}, unknownFormula))
	}
	return nil
}

// blank takes in a cell in which nothing stands.
func (g *grid) blank(at sheet.Ref) error {
	g.paint(at)
	return g.spent.many(g.reader, g.out.Name, &g.spent.blanks, "cells in which nothing stands")
}

// cell takes in the record of one cell.
func (g *grid) cell(kind int, at sheet.Ref, f *fields) error {
	switch kind {
	case recNumber:
		return g.place(at, g.number(at, f.float(), ""))
	case recRK:
		return g.place(at, g.number(at, rk(f.u32()), ""))
	case recLabel, recRichText:
		if err := g.records.appendContinued(f); err != nil {
			return err
		}
		length := f.u16()
		one := text{units: f.units(length, f.u8()&1 != 0)}
		if kind == recRichText {
			one.runs = f.runs(f.u16(), length, 0)
		}
		return g.place(at, g.text(at, one, ""))
	case recSharedText:
		index := f.u32()
		if int64(index) >= int64(len(g.texts)) {
			return fmt.Errorf("%s refers to text number %d, and the file has %d texts", at, index, len(g.texts))
		}
		return g.place(at, g.text(at, g.texts[index], ""))
	case recTruth:
		value, isError := f.u8(), f.u8()
		return g.place(at, g.truth(at, value, isError != 0, ""))
	}
	return g.formula(at, f)
}

// formula takes in the stored result of a formula (MS-XLS, 2.5.133). The format has no way to say that there is none: programs that write
// such files without a spreadsheet program store a nought, and ask for the formula to be worked out when the file is opened, by a bit that
// Excel itself leaves alone (2.4.127).
func (g *grid) formula(at sheet.Ref, f *fields) error {
	const whenOpened = 2
	result := f.take(8)
	flags := f.u16()
	if f.err != nil {
		return f.err
	}
	if flags&whenOpened != 0 && binary.LittleEndian.Uint64(result) == 0 {
		if g.ownFont().struck {
			g.strike(at, "="+unknownFormula)
			return g.place(at, *sheet.StruckCell)
		}
		return g.place(at, sheet.Cell{Kind: sheet.Blank, Formula: unknownFormula})
	}
	if result[6] != 0xff || result[7] != 0xff {
		return g.place(at, g.number(at, math.Float64frombits(binary.LittleEndian.Uint64(result)), unknownFormula))
	}
	switch result[0] {
	case 0:
		g.waiting = at
	case 1, 2:
		return g.place(at, g.truth(at, result[2], result[0] == 2, unknownFormula))
	case 3:
		return g.place(at, sheet.Cell{Kind: sheet.Text, Formula: unknownFormula})
	}
	return nil
}

// rks takes in the record of several numbers of a row (2.4.175).
func (g *grid) rks(f *fields) error {
	row, first := f.u16(), f.u16()
	for col := first; len(f.parts) > 0 && len(f.parts[0]) >= 6+2; col++ { // the last column follows the numbers
		g.style = f.u16()
		at := sheet.Ref{Row: row + 1, Col: col + 1}
		g.paint(at)
		if err := g.place(at, g.number(at, rk(f.u32()), "")); err != nil {
			return err
		}
	}
	f.skip(2)
	return nil
}

// rk decodes a number of 32 bits (2.5.217).
func rk(bits uint32) float64 {
	value := float64(int32(bits) >> 2)
	if bits&2 == 0 {
		value = math.Float64frombits(uint64(bits&^3) << 32)
	}
	if bits&1 != 0 {
		value /= 100
	}
	return value
}

// format returns the number format of the current cell, empty and nil for General.
func (g *grid) format() (code string, format *numfmt.Format) {
	if g.style >= len(g.styles) {
		return "", nil
	}
	id := g.styles[g.style].format
	code, listed := g.codes[id]
	if !listed {
		code, _ = numfmt.Builtin(id)
	}
	if code == "" || strings.EqualFold(code, "General") {
		return "", nil
	}
	if g.formats[id] == nil {
		g.formats[id] = numfmt.Parse(code)
	}
	return code, g.formats[id]
}

// font returns a font by its number, of which 4 does not exist (2.5.129).
func (g *grid) font(number int) font {
	if number > 4 {
		number--
	}
	if number < len(g.fonts) {
		return g.fonts[number]
	}
	return font{}
}

// ownFont is the font of the current cell.
func (g *grid) ownFont() font {
	if g.style < len(g.styles) {
		return g.font(g.styles[g.style].font)
	}
	return font{}
}

// struckOut keeps a cell whose font strikes it out.
func (g *grid) struckOut(at sheet.Ref, cell sheet.Cell) sheet.Cell {
	if !g.ownFont().struck || cell.Shown == "" {
		return cell
	}
	g.strike(at, cell.Shown)
	return *sheet.StruckCell
}

func (g *grid) strike(at sheet.Ref, text string) {
	g.out.Strike(at, text)
	g.spent.chars += int64(len(text))
}

func (g *grid) number(at sheet.Ref, value float64, formula string) sheet.Cell {
	raw := strconv.FormatFloat(value, 'f', -1, 64)
	if size := math.Abs(value); size != 0 && (size < 1e-7 || size >= 1e15) {
		raw = strconv.FormatFloat(value, 'E', -1, 64)
	}
	cell := sheet.Cell{Kind: sheet.Number, Raw: raw, Shown: raw, Formula: formula}
	if !numfmt.IsNumber(raw) { // not a number, or infinite
		cell.Kind, cell.Shown = sheet.Error, "#NUM!"
		return cell
	}
	code, format := g.format()
	cell.Format = code
	shown, ok := numfmt.General(raw)
	if format != nil {
		if format.IsDate() {
			cell.Kind = sheet.Date
		}
		shown, ok = format.Show(raw, g.date1904)
	}
	if ok {
		cell.Shown = shown
	}
	return g.struckOut(at, cell)
}

// content returns what is not struck out of a text and what is; whole is set where the font of its cell strikes it out.
func (g *grid) content(one text, whole bool) (content, struck string) {
	var all runs.Text
	from, look := 0, runs.Look{Struck: whole}
	for _, run := range one.runs {
		to := min(max(int(run.at), from), len(one.units))
		all.Add(string(utf16.Decode(one.units[from:to])), look)
		f := g.font(int(run.font))
		from, look = to, runs.Look{Struck: f.struck, Raised: f.raised, Lowered: f.lowered}
	}
	all.Add(string(utf16.Decode(one.units[from:])), look)
	return all.Result()
}

func (g *grid) text(at sheet.Ref, one text, formula string) sheet.Cell {
	content, struck := g.content(one, g.ownFont().struck)
	if struck != "" {
		g.strike(at, struck)
	}
	g.inks(at, one)
	switch {
	case content == "" && struck != "":
		return *sheet.StruckCell
	case content == "" && formula == "":
		return sheet.Cell{}
	}
	code, format := g.format()
	cell := sheet.Cell{Kind: sheet.Text, Raw: content, Shown: content, Format: code, Formula: formula}
	if format != nil {
		if shown, ok := format.ShowText(content); ok {
			cell.Shown = shown
		}
	}
	return cell
}

// errorNames are the error values by their numbers (2.5.10).
var errorNames = map[byte]string{0x00: "#NULL!", 0x07: "#DIV/0!", 0x0f: "#VALUE!", 0x17: "#REF!", 0x1d: "#NAME?", 0x24: "#NUM!", 0x2a: "#N/A"}

func (g *grid) truth(at sheet.Ref, value byte, isError bool, formula string) sheet.Cell {
	code, _ := g.format()
	cell := sheet.Cell{Kind: sheet.Bool, Raw: "0", Shown: "FALSE", Format: code, Formula: formula}
	switch {
	case isError:
		name, known := errorNames[value]
		if !known {
			name = "#?"
		}
		cell.Kind, cell.Raw, cell.Shown = sheet.Error, name, name
	case value != 0:
		cell.Raw, cell.Shown = "1", "TRUE"
	}
	return g.struckOut(at, cell)
}

// place puts a cell into its row. Cells may come in any order.
func (g *grid) place(at sheet.Ref, cell sheet.Cell) error {
	if at.Col > MaxCols {
		return fmt.Errorf("the cell %s is not on a sheet", at)
	}
	if cell == (sheet.Cell{}) {
		return nil
	}
	if err := g.spent.cell(g.reader, g.out.Name, max(len(cell.Raw), len(cell.Shown))); err != nil {
		return err
	}
	for len(g.out.Rows) < at.Row {
		g.out.Rows = append(g.out.Rows, nil)
	}
	row := g.out.Rows[at.Row-1]
	for len(row) < at.Col {
		row = append(row, sheet.BlankCell)
	}
	if row[at.Col-1] != sheet.BlankCell {
		return fmt.Errorf("the cell %s stands twice", at)
	}
	made := g.pool.Find(at.Col, cell)
	switch {
	case cell.Kind == sheet.Struck:
		made = sheet.StruckCell
	case made == nil:
		made = g.pool.Add(at.Col, cell, cell)
	}
	row[at.Col-1] = made
	g.out.Rows[at.Row-1] = row
	return nil
}

// finish counts what was read, and says what was not.
func (g *grid) finish() error {
	for i, row := range g.out.Rows {
		if len(row) == 0 {
			continue
		}
		if err := g.meter.Row(g.out.Name, i+1, row, 1); err != nil {
			return err
		}
	}
	g.out.Colours.Sort()
	return g.finishComments()
}
