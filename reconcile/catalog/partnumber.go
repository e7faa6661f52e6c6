package catalog

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// part returns the row's part number as a person would type it, and reports what a spreadsheet program did to it.
func (r *rowReader) part() string {
	t := r.t
	c := t.byRole[Part]
	if c == nil {
		if text := r.fields.Text(Part); text != "" || t.titlePart == "" {
			return text
		}
		r.assume(fmt.Sprintf("part number %s taken from the title", t.titlePart))
		return t.titlePart
	}
	if _, answered := t.rules.row(r.line).Values[Part]; answered {
		return r.fields.Text(Part)
	}
	f := r.fields.Text(Part)
	if f == "" {
		return ""
	}
	line, col := t.region.grid.source(r.line, c.col)
	text, bad := t.partText(f, line, col)
	if bad.any() {
		t.add(bad.severity, bad.code, line, col, bad.message, t.settle("rows", lineName(r.line), string(Part)))
		if bad.severity == finding.Error {
			r.hold(bad.message)
		}
	}
	if text != f {
		changed := r.fields.Get(Part)
		changed.Text = text
		r.fields = r.fields.With(Part, changed)
	}
	return text
}

// partText returns the part number of a cell.
func (t *rowTable) partText(text string, line, col int) (string, trouble) {
	cell := t.region.grid.cell(line, col)
	switch {
	case cell.Kind == sheet.Number && isDigits(cell.Shown) && strings.TrimLeft(cell.Shown, "0") == strings.TrimLeft(text, "0"):
		if cell.Shown != text {
			text = cell.Shown
			return text, trouble{finding.Note, "data.part-number", fmt.Sprintf("the part number is stored as the number %s and shown as %s, which is used", cell.Raw, cell.Shown)}
		}
	case cell.Kind == sheet.Number && len(text) > 15:
		return text, problem("data.damaged", "the part number is stored as a number of more than 15 digits, of which the last are lost: %s", cell.Shown)
	case cell.Kind == sheet.Number && strings.ContainsAny(cell.Shown, "eE"):
		return text, doubt("data.damaged", "the part number is stored as a number and shown as %s; read as %s", cell.Shown, text)
	case cell.Kind == sheet.Text && isExponent(text):
		return text, problem("data.damaged", "the part number %s was made a number by a spreadsheet program; its digits are lost", text)
	case strings.HasPrefix(text, "'"):
		text = strings.TrimPrefix(text, "'")
	case strings.HasPrefix(text, `="`) && strings.HasSuffix(text, `"`):
		inner := strings.TrimSuffix(strings.TrimPrefix(text, `="`), `"`)
		t.tell(toldKey{"quoted", col}, finding.Note, "data.part-number", line, col, func() string {
			return fmt.Sprintf("%s is the part number %s in a form that protects it from a spreadsheet program", cell.Raw, inner)
		})
		text = inner
	case cell.Kind == sheet.Text && len(text) > 1 && text[0] == '0' && isDigits(text):
		t.tell(toldKey{"zeros", col}, finding.Note, "data.part-number", line, col, func() string {
			return fmt.Sprintf("the part number %s is text, and keeps its leading zeros", text)
		})
	}
	if t.partWidth > 0 && isDigits(text) && len(text) < t.partWidth {
		return text, doubt("data.damaged", "the part number %s is shorter than the others, which have %d digits; perhaps %s lost its leading zeros", text, t.partWidth,
			strings.Repeat("0", t.partWidth-len(text))+text)
	}
	return text, trouble{}
}

// isExponent reports whether a text is a number in scientific notation, such as 1.2E+05.
func isExponent(s string) bool {
	mantissa, exponent, found := strings.Cut(strings.ToUpper(s), "E")
	if !found || len(exponent) < 2 || exponent[0] != '+' && exponent[0] != '-' || !isDigits(exponent[1:]) {
		return false
	}
	whole, fraction, _ := strings.Cut(strings.Replace(mantissa, ",", ".", 1), ".")
	return isDigits(whole) && len(whole) == 1 && (fraction == "" || isDigits(fraction))
}

// partsRepeat reports whether part numbers come back in other lines with another club, so that only both together name
// a part.
func (t *rowTable) partsRepeat() bool {
	if t.byRole[Part] == nil || t.byRole[Club] == nil {
		return false
	}
	clubs := map[string]string{}
	for i, kind := range t.lines {
		if kind != lineData {
			continue
		}
		part, club := t.textOf(t.region.from+i, Part), t.textOf(t.region.from+i, Club)
		if part == "" || club == "" {
			continue
		}
		if known, found := clubs[part]; found && known != club {
			return true
		}
		clubs[part] = club
	}
	return false
}

// findPartWidth finds out whether part numbers are digits with leading zeros, all of one width.
func (t *rowTable) findPartWidth() {
	c := t.byRole[Part]
	if c == nil {
		return
	}
	width := 0
	for _, text := range c.profile.texts {
		if !isDigits(text) || text[0] != '0' {
			continue
		}
		if width != 0 && width != len(text) {
			return
		}
		width = len(text)
	}
	t.partWidth = width
}
