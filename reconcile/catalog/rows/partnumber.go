package rows

import (
	"fmt"
	"strings"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/cells"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/sheet"
)

// part returns the row's part number as a person would type it, and reports what a spreadsheet program did to it.
func (r *rowReader) part() string {
	t := r.t
	c := t.ByRole[catalog.Part]
	if c == nil {
		if text := r.fields.Text(catalog.Part); text != "" {
			return text
		}
		if t.NamedBy != "" {
			name := r.fields.Text(t.NamedBy)
			if t.NamedBy != catalog.Club {
				r.assume(fmt.Sprintf("%s %s taken for the part number: the table has no other", catalog.RoleName(t.Kind, t.NamedBy), name))
			}
			return name
		}
		if t.TitlePart == "" {
			return ""
		}
		r.assume(fmt.Sprintf("part number %s taken from the title", t.TitlePart))
		return t.TitlePart
	}
	if t.Answered(r.line, catalog.Part) {
		return r.fields.Text(catalog.Part)
	}
	f := r.fields.Text(catalog.Part)
	if f == "" {
		return ""
	}
	if t.Lex.SaysNoNumber(f) {
		none := r.fields.Get(catalog.Part)
		none.Text = ""
		r.fields = r.fields.With(catalog.Part, none)
		return ""
	}
	line, col := t.Region.Grid.Source(r.line, c.Col)
	text, bad := t.partText(f, line, col)
	if bad.Any() {
		t.Add(bad.Severity, bad.Code, line, col, bad.Message, t.Settle("rows", t.LineName(r.line), string(catalog.Part)))
		if bad.Severity == finding.Error {
			r.hold(bad.Message)
		}
	}
	if text != f {
		changed := r.fields.Get(catalog.Part)
		changed.Text = text
		r.fields = r.fields.With(catalog.Part, changed)
	}
	return text
}

// partText returns the part number of a cell.
func (t *Table) partText(text string, line, col int) (string, cells.Trouble) {
	cell := t.Region.Grid.Cell(line, col)
	switch {
	case cell.Kind == sheet.Number && lexicon.IsDigits(cell.Shown) && strings.TrimLeft(cell.Shown, "0") == strings.TrimLeft(text, "0"):
		if cell.Shown != text {
			text = cell.Shown
			return text, cells.Remark("data.part-number", "the part number is stored as the number %s and shown as %s, which is used", cell.Raw, cell.Shown)
		}
	case cell.Kind == sheet.Number && len(text) > 15:
		return text, cells.Problem("data.damaged", "the part number is stored as a number of more than 15 digits, of which the last are lost: %s", cell.Shown)
	case cell.Kind == sheet.Number && strings.ContainsAny(cell.Shown, "eE"):
		return text, cells.Doubt("data.damaged", "the part number is stored as a number and shown as %s; read as %s", cell.Shown, text)
	case cell.Kind == sheet.Text && isExponent(text):
		return text, cells.Problem("data.damaged", "the part number %s was made a number by a spreadsheet program; its digits are lost", text)
	case strings.HasPrefix(text, "'"):
		text = strings.TrimPrefix(text, "'")
	case strings.HasPrefix(text, `="`) && strings.HasSuffix(text, `"`):
		inner := strings.TrimSuffix(strings.TrimPrefix(text, `="`), `"`)
		t.Tell(layout.ToldKey{What: "quoted", Col: col}, finding.Note, "data.part-number", line, col, func() string {
			return fmt.Sprintf("%s is the part number %s in a form that protects it from a spreadsheet program", cell.Raw, inner)
		})
		text = inner
	case cell.Kind == sheet.Text && len(text) > 1 && text[0] == '0' && lexicon.IsDigits(text):
		t.Tell(layout.ToldKey{What: "zeros", Col: col}, finding.Note, "data.part-number", line, col, func() string {
			return fmt.Sprintf("the part number %s is text, and keeps its leading zeros", text)
		})
	}
	if bare := strings.TrimRight(text, "¹²³⁴⁵⁶⁷⁸⁹⁰⁽⁾†‡§※ "); bare != text && bare != "" {
		marked := text
		t.Tell(layout.ToldKey{What: "footnote", Col: col}, finding.Note, "data.part-number", line, col, func() string {
			return fmt.Sprintf("%s bears the mark of a footnote; the part number is %s", marked, bare)
		})
		text = bare
	}
	if t.partWidth > 0 && lexicon.IsDigits(text) && len(text) < t.partWidth {
		return text, cells.Doubt("data.damaged", "the part number %s is shorter than the others, which have %d digits; perhaps %s lost its leading zeros", text, t.partWidth,
			strings.Repeat("0", t.partWidth-len(text))+text)
	}
	return text, cells.Trouble{}
}

// isExponent reports whether a text is a number in scientific notation, such as 1.2E+05.
func isExponent(s string) bool {
	mantissa, exponent, found := strings.Cut(strings.ToUpper(s), "E")
	if !found || len(exponent) < 2 || exponent[0] != '+' && exponent[0] != '-' || !lexicon.IsDigits(exponent[1:]) {
		return false
	}
	whole, fraction, _ := strings.Cut(strings.Replace(mantissa, ",", ".", 1), ".")
	return lexicon.IsDigits(whole) && len(whole) == 1 && (fraction == "" || lexicon.IsDigits(fraction))
}

// findPartWidth finds out whether part numbers are digits with leading zeros, all of one width.
func (t *Table) findPartWidth() {
	c := t.ByRole[catalog.Part]
	if c == nil {
		return
	}
	width := 0
	for _, text := range c.Profile.Texts {
		if !lexicon.IsDigits(text) || text[0] != '0' {
			continue
		}
		if width != 0 && width != len(text) {
			return
		}
		width = len(text)
	}
	t.partWidth = width
}
