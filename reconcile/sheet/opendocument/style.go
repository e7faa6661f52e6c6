package opendocument

import (
	"strconv"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/palette"
	"example.com/seatline/reconcile/sheet/internal/runs"
	"example.com/seatline/reconcile/sheet/internal/xmlscan"
)

// dataStyle is a number format: its code as workbooks write it, and the other styles that it uses under conditions.
type dataStyle struct {
	code string
	maps []mapping
}

type mapping struct{ condition, style string }

// style reads one style, of cells, of a table or of numbers.
func (b *reader) style(s *xmlscan.Scanner) error {
	name, _, err := s.AttrIn(spaceStyle, "name")
	if err != nil {
		return err
	}
	switch {
	case s.Space == spaceStyle && s.Local == "style":
		return b.namedStyle(s, name)
	case s.Space == spaceNumber && strings.HasSuffix(s.Local, "-style"):
		one, err := readDataStyle(s)
		b.data[name] = one
		return err
	}
	return s.Skip()
}

func (b *reader) namedStyle(s *xmlscan.Scanner, name string) error {
	var one style
	var err error
	if one.parent, _, err = s.AttrIn(spaceStyle, "parent-style-name"); err != nil {
		return err
	}
	if one.data, _, err = s.AttrIn(spaceStyle, "data-style-name"); err != nil {
		return err
	}
	err = s.Children(func(s *xmlscan.Scanner) error {
		switch {
		case s.Space == spaceStyle && s.Local == "table-properties":
			display, _, err := s.AttrIn(spaceTable, "display")
			if err != nil {
				return err
			}
			one.hidden = display == "false"
		case s.Space == spaceStyle && s.Local == "text-properties":
			if err := one.look.read(s); err != nil {
				return err
			}
			colour, found, err := s.AttrIn(spaceFormatting, "color")
			if err != nil {
				return err
			}
			one.inks, one.paint.Ink = found, palette.Named(colour)
		case s.Space == spaceStyle && s.Local == "table-cell-properties":
			colour, found, err := s.AttrIn(spaceFormatting, "background-color")
			if err != nil {
				return err
			}
			one.fills, one.paint.Fill = found, palette.Named(colour)
		}
		return s.Skip()
	})
	b.styles[name] = one
	return err
}

// look is what a style says of how its text stands; where it says nothing, its parent or the text around it has the say.
type look struct {
	runs.Look
	strikes, places bool // it says whether the text is struck out, and whether it is raised or lowered
}

// read reads the properties of text (OpenDocument 1.2, part 1, 20.358 and 20.382 to 20.388).
func (l *look) read(s *xmlscan.Scanner) error {
	for _, name := range []string{"text-line-through-style", "text-line-through-type"} {
		line, found, err := s.AttrIn(spaceStyle, name)
		if err != nil {
			return err
		}
		if found {
			l.strikes, l.Struck = true, line != "none"
		}
	}
	position, found, err := s.AttrIn(spaceStyle, "text-position")
	if err != nil || !found {
		return err
	}
	first, _, _ := strings.Cut(strings.TrimSpace(position), " ")
	l.places = true
	l.Raised = first == "super" || first != "0%" && strings.HasSuffix(first, "%") && first[0] != '-'
	l.Lowered = first == "sub" || strings.HasPrefix(first, "-")
	return nil
}

// over returns the look of a text in a style within another look.
func (l look) over(around runs.Look) runs.Look {
	if l.strikes {
		around.Struck = l.Struck
	}
	if l.places {
		around.Raised, around.Lowered = l.Raised, l.Lowered
	}
	return around
}

// cellStyle is what a style of cells says of values: the format code, empty for General, whether they are struck out, and how they are coloured.
type cellStyle struct {
	code   string
	struck bool
	paint  sheet.Paint
}

// cellStyle returns what a style of cells says.
func (b *reader) cellStyle(name string) cellStyle {
	one, known := b.known[name]
	if !known {
		one = b.findCellStyle(name)
		b.known[name] = one
	}
	return one
}

// findCellStyle looks through the parents of a style. Their chain is short in any file; a longer one is a circle.
func (b *reader) findCellStyle(name string) cellStyle {
	found, formatted, strikes, fills, inks := cellStyle{}, false, false, false, false
	for range 50 {
		one, known := b.styles[name]
		if !known {
			break
		}
		if one.data != "" && !formatted {
			formatted, found.code = true, b.sections(b.data[one.data])
		}
		if one.look.strikes && !strikes {
			strikes, found.struck = true, one.look.Struck
		}
		if one.fills && !fills {
			fills, found.paint.Fill = true, one.paint.Fill
		}
		if one.inks && !inks {
			inks, found.paint.Ink = true, one.paint.Ink
		}
		name = one.parent
	}
	found.paint = found.paint.Seen()
	return found
}

// sections joins the codes of a style and of those that it maps numbers to, where the conditions are those of the
// sections of a code: positive; negative; zero; text. Of other conditions only the first style is taken.
func (b *reader) sections(d dataStyle) string {
	conditions, codes := "", ""
	for _, one := range d.maps {
		conditions += one.condition + ";"
		codes += b.data[one.style].code + ";"
	}
	switch conditions {
	case "", "value()>=0;", "value()>0;value()<0;", "value()>0;value()<0;value()=0;":
		return codes + d.code
	}
	return b.data[d.maps[0].style].code
}

// readDataStyle writes the elements of a number format as a code.
func readDataStyle(s *xmlscan.Scanner) (dataStyle, error) {
	var d dataStyle
	truncate, _, err := s.AttrIn(spaceNumber, "truncate-on-overflow")
	if err != nil {
		return d, err
	}
	elapsed := truncate == "false"
	err = s.Children(func(s *xmlscan.Scanner) error {
		if s.Space == spaceStyle && s.Local == "map" {
			condition, _, err := s.AttrIn(spaceStyle, "condition")
			if err != nil {
				return err
			}
			target, _, err := s.AttrIn(spaceStyle, "apply-style-name")
			d.maps = append(d.maps, mapping{strings.ReplaceAll(condition, " ", ""), target})
			if err != nil {
				return err
			}
			return s.Skip()
		}
		if s.Space != spaceNumber {
			return s.Skip()
		}
		code, err := element(s, elapsed)
		d.code += code
		return err
	})
	return d, err
}

// element writes one element of a number format as a piece of a code, and passes over it.
func element(s *xmlscan.Scanner, elapsed bool) (string, error) {
	local := s.Local
	long, _, err := s.AttrIn(spaceNumber, "style")
	if err != nil {
		return "", err
	}
	textual, _, err := s.AttrIn(spaceNumber, "textual")
	if err != nil {
		return "", err
	}
	unit := func(letter string) string {
		if long == "long" {
			letter += letter
		}
		return letter
	}
	code := ""
	switch local {
	case "text", "currency-symbol":
		text, err := s.Content()
		return quote(text), err
	case "number", "scientific-number":
		code, err = numberCode(s)
	case "fraction":
		code, err = fractionCode(s)
	case "text-content":
		code = "@"
	case "year":
		code = unit("yy")
	case "month":
		code = unit("m")
		if textual == "true" {
			code = "mm" + code
		}
	case "day":
		code = unit("d")
	case "day-of-week":
		code = "dd" + unit("d")
	case "hours":
		code = unit("h")
		if elapsed {
			code = "[" + code + "]"
		}
	case "minutes":
		code = unit("m")
	case "seconds":
		code = unit("s")
		places, err := whole(s, "decimal-places", 0)
		if err != nil {
			return "", err
		}
		if places > 0 {
			code += "." + strings.Repeat("0", places)
		}
	case "am-pm":
		code = "AM/PM"
	}
	if err != nil {
		return "", err
	}
	return code, s.Skip()
}

// quote writes a text as a literal of a code. A percent sign stays what it is.
func quote(text string) string {
	if strings.Trim(text, " -/:.,()+%") == "" {
		return text
	}
	return `"` + strings.ReplaceAll(text, `"`, `"\""`) + `"`
}

// maxDigits bounds the places that a number format may ask for.
const maxDigits = 30

// whole reads an attribute of a number format that is a number of digits.
func whole(s *xmlscan.Scanner, name string, missing int) (int, error) {
	text, found, err := s.AttrIn(spaceNumber, name)
	if err != nil || !found {
		return missing, err
	}
	value, err := strconv.Atoi(text)
	if err != nil || value < 0 {
		return 0, s.Fail("%s is %q and no number of digits", name, text)
	}
	return min(value, maxDigits), nil
}

func numberCode(s *xmlscan.Scanner) (string, error) {
	scientific := s.Local == "scientific-number"
	digits, err := whole(s, "min-integer-digits", 0)
	if err != nil {
		return "", err
	}
	places, err := whole(s, "decimal-places", -1)
	if err != nil {
		return "", err
	}
	least, err := whole(s, "min-decimal-places", max(places, 0))
	if err != nil {
		return "", err
	}
	power, err := whole(s, "min-exponent-digits", 2)
	if err != nil {
		return "", err
	}
	grouping, _, err := s.AttrIn(spaceNumber, "grouping")
	if err != nil {
		return "", err
	}
	if places < 0 && !scientific {
		return "General", nil
	}
	code := strings.Repeat("0", digits)
	if grouping == "true" {
		for len(code) < 4 {
			code = "#" + code
		}
		code = code[:len(code)-3] + "," + code[len(code)-3:]
	}
	if code == "" {
		code = "#"
	}
	if places > 0 {
		code += "." + strings.Repeat("0", min(least, places)) + strings.Repeat("#", max(places-least, 0))
	}
	if scientific {
		code += "E+" + strings.Repeat("0", max(power, 1))
	}
	return code, nil
}

func fractionCode(s *xmlscan.Scanner) (string, error) {
	digits, err := whole(s, "min-integer-digits", -1)
	if err != nil {
		return "", err
	}
	numerator, err := whole(s, "min-numerator-digits", 1)
	if err != nil {
		return "", err
	}
	denominator, err := whole(s, "min-denominator-digits", 1)
	if err != nil {
		return "", err
	}
	fixed, _, err := s.AttrIn(spaceNumber, "denominator-value")
	if err != nil {
		return "", err
	}
	code := ""
	switch {
	case digits == 0:
		code = "# "
	case digits > 0:
		code = strings.Repeat("0", digits) + " "
	}
	code += strings.Repeat("?", max(numerator, 1)) + "/"
	if fixed != "" {
		return code + fixed, nil
	}
	return code + strings.Repeat("?", max(denominator, 1)), nil
}
