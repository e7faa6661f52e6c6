package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
)

// contentTypes is the member of a workbook that says what the others are; readers that stream want it first.
const contentTypes = "[Content_Types].xml"

// inOrder writes a workbook with its members in a fixed order. The library keeps the sheets it streams, and the types of content
// by default, in maps and writes them in whatever order that gives, so that the same workbook would have other bytes each time.
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
	out := zip.NewWriter(w)
	for _, member := range members {
		if member.Name == contentTypes {
			err = copyTypes(out, member)
		} else {
			err = out.Copy(member) // nothing is compressed anew
		}
		if err != nil {
			return fmt.Errorf("putting the workbook's members in order: %s: %w", member.Name, err)
		}
	}
	return out.Close()
}

var defaultType = regexp.MustCompile(`<Default [^>]*>(</Default>)?`)

// copyTypes writes the types of content with their defaults in order.
func copyTypes(out *zip.Writer, member *zip.File) (err error) {
	in, err := member.Open()
	if err != nil {
		return err
	}
	defer func() {
		if closing := in.Close(); err == nil {
			err = closing
		}
	}()
	text, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	sorted := defaultType.FindAll(text, -1)
	slices.SortFunc(sorted, bytes.Compare)
	at := 0
	text = defaultType.ReplaceAllFunc(text, func([]byte) []byte {
		at++
		return sorted[at-1]
	})
	w, err := out.CreateHeader(&zip.FileHeader{Name: member.Name, Method: zip.Deflate, Modified: member.Modified})
	if err != nil {
		return err
	}
	_, err = w.Write(text)
	return err
}
