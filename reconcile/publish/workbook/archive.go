package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"path"
	"regexp"
	"slices"
	"strings"
)

// contentTypes is the member of a workbook that says what the others are; readers that stream want it first.
const contentTypes = "[Content_Types].xml"

// inOrder writes a workbook with its members in a fixed order, and as the format wants what the library does not do so itself:
//
//   - The library keeps the sheets it streams, and the types of content by default, in maps and writes them in whatever order that
//     gives, so that the same workbook would have other bytes each time.
//   - A link to a cell of another workbook has the file as its target and the cell as its location (ECMA-376, part 1, 18.3.1.47);
//     the library knows only a target, in which the cell stands behind a #.
func inOrder(w io.Writer, workbook []byte) error {
	archive, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		return fmt.Errorf("putting the workbook's members in order: %w", err)
	}
	members := slices.Clone(archive.File)
	slices.SortFunc(members, func(a, b *zip.File) int {
		if first := a.Name == contentTypes; first != (b.Name == contentTypes) {
			if first {
				return -1
			}
			return 1
		}
		return strings.Compare(a.Name, b.Name)
	})
	changed, err := rewritten(members)
	if err != nil {
		return err
	}
	out := zip.NewWriter(w)
	for _, member := range members {
		if text, is := changed[member.Name]; is {
			err = writeMember(out, member, text)
		} else {
			err = out.Copy(member) // nothing else is compressed anew
		}
		if err != nil {
			return fmt.Errorf("putting the workbook's members in order: %s: %w", member.Name, err)
		}
	}
	return out.Close()
}

// rewritten are the members that do not stay as they are.
func rewritten(members []*zip.File) (map[string][]byte, error) {
	changed := map[string][]byte{}
	cells := map[string]map[string]string{} // for each sheet, the cell that a relationship leads to
	for _, member := range members {
		sheet, isRels := strings.CutSuffix(member.Name, ".rels")
		isRels = isRels && strings.HasPrefix(member.Name, "xl/worksheets/_rels/")
		if member.Name != contentTypes && !isRels {
			continue
		}
		text, err := readMember(member)
		if err != nil {
			return nil, err
		}
		if !isRels {
			changed[member.Name] = sortTypes(text)
			continue
		}
		if files, cell := splitTargets(text); len(cell) > 0 {
			changed[member.Name] = files
			cells["xl/worksheets/"+path.Base(sheet)] = cell
		}
	}
	for _, member := range members {
		cell, linked := cells[member.Name]
		if !linked {
			continue
		}
		text, err := readMember(member)
		if err != nil {
			return nil, err
		}
		changed[member.Name] = addLocations(text, cell)
	}
	return changed, nil
}

func readMember(member *zip.File) (text []byte, err error) {
	in, err := member.Open()
	if err == nil {
		defer func() {
			if closing := in.Close(); err == nil {
				err = closing
			}
		}()
		text, err = io.ReadAll(in)
	}
	if err != nil {
		return nil, fmt.Errorf("putting the workbook's members in order: %s: %w", member.Name, err)
	}
	return text, nil
}

func writeMember(out *zip.Writer, member *zip.File, text []byte) error {
	w, err := out.CreateHeader(&zip.FileHeader{Name: member.Name, Method: zip.Deflate, Modified: member.Modified})
	if err != nil {
		return err
	}
	_, err = w.Write(text)
	return err
}

var defaultType = regexp.MustCompile(`<Default [^>]*>(</Default>)?`)

// sortTypes puts the types of content by default in order.
func sortTypes(text []byte) []byte {
	sorted := defaultType.FindAll(text, -1)
	slices.SortFunc(sorted, bytes.Compare)
	at := 0
	return defaultType.ReplaceAllFunc(text, func([]byte) []byte {
		at++
		return sorted[at-1]
	})
}

var (
	relationship = regexp.MustCompile(`<Relationship [^>]*>`)
	relationID   = regexp.MustCompile(` Id="([^"]*)"`)
	cellTarget   = regexp.MustCompile(` Target="([^"#]*)#([^"]*)"`)
	linkID       = regexp.MustCompile(`<hyperlink [^>]*:id="([^"]*)"`)
)

// splitTargets takes the cells off the targets of relationships and returns them by relationship. All stays escaped as XML. A # can
// only be the mark before a cell: in a path it is escaped.
func splitTargets(text []byte) (files []byte, cells map[string]string) {
	cells = map[string]string{}
	files = relationship.ReplaceAllFunc(text, func(one []byte) []byte {
		id, target := relationID.FindSubmatch(one), cellTarget.FindSubmatch(unquoted(one))
		if id == nil || target == nil {
			return one
		}
		cells[string(id[1])] = string(target[2])
		return cellTarget.ReplaceAll(unquoted(one), []byte(` Target="$1"`))
	})
	return files, cells
}

// unquoted writes apostrophes as they are, which have a # in the way that the library escapes them.
func unquoted(text []byte) []byte { return bytes.ReplaceAll(text, []byte("&#39;"), []byte("'")) }

// addLocations gives the links of a sheet the cells that their relationships lead to.
func addLocations(text []byte, cells map[string]string) []byte {
	return linkID.ReplaceAllFunc(text, func(one []byte) []byte {
		cell, known := cells[string(linkID.FindSubmatch(one)[1])]
		if !known {
			return one
		}
		return append(one[:len(one):len(one)], ` location="`+cell+`"`...)
	})
}
