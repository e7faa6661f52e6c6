package workbook

import (
	"math"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/palette"
	"example.com/seatline/reconcile/sheet/internal/xmlscan"
)

// tone is a colour as a style names it (CT_Color, ECMA-376-1, 18.3.1.15): by its digits, a number of the palette or a number of the theme,
// the latter lighter or darker by tint. The zero tone is none.
type tone struct {
	kind   byte // 'r', 'i' or 't'
	digits string
	number int
	tint   float64
}

// readTone reads the attributes of a colour. What is no colour is none: it says nothing of values.
func readTone(s *xmlscan.Scanner) (tone, error) {
	var digits, index, theme, tint string
	if err := attributes(s, map[string]*string{"rgb": &digits, "indexed": &index, "theme": &theme, "tint": &tint}); err != nil {
		return tone{}, err
	}
	one := tone{}
	one.tint, _ = strconv.ParseFloat(tint, 64)
	for kind, text := range map[byte]string{'i': index, 't': theme} {
		if number, err := strconv.Atoi(text); err == nil && number >= 0 {
			one.kind, one.number = kind, number
		}
	}
	if digits != "" {
		one.kind, one.digits = 'r', strings.Clone(digits)
	}
	return one, nil
}

// readFill reads <fill>. Of patterns only the full one is a colour that a legend speaks of.
func readFill(s *xmlscan.Scanner) (fill tone, err error) {
	err = s.Children(func(s *xmlscan.Scanner) error {
		if !is(s, "patternFill") {
			return s.Skip()
		}
		kind, _, err := s.Attr("patternType")
		if err != nil || kind != "solid" {
			if err == nil {
				err = s.Skip()
			}
			return err
		}
		return s.Children(func(s *xmlscan.Scanner) error {
			if is(s, "fgColor") {
				var err error
				if fill, err = readTone(s); err != nil {
					return err
				}
			}
			return s.Skip()
		})
	})
	return fill, err
}

// readPalette reads the file's own palette (18.8.27), one child of <colors>.
func (b *reader) readPalette(s *xmlscan.Scanner) error {
	if !is(s, "indexedColors") {
		return s.Skip()
	}
	return s.Children(func(s *xmlscan.Scanner) error {
		digits, _, err := s.Attr("rgb")
		if err != nil {
			return err
		}
		colour, _ := sheet.ParseColour(digits)
		if len(b.palette) < palette.Size {
			b.palette = append(b.palette, colour)
		}
		return s.Skip()
	})
}

// colour returns the colour that a tone is.
func (b *reader) colour(t tone) sheet.Colour {
	switch t.kind {
	case 'r':
		colour, _ := sheet.ParseColour(t.digits)
		return tinted(colour, t.tint)
	case 'i':
		if t.number < len(b.palette) {
			return b.palette[t.number]
		}
		return palette.Colour(t.number)
	case 't':
		if scheme := b.themeColours(); t.number < len(scheme) {
			return tinted(scheme[t.number], t.tint)
		}
	}
	return 0
}

// officeTheme are the colours of the theme that programs write where nobody chose another one, in the order of their numbers.
var officeTheme = []sheet.Colour{sheet.RGB(255, 255, 255), sheet.RGB(0, 0, 0), sheet.RGB(0xe7, 0xe6, 0xe6), sheet.RGB(0x44, 0x54, 0x6a), sheet.RGB(0x44, 0x72, 0xc4),
	sheet.RGB(0xed, 0x7d, 0x31), sheet.RGB(0xa5, 0xa5, 0xa5), sheet.RGB(0xff, 0xc0, 0), sheet.RGB(0x5b, 0x9b, 0xd5), sheet.RGB(0x70, 0xad, 0x47)}

// themeOrder is by which name the colour of each number stands in the theme (20.1.6.2). The numbers 0 to 3 count the light and the dark
// colours in the other order than they stand in, as programs do and the standard does not say.
var themeOrder = []string{"lt1", "dk1", "lt2", "dk2", "accent1", "accent2", "accent3", "accent4", "accent5", "accent6", "hlink", "folHlink"}

// themeColours reads the colours of the theme when they are first asked for. A theme that cannot be read is taken for the usual one: it
// says nothing of values.
func (b *reader) themeColours() []sheet.Colour {
	if b.scheme != nil {
		return b.scheme
	}
	b.scheme = officeTheme
	text, found := b.archive.Text(b.theme)
	if !found {
		return b.scheme
	}
	defer func(part string) { b.part = part }(b.part)
	named := map[string]sheet.Colour{}
	err := b.scan(b.theme, text, spaceDrawing, "theme", func(s *xmlscan.Scanner) error {
		if s.Local != "themeElements" {
			return s.Skip()
		}
		return s.Children(func(s *xmlscan.Scanner) error {
			if s.Local != "clrScheme" {
				return s.Skip()
			}
			return s.Children(func(s *xmlscan.Scanner) error {
				name := strings.Clone(s.Local)
				return s.Children(func(s *xmlscan.Scanner) error {
					var value, last string
					if err := attributes(s, map[string]*string{"val": &value, "lastClr": &last}); err != nil {
						return err
					}
					if last == "" {
						last = value
					}
					named[name], _ = sheet.ParseColour(last)
					return s.Skip()
				})
			})
		})
	})
	if err == nil && len(named) > 0 {
		scheme := make([]sheet.Colour, len(themeOrder))
		for i, name := range themeOrder {
			scheme[i] = named[name]
		}
		b.scheme = scheme
	}
	return b.scheme
}

// tinted makes a colour lighter or darker (18.8.19): its luminance comes nearer to that of white by the share tint, or to that of black where
// tint is negative. The colours are mixed for that, which keeps the hue as the standard's way does, though of dark colours not the saturation.
func tinted(c sheet.Colour, tint float64) sheet.Colour {
	if c == 0 || tint == 0 || !(tint >= -1 && tint <= 1) {
		return c
	}
	red, green, blue := c.Parts()
	shift := func(part uint8) uint8 {
		x := float64(part)
		if tint < 0 {
			return uint8(math.Round(x * (1 + tint)))
		}
		return uint8(math.Round(x + (255-x)*tint))
	}
	return sheet.RGB(shift(red), shift(green), shift(blue))
}

// addInk adds the colour of a run.
func (t *richText) addInk(ink sheet.Colour) {
	if ink = (sheet.Paint{Ink: ink}).Seen().Ink; ink != 0 && len(t.inks) < 100 && !strings.Contains(t.inks, ink.String()) {
		t.inks += ink.String()
	}
}

// inkColours returns the colours of a text's runs.
func (t *richText) inkColours() (all []sheet.Colour) {
	for text := t.inks; len(text) >= 6; text = text[6:] {
		if colour, ok := sheet.ParseColour(text[:6]); ok {
			all = append(all, colour)
		}
	}
	return all
}
