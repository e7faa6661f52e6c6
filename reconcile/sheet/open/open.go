// Package open reads a file of a supplier whatever it is: it looks at the content, not at the name, and calls the reader
// for it. A name that says something else is worth a note, since the person who has the file may look for another one.
package open

import (
	"archive/zip"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/internal/sniff"
	"example.com/seatline/reconcile/sheet/opendocument"
	"example.com/seatline/reconcile/sheet/text"
	"example.com/seatline/reconcile/sheet/workbook"
)

// CodeName is the code of the note that the name of a file says something else than its content.
const CodeName = "file.name"

// MaxBytes is the size of the largest file that is read. Workbooks and texts have narrower limits of their own.
const MaxBytes = 512 << 20

// File reads the file at a path, which findings and errors call it by. Errors are of type [*sheet.FileError].
func File(path string) (*sheet.Book, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, unreadable(path, err)
	}
	if info.IsDir() {
		return nil, &sheet.FileError{File: path, Reason: sheet.ReasonUnreadable, Problem: "it is a folder", Next: "name the files in it"}
	}
	if info.Size() > MaxBytes {
		return nil, &sheet.FileError{File: path, Reason: sheet.ReasonTooBig, Problem: fmt.Sprintf("it is larger than %d MB", MaxBytes>>20),
			Next: "save only the sheets that are needed in a new workbook"}
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	return Bytes(path, data)
}

func unreadable(path string, err error) error {
	return &sheet.FileError{File: path, Reason: sheet.ReasonUnreadable, Problem: "it cannot be opened (" + cause(err) + ")",
		Next: "check the name and whether another program holds it", Err: err}
}

// cause leaves out the path, which the message has already.
func cause(err error) string {
	if inner, ok := err.(*os.PathError); ok {
		return inner.Err.Error()
	}
	return err.Error()
}

// The endings of names that fit a content.
var (
	workbookNames     = []string{".xlsx", ".xlsm", ".xltx", ".xltm"}
	openDocumentNames = []string{".ods", ".ots"}
	textNames         = []string{".csv", ".tsv", ".txt", ".tab", ".asc", ".dat", ".prn"}
)

// Bytes reads the content of a file; name is what findings and errors call it. Errors are of type [*sheet.FileError].
func Bytes(name string, data []byte) (*sheet.Book, error) {
	found := sniff.Bytes(data)
	if err := found.Err(name); err != nil {
		return nil, err
	}
	if found.Form == sniff.Zip && isOpenDocument(data) {
		book, err := opendocument.Read(name, bytes.NewReader(data), int64(len(data)))
		return checkName(book, err, "an OpenDocument spreadsheet", openDocumentNames)
	}
	if found.Form == sniff.Zip {
		book, err := workbook.Read(name, bytes.NewReader(data), int64(len(data)))
		return checkName(book, err, "a workbook", workbookNames)
	}
	book, err := text.Read(name, data)
	return checkName(book, err, "a text file", textNames)
}

// isOpenDocument tells the two kinds of zip archives apart by their members. What is no archive that can be opened is left
// to the reader of workbooks, which says why.
func isOpenDocument(data []byte) bool {
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return false
	}
	content := false
	for _, member := range archive.File {
		switch member.Name {
		case "content.xml":
			content = true
		case "[Content_Types].xml", "xl/workbook.xml":
			return false
		}
	}
	return content
}

// checkName notes a name that says something else than the content.
func checkName(book *sheet.Book, err error, content string, endings []string) (*sheet.Book, error) {
	if err != nil {
		return nil, err
	}
	ending := strings.ToLower(filepath.Ext(book.File))
	if ending != "" && !slices.Contains(endings, ending) {
		book.Notes = append(book.Notes, sheet.Note{Code: CodeName,
			Message: fmt.Sprintf("the name ends in %s, but the content is %s and was read as that", ending, content)})
	}
	return book, nil
}
