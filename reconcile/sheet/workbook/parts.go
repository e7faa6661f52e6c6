package workbook

import (
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

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
	var ids []int
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
		case is(s, "cellXfs"):
			return s.Children(func(s *xmlscan.Scanner) error {
				id, err := number(s, "numFmtId", 0)
				if err != nil {
					return err
				}
				ids = append(ids, id)
				return s.Skip()
			})
		}
		return s.Skip()
	})
	if err != nil {
		return err
	}
	formats := map[int]style{}
	for _, id := range ids {
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
		text, err := richText(s, preserve)
		b.strings = append(b.strings, text)
		return err
	})
}

// richText reads the text inside <si> or <is>: that of <t>, or of the runs <r><t>; phonetic guides are left out.
func richText(s *xmlscan.Scanner, preserve bool) (string, error) {
	preserve = preserve || s.Preserves()
	var whole xmlscan.Pieces
	err := s.Children(func(s *xmlscan.Scanner) error {
		switch {
		case is(s, "t"):
			text, err := content(s, preserve)
			whole.Add(text)
			return err
		case is(s, "r"):
			preserve := preserve || s.Preserves()
			return s.Children(func(s *xmlscan.Scanner) error {
				if !is(s, "t") {
					return s.Skip()
				}
				text, err := content(s, preserve)
				whole.Add(text)
				return err
			})
		}
		return s.Skip()
	})
	return whole.String(), err
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
