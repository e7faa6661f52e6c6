// Package open reads a file of a supplier whatever it is: it looks at the content, not at the name, and calls the reader
// for it. A name that says something else is worth a note, since the person who has the file may look for another one.
package open

import (
	"archive/zip"
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/biff"
	"example.com/seatline/reconcile/sheet/formula"
	"example.com/seatline/reconcile/sheet/internal/sniff"
	"example.com/seatline/reconcile/sheet/opendocument"
	"example.com/seatline/reconcile/sheet/text"
	"example.com/seatline/reconcile/sheet/webpage"
	"example.com/seatline/reconcile/sheet/workbook"
)

// CodeName is the code of the note that the name of a file says something else than its content.
const CodeName = "file.name"

// File reads the file at a path, which findings and errors call it by, within the default limits. Errors are of type [*sheet.FileError].
func File(path string) (*sheet.Book, error) {
	data, err := Content(path, "file", sheet.Limits{})
	if err != nil {
		return nil, err
	}
	return Bytes(path, data)
}

// The endings of names that fit a content.
var (
	workbookNames     = []string{".xlsx", ".xlsm", ".xltx", ".xltm"}
	openDocumentNames = []string{".ods", ".ots"}
	oldNames          = []string{".xls", ".xlt"}
	pageNames         = []string{".html", ".htm", ".xhtml"}
	textNames         = []string{".csv", ".tsv", ".txt", ".tab", ".asc", ".dat", ".prn", ".json", ".jsonl", ".ndjson", ".xml", ".ini", ".conf", ".log"}
)

// Bytes is [Within] the default limits.
func Bytes(name string, data []byte) (*sheet.Book, error) { return Within(name, data, sheet.Limits{}) }

// Within reads the content of a file; name is what findings and errors call it. Errors are of type [*sheet.FileError].
func Within(name string, data []byte, limits sheet.Limits) (*sheet.Book, error) {
	found := sniff.Bytes(data)
	if found.Form == sniff.Excel97 {
		book, err := biff.ReadWithin(name, bytes.NewReader(data), limits)
		return finish(book, err, "a workbook in the old xls format", oldNames)
	}
	if found.Form == sniff.Page {
		book, err := webpage.ReadWithin(name, data, limits)
		return finish(book, err, "a web page", pageNames)
	}
	if err := found.Err(name); err != nil {
		return nil, err
	}
	if found.Form == sniff.Zip && tooMany(data) {
		return nil, limits.Beyond(name, "", "sheets", "it has too many members")
	}
	if found.Form == sniff.Zip && IsArchive(data) {
		return nil, &sheet.FileError{File: name, Reason: sheet.ReasonUnsupported, Problem: "it is a zip archive of files", Next: "unpack it and name the sheets"}
	}
	if found.Form == sniff.Zip && isOpenDocument(data) {
		book, err := opendocument.ReadWithin(name, bytes.NewReader(data), int64(len(data)), limits)
		return finish(book, err, "an OpenDocument spreadsheet", openDocumentNames)
	}
	if found.Form == sniff.Zip {
		book, err := workbook.ReadWithin(name, bytes.NewReader(data), int64(len(data)), limits)
		return finish(book, err, "a workbook", workbookNames)
	}
	book, err := text.ReadWithin(name, data, limits)
	return finish(book, err, "a text file", textNames)
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

// finish works out what formulas the file stores no results of, and notes a name that says something else than the content.
func finish(book *sheet.Book, err error, content string, endings []string) (*sheet.Book, error) {
	if err != nil {
		return nil, err
	}
	formula.Fill(book)
	ending := strings.ToLower(filepath.Ext(book.File))
	if ending != "" && !slices.Contains(endings, ending) {
		book.Notes = append(book.Notes, sheet.Note{Code: CodeName,
			Message: fmt.Sprintf("the name ends in %s, but the content is %s and was read as that", ending, content)})
	}
	return book, nil
}
