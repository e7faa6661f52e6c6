package workbook

import (
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/runs"
	"example.com/seatline/reconcile/sheet/internal/xmlscan"
	"example.com/seatline/reconcile/sheet/numfmt"
)

// readStyles reads the number format of each cell format.
func (b *reader) readStyles(part string) error {
	text, found := b.archive.Text(part)
	if !found {
		return b.missing(part, "the styles")
	}
	codes := map[int]string{}
	type cellFormat struct{ number, font, fill int }
	var cells []cellFormat
	var fonts []fontLook
	var fills []tone
	err := b.scan(part, text, spaceMain, "styleSheet", func(s *xmlscan.Scanner) error {
		switch {
		case is(s, "numFmts"):
			return s.Children(func(s *xmlscan.Scanner) error {
				id, err := number(s, "numFmtId", 0)
				if err != nil {
					return err
				}
				code, _, err := s.Attr("formatCode")
				if err != nil {
					return err
				}
				codes[id] = unescape(code)
				return s.Skip()
			})
		case is(s, "fonts"):
			return s.Children(func(s *xmlscan.Scanner) error {
				look, err := readLook(s)
				fonts = append(fonts, look)
				return err
			})
		case is(s, "fills"):
			return s.Children(func(s *xmlscan.Scanner) error {
				fill, err := readFill(s)
				fills = append(fills, fill)
				return err
			})
		case is(s, "colors"):
			return s.Children(b.readPalette)
		case is(s, "cellXfs"):
			return s.Children(func(s *xmlscan.Scanner) error {
				id, err := number(s, "numFmtId", 0)
				if err != nil {
					return err
				}
				font, err := number(s, "fontId", 0)
				if err != nil {
					return err
				}
				fill, err := number(s, "fillId", 0)
				if err != nil {
					return err
				}
				cells = append(cells, cellFormat{id, font, fill})
				return s.Skip()
			})
		}
		return s.Skip()
	})
	if err != nil {
		return err
	}
	formats := map[int]style{}
	for _, cell := range cells {
		id := cell.number
		one, known := formats[id]
		if !known {
			code, listed := codes[id]
			if !listed {
				code, _ = numfmt.Builtin(id)
			}
			if strings.EqualFold(code, "General") {
				code = ""
			}
			if one.code = code; code != "" {
				one.format = numfmt.Parse(code)
			}
			formats[id] = one
		}
		one.struck, one.paint = false, sheet.Paint{}
		if cell.font < len(fonts) {
			one.struck, one.paint.Ink = fonts[cell.font].Struck, b.colour(fonts[cell.font].ink)
		}
		if cell.fill < len(fills) {
			one.paint.Fill = b.colour(fills[cell.fill])
		}
		one.paint = one.paint.Seen()
		b.strikes, b.paints = b.strikes || one.struck, b.paints || one.paint != sheet.Paint{}
		b.styles = append(b.styles, one)
	}
	return nil
}

// number reads an attribute that is a whole number.
func number(s *xmlscan.Scanner, name string, missing int) (int, error) {
	text, found, err := s.Attr(name)
	if err != nil || !found {
		return missing, err
	}
	value, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || value < 0 {
		return 0, s.Fail("%s is %q and no whole number", name, text)
	}
	return value, nil
}

// readStrings reads the table of shared strings.
func (b *reader) readStrings(part string) error {
	text, found := b.archive.Text(part)
	if !found {
		return b.missing(part, "the texts")
	}
	b.part = part
	s := xmlscan.New(text, spaces)
	if err := expectRoot(s, spaceMain, "sst"); err != nil {
		return err
	}
	preserve := s.Preserves()
	return s.Root(func(s *xmlscan.Scanner) error {
		if !is(s, "si") {
			return s.Skip()
		}
		text, err := b.richText(s, preserve)
		if text.odd() {
			if b.rich == nil {
				b.rich = map[int]richText{}
			}
			b.rich[len(b.strings)] = text
		}
		b.strings = append(b.strings, text.usual.text)
		return err
	})
}

// written is a text, and what of it is struck out.
type written struct{ text, struck string }

// richText is a text as it is in a cell of a usual font, and in one whose font strikes out: there, the runs that have no font of their own
// are struck out too. The latter is only made in a workbook that has such a font.
type richText struct {
	usual, inStruck written
	fonts           bool // some runs have a font of their own
	// inks are the colours of its runs that have one, each once, as text: RRGGBB RRGGBB.
	inks string
}

// odd reports whether there is more to know of a text than what it is in a cell of a usual font.
func (t *richText) odd() bool { return t.usual.struck != "" || t.fonts || t.inks != "" }

// in returns the text as it is in a cell of a style.
func (t *richText) in(st style) written {
	if st.struck {
		return t.inStruck
	}
	return t.usual
}

// richText reads the text inside <si>, <is> or <text>: that of <t>, or of the runs <r><t>; phonetic guides are left out.
func (b *reader) richText(s *xmlscan.Scanner, preserve bool) (richText, error) {
	preserve = preserve || s.Preserves()
	var all richText
	var usual, inStruck runs.Text
	add := func(text string, look runs.Look, own bool) {
		usual.Add(text, look)
		if b.strikes {
			look.Struck = look.Struck || !own
			inStruck.Add(text, look)
			all.fonts = all.fonts || own
		}
	}
	err := s.Children(func(s *xmlscan.Scanner) error {
		switch {
		case is(s, "t"):
			text, err := content(s, preserve)
			add(text, runs.Look{}, false)
			return err
		case is(s, "r"):
			preserve := preserve || s.Preserves()
			var look fontLook
			own := false
			return s.Children(func(s *xmlscan.Scanner) error {
				var err error
				switch {
				case is(s, "rPr"):
					look, err = readLook(s)
					own = true
				case is(s, "t"):
					var text string
					text, err = content(s, preserve)
					if add(text, look.Look, own); strings.TrimSpace(text) != "" && !look.Struck {
						all.addInk(b.colour(look.ink))
					}
				default:
					err = s.Skip()
				}
				return err
			})
		}
		return s.Skip()
	})
	all.usual.text, all.usual.struck = usual.Result()
	all.inStruck.text, all.inStruck.struck = inStruck.Result()
	return all, err
}

// fontLook is what a font says of how its text stands, and in which colour.
type fontLook struct {
	runs.Look
	ink tone
}

// readLook reads a font, <font> or <rPr> (ECMA-376-1, 18.4.10, 18.4.14 and 18.3.1.15).
func readLook(s *xmlscan.Scanner) (look fontLook, err error) {
	err = s.Children(func(s *xmlscan.Scanner) error {
		value, given, err := s.Attr("val")
		if err != nil {
			return err
		}
		switch {
		case is(s, "strike"):
			look.Struck = !given || isTrue(value)
		case is(s, "vertAlign"):
			look.Raised, look.Lowered = value == "superscript", value == "subscript"
		case is(s, "color"):
			if look.ink, err = readTone(s); err != nil {
				return err
			}
		}
		return s.Skip()
	})
	return look, err
}

// content reads the text of the current element as a person meant it: without white space around it unless the file
// asks for that, and with its escapes resolved.
func content(s *xmlscan.Scanner, preserve bool) (string, error) {
	preserve = preserve || s.Preserves()
	text, err := s.Content()
	if !preserve {
		text = strings.Trim(text, " \t\r\n")
	}
	return unescape(text), err
}

// unescape resolves _xHHHH_, by which a workbook writes characters that XML cannot hold (ECMA-376-1, 22.9.2.19,
// ST_Xstring). Two of them may form a surrogate pair.
func unescape(text string) string {
	at := strings.Index(text, "_x")
	if at < 0 {
		return text
	}
	var out strings.Builder
	for at >= 0 {
		out.WriteString(text[:at])
		text = text[at:]
		unit, ok := escape(text)
		if !ok {
			out.WriteString("_x")
			text = text[2:]
			at = strings.Index(text, "_x")
			continue
		}
		r, length := rune(unit), escapeLength
		if second, follows := escape(text[length:]); follows && utf16.IsSurrogate(r) {
			if pair := utf16.DecodeRune(r, rune(second)); pair != utf8.RuneError {
				r, length = pair, 2*escapeLength
			}
		}
		if utf16.IsSurrogate(r) {
			out.WriteString(text[:length])
		} else {
			out.WriteRune(r)
		}
		text = text[length:]
		at = strings.Index(text, "_x")
	}
	out.WriteString(text)
	return out.String()
}

const escapeLength = len("_x000D_")

// escape reads an escape at the start of a text.
func escape(text string) (uint16, bool) {
	if len(text) < escapeLength || text[0] != '_' || text[1] != 'x' || text[6] != '_' {
		return 0, false
	}
	unit, err := strconv.ParseUint(text[2:6], 16, 16)
	return uint16(unit), err == nil
}
