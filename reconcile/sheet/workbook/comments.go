package workbook

import (
	"errors"
	"fmt"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/xmlscan"
)

// comments reads what people have written beside the cells of a sheet: threads of comments, and the older comments, which newer programs call
// notes and write beside a thread too, for older programs. Comments that cannot be read are no reason to refuse the cells.
func (b *reader) comments(g *grid, part string) error {
	relations, err := b.relations(part)
	if err != nil {
		return err
	}
	threads := map[sheet.Ref]bool{}
	for _, kind := range []string{"threadedComment", "comments"} {
		for _, one := range relations {
			if one.kind != kind || one.external {
				continue
			}
			err := b.readComments(g, one.target, kind == "comments", threads)
			var beyond *sheet.FileError
			if errors.As(err, &beyond) {
				return err
			}
			if err != nil {
				b.book.Notes = append(b.book.Notes, sheet.Note{Code: CodeComments, Sheet: g.out.Name,
					Message: fmt.Sprintf("the comments of the sheet cannot be read whole (%s: %v); look at them in a spreadsheet program", one.target, err)})
			}
		}
	}
	return nil
}

// readComments reads a part with comments. Where the cell has a thread already, an older comment repeats it.
func (b *reader) readComments(g *grid, part string, older bool, threads map[sheet.Ref]bool) error {
	text, found := b.archive.Text(part)
	if !found {
		return b.missing(part, "them")
	}
	take := func(s *xmlscan.Scanner) error {
		ref, _, err := s.Attr("ref")
		if err != nil {
			return err
		}
		area, ok := parseArea(ref)
		if !ok {
			return s.Fail("%q is no cell of a sheet", ref)
		}
		return s.Children(func(s *xmlscan.Scanner) error {
			if s.Local != "text" {
				return s.Skip()
			}
			text, err := b.commentText(s, older)
			switch {
			case err != nil:
				return err
			case older && threads[area.From] || text == "":
				return nil
			case !older:
				threads[area.From] = true
			}
			return b.meter.Comment(g.out, area.From, strings.Clone(text))
		})
	}
	space, root := spaceThreads, "ThreadedComments"
	if older {
		space, root = spaceMain, "comments"
	}
	defer func(before string) { b.part = before }(b.part)
	return b.scan(part, text, space, root, func(s *xmlscan.Scanner) error {
		switch {
		case !older && s.Local == "threadedComment":
			return take(s)
		case older && is(s, "commentList"):
			return s.Children(take)
		}
		return s.Skip()
	})
}

// commentText reads <text>, which holds runs in an older comment, and nothing else in a thread.
func (b *reader) commentText(s *xmlscan.Scanner, older bool) (string, error) {
	if !older {
		return s.Content()
	}
	text, err := b.richText(s, true)
	return text.usual.text, err
}
