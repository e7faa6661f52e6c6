package webpage

import (
	"strings"

	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/palette"
)

// Pages colour cells by attributes, by styles of single elements, and by classes, as spreadsheet programs do that save a sheet as a page.

// cellPaint is a colouring with what it says nothing of left as it is.
type cellPaint struct{ sheet.Paint }

// over returns the colouring that it makes of another one.
func (c cellPaint) over(below sheet.Paint) sheet.Paint {
	if c.Fill != 0 {
		below.Fill = c.Fill
	}
	if c.Ink != 0 {
		below.Ink = c.Ink
	}
	return below
}

// paintIn reads what declarations say of colours (CSS 2.2, 14.1 and 14.2.1).
func paintIn(declarations string) (found cellPaint) {
	for declaration := range strings.SplitSeq(declarations, ";") {
		property, value, _ := strings.Cut(declaration, ":")
		switch strings.ToLower(strings.TrimSpace(property)) {
		case "background", "background-color":
			for word := range strings.FieldsSeq(value) {
				if colour := palette.Named(word); colour != 0 {
					found.Fill = colour
				}
			}
		case "color":
			found.Ink = palette.Named(value)
		}
	}
	return found
}

// ofClass is a rule of a style sheet for one class alone.
var ofClass = pattern.Lazy(`\.([-\w]{1,40})\s*\{([^{}]*)\}`)

// mostClasses is how many classes of a page are known, and longestStyle how much of a style sheet is looked at, in bytes.
const (
	mostClasses  = 4096
	longestStyle = 1 << 20
)

// inStyle reports whether a text is one of style sheets.
func (p *page) inStyle() bool { return len(p.marks) > 0 && p.marks[len(p.marks)-1].tag == "style" }

// readClasses reads the rules of a style sheet.
func (p *page) readClasses(text string) {
	for _, rule := range ofClass().FindAllStringSubmatch(text[:min(len(text), longestStyle)], -1) {
		paint := paintIn(rule[2])
		if paint.Paint == (sheet.Paint{}) || len(p.classes) >= mostClasses {
			continue
		}
		if p.classes == nil {
			p.classes = map[string]cellPaint{}
		}
		p.classes[rule[1]] = paint
	}
}
