package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
)

// contentTypes is the member of a workbook that says what the others are; readers that stream want it first.
const contentTypes = "[Content_Types].xml"

// inOrder writes a workbook with its members in a fixed order. The library keeps the sheets it streams in a map and writes them
// in whatever order that gives, so that the same workbook would have other bytes each time. Nothing is compressed anew.
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
		if err := out.Copy(member); err != nil {
			return fmt.Errorf("putting the workbook's members in order: %s: %w", member.Name, err)
		}
	}
	return out.Close()
}
