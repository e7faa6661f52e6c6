// Package mill makes suppliers' sheets by chance, together with what their authors meant, has them read, and counts by habit how much
// of it was read as it was meant. It shows what trust the reader deserves; nothing of it is part of the program.
//
// The same seed gives the same sheet. Sizes are such as heads and ferrules of the trade have; part numbers are invented; the words of
// thirteen languages (words.txt) are from memory and not those of the reader.
package mill

import (
	"math/rand/v2"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/sheet"
)

// Axes are the kinds of habits that a sheet has one of each.
var Axes = []string{"kind", "file", "language", "layout", "unit", "number", "tips", "fault"}

// A Sheet is what a supplier sends, and what is meant by it.
type Sheet struct {
	Seed uint64
	// Name is the file's, with an ending that says what it is.
	Name string
	// Text is the file; of a workbook, its description in the form of package workbooktest.
	Text string
	Kind catalog.Kind
	// Habits are those of the sheet, by axis.
	Habits map[string]string
	Parts  []Part
	// OnSide is set where rows and columns changed places.
	OnSide bool
	// Lines is how many rows the sheet has, blank ones at its end left out.
	Lines int
	cells [][]*cell
}

// A Part is one part of a sheet, or a set of Clubs.
type Part struct {
	Number string
	Clubs  int
	Row    int
	Sizes  map[catalog.Role]Size
}

// A Size is what was meant by a cell, on the diameter where it is one.
type Size struct {
	Length measure.Length
	// Other is the same size as a second column states it, zero where none does.
	Other measure.Length
	// Least and Most are the limits that the cell states, both zero where it states none.
	Least, Most measure.Length
	// TipName is set where the size is the name of the tip and not that of the bore.
	TipName bool
	// Absent is set where the cell says nothing.
	Absent bool
	// Fault is set where the cell is not what was meant: it has to be caught, not read.
	Fault bool
	// Cells are those that a finding about the size may name: its own, its heading's, that of its unit.
	Cells []sheet.Ref
}

// A cell of the sheet that is being made.
type cell struct {
	text   string
	number bool // written as a number of the workbook
	format string
}

func word(text string) *cell { return &cell{text: text} }

// Make makes the sheet of a seed.
func Make(seed uint64) *Sheet {
	r := rand.New(rand.NewPCG(seed, 0x5ea7))
	m := &maker{Rand: r, sheet: &Sheet{Seed: seed, Habits: map[string]string{}, Kind: pick(r, catalog.Heads, catalog.Ferrules)}}
	m.chooseHabits()
	m.makeParts()
	m.makeColumns()
	m.layOut()
	m.write()
	return m.sheet
}

type maker struct {
	*rand.Rand
	sheet   *Sheet
	words   tongue
	habits  habits
	parts   []*part
	columns []*column
	merges  [][2]*cell
	hidden  []*cell // columns of these cells are hidden
	anew    bool    // each table on the sheet has its own words for the headings
}

// habits are those of the sheet: Sheet.Habits says them in words.
type habits struct {
	file, language, layout, unit, number, tips, fault string
	inches                                            bool
}

// A part in the making: what is meant, by role, and the cells that state it.
type part struct {
	number string
	set    string
	clubs  int
	tip    tipClass
	sizes  map[catalog.Role]*stated
	cells  []*cell // one for each column
	first  *cell   // that of the number
}

// A size as it is stated: digits in a unit.
type stated struct {
	digits, unit string
	// plus, minus are deviations in the same unit, empty where there are none.
	plus, minus string
	tipName     bool
	absent      bool
	fault       bool
	other       *stated
	at          []*cell
}

func (s *stated) length() measure.Length { return measure.MustParseLength(s.digits + " " + s.unit) }

var layouts = []string{
	"plain", "plain", "title", "title", "merged groups", "two-row headings", "sections", "foot", "blank rows", "transposed", "side by side",
	"stacked", "hidden columns", "size triples", "sets", "cards", "ditto",
}

func (m *maker) chooseHabits() {
	h := &m.habits
	h.file = pick(m.Rand, "xlsx", "xlsx", "csv", "csv", "text")
	h.language = "en"
	if chance(m.Rand, 70) {
		h.language = pick(m.Rand, languages...)
	}
	m.words = tongues[h.language]
	h.layout = pick(m.Rand, layouts...)
	h.inches = chance(m.Rand, 50)
	h.unit = pick(m.Rand, "heading", "heading", "column", "cell", "title", "units row", "nowhere", "mixed columns", "mixed cells", "two columns")
	if h.file == "xlsx" && chance(m.Rand, 12) {
		h.unit = "number format"
	}
	h.number = pick(m.Rand, "plain", "plain", "fixed digits", "decimal comma", "diameter sign", "± in cell", "one-sided limits")
	if h.inches {
		h.number = pick(m.Rand, "plain", "leading dot", "leading dot", "fixed digits", "fractions", "thousandths", "± in cell", "one-sided limits", "decimal comma")
	}
	h.tips = pick(m.Rand, "bores", "bores", "tip names")
	h.fault = "none"
	if chance(m.Rand, 50) {
		h.fault = pick(m.Rand, faults...)
	}
	m.anew = chance(m.Rand, 15)
	m.settle()
	m.sheet.Habits = map[string]string{"kind": m.sheet.Kind.String(), "file": h.file, "language": h.language, "layout": h.layout, "unit": h.unit,
		"number": h.number, "tips": h.tips, "fault": h.fault}
}

// settle takes back what does not go together.
func (m *maker) settle() {
	h := &m.habits
	switch {
	case h.layout == "size triples" && m.sheet.Kind == catalog.Heads:
		h.layout = "title"
	case h.layout == "sets" && m.sheet.Kind == catalog.Ferrules:
		h.layout = "plain"
	case h.layout == "hidden columns" && h.file != "xlsx", h.layout == "side by side" && h.file == "text", h.layout == "transposed" && h.file == "text":
		h.layout = "foot"
	}
	if h.layout == "ditto" {
		h.fault = "none"
	}
	spaceless := h.language == "ja" || h.language == "zh-hans" || h.language == "zh-hant"
	if h.layout == "two-row headings" && spaceless {
		h.layout = "merged groups"
	}
	switch h.layout {
	case "size triples":
		h.unit = pick(m.Rand, "heading", "title", "nowhere")
		h.number = "plain"
		if h.inches {
			h.number = pick(m.Rand, "leading dot", "plain")
		}
	case "merged groups", "two-row headings":
		h.unit = pick(m.Rand, "heading", "cell", "title", "units row", "nowhere", "mixed columns")
	case "transposed", "cards":
		h.unit = pick(m.Rand, "heading", "cell", "title", "nowhere", "mixed columns")
	}
	if h.unit == "number format" {
		h.number = "plain"
	}
	if h.number == "thousandths" {
		h.unit = pick(m.Rand, "heading", "cell")
	}
	if h.number == "fractions" && (h.unit == "mixed cells" || h.unit == "mixed columns" || h.unit == "two columns") {
		h.unit = "cell"
	}
	if h.unit == "mixed cells" {
		// Names of tips among bores in mm would mean two things in one column.
		h.tips = "bores"
		if h.number == "one-sided limits" {
			h.number = "plain"
		}
	}
}
