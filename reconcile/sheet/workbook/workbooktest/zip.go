package workbooktest

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"example.com/seatline/reconcile/sheet"
)

// placeholder stands in a sheet as the library writes it for a value that the library cannot write.
const placeholder = "0"

// storedCells are the values that take the place of placeholders in one sheet, by address. A blank one is a formula
// without a stored result.
type storedCells map[string]value

// zipWriter is the archive the library writes into.
func (w *builder) zipWriter(out io.Writer) excelize.ZipWriter {
	return &archive{Writer: zip.NewWriter(out), stored: w.stored}
}

// archive holds back each sheet until it is complete and puts its values right before it goes out.
type archive struct {
	*zip.Writer
	stored map[string]storedCells

	name string
	held bytes.Buffer
}

// Create begins the next member of the archive.
func (a *archive) Create(name string) (io.Writer, error) {
	if err := a.release(); err != nil {
		return nil, err
	}
	if len(a.stored[name]) == 0 {
		return a.Writer.Create(name)
	}
	a.name = name
	return &a.held, nil
}

// Close completes the archive.
func (a *archive) Close() error {
	if err := a.release(); err != nil {
		return err
	}
	return a.Writer.Close()
}

func (a *archive) release() error {
	if a.name == "" {
		return nil
	}
	text := a.held.String()
	stored := a.stored[a.name]
	for _, at := range slices.Sorted(maps.Keys(stored)) {
		var err error
		if text, err = store(text, at, stored[at]); err != nil {
			return err
		}
	}
	member, err := a.Writer.Create(a.name)
	if err != nil {
		return err
	}
	a.name = ""
	a.held.Reset()
	_, err = io.WriteString(member, text)
	return err
}

// types are the values of a cell's t attribute; a number has none (ECMA-376 part 1, 18.18.11).
var types = map[sheet.Kind]string{sheet.Text: ` t="str"`, sheet.Bool: ` t="b"`, sheet.Error: ` t="e"`}

// store puts a value and its type into a cell of a sheet's XML.
func store(text, at string, v value) (string, error) {
	start := strings.Index(text, `<c r="`+at+`"`)
	if start < 0 {
		return "", fmt.Errorf("cell %s is not in the sheet that the library wrote", at)
	}
	end := start + strings.Index(text[start:], "</c>")
	head, body, found := strings.Cut(text[start:max(start, end)], ">")
	if !found {
		return "", fmt.Errorf("cell %s is empty in the sheet that the library wrote", at)
	}
	if before, after, typed := strings.Cut(head, ` t="`); typed {
		_, after, _ = strings.Cut(after, `"`)
		head = before + after
	}
	if v.kind != sheet.Blank {
		result := v.text
		if v.kind == sheet.Bool {
			result = map[string]string{"TRUE": "1", "FALSE": "0"}[v.text]
		}
		var escaped strings.Builder
		if err := xml.EscapeText(&escaped, []byte(result)); err != nil {
			return "", err
		}
		body = strings.Replace(body, "<v>"+placeholder+"</v>", "<v>"+escaped.String()+"</v>", 1)
	}
	return text[:start] + head + types[v.kind] + ">" + body + text[end:], nil
}
