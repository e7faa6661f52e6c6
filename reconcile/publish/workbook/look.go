package workbook

import (
	"github.com/xuri/excelize/v2"

	"example.com/seatline/fitcalc"
)

// Colours of the workbook. The fills of the verdicts have a lightness (CIE L*) of about 31, 83, 62, 47, 96, 100
// and 87: those of what fits are far apart, and the rest is pale.
const (
	ink    = "1F2A33"
	faint  = "5A6872"
	white  = "FFFFFF"
	header = "2E3F4D"
	band   = "DDE5EA"
	rule   = "B9C4CB"

	fillFlush = "134B7E"
	fillTurn  = "B3D4EA"
	fillPrep  = "DB8228"
	fillSome  = "84609C"
	fillAsk   = "FFF3D1"
	fillNo    = "FFFFFF"
	fillBare  = "DBDBDB"
)

const fontFamily = "Arial"

// look is how a cell looks. It is comparable, so that each style is made once.
type look struct {
	bold        bool
	size        float64 // points; 0 is the usual size
	color, fill string
	format      string // number format
	across      string // left, center or right; empty is left for text and right for numbers
	down        string // top, center or bottom; empty is top
	wrap        bool
	rotated     bool
	under, over bool // a rule below, above
	line        bool // under the letters: the cell leads somewhere
	indent      int
}

const usualSize = 9

var (
	plain   = look{under: true}
	strong  = look{under: true, bold: true}
	heading = look{bold: true, color: white, fill: header, wrap: true, down: "bottom"}
	turned  = look{bold: true, color: white, fill: header, rotated: true, down: "bottom", across: "center"}
	title   = look{bold: true, size: 16}
	section = look{bold: true, size: 11, over: true}
	note    = look{color: faint}
	prose   = look{wrap: true}
	group   = look{bold: true, fill: band}
)

// number is the look of a number, which keeps a little off the text to its right.
func (l look) number(format string) look {
	l.format = format
	if l.across == "" {
		l.across, l.indent = "right", 1
	}
	return l
}

func (l look) centred() look {
	l.across, l.indent = "center", 0
	return l
}

// light is the look without its bold.
func (l look) light() look {
	l.bold = false
	return l
}

// verdictLook is the fill and colour of a verdict.
func verdictLook(v fitcalc.Verdict) look {
	l := look{under: true, color: ink, across: "center"}
	switch v {
	case fitcalc.Flush:
		l.fill, l.color, l.bold = fillFlush, white, true
	case fitcalc.Turn:
		l.fill = fillTurn
	case fitcalc.Prep:
		l.fill = fillPrep
	case fitcalc.Measure:
		l.fill, l.color, l.bold = fillSome, white, true
	case fitcalc.Ask:
		l.fill, l.bold = fillAsk, true
	case fitcalc.No:
		l.fill, l.color = fillNo, faint
	case fitcalc.Bare:
		l.fill, l.color = fillBare, ink
	}
	return l
}

// marks are the letters that stand for the verdicts in the matrix.
var marks = map[fitcalc.Verdict]string{
	fitcalc.Flush: "F", fitcalc.Turn: "T", fitcalc.Prep: "P", fitcalc.Measure: "M", fitcalc.Ask: "?", fitcalc.No: "x", fitcalc.Bare: "–",
}

func (l look) style() *excelize.Style {
	size, color := l.size, l.color
	if size == 0 {
		size = usualSize
	}
	if color == "" {
		color = ink
	}
	down := l.down
	if down == "" {
		down = "top"
	}
	across := l.across
	if across == "" && l.indent > 0 {
		across = "left" // an indent counts only where the side is said
	}
	s := &excelize.Style{
		Font: &excelize.Font{Family: fontFamily, Size: size, Bold: l.bold, Color: color},
		Alignment: &excelize.Alignment{
			Horizontal: across, Vertical: down, WrapText: l.wrap, Indent: l.indent,
		},
	}
	if l.line {
		s.Font.Underline = "single"
	}
	if l.rotated {
		s.Alignment.TextRotation = 90
	}
	if l.fill != "" {
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{l.fill}}
	}
	if l.format != "" {
		format := l.format
		s.CustomNumFmt = &format
	}
	if l.under {
		s.Border = append(s.Border, excelize.Border{Type: "bottom", Color: rule, Style: 7})
	}
	if l.over {
		s.Border = append(s.Border, excelize.Border{Type: "top", Color: header, Style: 1})
	}
	return s
}
